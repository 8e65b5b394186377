//! Commissioning with power: port by port, station by station, door by door.

use super::steps::{Expected, Span, Steps};
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::subject::Subject;
use crate::table::Table;
use latchline_assess::{ReadingPlace, StageSource};
use latchline_finding::Unit;
use latchline_site::cables::CableOwner;
use latchline_site::catalogue::Media;
use latchline_site::model::StationOwner;
use latchline_site::ways::Ways;
use latchline_wiring::Item;
use latchline_wiring::terminal::place_name;

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let mut steps = Steps::new(subject, Part::Live, Word::LiveTitle);
    steps.note(Word::LiveNote);
    steps.note(Word::StandbyMeaning);
    steps.note(Word::LedNote);
    power_up(&mut steps);
    first_start(&mut steps);
    stations(&mut steps);
    doors(&mut steps);
    batteries(&mut steps);
    steps.stage(Word::StageFinish);
    steps.word("", Word::LeaveTidy, &Expected::Done);
    steps.word("", Word::HandOver, &Expected::Done);
    steps.into_table()
}

fn power_up(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let (site, locale) = (subject.site, &subject.locale);
    steps.stage(Word::StagePowerUp);
    let ways = Ways::new(site);
    let (readings, order) = (subject.readings, &subject.readings.power_order);
    let fed_by =
        |supply: Option<usize>| order.iter().filter(move |feed| feed.supply == supply).map(|feed| feed.run);
    for (index, supply) in site.supplies.iter().enumerate() {
        let name = supply.id.as_str();
        steps.word(name, Word::AllRunsOff, &Expected::Done);
        if let Some(open) = readings.open_circuit_voltage(StageSource::Supply(index)) {
            steps.word(name, Word::OpenCircuitVoltage, &Expected::Between(open.into(), Unit::Volt));
        }
        fed_by(Some(index)).for_each(|run| connect(steps, &ways, run));
    }
    for run in fed_by(None) {
        let what = locale.word(Word::RunWithoutSupply).to_string();
        steps.say(site.runs[run].id.as_str(), what, &Expected::Unknown(Unit::Ampere));
    }
    // Predictions hold with everything connected, so what is not at the end of the tree is read last.
    steps.stage(Word::StageReadings);
    for (index, supply) in site.supplies.iter().enumerate() {
        let name = supply.id.as_str();
        fed_by(Some(index)).for_each(|run| read(steps, &ways, run));
        let current = readings.standby_current(ReadingPlace::Supply(index));
        let expected = Expected::predicted(current, Unit::Ampere);
        steps.word(name, Word::WholeCurrent, &expected);
    }
}

/// Where a run starts.
fn start_name(subject: &Subject<'_>, run: usize) -> String {
    let owner = CableOwner::Section { run, section: 0 };
    let from = subject.wiring.cables.iter().find(|cable| cable.laid.owner == owner).map(|cable| cable.from);
    from.map_or(String::new(), |place| place_name(subject.site, place))
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
        let what = subject.locale.say(&Sentence::ConnectFeeder { run: name });
        steps.say(&from, what, &Expected::Done);
    } else {
        let what = subject.locale.say(&Sentence::ConnectRun { run: name, from: &from });
        steps.say(&from, what, &current_expected(subject, run));
    }
}

/// Reads a run with everything connected: its current where others hang on it, the voltage at its end.
fn read(steps: &mut Steps<'_, '_>, ways: &Ways<'_>, run: usize) {
    let subject = steps.subject;
    let site = subject.site;
    let name = site.runs[run].id.as_str();
    if ways.feeds_others(run) {
        let from = start_name(subject, run);
        let what = subject.locale.say(&Sentence::FeederCurrent { run: name });
        steps.say(&from, what, &current_expected(subject, run));
    }
    let Some(end) = site.runs[run].sections.last().map(|last| last.to) else { return };
    let expected = Expected::predicted(subject.readings.standby_voltage(end.into()), Unit::Volt);
    steps.say(
        site.stop_id(end).as_str(),
        subject.locale.say(&Sentence::VoltageAtEnd { run: name }),
        &expected,
    );
}

fn first_start(steps: &mut Steps<'_, '_>) {
    steps.stage(Word::StageFirstStart);
    for word in [Word::WaitForBoot, Word::ChangeCredentials, Word::SetClock, Word::NoteVersions] {
        steps.word("", word, &Expected::Done);
    }
    steps.stage(Word::StageDeviceList);
    steps.word("", Word::CompareDeviceList, &Expected::Done);
}

/// Voltage, call, picture, speech, release and volume at every station, in walking order.
fn stations(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let (site, locale) = (subject.site, &subject.locale);
    steps.stage(Word::StageStations);
    for device in &subject.order {
        let Item::Station(index) = *device else { continue };
        let station = &site.stations[index];
        let name = station.id.as_str();
        let standby = subject.readings.standby_voltage(ReadingPlace::Station(index));
        let expected = Expected::predicted(standby, Unit::Volt);
        steps.word(name, Word::StandbyVoltageHere, &expected);
        let StationOwner::Dwelling { dwelling, ordinal } = station.owner else { continue };
        let caller = site.entrances.iter().find(|entrance| entrance.calls.dwellings.contains(&dwelling));
        let Some(caller) = caller else {
            steps.word(name, Word::NobodyCalls, &Expected::Done);
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
        let expected = match subject.readings.talking_voltage(index) {
            Some(voltage) => Expected::AtLeast(voltage.lowest.value, Unit::Volt),
            None => Expected::Unknown(Unit::Volt),
        };
        steps.say(name, what, &expected);
        steps.word(name, Word::ReleaseAndVolume, &Expected::Done);
    }
}

fn doors(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let (site, locale) = (subject.site, &subject.locale);
    steps.stage(Word::StageDoors);
    for (index, entrance) in site.entrances.iter().enumerate() {
        let name = entrance.id.as_str();
        let sheet = subject.assessment.doors.iter().find(|sheet| sheet.entrance == entrance.id);
        for (lock, sheet) in sheet.iter().flat_map(|sheet| sheet.locks.iter().enumerate()) {
            let at = Item::Lock { entrance: index, lock }.name(site);
            if let Ok(circuit) = &sheet.circuit {
                let volts =
                    Span { nominal: circuit.nominal_v, lowest: circuit.least_v, highest: circuit.highest_v };
                steps.word(&at, Word::LockVoltage, &Expected::Between(volts, Unit::Volt));
            }
            if let Some(times) = &sheet.times {
                let time = locale.in_words(times.hold.time_s, Unit::Second);
                steps.say(
                    &at,
                    locale.say(&Sentence::ReleaseTime { time: &time }),
                    &Expected::Unknown(Unit::Second),
                );
            }
            if sheet.exit_button == Some(true) {
                steps.word(&at, Word::TryExitButton, &Expected::Done);
            }
            steps.word(&at, Word::LockWithoutPower, &Expected::Done);
        }
        if entrance.is_escape_route() {
            steps.word(name, Word::EscapeWithoutSystem, &Expected::Done);
        }
        if entrance.fire_interlock.value {
            steps.word(name, Word::FireInterlockTest, &Expected::Done);
        }
        for input in sheet.iter().flat_map(|sheet| &sheet.alarm_inputs) {
            let at = Item::AlarmContact { entrance: index, input: input.number - 1 }.name(site);
            if input.releases_locks {
                steps.word(&at, Word::FireInterlockTest, &Expected::Done);
            }
            if !input.tells.is_empty() {
                let names: Vec<&str> = input.tells.iter().map(|name| name.as_str()).collect();
                let what = locale.say(&Sentence::TryAlarmInput { told: &names.join(", ") });
                steps.say(&at, what, &Expected::Done);
            }
        }
        for module in &entrance.accessories {
            steps.say(name, locale.say(&Sentence::TryModule { module: &module.value }), &Expected::Done);
        }
    }
}

fn batteries(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let locale = &subject.locale;
    let with_battery =
        subject.assessment.supply_sheets.iter().filter(|sheet| sheet.battery.is_some()).collect::<Vec<_>>();
    if with_battery.is_empty() {
        return;
    }
    steps.stage(Word::StageBatteries);
    for sheet in with_battery {
        let name = sheet.supply.as_str();
        steps.word(name, Word::BatteryTakesOver, &Expected::Done);
        if let Some(Ok(battery)) = &sheet.battery
            && let Some(load) = battery.shortest()
        {
            let hours = locale.in_words(load.hours, Unit::Hour);
            steps.say(name, locale.say(&Sentence::BatteryCarries { hours: &hours }), &Expected::Done);
        }
    }
}
