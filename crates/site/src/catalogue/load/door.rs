//! Locks, lights and door-side accessories.

use super::{DATASHEET, head, require};
use crate::catalogue::{Accessory, AccessoryKind, Feed, Light, LightKind, Lock, LockKind, PowerLoss};
use crate::parse::{Entry, Findings, Record};
use latchline_finding::quantity::{Current, Duration, Inductance, Ratio, Voltage};
use latchline_finding::{Both, Sourced};

/// Kind of current; direct current without a word.
fn current_kind(record: &Record<'_>) -> Sourced<Feed> {
    record
        .word("feed", DATASHEET, &[("dc", Feed::Dc), ("ac", Feed::Ac), ("either", Feed::Either)])
        .unwrap_or(Sourced::assumed(Feed::Dc))
}

pub(super) fn lock(entry: &Entry<'_>, findings: &mut Findings) -> Option<Lock> {
    let record = &entry.record;
    let kind = record.word(
        "kind",
        DATASHEET,
        &[
            ("strike", LockKind::Strike),
            ("magnet", LockKind::Magnet),
            ("motor", LockKind::Motor),
            ("gate", LockKind::Gate),
        ],
    )?;
    if kind.value != LockKind::Gate {
        let word = record.text("kind").unwrap_or_default();
        require(entry, "voltage", Both::same(word.to_string()), findings);
        require(entry, "current", Both::same(word.to_string()), findings);
    }
    let tolerance = |key: &str| {
        let stated = record.quantity(key, DATASHEET, Ratio::from_fraction);
        match record.is_written("voltage") {
            true => record.or_assumed(key, stated, Ratio::from_fraction(0.1)),
            // Of a gate drive that a dry contact starts there is no voltage to hold.
            false => stated.unwrap_or(Sourced::assumed(Ratio::from_fraction(0.1))),
        }
    };
    Some(Lock {
        head: head(entry, DATASHEET)?,
        kind,
        power_loss: record.word(
            "power_loss",
            DATASHEET,
            &[("opens", PowerLoss::Opens), ("stays-shut", PowerLoss::StaysShut)],
        )?,
        feed: current_kind(record),
        voltage: record.quantity("voltage", DATASHEET, Voltage::from_volts),
        undervoltage_tolerance: tolerance("undervoltage_tolerance"),
        overvoltage_tolerance: tolerance("overvoltage_tolerance"),
        current: record.quantity("current", DATASHEET, Current::from_amps),
        inrush_current: record.quantity("inrush_current", DATASHEET, Current::from_amps),
        duty_limit: record.quantity("duty_limit", DATASHEET, Duration::from_seconds),
        coil_inductance: record.quantity("coil_inductance", DATASHEET, Inductance::from_henries),
        dropout_current: record.quantity("dropout_current", DATASHEET, Current::from_amps),
    })
}

pub(super) fn accessory(entry: &Entry<'_>, _: &mut Findings) -> Option<Accessory> {
    let record = &entry.record;
    Some(Accessory {
        head: head(entry, DATASHEET)?,
        family: record.sourced_text("family", DATASHEET)?,
        kind: record.word(
            "kind",
            DATASHEET,
            &[
                ("keypad", AccessoryKind::Keypad),
                ("reader", AccessoryKind::Reader),
                ("buttons", AccessoryKind::Buttons),
                ("names", AccessoryKind::Names),
            ],
        )?,
        current: record.quantity("current", DATASHEET, Current::from_amps)?,
        night_current: record.quantity("night_current", DATASHEET, Current::from_amps),
        buttons: record.integer("buttons", DATASHEET),
    })
}

pub(super) fn light(entry: &Entry<'_>, _: &mut Findings) -> Option<Light> {
    let record = &entry.record;
    Some(Light {
        head: head(entry, DATASHEET)?,
        kind: record.word(
            "kind",
            DATASHEET,
            &[("buttons", LightKind::Buttons), ("names", LightKind::Names), ("porch", LightKind::Porch)],
        )?,
        feed: current_kind(record),
        voltage: record.quantity("voltage", DATASHEET, Voltage::from_volts)?,
        voltage_tolerance: record.or_assumed(
            "voltage_tolerance",
            record.quantity("voltage_tolerance", DATASHEET, Ratio::from_fraction),
            Ratio::from_fraction(0.1),
        ),
        load: record.load("load", DATASHEET)?,
    })
}
