//! Commissioning with power at the doors.

use super::door_words::{light_feed_word, lit_word};
use super::interfaces::interfaces;
use super::steps::Steps;
use crate::language::{Sentence, Word};
use crate::step::{Expected, Span};
use latchline_assess::LoadPart;
use latchline_assess::door::DoorSheet;
use latchline_assess::door::times::LockTimes;
use latchline_finding::Unit;
use latchline_site::model::{LockFeed, LockPart};
use latchline_wiring::Item;

/// Door by door: what is read at its locks and lights, what is tried, and what it does without power.
pub(super) fn steps(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let (site, locale) = (subject.site, &subject.locale);
    steps.stage(Word::StageDoors);
    let further: Vec<Item> = subject.further_mains().into_iter().chain(subject.drives()).collect();
    for item in &further {
        steps.word(&item.name(site), Word::MainsOfItsOwnOn);
    }
    for (index, entrance) in site.entrances.iter().enumerate() {
        let name = entrance.id.as_str();
        let sheet = subject.assessment.doors.iter().find(|sheet| sheet.entrance == entrance.id);
        for (lock, sheet) in sheet.iter().flat_map(|sheet| sheet.locks.iter().enumerate()) {
            let at = Item::Lock { entrance: index, lock }.name(site);
            let used = &entrance.locks[lock];
            if let (LockFeed::OwnSupply, Ok(circuit)) = (used.feed.value, &sheet.circuit) {
                let feed = &circuit.feed;
                let volts = Span { nominal: feed.voltage_v, lowest: feed.low_v, highest: feed.high_v };
                let voltage = locale.in_words(feed.voltage_v, Unit::Volt);
                let what = locale.say(&Sentence::OutputBeforeLock { voltage: &voltage });
                let supply = Item::Part { entrance: index, lock, part: LockPart::Supply }.name(site);
                steps.read(&supply, what, Word::Voltmeter, Expected::Between(volts, Unit::Volt));
            }
            if let Ok(circuit) = &sheet.circuit {
                let volts =
                    Span { nominal: circuit.nominal_v, lowest: circuit.least_v, highest: circuit.highest_v };
                let expected = Expected::Between(volts, Unit::Volt);
                steps.read_word(&at, Word::LockVoltage, Word::Voltmeter, expected);
            }
            if let Some(times) = &sheet.times {
                let time = locale.in_words(times.hold.time_s, Unit::Second);
                let what = locale.say(&Sentence::ReleaseTime { time: &time });
                steps.read(&at, what, Word::Stopwatch, release_time(times));
            }
            if sheet.exit_button == Some(true) {
                steps.word(&at, Word::TryExitButton);
            }
            if sheet.emergency_release == Some(true) {
                steps.word(&at, Word::TryEmergencyRelease);
            }
            if used.door_contact.value {
                steps.word(&at, Word::TryDoorContact);
            }
        }
        if entrance.fire_interlock.value {
            steps.word(name, Word::FireInterlockTest);
        }
        for input in sheet.iter().flat_map(|sheet| &sheet.alarm_inputs) {
            let at = Item::AlarmContact { entrance: index, input: input.number - 1 }.name(site);
            if input.releases_locks {
                steps.word(&at, Word::FireInterlockTest);
            }
            if !input.tells.is_empty() {
                let names: Vec<&str> = input.tells.iter().map(|name| name.as_str()).collect();
                let what = locale.say(&Sentence::TryAlarmInput { told: &names.join(", ") });
                steps.say(&at, what);
            }
        }
        for interface in interfaces(subject).into_iter().filter(|one| one.entrance() == index) {
            steps.word(&interface.item().name(site), Word::InterfaceCutTest);
        }
        if let Some(sheet) = sheet {
            lights_and_heater(steps, index, sheet);
        }
        for module in &entrance.accessories {
            steps.say(name, locale.say(&Sentence::TryModule { module: &module.value }));
        }
    }
    doors_without_power(steps, &further);
}

/// A release by stopwatch.
fn release_time(times: &LockTimes) -> Expected {
    let [lowest, nominal, highest] = times.by_stopwatch_s();
    Expected::Between(Span { nominal, lowest, highest }, Unit::Second)
}

/// Every light shines on what it should draw, and a heater gets warm.
fn lights_and_heater(steps: &mut Steps<'_, '_>, entrance: usize, sheet: &DoorSheet) {
    let (site, locale) = (steps.subject.site, steps.subject.locale);
    for light in &sheet.lights {
        let at = Item::Light { entrance, light: light.number - 1 }.name(site);
        let (feed, lit) = (locale.word(light_feed_word(light.feed)), locale.word(lit_word(light.lit)));
        let what = locale.say(&Sentence::TryLight { light: &light.model, feed, lit });
        let [lowest, nominal, highest] = light.drawn_a();
        let drawn = Expected::metered(Span { nominal, lowest, highest }, Unit::Ampere);
        steps.read(&at, what, Word::Ammeter, drawn);
    }
    if sheet.heater == Some(true) {
        let station = sheet.entrance.as_str();
        let drawn = sheet.load.iter().flat_map(|load| &load.lines);
        let drawn =
            drawn.filter(|line| line.part == LoadPart::Heater).map(|line| line.drawn_at_night_a()).next();
        let expected = drawn.map_or(Expected::Unknown(Unit::Ampere), |[lowest, nominal, highest]| {
            Expected::metered(Span { nominal, lowest, highest }, Unit::Ampere)
        });
        steps.read(station, locale.say(&Sentence::TryHeater { station }), Word::Ammeter, expected);
    }
}

/// What only shows with mains and battery off: once off at all supplies, then door after door, then on again.
fn doors_without_power(steps: &mut Steps<'_, '_>, further: &[Item]) {
    let subject = steps.subject;
    let site = subject.site;
    if site.entrances.iter().all(|entrance| entrance.locks.is_empty() && !entrance.is_escape_route()) {
        return;
    }
    let supplies = site.supplies.iter().map(|supply| supply.id.to_string());
    let sources: Vec<String> = supplies.chain(further.iter().map(|item| item.name(site))).collect();
    // The supply of a light feeds no lock: it is off here so that nothing at the door is live, and says no more.
    let of_lights: Vec<String> = further
        .iter()
        .filter(|item| matches!(item, Item::LightSupply { .. }))
        .map(|item| item.name(site))
        .collect();
    for source in &sources {
        let is_of_light = of_lights.contains(source);
        steps.word(source, if is_of_light { Word::LightSupplyOff } else { Word::SystemOff });
    }
    for (index, entrance) in site.entrances.iter().enumerate() {
        let sheet = subject.assessment.doors.iter().find(|sheet| sheet.entrance == entrance.id);
        for (lock, sheet) in sheet.iter().flat_map(|sheet| sheet.locks.iter().enumerate()) {
            let at = Item::Lock { entrance: index, lock }.name(site);
            steps.word(&at, Word::LockWithoutPower);
            if sheet.emergency_release == Some(true) {
                steps.word(&at, Word::TryEmergencyRelease);
            }
        }
        if entrance.is_escape_route() {
            steps.word(entrance.id.as_str(), Word::EscapeWithoutSystem);
        }
    }
    sources.iter().for_each(|source| steps.word(source, Word::SystemOnAgain));
}
