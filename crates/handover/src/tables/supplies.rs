//! The battery and supply sheet.

use super::column::column;
use crate::language::{Sentence, Word};
use crate::locale::Rounding;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Table};
use latchline_assess::Missing;
use latchline_assess::supply::{BatteryFigures, SupplySheet};
use latchline_finding::Unit;

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let columns = vec![
        column(locale, Word::Supply, 14).said_above(),
        column(locale, Word::Item, 36),
        column(locale, Word::Value, 20),
        column(locale, Word::Remark, 50),
    ];
    let mut table = Table::new(Part::Supplies, locale.word(Word::SuppliesTitle), columns);
    for sheet in &subject.assessment.supply_sheets {
        let name = sheet.supply.as_str();
        table.heading(if sheet.place.is_empty() {
            name.to_string()
        } else {
            format!("{name}  ({})", sheet.place.of(locale.language))
        });
        supply(subject, sheet, &mut table);
    }
    table
}

fn supply(subject: &Subject<'_>, sheet: &SupplySheet, table: &mut Table) {
    let locale = &subject.locale;
    let mut add = |item: Word, value: Cell, remark: String| {
        let id = Cell::text(sheet.supply.as_str());
        table.row(vec![id, locale.cell(item), value, Cell::text(remark)]);
    };
    let quantity = |value, unit| locale.quantity(value, unit, Rounding::Nearest);
    add(Word::Model, Cell::text(&sheet.model), String::new());
    let limit = sheet.ambient_limit_c.map_or(String::new(), |limit| {
        locale.say(&Sentence::AtMost { value: &locale.in_words(limit, Unit::Celsius) })
    });
    match sheet.ambient_c {
        Some(ambient) => add(Word::Ambient, quantity(ambient, Unit::Celsius), limit),
        None => add(Word::Ambient, locale.cell(Word::NotStated), limit),
    }
    if let Some(mains) = &sheet.mains {
        add(
            Word::OutputPower,
            locale.quantity(mains.output_w, Unit::Watt, Rounding::Up),
            locale.state(&mains.state.into()),
        );
        if mains.charging_w > 0.0 {
            let waits = if mains.charging_waits { locale.word(Word::ChargingWaits) } else { "" };
            let left = locale.quantity(mains.charging_w, Unit::Watt, Rounding::Down);
            add(Word::ChargingPower, left, waits.to_string());
        }
        let missing = if mains.missing.is_empty() {
            String::new()
        } else {
            locale.say(&Sentence::Needs { what: &Missing::list_on_paper(&mains.missing, locale.language) })
        };
        match mains.mains_current_a {
            Some(current) => {
                add(Word::MainsCurrent, locale.quantity(current, Unit::Ampere, Rounding::Up), String::new());
            }
            None => add(Word::MainsCurrent, locale.cell(Word::NotJudged), missing.clone()),
        }
        match mains.heat_w {
            Some(heat) => add(Word::Heat, locale.quantity(heat, Unit::Watt, Rounding::Up), String::new()),
            None => add(Word::Heat, locale.cell(Word::NotJudged), missing),
        }
    }
    match &sheet.battery {
        None => add(Word::Battery, locale.cell(Word::NoBattery), String::new()),
        Some(Err(missing)) => {
            let missing =
                locale.say(&Sentence::Needs { what: &Missing::list_on_paper(missing, locale.language) });
            add(Word::Battery, locale.cell(Word::NotJudged), missing);
        }
        Some(Ok(battery)) => battery_rows(subject, battery, &mut add),
    }
}

fn battery_rows(subject: &Subject<'_>, battery: &BatteryFigures, add: &mut dyn FnMut(Word, Cell, String)) {
    let locale = &subject.locale;
    let quantity = |value, unit, rounding| locale.quantity(value, unit, rounding);
    let none = String::new;
    add(Word::BatteryVoltage, quantity(battery.voltage_v, Unit::Volt, Rounding::Nearest), none());
    add(Word::BatteryCapacity, quantity(battery.capacity_ah, Unit::AmpereHour, Rounding::Nearest), none());
    add(
        Word::CapacityCountedOn,
        quantity(battery.effective_ah, Unit::AmpereHour, Rounding::Down),
        locale.word(Word::AgeingRemark).to_string(),
    );
    let required = battery.required_hours.map_or(String::new(), |hours| {
        locale.say(&Sentence::AtLeast { value: &locale.in_words(hours, Unit::Hour) })
    });
    for load in &battery.loads {
        let state = locale.state(&load.state.into());
        let remark = if required.is_empty() { state } else { format!("{state}; {required}") };
        add(Word::BatteryHours, quantity(load.hours, Unit::Hour, Rounding::Down), remark);
    }
    match battery.charge_current_a {
        Some(current) => add(
            Word::ChargeCurrent,
            quantity(current, Unit::Ampere, Rounding::Nearest),
            locale.say(&Sentence::AtLeast { value: &locale.in_words(battery.needed_charge_a, Unit::Ampere) }),
        ),
        None => add(Word::ChargeCurrent, locale.cell(Word::NotStated), none()),
    }
    if let Some(hours) = battery.recharge_hours {
        add(Word::RechargeHours, quantity(hours, Unit::Hour, Rounding::Up), none());
    }
}
