//! One trial step of the two-stage method, with its error estimate.
//!
//! `Y1 = y + gamma h k1`, `Y2 = y + (1 - gamma) h k1 + gamma h k2`, `y_new = Y2`, with
//! `gamma = 1 - 1/sqrt 2`. For `y' = lambda y`, `z = h lambda`, the error of a step is
//! `0.0404 z^3 y` and the second divided difference of `(k0, k1, k2)` at `(0, gamma, 1)` times `h`
//! is `0.293 z^3 y` to leading order (the inner stage's own error included); their ratio 0.138
//! turns the difference into an estimate. Without `k0` (after a jump of the bus) the estimate is
//! `0.3 h |k2 - k1|`, of one order less.

use super::stage::{Power, Stage, StageFailure};

/// `1 - 1/sqrt 2`.
pub(super) const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
/// Second difference to local error, see above.
const ERROR_FACTOR: f64 = 0.138;

/// State at the start of the step, and the trial.
pub(super) struct Integrator {
    pub stage: Stage,
    /// Capacitor voltages at the start, V: devices, then bus capacitors.
    pub start_v: Vec<f64>,
    /// Their slopes at the start, V/s.
    pub start_slope: Vec<f64>,
    /// Whether `start_slope` holds.
    pub slope_known: bool,
    start_bus_v: Vec<f64>,
    history_v: Vec<f64>,
    first_slope: Vec<f64>,
    /// Slopes at the end of the trial, V/s.
    pub end_slope: Vec<f64>,
    /// Powers at the two stages, if energy is accounted for.
    stage_power: Option<[Power; 2]>,
}

impl Integrator {
    pub fn new(stage: Stage, account_energy: bool) -> Self {
        let states = stage.state_v.len();
        Self {
            start_v: stage.state_v.clone(),
            start_slope: vec![0.0; states],
            slope_known: false,
            start_bus_v: stage.voltage_v.clone(),
            history_v: vec![0.0; states],
            first_slope: vec![0.0; states],
            end_slope: vec![0.0; states],
            stage_power: account_energy.then(Default::default),
            stage,
        }
    }

    /// Sets the voltages below which a step counts as gone too far, from the step's start.
    pub fn set_floors(&mut self) {
        for (d, &u) in self.stage.devices.iter_mut().zip(&self.start_v) {
            d.floor_v = 0.5 * u;
        }
    }

    /// Tries a step of `h_s`, after `set_floors`; `open_v` gives the supply's voltage at the inner stage and the end.
    /// Returns the largest error estimate, V. The end is in `stage`, the start is untouched.
    pub fn try_step(&mut self, h_s: f64, open_v: [f64; 2]) -> Result<f64, StageFailure> {
        self.stage.voltage_v.copy_from_slice(&self.start_bus_v);
        let gamma_h = GAMMA * h_s;
        let rate = 1.0 / gamma_h;
        self.stage.solve(gamma_h, &self.start_v, open_v[0])?;
        for (((k1, h), &u), &y) in
            self.first_slope.iter_mut().zip(&mut self.history_v).zip(&self.stage.state_v).zip(&self.start_v)
        {
            *k1 = (u - y) * rate;
            *h = y + (1.0 - GAMMA) * h_s * *k1;
        }
        if let Some(power) = &mut self.stage_power {
            power[0] = self.stage.power();
        }
        self.stage.solve_next(gamma_h, &self.start_v, &self.history_v, open_v[1])?;
        if let Some(power) = &mut self.stage_power {
            power[1] = self.stage.power();
        }
        let mut error: f64 = 0.0;
        for i in 0..self.start_v.len() {
            let k1 = self.first_slope[i];
            let k2 = (self.stage.state_v[i] - self.history_v[i]) * rate;
            self.end_slope[i] = k2;
            let difference = if self.slope_known {
                let k0 = self.start_slope[i];
                ERROR_FACTOR * ((k2 - k1) * (1.0 / (1.0 - GAMMA)) - (k1 - k0) * (1.0 / GAMMA))
            } else {
                0.3 * (k2 - k1)
            };
            error = error.max(difference.abs());
        }
        Ok(error * h_s)
    }

    /// Makes the trial's end the new start.
    pub fn accept(&mut self) {
        self.start_v.copy_from_slice(&self.stage.state_v);
        std::mem::swap(&mut self.start_slope, &mut self.end_slope);
        self.start_bus_v.copy_from_slice(&self.stage.voltage_v);
        self.slope_known = true;
    }

    /// Mean powers over the trial step of the last `accept`.
    pub fn mean_power(&self) -> Option<Power> {
        self.stage_power.map(|[first, second]| {
            let mean = |a: f64, b: f64| (1.0 - GAMMA) * a + GAMMA * b;
            Power {
                supplied_w: mean(first.supplied_w, second.supplied_w),
                cables_w: mean(first.cables_w, second.cables_w),
                bridges_w: mean(first.bridges_w, second.bridges_w),
                devices_w: mean(first.devices_w, second.devices_w),
                bus_loads_w: mean(first.bus_loads_w, second.bus_loads_w),
            }
        })
    }

    /// Energy stored in all capacitors at the start of the step, J.
    pub fn stored_j(&self) -> f64 {
        let capacitances = self
            .stage
            .devices
            .iter()
            .map(|d| d.capacitance_f)
            .chain(self.stage.capacitors.iter().map(|&(_, c)| c));
        capacitances.zip(&self.start_v).map(|(c, u)| 0.5 * c * u * u).sum()
    }

    /// Fraction of a step of `h_s` at which state `index` first passes `level_v`, upwards or downwards, by the
    /// cubic through the end values and slopes (the line, without a slope at the start).
    pub fn crossing_fraction(&self, index: usize, h_s: f64, level_v: f64, upwards: bool) -> f64 {
        let (a, b) = (self.start_v[index], self.stage.state_v[index]);
        let is_beyond = |v: f64| if upwards { v >= level_v } else { v <= level_v };
        if is_beyond(a) {
            return 0.0;
        }
        let value = |x: f64| {
            if !self.slope_known {
                return a + (b - a) * x;
            }
            let (ka, kb) = (self.start_slope[index] * h_s, self.end_slope[index] * h_s);
            let y = 1.0 - x;
            y * y * (1.0 + 2.0 * x) * a + x * y * y * ka + x * x * (3.0 - 2.0 * x) * b - x * x * y * kb
        };
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..40 {
            let middle = 0.5 * (low + high);
            if is_beyond(value(middle)) { high = middle } else { low = middle }
        }
        high
    }
}
