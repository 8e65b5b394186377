//! `bus-voltage-above-selv`

use super::limit::ROUNDING;
use crate::rule::{Context, Report, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Severity, Unit};
use latchline_network::Corner;

rule! {
    /// # What it checks
    /// The nominal voltage of every supply as set, and of every distributor that makes its port voltage anew. Above
    /// 120 V DC is an error: it is no longer extra-low voltage (ripple-free DC, International
    /// Electrotechnical Vocabulary after IEC 61558-1). Above 60 V DC is a warning: basic protection is then needed
    /// everywhere, also where it is dry (BS 7671 regulation 414.4.5, IEC 60364-4-41). A supply whose model states
    /// more than 10 % of `ripple`, root mean square, is not ripple-free: its limits here are those of
    /// alternating current, 50 V and 25 V.
    ///
    /// # Why it matters
    /// Station terminals, bell cable and the way door-entry systems are wired all rest on a voltage that can be
    /// touched.
    ///
    /// # Example
    /// `set_voltage = "84 V"` where 48 V was meant.
    ///
    /// # What to do
    /// Correct the voltage. If it is meant, the installation is one for licensed electricians
    /// throughout, and what Latchline says of it is not enough.
    pub static BUS_VOLTAGE_ABOVE_SELV: "bus-voltage-above-selv", Error,
        "A bus voltage that is not safe to touch", check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for stage in &context.layout.stages {
        let voltage_v = stage.voltage_v[Corner::Nominal.index()];
        let origin = context.source_origin(stage.source);
        let limits = context.touch_limits(stage.source);
        let (found, limit_v) = if voltage_v > limits.extra_low_v * (1.0 + ROUNDING) {
            (finding(doc, origin), limits.extra_low_v)
        } else if voltage_v > limits.dry_v * (1.0 + ROUNDING) {
            (finding_as(doc, Severity::Warning, origin), limits.dry_v)
        } else {
            continue;
        };
        let found = found
            .about(stage.id.clone())
            .figures(voltage_v, limit_v, Unit::Volt)
            .with("model", context.source_model(stage.source));
        report.push(found);
    }
}
