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
use crate::gauss::log_sum;
use crate::hypothesis::Hypothesis;
use crate::inference::{Inference, Numbered};
use crate::integral::Integrated;
use crate::screen::Screened;
use crate::size::Size;
use latchline_circuit::flow::Workspace;
use rayon::prelude::*;

/// Causes solved again exactly: at most so many, and none whose share is below `LEAST_SHARE`. Others above that share are told with what
/// the rough integral says.
const MOST_EXACT: usize = 160;
const LEAST_SHARE: f64 = 1e-5;
/// Of so many it is worked out what they explain besides something that is not in the list.
const MOST_LIKELY: usize = 40;

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

impl<'m, 'p, 'a> Inference<'m, 'p, 'a> {
    /// The posterior over all causes.
    pub fn rank(&self, hypotheses: &[Hypothesis]) -> Ranking {
        let sound = self.sound();
        let screened: Vec<Screened> = hypotheses
            .par_iter()
            .enumerate()
            .map_init(Workspace::new, |workspace, (number, hypothesis)| {
                self.screen(Numbered { number, hypothesis }, &sound, workspace)
            })
            .collect();
        let logs: Vec<f64> = screened
            .iter()
            .zip(hypotheses)
            .map(|(one, hypothesis)| one.log + hypothesis.prior.ln())
            .collect();
        let mut order: Vec<usize> = (0..hypotheses.len()).collect();
        order.sort_by(|a, b| logs[*b].total_cmp(&logs[*a]).then(a.cmp(b)));
        // Among causes: where none of these explains it all, the best of them are still told.
        let highest = order.first().map_or(0.0, |place| logs[*place]);
        let kept: Vec<usize> =
            order.iter().copied().filter(|place| (logs[*place] - highest).exp() > LEAST_SHARE).collect();
        let solved: Vec<Integrated> = kept
            .par_iter()
            .enumerate()
            .map_init(Workspace::new, |workspace, (rank, place)| {
                let screened = &screened[*place];
                let cause = Numbered { number: *place, hypothesis: &hypotheses[*place] };
                if rank < MOST_EXACT {
                    self.exact(cause, rank < MOST_LIKELY, screened, &sound, workspace)
                } else {
                    self.rough(&cause, screened, &sound)
                }
            })
            .collect();
        let mut all = logs;
        for (place, one) in kept.iter().zip(&solved) {
            all[*place] = one.log + hypotheses[*place].prior.ln();
        }
        let moved: Vec<f64> = kept
            .iter()
            .zip(&solved)
            .map(|(place, one)| one.log_moved + hypotheses[*place].prior.ln())
            .collect();
        let log_none = self.log_none(self.rates, &sound, &moved);
        let total = log_sum(&[log_sum(&all), log_none]);
        let mut causes: Vec<Posterior> = kept
            .iter()
            .zip(solved)
            .enumerate()
            .map(|(rank, (place, one))| Posterior {
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
                is_exact: rank < MOST_EXACT,
            })
            .collect();
        causes.sort_by(|a, b| b.probability.total_cmp(&a.probability).then(a.hypothesis.cmp(&b.hypothesis)));
        let wrong = (0..self.observed.len())
            .map(|place| causes.iter().map(|cause| cause.probability * cause.wrong[place]).sum())
            .collect();
        Ranking { causes, none_of_these: (log_none - total).exp(), wrong, log_evidence: total }
    }
}
