//! `charger-too-small`

use super::limit::ROUNDING;
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use crate::supply::battery_figures;
use latchline_finding::{CodeDoc, Figure, Unit};

rule! {
    pub static CHARGER_TOO_SMALL: "charger-too-small", Warning, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    for (index, supply) in context.site.supplies.iter().enumerate() {
        // What keeps the battery from being judged is said by `battery-hours-short`.
        let Some(Ok(battery)) = battery_figures(context, index) else { continue };
        let (Some(current_a), Some(hours)) = (battery.charge_current_a, battery.recharge_hours) else {
            continue;
        };
        if current_a >= battery.needed_charge_a * (1.0 - ROUNDING) {
            continue;
        }
        let stated = context
            .site
            .supply_model(supply)
            .battery
            .as_ref()
            .and_then(|battery| battery.charge_current.as_ref());
        let mut found = finding(doc, supply.model.origin.clone())
            .about(supply.id.clone())
            .figures(current_a, battery.needed_charge_a, Unit::Ampere)
            .with("model", supply.model.value.as_str())
            .with("hours", Figure::new(hours, Unit::Hour))
            .with("capacity", Figure::new(battery.capacity_ah, Unit::AmpereHour));
        if let Some(stated) = stated {
            found = found.also_at("limit", stated.origin.clone()).graded(super::limit::grade(
                &supply.model.value,
                "battery charge_current",
                stated,
            ));
        }
        report.push(found);
    }
}
