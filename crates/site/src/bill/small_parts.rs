//! What a site file counts and no catalogue lists.

use super::line::{BillKind, BillLine};
use crate::catalogue::Battery;
use crate::model::{AlarmKind, LightFeed, LockFeed, LockRelay, LockUse, Run, RunStop, Site, Suppression};
use crate::protectors;
use latchline_finding::Language::{English, German};
use latchline_finding::quantity::Resistance;
use latchline_finding::{Both, Figure, Unit};
use latchline_words::figures;
use latchline_words::pack::{Sentence, Word};
use std::collections::BTreeMap;

/// A line for each kind of small part, by its name.
pub(super) fn small_parts(site: &Site) -> Vec<BillLine> {
    let mut parts = Parts::default();
    batteries(site, &mut parts);
    surge_protectors(site, &mut parts);
    for run in &site.runs {
        let is_terminated = run.terminator.as_ref().is_some_and(|terminator| terminator.value);
        if is_terminated && !has_own_terminator(site, run) {
            parts.add(Word::TerminatorPart.both(), 1);
        }
    }
    for entrance in &site.entrances {
        for lock in &entrance.locks {
            at_lock(lock, &mut parts);
        }
        let own = entrance.lights.iter().filter(|light| light.feed.value == LightFeed::OwnSupply);
        parts.add(Word::LightSupplyPart.both(), own.count());
        let inputs = &entrance.alarm_inputs;
        // The contact of the fire alarm belongs to the fire alarm; a door contact at the lock is counted there.
        let has_door_contact = entrance.locks.iter().any(|lock| lock.door_contact.value);
        let contacts = inputs.iter().filter(|input| match input.kind.value {
            AlarmKind::Tamper | AlarmKind::Duress => true,
            AlarmKind::Door => !has_door_contact,
            AlarmKind::Fire => false,
        });
        parts.add(Word::AlarmContact.both(), contacts.count());
        let resistors = inputs.iter().filter(|input| input.end_of_line_resistor.value);
        parts.add(Word::EndOfLineResistor.both(), resistors.count());
    }
    parts.into_lines()
}

/// Pieces by what they are called for programs.
#[derive(Default)]
struct Parts(BTreeMap<String, (Both, usize)>);

impl Parts {
    fn add(&mut self, title: Both, count: usize) {
        if count > 0 {
            self.0.entry(title.of(English).to_string()).or_insert((title, 0)).1 += count;
        }
    }

    fn into_lines(self) -> Vec<BillLine> {
        let line = |(name, (title, count)): (String, (Both, usize))| BillLine {
            kind: BillKind::Small,
            name,
            title,
            quantity: count as f64,
            unit_price: None,
            price_left_out_in: None,
            article: None,
            unit_minutes: None,
        };
        self.0.into_iter().map(line).collect()
    }
}

/// The first battery comes with its supply; those in parallel with it are bought.
fn batteries(site: &Site, parts: &mut Parts) {
    for supply in &site.supplies {
        let model = site.supply_model(supply);
        if let Some(battery) = &model.battery {
            let further = supply.batteries.value.saturating_sub(1) as usize;
            parts.add(battery_title(battery, &model.head.name), further);
        }
    }
}

fn battery_title(battery: &Battery, supply: &str) -> Both {
    let said = |language| {
        let figure = |value, unit| figures::sentence(Figure::new(value, unit), language);
        let capacity = &figure(battery.capacity.value.as_amp_hours(), Unit::AmpereHour);
        let voltage = &figure(battery.voltage.value.as_volts(), Unit::Volt);
        Sentence::FurtherBattery { capacity, voltage, supply }.say(language)
    };
    Both::new(said(English), said(German))
}

fn surge_protectors(site: &Site, parts: &mut Parts) {
    for at in protectors::all(site) {
        if let Some(resistance) = protectors::resistance(site, at) {
            parts.add(protector_title(resistance), 1);
        }
    }
}

fn protector_title(resistance: Resistance) -> Both {
    let said = |language| {
        let resistance = &figures::sentence(Figure::new(resistance.as_ohms(), Unit::Ohm), language);
        Sentence::SurgeProtector { resistance }.say(language)
    };
    Both::new(said(English), said(German))
}

fn at_lock(lock: &LockUse, parts: &mut Parts) {
    let suppressor = match lock.suppression.as_ref().map(|stated| stated.value) {
        Some(Suppression::Diode) => Some(Word::DiodePart),
        Some(Suppression::Clamp) => Some(Word::ClampPart),
        Some(Suppression::Varistor) => Some(Word::VaristorPart),
        Some(Suppression::None) | None => None,
    };
    let fitted = [
        (lock.relay() == LockRelay::Between, Word::RelayBetween),
        (lock.relay() == LockRelay::OnSecureSide, Word::RelayOnSecureSidePart),
        (lock.exit_button.value, Word::ExitButtonPart),
        (lock.door_contact.value, Word::DoorContactPart),
        (lock.emergency_release.as_ref().is_some_and(|stated| stated.value), Word::EmergencyReleasePart),
        (lock.feed.value == LockFeed::OwnSupply, Word::LockSupplyPart),
    ];
    let fitted = fitted.into_iter().filter(|(is_there, _)| *is_there).map(|(_, word)| word);
    for word in suppressor.into_iter().chain(fitted) {
        parts.add(word.both(), 1);
    }
}

/// Whether the last station of a run brings its own terminator, so that a switch is all that is set.
pub fn has_own_terminator(site: &Site, run: &Run) -> bool {
    match run.sections.last().map(|section| section.to) {
        Some(RunStop::Station(station)) => {
            site.station_model(&site.stations[station]).built_in_terminator.value
        }
        _ => false,
    }
}
