//! `no-operating-point`

use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, ElementId, Unit};
use latchline_network::collapse::carried;
use latchline_words::missing::Missing;
use std::collections::BTreeMap;

rule! {
    pub static NO_OPERATING_POINT: "no-operating-point", Error, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    // One finding a stage and state, with the devices that go down.
    let mut groups: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (index, device) in context.worst.devices.iter().enumerate() {
        for margin in &device.margins {
            if let Some(stage) = margin.failing_stage {
                groups.entry((stage, margin.phase)).or_default().push(index);
            }
        }
    }
    for ((stage, phase), members) in groups {
        let source = &context.layout.stages[stage];
        let devices: Vec<ElementId> = members
            .iter()
            .map(|index| context.device_id(context.worst.devices[*index].device).clone())
            .collect();
        let first = &context.worst.devices[members[0]];
        let Some(margin) = first.margins.iter().find(|margin| margin.phase == phase) else { continue };
        if margin.is_undecided {
            report.not_judged(doc.code, source.id.clone(), Missing::Decidable);
            continue;
        }
        let limit = margin.limit_v;
        let mut found = finding(doc, context.source_origin(source.source))
            .about(source.id.clone())
            .in_state(context.state(phase, &margin.set))
            .with("devices", devices)
            .graded(context.grade_of_stage(stage));
        if let Some(carried) = carried(context.layout, context.space, phase, stage, &margin.set) {
            let share = latchline_finding::Figure::new(carried.share, Unit::Percent);
            let is_bound = context.space.phases[phase].is_bound;
            found = found.with(if is_bound { "least_share" } else { "share" }, share);
            if let Some(run) = carried.run {
                found = found.with("run", &context.site.runs[run].id);
            }
            if let Some(asked_w) = carried.asked_w {
                found = found
                    .with("carried", latchline_finding::Figure::new(carried.share * asked_w, Unit::Watt))
                    .with("asked", latchline_finding::Figure::new(asked_w, Unit::Watt));
            }
        }
        found.limit = Some(latchline_finding::Figure::new(limit, Unit::Volt));
        report.push(found);
    }
}
