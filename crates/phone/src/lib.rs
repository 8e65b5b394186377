//! The page that installers use on a phone.
//!
//! What the page asks and expects is what the commissioning sheets of the pack ask and expect
//! ([`latchline_pack::commissioning`]); nothing is computed here.
//!
//! * [`plan`]: the job as data: steps, devices, terminals, switches, ranges;
//! * [`html`](mod@html): the page as one file with everything in it.
//!
//! Nothing here touches a file.

pub mod html;
pub mod plan;

pub use html::{html, policy};
pub use plan::{Plan, PlanStep};
