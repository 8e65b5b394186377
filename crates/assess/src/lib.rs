//! Rules and verdict over a network: one rule, one file.

mod acceptance;
mod assess;
mod assessment;
pub mod calculation;
pub mod door;
mod grade;
mod in_hand;
pub mod physics;
pub mod physics_summary;
pub mod rule;
pub mod rules;
pub mod supply;
pub mod touch_limits;

pub use assess::{assess, assess_trial, assess_with, assess_without_mending};
pub use assessment::{
    Assessment, DeviceResult, NotJudged, RunSummary, SourceSummary, StateSummary, Verdict, WorstCurrent,
    WorstVoltage,
};
pub use calculation::{CalculationLine, Rounding};
pub use door::DoorSheet;
pub use latchline_network::Memory;
pub use supply::SupplySheet;

use latchline_finding::CodeDoc;

/// The manual pages of everything that can be found: in the files, then by the rules.
pub fn codes() -> impl Iterator<Item = &'static CodeDoc> {
    rules::ALL.iter().map(|rule| &rule.doc)
}
