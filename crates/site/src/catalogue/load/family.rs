//! Families and their address schemes.

use super::{DATASHEET, boolean, head, ordered};
use crate::catalogue::{AddressField, AddressScheme, Family, FieldKind, Setter, SignalBand, SwitchOrder};
use crate::codes;
use crate::parse::{Entry, Findings, Record, Value};
use latchline_finding::quantity::{Capacitance, Decibels, Frequency, Length, Ratio, Resistance, Voltage};
use latchline_finding::{Finding, Origin, Severity, Sourced};
use latchline_words::reading::{Expected, thing};

pub(super) fn family(entry: &Entry<'_>, findings: &mut Findings) -> Option<Family> {
    let record = &entry.record;
    let addresses = record.table("addresses").and_then(|addresses| scheme(entry.name, addresses, findings));
    let signal_bands = signal_bands(entry.name, record, findings)?;
    Some(Family {
        head: head(entry, DATASHEET)?,
        nominal_voltage: record.quantity("nominal_voltage", DATASHEET, Voltage::from_volts)?,
        simultaneous_calls: record.integer("simultaneous_calls", DATASHEET)?,
        simultaneous_views: record.integer("simultaneous_views", DATASHEET).unwrap_or(Sourced::assumed(0)),
        all_call: boolean(record, "all_call", false),
        longest_run: record.quantity("longest_run", DATASHEET, Length::from_metres),
        total_length_per_port: record.quantity("total_length_per_port", DATASHEET, Length::from_metres),
        stations_per_port: record.integer("stations_per_port", DATASHEET),
        cascade_depth: record.integer("cascade_depth", DATASHEET),
        door_stations: record.integer("door_stations", DATASHEET),
        stations_per_dwelling: record.integer("stations_per_dwelling", DATASHEET),
        terminator_required: boolean(record, "terminator_required", false),
        terminator_resistance: record.quantity("terminator_resistance", DATASHEET, Resistance::from_ohms),
        terminator_capacitance: record.quantity(
            "terminator_capacitance",
            DATASHEET,
            Capacitance::from_farads,
        ),
        signal_bands,
        chains: boolean(record, "chains", true),
        branches: boolean(record, "branches", true),
        addresses: addresses?,
    })
}

/// The bands; `None` if one of them cannot be read.
fn signal_bands(family: &str, record: &Record<'_>, findings: &mut Findings) -> Option<Vec<SignalBand>> {
    let mut bands = Vec::new();
    for item in record.list("signal_bands") {
        let Value::Table(inner) = &item.value else { return None };
        ordered(inner, family, "low", "high", findings);
        bands.push(SignalBand {
            name: inner.text("name")?.to_string(),
            low: inner.quantity("low", DATASHEET, Frequency::from_hertz)?,
            high: inner.quantity("high", DATASHEET, Frequency::from_hertz)?,
            budget: inner.quantity("budget", DATASHEET, Decibels::from_decibels)?,
            share: inner.quantity("share", DATASHEET, Ratio::from_fraction).unwrap_or(Sourced::new(
                Ratio::from_fraction(1.0),
                Origin::None,
                DATASHEET,
            )),
            ripple: inner.quantity("ripple", DATASHEET, Decibels::from_decibels),
            video_only: boolean(inner, "video_only", false).value,
        });
    }
    Some(bands)
}

fn scheme(family: &str, record: &Record<'_>, findings: &mut Findings) -> Option<AddressScheme> {
    let mut complete = true;
    let mut fields = |key: &str| {
        let mut list = Vec::new();
        for item in record.list(key) {
            match &item.value {
                Value::Table(inner) => match address_field(family, inner, findings) {
                    Some(field) => list.push(field),
                    None => complete = false,
                },
                _ => complete = false,
            }
        }
        list
    };
    let (indoor, door, management) = (fields("indoor"), fields("door"), fields("management"));
    complete.then(|| AddressScheme {
        indoor,
        door,
        management,
        extensions_share_address: boolean(record, "extensions_share_address", false).value,
        latched_at_power_up: boolean(record, "latched_at_power_up", false).value,
    })
}

fn address_field(family: &str, record: &Record<'_>, findings: &mut Findings) -> Option<AddressField> {
    let plain =
        |key: &str, default: u32| record.integer(key, DATASHEET).map_or(default, |number| number.value);
    ordered(record, family, "first", "last", findings);
    let offset = plain("offset", 0);
    let set_by = record.text("set_by")?;
    let count_key = if set_by == "keyed" { "digits" } else { "switches" };
    let Some(count) = record.integer(count_key, DATASHEET).map(|count| count.value) else {
        if !record.is_written(count_key) {
            findings.push(
                Finding::new(codes::MISSING_KEY, Severity::Error, record.at(&record.span))
                    .about(family)
                    .with("key", count_key)
                    .with("table", thing(record.spec.name))
                    .with("expected", Expected::AnyWholeNumber.both())
                    .with("because", set_by),
            );
        }
        return None;
    };
    let setter = match set_by {
        "rotary" => Setter::Rotary { switches: count, positions: plain("positions", 10), offset },
        "dip" => Setter::Dip {
            switches: count,
            order: match record.text("order") {
                Some("most-first") => SwitchOrder::MostFirst,
                _ => SwitchOrder::LeastFirst,
            },
            on_is_one: plain("on", 1) == 1,
            first_switch: plain("first_switch", 1),
            offset,
        },
        "jumpers" => Setter::Jumpers { jumpers: count, offset },
        _ => Setter::Keyed { digits: count },
    };
    let field = AddressField {
        kind: record
            .word(
                "field",
                DATASHEET,
                &[
                    ("building", FieldKind::Building),
                    ("entrance", FieldKind::Entrance),
                    ("dwelling", FieldKind::Dwelling),
                    ("extension", FieldKind::Extension),
                    ("management", FieldKind::Management),
                ],
            )?
            .value,
        first: record.integer("first", DATASHEET)?,
        last: record.integer("last", DATASHEET)?,
        reserved: record
            .list("reserved")
            .iter()
            .filter_map(|item| match item.value {
                Value::Integer(number) => Some(number),
                _ => None,
            })
            .collect(),
        main: record.integer("main", DATASHEET).map(|number| number.value),
        setter,
        label: record.text("label")?.to_string(),
    };
    (field.first.value <= field.last.value).then_some(field)
}
