//! One implicit stage: bus voltages and capacitor voltages at one instant.
//!
//! Each capacitor obeys `a (u - h) + g u + P/u = i`, with `a = C/(gamma h_step)`, `h` the stage's
//! history value and `i` the current into it. Unknown are the bus voltages `v` (and with them `u`):
//! the currents that leave every node balance. Newton: every element is the line `i = s v + b` at
//! the last voltages; eliminate from the leaves, `s' = s/(1 + r s)`, `b' = b/(1 + r s)`; solve the
//! root against the supply's line; go back down with `v_k = (v_parent - r b)/(1 + r s)`. It has
//! settled when every element's true current at the new voltages is that of its line.

mod device;
mod elements;
mod equations;
mod line_search;
mod power;
mod tree;
mod way;

use self::elements::charged;
pub(super) use self::equations::Stage;
pub(super) use self::power::Power;

/// Full Newton steps before the line search is used.
const FULL_STEPS: usize = 4;
/// Newton steps of a first attempt, and of a stage in the detour.
const FEW_STEPS: usize = 14;
/// What a line search counts for, in passes over all nodes.
const LINE_SEARCH_PASSES: u64 = 4;
/// Newton steps before the step is given up.
const MOST_STEPS: usize = 1000;
/// The detour starts with a step this much longer, and shortens it by `DETOUR_FACTOR` each time.
const DETOUR_START: f64 = 1024.0;
const DETOUR_FACTOR: f64 = 0.25;

/// The stage equations were not solved: the step must be made shorter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct StageFailure;

impl Stage {
    /// Solves for the voltages with `gamma_h_s` the diagonal step and `history_v` the history
    /// values; the supply's open-circuit voltage is `open_v`. Starts from the voltages held.
    pub fn solve(&mut self, gamma_h_s: f64, history_v: &[f64], open_v: f64) -> Result<(), StageFailure> {
        self.prepare(gamma_h_s, history_v, open_v);
        match self.settle(1.0 / gamma_h_s, history_v, open_v, FEW_STEPS) {
            Ok(()) => Ok(()),
            Err(StageFailure) => self.detour(gamma_h_s, history_v, open_v),
        }
    }

    /// Solves by way of longer steps. In a short step an inrush limiter goes from blocked to limit
    /// within millivolts of bus voltage, so that hundreds of them must be put on the right side of
    /// their bend; in a long step the range is wide, few Newton steps find it, and its solution is
    /// the start for a shorter one.
    fn detour(&mut self, gamma_h_s: f64, history_v: &[f64], open_v: f64) -> Result<(), StageFailure> {
        let mut factor = DETOUR_START;
        while factor > 1.0 {
            let longer_s = (gamma_h_s * factor).min(self.longest_gamma_h_s().max(gamma_h_s));
            self.prepare(longer_s, history_v, open_v);
            // Wherever this ends is the start of the next: only the last must have settled.
            let _ = self.settle(1.0 / longer_s, history_v, open_v, FEW_STEPS);
            factor *= DETOUR_FACTOR;
        }
        self.prepare(gamma_h_s, history_v, open_v);
        self.settle(1.0 / gamma_h_s, history_v, open_v, MOST_STEPS)
    }

    /// Solves again with other history values and supply voltage, the rest being as in the last
    /// `solve`. The lines of the last solution are shifted, not computed anew.
    pub fn solve_next(
        &mut self,
        gamma_h_s: f64,
        old_history_v: &[f64],
        history_v: &[f64],
        open_v: f64,
    ) -> Result<(), StageFailure> {
        let rate = 1.0 / gamma_h_s;
        let device_count = self.devices.len();
        for (i, &(node, capacitance_f)) in self.capacitors.iter().enumerate() {
            let change_v = history_v[device_count + i] - old_history_v[device_count + i];
            self.base_b[node] -= capacitance_f * rate * change_v;
        }
        for ((d, &h), &old) in self.devices.iter_mut().zip(history_v).zip(old_history_v) {
            if d.line_s != 0.0 {
                d.line_b -= d.capacitance_f * rate * (h - old);
            }
        }
        self.assemble();
        let (current, slope) = self.supply(open_v, self.voltage_v[0]);
        self.supply_line = (slope, current - slope * self.voltage_v[0]);
        match self.settle(rate, history_v, open_v, FEW_STEPS) {
            Ok(()) => Ok(()),
            Err(StageFailure) => self.detour(gamma_h_s, history_v, open_v),
        }
    }

    /// At most `steps` Newton steps from the lines in `s` and `b`.
    fn settle(
        &mut self,
        rate: f64,
        history_v: &[f64],
        open_v: f64,
        steps: usize,
    ) -> Result<(), StageFailure> {
        for step in 0..steps {
            self.passes += 1;
            self.eliminate();
            let full = step < FULL_STEPS;
            let inside = self.back_substitute(full);
            std::mem::swap(&mut self.voltage_v, &mut self.next_v);
            if self.evaluate(rate, history_v, open_v) && inside {
                return self.finish(rate, history_v);
            }
            if !full {
                // The whole step did not do: go back and take the best part of it.
                std::mem::swap(&mut self.voltage_v, &mut self.next_v);
                self.line_search(rate, history_v, open_v);
                self.passes += LINE_SEARCH_PASSES;
                std::mem::swap(&mut self.voltage_v, &mut self.next_v);
                self.evaluate(rate, history_v, open_v);
            }
            self.assemble();
        }
        Err(StageFailure)
    }

    /// Takes over the capacitor voltages and refuses a converter far below its starting voltage.
    fn finish(&mut self, rate: f64, history_v: &[f64]) -> Result<(), StageFailure> {
        debug_assert_eq!(history_v.len(), self.state_v.len());
        let device_count = self.devices.len();
        for ((d, &h), u) in self.devices.iter().zip(history_v).zip(&mut self.state_v) {
            *u = charged(d, d.capacitance_f * rate, h, self.voltage_v[d.node]);
        }
        for (&(node, _), u) in self.capacitors.iter().zip(&mut self.state_v[device_count..]) {
            *u = self.voltage_v[node];
        }
        let sunk = self
            .devices
            .iter()
            .zip(&self.state_v)
            .any(|(d, &u)| d.power_w > 0.0 && (u < d.floor_v || u.is_nan()));
        if sunk { Err(StageFailure) } else { Ok(()) }
    }
}
