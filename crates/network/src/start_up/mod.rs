//! Power return: who comes up when, in the time domain, with everything off before.
//!
//! Every stage is simulated by [`latchline_circuit::startup`] for [`SIMULATED_S`] beyond its longest boot, with every tolerance against it:
//! the lowest source voltage, the highest resistances, the highest loads, every capacitor empty at first.
//!
//! # From the catalogue to the model
//!
//! * A station with a converter is a capacitor behind its rectifier and a load of constant power. Turn-on and
//!   turn-off voltages are terminal voltages in datasheets; behind the rectifier its drop is taken off.
//!   While booting it takes its boot power, then that of standby at night. What it states as current or resistance beside
//!   power is taken at the source's nominal voltage.
//! * A station whose model says that it has no converter is a load on the bus, from the first volt on: of what it takes while it boots and
//!   in standby the larger, and for good, which asks for more than it does. It is up when its boot time is over, if its terminals then
//!   have the voltage that it needs in standby.
//! * A supply holds, folds back, hiccups or trips at its limit current. Foldback falls from the share of
//!   the nominal voltage that its data sheet states (`foldback_from`; assumed where it does not) to the short-circuit current at 0 V; a trip stays off.
//! * A port with a limit of its own holds it, or opens after its delay.
//! * A regenerating box is a capacitor and converter on the stage above; on its own stage it is a source that starts with
//!   its ports at once, limited at its rated power. The two are simulated one after the other, so what the stage below does
//!   to the stage above in between is bounded by its largest power, not followed.
//! * Own consumption of other boxes is a constant current at their least voltage.
//!
//! A run that comes to rest, hiccups or sits in a brown-out is a numerical observation of this model, not a proof.

mod key;
pub(crate) mod system;

pub use crate::effort::Effort;
pub use system::Missing;

use crate::layout::{Layout, StageNode};
use crate::memory::{Memory, Weighed};
use crate::wanted::GivenUp;
use latchline_circuit::startup::{
    DeviceStatus, Options, Outcome, StartUp, StopReason, System, Waveform, boots_together_fit,
    simulate_while, smallest_stagger,
};
use latchline_site::model::Site;
use latchline_words::missing::Missing as Lack;
use rayon::prelude::*;
use std::sync::Arc;

/// Simulated time in seconds, after the longest delay and boot.
pub const SIMULATED_S: f64 = 10.0;
/// What a stage does when power returns.
#[derive(Debug, Clone, PartialEq)]
pub enum StartUpOutcome {
    /// Every device runs and nothing moves any more.
    Runs {
        /// When the last device had finished booting, in seconds.
        time_s: f64,
    },
    /// It starts and drops out again and again.
    Hiccups {
        /// Time from one trip or dropout to the next, in seconds, if it settles to one.
        period_s: Option<f64>,
    },
    /// It sits still and some devices never run.
    BrownOut {
        /// Whether the supply's own limit holds it there.
        by_supply: bool,
        /// Ports that hold their limit or have opened, as box and port.
        ports: Vec<(usize, u32)>,
    },
    /// Neither by the end of the simulated time.
    Undecided,
}

/// One device at power return.
#[derive(Debug, Clone, PartialEq)]
pub struct DeviceStart {
    /// What it is.
    pub terminal: StageNode,
    /// When it first finished booting, in seconds.
    pub up_s: Option<f64>,
    /// Whether it runs at the end.
    pub runs: bool,
    /// How often it dropped out.
    pub dropouts: usize,
    /// Lowest voltage at its terminals since it last came up, in volts.
    pub lowest_v: Option<f64>,
}

/// Power return on one stage.
#[derive(Debug, Clone, PartialEq)]
pub struct StageStart {
    /// Index into [`Layout::stages`].
    pub stage: usize,
    /// What it does.
    pub outcome: StartUpOutcome,
    /// Its devices with a converter in the order of the nodes, then stations without one.
    pub devices: Vec<DeviceStart>,
    /// Current that booting all at once takes, in amperes: of converters at their turn-on voltages, `sum P_boot / V_on`, of others at the
    /// source's nominal voltage.
    pub boot_current_a: f64,
    /// What the source can give, in amperes; `None` without a limit.
    pub limit_a: Option<f64>,
    /// How often the supply or a port switched off before the end.
    pub trips: usize,
    /// Voltage over time at the source and at the device that comes up last or never.
    pub waveforms: Vec<(StageNode, Waveform)>,
}

/// Power return on all stages.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StartUps {
    /// Stages that could be judged.
    pub stages: Vec<StageStart>,
    /// What was missing for the others.
    pub missing: Vec<Missing>,
    /// The others, as indices into [`Layout::stages`].
    pub not_judged: Vec<usize>,
}

/// Passes over the nodes of a stage, times nodes, after which its simulation is broken off: a second or so, and several times what 500
/// stations need that start.
const MOST_WORK: u64 = 60_000_000;
/// The same on a stage of more than [`LARGE_STAGE`] nodes on which what boots together cannot be fed in a steady state: it is known not to
/// come up well.
const MOST_WORK_UNFED: u64 = 15_000_000;
/// More nodes than any supply on the market feeds (common practice, no source).
const LARGE_STAGE: usize = 500;

/// Dropouts of one converter after which a hurried simulation ends.
pub const MOST_DROPOUTS: usize = 8;

impl StageStart {
    /// How often devices dropped out, in all.
    pub fn dropouts(&self) -> usize {
        self.devices.iter().map(|device| device.dropouts).sum()
    }
}

impl Weighed for StartUp {
    fn bytes(&self) -> usize {
        let curves: usize = self.waveforms.iter().map(|one| 16 * one.time_s.len()).sum();
        curves + size_of_val(&*self.devices) + size_of_val(&*self.bus_voltage_v)
    }
}

/// Simulates power return on every stage. A stage so large that its simulation would take too long is left undecided, unless by then it has
/// dropped out again and again.
///
/// # Errors
/// [`GivenUp`] if the memory's work is no longer wanted.
pub fn start_up(site: &Site, layout: &Layout, effort: Effort, memory: &Memory) -> Result<StartUps, GivenUp> {
    let built: Vec<(usize, Result<system::Built, Vec<Missing>>)> =
        (0..layout.stages.len()).map(|stage| (stage, system::build(site, layout, stage))).collect();
    let mut start_ups = StartUps::default();
    for (stage, result) in &built {
        if let Err(missing) = result {
            start_ups.not_judged.push(*stage);
            start_ups.missing.extend(missing.iter().cloned());
        }
    }
    let judged: Vec<(usize, Option<StageStart>)> = built
        .par_iter()
        .filter_map(|(stage, result)| {
            let built = result.as_ref().ok()?;
            Some(judge(layout, *stage, built, effort, memory).map(|start| (*stage, start)))
        })
        .collect::<Result<_, GivenUp>>()?;
    for (stage, start) in judged {
        match start {
            Some(start) => start_ups.stages.push(start),
            // The catalogue's bounds are within the simulator's ranges, so this is not expected; but never silent.
            None => {
                start_ups.not_judged.push(stage);
                start_ups.missing.push(Missing {
                    element: layout.stages[stage].id.clone(),
                    missing: Lack::SimulatorRange,
                });
            }
        }
    }
    Ok(start_ups)
}

fn options(system: &System, record_nodes: Vec<usize>, effort: Effort) -> Options {
    let converters = system.devices.iter().filter_map(|device| device.converter);
    let longest_s = converters.map(|one| one.delay_s + one.boot_time_s).fold(0.0, f64::max);
    let is_hopeless = system.parent.len() > LARGE_STAGE && !boots_together_fit(system);
    let most_work = if is_hopeless { MOST_WORK_UNFED } else { MOST_WORK };
    // 20 mV a step is a thousandth of the bus and far within what thresholds are known to.
    Options {
        end_s: SIMULATED_S + longest_s,
        tolerance_v: 20e-3,
        record_nodes,
        most_points: 200,
        most_dropouts: if effort == Effort::Hurried { MOST_DROPOUTS } else { usize::MAX },
        most_passes: most_work / system.parent.len().max(1) as u64,
        ..Options::default()
    }
}

/// Simulates one stage, unless the same was simulated before with at least the same effort.
fn simulated(
    laid: &crate::layout::Stage,
    built: &system::Built,
    effort: Effort,
    memory: &Memory,
) -> Result<Option<Arc<StartUp>>, GivenUp> {
    let farthest = built
        .system
        .devices
        .iter()
        .map(|device| device.node)
        .max_by(|a, b| laid.distance_m[*a].total_cmp(&laid.distance_m[*b]).then(b.cmp(a)));
    let record: Vec<usize> = std::iter::once(0).chain(farthest.filter(|node| *node != 0)).collect();
    let key = key::of(built, &record);
    memory.start_up(key, effort, || {
        let options = options(&built.system, record, effort);
        let found = simulate_while(&built.system, &options, &|| memory.check().is_ok()).ok();
        let is_given_up = |found: &StartUp| found.outcome == Outcome::Stopped { reason: StopReason::GivenUp };
        if found.as_ref().is_some_and(is_given_up) { Err(GivenUp) } else { Ok(found) }
    })
}

/// Whether everything is up, though it may still drift.
fn is_up(found: &StartUp) -> bool {
    found.outcome == Outcome::Undecided && found.devices.iter().all(|one| is_running(one.status))
}

fn judge(
    layout: &Layout,
    stage: usize,
    built: &system::Built,
    effort: Effort,
    memory: &Memory,
) -> Result<Option<StageStart>, GivenUp> {
    let laid = &layout.stages[stage];
    let Some(found) = simulated(laid, built, effort, memory)? else { return Ok(None) };
    let found = &*found;
    let outcome = match &found.outcome {
        Outcome::OperatingPoint { time_s, .. } => StartUpOutcome::Runs { time_s: *time_s },
        Outcome::Hiccups { period_s, .. } => StartUpOutcome::Hiccups { period_s: *period_s },
        Outcome::BrownOut { limited_by, open_ports } => {
            use latchline_circuit::startup::Limiter;
            let limiting = limited_by.iter().filter_map(|limiter| match limiter {
                Limiter::Port(index) => Some(*index),
                Limiter::Supply => None,
            });
            StartUpOutcome::BrownOut {
                by_supply: limited_by.contains(&Limiter::Supply),
                ports: limiting.chain(open_ports.iter().copied()).map(|index| built.ports[index]).collect(),
            }
        }
        // A supply that trips and stays off is at rest, though its timer says otherwise.
        Outcome::Undecided if built.stays_off && !found.supply_trips_s.is_empty() => {
            StartUpOutcome::BrownOut { by_supply: true, ports: Vec::new() }
        }
        Outcome::Undecided if is_up(found) => {
            // Still drifting within the tolerance: everything is up.
            let last = found.devices.iter().filter_map(|one| one.first_up_s).fold(0.0, f64::max);
            StartUpOutcome::Runs { time_s: last }
        }
        Outcome::Undecided => StartUpOutcome::Undecided,
        Outcome::Stopped {
            reason: StopReason::TooManyEvents | StopReason::EventsWithoutTime | StopReason::TooManyDropouts,
        } => StartUpOutcome::Hiccups { period_s: None },
        // Broken off, but seen to drop out again and again by then.
        Outcome::Stopped { reason: StopReason::TooManyPasses }
            if found.devices.iter().any(|one| one.dropouts >= MOST_DROPOUTS) =>
        {
            StartUpOutcome::Hiccups { period_s: None }
        }
        Outcome::Stopped { .. } => StartUpOutcome::Undecided,
    };
    // What has no converter runs where there is voltage in the end.
    let has_voltage = |one: &system::Plain| found.bus_voltage_v[one.node] >= one.least_voltage_v;
    let outcome = match outcome {
        StartUpOutcome::Runs { .. } if !built.plain.iter().all(has_voltage) => {
            let opened = found.port_trips.iter().enumerate().filter(|(_, trips)| **trips > 0);
            StartUpOutcome::BrownOut {
                by_supply: !found.supply_trips_s.is_empty(),
                ports: opened.map(|(index, _)| built.ports[index]).collect(),
            }
        }
        StartUpOutcome::Runs { time_s } => {
            let booted = built.plain.iter().map(|one| one.boot_time_s);
            StartUpOutcome::Runs { time_s: booted.fold(time_s, f64::max) }
        }
        other => other,
    };
    let plain = built.plain.iter().map(|one| DeviceStart {
        terminal: laid.terminal[one.node],
        up_s: has_voltage(one).then_some(one.boot_time_s),
        runs: has_voltage(one),
        dropouts: 0,
        lowest_v: None,
    });
    let devices = built
        .system
        .devices
        .iter()
        .zip(&found.devices)
        .map(|(device, result)| DeviceStart {
            terminal: laid.terminal[device.node],
            up_s: result.first_up_s,
            runs: is_running(result.status),
            dropouts: result.dropouts,
            lowest_v: result.lowest_bus_v.filter(|voltage| voltage.is_finite()),
        })
        .chain(plain)
        .collect();
    let available_a = found.boot_condition.available_a;
    Ok(Some(StageStart {
        stage,
        outcome,
        devices,
        boot_current_a: found.boot_condition.required_a
            + built.plain.iter().map(|one| one.current_a).sum::<f64>(),
        limit_a: available_a.is_finite().then_some(available_a),
        trips: found.supply_trips_s.len() + found.port_trips.iter().sum::<usize>(),
        waveforms: found.waveforms.iter().map(|one| (laid.terminal[one.node], one.clone())).collect(),
    }))
}

fn is_running(status: DeviceStatus) -> bool {
    matches!(status, DeviceStatus::Up { .. } | DeviceStatus::NoConverter)
}

/// Longest delay between one run and the next that is tried, and how closely, in seconds: what is bought comes in steps.
const STAGGERS_S: (f64, f64) = (1.0, 0.25);

/// Least delay between one run and the next, in seconds, at which a stage that does not start by itself was seen to start, by
/// hurried simulations; `None` where none up to a second does, or a value is missing.
pub fn least_stagger(site: &Site, layout: &Layout, stage: usize) -> Option<f64> {
    let built = system::build(site, layout, stage).ok()?;
    let options = options(&built.system, Vec::new(), Effort::Hurried);
    let (most_s, step_s) = STAGGERS_S;
    smallest_stagger(&built.system, &built.group, most_s, step_s, &options).ok().map(|found| found.value)
}
