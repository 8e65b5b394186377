//! What every evaluation of a cause needs: what was read, how far off it may be, and the model that is held against it.

use crate::effect::Effect;
use crate::evidence::Evidence;
use crate::gauss::{Errors, Likelihood, likelihood};
use crate::hypothesis::Hypothesis;
use crate::model::{Model, Outcome};
use crate::rates::Rates;
use latchline_circuit::flow::Workspace;

/// What every evaluation needs.
pub(crate) struct Inference<'m, 'p, 'a> {
    pub model: &'m Model<'p, 'a>,
    pub rates: &'m Rates,
    pub design_fails: bool,
    /// A fault that is there besides.
    pub base: Vec<Effect>,
    pub observed: Vec<f64>,
    pub(crate) variance: Vec<f64>,
    pub(crate) outside: Vec<f64>,
}

/// The network without any fault but that of [`Inference::base`], compared with what was read.
pub(crate) struct Sound {
    pub outcome: Outcome,
    /// Of what depends on shared factors.
    pub covariance: Vec<f64>,
    /// With the meters' errors and what is unsettled.
    pub whole: Vec<f64>,
    pub likelihood: Likelihood,
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

    pub(crate) fn sound(&self) -> Sound {
        let mut workspace = Workspace::new();
        let outcome = self.model.outcome(&self.base, &mut workspace);
        let rows = self.model.rows(&self.base, &mut workspace);
        let whole = self.covariance(&rows, &outcome);
        let likelihood = self.compare(&outcome, &whole);
        Sound { covariance: product(&rows), outcome, whole, likelihood }
    }

    /// What a cause of this size does, with the fault that is there besides.
    pub(crate) fn effects(&self, hypothesis: &Hypothesis, size: f64) -> Vec<Effect> {
        let mut effects = self.base.clone();
        effects.extend(hypothesis.effects(self.model.plant, size));
        effects
    }

    pub(crate) fn compare(&self, outcome: &Outcome, covariance: &[f64]) -> Likelihood {
        let residual: Vec<f64> =
            self.observed.iter().zip(&outcome.values).map(|(seen, said)| seen - said.value).collect();
        let errors = Errors {
            meter: &self.variance,
            outside: &self.outside,
            wrong: self.rates.wrong_reading,
            careless: self.rates.careless_reading,
        };
        likelihood(&residual, covariance, &errors)
    }

    /// Covariance from rows of derivatives, the meters' errors and what is unsettled.
    pub(crate) fn covariance(&self, rows: &[Vec<f64>], outcome: &Outcome) -> Vec<f64> {
        let size = rows.len();
        let mut covariance = product(rows);
        for place in 0..size {
            covariance[place * size + place] += self.variance[place] + outcome.values[place].own.powi(2);
        }
        covariance
    }
}

/// The covariance of what depends on shared factors.
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
