//! What is fitted at a door.

use super::resolver::{PartKind, Resolver, STATED};
use crate::catalogue::PowerLoss;
use crate::codes;
use crate::model::{
    AlarmInput, AlarmKind, Entrance, LightUse, LockFeed, LockPart, LockUse, PartCable, RelayContact,
};
use crate::parse::{Entry, Record, clip};
use latchline_finding::{Finding, Severity, Sourced};

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
            Some(kind) if kind.is_of_another_system() => LockFeed::DryContact,
            _ => LockFeed::Station,
        };
        let usual_contact = match part.map(|part| part.power_loss.value) {
            Some(PowerLoss::Opens) => RelayContact::NormallyClosed,
            _ => RelayContact::NormallyOpen,
        };
        let cables = self.part_cables(record, element);
        LockUse::read(record, STATED, model, usual_feed, cable, cables, usual_contact)
    }

    /// The cables to the parts of a lock's circuit; one to each.
    fn part_cables(&mut self, record: &Record<'_>, element: &str) -> Vec<PartCable> {
        let mut cables: Vec<PartCable> = Vec::new();
        for table in record.tables("cables") {
            let cable = self.door_cable(table, element);
            let Some(read) = PartCable::read(table, STATED, cable) else { continue };
            if let Some(first) = cables.iter().find(|other| other.to.value == read.to.value) {
                let finding = self
                    .report(codes::PART_CABLE_TWICE, read.to.origin.clone())
                    .about(element)
                    .with("name", clip(element))
                    .with("part", read.to.value.word())
                    .also_at("first-defined-here", first.to.origin.clone());
                self.findings.push(finding);
                continue;
            }
            cables.push(read);
        }
        cables
    }

    /// Tells of cables to parts that the plan does not have.
    pub(super) fn cables_to_no_part(&mut self, entrance: &Entrance) {
        for lock in &entrance.locks {
            for cable in lock.cables.iter().filter(|cable| !entrance.has_part(lock, cable.to.value)) {
                let finding =
                    Finding::new(codes::CABLE_TO_NO_PART, Severity::Warning, cable.to.origin.clone())
                        .about(entrance.id.clone())
                        .with("name", entrance.id.as_str())
                        .with("part", cable.to.value.word());
                self.findings.push(finding);
            }
        }
    }

    /// The door contact of the first lock is the contact at the alarm input "door" where the plan has one, and hangs on one cable: that of the
    /// input, or the one that the lock's `cables` states for it. Where both are stated the input's holds, and the other is told and left out.
    pub(super) fn door_contact_cable(
        &mut self,
        element: &str,
        locks: &mut [LockUse],
        inputs: &mut [AlarmInput],
    ) {
        let Some(lock) = locks.first_mut().filter(|lock| lock.door_contact.value) else { return };
        let Some(input) = inputs.iter_mut().find(|input| input.kind.value == AlarmKind::Door) else { return };
        let Some(at) = lock.cables.iter().position(|cable| cable.to.value == LockPart::DoorContact) else {
            return;
        };
        let of_lock = lock.cables.remove(at);
        let stated = input.cable.as_ref().map(|cable| cable.origin.clone());
        match stated.or_else(|| input.length.as_ref().map(|length| length.origin.clone())) {
            None => (input.cable, input.length) = (Some(of_lock.cable), Some(of_lock.length)),
            Some(of_input) => {
                let code = codes::DOOR_CONTACT_CABLE_TWICE;
                let finding = Finding::new(code, Severity::Warning, of_lock.to.origin.clone())
                    .about(element)
                    .with("name", clip(element))
                    .also_at("first-defined-here", of_input);
                self.findings.push(finding);
            }
        }
    }

    /// The cable of a lock, a light or an alarm input.
    fn door_cable(&mut self, record: &Record<'_>, element: &str) -> Option<Sourced<String>> {
        let cable = record.read("cable", STATED)?;
        self.check_part(PartKind::Cable, &cable, Some(element));
        Some(cable)
    }

    /// The lights at a door.
    pub(super) fn lights(&mut self, record: &Record<'_>, element: &str) -> Vec<LightUse> {
        let read = |light| {
            let model = self.model(light, "model", PartKind::Light, element);
            LightUse::read(light, STATED, model, self.door_cable(light, element))
        };
        record.tables("lights").map(read).collect()
    }

    /// What is wired to the alarm inputs; who is told is filled in when all names are known.
    pub(super) fn alarm_inputs(&mut self, record: &Record<'_>, element: &str) -> Vec<AlarmInput> {
        let read = |input| AlarmInput::read(input, STATED, self.door_cable(input, element));
        record.tables("alarm_inputs").map(read).collect()
    }
}
