//! A cause that is not in the list: two faults at once, a run whose every device draws more, something that nobody thought of.
//!
//! What it makes of the readings is known only broadly. Each is either as the rest has it, or moved besides by anything from its meter's error to
//! all that can be shown there, every decade as likely, like the sizes of the causes of the list. The rest is the network without a fault, or with one
//! of the list: of two faults at once one mostly explains most. So where no cause of the list fits all readings, but one fits all but two, this does.
//!
//! Of the sets of readings that are moved those are summed that arise when one after the other is given up that fits the others worst: the sum over all
//! is not much more.

use crate::gauss::{Cholesky, log_sum};
use crate::inference::{Inference, Sound};
use crate::rates::Rates;

/// Probability that a cause that is not in the list moves a reading besides (assumed).
const MOVED: f64 = 0.3;
/// Share of these causes of which one of the list explains part (assumed).
const PARTLY_LISTED: f64 = 0.5;

/// Logarithm of the density of what was read less what is predicted, where some readings may be moved besides; `meter`: variance of the meter's error of
/// each; `outside`: density of each if it is anything that can be shown.
pub(crate) fn log_moved(residual: &[f64], covariance: &[f64], meter: &[f64], outside: &[f64]) -> f64 {
    let size = residual.len();
    let log_two_pi = (2.0 * std::f64::consts::PI).ln();
    let factor = Cholesky::new(covariance, size);
    let mut inverse = factor.inverse();
    let mut weighted = factor.solve(residual);
    let squared: f64 = residual.iter().zip(&weighted).map(|(a, b)| a * b).sum();
    let mut log = -0.5 * (squared + size as f64 * log_two_pi) - factor.half_log_determinant()
        + size as f64 * (1.0 - MOVED).ln();
    let mut left: Vec<usize> = (0..size).collect();
    let mut parts = vec![log];
    while !left.is_empty() {
        // How much likelier all is if this one is moved: its density so, and its density given the others that are left.
        let gain = |place: usize| {
            let (own, pull) = (inverse[place * size + place], weighted[place]);
            let given_others = 0.5 * (own.ln() - log_two_pi - pull * pull / own);
            (MOVED / (1.0 - MOVED)).ln() + log_of_move(residual[place], meter[place], outside[place])
                - given_others
        };
        let best = left.iter().map(|place| (gain(*place), *place)).max_by(|a, b| a.0.total_cmp(&b.0));
        let Some((gain, out)) = best else { break };
        log += gain;
        parts.push(log);
        left.retain(|place| *place != out);
        let own = inverse[out * size + out];
        for row in &left {
            let share = inverse[row * size + out] / own;
            weighted[*row] -= share * weighted[out];
            for column in &left {
                inverse[row * size + column] -= share * inverse[out * size + column];
            }
        }
    }
    log_sum(&parts)
}

/// Logarithm of the density of a move: from the meter's error to all that can be shown every decade is as likely, up or down.
fn log_of_move(off: f64, meter: f64, outside: f64) -> f64 {
    let least = meter.sqrt().max(1e-12);
    let decades = 1.0 + (1.0 / (outside * least)).ln().max(0.0);
    -(2.0 * decades * off.abs().max(least)).ln()
}

impl Inference<'_, '_, '_> {
    /// [`log_moved`] of what was read.
    pub(crate) fn log_moved(&self, residual: &[f64], covariance: &[f64]) -> f64 {
        log_moved(residual, covariance, &self.variance, &self.outside)
    }

    /// Logarithm of the probability of everything with a cause that is not in the list; `listed`: of the causes of the list with something besides,
    /// with their priors.
    pub(crate) fn log_none(&self, rates: &Rates, sound: &Sound, listed: &[f64]) -> f64 {
        let alone = self.log_moved(&self.residual(&sound.outcome), &sound.whole) + (1.0 - PARTLY_LISTED).ln();
        let besides = log_sum(listed) + PARTLY_LISTED.ln();
        log_sum(&[alone, besides]) + self.model.log_told_of_none(rates) + rates.none_of_these.ln()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const METER: f64 = 0.01;
    const OUTSIDE: f64 = 1.0 / 50.0;

    fn normal(off: f64, variance: f64) -> f64 {
        (-0.5 * off * off / variance).exp() / (2.0 * std::f64::consts::PI * variance).sqrt()
    }

    /// One reading: closed form. The density of a move is one over all that can be shown (midpoint rule over its logarithm).
    #[test]
    fn one_reading_is_as_predicted_or_moved() {
        for off in [0.0, 0.3, 2.0, 20.0] {
            let moved = log_of_move(off, METER, OUTSIDE).exp();
            let expected = 0.7 * normal(off, 0.25) + 0.3 * moved;
            let found = log_moved(&[off], &[0.25], &[METER], &[OUTSIDE]).exp();
            assert!((found / expected - 1.0).abs() < 1e-9, "{off}: {found} {expected}");
        }
        let steps = 100_000;
        let at = |step: usize| 0.1 * 500.0_f64.powf((step as f64 + 0.5) / f64::from(steps));
        let beyond: f64 = (0..steps as usize)
            .map(|step| {
                at(step) * 500.0_f64.ln() / f64::from(steps) * log_of_move(at(step), METER, OUTSIDE).exp()
            })
            .sum();
        let whole = 2.0 * (beyond + 0.1 * log_of_move(0.0, METER, OUTSIDE).exp());
        assert!((whole - 1.0).abs() < 1e-3, "{whole}");
    }

    /// Two correlated readings: all four sets of moved ones, each in closed form, of which three are summed.
    #[test]
    fn the_sets_that_are_summed_are_nearly_all() {
        let (a, b, rho) = (0.5_f64, 0.4_f64, 0.9_f64);
        let covariance = [a * a, rho * a * b, rho * a * b, b * b];
        for [x, y] in [[0.0, 0.0], [0.5, 0.45], [3.0, 0.0], [-2.0, 4.0]] {
            let determinant = a * a * b * b * (1.0 - rho * rho);
            let squared =
                (x * x / (a * a) + y * y / (b * b) - 2.0 * rho * x * y / (a * b)) / (1.0 - rho * rho);
            let both = (-0.5 * squared).exp() / (2.0 * std::f64::consts::PI * determinant.sqrt());
            let moved = |off: f64| log_of_move(off, METER, OUTSIDE).exp();
            let all = 0.49 * both
                + 0.21 * (normal(x, a * a) * moved(y) + normal(y, b * b) * moved(x))
                + 0.09 * moved(x) * moved(y);
            let found = log_moved(&[x, y], &covariance, &[METER; 2], &[OUTSIDE; 2]).exp();
            assert!(found <= all * (1.0 + 1e-9) && found > 0.6 * all, "{x} {y}: {found} {all}");
        }
    }

    /// Readings that fit but for two are likelier so than with all of them moved, or with one and the rest far off.
    #[test]
    fn two_readings_off_cost_two_moves() {
        let size = 5;
        let covariance: Vec<f64> =
            (0..size * size).map(|place| if place % (size + 1) == 0 { 0.02 } else { 0.01 }).collect();
        let log = |off: &[f64]| log_moved(off, &covariance, &[METER; 5], &[OUTSIDE; 5]);
        let (none, one, two) =
            (log(&[0.0; 5]), log(&[0.0, 0.0, 0.0, 0.0, 2.0]), log(&[0.0, 0.0, 0.0, 1.5, 2.0]));
        assert!(none - one > 3.0 && none - one < 8.0, "{none} {one}");
        assert!(one - two > 3.0 && one - two < 8.0, "{one} {two}");
    }
}
