//! Job cards: one for each place where somebody stands and works, with everything that is done there.
//!
//! * [`data`]: what a card says, as words and figures that are ready to be shown;
//! * `notes`: what is said once for several places; `small_switch`: switches in a line;
//! * `lines`: lettering and its lines; `strip`: terminals drawn with what lands on them; `steps`: readings and boxes;
//! * `block`: one device; `fill`: where blocks stand, by their heights; `flow`: blocks drawn there; `sheets`: the sheets with head and foot.

mod block;
pub mod data;
mod fill;
mod flow;
mod lines;
mod notes;
mod sheets;
mod small_switch;
mod steps;
mod strip;

pub use data::{CardBlock, CardCode, CardSet, CardStep, CardWire, DoorPicture, JobCardPicture, StripSet};
pub use data::{CardPower, StripTerminal, WireColour};
pub use sheets::job_card_sheets;
