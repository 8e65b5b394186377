//! What every evaluation of a cause needs: what was read, how far off it may be, and the model that is held against it.

use crate::effect::Effect;
use crate::evidence::Evidence;
use crate::gauss::{Errors, Likelihood, likelihood, log_likelihood};
use crate::hypothesis::Hypothesis;
use crate::kept::Kept;
use crate::model::{Model, Outcome};
use crate::rates::Rates;
use crate::size::size_at;
use latchline_circuit::flow::Workspace;
use std::ops::Deref;

/// What every evaluation needs.
pub(crate) struct Inference<'m, 'p, 'a> {
    pub model: &'m Model<'p, 'a>,
    pub rates: &'m Rates,
    pub design_fails: bool,
    /// A fault that is there besides.
    pub base: Vec<Effect>,
    /// Which of the model's quantities were read, in the order of `observed`.
    read: Vec<usize>,
    /// Where what is worked out of causes is kept for other readings of the same model.
    kept: Option<&'m Kept>,
    pub observed: Vec<f64>,
    pub(crate) variance: Vec<f64>,
    pub(crate) outside: Vec<f64>,
    errors: Errors,
}

/// A cause with its number in the list that is ranked.
#[derive(Clone, Copy)]
pub(crate) struct Numbered<'h> {
    pub number: usize,
    pub hypothesis: &'h Hypothesis,
}

impl Deref for Numbered<'_> {
    type Target = Hypothesis;

    fn deref(&self) -> &Hypothesis {
        self.hypothesis
    }
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
        let variance: Vec<f64> = measured.iter().map(|one| one.deviation().powi(2)).collect();
        let outside: Vec<f64> = measured.iter().map(|one| one.outside(source_v)).collect();
        Inference {
            model,
            rates,
            design_fails,
            base: Vec::new(),
            read: (0..measured.len()).collect(),
            kept: None,
            observed: measured.iter().map(|one| one.scaled()).collect(),
            errors: Errors::new(&variance, &outside, rates.wrong_reading, rates.careless_reading),
            variance,
            outside,
        }
    }

    /// The same for a model that has more quantities than were read; what is worked out is kept for the next.
    pub fn reading(self, read: Vec<usize>, kept: &'m Kept) -> Self {
        Inference { read, kept: Some(kept), ..self }
    }

    pub(crate) fn sound(&self) -> Sound {
        let mut workspace = Workspace::new();
        let outcome = self.only_read(self.model.outcome(&self.base, &mut workspace));
        let rows = self.model.rows(&self.base, &self.read, &mut workspace);
        let covariance = product(&rows);
        let whole = self.covariance(&covariance, &outcome);
        let likelihood = self.compare(&outcome, &whole);
        Sound { covariance, outcome, whole, likelihood }
    }

    /// What a cause of this size does, with the fault that is there besides.
    pub(crate) fn effects(&self, hypothesis: &Hypothesis, size: f64) -> Vec<Effect> {
        let mut effects = self.base.clone();
        effects.extend(hypothesis.effects(self.model.plant, size));
        effects
    }

    /// What a cause of this size makes of what was read, and the logarithm of the probability of what was told.
    pub(crate) fn at(&self, cause: Numbered<'_>, at: f64, workspace: &mut Workspace) -> (Outcome, f64) {
        let mut solve = || {
            let outcome = self.model.outcome(&self.effects(&cause, size_at(&cause, at)), workspace);
            let told = self.model.log_told(self.rates, &cause, &outcome, self.design_fails);
            (outcome, told)
        };
        let (outcome, told) = match self.kept {
            Some(kept) => kept.outcome(cause.number, at, solve),
            None => solve(),
        };
        (self.only_read(outcome), told)
    }

    /// How what was read depends on every factor with a cause of this size.
    pub(crate) fn rows(&self, cause: Numbered<'_>, at: f64, workspace: &mut Workspace) -> Vec<Vec<f64>> {
        let mut solve =
            |wanted: &[usize]| self.model.rows(&self.effects(&cause, size_at(&cause, at)), wanted, workspace);
        match self.kept {
            Some(kept) => kept.rows(cause.number, at, &self.read, solve),
            None => solve(&self.read),
        }
    }

    fn only_read(&self, outcome: Outcome) -> Outcome {
        if outcome.values.len() == self.read.len() {
            return outcome;
        }
        let values = self.read.iter().map(|place| outcome.values[*place].clone()).collect();
        Outcome { values, ..outcome }
    }

    pub(crate) fn compare(&self, outcome: &Outcome, covariance: &[f64]) -> Likelihood {
        likelihood(&self.residual(outcome), covariance, &self.errors)
    }

    /// The logarithm alone.
    pub(crate) fn log_compare(&self, outcome: &Outcome, covariance: &[f64]) -> f64 {
        log_likelihood(&self.residual(outcome), covariance, &self.errors)
    }

    /// The likelihood of what was read less what is predicted.
    pub(crate) fn likelihood_of(&self, residual: &[f64], covariance: &[f64]) -> Likelihood {
        likelihood(residual, covariance, &self.errors)
    }

    /// Its logarithm alone.
    pub(crate) fn log_of(&self, residual: &[f64], covariance: &[f64]) -> f64 {
        log_likelihood(residual, covariance, &self.errors)
    }

    pub(crate) fn residual(&self, outcome: &Outcome) -> Vec<f64> {
        self.observed.iter().zip(&outcome.values).map(|(seen, said)| seen - said.value).collect()
    }

    /// Covariance of what is shared, the meters' errors and what is unsettled.
    pub(crate) fn covariance(&self, shared: &[f64], outcome: &Outcome) -> Vec<f64> {
        let size = outcome.values.len();
        let mut covariance = shared.to_vec();
        for place in 0..size {
            covariance[place * size + place] += self.variance[place] + outcome.values[place].own.powi(2);
        }
        covariance
    }
}

/// The covariance of what depends on shared factors.
pub(crate) fn product(rows: &[Vec<f64>]) -> Vec<f64> {
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
