//! `short-circuit-not-detected`

use crate::rule::{Judgement, finding, rule};
use crate::stage::WithShortCircuits;
use latchline_finding::{CodeDoc, Figure, Unit};
use latchline_network::short_circuit::{Acting, RunShort};

rule! {
    pub static SHORT_CIRCUIT_NOT_DETECTED: "short-circuit-not-detected", Warning, reads ShortCircuit, check
}

fn check(doc: &CodeDoc, context: &WithShortCircuits<'_>, report: &mut Judgement) {
    for short in &context.short_circuits.runs {
        // One that overheats its cable is found as `short-circuit-not-cleared`.
        if short.acts != Acting::Nothing || overheats(short) {
            continue;
        }
        let run = &context.site.runs[short.run];
        let mut found = finding(doc, run.origin.clone())
            .about(run.id.clone())
            .with("source", &context.layout.stages[short.stage].id)
            .with("current", Figure::new(short.fault_a, Unit::Ampere))
            .graded(context.grade_of_stage(short.stage));
        if let Some(needs_a) = short.trip_needs_a {
            found = found.figures(short.fault_a, needs_a, Unit::Ampere);
        }
        if let Some(temperature_c) = short.temperature_c {
            found = found.with("temperature", Figure::new(temperature_c, Unit::Celsius));
        }
        report.push(found);
    }
}

/// Whether the current that flows on heats the run above what its insulation stands.
pub(super) fn overheats(short: &RunShort) -> bool {
    short.temperature_c.is_some_and(|temperature_c| temperature_c > short.temperature_limit_c)
}
