//! `supply-overloaded`

use crate::rule::{Report, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, Unit};
use latchline_network::StageSource;

rule! {
    /// # What it checks
    /// The largest current that a supply is asked for, over all operating states and admissible sets
    /// of calls, against its rated current, and its power against its rated power; for a regenerating box, its output
    /// power.
    ///
    /// # Why it matters
    /// A supply at its limit lets the voltage fall or switches off and on. It usually shows when mains returns and every
    /// station boots at once.
    ///
    /// # Example
    /// 40 heavy stations ask for 2.9 A at power return; the supply gives 2.5 A.
    ///
    /// # What to do
    /// A larger supply if the family has one, or a second one with its own part of the building.
    pub static SUPPLY_OVERLOADED: "supply-overloaded", Error,
        "More current or power than a supply is rated for", reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Report) {
    for (index, stage) in context.layout.stages.iter().enumerate() {
        let Some(current) = &context.worst.source_current[index] else { continue };
        let Some(current_a) = current.current_a else { continue };
        let voltage_v = context.space.phases[current.phase].voltage_v[index].unwrap_or(0.0);
        let mut limits = Vec::new();
        match stage.source {
            StageSource::Supply(supply) => {
                let model = context.site.supply_model(&context.site.supplies[supply]);
                let rated = &model.rated_current;
                limits.push((current_a, rated.value.as_amps(), Unit::Ampere, rated.origin.clone()));
                if let Some(rated) = &model.rated_power {
                    let power_w = current_a * voltage_v;
                    limits.push((power_w, rated.value.as_watts(), Unit::Watt, rated.origin.clone()));
                }
            }
            StageSource::Regenerator(index) => {
                let model = context.site.box_model(&context.site.boxes[index]);
                if let Some(rated) = &model.output_power {
                    let power_w = current_a * voltage_v;
                    limits.push((power_w, rated.value.as_watts(), Unit::Watt, rated.origin.clone()));
                } else {
                    let missing = format!("{} output_power", model.head.name);
                    report.not_judged(doc.code, stage.id.clone(), missing);
                }
            }
        }
        if let Some((value, limit, unit, origin)) =
            limits.into_iter().find(|(value, limit, ..)| value > limit)
        {
            let found = finding(doc, context.source_origin(stage.source))
                .about(stage.id.clone())
                .in_state(context.state(current.phase, &current.set))
                .figures(value, limit, unit)
                .with("model", context.source_model(stage.source))
                .also_at("limit", origin)
                .graded(context.grade_of_stage(index));
            report.push(found);
        }
    }
}
