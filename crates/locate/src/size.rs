//! The size of a cause: points of its range that were solved, the integral over them, and its quantiles.

use crate::gauss::log_sum;
use crate::hypothesis::Hypothesis;
use crate::model::Outcome;

/// Size of a cause.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Size {
    /// Most probable.
    pub best: f64,
    /// 5 % of the probability lie below.
    pub low: f64,
    /// 5 % lie above.
    pub high: f64,
    /// The middles of five parts of a fifth of the probability each: what further readings are reckoned with.
    pub(crate) fifths: [f64; 5],
}

impl Size {
    /// A size that is known.
    pub fn known(value: f64) -> Self {
        Size { best: value, low: value, high: value, fifths: [value; 5] }
    }
}

/// A size that was solved.
#[derive(Debug, Clone)]
pub(crate) struct Solved {
    /// Where in its range, 0 to 1.
    pub at: f64,
    /// What the cause makes of the enquiry.
    pub outcome: Outcome,
    /// Logarithm of the probability of what was told.
    pub told: f64,
}

/// A size that was solved, compared with what was read.
pub(crate) struct Point {
    /// Where in its range, 0 to 1.
    pub at: f64,
    /// Logarithm of the likelihood of all that was read and told.
    pub log: f64,
    /// What the cause makes of the enquiry.
    pub outcome: Outcome,
    /// Logarithm of the probability of what was told.
    pub told: f64,
    /// Of the readings: tolerances, meters and what is unsettled.
    pub covariance: Vec<f64>,
}

impl Point {
    /// Not yet compared.
    pub fn new(solved: Solved) -> Self {
        let Solved { at, outcome, told } = solved;
        Point { at, log: f64::NEG_INFINITY, outcome, told, covariance: Vec::new() }
    }
}

/// The point at which a measure is greatest, the first of equals.
pub(crate) fn best_of(points: &[Point], measure: impl Fn(&Point) -> f64) -> usize {
    let order = |a: &usize, b: &usize| measure(&points[*a]).total_cmp(&measure(&points[*b])).then(b.cmp(a));
    (0..points.len()).max_by(order).unwrap_or(0)
}

/// The size at a place of its range, 0 to 1: by decades, or along a section.
pub(crate) fn size_at(hypothesis: &Hypothesis, place: f64) -> f64 {
    match hypothesis.range {
        None => 0.0,
        Some((low, high)) if hypothesis.size_is_position() => low + place * (high - low),
        Some((low, high)) => low * (high / low).powf(place),
    }
}

/// Logarithms of the parts of the integral by the trapezoidal rule, one for each place with its logarithm, of a range from 0 to 1.
pub(crate) fn trapezoid(logs: &[(f64, f64)]) -> Vec<f64> {
    let at = |place: usize| logs[place.min(logs.len() - 1)].0;
    (0..logs.len())
        .map(|place| {
            let width = 0.5 * (at(place + 1) - at(place.saturating_sub(1)));
            logs[place].1 + width.max(1e-300).ln()
        })
        .collect()
}

/// The most probable size and nine tenths of the probability, of places with the logarithms of their likelihood.
pub(crate) fn sizes_between(hypothesis: &Hypothesis, logs: &[(f64, f64)], best: usize) -> Size {
    let places: Vec<f64> = logs.iter().map(|(at, _)| *at).collect();
    size_of(hypothesis, &places, &trapezoid(logs), best)
}

/// The same of places that lie evenly, with logarithms of the likelihood.
pub(crate) fn sizes_of(hypothesis: &Hypothesis, logs: &[(f64, f64)]) -> Size {
    let (places, weights): (Vec<f64>, Vec<f64>) = logs.iter().copied().unzip();
    let best = (0..weights.len()).max_by(|a, b| weights[*a].total_cmp(&weights[*b]).then(b.cmp(a)));
    size_of(hypothesis, &places, &weights, best.unwrap_or(0))
}

fn size_of(hypothesis: &Hypothesis, places: &[f64], weights: &[f64], best: usize) -> Size {
    let total = log_sum(weights);
    let quantile = |wanted: f64| {
        let mut sum = 0.0;
        for (place, weight) in weights.iter().enumerate() {
            let share = (weight - total).exp();
            if sum + share >= wanted {
                let low = if place == 0 { 0.0 } else { 0.5 * (places[place - 1] + places[place]) };
                let high = places.get(place + 1).map_or(1.0, |next| 0.5 * (places[place] + next));
                let within = if share > 0.0 { (wanted - sum) / share } else { 0.5 };
                return size_at(hypothesis, low + within * (high - low));
            }
            sum += share;
        }
        size_at(hypothesis, 1.0)
    };
    let peak = size_at(hypothesis, places[best]);
    Size {
        best: peak,
        low: quantile(0.05).min(peak),
        high: quantile(0.95).max(peak),
        fifths: [0.1, 0.3, 0.5, 0.7, 0.9].map(quantile),
    }
}
