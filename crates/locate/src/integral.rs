//! The integral of one cause over its size: roughly for every cause, then exactly for those that survive.
//!
//! What a cause predicts jumps where devices go off, limits begin to act or a box goes out. Each such place is closed in on from both
//! sides, nothing is interpolated across it, and what lies on one side is compared with derivatives of that side.

use crate::apart::Allowed;
use crate::gauss::{Likelihood, log_sum};
use crate::hypothesis::Hypothesis;
use crate::inference::{Inference, Numbered, Sound, product};
use crate::model::Outcome;
use crate::screen::Screened;
use crate::size::{Point, Size, best_of, sizes, sizes_of, trapezoid};
use latchline_circuit::flow::Workspace;
use std::collections::BTreeMap;

/// A regime whose best point lies so far below the best of all (logarithms) is not divided further.
const FAR_BELOW: f64 = 15.0;
/// Points of the first exact grid.
const FINE: usize = 17;
/// Most times that the neighbourhood of a peak is divided by four.
const MOST_ROUNDS: usize = 8;
/// Neighbours of a peak that differ by more (logarithms) do not resolve it, unless they are as close as `NARROWEST`.
const STEEPEST: f64 = 0.7;
const NARROWEST: f64 = 1e-5;

/// One cause integrated over its size.
pub(crate) struct Integrated {
    pub log: f64,
    pub size: Option<Size>,
    pub best: Outcome,
    pub likelihood: Likelihood,
    pub log_told: f64,
    pub covariance: Vec<f64>,
    pub allowed: Allowed,
}

impl Inference<'_, '_, '_> {
    /// What the rough integral alone says of a cause that is not solved again.
    pub(crate) fn rough(&self, hypothesis: &Hypothesis, screened: &Screened, sound: &Sound) -> Integrated {
        if screened.is_unseen {
            return self.unseen(hypothesis, screened, sound);
        }
        let peak = screened.peak();
        let nearest =
            screened.along.iter().min_by(|a, b| (a.at - peak).abs().total_cmp(&(b.at - peak).abs()));
        let (best, log_told) =
            nearest.map_or((sound.outcome.clone(), 0.0), |solved| (solved.outcome.clone(), solved.told));
        let covariance = self.rough_covariance(&best, sound);
        let likelihood = self.compare(&best, &covariance);
        let size = hypothesis.range.map(|_| sizes_of(hypothesis, &screened.logs));
        let allowed = Allowed::near(&screened.along, |at| screened.log_at(at));
        Integrated { log: screened.log, size, best, likelihood, log_told, covariance, allowed }
    }

    /// Of a cause that changes nothing of what was read: all is known, whatever its size.
    fn unseen(&self, hypothesis: &Hypothesis, screened: &Screened, sound: &Sound) -> Integrated {
        let log_told = screened.along[0].told;
        let values = sound.outcome.values.iter().map(|value| value.value).collect();
        Integrated {
            log: screened.log,
            size: hypothesis.range.map(|_| sizes_of(hypothesis, &screened.logs)),
            best: sound.outcome.clone(),
            likelihood: sound.likelihood.clone(),
            log_told,
            covariance: sound.whole.clone(),
            allowed: Allowed::only(values, log_told),
        }
    }

    /// The integral by solving exactly.
    pub(crate) fn exact(
        &self,
        cause: Numbered<'_>,
        screened: &Screened,
        sound: &Sound,
        workspace: &mut Workspace,
    ) -> Integrated {
        if screened.is_unseen {
            return self.unseen(&cause, screened, sound);
        }
        if cause.range.is_none() {
            let (best, log_told) = self.at(cause, 0.0, workspace);
            let rows = self.rows(cause, 0.0, workspace);
            let covariance = self.covariance(&product(&rows), &best);
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
        }
        let along = self.closed_in(cause, screened.along.clone(), sound, workspace);
        let mut points: Vec<Point> = along.into_iter().map(Point::new).collect();
        let mut shared = BTreeMap::new();
        let mut wanted: Vec<f64> = (0..FINE).map(|place| place as f64 / (FINE - 1) as f64).collect();
        wanted.retain(|at| !screened.plain.iter().any(|(from, to)| from < at && at < to));
        // Around the rough peak, too: the likelihood may be narrower than the grid.
        wanted.push(screened.peak());
        for _ in 0..MOST_ROUNDS {
            wanted.retain(|at| points.iter().all(|point| point.at != *at));
            let new = wanted.drain(..).map(|at| Point::new(self.solved(cause, at, workspace)));
            points.extend(new.collect::<Vec<_>>());
            points.sort_by(|a, b| a.at.total_cmp(&b.at));
            points.dedup_by(|a, b| a.at == b.at);
            let regimes = regimes(&points);
            for range in &regimes {
                self.weigh(cause, &mut points[range.clone()], &mut shared, workspace);
            }
            let highest = points.iter().map(|point| point.log).fold(f64::NEG_INFINITY, f64::max);
            for range in regimes {
                // The peak if one reading may be wrong, and the peak if none is: a narrow one hides between the points of the first.
                let by_log = |place: usize| points[place].log;
                let by_distance = |place: usize| points[place].told - 0.5 * points[place].likelihood.squared;
                let measures: [&dyn Fn(usize) -> f64; 2] = [&by_log, &by_distance];
                for value in measures {
                    let Some(centre) =
                        range.clone().max_by(|a, b| value(*a).total_cmp(&value(*b)).then(b.cmp(a)))
                    else {
                        continue;
                    };
                    let counts =
                        by_log(centre) > highest - FAR_BELOW || by_distance(centre) > highest - FAR_BELOW;
                    for (from, to) in
                        [(centre.saturating_sub(1), centre), (centre, (centre + 1).min(points.len() - 1))]
                    {
                        let wide = points[to].at - points[from].at;
                        if counts && wide > NARROWEST && (value(from) - value(to)).abs() > STEEPEST {
                            wanted.extend([0.25, 0.5, 0.75].map(|share| points[from].at + share * wide));
                        }
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
        let size = Some(sizes(&cause, &points, &weights, best));
        let allowed = Allowed::of(&points);
        let Point { outcome, told: log_told, likelihood, covariance, .. } = points.swap_remove(best);
        Integrated { log, size, best: outcome, likelihood, log_told, covariance, allowed }
    }

    /// Compares the points of one regime with what was read, with the derivatives at the best of them: those of another regime say
    /// nothing of it.
    ///
    /// `shared`: what the readings share by the tolerances, by the size at which it was derived.
    fn weigh(
        &self,
        cause: Numbered<'_>,
        points: &mut [Point],
        shared: &mut BTreeMap<u64, Vec<f64>>,
        workspace: &mut Workspace,
    ) {
        let is_weighed = |point: &Point| point.log.is_finite();
        let best = match points.iter().any(is_weighed) {
            true => best_of(points, |point| if is_weighed(point) { point.log } else { f64::NEG_INFINITY }),
            false => best_of(points, |point| point.told - 0.5 * self.plain_distance(&point.outcome)),
        };
        let at = points[best].at;
        let shared = shared.entry(at.to_bits()).or_insert_with(|| product(&self.rows(cause, at, workspace)));
        for point in points {
            point.covariance = self.covariance(shared, &point.outcome);
            point.likelihood = self.compare(&point.outcome, &point.covariance);
            point.log = point.likelihood.log + point.told;
        }
    }

    /// Squared distance from what was read in deviations of the meters and of what is unsettled.
    fn plain_distance(&self, outcome: &Outcome) -> f64 {
        let each = self.observed.iter().zip(&outcome.values).zip(&self.variance);
        each.map(|((seen, said), variance)| (seen - said.value).powi(2) / (variance + said.own.powi(2))).sum()
    }
}

/// The points of each regime: neighbours that are alike in what is off, limited or out.
fn regimes(points: &[Point]) -> Vec<std::ops::Range<usize>> {
    let mut ranges = Vec::new();
    let mut from = 0;
    for to in 1..=points.len() {
        if to == points.len() || points[to].outcome.regime != points[from].outcome.regime {
            ranges.push(from..to);
            from = to;
        }
    }
    ranges
}
