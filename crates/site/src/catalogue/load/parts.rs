//! Supplies, boxes and stations.

use super::{DATASHEET, ordered, require};
use crate::catalogue::{BoxKind, BoxModel, PartHead, StationModel, SupplyModel};
use crate::parse::{Entry, Findings};
use latchline_finding::Both;

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
    StationModel::read(record, DATASHEET, PartHead::read(entry, DATASHEET)?)
}
