//! `no-operating-point`

use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, ElementId, Unit};
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
        found.limit = Some(latchline_finding::Figure::new(limit, Unit::Volt));
        report.push(found);
    }
}
