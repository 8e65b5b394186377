//! `battery-hours-short`

use super::limit::ROUNDING;
use crate::rule::{Report, finding, rule};
use crate::stage::WithVoltages;
use crate::supply::battery_figures;
use latchline_finding::{CodeDoc, Figure, Unit};

rule! {
    /// # What it checks
    /// Where the policy asks for `standby_hours`: how long each battery carries its supply's standby
    /// load at the adverse corner, by day and by night, with the battery at the end of its life (80 % of
    /// its capacity), at the cupboard's temperature (IEEE 485 factors, from memory; 20 °C if none is
    /// stated), by Peukert's law in its rated-time form. A battery without efficiency or Peukert
    /// exponent is not judged; a supply without battery is not looked at.
    ///
    /// # Why it matters
    /// A new battery on a warm day lasts; the question is the five-year-old one in January.
    ///
    /// # Example
    /// 17 Ah at 24 V carry 40 W of standby for 7 h when new, 4.6 h at the end.
    ///
    /// # What to do
    /// A larger battery, or less standby load on this supply. Locks that must hold through a power cut
    /// belong on a supply of their own with a battery.
    pub static BATTERY_HOURS_SHORT: "battery-hours-short", Error,
        "A battery that does not last", reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Report) {
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
            .with("current", Figure::new(load.battery_current_a, Unit::Ampere))
            .with("power", Figure::new(load.bus_power_w, Unit::Watt))
            .with("ambient", Figure::new(battery.ambient_c, Unit::Celsius))
            .also_at("limit", required.origin.clone())
            .also_at("battery", capacity.map(|battery| battery.capacity.origin.clone()).unwrap_or_default())
            .graded(battery.assumed.grade());
        report.push(found);
    }
}
