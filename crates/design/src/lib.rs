//! From a survey to the cheapest site file that passes every rule, within a declared design space.
//!
//! * [`instance`]: a survey and a family made ready: [`items`], [`parts`], [`limits`];
//! * [`electric`]: what a run alone can bear, as a necessary condition;
//! * [`runs`]: every run of the space with its cheapest cable: chains, and those with [`branches`]; [`sections`](mod@sections): ways and
//!   their lengths; [`laid`]: a run laid out;
//! * [`locks`]: what the survey says is decided;
//! * [`loads`]: what neighbours ask of a supply at the least;
//! * [`plan`] and [`planning`]: the cheapest plan, and with relaxed assumptions the lower bound;
//! * `settled`: what the family's numbering asks of a survey;
//! * [`emit`]: the site file;
//! * [`judge`]: the file resolved and assessed as `check` does it;
//! * [`search`]: the cheapest plan of a walking order that is not rejected, learning from those that are;
//! * [`order`] and [`bus`]: all walking orders of one bus, its design, its bound;
//! * [`groups`], [`shape`](mod@shape), [`partition`](mod@partition) and [`design()`]: who calls whom, which buses are alike, which share one; the whole;
//! * [`alternatives`](mod@alternatives): designs to choose between, and the [`merits`] that they are compared by;
//! * [`change()`]: an installed site changed as a newer survey asks;
//! * [`space`]: the declared space in words; [`blame`]: which limit costs what, or forbids all.
//!
//! *The bound.* The plan under [`planning::relaxed`] is the least cost over a set that holds every
//! design of the declared space that passes: trunks at the price of the cheapest cable, every run fed from the best head (no loss
//! on trunks, no other load). A run or zone that fails there fails in every design, by monotony of the flow: for
//! loads whose current does not rise with voltage, adding load or resistance lowers every voltage. The
//! certificate is the dynamic programme's own value, an exact minimum in whole millionths. Among plans of equal cost the one whose broken joints silence fewest is taken.

pub mod alternatives;
pub mod arrangement;
pub mod blame;
mod blocks;
pub mod branches;
pub mod bus;
pub mod change;
pub mod design;
mod draw;
mod effort;
pub mod electric;
pub mod emit;
mod emit_runs;
mod emit_text;
pub mod groups;
pub mod hub;
pub mod instance;
pub mod item;
pub mod items;
pub mod judge;
pub mod laid;
pub mod limits;
pub mod loads;
pub mod locks;
pub mod merits;
pub mod money;
pub mod obstacle;
pub mod order;
pub mod outcome;
pub mod partition;
pub mod parts;
pub mod plan;
pub mod planning;
pub mod runs;
pub mod search;
pub mod sections;
mod settled;
pub mod shape;
pub mod space;
mod station_load;
pub mod toml_text;
mod trace;
pub mod ways_out;
mod zones;

pub use alternatives::{Alternative, Asked, Choice, LeftOut, Why, alternatives};
pub use change::{Changed, change};
pub use design::{design, design_remembering};
pub use effort::Effort;
pub use merits::{Merits, warnings};
pub use obstacle::Obstacle;
pub use outcome::{Binding, Design, Texts};
pub use ways_out::{WayOut, ways_out};
