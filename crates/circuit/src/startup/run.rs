//! The loop: choose a step, try it, locate what switches in it, let it switch.

use super::cycle::Cycles;
use super::discrete::{Discrete, Phase, PortPhase, SAME_INSTANT_S, SHORTEST_DELAY_S, SupplyPhase, Switching};
use super::integrator::{GAMMA, Integrator};
use super::outcome::{DeviceStatus, HiccupCause};
use super::renumber::Renumbered;
use super::stage::Stage;
use super::validate::validate;
use super::waveform::Recorder;
use super::{
    DeviceResult, Energy, Limit, Limiter, Outcome, StartUp, StartupError, StopReason, System, boot_condition,
    start_conditions,
};

/// First step after a jump of the bus, s.
const RESTART_STEP_S: f64 = 1e-6;
/// Shortest step, s.
const SHORTEST_STEP_S: f64 = 1e-13;
/// A run is at rest when no capacitor would move by more than this before the end, V.
const REST_V: f64 = 1e-3;

/// What to simulate and how closely.
#[derive(Debug, Clone, PartialEq)]
pub struct Options {
    /// End time, s.
    pub end_s: f64,
    /// Largest local error of a capacitor voltage per step, V.
    pub tolerance_v: f64,
    /// Nodes whose voltages are recorded.
    pub record_nodes: Vec<usize>,
    /// About the most samples kept of each.
    pub most_points: usize,
    /// Whether to account for energy (costs about a fifth more time).
    pub account_energy: bool,
    /// Most steps, taken or discarded.
    pub most_steps: usize,
    /// Most switchings.
    pub most_events: usize,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            end_s: 10.0,
            tolerance_v: 5e-3,
            record_nodes: Vec::new(),
            most_points: 2000,
            account_energy: false,
            most_steps: 2_000_000,
            most_events: 200_000,
        }
    }
}

/// Simulates a start-up from time 0.
///
/// # Errors
/// [`StartupError`] for a case or an option without meaning. What the system then does, including
/// that it cannot be decided, is the [`Outcome`].
pub fn simulate(system: &System, options: &Options) -> Result<StartUp, StartupError> {
    validate(system)?;
    check_options(system, options)?;
    let ordered = Renumbered::new(system, options);
    let mut run = Run::new(&ordered.system, &ordered.options);
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
    lowest_bus_v: f64,
}

struct Run<'a> {
    system: &'a System,
    options: &'a Options,
    integrator: Integrator,
    discrete: Discrete<'a>,
    recorder: Recorder,
    cycles: Cycles,
    memory: Vec<Memory>,
    time_s: f64,
    step_s: f64,
    /// Length of the last step that followed a switching of a converter, s.
    after_switching_s: f64,
    /// Whether the next step follows such a switching.
    switched_now: bool,
    /// Steps since the last jump of the bus.
    since_restart: usize,
    /// Time of that jump, s.
    restart_s: f64,
    steps: usize,
    discarded: usize,
    events: usize,
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
    fn new(system: &'a System, options: &'a Options) -> Self {
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
            initial_stored_j: integrator.stored_j(),
            integrator,
            discrete: Discrete::new(system),
            recorder: Recorder::new(&options.record_nodes, options.most_points),
            cycles: Cycles::default(),
            memory: vec![Memory::default(); system.devices.len()],
            time_s: 0.0,
            step_s: RESTART_STEP_S,
            after_switching_s: f64::INFINITY,
            switched_now: false,
            since_restart: 0,
            restart_s: 0.0,
            steps: 0,
            discarded: 0,
            events: 0,
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
                return self.hiccups(cause, Some(period_s));
            }
        }
        match self.cycles.recent(self.time_s, self.options.tolerance_v) {
            Some((cause, period_s)) => self.hiccups(cause, period_s),
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
            let expected_s = if self.switched_now { 2.0 * self.after_switching_s } else { self.step_s };
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
        if self.events_at_instant > 100 + 10 * (self.memory.len() + self.port_trips.len()) {
            return Err(StopReason::EventsWithoutTime);
        }
        Ok(())
    }

    /// Largest step for which every stage has a unique solution (see the module's mathematics).
    fn largest_step_s(&self) -> f64 {
        let mut inverse: f64 = 0.0;
        for (d, &u) in self.integrator.stage.devices.iter().zip(&self.integrator.start_v) {
            inverse = inverse.max(d.power_w / (d.capacitance_f * u * u));
        }
        let mut largest = 0.2 / GAMMA / inverse;
        let supply = &self.system.supply;
        if let Limit::Foldback { max_current_a, knee_voltage_v, short_current_a } = supply.limit {
            let slope = (max_current_a - short_current_a) / knee_voltage_v;
            largest = largest.min(0.5 / GAMMA * supply.output_capacitance_f / slope);
        }
        largest
    }

    /// Takes one step of at most `h`, shortened by error control, by what switches in it, and by a
    /// timer that is set within it. Returns its length; the time is not yet moved.
    fn step(&mut self, mut h: f64) -> Result<f64, StopReason> {
        loop {
            if self.steps + self.discarded >= self.options.most_steps {
                return Err(StopReason::TooManySteps);
            }
            if h < SHORTEST_STEP_S {
                return Err(StopReason::StepTooSmall);
            }
            let Ok(error_v) = self.attempt(h) else {
                self.discarded += 1;
                h *= 0.25;
                continue;
            };
            let ratio = error_v / self.options.tolerance_v;
            let scale = 0.9 / ratio.max(1e-9).cbrt();
            if ratio > 1.0 && h > 1e-9 {
                self.discarded += 1;
                h *= scale.clamp(0.1, 0.9);
                self.step_s = h;
                continue;
            }
            self.step_s = h * scale.clamp(0.2, if self.since_restart < 3 { 10.0 } else { 4.0 });
            let ready_s = self.soonest_ready_s(h);
            if ready_s < self.time_s + h - SAME_INSTANT_S {
                self.discarded += 1;
                h = (ready_s - self.time_s).max(SAME_INSTANT_S);
                continue;
            }
            // Right after a jump the limiters are not located: the first, very short step finds
            // them where the jump has put them.
            let limiters = self.since_restart > 0;
            let passed = self.passed(h, limiters);
            if passed > 1.0 {
                h = self.locate(h, passed, limiters)?;
            }
            self.accept(h);
            return Ok(h);
        }
    }

    fn attempt(&mut self, h: f64) -> Result<f64, super::stage::StageFailure> {
        let open_v = [self.discrete.open_v(self.time_s + GAMMA * h), self.discrete.open_v(self.time_s + h)];
        self.integrator.try_step(h, open_v)
    }

    /// How far the trial passes the most advanced threshold, in tolerances.
    fn passed(&self, h: f64, limiters: bool) -> f64 {
        let stage = &self.integrator.stage;
        self.discrete.advance(stage, &stage.state_v, self.time_s + h, limiters)
    }

    /// Shortens the step until it ends on the first threshold that it passes (regula falsi with
    /// the Illinois weight, bisection when that stalls).
    fn locate(&mut self, h: f64, passed: f64, limiters: bool) -> Result<f64, StopReason> {
        let (mut low, mut high) = (0.0, h);
        let start =
            self.discrete.advance(&self.integrator.stage, &self.integrator.start_v, self.time_s, false);
        let mut at_low = if start.is_finite() { start.min(-1.0) } else { -passed };
        let mut at_high = passed;
        for round in 0..60 {
            let share = if round > 8 { 0.5 } else { (-at_low / (at_high - at_low)).clamp(0.02, 0.98) };
            let middle = low + share * (high - low);
            let last = high - low < 1e-10 || round == 59;
            let h = if last { high } else { middle };
            self.discarded += 1;
            if self.attempt(h).is_err() {
                return Err(StopReason::StepTooSmall);
            }
            let value = self.passed(h, limiters);
            if last || value.abs() <= 1.0 {
                return Ok(h);
            }
            if value > 0.0 {
                high = middle;
                at_high = value;
                at_low *= 0.5;
            } else {
                low = middle;
                at_low = value;
                at_high *= 0.5;
            }
        }
        Err(StopReason::StepTooSmall)
    }

    /// Soonest end of a delay that begins within the trial step, s.
    fn soonest_ready_s(&self, h: f64) -> f64 {
        let mut soonest = f64::INFINITY;
        for (i, device) in self.system.devices.iter().enumerate() {
            if let Some(ready_s) = self.ready_s(i, device.converter, h) {
                soonest = soonest.min(ready_s);
            }
        }
        soonest
    }

    /// End of the delay of device `i` if its start threshold is crossed within the trial step.
    fn ready_s(&self, i: usize, converter: Option<super::Converter>, h: f64) -> Option<f64> {
        let c = converter?;
        let reached = self.discrete.devices[i] == Phase::Off
            && c.delay_s >= SHORTEST_DELAY_S
            && self.integrator.stage.state_v[i] >= c.turn_on_v;
        reached.then(|| {
            let fraction = self.integrator.crossing_fraction(i, h, c.turn_on_v);
            self.time_s + fraction * h + c.delay_s
        })
    }

    fn accept(&mut self, h: f64) {
        for (i, device) in self.system.devices.iter().enumerate() {
            if let Some(ready_s) = self.ready_s(i, device.converter, h) {
                self.discrete.devices[i] = Phase::Waiting { ready_s };
            }
        }
        self.integrator.accept();
        self.steps += 1;
        self.since_restart += 1;
        self.events_at_instant = if h > SAME_INSTANT_S { 0 } else { self.events_at_instant };
        let bus_v = &self.integrator.stage.voltage_v;
        self.recorder.sample(self.time_s + h, bus_v);
        for (i, (memory, device)) in self.memory.iter_mut().zip(&self.system.devices).enumerate() {
            let v = bus_v[device.node];
            memory.lowest_bus_v = memory.lowest_bus_v.min(v);
            if self.lowest.is_none_or(|(lowest, _)| v < lowest) {
                self.lowest = Some((v, i));
            }
        }
        if let (Some(energy), Some(power)) = (&mut self.energy, self.integrator.mean_power()) {
            energy.supplied_j += h * power.supplied_w;
            energy.cables_j += h * power.cables_w;
            energy.bridges_j += h * power.bridges_w;
            energy.devices_j += h * power.devices_w;
            energy.bus_loads_j += h * power.bus_loads_w;
        }
    }

    /// Lets everything switch that is due, and tells the integrator.
    fn switch(&mut self) {
        self.switched.clear();
        let integrator = &self.integrator;
        let reached_s = if self.since_restart <= 1 { self.restart_s } else { self.time_s };
        self.discrete.switch(
            &integrator.stage,
            &integrator.start_v,
            self.time_s,
            reached_s,
            &mut self.switched,
        );
        if self.switched.is_empty() {
            return;
        }
        self.events += self.switched.len();
        if self.time_s > self.instant_s + SAME_INSTANT_S {
            self.events_at_instant = 0;
            self.instant_s = self.time_s;
        }
        self.events_at_instant += self.switched.len();
        let switched = std::mem::take(&mut self.switched);
        let mut restart = false;
        for &switching in &switched {
            restart |= self.apply(switching);
        }
        // Snapshots when all machines have moved, so that the order in the list cannot matter.
        for &switching in &switched {
            let cause = match switching {
                Switching::SupplyTripped => HiccupCause::Supply,
                Switching::PortTripped(i) => HiccupCause::Port(i),
                Switching::DroppedOut(i) => HiccupCause::Converter(i),
                _ => continue,
            };
            self.cycles.mark(
                cause,
                self.time_s,
                &self.integrator.start_v,
                &self.discrete,
                self.options.tolerance_v,
            );
        }
        self.switched_now = true;
        if restart {
            self.switched_now = false;
            self.integrator.slope_known = false;
            self.step_s = RESTART_STEP_S;
            self.since_restart = 0;
            self.restart_s = self.time_s;
        }
        self.switched = switched;
    }

    /// Applies one switching; true if bus currents jump.
    fn apply(&mut self, switching: Switching) -> bool {
        let now = self.time_s;
        match switching {
            Switching::Started(i) => {
                self.memory[i].first_start_s.get_or_insert(now);
                self.set_device(i)
            }
            Switching::CameUp(i) => {
                let memory = &mut self.memory[i];
                memory.first_up_s.get_or_insert(now);
                memory.up_since_s = Some(now);
                memory.lowest_bus_v = f64::INFINITY;
                self.last_up_s = now;
                self.lowest = None;
                self.set_device(i)
            }
            Switching::DroppedOut(i) => {
                let memory = &mut self.memory[i];
                memory.up_since_s = None;
                memory.dropouts += 1;
                memory.last_dropout_s = now;
                self.set_device(i)
            }
            Switching::SupplyTripped => {
                self.supply_trips_s.push(now);
                self.integrator.stage.supply_on = false;
                true
            }
            Switching::SupplyReturned => {
                self.integrator.stage.supply_on = true;
                true
            }
            Switching::PortTripped(i) => {
                self.port_trips[i] += 1;
                self.integrator.stage.ports[i].closed = false;
                true
            }
            Switching::PortClosed(i) => {
                self.integrator.stage.ports[i].closed = true;
                true
            }
        }
    }

    /// Gives the stage a device's new power and limit. The slope of its capacitor jumps by what
    /// the converter takes; the bus does not, unless an inrush limiter changes.
    fn set_device(&mut self, i: usize) -> bool {
        let power_w = self.discrete.power_w(i);
        let limit_a = self.discrete.bridge_limit_a(i);
        let d = &mut self.integrator.stage.devices[i];
        let u = self.integrator.start_v[i].max(1e-3);
        self.integrator.start_slope[i] += (d.power_w - power_w) / (u * d.capacitance_f);
        d.power_w = power_w;
        let changed = limit_a != d.limit_a;
        d.limit_a = limit_a;
        changed
    }

    /// Whether nothing moves any more and no timer runs.
    fn at_rest(&self) -> bool {
        if self.since_restart < 4 || !self.integrator.slope_known {
            return false;
        }
        let horizon_s = (self.options.end_s - self.time_s).max(0.1 * self.options.end_s);
        let fastest = self.integrator.start_slope.iter().fold(0.0, |m: f64, k| m.max(k.abs()));
        fastest * horizon_s < REST_V
            && matches!(self.discrete.supply, SupplyPhase::On { .. })
            && self.discrete.next_timer_s(self.time_s).is_infinite()
    }

    fn rest(&self) -> Outcome {
        let all_up = self.discrete.devices.iter().all(|p| matches!(p, Phase::Running | Phase::Absent));
        if all_up {
            return Outcome::OperatingPoint {
                time_s: self.last_up_s,
                lowest_voltage_v: self.lowest.map(|(v, _)| v),
                lowest_device: self.lowest.map(|(_, i)| i),
            };
        }
        let stage = &self.integrator.stage;
        let mut limited_by = Vec::new();
        if stage.beyond_limit_v(self.discrete.open_v(self.time_s)) >= 0.0 {
            limited_by.push(Limiter::Supply);
        }
        limited_by.extend((0..stage.ports.len()).filter(|&i| stage.port_limiting(i)).map(Limiter::Port));
        let open_ports = (0..self.discrete.ports.len())
            .filter(|&i| matches!(self.discrete.ports[i], PortPhase::Open { .. }))
            .collect();
        Outcome::BrownOut { limited_by, open_ports }
    }

    fn hiccups(&self, cause: HiccupCause, period_s: Option<f64>) -> Outcome {
        Outcome::Hiccups { cause, period_s }
    }

    fn report(self, outcome: Outcome) -> StartUp {
        let cycling_since_s = match outcome {
            Outcome::Hiccups { period_s, cause } => {
                let length = period_s.unwrap_or_else(|| self.cycles.last_interval_s(cause));
                Some(self.time_s - 1.5 * length)
            }
            _ => None,
        };
        let devices = self
            .memory
            .iter()
            .enumerate()
            .map(|(i, m)| DeviceResult {
                status: status(self.discrete.devices[i], m, cycling_since_s),
                first_start_s: m.first_start_s,
                first_up_s: m.first_up_s,
                dropouts: m.dropouts,
                lowest_bus_v: m.up_since_s.map(|_| m.lowest_bus_v).filter(|lowest| lowest.is_finite()),
                capacitor_v: self.integrator.start_v[i],
            })
            .collect();
        let stored_j = self.integrator.stored_j() - self.initial_stored_j;
        StartUp {
            outcome,
            devices,
            end_s: self.time_s,
            bus_voltage_v: self.integrator.stage.voltage_v.clone(),
            supply_current_a: self.integrator.stage.supply_current_a,
            supply_trips_s: self.supply_trips_s,
            port_trips: self.port_trips,
            waveforms: self.recorder.finish(),
            energy: self.energy.map(|energy| Energy { stored_j, ..energy }),
            boot_condition: boot_condition(self.system),
            start_conditions: start_conditions(self.system),
            steps: self.steps,
            discarded_steps: self.discarded,
            events: self.events,
        }
    }
}

fn status(phase: Phase, memory: &Memory, cycling_since_s: Option<f64>) -> DeviceStatus {
    if phase == Phase::Absent {
        return DeviceStatus::NoConverter;
    }
    if memory.dropouts >= 2 && cycling_since_s.is_some_and(|since| memory.last_dropout_s >= since) {
        return DeviceStatus::Cycles;
    }
    match (memory.up_since_s, memory.first_up_s) {
        (Some(since_s), _) => DeviceStatus::Up { since_s },
        (None, Some(_)) => DeviceStatus::Dropped,
        (None, None) => DeviceStatus::NeverUp,
    }
}
