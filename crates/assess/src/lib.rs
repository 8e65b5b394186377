//! Rules and verdict over a network: one rule, one file.
//!
//! What renderers show of the network (readings, devices, sections) is re-exported here as data, so that they need
//! neither the network nor the circuit beneath it.

mod acceptance;
mod assess;
mod assessing;
mod assessment;
pub mod calculation;
mod collapsed;
pub mod comparison;
pub mod context;
pub mod door;
mod existing;
mod existing_cable;
mod grade;
pub mod jobs;
mod margin_step;
mod not_judged;
mod physics;
pub mod physics_summary;
mod readings;
pub mod rule;
pub mod rules;
pub mod stage;
mod stopwatch;
pub mod supply;
pub mod touch_limits;
mod verdict;
mod voltage_summary;

pub use assess::{assess, assess_trial, assess_with, is_allowed};
pub use assessing::Assessing;
pub use assessment::{
    Assessment, DeviceResult, FirstLimit, Limited, RunSummary, SourceSummary, StateSummary, StateVoltage,
    Verdict, VoltageResults, WorstCurrent, WorstVoltage, least_margin,
};
pub use calculation::{CalculationLine, Rounding};
pub use door::DoorSheet;
pub use existing_cable::{ExistingCable, ExistingRun, JudgedApart, ShortApart, SignalThrough};
pub use latchline_network::conductor_size::{ConductorSize, conductor_size};
pub use latchline_network::demand::LoadPart;
pub use latchline_network::readings::{
    Basis, DROP_METER_V, Estimate, JointThatFails, NoPrediction, Path, PathSegment, Prediction, Reading,
    ReadingPlace, Readings, RunCall, RunFeed, SectionJoint,
};
pub use latchline_network::resistance::MEASUREMENT_TOLERANCE;
pub use latchline_network::start_up::Effort;
pub use latchline_network::{
    BusState, Corner, Device, GivenUp, Memory, Segment, StageSource, StandingCall, Wanted, WorkDone,
};
pub use latchline_words::missing::Missing;
pub use margin_step::MarginStep;
pub use not_judged::NotJudged;
pub use readings::predicted_readings;
pub use rules::Depth;
pub use stage::Stage;
pub use supply::{BatteryFigures, SupplySheet};
pub use verdict::VerdictSoFar;

use latchline_finding::CodeDoc;

/// The manual pages of everything that can be found: in the files, then by the rules.
pub fn codes() -> impl Iterator<Item = &'static CodeDoc> {
    latchline_site::codes::CODES.iter().chain(rules::ALL.iter().map(|rule| &rule.doc))
}
