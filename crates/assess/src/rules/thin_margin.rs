//! `thin-margin`

use crate::rule::{Report, finding, rule};
use crate::stage::WithVoltages;
use latchline_finding::{CodeDoc, Unit};

rule! {
    /// # What it checks
    /// Devices that hold their limit, but by less than `thin_margin` of the site's policy (1 V if it is
    /// not stated).
    ///
    /// # Why it matters
    /// The tolerances are already in the figure, but a later extension, one bad joint or a reel of
    /// thinner cable is not.
    ///
    /// # Example
    /// A-504 keeps 0.4 V in hand.
    ///
    /// # What to do
    /// Nothing must be done. Where it is cheap, take the next thicker cable on the section that carries most; state
    /// another `thin_margin` under `[policy]` if you judge otherwise.
    pub static THIN_MARGIN: "thin-margin", Warning,
        "Little voltage in hand in the worst state", reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Report) {
    let thin_v = context.site.policy.thin_margin.value.as_volts();
    for device in &context.worst.devices {
        let worst = device.worst();
        let margin_v = worst.margin_v();
        if !(0.0..thin_v).contains(&margin_v) {
            continue;
        }
        let found = finding(doc, context.wiring_origin(device.device))
            .about(context.device_id(device.device).clone())
            .in_state(context.state(worst.phase, &worst.set))
            .figures(margin_v, thin_v, Unit::Volt)
            .with("voltage", latchline_finding::Figure::new(worst.limit_v + margin_v, Unit::Volt))
            .with("least", latchline_finding::Figure::new(worst.limit_v, Unit::Volt))
            .graded(context.grade_of_stage(device.at.stage));
        report.push(found);
    }
}
