//! Commissioning with power: port by port, station by station, door by door.

use super::at::At;
use super::battery_steps;
use super::steps::{FIRST_LIVE, Steps};
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::step::{Expected, Sheet, Taken};
use crate::subject::Subject;
use crate::table::Table;
use latchline_assess::{Reading, ReadingPlace, StageSource};
use latchline_finding::{Figure, Rounding, Unit};
use latchline_site::cables::CableOwner;
use latchline_site::catalogue::Media;
use latchline_site::model::{RunStart, RunStop, StationOwner};
use latchline_site::ways::Ways;
use latchline_wiring::{Item, Place, TerminalSet};

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    steps(subject).into_table()
}

/// The same as steps.
pub fn sheet(subject: &Subject<'_>) -> Sheet {
    steps(subject).into_sheet()
}

fn steps<'s, 'a>(subject: &'s Subject<'a>) -> Steps<'s, 'a> {
    let mut steps = Steps::new(subject, Part::Live, Word::LiveTitle, FIRST_LIVE);
    steps.note(Word::LiveNote);
    steps.note(Word::ReentryNote);
    steps.note(Word::TwoPeopleNote);
    steps.note(Word::StandbyMeaning);
    steps.note(Word::LedNote);
    steps.note_of_meters();
    super::drops::note(&mut steps);
    power_up(&mut steps);
    battery_steps::connected(&mut steps);
    first_start(&mut steps);
    with_everything(&mut steps);
    super::live_doors::steps(&mut steps);
    calls(&mut steps);
    stations(&mut steps);
    battery_steps::mains_lost(&mut steps);
    steps.stage(Word::StageFinish);
    steps.word(At::Site, Word::LeaveTidy);
    steps.word(At::Site, Word::HandOver);
    steps
}

/// The runs that a supply feeds, in the order in which they get power; `None`: those that none feeds.
fn fed_by(subject: &Subject<'_>, supply: Option<usize>) -> Vec<usize> {
    let order = subject.readings.power_order.iter();
    order.filter(|feed| feed.supply == supply).map(|feed| feed.run).collect()
}

fn power_up(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let (site, locale) = (subject.site, &subject.locale);
    steps.stage(Word::StagePowerUp);
    let ways = Ways::new(site);
    for (index, supply) in site.supplies.iter().enumerate() {
        let name = Item::Supply(index);
        steps.word(name, Word::AllRunsOff);
        if let Some(set) = &supply.set_voltage {
            let voltage = locale.in_words(set.value.as_volts(), Unit::Volt);
            steps.say(name, locale.say(&Sentence::SetVoltage { voltage: &voltage }));
        }
        if let Some(open) = subject.readings.open_circuit_voltage(StageSource::Supply(index)) {
            let expected = Expected::Between(open.into(), Unit::Volt);
            steps.read_word(name, Word::OpenCircuitVoltage, Word::Voltmeter, expected);
            let source = StageSource::Supply(index);
            steps.takes(Taken::Predicted(Reading::OpenCircuitVoltage { source }));
        }
        fed_by(subject, Some(index)).into_iter().for_each(|run| connect(steps, &ways, run));
    }
    for run in fed_by(subject, None) {
        steps.tell(At::Run(run), locale.word(Word::RunWithoutSupply).to_string());
    }
}

/// Predictions hold with everything connected and booted, so what is not at the end of the tree is read last.
fn with_everything(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let ways = Ways::new(subject.site);
    steps.stage(Word::StageReadings);
    // All currents, then all voltages: nobody changes the meter at every box.
    for index in 0..subject.site.supplies.len() {
        fed_by(subject, Some(index)).into_iter().for_each(|run| read_current(steps, &ways, run));
        let current = subject.readings.standby_current(ReadingPlace::Supply(index));
        let expected = Expected::predicted(current, Unit::Ampere);
        steps.read_word(Item::Supply(index), Word::WholeCurrent, Word::Ammeter, expected);
        steps.takes(Taken::standby_current(ReadingPlace::Supply(index)));
    }
    for index in 0..subject.site.supplies.len() {
        fed_by(subject, Some(index)).into_iter().for_each(|run| read_voltages(steps, run));
    }
}

/// The terminals at which a run starts.
fn start_place(subject: &Subject<'_>, run: usize) -> Option<Place> {
    let owner = CableOwner::Section { run, section: 0 };
    subject.wiring.cables.iter().find(|cable| cable.laid.owner == owner).map(|cable| cable.from)
}

/// Where a run starts.
pub fn start_name(subject: &Subject<'_>, run: usize) -> String {
    start_place(subject, run).map_or(String::new(), |place| subject.place_name(place))
}

/// A run at the terminals where it starts.
fn at_start(subject: &Subject<'_>, run: usize) -> At {
    start_place(subject, run).map_or(At::Run(run), |place| At::RunFrom(run, place))
}

/// The terminals that a run is fed from, before a protector that stands there: what is lost on the run is read from here.
fn fed_from_name(subject: &Subject<'_>, run: usize) -> String {
    let place = match subject.site.runs[run].from {
        RunStart::Port { box_index, port } => (Item::Box(box_index), TerminalSet::Port(port)),
        RunStart::Supply(_) | RunStart::Station(_) => return start_name(subject, run),
    };
    subject.place_name(place)
}

/// The current into a run with everything beyond it.
fn current_expected(subject: &Subject<'_>, run: usize) -> Expected {
    Expected::predicted(subject.readings.standby_current(ReadingPlace::Run(run)), Unit::Ampere)
}

/// Connects one run: with its current where nothing else hangs on it.
fn connect(steps: &mut Steps<'_, '_>, ways: &Ways<'_>, run: usize) {
    let subject = steps.subject;
    let name = subject.site.runs[run].id.as_str();
    let from = start_name(subject, run);
    if ways.feeds_others(run) {
        steps.say(at_start(subject, run), subject.locale.say(&Sentence::ConnectFeeder { run: name }));
    } else {
        let what = subject.locale.say(&Sentence::ConnectRun { run: name, from: &from });
        steps.read(at_start(subject, run), what, Word::Ammeter, current_expected(subject, run));
        steps.takes(Taken::standby_current(ReadingPlace::Run(run)));
    }
}

/// Reads the current into a run on which others hang, with everything connected.
fn read_current(steps: &mut Steps<'_, '_>, ways: &Ways<'_>, run: usize) {
    let subject = steps.subject;
    if ways.feeds_others(run) {
        let what = subject.locale.say(&Sentence::FeederCurrent { run: subject.site.runs[run].id.as_str() });
        steps.read(at_start(subject, run), what, Word::Ammeter, current_expected(subject, run));
        steps.takes(Taken::standby_current(ReadingPlace::Run(run)));
    }
}

/// Reads the voltage at the end of a run with everything connected, and what is lost on it.
fn read_voltages(steps: &mut Steps<'_, '_>, run: usize) {
    let subject = steps.subject;
    let site = subject.site;
    let Some(end) = site.runs[run].sections.last().map(|last| last.to) else { return };
    let expected = Expected::predicted(subject.readings.standby_voltage(end.into()), Unit::Volt);
    let what = subject.locale.say(&Sentence::VoltageAtEnd { run: site.runs[run].id.as_str() });
    steps.read(end, what, Word::Voltmeter, expected);
    steps.takes(Taken::standby_voltage(end.into()));
    super::drops::read(steps, run, &fed_from_name(subject, run));
}

fn first_start(steps: &mut Steps<'_, '_>) {
    steps.stage(Word::StageFirstStart);
    for word in [Word::WaitForBoot, Word::ChangeCredentials, Word::SetClock] {
        steps.word(At::Site, word);
    }
    steps.stage(Word::StageDeviceList);
    steps.count(Word::CompareDeviceList, steps.subject.site.stations.len());
    steps.word(At::Site, Word::NoteVersions);
}

/// From every entrance and desk a call to the station that gets least from there, the weakest way of all first.
fn calls(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let (site, locale) = (subject.site, &subject.locale);
    let bands = &subject.assessment.signal;
    let ways = bands.iter().flat_map(|band| band.callers.iter().map(move |way| (band.in_hand_db(way), way)));
    let mut weakest: Vec<_> = ways.collect();
    weakest.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.caller.cmp(&b.1.caller)));
    let mut tried: Vec<usize> = Vec::new();
    let scopes = (site.entrances.iter().map(|entrance| (entrance.station, &entrance.calls)))
        .chain(site.management.iter().map(|desk| (desk.station, &desk.calls)));
    let calling: Vec<_> = scopes.filter(|(_, scope)| !scope.dwellings.is_empty()).collect();
    if calling.is_empty() {
        return;
    }
    steps.stage(Word::StageCalls);
    for (in_hand_db, way) in weakest {
        if tried.contains(&way.caller_index) {
            continue;
        }
        tried.push(way.caller_index);
        let station = way.station.as_str();
        // Down, since the loss is rounded up.
        let in_hand = locale.figure_rounded(Figure::new(in_hand_db, Unit::Decibel), Rounding::Down);
        steps.say(
            Item::Station(way.caller_index),
            locale.say(&Sentence::CallWeakest { station, in_hand: &in_hand }),
        );
    }
    // Without a judged signal nobody is known to be the weakest; a call has to be made all the same.
    for (station, scope) in calling {
        if tried.contains(&station) {
            continue;
        }
        let first = scope.dwellings.first().map(|index| site.dwellings[*index].id.as_str());
        if let Some(first) = first {
            steps.say(Item::Station(station), locale.say(&Sentence::CallAny { dwelling: first }));
        }
    }
}

/// Voltage, call, picture, speech, release and volume at every station, in walking order.
fn stations(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let (site, locale) = (subject.site, &subject.locale);
    steps.stage(Word::StageStations);
    for device in &subject.order {
        let Item::Station(index) = *device else { continue };
        let station = &site.stations[index];
        let name = *device;
        // At the end of a run it has been read already.
        let ends = |run: usize| site.runs[run].sections.last().map(|last| last.to);
        let mut fed = subject.readings.power_order.iter().filter(|feed| feed.supply.is_some());
        if !fed.any(|feed| ends(feed.run) == Some(RunStop::Station(index))) {
            let standby = subject.readings.standby_voltage(ReadingPlace::Station(index));
            let expected = Expected::predicted(standby, Unit::Volt);
            steps.read_word(name, Word::StandbyVoltageHere, Word::Voltmeter, expected);
            steps.takes(Taken::standby_voltage(ReadingPlace::Station(index)));
        }
        let StationOwner::Dwelling { dwelling, ordinal } = station.owner else { continue };
        let caller = site.entrances.iter().find(|entrance| entrance.calls.dwellings.contains(&dwelling));
        let Some(caller) = caller else {
            steps.tell(name, locale.word(Word::NobodyCalls).to_string());
            continue;
        };
        let caller = caller.id.as_str();
        let is_video = site.station_model(station).media.value == Media::Video;
        let what = locale.say(&match (ordinal, is_video) {
            (0, true) => Sentence::CallVideo { caller },
            (0, false) => Sentence::CallAudio { caller },
            (_, true) => Sentence::CallVideoExtension { caller },
            (_, false) => Sentence::CallAudioExtension { caller },
        });
        let expected = Expected::predicted(subject.readings.talking_voltage(index), Unit::Volt);
        steps.read(name, what, Word::Voltmeter, expected);
        if let Some(state) = subject.readings.talking.get(index).cloned().flatten() {
            let at = ReadingPlace::Station(index);
            steps.takes(Taken::Predicted(Reading::Voltage { at, state }));
        }
        steps.word(name, Word::ReleaseAndVolume);
    }
}
