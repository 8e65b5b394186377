//! `thin-margin`

use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, Unit};
use latchline_words::terms::Term;

rule! {
    pub static THIN_MARGIN: "thin-margin", Warning, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    let thin_v = context.site.policy.thin_margin.value.as_volts();
    for device in &context.worst.devices {
        let worst = device.worst();
        let margin_v = worst.margin_v();
        if !(0.0..thin_v).contains(&margin_v) {
            continue;
        }
        let mut found = finding(doc, context.wiring_origin(device.device))
            .about(context.device_id(device.device).clone())
            .in_state(context.state(worst.phase, &worst.set))
            .figures(margin_v, thin_v, Unit::Volt)
            .with("voltage", latchline_finding::Figure::new(worst.limit_v + margin_v, Unit::Volt))
            .with("least", latchline_finding::Figure::new(worst.limit_v, Unit::Volt))
            .graded(context.grade_of_stage(device.at.stage));
        if context.space.phases[worst.phase].is_bound {
            found = found.with("bound", Term::AtLeast.both());
        }
        report.push(found);
    }
}
