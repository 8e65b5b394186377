//! What the causes that are left predict of a reading, given what was read.
//!
//! At a size of a cause the readings so far leave the tolerances normal: what the reading and they share moves its mean by as much as they differ
//! from what that size predicts, and narrows it. Each size has a residual of its own. A reading that does not depend on the size is therefore
//! as wide as the sizes that the tolerances leave open, though each of them alone would predict it narrowly.

use super::meaning::Component;
use crate::evidence::good_reading;
use crate::gauss::Cholesky;
use crate::inference::Inference;
use crate::model::{Model, Outcome};
use crate::quantity::Quantity;
use latchline_circuit::flow::Workspace;
use rayon::prelude::*;

/// A reading farther than so many deviations from what a size predicts moves no further by it: it is wrong, not the tolerances.
const FARTHEST: f64 = 4.0;

/// What quantities share by the tolerances, by the derivatives of the sound network.
pub(super) struct Shared {
    known: usize,
    /// For every quantity its covariance with those that are known.
    with_known: Vec<Vec<f64>>,
    /// Its own variance.
    variance: Vec<f64>,
}

/// A size of a cause, given the readings so far.
pub(super) struct Given {
    outcome: Outcome,
    factor: Cholesky,
    /// The inverse of the covariance of the readings, times what they differ by.
    weighted: Vec<f64>,
}

/// A cause that is left.
pub(super) struct Left {
    /// Index into the ranking.
    pub cause: usize,
    /// Its probability among those that are left.
    pub share: f64,
    /// Sizes, each as probable as the next.
    pub given: Vec<Given>,
}

impl Shared {
    /// Of a model whose first quantities are the known ones.
    pub fn new(model: &Model<'_, '_>, known: usize) -> Self {
        let rows = model.rows(&[], &model.all(), &mut Workspace::new());
        let dot = |a: &[f64], b: &[f64]| -> f64 { a.iter().zip(b).map(|(a, b)| a * b).sum() };
        let each: Vec<(Vec<f64>, f64)> = rows
            .par_iter()
            .map(|row| (rows[..known].iter().map(|other| dot(row, other)).collect(), dot(row, row)))
            .collect();
        let (with_known, variance) = each.into_iter().unzip();
        Shared { known, with_known, variance }
    }

    /// What a size leaves of the tolerances; `wrong`: how probably each reading is wrong, if it is this cause.
    pub fn given(&self, outcome: Outcome, wrong: &[f64], inference: &Inference<'_, '_, '_>) -> Given {
        let known = self.known;
        let mut matrix = vec![0.0; known * known];
        for row in 0..known {
            let shared = self.with_readings(row, &outcome);
            matrix[row * known..(row + 1) * known].copy_from_slice(&shared);
            matrix[row * known + row] += inference.variance[row] + outcome.values[row].own.powi(2);
        }
        let factor = Cholesky::new(&matrix, known);
        let residual: Vec<f64> = (0..known)
            .map(|place| {
                let farthest = FARTHEST * matrix[place * known + place].sqrt();
                let off = inference.observed[place] - outcome.values[place].value;
                off.clamp(-farthest, farthest) * (1.0 - wrong.get(place).copied().unwrap_or(0.0))
            })
            .collect();
        let weighted = factor.solve(&residual);
        Given { outcome, factor, weighted }
    }

    /// Covariance of a quantity with the readings; what is dead depends on nothing.
    fn with_readings(&self, place: usize, outcome: &Outcome) -> Vec<f64> {
        let is_dead = |place: usize| outcome.values[place].value == 0.0;
        let shared = self.with_known[place].iter().enumerate();
        shared.map(|(other, shared)| if is_dead(place) || is_dead(other) { 0.0 } else { *shared }).collect()
    }

    /// What every size of a cause predicts of a quantity: mean and variance, without the meter's.
    fn by_size(&self, place: usize, left: &Left) -> Vec<(f64, f64)> {
        let of = |given: &Given| {
            let predicted = &given.outcome.values[place];
            let shared = self.with_readings(place, &given.outcome);
            let shift: f64 = shared.iter().zip(&given.weighted).map(|(a, b)| a * b).sum();
            let known: f64 = given.factor.whiten(&shared).iter().map(|one| one * one).sum();
            let tolerance =
                if predicted.value == 0.0 { 0.0 } else { (self.variance[place] - known).max(0.0) };
            (predicted.value + shift, tolerance + predicted.own.powi(2))
        };
        left.given.iter().map(of).collect()
    }

    /// What a cause predicts of a quantity, over its sizes.
    pub fn component(&self, quantity: &Quantity, place: usize, left: &Left) -> Component {
        let each = self.by_size(place, left);
        let count = each.len() as f64;
        let mean = each.iter().map(|(mean, _)| mean).sum::<f64>() / count;
        let variance = each.iter().map(|(value, own)| own + (value - mean).powi(2)).sum::<f64>() / count;
        let meter = good_reading(quantity.clone(), quantity.unscale(mean)).deviation();
        Component { share: left.share, mean, deviation: variance.sqrt().hypot(meter), cause: left.cause }
    }

    /// The same, a part of its share for every size: between sizes that differ in what is off or limited a cause may predict nothing at all.
    pub fn components_by_size(&self, quantity: &Quantity, place: usize, left: &Left) -> Vec<Component> {
        let each = self.by_size(place, left);
        let share = left.share / each.len() as f64;
        let regime = |size: usize| left.given[size].outcome.regime;
        let part = |(size, (mean, variance)): (usize, &(f64, f64))| {
            // What lies between a size and the next is predicted too, where nothing jumps in between.
            let neighbours = [size.checked_sub(1), (size + 1 < each.len()).then_some(size + 1)];
            let alike = neighbours.into_iter().flatten().filter(|other| regime(*other) == regime(size));
            let apart = alike.map(|other| (each[other].0 - mean).abs()).fold(0.0, f64::max);
            let meter = good_reading(quantity.clone(), quantity.unscale(*mean)).deviation();
            let deviation = variance.sqrt().hypot(meter).hypot(apart / 12.0_f64.sqrt());
            Component { share, mean: *mean, deviation, cause: left.cause }
        };
        each.iter().enumerate().map(part).collect()
    }
}
