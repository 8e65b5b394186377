//! What is fitted at a door.

use super::{PartKind, Resolver, STATED};
use crate::catalogue::{LockKind, PowerLoss};
use crate::codes;
use crate::model::{AlarmInput, LightUse, LockFeed, LockUse, RelayContact};
use crate::parse::{Entry, Record, clip};
use latchline_finding::Sourced;

impl Resolver<'_> {
    pub(super) fn accessories(&mut self, record: &Record<'_>, element: &str) -> Vec<Sourced<String>> {
        let accessories = record.items("accessories", STATED);
        for name in &accessories {
            self.check_part(PartKind::Accessory, name, Some(element));
        }
        accessories
    }

    pub(super) fn locks(&mut self, entry: &Entry<'_>) -> Vec<LockUse> {
        let record = &entry.record;
        if record.is_written("lock") && record.is_written("locks") {
            let finding = self
                .report(codes::LOCK_GIVEN_TWICE, record.origin("locks"))
                .about(entry.name)
                .with("name", clip(entry.name))
                .also_at("first-defined-here", record.origin("lock"));
            self.findings.push(finding);
        }
        let uses: Vec<&Record<'_>> = record.table("lock").into_iter().chain(record.tables("locks")).collect();
        uses.into_iter().map(|lock| self.lock_use(lock, entry.name)).collect()
    }

    fn lock_use(&mut self, record: &Record<'_>, element: &str) -> LockUse {
        let model = self.model(record, "model", PartKind::Lock, element);
        let cable = self.door_cable(record, element);
        let part = self.loader.catalogue.locks.get(&model.value);
        let usual_feed = match part.map(|part| part.kind.value) {
            Some(LockKind::Gate) => LockFeed::DryContact,
            _ => LockFeed::Station,
        };
        let usual_contact = match part.map(|part| part.power_loss.value) {
            Some(PowerLoss::Opens) => RelayContact::NormallyClosed,
            _ => RelayContact::NormallyOpen,
        };
        LockUse::read(record, STATED, model, usual_feed, cable, usual_contact)
    }

    /// The cable of a lock or alarm input.
    fn door_cable(&mut self, record: &Record<'_>, element: &str) -> Option<Sourced<String>> {
        let cable = record.read("cable", STATED)?;
        self.check_part(PartKind::Cable, &cable, Some(element));
        Some(cable)
    }

    /// The lights at a door.
    pub(super) fn lights(&mut self, record: &Record<'_>, element: &str) -> Vec<LightUse> {
        let read =
            |light| LightUse::read(light, STATED, self.model(light, "model", PartKind::Light, element));
        record.tables("lights").map(read).collect()
    }

    /// What is wired to the alarm inputs; who is told is filled in when all names are known.
    pub(super) fn alarm_inputs(&mut self, record: &Record<'_>, element: &str) -> Vec<AlarmInput> {
        let read = |input| AlarmInput::read(input, STATED, self.door_cable(input, element));
        record.tables("alarm_inputs").map(read).collect()
    }
}
