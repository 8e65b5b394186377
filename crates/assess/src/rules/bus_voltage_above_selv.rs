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
    /// everywhere, also where it is dry (BS 7671 regulation 414.4.5, IEC 60364-4-41).
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

/// Ripple-free DC, upper end of extra-low voltage.
const EXTRA_LOW_LIMIT_V: f64 = 120.0;
/// No basic protection needed where dry.
const DRY_LIMIT_V: f64 = 60.0;

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Report) {
    for stage in &context.layout.stages {
        let voltage_v = stage.voltage_v[Corner::Nominal.index()];
        let origin = context.source_origin(stage.source);
        let (found, limit_v) = if voltage_v > EXTRA_LOW_LIMIT_V * (1.0 + ROUNDING) {
            (finding(doc, origin), EXTRA_LOW_LIMIT_V)
        } else if voltage_v > DRY_LIMIT_V * (1.0 + ROUNDING) {
            (finding_as(doc, Severity::Warning, origin), DRY_LIMIT_V)
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
