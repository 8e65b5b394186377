//! Commissioning before power: isolate, wire, set, check.

use super::devices::address_words;
use super::steps::{Expected, Steps};
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::subject::Subject;
use crate::table::Table;
use latchline_assess::door::cable_loop::CableLoop;
use latchline_finding::Unit;
use latchline_wiring::Item;
use latchline_wiring::terminal::place_name;

/// Insulation that a run should have at least, in megohm (common practice for extra-low voltage wiring;
/// BS 7671 table 64 asks 0.5 megohm of SELV circuits at 250 V, from memory).
const LEAST_INSULATION_MOHM: f64 = 1.0;

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let mut steps = Steps::new(subject, Part::BeforePower, Word::BeforePowerTitle);
    steps.note(Word::BeforePowerNote);
    steps.note(Word::OhmmeterNote);
    isolate(&mut steps);
    wire(&mut steps);
    set(&mut steps);
    check(&mut steps);
    steps.into_table()
}

fn isolate(steps: &mut Steps<'_, '_>) {
    steps.stage(Word::StageIsolate);
    for supply in &steps.subject.site.supplies {
        steps.word(supply.id.as_str(), Word::IsolateMains, &Expected::Done);
        if steps.subject.site.supply_model(supply).battery.is_some() {
            steps.word(supply.id.as_str(), Word::DisconnectBattery, &Expected::Done);
        }
        steps.word(supply.id.as_str(), Word::ProveDead, &Expected::Done);
    }
}

fn wire(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    steps.stage(Word::StageWire);
    // Cables come first: a device is wired when all its cables are there.
    for cable in &subject.wiring.cables {
        let from = &place_name(subject.site, cable.from);
        let to = &place_name(subject.site, cable.to);
        let what = match cable.laid.is_existing {
            true => Sentence::FindAndLabel { from, to },
            false => Sentence::PullAndLabel { from, to },
        };
        steps.say(&cable.designation, subject.locale.say(&what), &Expected::Done);
    }
    for device in &subject.order {
        steps.word(&device.name(subject.site), Word::MountAndWire, &Expected::Done);
    }
}

fn set(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    steps.stage(Word::StageSet);
    for device in subject.order.iter().filter(|device| matches!(device, Item::Station(_))) {
        let (address, settings) = address_words(subject, *device);
        if address.is_empty() {
            continue;
        }
        let what = subject.locale.say(&Sentence::SetAddress { address: &address, settings: &settings });
        steps.say(&device.name(subject.site), what, &Expected::Done);
    }
    for supply in subject.site.supplies.iter().filter(|supply| supply.set_voltage.is_some()) {
        let volts = supply.set_voltage.as_ref().map_or(0.0, |set| set.value.as_volts());
        let volts = subject.locale.in_words(volts, Unit::Volt);
        steps.say(
            supply.id.as_str(),
            subject.locale.say(&Sentence::SetVoltage { voltage: &volts }),
            &Expected::Done,
        );
    }
}

fn check(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    steps.stage(Word::StageCheck);
    for run in subject.readings.power_order.iter().map(|feed| feed.run) {
        let expected = Expected::predicted(subject.readings.loop_resistance(run), Unit::Ohm);
        let site_run = &subject.site.runs[run];
        let name = site_run.id.as_str();
        let from = subject.site.start_id(site_run.from);
        let end =
            site_run.sections.last().map_or(String::new(), |last| subject.site.stop_id(last.to).to_string());
        let what = subject.locale.say(&Sentence::MeasureLoop { from: from.as_str(), end: &end });
        steps.say(name, what, &expected);
        let least = subject.locale.number(LEAST_INSULATION_MOHM, 1);
        steps.say(
            name,
            subject.locale.say(&Sentence::MeasureInsulation { least: &least }),
            &Expected::Written,
        );
    }
    for supply in &subject.site.supplies {
        steps.word(supply.id.as_str(), Word::NoShortAtOutput, &Expected::Done);
    }
    for (entrance, entry) in subject.site.entrances.iter().enumerate() {
        let sheet = subject.assessment.doors.iter().find(|sheet| sheet.entrance == entry.id);
        for (lock, sheet) in sheet.iter().flat_map(|sheet| sheet.locks.iter().enumerate()) {
            let Ok(circuit) = &sheet.circuit else { continue };
            let name = Item::Lock { entrance, lock }.name(subject.site);
            steps.word(&name, Word::MeasureLockLoop, &of_loop(&circuit.cable_loop));
            for (part, part_loop) in &circuit.part_loops {
                let name = Item::Part { entrance, lock, part: *part }.name(subject.site);
                steps.word(&name, Word::MeasurePartLoop, &of_loop(part_loop));
            }
        }
        for (input, sheet) in sheet.iter().flat_map(|sheet| sheet.alarm_inputs.iter().enumerate()) {
            let Ok(cable) = &sheet.cable else { continue };
            let name = Item::AlarmContact { entrance, input }.name(subject.site);
            steps.word(&name, Word::MeasureContactLoop, &of_loop(cable));
        }
    }
}

/// The resistance of a cable at a door, as measured with its far end short-circuited.
fn of_loop(cable: &CableLoop) -> Expected {
    Expected::UpTo(cable.usual_ohm, cable.adverse_ohm, Unit::Ohm)
}
