//! Commissioning before power: isolate, pull, test the bare ends, terminate, set, check.

use super::at::At;
use super::devices::address_words;
use super::interfaces::{Interface, interfaces};
use super::steps::{FIRST_BEFORE_POWER, Steps, run_end};
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::step::{Expected, Sheet, Span, Taken};
use crate::subject::Subject;
use crate::table::Table;
use latchline_assess::door::cable_loop::CableLoop;
use latchline_assess::rules::insulation_too_low::LEAST_OHM;
use latchline_assess::{Basis, Reading};
use latchline_finding::Unit;
use latchline_site::cables::{CableOwner, DoorCable};
use latchline_site::model::{LockFeed, LockPart, RunStop, Suppression};
use latchline_wiring::Item;
use latchline_words::template::all_names;

/// Below this a capacitance is lost in the leads of the meter, farad (common practice, no source).
const LEAST_CAPACITANCE_F: f64 = 0.5e-9;

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    steps(subject).into_table()
}

/// The same as steps.
pub fn sheet(subject: &Subject<'_>) -> Sheet {
    steps(subject).into_sheet()
}

fn steps<'s, 'a>(subject: &'s Subject<'a>) -> Steps<'s, 'a> {
    let mut steps = Steps::new(subject, Part::BeforePower, Word::BeforePowerTitle, FIRST_BEFORE_POWER);
    steps.note(Word::BeforePowerNote);
    steps.note(Word::TwoPeopleNote);
    steps.note(Word::OhmmeterNote);
    steps.note_of_meters();
    let least = subject.locale.insulation(LEAST_OHM);
    steps.note_sentence(&Sentence::InsulationNote { least: &least });
    let runs = subject.readings.power_order.iter().map(|feed| feed.run);
    let mut capacitances = runs.filter_map(|run| subject.readings.capacitance(run));
    if capacitances.any(|expected| expected.basis == Basis::AssumedCable) {
        steps.note(Word::CapacitanceAssumedNote);
    }
    who(&mut steps);
    isolate(&mut steps);
    pull(&mut steps);
    test_bare_ends(&mut steps);
    terminate(&mut steps);
    set(&mut steps);
    steps
}

fn who(steps: &mut Steps<'_, '_>) {
    steps.stage(Word::StageWho);
    for word in [Word::TesterName, Word::TesterInstrument, Word::MeterInstrument, Word::InsulationInstrument]
    {
        steps.write(At::Site, word);
    }
}

fn isolate(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let site = subject.site;
    steps.stage(Word::StageIsolate);
    for (index, supply) in site.supplies.iter().enumerate() {
        let at = Item::Supply(index);
        steps.write(at, Word::IsolateMains);
        if site.supply_model(supply).battery.is_some() {
            steps.word(at, Word::DisconnectBattery);
        }
        steps.read_word(at, Word::ProveDead, Word::VoltageTester, Expected::Done);
    }
    for item in subject.further_mains() {
        steps.write(item, Word::IsolateMains);
        steps.read_word(item, Word::ProveDead, Word::VoltageTester, Expected::Done);
    }
    of_other_trades(steps);
    fed_from_elsewhere(steps);
    fed_twice(steps);
    if site.runs.iter().any(|run| run.existing.value) {
        steps.read_word(At::Site, Word::OldSystem, Word::VoltageTester, Expected::Done);
    }
}

/// Systems of other trades: their owners isolate or disable them and say so; we prove that nothing foreign is on the conductors to them.
fn of_other_trades(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    for interface in interfaces(subject).into_iter().filter(|one| !one.stays_free(subject)) {
        let words = match interface {
            Interface::Drive { .. } if interface.is_lift(subject) => Word::OwnerIsolatesLift,
            Interface::Drive { .. } => Word::OwnerIsolatesGate,
            Interface::FireContact { .. } | Interface::FireInput { .. } => Word::OwnerDisablesFireContact,
        };
        steps.write(interface.item(), words);
        let proved = Word::ProveNoForeignVoltage;
        steps.read_word(interface.item(), proved, Word::VoltageTester, Expected::Done);
    }
}

/// Every door is told which supply feeds it: what stands there is dead only once that one is isolated, and is proved so.
fn fed_from_elsewhere(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let site = subject.site;
    for entrance in &site.entrances {
        let reaches = |run: usize| {
            let sections = &site.runs[run].sections;
            sections.iter().any(|section| section.to == RunStop::Station(entrance.station))
        };
        let feed = subject.readings.power_order.iter().find(|feed| reaches(feed.run));
        let Some(supply) = feed.and_then(|feed| feed.supply) else { continue };
        let supply = site.supplies[supply].id.as_str();
        let what = subject.locale.say(&Sentence::DeadOnceIsolated { supply });
        steps.read(Item::Station(entrance.station), what, Word::VoltageTester, Expected::Done);
    }
}

/// Boxes at which runs of more than one supply end: one of them stays live while the other is worked on.
fn fed_twice(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let site = subject.site;
    for index in 0..site.boxes.len() {
        let mut feeds: Vec<(usize, usize)> = Vec::new();
        for (run, _) in subject.runs_into(Item::Box(index)) {
            let feed = subject.readings.power_order.iter().find(|feed| feed.run == run);
            feeds.extend(feed.and_then(|feed| feed.supply).map(|supply| (supply, run)));
        }
        if feeds.iter().all(|(supply, _)| *supply == feeds[0].0) {
            continue;
        }
        let named = feeds.iter().map(|(supply, run)| {
            let (supply, run) = (site.supplies[*supply].id.as_str(), site.runs[*run].id.as_str());
            subject.locale.say(&Sentence::SupplyOverRun { supply, run })
        });
        let feeds = named.collect::<Vec<_>>().join(", ");
        let what = subject.locale.say(&Sentence::FedFromSeveral { feeds: &feeds });
        steps.read(Item::Box(index), what, Word::VoltageTester, Expected::Done);
    }
}

fn pull(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    steps.stage(Word::StagePull);
    for (index, cable) in subject.wiring.cables.iter().enumerate() {
        let from = &subject.end_words(cable.from);
        let to = &subject.end_words(cable.to);
        let what = match cable.laid.is_existing {
            true => Sentence::FindAndLabel { from, to },
            false => Sentence::PullAndLabel { from, to },
        };
        steps.say(At::Cable(index), subject.locale.say(&what));
    }
    for (index, cable) in subject.wiring.unstated.iter().enumerate() {
        let (from, to) = (&subject.end_words(cable.from), &subject.end_words(cable.to));
        steps.say(At::Unstated(index), subject.locale.say(&Sentence::PullUnstated { from, to }));
    }
}

/// Everything that an ohmmeter can see only as long as no electronics hang on it.
fn test_bare_ends(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let locale = &subject.locale;
    steps.stage(Word::StageBareEnds);
    steps.word(At::Site, Word::NothingConnected);
    if subject.site.runs.iter().any(|run| run.existing.value) {
        steps.word(At::Site, Word::OldCableMeter);
    }
    let runs: Vec<usize> = subject.readings.power_order.iter().map(|feed| feed.run).collect();
    for run in &runs {
        short_at_end(steps, *run, true);
    }
    for run in &runs {
        let run = *run;
        let site_run = &subject.site.runs[run];
        let from = subject.site.start_id(site_run.from);
        let end = run_end(subject, run);
        let several = (site_run.pairs.value > 1).then_some(site_run.pairs.value as usize);
        let what = locale.say(&Sentence::MeasureLoop { from: from.as_str(), end: &end, pairs: several });
        let expected = Expected::predicted(subject.readings.loop_resistance(run), Unit::Ohm);
        steps.read(At::Run(run), what, Word::Ohmmeter, expected);
        steps.takes(Taken::Predicted(Reading::LoopResistance { run }));
    }
    // What was short-circuited for the loops is open again before insulation and capacitance are read.
    for run in &runs {
        short_at_end(steps, *run, false);
    }
    let door_cables = door_cables(subject);
    door_loops(steps, &door_cables);
    // Meter by meter: the building is walked with one at a time.
    for is_existing in [false, true] {
        for run in runs.iter().copied().filter(|run| subject.site.runs[*run].existing.value == is_existing) {
            let site_run = &subject.site.runs[run];
            let measured = site_run.measured.insulation.as_ref().map(|measured| measured.value.as_ohms());
            insulation(steps, At::Run(run), is_existing, measured);
            steps.takes(Taken::Insulation { run });
        }
        for cable in door_cables.iter().filter(|cable| cable.is_existing == is_existing) {
            insulation(steps, At::Cable(cable.cable), is_existing, None);
        }
    }
    for run in runs {
        let site_run = &subject.site.runs[run];
        let from = subject.site.start_id(site_run.from);
        let end = run_end(subject, run);
        let capacitance = subject.readings.capacitance(run);
        if let Some(capacitance) =
            capacitance.filter(|expected| expected.nominal.value >= LEAST_CAPACITANCE_F)
        {
            let what = locale.say(&Sentence::MeasureCapacitance { from: from.as_str(), end: &end });
            let expected = Expected::Between(capacitance.into(), Unit::Farad);
            steps.read(At::Run(run), what, Word::CapacitanceMeter, expected);
            steps.takes(Taken::Predicted(Reading::Capacitance { run }));
        }
    }
}

/// The short-circuit at the far end of a run, fitted for its loop and removed after it: a step each, where the run ends.
fn short_at_end(steps: &mut Steps<'_, '_>, run: usize, is_fitted: bool) {
    let subject = steps.subject;
    let site_run = &subject.site.runs[run];
    let Some((last, before)) = site_run.sections.split_last() else { return };
    let stops: Vec<&str> = before.iter().map(|section| subject.site.stop_id(section.to).as_str()).collect();
    let stops = all_names(&stops, subject.locale.language);
    let (run, stops) = (site_run.id.as_str(), (!stops.is_empty()).then_some(stops.as_str()));
    let (what, in_general) = match is_fitted {
        true => (Sentence::FitShort { run, stops }, Word::ShortFittedEach),
        false => (Sentence::RemoveShort { run }, Word::ShortRemovedEach),
    };
    steps.say(last.to, subject.locale.say(&what));
    steps.is_in_general(in_general);
}

/// A cable at a door of which the plan says what it is.
struct DoorCableAtHand {
    /// Index into `Wiring::cables`.
    cable: usize,
    owner: DoorCable,
    cable_loop: CableLoop,
    is_existing: bool,
}

/// Every cable at a door of which the plan says what it is.
fn door_cables(subject: &Subject<'_>) -> Vec<DoorCableAtHand> {
    let known = subject.wiring.cables.iter().enumerate().filter_map(|(cable, wired)| {
        let CableOwner::AtDoor(owner) = wired.laid.owner else { return None };
        let cable_loop = CableLoop::at_door(subject.site, owner)?.ok()?;
        Some(DoorCableAtHand { cable, owner, cable_loop, is_existing: wired.laid.is_existing })
    });
    known.collect()
}

/// The loops of cables at doors.
fn door_loops(steps: &mut Steps<'_, '_>, cables: &[DoorCableAtHand]) {
    for cable in cables {
        let (at, expected) = (At::Cable(cable.cable), of_loop(&cable.cable_loop));
        let pairs = cable.cable_loop.pairs as usize;
        let what = match cable.owner {
            DoorCable::Lock { .. } if pairs > 1 => {
                let what = steps.subject.locale.say(&Sentence::MeasureLockLoopOfPairs { pairs });
                steps.read(at, what, Word::Ohmmeter, expected);
                continue;
            }
            DoorCable::Lock { .. } => Word::MeasureLockLoop,
            DoorCable::LockPart { .. } | DoorCable::Light { .. } => Word::MeasurePartLoop,
            DoorCable::AlarmContact { .. } => Word::MeasureContactLoop,
        };
        steps.read_word(at, what, Word::Ohmmeter, expected);
    }
}

/// The resistance of a cable at a door, as measured with its far end short-circuited.
fn of_loop(cable: &CableLoop) -> Expected {
    let span = Span { nominal: cable.usual_ohm, lowest: cable.light_ohm, highest: cable.adverse_ohm };
    Expected::metered(span, Unit::Ohm)
}

/// The insulation of a cable whose ends are bare; of an old one, on which unseen devices may still hang, never above a multimeter's voltage.
/// What the site has measured is expected again; the least is that of the check itself.
fn insulation(steps: &mut Steps<'_, '_>, at: At, is_existing: bool, measured_ohm: Option<f64>) {
    let meter = if is_existing { Word::OhmmeterOnly } else { Word::InsulationTester };
    let expected = Expected::AtLeastMegohm { least_ohm: LEAST_OHM, measured_ohm };
    steps.read_word(at, Word::MeasureInsulation, meter, expected);
}

fn terminate(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    steps.stage(Word::StageTerminate);
    for device in &subject.order {
        steps.word(*device, Word::MountAndWire);
    }
    for item in subject.wiring.items() {
        if matches!(item, Item::Protector(_)) {
            steps.word(item, Word::FitProtector);
        }
    }
    at_doors(steps);
    for run in subject.readings.power_order.iter().map(|feed| feed.run) {
        let site_run = &subject.site.runs[run];
        let from = subject.site.start_id(site_run.from);
        let end = run_end(subject, run);
        let what = subject.locale.say(&Sentence::PolarityAtEnd { from: from.as_str(), end: &end });
        steps.read(At::Run(run), what, Word::Continuity, Expected::Polarity);
    }
}

/// What hangs at a door is wired as drawn, and its diode the right way round, before anything there gets power. A lock stays off a supply of
/// its own until the voltage of that has been read; what is another trade's is joined with its owner.
fn at_doors(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let site = subject.site;
    let free = interfaces(subject).into_iter().filter(|one| one.stays_free(subject));
    let free: Vec<Item> = free.map(Interface::item).collect();
    for item in subject.wiring.items() {
        let what = match item {
            _ if free.contains(&item) => continue,
            Item::Lock { entrance, lock } => {
                let used = &site.entrances[entrance].locks[lock];
                match used.suppression.as_ref().map(|across| across.value) {
                    _ if used.feed.value == LockFeed::DryContact => Word::WiredToOwner,
                    Some(Suppression::Diode) => Word::WiredWithDiode,
                    _ => Word::WiredAsDrawn,
                }
            }
            Item::Part { part: LockPart::Supply, .. } => Word::WiredSupplyWithoutLock,
            Item::Part { .. } | Item::Light { .. } | Item::AlarmContact { .. } => Word::WiredAsDrawn,
            _ => continue,
        };
        steps.read_word(item, what, Word::Continuity, Expected::Done);
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
        steps.say(*device, what);
    }
    for device in subject.order.iter().filter(|device| matches!(device, Item::Box(_) | Item::Station(_))) {
        steps.word(*device, Word::PlugIn);
    }
    for supply in 0..subject.site.supplies.len() {
        steps.read_word(Item::Supply(supply), Word::NoShortAtOutput, Word::Continuity, Expected::Done);
    }
    // Each run is connected by itself once there is power.
    for item in 0..subject.site.boxes.len() {
        steps.word(Item::Box(item), Word::PortsOff);
    }
}
