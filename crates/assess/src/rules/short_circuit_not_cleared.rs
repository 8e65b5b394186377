//! `short-circuit-not-cleared`

use super::short_circuit_not_detected::overheats;
use crate::physics_summary::acting;
use crate::rule::{Report, finding, rule};
use crate::stage::WithShortCircuits;
use latchline_finding::{CodeDoc, Figure, Unit};

rule! {
    /// # What it checks
    /// Where no trip ends a short at the far end of a run, the temperature that its conductors come to with the most current that can flow
    /// on (highest supply voltage, cold and short cable, other loads gone; where a trip is on the way, what hardly does not reach
    /// it): I² R of both conductors through 10 K m/W to the air at the hottest temperature (a pair laid in insulation: common
    /// practice, no source), against what the cable's insulation stands, 70 °C where it states nothing.
    ///
    /// # Why it matters
    /// A supply that only limits its current feeds a short for as long as it lasts. A thin pair behind a large
    /// supply becomes a heater in the wall.
    ///
    /// # Example
    /// 4.2 A flow on through the 0.5 mm pair of A-R5, which comes to 95 °C; its insulation stands 70 °C.
    ///
    /// # What to do
    /// Ports with a limit of their own, a supply that trips, or thicker conductors.
    pub static SHORT_CIRCUIT_NOT_CLEARED: "short-circuit-not-cleared", Error,
        "A short that nothing ends overheats the cable", reads ShortCircuit, check
}

fn check(doc: &CodeDoc, context: &WithShortCircuits<'_>, report: &mut Report) {
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
