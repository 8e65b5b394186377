//! `start-up-hiccups`

use super::start_up_fails::about_stage;
use crate::rule::{Report, rule};
use crate::stage::WithStartUp;
use latchline_finding::{CodeDoc, Figure, Unit};
use latchline_network::start_up::StartUpOutcome;

rule! {
    /// # What it checks
    /// Power return as in `start-up-fails`: whether the supply trips and tries again without end, or stations
    /// start, pull the bus down and drop out again and again.
    ///
    /// # Why it matters
    /// After a power cut the building clicks every two seconds and nothing works. By the next day somebody has swapped
    /// the supply for another of the same kind.
    ///
    /// # Example
    /// A-PS trips 50 ms after it has started, waits 2 s and tries again: the capacitors of 46 stations ask for more than its limit.
    ///
    /// # What to do
    /// A supply with a higher limit or one that holds its current, stations with delays that differ from run to run, or
    /// several supplies.
    pub static START_UP_HICCUPS: "start-up-hiccups", Error,
        "Power return starts and drops out again and again", reads StartUp, check
}

fn check(doc: &CodeDoc, context: &WithStartUp<'_>, report: &mut Report) {
    for start in &context.start_up.stages {
        let StartUpOutcome::Hiccups { period_s } = start.outcome else { continue };
        let mut found = about_stage(doc, context, start);
        if let Some(period_s) = period_s {
            found = found.with("period", Figure::new(period_s, Unit::Second));
        }
        report.push(found);
    }
}
