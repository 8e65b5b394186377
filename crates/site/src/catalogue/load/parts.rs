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
    let least_v = model.least_voltage.value.as_volts();
    let highest_v = model.highest_voltage.as_ref().map_or(USUAL_SPAN * least_v, |most| most.value.as_volts());
    for (key, load) in [("ringing", &model.ringing), ("talking", &model.talking)] {
        if is_less(load.value, model.standby.value, [least_v, highest_v]) {
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

/// Highest over least voltage of a station that states no highest (common practice, no source).
const USUAL_SPAN: f64 = 1.5;

/// Whether the first of two loads draws less at every voltage between these two. Two loads of one kind compare alike at every voltage; of two kinds
/// the difference of their currents changes its sign once at most, so the ends tell.
fn is_less(load: LoadValue, other: LoadValue, ends_v: [f64; 2]) -> bool {
    match (load, other) {
        (LoadValue::Power(load), LoadValue::Power(other)) => load < other,
        (LoadValue::Current(load), LoadValue::Current(other)) => load < other,
        (LoadValue::Resistance(load), LoadValue::Resistance(other)) => load > other,
        _ => ends_v.into_iter().all(|voltage_v| current_a(load, voltage_v) < current_a(other, voltage_v)),
    }
}

fn current_a(load: LoadValue, voltage_v: f64) -> f64 {
    match load {
        LoadValue::Power(power) => power.as_watts() / voltage_v,
        LoadValue::Current(current) => current.as_amps(),
        LoadValue::Resistance(resistance) => voltage_v / resistance.as_ohms(),
    }
}

fn written(load: LoadValue) -> Figure {
    match load {
        LoadValue::Power(power) => Figure::new(power.as_watts(), Unit::Watt),
        LoadValue::Current(current) => Figure::new(current.as_amps(), Unit::Ampere),
        LoadValue::Resistance(resistance) => Figure::new(resistance.as_ohms(), Unit::Ohm),
    }
}
