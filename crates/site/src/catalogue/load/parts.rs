//! Supplies, boxes and stations.

use super::require::{DATASHEET, ordered, require};
use crate::catalogue::{BoxKind, BoxModel, LoadValue, PartHead, StationModel, SupplyModel};
use crate::codes;
use crate::parse::{Entry, Findings};
use latchline_finding::{Both, Figure, Finding, Severity, Unit};

pub(super) fn supply(entry: &Entry<'_>, _: &mut Findings) -> Option<SupplyModel> {
    SupplyModel::read(&entry.record, DATASHEET, PartHead::read(entry, DATASHEET)?)
}

pub(super) fn box_model(entry: &Entry<'_>, findings: &mut Findings) -> Option<BoxModel> {
    let record = &entry.record;
    match record.read::<BoxKind>("kind", DATASHEET)? {
        BoxKind::Transparent | BoxKind::Isolating => {}
        BoxKind::PortLimited => require(entry, "port_current_limit", Both::same("port-limited"), findings),
        BoxKind::Regenerated => {
            require(entry, "output_voltage", Both::same("regenerated"), findings);
            require(entry, "efficiency", Both::same("regenerated"), findings);
        }
    }
    ordered(record, entry.name, "least_voltage", "highest_voltage", findings);
    ordered(record, entry.name, "turn_off_voltage", "turn_on_voltage", findings);
    BoxModel::read(record, DATASHEET, PartHead::read(entry, DATASHEET)?)
}

pub(super) fn station(entry: &Entry<'_>, findings: &mut Findings) -> Option<StationModel> {
    let record = &entry.record;
    record.field("kind")?;
    ordered(record, entry.name, "turn_off_voltage", "turn_on_voltage", findings);
    ordered(record, entry.name, "least_voltage", "highest_voltage", findings);
    ordered(record, entry.name, "least_standby_voltage", "highest_voltage", findings);
    let model = StationModel::read(record, DATASHEET, PartHead::read(entry, DATASHEET)?)?;
    for (key, load) in [("ringing", &model.ringing), ("talking", &model.talking)] {
        if is_less(load.value, model.standby.value) {
            findings.push(
                Finding::new(codes::LOAD_FALLS_IN_USE, Severity::Warning, load.origin.clone())
                    .about(entry.name)
                    .with("key", key)
                    .with("written", written(load.value))
                    .with("standby", written(model.standby.value))
                    .also_at("other-value", model.standby.origin.clone()),
            );
        }
    }
    Some(model)
}

/// Whether the first of two loads of one kind draws less.
fn is_less(load: LoadValue, other: LoadValue) -> bool {
    match (load, other) {
        (LoadValue::Power(load), LoadValue::Power(other)) => load < other,
        (LoadValue::Current(load), LoadValue::Current(other)) => load < other,
        (LoadValue::Resistance(load), LoadValue::Resistance(other)) => load > other,
        _ => false,
    }
}

fn written(load: LoadValue) -> Figure {
    match load {
        LoadValue::Power(power) => Figure::new(power.as_watts(), Unit::Watt),
        LoadValue::Current(current) => Figure::new(current.as_amps(), Unit::Ampere),
        LoadValue::Resistance(resistance) => Figure::new(resistance.as_ohms(), Unit::Ohm),
    }
}
