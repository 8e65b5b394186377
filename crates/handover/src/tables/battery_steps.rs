//! Batteries on the sheet under power: read before they are connected, and read when the mains is lost.

use super::steps::Steps;
use crate::language::{Sentence, Word};
use crate::step::{Expected, Span};
use latchline_assess::ReadingPlace;
use latchline_assess::supply::at_rest::{CELL_AT_REST_V, at_rest_v};
use latchline_finding::{Figure, Rounding, Unit};
use latchline_wiring::Item;

/// Each battery is read by itself, then those of a supply are connected.
pub(super) fn connected(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let (site, locale) = (subject.site, &subject.locale);
    let has_battery = |index: &usize| site.supply_model(&site.supplies[*index]).battery.is_some();
    let with_battery: Vec<usize> = (0..site.supplies.len()).filter(has_battery).collect();
    if with_battery.is_empty() {
        return;
    }
    steps.stage(Word::StageBatteries);
    let [least, _, most] = CELL_AT_REST_V.map(|cell_v| locale.in_words(cell_v, Unit::Volt));
    for index in with_battery {
        let supply = &site.supplies[index];
        let Some(battery) = &site.supply_model(supply).battery else { continue };
        if let Some(batteries) = super::terminal_remarks::parallel_batteries(subject, index) {
            steps.tell(Item::Supply(index), batteries);
        }
        let [lowest, nominal, highest] = at_rest_v(battery.voltage.value.as_volts());
        let voltage = format!("{} V", locale.trimmed(battery.voltage.value.as_volts(), 2));
        for number in 1..=supply.batteries.value {
            let what = locale.say(&Sentence::BatteryAtRest { voltage: &voltage, least: &least, most: &most });
            let expected = Expected::Between(Span { nominal, lowest, highest }, Unit::Volt);
            steps.read(Item::Battery { supply: index, number }, what, Word::Voltmeter, expected);
        }
        steps.word(Item::Supply(index), Word::ConnectBattery);
    }
}

/// Mains lost and back at every supply.
pub(super) fn mains_lost(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let (site, locale) = (subject.site, &subject.locale);
    steps.stage(Word::StageMainsLost);
    for sheet in &subject.assessment.supply_sheets {
        let Some(index) = site.supplies.iter().position(|supply| supply.id == sheet.supply) else { continue };
        let at = Item::Supply(index);
        if let Some(battery) = &sheet.battery {
            steps.word(at, Word::BatteryTakesOver);
            on_battery(steps, index);
            if let Some(load) = battery.as_ref().ok().and_then(|battery| battery.shortest()) {
                let hours = locale.figure_rounded(Figure::new(load.hours, Unit::Hour), Rounding::Down);
                steps.tell(at, locale.say(&Sentence::BatteryCarries { hours: &hours }));
            }
            continue;
        }
        let start = subject.assessment.start_up.iter().find(|start| start.source == sheet.supply);
        let expected = match start.and_then(|start| start.by_stopwatch_s()) {
            Some([lowest, nominal, highest]) => {
                Expected::Between(Span { nominal, lowest, highest }, Unit::Second)
            }
            None => Expected::Unknown(Unit::Second),
        };
        steps.read_word(at, Word::MainsLostAndBack, Word::Stopwatch, expected);
    }
}

/// The voltage at the output while the battery carries the system: no less than at the end of discharge, no more than on the mains.
fn on_battery(steps: &mut Steps<'_, '_>, index: usize) {
    let subject = steps.subject;
    let site = subject.site;
    let Some(battery) = &site.supply_model(&site.supplies[index]).battery else { return };
    let lowest = battery.end_bus_voltage.value.as_volts();
    let on_mains = subject.readings.standby_voltage(ReadingPlace::Supply(index));
    let expected = match on_mains.map(|reading| reading.highest.value).filter(|highest| *highest > lowest) {
        Some(highest) => Expected::Within { lowest, highest, unit: Unit::Volt },
        None => Expected::Unknown(Unit::Volt),
    };
    steps.read_word(Item::Supply(index), Word::VoltageOnBattery, Word::Voltmeter, expected);
}
