//! `charger-too-small`

use super::limit::ROUNDING;
use crate::rule::{Report, finding, rule};
use crate::stage::WithVoltages;
use crate::supply::battery_figures;
use latchline_finding::{CodeDoc, Figure, Unit};

rule! {
    /// # What it checks
    /// The charging current of a supply with battery against what puts four fifths of the capacity back
    /// within 24 hours, with a charge factor of 1.2 for lead-acid (common practice): the usual demand on
    /// chargers of alarm supplies (EN 54-4, from memory, not yet confirmed). A supply that does not
    /// state it is not looked at.
    ///
    /// # Why it matters
    /// After a power cut the second one comes the next evening; a battery that is still half empty is
    /// then a battery of half the hours.
    ///
    /// # Example
    /// 17 Ah with a charger of 0.5 A: 32.6 h.
    ///
    /// # What to do
    /// A smaller battery if its hours suffice, or a supply with a stronger charger.
    pub static CHARGER_TOO_SMALL: "charger-too-small", Warning,
        "A charger that takes more than a day", reads Voltages, check
}

fn check(doc: &CodeDoc, context: &WithVoltages<'_>, report: &mut Report) {
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
