//! `bus-voltage-above-selv`

use super::limit::ROUNDING;
use crate::rule::{Context, Judgement, finding, finding_as, rule};
use latchline_finding::{CodeDoc, Severity, Unit};
use latchline_network::Corner;

rule! {
    pub static BUS_VOLTAGE_ABOVE_SELV: "bus-voltage-above-selv", Error or Warning, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
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
