//! `battery-hours-short`

use super::limit::ROUNDING;
use crate::rule::{Judgement, finding, rule};
use crate::stage::WithVoltages;
use crate::supply::battery_figures;
use latchline_finding::{CodeDoc, Figure, Unit};

rule! {
    pub static BATTERY_HOURS_SHORT: "battery-hours-short", Error, reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Judgement) {
    let Some(required) = &context.site.policy.standby_hours else { return };
    for (index, supply) in context.site.supplies.iter().enumerate() {
        let battery = match battery_figures(context, index) {
            None => continue,
            Some(Err(missing)) => {
                for one in missing {
                    report.not_judged(doc.code, supply.id.clone(), one);
                }
                continue;
            }
            Some(Ok(battery)) => battery,
        };
        let Some(load) = battery.shortest() else { continue };
        if load.hours >= required.value * (1.0 - ROUNDING) {
            continue;
        }
        let capacity = context.site.supply_model(supply).battery.as_ref();
        let found = finding(doc, supply.origin.clone())
            .about(supply.id.clone())
            .in_state(load.state)
            .figures(load.hours, required.value, Unit::Hour)
            .with("model", supply.model.value.as_str())
            .with("capacity", Figure::new(battery.capacity_ah, Unit::AmpereHour))
            .with("effective", Figure::new(battery.effective_ah, Unit::AmpereHour))
            .with("current", Figure::new(load.with_calls_a, Unit::Ampere))
            .with("power", Figure::new(load.bus_power_w, Unit::Watt))
            .with("coldest", Figure::new(battery.coldest_c, Unit::Celsius))
            .also_at("limit", required.origin.clone())
            .also_at("battery", capacity.map(|battery| battery.capacity.origin.clone()).unwrap_or_default())
            .graded(battery.assumed.grade());
        report.push(found);
    }
}
