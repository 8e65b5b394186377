//! Which cause, how probable, how large.
//!
//! # The model
//!
//! A reading is what the faulted network gives at the true tolerances, plus the error of the meter. Tolerances are factors,
//! each normal with deviation 1; to first order they add to what is predicted, by the derivatives of the flow *at the
//! fault* ([`crate::predict`]), so the readings of one cause and size are jointly normal, correlated by what they share. The
//! size of a cause is integrated over its range: first on a coarse grid with what lies between it interpolated, then, for what
//! survives, by solving again exactly on grids that close in on the peak until it is resolved. A reading is wrong with a small
//! probability. Voltages that collapse or are limited are known only roughly ([`crate::stage`]).
//!
//! # What is not claimed
//!
//! Probabilities are those of this model: its prior rates are common practice, its tolerances are normal, first-order and
//! independent. How often what is said at 90 % is right is measured on random faults (docs/performance.md), not proved.

use crate::apart::Allowed;
use crate::effect::Effect;
use crate::evidence::Evidence;
use crate::gauss::{Likelihood, likelihood, log_sum};
use crate::hypothesis::Hypothesis;
use crate::model::{Model, Outcome};
use crate::rates::Rates;
use crate::size::{Point, Size, best_of, size_at, sizes, trapezoid};
use latchline_circuit::flow::Workspace;
use rayon::prelude::*;

/// Points of the coarse grid over a size.
const COARSE: usize = 9;
/// Points between two of them, interpolated.
const BETWEEN: usize = 12;
/// Points of the first exact grid.
const FINE: usize = 17;
/// Most times that the neighbourhood of a peak is divided by four.
const MOST_ROUNDS: usize = 8;
/// Neighbours of a peak that differ by more (logarithms) do not resolve it, unless they are as close as `NARROWEST`.
const STEEPEST: f64 = 0.7;
const NARROWEST: f64 = 1e-5;
/// Causes solved again exactly: at most so many, and none whose share is below `LEAST_SHARE`.
const MOST_EXACT: usize = 160;
const LEAST_SHARE: f64 = 1e-5;
/// Of a cause that is not in the list, the probability that a reading is anything (assumed).
const ANYTHING: f64 = 0.3;
/// How far the derivatives of the sound network may be wrong for a faulted one, as a share of the change, while screening.
const SCREENING_ERROR: f64 = 0.1;

/// A cause with all that the readings say of it.
#[derive(Debug, Clone)]
pub struct Posterior {
    /// Index into the hypotheses.
    pub hypothesis: usize,
    /// Its probability.
    pub probability: f64,
    /// Its size: most probable, and the range of nine tenths of the probability.
    pub size: Option<Size>,
    /// Values that it predicts at its most probable size, on the scale of each quantity.
    pub predicted: Vec<f64>,
    /// Squared whitened distance of the readings there.
    pub squared: f64,
    /// Probability that each reading is wrong, if it is this cause.
    pub wrong: Vec<f64>,
    /// Logarithm of the probability of what was told.
    pub log_told: f64,
    /// Whether anything that was told points to it; `true` where nothing was told.
    pub is_pointed_to: bool,
    /// Covariance of the readings there, row by row.
    pub(crate) covariance: Vec<f64>,
    /// What it predicts at the sizes that the readings allow.
    pub(crate) allowed: Allowed,
    /// Whether it was solved again exactly.
    pub is_exact: bool,
}

/// The posterior over all causes.
#[derive(Debug, Clone)]
pub struct Ranking {
    /// Causes, the most probable first.
    pub causes: Vec<Posterior>,
    /// Probability of none of these.
    pub none_of_these: f64,
    /// Probability that each reading is wrong.
    pub wrong: Vec<f64>,
    /// Logarithm of the probability of everything that was read and told, over all causes.
    pub log_evidence: f64,
}

/// One cause integrated over its size.
struct Integrated {
    log: f64,
    size: Option<Size>,
    best: Outcome,
    likelihood: Likelihood,
    log_told: f64,
    covariance: Vec<f64>,
    allowed: Allowed,
}

/// What every evaluation needs.
pub(crate) struct Inference<'m, 'p, 'a> {
    pub model: &'m Model<'p, 'a>,
    pub rates: &'m Rates,
    pub design_fails: bool,
    /// A fault that is there besides.
    pub base: Vec<Effect>,
    pub observed: Vec<f64>,
    variance: Vec<f64>,
    outside: Vec<f64>,
}

impl<'m, 'p, 'a> Inference<'m, 'p, 'a> {
    pub fn new(model: &'m Model<'p, 'a>, rates: &'m Rates, evidence: &Evidence, design_fails: bool) -> Self {
        let source_v = model.plant.layout.stages.iter().map(|stage| stage.voltage_v[0]).fold(1.0, f64::max);
        let measured = &evidence.measured;
        Inference {
            model,
            rates,
            design_fails,
            base: Vec::new(),
            observed: measured.iter().map(|one| one.scaled()).collect(),
            variance: measured.iter().map(|one| one.deviation().powi(2)).collect(),
            outside: measured.iter().map(|one| one.outside(source_v)).collect(),
        }
    }

    /// What a cause of this size does, with the fault that is there besides.
    fn effects(&self, hypothesis: &Hypothesis, size: f64) -> Vec<Effect> {
        let mut effects = self.base.clone();
        effects.extend(hypothesis.effects(self.model.plant, size));
        effects
    }

    fn compare(&self, outcome: &Outcome, covariance: &[f64]) -> Likelihood {
        let residual: Vec<f64> =
            self.observed.iter().zip(&outcome.values).map(|(seen, said)| seen - said.value).collect();
        likelihood(&residual, covariance, &self.outside, self.rates.wrong_reading)
    }

    /// Covariance from rows of derivatives, the meters' errors and what is unsettled.
    fn covariance(&self, rows: &[Vec<f64>], outcome: &Outcome) -> Vec<f64> {
        let size = rows.len();
        let mut covariance = product(rows);
        for place in 0..size {
            covariance[place * size + place] += self.variance[place] + outcome.values[place].own.powi(2);
        }
        covariance
    }

    /// The posterior over all causes.
    pub fn rank(&self, hypotheses: &[Hypothesis]) -> Ranking {
        let mut workspace = Workspace::new();
        let sound = self.model.outcome(&self.base, &mut workspace);
        let sound_rows = self.model.rows(&self.base, &mut workspace);
        let sound_covariance = product(&sound_rows);
        let screened: Vec<(f64, Option<f64>)> = hypotheses
            .par_iter()
            .map_init(Workspace::new, |workspace, hypothesis| {
                self.screen(hypothesis, &sound, &sound_covariance, workspace)
            })
            .collect();
        let logs: Vec<f64> =
            screened.iter().zip(hypotheses).map(|((log, _), one)| log + one.prior.ln()).collect();
        let log_none = self.log_none(&sound, &sound_covariance) + self.rates.none_of_these.ln();
        let mut order: Vec<usize> = (0..hypotheses.len()).collect();
        order.sort_by(|a, b| logs[*b].total_cmp(&logs[*a]).then(a.cmp(b)));
        // Among causes: where none of these explains it all, the best of them are still told.
        let highest = order.first().map_or(0.0, |place| logs[*place]);
        let exact: Vec<usize> = order
            .iter()
            .copied()
            .take(MOST_EXACT)
            .filter(|place| (logs[*place] - highest).exp() > LEAST_SHARE)
            .collect();
        let solved: Vec<Integrated> = exact
            .par_iter()
            .map_init(Workspace::new, |workspace, place| {
                self.exact(&hypotheses[*place], screened[*place].1, workspace)
            })
            .collect();
        let mut all = logs;
        for (place, one) in exact.iter().zip(&solved) {
            all[*place] = one.log + hypotheses[*place].prior.ln();
        }
        let total = log_sum(&[log_sum(&all), log_none]);
        let mut causes: Vec<Posterior> = exact
            .iter()
            .zip(solved)
            .map(|(place, one)| Posterior {
                hypothesis: *place,
                probability: (all[*place] - total).exp(),
                size: one.size,
                predicted: one.best.values.iter().map(|value| value.value).collect(),
                squared: one.likelihood.squared,
                wrong: one.likelihood.wrong,
                log_told: one.log_told,
                is_pointed_to: !self.model.is_told_of()
                    || self.model.points_to(self.rates, &hypotheses[*place], &one.best),
                covariance: one.covariance,
                allowed: one.allowed,
                is_exact: true,
            })
            .collect();
        causes.sort_by(|a, b| b.probability.total_cmp(&a.probability).then(a.hypothesis.cmp(&b.hypothesis)));
        let wrong = (0..self.observed.len())
            .map(|place| causes.iter().map(|cause| cause.probability * cause.wrong[place]).sum())
            .collect();
        Ranking { causes, none_of_these: (log_none - total).exp(), wrong, log_evidence: total }
    }

    /// Each reading is either as if nothing were wrong, or anything.
    fn log_none(&self, sound: &Outcome, covariance: &[f64]) -> f64 {
        let size = self.observed.len();
        let by_reading = (0..size).map(|place| {
            let variance =
                covariance[place * size + place] + self.variance[place] + sound.values[place].own.powi(2);
            let error = self.observed[place] - sound.values[place].value;
            let fits =
                (-0.5 * error * error / variance).exp() / (2.0 * std::f64::consts::PI * variance).sqrt();
            ((1.0 - ANYTHING) * fits + ANYTHING * self.outside[place]).ln()
        });
        by_reading.sum::<f64>() + self.model.log_told_of_none()
    }

    fn at(&self, hypothesis: &Hypothesis, place: f64, workspace: &mut Workspace) -> (Outcome, f64) {
        let size = size_at(hypothesis, place);
        let outcome = self.model.outcome(&self.effects(hypothesis, size), workspace);
        let told = self.model.log_told(self.rates, hypothesis, &outcome, self.design_fails);
        (outcome, told)
    }

    /// A rough integral with the derivatives of the sound network, and where its peak lies.
    fn screen(
        &self,
        hypothesis: &Hypothesis,
        sound: &Outcome,
        sound_covariance: &[f64],
        workspace: &mut Workspace,
    ) -> (f64, Option<f64>) {
        let rough = |outcome: &Outcome| {
            let size = self.observed.len();
            let mut covariance = sound_covariance.to_vec();
            for place in 0..size {
                let change = outcome.values[place].value - sound.values[place].value;
                if outcome.values[place].value == 0.0 {
                    // What is cut off depends on nothing.
                    for other in 0..size {
                        covariance[place * size + other] = 0.0;
                        covariance[other * size + place] = 0.0;
                    }
                }
                covariance[place * size + place] += self.variance[place]
                    + outcome.values[place].own.powi(2)
                    + (SCREENING_ERROR * change).powi(2);
            }
            self.compare(outcome, &covariance).log
        };
        if hypothesis.range.is_none() {
            let (outcome, told) = self.at(hypothesis, 0.0, workspace);
            return (rough(&outcome) + told, None);
        }
        let grid: Vec<(Outcome, f64)> = (0..COARSE)
            .map(|step| self.at(hypothesis, step as f64 / (COARSE - 1) as f64, workspace))
            .collect();
        let mut logs = Vec::with_capacity((COARSE - 1) * BETWEEN + 1);
        let mut best = (f64::NEG_INFINITY, 0.0);
        for step in 0..=(COARSE - 1) * BETWEEN {
            let at = step as f64 / BETWEEN as f64;
            let left = (at.floor() as usize).min(COARSE - 2);
            let share = at - left as f64;
            let (outcome, told) = between(&grid[left], &grid[left + 1], share);
            let log = rough(&outcome) + told;
            if log > best.0 {
                best = (log, at / (COARSE - 1) as f64);
            }
            logs.push(log);
        }
        (log_sum(&logs) - (logs.len() as f64).ln(), Some(best.1))
    }

    /// The integral by solving exactly.
    fn exact(&self, hypothesis: &Hypothesis, peak: Option<f64>, workspace: &mut Workspace) -> Integrated {
        let Some(mut peak) = peak else {
            let (best, log_told) = self.at(hypothesis, 0.0, workspace);
            let rows = self.model.rows(&self.effects(hypothesis, 0.0), workspace);
            let covariance = self.covariance(&rows, &best);
            let likelihood = self.compare(&best, &covariance);
            let values = best.values.iter().map(|value| value.value).collect();
            return Integrated {
                log: likelihood.log + log_told,
                size: None,
                best,
                likelihood,
                log_told,
                covariance,
                allowed: Allowed::only(values, log_told),
            };
        };
        let mut points: Vec<Point> = Vec::new();
        let mut wanted: Vec<f64> = (0..FINE).map(|place| place as f64 / (FINE - 1) as f64).collect();
        // Around the rough peak, too: the likelihood may be narrower than the grid.
        wanted.push(peak);
        for _ in 0..MOST_ROUNDS {
            let rows = self.model.rows(&self.effects(hypothesis, size_at(hypothesis, peak)), workspace);
            for at in wanted.drain(..) {
                let (outcome, told) = self.at(hypothesis, at, workspace);
                let covariance = self.covariance(&rows, &outcome);
                let likelihood = self.compare(&outcome, &covariance);
                points.push(Point { at, log: likelihood.log + told, outcome, told, likelihood, covariance });
            }
            points.sort_by(|a, b| a.at.total_cmp(&b.at));
            points.dedup_by(|a, b| a.at == b.at);
            // The peak if one reading may be wrong, and the peak if none is: a narrow one hides between the points of the first.
            let best = best_of(&points, |point| point.log);
            let nearest = best_of(&points, |point| point.told - 0.5 * point.likelihood.squared);
            peak = points[best].at;
            for (centre, measure) in [(best, 0), (nearest, 1)] {
                let value = |place: usize| match measure {
                    0 => points[place].log,
                    _ => points[place].told - 0.5 * points[place].likelihood.squared,
                };
                for (from, to) in
                    [(centre.saturating_sub(1), centre), (centre, (centre + 1).min(points.len() - 1))]
                {
                    let wide = points[to].at - points[from].at;
                    if wide > NARROWEST && (value(from) - value(to)).abs() > STEEPEST {
                        wanted.extend([0.25, 0.5, 0.75].map(|share| points[from].at + share * wide));
                    }
                }
            }
            if wanted.is_empty() {
                break;
            }
        }
        let best = best_of(&points, |point| point.log);
        let weights = trapezoid(&points);
        let log = log_sum(&weights);
        let size = Some(sizes(hypothesis, &points, &weights, best));
        let allowed = Allowed::of(&points);
        let Point { outcome, told: log_told, likelihood, covariance, .. } = points.swap_remove(best);
        Integrated { log, size, best: outcome, likelihood, log_told, covariance, allowed }
    }
}

fn product(rows: &[Vec<f64>]) -> Vec<f64> {
    let size = rows.len();
    let mut covariance = vec![0.0; size * size];
    for row in 0..size {
        for column in 0..=row {
            let sum: f64 = rows[row].iter().zip(&rows[column]).map(|(a, b)| a * b).sum();
            covariance[row * size + column] = sum;
            covariance[column * size + row] = sum;
        }
    }
    covariance
}

fn between(a: &(Outcome, f64), b: &(Outcome, f64), share: f64) -> (Outcome, f64) {
    let mix = |x: f64, y: f64| x + share * (y - x);
    let values = a.0.values.iter().zip(&b.0.values);
    let values = values
        .map(|(x, y)| crate::predict::Predicted { value: mix(x.value, y.value), own: mix(x.own, y.own) })
        .collect();
    (Outcome { values, shows: Vec::new(), noticing: a.0.noticing }, mix(a.1, b.1))
}
