//! Commissioning with power at the doors.

use super::door_words::{light_feed_word, lit_word};
use super::interfaces::{Interface, interfaces};
use super::steps::Steps;
use crate::language::{Sentence, Word};
use crate::step::{Expected, Span};
use latchline_assess::LoadPart;
use latchline_assess::door::DoorSheet;
use latchline_assess::door::times::{LockTimes, delayed_egress_by_stopwatch_s};
use latchline_finding::Unit;
use latchline_site::model::{LockFeed, LockPart};
use latchline_wiring::Item;

/// Door by door: what is read at its locks and lights, what is tried, and what it does without power.
pub(super) fn steps(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let (site, locale) = (subject.site, &subject.locale);
    steps.stage(Word::StageDoors);
    let further = subject.further_mains();
    further.iter().for_each(|item| mains_on(steps, *item));
    for drive in subject.drives() {
        steps.word(drive, Word::OwnerSwitchesOn);
    }
    for (index, entrance) in site.entrances.iter().enumerate() {
        let station = Item::Station(entrance.station);
        let sheet = subject.assessment.doors.iter().find(|sheet| sheet.index == index);
        for (lock, sheet) in sheet.iter().flat_map(|sheet| sheet.locks.iter().enumerate()) {
            let at = Item::Lock { entrance: index, lock };
            if let Ok(circuit) = &sheet.circuit {
                let volts =
                    Span { nominal: circuit.nominal_v, lowest: circuit.least_v, highest: circuit.highest_v };
                let expected = Expected::Between(volts, Unit::Volt);
                steps.read_word(at, Word::LockVoltage, Word::Voltmeter, expected);
            }
            if let Some(times) = &sheet.times {
                let time = locale.in_words(times.hold.time_s, Unit::Second);
                let lets_go = times.decay_s.filter(|decay_s| *decay_s > 0.0).map(|decay_s| {
                    let time = locale.in_words(decay_s, Unit::Second);
                    locale.say(&Sentence::CoilLetsGo { time: &time })
                });
                let lets_go = &lets_go.unwrap_or_default();
                let what = locale.say(&Sentence::ReleaseTime { time: &time, lets_go });
                steps.read(at, what, Word::Stopwatch, release_time(times));
                steps.is_in_brief(Word::BriefReleaseTime);
            }
            match sheet.delayed_egress_s {
                Some(delay_s) => delayed_egress(steps, at, delay_s),
                None if sheet.exit_button == Some(true) => steps.word(at, Word::TryExitButton),
                None => {}
            }
            if sheet.emergency_release == Some(true) {
                steps.word(at, Word::TryEmergencyRelease);
            }
            if site.entrances[index].locks[lock].door_contact.value {
                steps.word(at, Word::TryDoorContact);
            }
        }
        let of_door = interfaces(subject).into_iter().filter(|one| one.entrance() == index);
        let of_door: Vec<Interface> = of_door.collect();
        let by_contact = |one: &&Interface| matches!(one, Interface::FireContact { .. });
        let contacts: Vec<&Interface> = of_door.iter().filter(by_contact).collect();
        // With no lock but those of other trades there is nothing that the alarm could release by a contact.
        if contacts.iter().any(|one| !one.stays_free(subject)) {
            steps.word(station, Word::FireInterlockTest);
        } else if let Some(free) = contacts.first() {
            steps.tell(free.item(), locale.word(Word::FireContactStaysFree).to_string());
        }
        for input in sheet.iter().flat_map(|sheet| &sheet.alarm_inputs) {
            let at = Item::AlarmContact { entrance: index, input: input.number - 1 };
            if input.releases_locks {
                steps.word(at, Word::FireInterlockTest);
            }
            if !input.tells.is_empty() {
                let names: Vec<&str> = input.tells.iter().map(|name| name.as_str()).collect();
                let what = locale.say(&Sentence::TryAlarmInput { told: &names.join(", ") });
                steps.say(at, what);
            }
        }
        for interface in of_door.iter().filter(|one| !one.stays_free(subject)) {
            steps.word(interface.item(), Word::InterfaceCutTest);
        }
        if let Some(sheet) = sheet {
            lights_and_heater(steps, index, sheet);
        }
        for module in &entrance.accessories {
            steps.say(station, locale.say(&Sentence::TryModule { module: &module.value }));
        }
    }
    doors_without_power(steps, &further);
}

/// A supply of our own at a door gets its mains; one of a lock with the lock off it, which is connected only once its voltage has been read.
fn mains_on(steps: &mut Steps<'_, '_>, item: Item) {
    let (site, locale) = (steps.subject.site, &steps.subject.locale);
    let Item::Part { entrance, lock, part: LockPart::Supply } = item else {
        return steps.word(item, Word::MainsOfItsOwnOn);
    };
    steps.word(item, Word::LockIsOffItsSupply);
    steps.word(item, Word::MainsOfItsOwnOn);
    let used = &site.entrances[entrance].locks[lock];
    let sheet = steps.subject.assessment.doors.iter().find(|sheet| sheet.index == entrance);
    let feed =
        sheet.and_then(|sheet| sheet.locks.get(lock)?.circuit.as_ref().ok()).map(|circuit| &circuit.feed);
    let stated = used.supply_voltage.as_ref().map(|stated| stated.value.as_volts());
    let voltage = feed.map(|feed| feed.voltage_v).or(stated).map(|volts| locale.in_words(volts, Unit::Volt));
    let what = locale.say(&Sentence::OutputBeforeLock { voltage: voltage.as_deref() });
    let expected = feed.map_or(Expected::Unknown(Unit::Volt), |feed| {
        let span = Span { nominal: feed.voltage_v, lowest: feed.low_v, highest: feed.high_v };
        Expected::Between(span, Unit::Volt)
    });
    steps.read(item, what, Word::Voltmeter, expected);
    steps.read_word(item, Word::ConnectLockToSupply, Word::VoltageTester, Expected::Done);
}

/// A delayed egress: its time, and that the alarm ends it. That loss of power does is tried with the power off.
fn delayed_egress(steps: &mut Steps<'_, '_>, at: Item, delay_s: f64) {
    let locale = &steps.subject.locale;
    steps.tell(at, locale.word(Word::DelayLocalCodes).to_string());
    let [lowest, nominal, highest] = delayed_egress_by_stopwatch_s(delay_s);
    let time = locale.in_words(delay_s, Unit::Second);
    let what = locale.say(&Sentence::DelayedExit { time: &time });
    let expected = Expected::Between(Span { nominal, lowest, highest }, Unit::Second);
    steps.read(at, what, Word::Stopwatch, expected);
    steps.word(at, Word::DelayEndsOnAlarm);
}

/// A release by stopwatch.
fn release_time(times: &LockTimes) -> Expected {
    let [lowest, nominal, highest] = times.by_stopwatch_s();
    Expected::Between(Span { nominal, lowest, highest }, Unit::Second)
}

/// Every light shines on what it should draw, and a heater gets warm.
fn lights_and_heater(steps: &mut Steps<'_, '_>, entrance: usize, sheet: &DoorSheet) {
    let locale = steps.subject.locale;
    for light in &sheet.lights {
        let at = Item::Light { entrance, light: light.number - 1 };
        let (feed, lit) = (locale.word(light_feed_word(light.feed)), locale.word(lit_word(light.lit)));
        let what = locale.say(&Sentence::TryLight { light: &light.model, feed, lit });
        let [lowest, nominal, highest] = light.drawn_a();
        let drawn = Expected::metered(Span { nominal, lowest, highest }, Unit::Ampere);
        steps.read(at, what, Word::Ammeter, drawn);
    }
    if sheet.heater == Some(true) {
        let station = sheet.entrance.as_str();
        let drawn = sheet.load.iter().flat_map(|load| &load.lines);
        let drawn =
            drawn.filter(|line| line.part == LoadPart::Heater).map(|line| line.drawn_at_night_a()).next();
        let expected = drawn.map_or(Expected::Unknown(Unit::Ampere), |[lowest, nominal, highest]| {
            Expected::metered(Span { nominal, lowest, highest }, Unit::Ampere)
        });
        let at = Item::Station(steps.subject.site.entrances[entrance].station);
        steps.read(at, locale.say(&Sentence::TryHeater { station }), Word::Ammeter, expected);
    }
}

/// What only shows with mains and battery off: once off at all supplies of ours, then door after door, then on again. Systems of other trades
/// stay on: they get no command, and that is looked at.
fn doors_without_power(steps: &mut Steps<'_, '_>, further: &[Item]) {
    let subject = steps.subject;
    let site = subject.site;
    if site.entrances.iter().all(|entrance| entrance.locks.is_empty() && !entrance.is_escape_route()) {
        return;
    }
    let sources: Vec<Item> =
        (0..site.supplies.len()).map(Item::Supply).chain(further.iter().copied()).collect();
    for source in &sources {
        // The supply of a light feeds no lock: it is off here so that nothing at the door is live, and says no more.
        let is_of_light = matches!(source, Item::LightSupply { .. });
        steps.word(*source, if is_of_light { Word::LightSupplyOff } else { Word::SystemOff });
    }
    for (index, entrance) in site.entrances.iter().enumerate() {
        let sheet = subject.assessment.doors.iter().find(|sheet| sheet.index == index);
        for (lock, sheet) in sheet.iter().flat_map(|sheet| sheet.locks.iter().enumerate()) {
            let at = Item::Lock { entrance: index, lock };
            if entrance.locks[lock].feed.value == LockFeed::DryContact {
                steps.word(at, Word::DriveWithoutCommand);
                continue;
            }
            steps.word(at, Word::LockWithoutPower);
            if sheet.delayed_egress_s.is_some() {
                steps.word(at, Word::DelayEndsWithoutPower);
            }
            if sheet.emergency_release == Some(true) {
                steps.word(at, Word::TryEmergencyRelease);
            }
        }
        if entrance.is_escape_route() {
            steps.word(Item::Station(entrance.station), Word::EscapeWithoutSystem);
        }
    }
    sources.iter().for_each(|source| steps.word(*source, Word::SystemOnAgain));
}
