//! The loop: choose a step, try it, locate what switches in it, let it switch.

mod report;
mod step;
mod switch;

use super::cycle::Cycles;
use super::discrete::{Discrete, SAME_INSTANT_S, Switching};
use super::integrator::Integrator;
use super::renumber::Renumbered;
use super::stage::Stage;
use super::validate::validate;
use super::waveform::Recorder;
use super::{Energy, Options, Outcome, StartUp, StartupError, StopReason, System};

/// Least and longest first step after a jump of the bus, s. The longest is short against every delay that starts with a jump.
const RESTART_STEP_S: f64 = 1e-6;
const LONGEST_RESTART_STEP_S: f64 = 1e-4;
/// Shortest step, s.
const SHORTEST_STEP_S: f64 = 1e-13;
/// A run is at rest when no capacitor would move by more than this before the end, V.
const REST_V: f64 = 1e-3;

/// Simulates a start-up from time 0.
///
/// # Errors
/// [`StartupError`] for a case or an option without meaning. What the system then does, including
/// that it cannot be decided, is the [`Outcome`].
pub fn simulate(system: &System, options: &Options) -> Result<StartUp, StartupError> {
    simulate_while(system, options, &|| true)
}

/// As [`simulate`], but stopped ([`StopReason::GivenUp`]) before the next step when it is no longer `wanted`.
///
/// # Errors
/// As [`simulate`].
pub fn simulate_while(
    system: &System,
    options: &Options,
    wanted: &dyn Fn() -> bool,
) -> Result<StartUp, StartupError> {
    validate(system)?;
    check_options(system, options)?;
    let ordered = Renumbered::new(system, options);
    let mut run = Run::new(&ordered.system, &ordered.options, wanted);
    let outcome = run.run_to_end();
    Ok(ordered.restore(run.report(outcome), options))
}

fn check_options(system: &System, options: &Options) -> Result<(), StartupError> {
    let option = |quantity, value, limit| {
        Err(StartupError::Value { place: "options".to_string(), quantity, value, limit })
    };
    if !(options.end_s > 0.0 && options.end_s <= 1e6) {
        return option("end time in s", options.end_s, "above 0 and at most 1e6");
    }
    if !(1e-7..=1.0).contains(&options.tolerance_v) {
        return option("tolerance in V", options.tolerance_v, "from 1e-7 to 1");
    }
    match options.record_nodes.iter().find(|&&node| node >= system.nodes()) {
        Some(&node) => {
            Err(StartupError::UnknownNode { place: "options".to_string(), node, nodes: system.nodes() })
        }
        None => Ok(()),
    }
}

/// What is remembered of a device.
#[derive(Clone, Default)]
struct Memory {
    first_start_s: Option<f64>,
    first_up_s: Option<f64>,
    up_since_s: Option<f64>,
    dropouts: usize,
    last_dropout_s: f64,
}

struct Run<'a> {
    system: &'a System,
    options: &'a Options,
    wanted: &'a dyn Fn() -> bool,
    integrator: Integrator,
    discrete: Discrete<'a>,
    recorder: Recorder,
    cycles: Cycles,
    memory: Vec<Memory>,
    /// Node of each device.
    device_nodes: Vec<u32>,
    /// Lowest bus voltage at each device since it last came up, V.
    lowest_bus_v: Vec<f64>,
    time_s: f64,
    step_s: f64,
    /// Length of the last step that followed a switching of a converter, s.
    after_switching_s: f64,
    /// First step that the last jump of the bus bore, s.
    restart_step_s: f64,
    /// Whether the next step follows such a switching.
    switched_now: bool,
    /// Steps since the last jump of the bus.
    since_restart: usize,
    /// Time of that jump, s.
    restart_s: f64,
    steps: usize,
    discarded: usize,
    events: usize,
    /// Most dropouts of one converter.
    dropouts: usize,
    events_at_instant: usize,
    instant_s: f64,
    supply_trips_s: Vec<f64>,
    port_trips: Vec<usize>,
    lowest: Option<(f64, usize)>,
    last_up_s: f64,
    energy: Option<Energy>,
    initial_stored_j: f64,
    switched: Vec<Switching>,
}

impl<'a> Run<'a> {
    fn new(system: &'a System, options: &'a Options, wanted: &'a dyn Fn() -> bool) -> Self {
        let mut state_v: Vec<f64> = system.devices.iter().map(|d| d.initial_voltage_v).collect();
        if system.supply.output_capacitance_f > 0.0 {
            state_v.push(system.supply.initial_voltage_v);
        }
        state_v.extend(system.bus_capacitors.iter().map(|c| c.initial_voltage_v));
        let stage = Stage::new(system, &state_v, options.tolerance_v);
        let integrator = Integrator::new(stage, options.account_energy);
        Self {
            system,
            options,
            wanted,
            initial_stored_j: integrator.stored_j(),
            integrator,
            discrete: Discrete::new(system),
            recorder: Recorder::new(&options.record_nodes, options.most_points),
            cycles: Cycles::default(),
            memory: vec![Memory::default(); system.devices.len()],
            device_nodes: system.devices.iter().map(|d| d.node as u32).collect(),
            lowest_bus_v: vec![f64::INFINITY; system.devices.len()],
            time_s: 0.0,
            step_s: RESTART_STEP_S,
            after_switching_s: f64::INFINITY,
            restart_step_s: RESTART_STEP_S,
            switched_now: false,
            since_restart: 0,
            restart_s: 0.0,
            steps: 0,
            discarded: 0,
            events: 0,
            dropouts: 0,
            events_at_instant: 0,
            instant_s: 0.0,
            supply_trips_s: Vec::new(),
            port_trips: vec![0; system.ports.len()],
            lowest: None,
            last_up_s: 0.0,
            energy: options.account_energy.then(Energy::default),
            switched: Vec::new(),
        }
    }

    fn run_to_end(&mut self) -> Outcome {
        let end_s = self.options.end_s;
        self.switch();
        while self.time_s < end_s - SAME_INSTANT_S {
            if let Err(reason) = self.advance() {
                return Outcome::Stopped { reason };
            }
            if self.at_rest() {
                return self.rest();
            }
            let remaining_s = end_s - self.time_s;
            if let Some((cause, period_s)) = self.cycles.repeating(remaining_s) {
                return Outcome::Hiccups { cause, period_s: Some(period_s) };
            }
        }
        match self.cycles.recent(self.time_s, self.options.tolerance_v) {
            Some((cause, period_s)) => Outcome::Hiccups { cause, period_s },
            None => Outcome::Undecided,
        }
    }

    /// One accepted step and what switches at its end.
    fn advance(&mut self) -> Result<(), StopReason> {
        let timer_s = self.discrete.next_timer_s(self.time_s).min(self.options.end_s);
        let left_s = timer_s - self.time_s;
        if left_s > SAME_INSTANT_S {
            // A converter that switches costs a short step; the last such step tells how short,
            // which saves finding out by discarding.
            let expected_s = if self.switched_now { 1.5 * self.after_switching_s } else { self.step_s };
            let h = self.step_s.min(expected_s).min(self.largest_step_s());
            // Two even steps rather than a long and a very short one before a timer.
            let h = if h >= left_s * (1.0 - 1e-9) {
                left_s
            } else if 2.0 * h > left_s {
                0.5 * left_s
            } else {
                h
            };
            let h = self.step(h)?;
            if self.switched_now {
                self.after_switching_s = h;
                self.switched_now = false;
            }
            self.time_s = if h == left_s { timer_s } else { self.time_s + h };
        }
        self.switch();
        if self.events > self.options.most_events {
            return Err(StopReason::TooManyEvents);
        }
        if self.dropouts > self.options.most_dropouts {
            return Err(StopReason::TooManyDropouts);
        }
        if self.events_at_instant > 100 + 10 * (self.memory.len() + self.port_trips.len()) {
            return Err(StopReason::EventsWithoutTime);
        }
        Ok(())
    }
}
