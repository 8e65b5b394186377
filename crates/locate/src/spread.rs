//! What the tolerances do to the readings at each size of a cause.
//!
//! Derivatives are taken at some sizes and the covariance of another size is that of the sizes
//! which predict nearly the same. Where a size that the readings allow predicts something else than the
//! sizes at which they were taken, they are taken there too: what tolerances do at one size says nothing of what they do at another, above all just
//! before devices go off, where derivatives grow without bound.
//!
//! There they say too much: tolerances that would move a reading farther than it moves until the devices go off put them off. So derivatives are taken no
//! nearer to the end of a regime than what they say of one deviation, and nearer to it the covariance is the one of there. Where the reading falls
//! like the root of what is left of the size, `k sqrt(d)`, one deviation `s` of the end is `k s / (2 sqrt(d))` by the derivatives, and the size
//! from which it just leads there has room for the geometric mean of what they say and of the room that is left.

use crate::inference::{Inference, Numbered, Sound, product};
use crate::model::Outcome;
use crate::size::{Point, best_of};
use latchline_circuit::flow::Workspace;

/// A size whose prediction differs from those at which derivatives were taken by more than so many deviations without a fault has derivatives of its own ...
const APART: f64 = 1.5;
/// ... if its likelihood is not so far below the highest (logarithm).
const FAR_BELOW: f64 = 9.0;
/// Sizes of one regime at which derivatives are taken in one round, at most.
const MOST: usize = 6;
/// Times that they are taken farther in.
const MOST_STEPS_IN: usize = 3;

/// Sizes at which derivatives were taken, in order.
#[derive(Default)]
pub(crate) struct Spreads {
    taken: Vec<Taken>,
}

/// What was derived at one size.
struct Taken {
    at: f64,
    /// What is predicted there, in deviations without a fault.
    said: Vec<f64>,
    /// By the tolerances.
    covariance: Vec<f64>,
}

impl Spreads {
    /// Of a size of a regime that predicts this, in deviations without a fault: between the two next of the regime, by how near to each of them the
    /// prediction is; beyond the first and the last as there.
    fn of(&self, at: f64, said: &[f64], regime: (f64, f64)) -> Vec<f64> {
        let within = || self.taken.iter().filter(|one| (regime.0..=regime.1).contains(&one.at));
        let before = within().rfind(|one| one.at <= at);
        let after = within().find(|one| one.at >= at);
        let distance = |one: &Taken| {
            let squared = one.said.iter().zip(said).map(|(a, b)| (a - b) * (a - b));
            squared.sum::<f64>().sqrt()
        };
        match (before, after) {
            (Some(near), Some(far)) if far.at > near.at => {
                let (from, to) = (distance(near), distance(far));
                let share = if from > 0.0 { from / (from + to) } else { 0.0 };
                near.covariance.iter().zip(&far.covariance).map(|(a, b)| a + share * (b - a)).collect()
            }
            (Some(only), _) | (_, Some(only)) => only.covariance.clone(),
            (None, None) => Vec::new(),
        }
    }

    fn taken(&self, at: f64) -> Option<&Vec<f64>> {
        self.taken.iter().find(|one| one.at == at).map(|one| &one.covariance)
    }

    fn put(&mut self, at: f64, said: Vec<f64>, covariance: Vec<f64>) {
        let place = self.taken.partition_point(|one| one.at < at);
        self.taken.insert(place, Taken { at, said, covariance });
    }
}

impl Inference<'_, '_, '_> {
    /// Compares the points of one regime with what was read.
    pub(crate) fn weigh(
        &self,
        cause: Numbered<'_>,
        points: &mut [Point],
        spreads: &mut Spreads,
        sound: &Sound,
        workspace: &mut Workspace,
    ) {
        let regime = (points[0].at, points[points.len() - 1].at);
        if !points.iter().any(|point| spreads.taken(point.at).is_some()) {
            let best = best_of(points, |point| point.told - 0.5 * self.plain_distance(&point.outcome));
            self.take(cause, points, best, spreads, sound, workspace);
        }
        for _ in 0..MOST {
            for point in points.iter_mut() {
                let said = self.in_deviations(&point.outcome, sound);
                point.covariance = self.covariance(&spreads.of(point.at, &said, regime), &point.outcome);
                point.log = self.log_compare(&point.outcome, &point.covariance) + point.told;
            }
            let Some(apart) = self.apart(points, spreads, sound) else { break };
            self.take(cause, points, apart, spreads, sound, workspace);
        }
    }

    /// Takes derivatives for one of the points of a regime: there, or as near as they say what tolerances do.
    fn take(
        &self,
        cause: Numbered<'_>,
        points: &[Point],
        wanted: usize,
        spreads: &mut Spreads,
        sound: &Sound,
        workspace: &mut Workspace,
    ) {
        let mut derived = |at: f64, spreads: &Spreads| match spreads.taken(at) {
            Some(known) => known.clone(),
            None => product(&self.rows(cause, at, workspace)),
        };
        let mut place = wanted;
        let mut covariance = derived(points[place].at, spreads);
        for _ in 0..MOST_STEPS_IN {
            let Some(next) = self.farther_in(points, place, &covariance, sound) else { break };
            place = next;
            covariance = derived(points[place].at, spreads);
        }
        for point in [&points[place], &points[wanted]] {
            if spreads.taken(point.at).is_none() {
                spreads.put(point.at, self.in_deviations(&point.outcome, sound), covariance.clone());
            }
        }
    }

    /// The nearest point from which one deviation, by what the derivatives at this one say, leads no farther than to the end of the regime; `None` if that is
    /// this one.
    fn farther_in(&self, points: &[Point], place: usize, covariance: &[f64], sound: &Sound) -> Option<usize> {
        let size = self.observed.len();
        let last = points.len() - 1;
        let ends = [(0, points[0].at > 0.0), (last, points[last].at < 1.0)];
        let mut farthest = place;
        for end in ends.into_iter().filter(|(_, is_of_regime)| *is_of_regime).map(|(end, _)| end) {
            let inwards: Vec<usize> =
                if end == 0 { (place..=last).collect() } else { (0..=place).rev().collect() };
            for reading in 0..size {
                let value = |point: usize| points[point].outcome.values[reading].value;
                let room = |point: usize| (value(point) - value(end)).abs();
                let diagonal = reading * size + reading;
                let said = (covariance[diagonal] - sound.covariance[diagonal]).max(0.0).sqrt();
                let meter = self.variance[reading].sqrt();
                if said <= room(place) + meter {
                    continue;
                }
                let enough = (said * room(place).max(meter)).sqrt();
                let found = inwards.iter().copied().find(|point| room(*point) >= enough);
                let found = found.unwrap_or(inwards[inwards.len() - 1]);
                if found.abs_diff(place) > farthest.abs_diff(place) {
                    farthest = found;
                }
            }
        }
        (farthest != place).then_some(farthest)
    }

    /// The likeliest of the points that predict something else than those at which derivatives were taken.
    fn apart(&self, points: &[Point], spreads: &Spreads, sound: &Sound) -> Option<usize> {
        let size = self.observed.len();
        let highest = points.iter().map(|point| point.log).fold(f64::NEG_INFINITY, f64::max);
        let deviation = |place: usize| sound.whole[place * size + place].sqrt();
        let is_near = |a: &Point, b: &Point| {
            let pairs = a.outcome.values.iter().zip(&b.outcome.values).enumerate();
            pairs.into_iter().all(|(place, (a, b))| (a.value - b.value).abs() < APART * deviation(place))
        };
        let taken: Vec<&Point> = points.iter().filter(|point| spreads.taken(point.at).is_some()).collect();
        let is_apart = |place: &usize| {
            let point = &points[*place];
            point.log > highest - FAR_BELOW && !taken.iter().any(|one| is_near(one, point))
        };
        let order = |a: &usize, b: &usize| points[*a].log.total_cmp(&points[*b].log).then(b.cmp(a));
        (0..points.len()).filter(is_apart).max_by(order)
    }

    /// What is predicted in deviations of the readings without a fault.
    fn in_deviations(&self, outcome: &Outcome, sound: &Sound) -> Vec<f64> {
        let step = self.observed.len() + 1;
        let values = outcome.values.iter().zip(sound.whole.iter().step_by(step));
        values.map(|(value, variance)| value.value / variance.sqrt()).collect()
    }

    /// Squared distance from what was read in deviations of the meters and of what is unsettled.
    fn plain_distance(&self, outcome: &Outcome) -> f64 {
        let each = self.observed.iter().zip(&outcome.values).zip(&self.variance);
        each.map(|((seen, said), variance)| (seen - said.value).powi(2) / (variance + said.own.powi(2))).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn covariances_are_those_of_the_nearest_predictions_of_the_regime() {
        let mut spreads = Spreads::default();
        let taken = [(0.6, 0.0, 9.0), (0.1, 1.0, 1.0), (0.3, 3.0, 11.0)];
        taken.into_iter().for_each(|(at, said, one)| spreads.put(at, vec![said], vec![one]));
        let of = |at: f64, said: f64| spreads.of(at, &[said], (0.05, 0.5))[0];
        assert!((of(0.2, 2.0) - 6.0).abs() < 1e-12, "half way");
        assert!((of(0.29, 1.5) - 3.5).abs() < 1e-12, "three times as near to the first, wherever it lies");
        assert!((of(0.05, 0.5) - 1.0).abs() < 1e-12 && (of(0.5, 9.0) - 11.0).abs() < 1e-12, "as at the end");
        assert!((of(0.3, 3.0) - 11.0).abs() < 1e-12);
        assert!((spreads.of(0.55, &[3.0], (0.51, 1.0))[0] - 9.0).abs() < 1e-12, "of its own regime");
        assert!(spreads.taken(0.6).is_some() && spreads.taken(0.5).is_none());
    }
}
