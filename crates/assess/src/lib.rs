//! Rules and verdict over a network: one rule, one file.

mod assessment;

pub use assessment::{
    Assessment, DeviceResult, NotJudged, RunSummary, SourceSummary, StateSummary, Verdict, WorstCurrent,
    WorstVoltage,
};
