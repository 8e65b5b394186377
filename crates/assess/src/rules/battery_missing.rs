//! `battery-missing`

use crate::rule::{Context, Judgement, finding, rule};
use latchline_finding::{CodeDoc, Figure, Unit};

rule! {
    pub static BATTERY_MISSING: "battery-missing", Error, check
}

fn check(doc: &CodeDoc, context: &Context<'_>, report: &mut Judgement) {
    let Some(required) = &context.site.policy.standby_hours else { return };
    if required.value <= 0.0 {
        return;
    }
    for (index, supply) in context.site.supplies.iter().enumerate() {
        // One that feeds nothing is told of as such.
        if context.site.runs_from_supply(index).next().is_none() {
            continue;
        }
        let model = context.site.supply_model(supply);
        if model.battery.is_some() {
            continue;
        }
        let mut found = finding(doc, supply.model.origin.clone())
            .about(supply.id.clone())
            .with("model", model.head.name.as_str())
            .also_at("limit", required.origin.clone());
        found.limit = Some(Figure::new(required.value, Unit::Hour));
        report.push(found);
    }
}
