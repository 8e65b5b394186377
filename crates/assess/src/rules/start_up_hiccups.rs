//! `start-up-hiccups`

use super::start_up_fails::about_stage;
use crate::rule::{Judgement, rule};
use crate::stage::WithStartUp;
use latchline_finding::{CodeDoc, Figure, Unit};
use latchline_network::start_up::StartUpOutcome;

rule! {
    pub static START_UP_HICCUPS: "start-up-hiccups", Error, reads StartUp, check
}

fn check(doc: &CodeDoc, context: &WithStartUp<'_>, report: &mut Judgement) {
    for start in &context.start_up.stages {
        let StartUpOutcome::Hiccups { period_s } = start.outcome else { continue };
        let mut found = about_stage(doc, context, start);
        if let Some(period_s) = period_s {
            found = found.with("period", Figure::new(period_s, Unit::Second));
        }
        report.push(found);
    }
}
