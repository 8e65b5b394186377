//! The integral of one cause over its size: roughly for every cause, then exactly for those that survive.
//!
//! What a cause predicts jumps where devices go off, limits begin to act or a box goes out. Each such place is closed in on from both
//! sides, nothing is interpolated across it, and what lies on one side is compared with derivatives of that side. Between, predictions are
//! interpolated (`pieces`), and sizes are solved until that is near enough wherever the probability lies.

use crate::apart::Allowed;
use crate::gauss::{Cholesky, Likelihood, log_sum};
use crate::hypothesis::Hypothesis;
use crate::inference::{Inference, Numbered, Sound, product};
use crate::model::Outcome;
use crate::pieces::{Place, log_integral, logs, outcome_between};
use crate::screen::Screened;
use crate::size::{Point, Size, sizes_between, sizes_of, trapezoid};
use crate::spread::Spreads;
use latchline_circuit::flow::Workspace;

/// Times that pieces are halved, at most.
const MOST_ROUNDS: usize = 10;
/// A piece is halved whose predictions may lie off the chord by more than so many deviations ...
const CURVED: f64 = 0.1;
/// ... if it has more than this share of the integral, or could have.
const LEAST_SHARE: f64 = 2e-3;
/// Deviations that a curved piece may come nearer than its chord, at most.
const MOST_NEARER: f64 = 4.0;
const NARROWEST: f64 = 1e-5;

/// One cause integrated over its size.
pub(crate) struct Integrated {
    pub log: f64,
    /// The same, with something besides that is not in the list, without what was told; negative infinity where that was not worked out.
    pub log_moved: f64,
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
        let log_moved = f64::NEG_INFINITY;
        Integrated { log: screened.log, log_moved, size, best, likelihood, log_told, covariance, allowed }
    }

    /// Of a cause that changes nothing of what was read: all is known, whatever its size.
    fn unseen(&self, hypothesis: &Hypothesis, screened: &Screened, sound: &Sound) -> Integrated {
        let log_told = screened.along[0].told;
        let values = sound.outcome.values.iter().map(|value| value.value).collect();
        Integrated {
            log: screened.log,
            log_moved: f64::NEG_INFINITY,
            size: hypothesis.range.map(|_| sizes_of(hypothesis, &screened.logs)),
            best: sound.outcome.clone(),
            likelihood: sound.likelihood.clone(),
            log_told,
            covariance: sound.whole.clone(),
            allowed: Allowed::only(values, log_told),
        }
    }

    /// The integral by solving exactly; of a likely cause with something besides that is not in the list, too.
    pub(crate) fn exact(
        &self,
        cause: Numbered<'_>,
        is_likely: bool,
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
                log_moved: self.log_moved(&self.residual(&best), &covariance),
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
        let mut spreads = Spreads::default();
        let mut rounds = 0;
        let places = loop {
            for range in regimes(&points) {
                self.weigh(cause, &mut points[range], &mut spreads, sound, workspace);
            }
            let places = self.places(&points, &screened.plain);
            let wanted = if rounds < MOST_ROUNDS { self.curved(&points, &places) } else { Vec::new() };
            if wanted.is_empty() {
                break places;
            }
            rounds += 1;
            points.extend(wanted.into_iter().map(|at| Point::new(self.solved(cause, at, workspace))));
            points.sort_by(|a, b| a.at.total_cmp(&b.at));
        };
        self.summed(&cause, &points, &places, is_likely)
    }

    /// The integral over places, and what the likeliest of them predicts.
    fn summed(
        &self,
        hypothesis: &Hypothesis,
        points: &[Point],
        places: &[Place],
        is_likely: bool,
    ) -> Integrated {
        let order = |a: &usize, b: &usize| places[*a].log.total_cmp(&places[*b].log).then(b.cmp(a));
        let best = (0..places.len()).max_by(order).unwrap_or(0);
        let Place { point, share, .. } = places[best];
        let (near, far) = (&points[point], &points[(point + 1).min(points.len() - 1)]);
        let (residual, covariance) = self.off(near, far, share);
        let size = Some(sizes_between(hypothesis, &logs(places), best));
        Integrated {
            log: log_integral(places),
            log_moved: if is_likely { self.log_moved_along(points, places) } else { f64::NEG_INFINITY },
            size,
            best: outcome_between(near, far, share),
            likelihood: self.likelihood_of(&residual, &covariance),
            log_told: near.told + share * (far.told - near.told),
            covariance,
            allowed: Allowed::of(points, places),
        }
    }

    /// The integral with something besides that is not in the list.
    fn log_moved_along(&self, points: &[Point], places: &[Place]) -> f64 {
        let of = |place: &Place| {
            let (near, far) = (&points[place.point], &points[(place.point + 1).min(points.len() - 1)]);
            let (residual, covariance) = self.off(near, far, place.share);
            (place.at, self.log_moved(&residual, &covariance))
        };
        log_sum(&trapezoid(&places.iter().map(of).collect::<Vec<_>>()))
    }

    /// Middles of the pieces whose predictions are too far from straight for what they have of the integral.
    fn curved(&self, points: &[Point], places: &[Place]) -> Vec<f64> {
        let parts = trapezoid(&logs(places));
        let total = log_integral(places);
        let last = points.len() - 1;
        let mut share = vec![f64::NEG_INFINITY; points.len()];
        for (place, log) in places.iter().zip(&parts) {
            // A solved point lies in the pieces on both its sides.
            share[place.point] = share[place.point].max(*log);
            if place.share == 0.0 && place.point > 0 {
                share[place.point - 1] = share[place.point - 1].max(*log);
            }
        }
        let bends: Vec<f64> = (0..points.len()).map(|place| self.bend(points, place)).collect();
        let is_one = |a: usize, b: usize| points[a].outcome.regime == points[b].outcome.regime;
        let is_wanted = |left: &usize| {
            let (left, right) = (*left, left + 1);
            let wide = points[right].at - points[left].at;
            if !is_one(left, right) || wide <= NARROWEST {
                return false;
            }
            let is_alone =
                (left == 0 || !is_one(left - 1, right)) && (right == last || !is_one(left, right + 1));
            let off =
                if is_alone { f64::INFINITY } else { bends[left].max(bends[right]) * wide * wide / 8.0 };
            let nearer = off.min(MOST_NEARER);
            off > CURVED && share[left] + 0.5 * nearer * nearer > total + LEAST_SHARE.ln()
        };
        (0..last).filter(is_wanted).map(|left| points[left].at.midpoint(points[left + 1].at)).collect()
    }

    /// The second derivative of the predictions at a point by the size, in deviations of the readings; 0 at the ends of a regime.
    fn bend(&self, points: &[Point], place: usize) -> f64 {
        let [Some(before), Some(after)] = [place.checked_sub(1), place.checked_add(1)] else { return 0.0 };
        let Some(after) = points.get(after) else { return 0.0 };
        let (before, here) = (&points[before], &points[place]);
        if before.outcome.regime != here.outcome.regime || after.outcome.regime != here.outcome.regime {
            return 0.0;
        }
        let (first, second) = (here.at - before.at, after.at - here.at);
        let values = before.outcome.values.iter().zip(&here.outcome.values).zip(&after.outcome.values);
        let bends: Vec<f64> = values
            .map(|((a, b), c)| {
                2.0 * ((c.value - b.value) / second - (b.value - a.value) / first) / (first + second)
            })
            .collect();
        let whitened = Cholesky::new(&here.covariance, bends.len()).whiten(&bends);
        whitened.iter().map(|one| one * one).sum::<f64>().sqrt()
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
