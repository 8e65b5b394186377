//! What is fitted at a door.

use super::{PartKind, Resolver, STATED};
use crate::catalogue::{LockKind, PowerLoss};
use crate::codes;
use crate::model::{
    AlarmInput, AlarmKind, LightFeed, LightUse, LitWhen, LockFeed, LockUse, RelayContact, Scope, Suppression,
};
use crate::parse::{Entry, Record, Value, clip};
use latchline_finding::Sourced;
use latchline_finding::quantity::{Current, Duration, Length, Ratio, Voltage};

/// How long a lock is held where nothing is stated (common practice, no source).
const USUAL_HOLD_TIME_S: f64 = 5.0;

/// Joints per conductor of a cable at a door, where none are stated: one at each end.
const USUAL_JOINTS: u32 = 2;

impl Resolver<'_> {
    pub(super) fn accessories(&mut self, record: &Record<'_>, element: &str) -> Vec<Sourced<String>> {
        let mut accessories = Vec::new();
        for item in record.list("accessories") {
            let Value::Text(name) = item.value else { continue };
            let name = Sourced::new(name.to_string(), record.at(&item.span), STATED);
            self.check_part(PartKind::Accessory, &name, Some(element));
            accessories.push(name);
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
        let uses: Vec<&Record<'_>> =
            record.table("lock").into_iter().chain(tables(record, "locks")).collect();
        uses.into_iter().map(|lock| self.lock_use(lock, entry.name)).collect()
    }

    fn lock_use(&mut self, record: &Record<'_>, element: &str) -> LockUse {
        let model = self.model(record, "model", PartKind::Lock, element);
        let cable = record.sourced_text("cable", STATED);
        if let Some(cable) = &cable {
            self.check_part(PartKind::Cable, cable, Some(element));
        }
        let part = self.loader.catalogue.locks.get(&model.value);
        let usual_feed = match part.map(|part| part.kind.value) {
            Some(LockKind::Gate) => LockFeed::DryContact,
            _ => LockFeed::Station,
        };
        let usual_contact = match part.map(|part| part.power_loss.value) {
            Some(PowerLoss::Opens) => RelayContact::NormallyClosed,
            _ => RelayContact::NormallyOpen,
        };
        let feeds = [
            ("station", LockFeed::Station),
            ("bus", LockFeed::Bus),
            ("own-supply", LockFeed::OwnSupply),
            ("dry-contact", LockFeed::DryContact),
        ];
        let suppressions = [
            ("none", Suppression::None),
            ("diode", Suppression::Diode),
            ("clamp", Suppression::Clamp),
            ("varistor", Suppression::Varistor),
        ];
        let truth = |key: &str| record.boolean(key, STATED).unwrap_or(Sourced::assumed(false));
        LockUse {
            model,
            feed: record.word("feed", STATED, &feeds).unwrap_or(Sourced::assumed(usual_feed)),
            supply_voltage: record.quantity("supply_voltage", STATED, Voltage::from_volts),
            supply_tolerance: record.quantity("supply_tolerance", STATED, Ratio::from_fraction),
            supply_ac: truth("supply_ac"),
            cable,
            length: record.quantity("length", STATED, Length::from_metres),
            joints: record.integer("joints", STATED).unwrap_or(Sourced::assumed(USUAL_JOINTS)),
            contact: record.word("contact", STATED, CONTACTS).unwrap_or(Sourced::assumed(usual_contact)),
            relay_between: record.quantity("relay_between", STATED, Current::from_amps),
            hold_time: record
                .quantity("hold_time", STATED, Duration::from_seconds)
                .unwrap_or(Sourced::assumed(Duration::from_seconds(USUAL_HOLD_TIME_S))),
            suppression: record.word("suppression", STATED, &suppressions),
            relay_on_secure_side: record.boolean("relay_on_secure_side", STATED),
            exit_button: truth("exit_button"),
            mechanical_escape: record.boolean("mechanical_escape", STATED),
            emergency_release: record.boolean("emergency_release", STATED),
            delayed_egress: record.quantity("delayed_egress", STATED, Duration::from_seconds),
            door_contact: truth("door_contact"),
            suppression_voltage: record.quantity("suppression_voltage", STATED, Voltage::from_volts),
            origin: record.at(&record.span),
        }
    }

    /// The lights at a door.
    pub(super) fn lights(&mut self, record: &Record<'_>, element: &str) -> Vec<LightUse> {
        let feeds =
            [("station", LightFeed::Station), ("bus", LightFeed::Bus), ("own-supply", LightFeed::OwnSupply)];
        let times = [("night", LitWhen::Night), ("always", LitWhen::Always), ("in-use", LitWhen::InUse)];
        tables(record, "lights")
            .map(|light| LightUse {
                model: self.model(light, "model", PartKind::Light, element),
                feed: light.word("feed", STATED, &feeds).unwrap_or(Sourced::assumed(LightFeed::Station)),
                lit: light.word("lit", STATED, &times).unwrap_or(Sourced::assumed(LitWhen::Night)),
                origin: light.at(&light.span),
            })
            .collect()
    }

    /// What is wired to the alarm inputs; who is told is filled in when all names are known.
    pub(super) fn alarm_inputs(&mut self, record: &Record<'_>, element: &str) -> Vec<AlarmInput> {
        let kinds = [
            ("tamper", AlarmKind::Tamper),
            ("duress", AlarmKind::Duress),
            ("door", AlarmKind::Door),
            ("fire", AlarmKind::Fire),
        ];
        tables(record, "alarm_inputs")
            .map(|input| {
                let cable = input.sourced_text("cable", STATED);
                if let Some(cable) = &cable {
                    self.check_part(PartKind::Cable, cable, Some(element));
                }
                AlarmInput {
                    kind: input.word("kind", STATED, &kinds).unwrap_or(Sourced::assumed(AlarmKind::Tamper)),
                    contact: input
                        .word("contact", STATED, CONTACTS)
                        .unwrap_or(Sourced::assumed(RelayContact::NormallyClosed)),
                    end_of_line_resistor: input
                        .boolean("end_of_line_resistor", STATED)
                        .unwrap_or(Sourced::assumed(false)),
                    cable,
                    length: input.quantity("length", STATED, Length::from_metres),
                    joints: input.integer("joints", STATED).unwrap_or(Sourced::assumed(USUAL_JOINTS)),
                    tells: Scope::default(),
                    origin: input.at(&input.span),
                }
            })
            .collect()
    }
}

/// Words of a contact.
const CONTACTS: &[(&str, RelayContact)] =
    &[("normally-open", RelayContact::NormallyOpen), ("normally-closed", RelayContact::NormallyClosed)];

/// The tables of a list.
pub(super) fn tables<'r, 'd>(record: &'r Record<'d>, key: &str) -> impl Iterator<Item = &'r Record<'d>> {
    record.list(key).iter().filter_map(|item| match &item.value {
        Value::Table(table) => Some(table),
        _ => None,
    })
}
