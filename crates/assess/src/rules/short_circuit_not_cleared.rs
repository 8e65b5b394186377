//! `short-circuit-not-cleared`

use super::short_circuit_not_detected::overheats;
use crate::physics_summary::acting;
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithShortCircuits;
use latchline_finding::{CodeDoc, Figure, Unit};

rule! {
    pub static SHORT_CIRCUIT_NOT_CLEARED: "short-circuit-not-cleared", Error, reads ShortCircuit, check
}

fn check(doc: &CodeDoc, context: &WithShortCircuits<'_>, report: &mut Judgement) {
    for short in context.short_circuits.runs.iter().filter(|short| overheats(short)) {
        let Some(temperature_c) = short.temperature_c else { continue };
        let run = &context.site.runs[short.run];
        let cable = context.site.cable(run);
        let mut found = finding(doc, run.origin.clone())
            .about(run.id.clone())
            .figures(temperature_c, short.temperature_limit_c, Unit::Celsius)
            .with("current", Figure::new(short.heating_a, Unit::Ampere))
            .with("cable", cable.head.name.as_str())
            .with("source", &context.layout.stages[short.stage].id)
            .graded(context.grade_of_stage(short.stage));
        if let (_, Some(by)) = acting(context, short) {
            found = found.with("by", &by);
        }
        if let Some(limit) = &cable.conductor_temperature_limit {
            found = found.also_at("limit", limit.origin.clone());
        }
        report.push(found);
    }
}
