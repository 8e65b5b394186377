//! The page that installers use on a phone, and the readings that come back from it.
//!
//! What the page asks and expects is what the commissioning sheets of the pack ask and expect
//! ([`latchline_handover::commissioning`]); nothing is computed here.
//!
//! * [`plan`]: the job as data: steps, devices, terminals, switches, ranges; `making`: made from what a pack is made from;
//! * [`html`](mod@html): the page as one file with everything in it;
//! * [`exported`]: the files of readings that the page writes, read with suspicion;
//! * [`merged`]: several of them as one, and what stands of it;
//! * [`comparison`]: what stands, held against the plan;
//! * [`as_built`]: what of it can stand in the site file, as edits.
//!
//! Nothing here touches a file.

pub mod as_built;
pub mod comparison;
pub mod exported;
mod faults;
pub mod html;
mod making;
pub mod merged;
pub mod plan;

pub use as_built::{AsBuilt, Correction};
pub use comparison::{Comparison, Judgement, Side};
pub use exported::{Event, ExportedFile, FileProblem};
pub use html::{html, policy};
pub use merged::Merged;
pub use plan::{PlanStep, WorkPlan};
