//! Commissioning with power: port by port, station by station, door by door.

use super::steps::{Expected, Steps};
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::standby::Predicted;
use crate::subject::Subject;
use crate::table::Table;
use crate::terminals::{Device, Owner, place_name};
use latchline_finding::{StateKind, Unit};
use latchline_network::Corner;
use latchline_network::evaluate::Solver;
use latchline_site::catalogue::Media;
use latchline_site::model::{RunStart, RunStop, StationOwner};

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
    let order = subject.runs_in_power_order();
    for (index, supply) in site.supplies.iter().enumerate() {
        let name = supply.id.as_str();
        steps.word(name, Word::AllRunsOff, &Expected::Done);
        if let Some(node) = subject.node(Device::Supply(index)) {
            let voltage_v = subject.layout.stages[node.stage].voltage_v;
            let open = Predicted {
                nominal: voltage_v[Corner::Nominal.index()],
                low: voltage_v[Corner::Adverse.index()],
                high: voltage_v[Corner::Light.index()],
            };
            steps.word(name, Word::OpenCircuitVoltage, &Expected::Between(open, Unit::Volt));
        }
        for run in order.iter().copied().filter(|run| is_fed_by(subject, *run, index)) {
            connect(steps, run);
        }
    }
    for run in order.iter().copied().filter(|run| subject.layout.run_start[*run].is_none()) {
        let what = locale.word(Word::RunWithoutSupply).to_string();
        steps.say(site.runs[run].id.as_str(), what, &Expected::Unknown(Unit::Ampere));
    }
    // Predictions hold with everything connected, so what is not at the end of the tree is read last.
    steps.stage(Word::StageReadings);
    for (index, supply) in site.supplies.iter().enumerate() {
        let name = supply.id.as_str();
        for run in order.iter().copied().filter(|run| is_fed_by(subject, *run, index)) {
            read(steps, run);
        }
        let current = subject.node(Device::Supply(index)).and_then(|node| subject.standby.current(node));
        let expected = current
            .map_or(Expected::Unknown(Unit::Ampere), |current| Expected::Between(current, Unit::Ampere));
        steps.word(name, Word::WholeCurrent, &expected);
    }
}

/// Whether a run hangs on a supply, directly or through boxes that make a voltage of their own.
fn is_fed_by(subject: &Subject<'_>, run: usize, supply: usize) -> bool {
    let Some(start) = subject.layout.run_start[run] else { return false };
    let mut stage = start.stage;
    loop {
        if subject.layout.stages[stage].source == latchline_network::StageSource::Supply(supply) {
            return true;
        }
        let above = (0..subject.layout.stages.len()).find(|index| {
            subject.layout.stages[*index].converters.iter().any(|converter| converter.stage == stage)
        });
        match above {
            Some(above) if above < stage => stage = above,
            _ => return false,
        }
    }
}

/// Whether other runs hang on this one.
fn feeds_others(subject: &Subject<'_>, run: usize) -> bool {
    let sections = &subject.site.runs[run].sections;
    subject.site.runs.iter().any(|other| {
        sections.iter().any(|section| match (section.to, other.from) {
            (RunStop::BoxInput(at), RunStart::Port { box_index, .. }) => at == box_index,
            (RunStop::Station(at), RunStart::Station(station)) => at == station,
            _ => false,
        })
    })
}

/// Where a run starts.
fn start_name(subject: &Subject<'_>, run: usize) -> String {
    let owner = Owner::Section { run, section: 0 };
    let from = subject.wiring.cables.iter().find(|cable| cable.owner == owner).map(|cable| cable.from);
    from.map_or(String::new(), |place| place_name(subject.site, place))
}

/// The current into a run with everything beyond it.
fn current_expected(subject: &Subject<'_>, run: usize) -> Expected {
    let current = subject.layout.run_start[run].and_then(|first| subject.standby.current(first));
    current.map_or(Expected::Unknown(Unit::Ampere), |current| Expected::Between(current, Unit::Ampere))
}

/// Connects one run: with its current where nothing else hangs on it.
fn connect(steps: &mut Steps<'_, '_>, run: usize) {
    let subject = steps.subject;
    let name = subject.site.runs[run].id.as_str();
    let from = start_name(subject, run);
    if feeds_others(subject, run) {
        let what = subject.locale.say(&Sentence::ConnectFeeder { run: name });
        steps.say(&from, what, &Expected::Done);
    } else {
        let what = subject.locale.say(&Sentence::ConnectRun { run: name, from: &from });
        steps.say(&from, what, &current_expected(subject, run));
    }
}

/// Reads a run with everything connected: its current where others hang on it, the voltage at its end.
fn read(steps: &mut Steps<'_, '_>, run: usize) {
    let subject = steps.subject;
    let site = subject.site;
    let name = site.runs[run].id.as_str();
    if feeds_others(subject, run) {
        let from = start_name(subject, run);
        let what = subject.locale.say(&Sentence::FeederCurrent { run: name });
        steps.say(&from, what, &current_expected(subject, run));
    }
    let Some(end) = subject.layout.run_end[run] else { return };
    let last = site.runs[run].sections.last().map_or(String::new(), |last| site.stop_id(last.to).to_string());
    let expected = match subject.standby.voltage(end) {
        Some(voltage) => Expected::Between(voltage, Unit::Volt),
        None => Expected::Unknown(Unit::Volt),
    };
    steps.say(&last, subject.locale.say(&Sentence::VoltageAtEnd { run: name }), &expected);
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
    let in_call = talking_voltages(subject);
    for device in &subject.order {
        let Device::Station(index) = *device else { continue };
        let station = &site.stations[index];
        let name = station.id.as_str();
        let expected = match subject.node(*device).and_then(|node| subject.standby.voltage(node)) {
            Some(voltage) => Expected::Between(voltage, Unit::Volt),
            None => Expected::Unknown(Unit::Volt),
        };
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
        let expected = match in_call[index] {
            Some(voltage) => Expected::AtLeast(voltage, Unit::Volt),
            None => Expected::Unknown(Unit::Volt),
        };
        steps.say(name, what, &expected);
        steps.word(name, Word::ReleaseAndVolume, &Expected::Done);
    }
}

/// The voltage in the adverse corner at each station while the first entrance that can call it talks with
/// it, nobody else calling, illumination and heaters on.
fn talking_voltages(subject: &Subject<'_>) -> Vec<Option<f64>> {
    let mut voltages = vec![None; subject.site.stations.len()];
    let Some(phase) = subject.space.phases.iter().find(|phase| phase.kind == StateKind::Call) else {
        return voltages;
    };
    let mut solver = Solver::new(&subject.layout, phase);
    let mut done = vec![false; voltages.len()];
    for (option, call) in phase.options.iter().enumerate() {
        let is_talk = call.moment != latchline_finding::CallMoment::Ringing;
        let is_door = matches!(subject.site.stations[call.caller].owner, StationOwner::Entrance(_));
        if !is_talk || !is_door || done[call.answering] {
            continue;
        }
        done[call.answering] = true;
        let Some(at) = subject.layout.station[call.answering] else { continue };
        if solver.solve_set(at.stage, &[option]).failing_stage().is_none() {
            voltages[call.answering] = solver.solution(at.stage).voltage_v.get(at.node).copied();
        }
    }
    voltages
}

fn doors(steps: &mut Steps<'_, '_>) {
    let subject = steps.subject;
    let (site, locale) = (subject.site, &subject.locale);
    steps.stage(Word::StageDoors);
    for (index, entrance) in site.entrances.iter().enumerate() {
        let name = entrance.id.as_str();
        let sheet = subject.assessment.doors.iter().find(|sheet| sheet.entrance == entrance.id);
        for (lock, sheet) in sheet.iter().flat_map(|sheet| sheet.locks.iter().enumerate()) {
            let at = Device::Lock { entrance: index, lock }.name(site);
            if let Ok(circuit) = &sheet.circuit {
                let volts =
                    Predicted { nominal: circuit.nominal_v, low: circuit.least_v, high: circuit.highest_v };
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
        if entrance.escape_route.value {
            steps.word(name, Word::EscapeWithoutSystem, &Expected::Done);
        }
        if entrance.fire_interlock.value {
            steps.word(name, Word::FireInterlockTest, &Expected::Done);
        }
        for input in sheet.iter().flat_map(|sheet| &sheet.alarm_inputs) {
            let at = Device::AlarmContact { entrance: index, input: input.number - 1 }.name(site);
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
