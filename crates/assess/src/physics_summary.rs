//! What an assessment says of signal, power return, short circuit and tolerance: owned data.

use crate::context::Context;
use crate::stage::{WithShortCircuits, WithSignal, WithStartUp};
use crate::stopwatch::by_stopwatch_s;
use latchline_finding::{ElementId, OperatingState};
use latchline_network::short_circuit::{Acting, RunShort};
use latchline_network::signal_tree::BandSurvey;
pub use latchline_network::signal_tree::CableLengths;
use latchline_network::start_up::{StageStart, StartUpOutcome};
use latchline_network::tolerance::{StageTolerance, tolerance};
pub use latchline_network::tolerance::{ToleranceError, ToleranceOptions};
use latchline_network::{BusState, Device, Layout, StageNode, StageSource, StateSpace, Wanted, WorstStates};
use latchline_site::model::Site;
use latchline_words::figures::start_s;
use latchline_words::tolerance::ToleranceFactor;

/// One caller's weakest station in a band.
#[derive(Debug, Clone, PartialEq)]
pub struct CallerSignal {
    /// Who calls.
    pub caller: ElementId,
    /// The same by index into the site's stations.
    pub caller_index: usize,
    /// Who hears least.
    pub station: ElementId,
    /// The same by index into the site's stations.
    pub station_index: usize,
    /// Greatest insertion loss in the band, in decibel.
    pub loss_db: f64,
    /// Where, in hertz.
    pub at_hz: f64,
    /// How long the cables are where it is so.
    pub lengths: CableLengths,
}

/// One band of the family's signals.
#[derive(Debug, Clone, PartialEq)]
pub struct SignalSummary {
    /// What the band carries.
    pub band: String,
    /// Lower end in hertz.
    pub low_hz: f64,
    /// Upper end in hertz.
    pub high_hz: f64,
    /// Greatest insertion loss allowed, in decibel.
    pub budget_db: f64,
    /// Greatest ripple allowed, in decibel.
    pub allowed_ripple_db: Option<f64>,
    /// Stations that were judged.
    pub stations: usize,
    /// The station with the greatest loss and its caller.
    pub worst: CallerSignal,
    /// Greatest ripple and the station that has it, in decibel.
    pub greatest_ripple: (ElementId, f64),
    /// The weakest station of every caller.
    pub callers: Vec<CallerSignal>,
    /// Frequencies in hertz of the worst station's response.
    pub frequency_hz: Vec<f64>,
    /// Its insertion loss at each, in decibel.
    pub insertion_loss_db: Vec<f64>,
    /// Frequencies looked at for one caller; between them nothing is proved.
    pub points: usize,
    /// Whether they are as close as the longest way asks for and every dip that could decide was narrowed.
    pub complete: bool,
}

impl SignalSummary {
    /// Decibels that a caller's weakest station has left of the budget of the band.
    pub fn in_hand_db(&self, signal: &CallerSignal) -> f64 {
        self.budget_db - signal.loss_db
    }
}

/// Voltage over time at one place.
#[derive(Debug, Clone, PartialEq)]
pub struct StartUpCurve {
    /// Supply, box or station.
    pub element: ElementId,
    /// Times in seconds, not falling.
    pub time_s: Vec<f64>,
    /// Voltage at each, in volts.
    pub voltage_v: Vec<f64>,
}

/// What becomes of a tree when power returns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PowerReturnOutcome {
    /// Every device runs.
    Runs,
    /// The source or a port switches off and on again and again.
    Hiccups,
    /// It settles below what some devices need to turn on.
    BrownOut,
    /// It was not over within the time that was simulated.
    Undecided,
    /// Values are missing.
    NotJudged,
}

impl PowerReturnOutcome {
    /// The stable name used in results.
    pub fn name(self) -> &'static str {
        match self {
            Self::Runs => "runs",
            Self::Hiccups => "hiccups",
            Self::BrownOut => "brown-out",
            Self::Undecided => "undecided",
            Self::NotJudged => "not-judged",
        }
    }
}

/// Power return at one supply or regenerating box.
#[derive(Debug, Clone, PartialEq)]
pub struct StartUpSummary {
    /// Supply or box.
    pub source: ElementId,
    /// The same by index.
    pub fed_from: StageSource,
    /// What becomes of it.
    pub outcome: PowerReturnOutcome,
    /// When the last device was up, in seconds.
    pub time_s: Option<f64>,
    /// Period of the hiccup in seconds.
    pub period_s: Option<f64>,
    /// Devices that are to run: stations and regenerating boxes.
    pub devices: usize,
    /// How often devices dropped out, in all.
    pub dropouts: usize,
    /// How often the source or a port switched off.
    pub trips: usize,
    /// Those that do not run at the end.
    pub not_running: Vec<ElementId>,
    /// The device that is up last, if all are.
    pub last: Option<ElementId>,
    /// Current that booting all at once takes at the turn-on voltages, in amperes; not a number where it is not judged.
    pub boot_current_a: f64,
    /// What the source gives, in amperes.
    pub limit_a: Option<f64>,
    /// Voltage over time at the source and the farthest device.
    pub curves: Vec<StartUpCurve>,
}

/// How far the boot of the last device may be out, as a fraction (assumed; no source).
const BOOT_TOLERANCE: f64 = 0.2;

impl StartUpSummary {
    /// What a stopwatch may show until everything is up, in seconds: least, as worked out, most; `None` where that never comes.
    pub fn by_stopwatch_s(&self) -> Option<[f64; 3]> {
        Some(by_stopwatch_s(self.time_s?, BOOT_TOLERANCE))
    }
}

/// A short at the end of one run.
#[derive(Debug, Clone, PartialEq)]
pub struct ShortCircuitSummary {
    /// The run.
    pub run: ElementId,
    /// The same by index.
    pub run_index: usize,
    /// Supply or box of its tree.
    pub source: ElementId,
    /// The same by index.
    pub fed_from: StageSource,
    /// Current through the short, in amperes.
    pub fault_a: f64,
    /// "trips", "limits" or "nothing".
    pub acts: &'static str,
    /// What trips or limits: a supply, box or port.
    pub by: Option<ElementId>,
    /// Dwellings that go dark besides those on the run and behind it.
    pub also_dark: Vec<ElementId>,
    /// Temperature of the run's conductors while the current flows on, in °C; `None` where a trip ends it; infinite
    /// where it runs away.
    pub temperature_c: Option<f64>,
}

/// The worst device of one supply under sampled tolerances.
#[derive(Debug, Clone, PartialEq)]
pub struct ToleranceSummary {
    /// Supply or box.
    pub source: ElementId,
    /// The same by index.
    pub fed_from: StageSource,
    /// The device with the least margin.
    pub device: ElementId,
    /// The same by index.
    pub device_index: Device,
    /// Its worst state.
    pub state: OperatingState,
    /// Its limit there, in volts.
    pub limit_v: f64,
    /// Samples.
    pub samples: usize,
    /// Samples below the limit or without operating point.
    pub below: usize,
    /// Ends of the Clopper-Pearson interval of the probability, 95 %.
    pub interval: (f64, f64),
    /// Mean voltage in volts.
    pub mean_v: Option<f64>,
    /// Standard deviation in volts.
    pub deviation_v: Option<f64>,
    /// Voltage that 1 % of the samples lie below, in volts.
    pub one_percent_v: Option<f64>,
    /// What makes the spread, as factor and share of the variance, the largest first.
    pub shares: Vec<(ToleranceFactor, f64)>,
}

pub(crate) fn signal_summaries(context: &WithSignal<'_>) -> Vec<SignalSummary> {
    let site = context.site;
    let id = |station: usize| site.stations[station].id.clone();
    let signal = |caller_index, station_index, loss_db, at_hz, lengths| CallerSignal {
        caller: id(caller_index),
        caller_index,
        station: id(station_index),
        station_index,
        loss_db,
        at_hz,
        lengths,
    };
    let summary = |survey: &BandSurvey| {
        let band = &site.family().signal_bands[survey.band];
        let worst = &survey.stations[survey.worst];
        let rippled = survey
            .stations
            .iter()
            .max_by(|a, b| a.ripple.ripple_db.total_cmp(&b.ripple.ripple_db).then(b.station.cmp(&a.station)))
            .unwrap_or(worst);
        SignalSummary {
            band: band.name.clone(),
            low_hz: band.low.value.as_hertz(),
            high_hz: band.high.value.as_hertz(),
            budget_db: band.budget.value.as_decibels(),
            allowed_ripple_db: band.ripple.as_ref().map(|ripple| ripple.value.as_decibels()),
            stations: survey.stations.len(),
            worst: signal(worst.caller, worst.station, worst.loss_db, worst.at_hz, worst.lengths),
            greatest_ripple: (id(rippled.station), rippled.ripple.ripple_db),
            callers: survey
                .callers
                .iter()
                .map(|one| signal(one.caller, one.station, one.loss_db, one.at_hz, one.lengths))
                .collect(),
            frequency_hz: survey.response.frequency_hz.clone(),
            insertion_loss_db: survey.response.insertion_loss_db.clone(),
            points: survey.points,
            complete: survey.grid_complete && survey.left_coarse == 0,
        }
    };
    context.signal.bands.iter().map(summary).collect()
}

/// Name of what is at a terminal of a stage.
pub(crate) fn terminal_id(site: &Site, layout: &Layout, stage: usize, terminal: StageNode) -> ElementId {
    match terminal {
        StageNode::Source => layout.stages[stage].id.clone(),
        StageNode::BoxInput(index) | StageNode::BoxLink(index) => site.boxes[index].id.clone(),
        StageNode::Port { box_index, port } => port_id(site, box_index, port),
        StageNode::Station(index) => site.stations[index].id.clone(),
    }
}

/// Name of a port, such as `D1.3`.
pub(crate) fn port_id(site: &Site, box_index: usize, port: u32) -> ElementId {
    site.start_id(latchline_site::model::RunStart::Port { box_index, port })
}

pub(crate) fn start_up_summaries(context: &WithStartUp<'_>) -> Vec<StartUpSummary> {
    let (site, layout) = (context.site, context.layout);
    let summary = |start: &StageStart| {
        let id = |terminal: StageNode| terminal_id(site, layout, start.stage, terminal);
        let (outcome, time_s, period_s) = match start.outcome {
            StartUpOutcome::Runs { time_s } => (PowerReturnOutcome::Runs, Some(time_s), None),
            StartUpOutcome::Hiccups { period_s } => (PowerReturnOutcome::Hiccups, None, period_s),
            StartUpOutcome::BrownOut { .. } => (PowerReturnOutcome::BrownOut, None, None),
            StartUpOutcome::Undecided => (PowerReturnOutcome::Undecided, None, None),
        };
        // The last one of several, unless another comes up as late by the clock that is shown.
        let mut up: Vec<(f64, StageNode)> =
            start.devices.iter().filter_map(|device| Some((device.up_s?, device.terminal))).collect();
        up.sort_by(|a, b| b.0.total_cmp(&a.0));
        let is_alone = up.get(1).is_some_and(|next| start_s(next.0) < start_s(up[0].0));
        let last = up.first().filter(|_| is_alone && outcome == PowerReturnOutcome::Runs);
        StartUpSummary {
            source: layout.stages[start.stage].id.clone(),
            fed_from: layout.stages[start.stage].source,
            outcome,
            time_s,
            period_s,
            devices: start.devices.len(),
            dropouts: start.dropouts(),
            trips: start.trips,
            not_running: start
                .devices
                .iter()
                .filter(|device| !device.runs)
                .map(|device| id(device.terminal))
                .collect(),
            last: last.map(|(_, terminal)| id(*terminal)),
            boot_current_a: start.boot_current_a,
            limit_a: start.limit_a,
            curves: start
                .waveforms
                .iter()
                .map(|(terminal, curve)| StartUpCurve {
                    element: id(*terminal),
                    time_s: curve.time_s.clone(),
                    voltage_v: curve.voltage_v.clone(),
                })
                .collect(),
        }
    };
    let not_judged = |stage: &usize| {
        let stage = &layout.stages[*stage];
        let stations = stage.terminal.iter().filter(|terminal| matches!(terminal, StageNode::Station(_)));
        StartUpSummary {
            source: stage.id.clone(),
            fed_from: stage.source,
            outcome: PowerReturnOutcome::NotJudged,
            time_s: None,
            period_s: None,
            devices: stations.count(),
            dropouts: 0,
            trips: 0,
            not_running: Vec::new(),
            last: None,
            boot_current_a: f64::NAN,
            limit_a: None,
            curves: Vec::new(),
        }
    };
    let judged = context.start_up.stages.iter().map(|start| (start.stage, summary(start)));
    let others = context.start_up.not_judged.iter().map(|stage| (*stage, not_judged(stage)));
    let mut all: Vec<(usize, StartUpSummary)> = judged.chain(others).collect();
    all.sort_by_key(|(stage, _)| *stage);
    // A source without devices has nothing to start.
    all.into_iter().map(|(_, summary)| summary).filter(|summary| summary.devices > 0).collect()
}

pub(crate) fn short_circuit_summaries(context: &WithShortCircuits<'_>) -> Vec<ShortCircuitSummary> {
    let summary = |short: &RunShort| {
        let (acts, by) = acting(context, short);
        ShortCircuitSummary {
            run: context.site.runs[short.run].id.clone(),
            run_index: short.run,
            source: context.layout.stages[short.stage].id.clone(),
            fed_from: context.layout.stages[short.stage].source,
            fault_a: short.fault_a,
            acts,
            by,
            also_dark: short
                .also_dark
                .iter()
                .map(|index| context.site.dwellings[*index].id.clone())
                .collect(),
            temperature_c: short.temperature_c,
        }
    };
    context.short_circuits.runs.iter().map(summary).collect()
}

/// What acts on a short, in one word and by name.
pub(crate) fn acting(context: &Context<'_>, short: &RunShort) -> (&'static str, Option<ElementId>) {
    let source = || Some(context.layout.stages[short.stage].id.clone());
    match short.acts {
        Acting::SourceTrips => ("trips", source()),
        Acting::SourceLimits => ("limits", source()),
        Acting::PortTrips { box_index, port } => ("trips", Some(port_id(context.site, box_index, port))),
        Acting::PortLimits { box_index, port } => ("limits", Some(port_id(context.site, box_index, port))),
        Acting::Nothing => ("nothing", None),
    }
}

/// The outcome of sampling in names; without meaning if it was no longer wanted before the end.
pub(crate) fn tolerance_summaries(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    worst: &WorstStates,
    options: ToleranceOptions,
    wanted: &Wanted,
) -> Result<Vec<ToleranceSummary>, ToleranceError> {
    let found = tolerance(site, layout, space, worst, options, wanted)?;
    Ok(found.into_iter().map(|one| tolerance_summary(site, layout, space, one)).collect())
}

fn tolerance_summary(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    found: StageTolerance,
) -> ToleranceSummary {
    let stage = &layout.stages[found.stage];
    ToleranceSummary {
        source: stage.id.clone(),
        fed_from: stage.source,
        device: found.device.id(site).clone(),
        device_index: found.device,
        state: BusState::of(&space.phases[found.phase], &found.set).named(site),
        limit_v: found.limit_v,
        samples: found.samples,
        below: found.below,
        interval: found.interval,
        mean_v: found.mean_v,
        deviation_v: found.deviation_v,
        one_percent_v: found.one_percent_v,
        shares: found.shares.into_iter().map(|share| (share.factor, share.share)).collect(),
    }
}
