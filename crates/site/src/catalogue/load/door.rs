//! Locks, lights and door-side accessories.

use super::require::{DATASHEET, require};
use crate::catalogue::{Accessory, Light, Lock, LockKind, PartHead};
use crate::parse::{Entry, Findings};
use latchline_finding::Both;

pub(super) fn lock(entry: &Entry<'_>, findings: &mut Findings) -> Option<Lock> {
    let kind: LockKind = entry.record.read("kind", DATASHEET)?;
    if !kind.is_of_another_system() {
        require(entry, "voltage", Both::same(kind.word()), findings);
        require(entry, "current", Both::same(kind.word()), findings);
    }
    Lock::read(&entry.record, DATASHEET, PartHead::read(entry, DATASHEET)?)
}

pub(super) fn accessory(entry: &Entry<'_>, _: &mut Findings) -> Option<Accessory> {
    Accessory::read(&entry.record, DATASHEET, PartHead::read(entry, DATASHEET)?)
}

pub(super) fn light(entry: &Entry<'_>, _: &mut Findings) -> Option<Light> {
    Light::read(&entry.record, DATASHEET, PartHead::read(entry, DATASHEET)?)
}
