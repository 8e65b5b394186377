//! `supply-overloaded`

use crate::rule::{Report, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, Unit};
use latchline_network::StageSource;
use latchline_words::missing::Missing;

rule! {
    pub static SUPPLY_OVERLOADED: "supply-overloaded", Error, reads Voltages, check
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
                    let missing = Missing::key(&model.head.name, "output_power");
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
