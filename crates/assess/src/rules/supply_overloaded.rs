//! `supply-overloaded`

use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, Unit};
use latchline_network::StageSource;
use latchline_words::missing::Missing;

rule! {
    pub static SUPPLY_OVERLOADED: "supply-overloaded", Error, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    for (index, stage) in context.layout.stages.iter().enumerate() {
        let (rated_a, rated_w) = match stage.source {
            StageSource::Supply(supply) => {
                let model = context.site.supply_model(&context.site.supplies[supply]);
                (Some(&model.rated_current), &model.rated_power)
            }
            StageSource::Regenerator(regenerator) => {
                let model = context.site.box_model(&context.site.boxes[regenerator]);
                if model.output_power.is_none() {
                    let missing = Missing::key(&model.head.name, "output_power");
                    report.not_judged(doc.code, stage.id.clone(), missing);
                }
                (None, &model.output_power)
            }
        };
        let current = context.worst.source_current_held[index].as_ref().and_then(|current| {
            let rated = rated_a?;
            let state = context.state(current.phase, &current.set);
            Some((state, current.current_a?, rated.value.as_amps(), Unit::Ampere, rated.origin.clone()))
        });
        let power = context.worst.largest_power_held(index).and_then(|power| {
            let rated = rated_w.as_ref()?;
            let state = context.state(power.phase, &power.set);
            Some((state, power.power_w?, rated.value.as_watts(), Unit::Watt, rated.origin.clone()))
        });
        if let Some((state, value, limit, unit, origin)) =
            current.into_iter().chain(power).find(|(_, value, limit, ..)| value > limit)
        {
            let found = finding(doc, context.source_origin(stage.source))
                .about(stage.id.clone())
                .in_state(state)
                .figures(value, limit, unit)
                .with("model", context.source_model(stage.source))
                .also_at("limit", origin)
                .graded(context.grade_of_stage(index));
            report.push(found);
        }
    }
}
