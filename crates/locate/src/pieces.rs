//! Between two sizes that were solved: predictions change nearly straight there, and what was read may lie anywhere between them.
//!
//! The likelihood itself is far from straight: where the readings are sharp it has its peak within a small part of a piece, however low it is at
//! both ends. So it is worked out between them, of predictions on the chord: where the chord comes nearest to what was read, all readings right or
//! one of them left out, and then wherever it still changes much from one place to the next.

use crate::gauss::{Cholesky, log_sum};
use crate::inference::Inference;
use crate::model::Outcome;
use crate::predict::Predicted;
use crate::size::{Point, trapezoid};

/// Neighbours whose logarithms differ by more have a place between them.
const STEEPEST: f64 = 0.5;
/// What lies so far below the highest (logarithms) is not looked at closer.
const FAR_BELOW: f64 = 9.0;
/// Places looked at between two of one piece, at most.
const MOST_BETWEEN: usize = 60;

/// A size that was compared with what was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Place {
    /// Where in the range, 0 to 1.
    pub at: f64,
    /// Logarithm of the likelihood of all that was read and told.
    pub log: f64,
    /// The solved point before it.
    pub point: usize,
    /// How far towards the next, 0 to 1.
    pub share: f64,
}

impl Inference<'_, '_, '_> {
    /// Places of the solved points and between them, in order. Nothing is between points of two regimes, nor inside of intervals that are
    /// `plain`.
    pub(crate) fn places(&self, points: &[Point], plain: &[(f64, f64)]) -> Vec<Place> {
        let mut highest = points.iter().map(|point| point.log).fold(f64::NEG_INFINITY, f64::max);
        let is_smooth = |left: usize| {
            let (near, far) = (&points[left], &points[left + 1]);
            near.outcome.regime == far.outcome.regime
                && !plain.iter().any(|(from, to)| *from <= near.at && far.at <= *to)
        };
        let mut pieces: Vec<Vec<Place>> = Vec::with_capacity(points.len());
        for (left, point) in points.iter().enumerate() {
            let mut places = vec![Place { at: point.at, log: point.log, point: left, share: 0.0 }];
            if left + 1 < points.len() && is_smooth(left) {
                let (near, far) = (point, &points[left + 1]);
                let nearest = self.nearest(near, far, highest - FAR_BELOW);
                places.extend(nearest.into_iter().map(|share| self.place(points, left, share)));
                places.sort_by(|a, b| a.share.total_cmp(&b.share));
                highest = places.iter().map(|place| place.log).fold(highest, f64::max);
            }
            pieces.push(places);
        }
        for left in 0..points.len().saturating_sub(1) {
            if is_smooth(left) {
                let end = Place { share: 1.0, ..pieces[left + 1][0] };
                self.divide(points, &mut pieces[left], end, highest - FAR_BELOW);
            }
        }
        pieces.into_iter().flatten().collect()
    }

    /// Adds places to those of a piece, until neighbours differ little.
    fn divide(&self, points: &[Point], places: &mut Vec<Place>, end: Place, lowest: f64) {
        let left = places[0].point;
        let mut at = 0;
        let most = places.len() + MOST_BETWEEN;
        while at < places.len() {
            let (near, far) = (places[at], places.get(at + 1).copied().unwrap_or(end));
            let is_steep = (near.log - far.log).abs() > STEEPEST && near.log.max(far.log) > lowest;
            if is_steep && far.share - near.share > 1e-6 && places.len() < most {
                places.insert(at + 1, self.place(points, left, near.share.midpoint(far.share)));
            } else {
                at += 1;
            }
        }
    }

    fn place(&self, points: &[Point], left: usize, share: f64) -> Place {
        let (near, far) = (&points[left], &points[left + 1]);
        let (residual, covariance) = self.off(near, far, share);
        let told = mix(near.told, far.told, share);
        let log = self.log_of(&residual, &covariance) + told;
        Place { at: mix(near.at, far.at, share), log, point: left, share }
    }

    /// What was read less what is predicted between two points, and its covariance.
    pub(crate) fn off(&self, near: &Point, far: &Point, share: f64) -> (Vec<f64>, Vec<f64>) {
        let values = near.outcome.values.iter().zip(&far.outcome.values);
        let residual = self.observed.iter().zip(values);
        let residual = residual.map(|(seen, (a, b))| seen - mix(a.value, b.value, share)).collect();
        let covariance = near.covariance.iter().zip(&far.covariance).map(|(a, b)| mix(*a, *b, share));
        (residual, covariance.collect())
    }

    /// How far along the chord it comes nearest to what was read, all readings right or one of them left out; those whose likelihood may be above `lowest`.
    fn nearest(&self, near: &Point, far: &Point, lowest: f64) -> Vec<f64> {
        let size = self.observed.len();
        let (from, covariance) = self.off(near, far, 0.5);
        let along: Vec<f64> =
            near.outcome.values.iter().zip(&far.outcome.values).map(|(a, b)| b.value - a.value).collect();
        let factor = Cholesky::new(&covariance, size);
        let (way, off) = (factor.solve(&along), factor.solve(&from));
        let inverse = factor.inverse_diagonal();
        let dot = |a: &[f64], b: &[f64]| -> f64 { a.iter().zip(b).map(|(a, b)| a * b).sum() };
        let (way_way, way_off, off_off) = (dot(&along, &way), dot(&along, &off), dot(&from, &off));
        // `from` is counted from the middle of the chord.
        let log_scale = 0.5 * inverse.iter().map(|one| one.ln()).sum::<f64>();
        let told = near.told.max(far.told);
        let share = |left_out: Option<usize>| {
            let without =
                |all: f64, a: f64, b: f64| left_out.map_or(all, |place| all - a * b / inverse[place]);
            let of = |list: &[f64]| left_out.map_or(0.0, |place| list[place]);
            let squared = without(way_way, of(&way), of(&way));
            let passed = without(way_off, of(&way), of(&off));
            let rest = without(off_off, of(&off), of(&off));
            let at = if squared > 1e-12 { (passed / squared).clamp(-0.5, 0.5) } else { 0.0 };
            let distance = rest - 2.0 * at * passed + at * at * squared;
            (at + 0.5, log_scale + told - 0.5 * distance)
        };
        let all = std::iter::once(None).chain((0..size).map(Some)).map(share);
        let inside = |(at, log): &(f64, f64)| *log > lowest && (1e-6..1.0 - 1e-6).contains(at);
        let mut found: Vec<f64> = all.filter(inside).map(|(at, _)| at).collect();
        found.sort_by(f64::total_cmp);
        found.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
        found
    }
}

/// Logarithm of the integral over places.
pub(crate) fn log_integral(places: &[Place]) -> f64 {
    log_sum(&trapezoid(&logs(places)))
}

/// Places with their logarithms.
pub(crate) fn logs(places: &[Place]) -> Vec<(f64, f64)> {
    places.iter().map(|place| (place.at, place.log)).collect()
}

/// What a cause makes of the enquiry between two points.
pub(crate) fn outcome_between(near: &Point, far: &Point, share: f64) -> Outcome {
    let nearer = if share < 0.5 { near } else { far };
    let values = near.outcome.values.iter().zip(&far.outcome.values).map(|(a, b)| Predicted {
        value: mix(a.value, b.value, share),
        own: mix(a.own, b.own, share),
        range: mix(a.range, b.range, share),
    });
    Outcome { values: values.collect(), ..nearer.outcome.clone() }
}

fn mix(a: f64, b: f64, share: f64) -> f64 {
    a + share * (b - a)
}
