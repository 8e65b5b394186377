//! One step: error control, location of what switches in it, acceptance.

use super::super::StopReason;
use super::super::discrete::{Phase, SAME_INSTANT_S, SHORTEST_DELAY_S};
use super::super::integrator::GAMMA;
use super::super::stage::StageFailure;
use super::{LONGEST_RESTART_STEP_S, RESTART_STEP_S, Run, SHORTEST_STEP_S};

impl Run<'_> {
    /// Largest step for which every stage has a unique solution (see the module's mathematics).
    pub(super) fn largest_step_s(&mut self) -> f64 {
        self.integrator.set_floors();
        self.integrator.stage.longest_gamma_h_s() / GAMMA
    }

    /// Takes one step of at most `h`, shortened by error control, by what switches in it, and by a
    /// timer that is set within it. Returns its length; the time is not yet moved.
    pub(super) fn step(&mut self, mut h: f64) -> Result<f64, StopReason> {
        loop {
            if self.steps + self.discarded >= self.options.most_steps {
                return Err(StopReason::TooManySteps);
            }
            if self.integrator.stage.passes > self.options.most_passes {
                return Err(StopReason::TooManyPasses);
            }
            if !(self.wanted)() {
                return Err(StopReason::GivenUp);
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
            if self.since_restart == 0 {
                // Without a slope at the start the error grows with the square of the step.
                let borne_s = h * (0.5 / ratio.max(1e-9).sqrt()).clamp(0.2, 10.0);
                self.restart_step_s = borne_s.clamp(RESTART_STEP_S, LONGEST_RESTART_STEP_S);
            }
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

    fn attempt(&mut self, h: f64) -> Result<f64, StageFailure> {
        let open_v = [self.discrete.open_v(self.time_s + GAMMA * h), self.discrete.open_v(self.time_s + h)];
        self.integrator.try_step(h, open_v)
    }

    /// How far the trial passes the most advanced threshold, in tolerances.
    fn passed(&self, h: f64, limiters: bool) -> f64 {
        let stage = &self.integrator.stage;
        self.discrete.advance(stage, &stage.state_v, self.time_s + h, limiters)
    }

    /// Fraction of the trial step at which the first converter passes a threshold, by interpolation.
    fn first_crossing(&self, h: f64) -> Option<f64> {
        let reached = &self.integrator.stage.state_v;
        let passing = self.discrete.located(reached).filter(|crossing| crossing.beyond_v >= 0.0);
        passing
            .map(|crossing| {
                self.integrator.crossing_fraction(crossing.device, h, crossing.level_v, crossing.upwards)
            })
            .reduce(f64::min)
    }

    /// Shortens the step until it ends on the first threshold that it passes: first where interpolation says, then by
    /// regula falsi with the Illinois weight, and bisection when that stalls.
    fn locate(&mut self, h: f64, passed: f64, limiters: bool) -> Result<f64, StopReason> {
        let (mut low, mut high) = (0.0, h);
        let start =
            self.discrete.advance(&self.integrator.stage, &self.integrator.start_v, self.time_s, false);
        let mut at_low = if start.is_finite() { start.min(-1.0) } else { -passed };
        let mut at_high = passed;
        let mut guess = self.first_crossing(h);
        for round in 0..60 {
            let share = match guess.take() {
                Some(share) => share.clamp(1e-6, 1.0 - 1e-6),
                None if round > 8 => 0.5,
                None => (-at_low / (at_high - at_low)).clamp(0.02, 0.98),
            };
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
        (0..self.discrete.devices.len()).filter_map(|i| self.ready_s(i, h)).fold(f64::INFINITY, f64::min)
    }

    /// End of the delay of device `i` if its start threshold is crossed within the trial step.
    #[inline]
    fn ready_s(&self, i: usize, h: f64) -> Option<f64> {
        if self.discrete.devices[i] != Phase::Off {
            return None;
        }
        let c = &self.discrete.converters[i];
        if c.delay_s < SHORTEST_DELAY_S || self.integrator.stage.state_v[i] < c.turn_on_v {
            return None;
        }
        let fraction = self.integrator.crossing_fraction(i, h, c.turn_on_v, true);
        Some(self.time_s + fraction * h + c.delay_s)
    }

    fn accept(&mut self, h: f64) {
        for i in 0..self.discrete.devices.len() {
            if let Some(ready_s) = self.ready_s(i, h) {
                self.discrete.devices[i] = Phase::Waiting { ready_s };
            }
        }
        self.integrator.accept();
        self.steps += 1;
        self.since_restart += 1;
        self.events_at_instant = if h > SAME_INSTANT_S { 0 } else { self.events_at_instant };
        self.recorder.sample(self.time_s + h, &self.integrator.stage.voltage_v);
        self.note_lowest();
        if let (Some(energy), Some(power)) = (&mut self.energy, self.integrator.mean_power()) {
            energy.supplied_j += h * power.supplied_w;
            energy.cables_j += h * power.cables_w;
            energy.bridges_j += h * power.bridges_w;
            energy.devices_j += h * power.devices_w;
            energy.bus_loads_j += h * power.bus_loads_w;
        }
    }

    /// Notes the lowest bus voltages at the devices.
    pub(super) fn note_lowest(&mut self) {
        let bus_v = &self.integrator.stage.voltage_v;
        for (i, (known_v, &node)) in self.lowest_bus_v.iter_mut().zip(&self.device_nodes).enumerate() {
            let v = bus_v[node as usize];
            *known_v = known_v.min(v);
            if self.lowest.is_none_or(|(lowest, _)| v < lowest) {
                self.lowest = Some((v, i));
            }
        }
    }
}
