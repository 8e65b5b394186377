//! Whether what was read tells two causes apart.
//!
//! It does not if there is a size of each that the readings allow at which both predict nearly the same. A small joint and a supply
//! that is a little soft may then be one class though their most probable sizes predict different voltages.

use crate::gauss::Cholesky;
use crate::pieces::Place;
use crate::size::{Point, Solved};

/// Two predictions are told apart if they are this many deviations apart ...
const TOLD_APART: f64 = 2.0;
/// ... or if one explains what was told this much better (logarithm of the ratio).
const TOLD_APART_BY_SYMPTOM: f64 = 2.0;
/// The readings allow a size whose likelihood is not lower than that of the best size by more than this: two deviations.
const ALLOWED: f64 = 0.5 * TOLD_APART * TOLD_APART;

/// What a cause predicts at the sizes that the readings allow, from the smallest to the largest.
#[derive(Debug, Clone, Default)]
pub(crate) struct Allowed {
    points: Vec<Prediction>,
}

/// At one size.
#[derive(Debug, Clone)]
struct Prediction {
    values: Vec<f64>,
    /// Logarithm of the probability of what was told.
    log_told: f64,
}

impl Allowed {
    /// A cause without size.
    pub fn only(values: Vec<f64>, log_told: f64) -> Self {
        Allowed { points: vec![Prediction { values, log_told }] }
    }

    /// Of sizes that were solved, and are compared roughly.
    pub fn near(solved: &[Solved], log_at: impl Fn(f64) -> f64) -> Self {
        let best = solved.iter().map(|one| log_at(one.at)).fold(f64::NEG_INFINITY, f64::max);
        let allowed = solved.iter().filter(|one| log_at(one.at) >= best - ALLOWED);
        let prediction = |one: &Solved| Prediction {
            values: one.outcome.values.iter().map(|value| value.value).collect(),
            log_told: one.told,
        };
        Allowed { points: allowed.map(prediction).collect() }
    }

    /// Of sizes that were solved and places between them.
    pub fn of(solved: &[Point], places: &[Place]) -> Self {
        let best = places.iter().map(|place| place.log).fold(f64::NEG_INFINITY, f64::max);
        let prediction = |place: &Place| {
            let (near, far) = (&solved[place.point], &solved[(place.point + 1).min(solved.len() - 1)]);
            let mix = |a: f64, b: f64| a + place.share * (b - a);
            let values = near.outcome.values.iter().zip(&far.outcome.values);
            Prediction {
                values: values.map(|(a, b)| mix(a.value, b.value)).collect(),
                log_told: mix(near.told, far.told),
            }
        };
        Allowed {
            points: places.iter().filter(|place| place.log >= best - ALLOWED).map(prediction).collect(),
        }
    }

    /// Its predictions in deviations of the readings, for [`Whitened::is_like`].
    pub fn whitened(&self, factor: &Cholesky) -> Whitened {
        Whitened(self.points.iter().map(|one| (factor.whiten(&one.values), one.log_told)).collect())
    }
}

/// Predictions in deviations of the readings, with the logarithm of the probability of what was told.
pub(crate) struct Whitened(Vec<(Vec<f64>, f64)>);

impl Whitened {
    /// Whether this cause and another may predict the same, as far as the readings go; both are whitened by the covariance of the
    /// readings with one of them.
    pub fn is_like(&self, other: &Whitened) -> bool {
        self.0.iter().any(|(a, told_a)| {
            other.0.iter().any(|(b, told_b)| {
                let squared: f64 = a.iter().zip(b).map(|(a, b)| (a - b) * (a - b)).sum();
                squared < TOLD_APART * TOLD_APART && (told_a - told_b).abs() < TOLD_APART_BY_SYMPTOM
            })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn causes_are_alike_at_the_sizes_that_come_nearest() {
        let along = |points: &[[f64; 2]]| Allowed {
            points: points.iter().map(|point| Prediction { values: point.to_vec(), log_told: 0.0 }).collect(),
        };
        // Deviations of 1 and 10: 12 apart in the second is 1.2 deviations.
        let factor = Cholesky::new(&[1.0, 0.0, 0.0, 100.0], 2);
        let line = along(&[[1.0, -40.0], [1.0, 12.0]]);
        let is_like = |other: &Allowed| line.whitened(&factor).is_like(&other.whitened(&factor));
        assert!(is_like(&Allowed::only(vec![0.0, 0.0], 0.0)));
        assert!(!is_like(&Allowed::only(vec![0.0, 0.0], 2.5)), "what was told tells them apart");
        assert!(!is_like(&Allowed::only(vec![-1.5, 12.0], 0.0)));
        assert!(is_like(&along(&[[-5.0, 0.0], [1.0, 20.0]])));
    }
}
