//! Families and their address schemes.

use super::require::{DATASHEET, ordered};
use crate::catalogue::{AddressField, AddressScheme, Family, PartHead, Setter, SignalBand, SwitchOrder};
use crate::codes;
use crate::parse::{Entry, Findings, Record};
use latchline_finding::{Finding, Severity};
use latchline_words::reading::Expected;

pub(super) fn family(entry: &Entry<'_>, findings: &mut Findings) -> Option<Family> {
    let record = &entry.record;
    let addresses = record.table("addresses").and_then(|addresses| scheme(entry.name, addresses, findings));
    let signal_bands = record.all("signal_bands", |band| {
        ordered(band, entry.name, "low", "high", findings);
        SignalBand::read(band, DATASHEET)
    })?;
    Family::read(record, DATASHEET, PartHead::read(entry, DATASHEET)?, signal_bands, addresses)
}

fn scheme(family: &str, record: &Record<'_>, findings: &mut Findings) -> Option<AddressScheme> {
    // All three are looked at, so that every mistake is found.
    let mut fields = |key: &str| record.all(key, |field| address_field(family, field, findings));
    let (indoor, door, management) = (fields("indoor"), fields("door"), fields("management"));
    Some(AddressScheme::read(record, DATASHEET, indoor?, door?, management?))
}

fn address_field(family: &str, record: &Record<'_>, findings: &mut Findings) -> Option<AddressField> {
    let plain = |key: &str, default: u32| record.read(key, DATASHEET).unwrap_or(default);
    ordered(record, family, "first", "last", findings);
    let offset = plain("offset", 0);
    let set_by = record.text("set_by")?;
    let count_key = if set_by == "keyed" { "digits" } else { "switches" };
    let Some(count) = record.read(count_key, DATASHEET) else {
        if !record.is_written(count_key) {
            findings.push(
                Finding::new(codes::MISSING_KEY, Severity::Error, record.at(&record.span))
                    .about(family)
                    .with("key", count_key)
                    .with("table", record.spec.name.both())
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
            order: record.read("order", DATASHEET).unwrap_or(SwitchOrder::LeastFirst),
            on_is_one: plain("on", 1) == 1,
            first_switch: plain("first_switch", 1),
            offset,
        },
        "jumpers" => Setter::Jumpers { jumpers: count, offset },
        _ => Setter::Keyed { digits: count },
    };
    let field = AddressField::read(record, DATASHEET, setter)?;
    (field.first.value <= field.last.value).then_some(field)
}
