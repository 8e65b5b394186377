//! A site with every single cause at a few of its sizes: what the tables are made from.

use super::columns::columns;
use super::pattern::{Pattern, pattern_of};
use super::quantities::{name, quantities};
use crate::evidence::good_reading;
use crate::hypothesis::{Hypothesis, hypotheses};
use crate::model::{Model, Outcome};
use crate::plant::Plant;
use crate::predict::Predicted;
use crate::quantity::Quantity;
use crate::rates::{Age, Rates};
use crate::size::size_at;
use latchline_circuit::flow::Workspace;
use rayon::prelude::*;

/// Sizes of a cause that are kept, as places of its range.
const PLACES: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];
/// A step of what is kept, in deviations of a good meter.
const STEP: f64 = 1.0;
/// An own deviation below this, in steps, is nothing.
const LEAST_OWN: f64 = 0.5;
/// What is shared is kept in so many parts of a step.
pub(super) const COLUMN_PARTS: f64 = 8.0;

/// A reading that is known.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Entry {
    /// As it is written on the command line; `current:` before the place of a current, `loop:` before a run of which the loop is read.
    pub name: String,
    /// Without a fault, on the scale on which it is compared.
    pub sound: f32,
    /// A step of what is kept, on that scale.
    pub step: f32,
    /// What no other reading shares of its tolerance, and what is its own without a fault, as a variance.
    pub own_variance: f32,
    /// How it depends on what readings share, in parts of a step.
    pub columns: Vec<i32>,
}

impl Entry {
    /// A value on the scale on which it is compared, of its change in steps. What is within a step and a quarter of nothing is none.
    pub fn value(&self, steps: f64) -> f64 {
        let value = f64::from(self.sound) + steps * f64::from(self.step);
        if value.abs() < NOTHING * f64::from(self.step) { 0.0 } else { value }
    }

    /// What it shares with another reading, as a covariance.
    pub fn shared(&self, other: &Entry) -> f64 {
        let pairs = self.columns.iter().zip(&other.columns);
        let sum: f64 = pairs.map(|(a, b)| f64::from(*a) * f64::from(*b)).sum();
        sum * f64::from(self.step) * f64::from(other.step) / (COLUMN_PARTS * COLUMN_PARTS)
    }
}

/// What is nearer to nothing, in steps, is none.
pub(super) const NOTHING: f64 = 1.25;

/// A cause at one of its sizes.
pub(super) struct AtSize {
    /// The size in its unit; 0 for a cause without.
    pub size: f64,
    /// Outcomes with the same number change smoothly from one to the other.
    pub regime: u64,
    /// What it changes.
    pub pattern: Pattern,
}

/// A site with every single cause.
pub(super) struct Solved {
    /// What is read.
    pub quantities: Vec<Quantity>,
    /// The same as it is kept.
    pub entries: Vec<Entry>,
    /// Every cause.
    pub causes: Vec<Hypothesis>,
    /// Of each its sizes; empty for one that no reading shows.
    pub at_sizes: Vec<Vec<AtSize>>,
}

impl Solved {
    /// Every cause at every size that is kept.
    pub fn new(plant: &Plant<'_>, rates: &Rates, age: Age) -> Self {
        let model = Model::new(plant, quantities(plant), &[]);
        let mut workspace = Workspace::new();
        let sound = model.outcome(&[], &mut workspace);
        let rows = model.rows(&[], &model.all(), &mut workspace);
        let (columns, left) = columns(&rows);
        let entry = |(place, quantity): (usize, &Quantity)| {
            let Predicted { value, own, .. } = sound.values[place];
            let step = STEP * good_reading(quantity.clone(), quantity.unscale(value)).deviation();
            let parts = columns.iter().map(|column| (COLUMN_PARTS * column[place] / step).round() as i32);
            Entry {
                name: name(plant, quantity),
                sound: value as f32,
                step: step as f32,
                own_variance: (left[place] + own.powi(2)) as f32,
                columns: parts.collect(),
            }
        };
        let entries: Vec<Entry> = model.quantities.iter().enumerate().map(entry).collect();
        let causes = hypotheses(plant, rates, age);
        let at_sizes = |workspace: &mut Workspace, cause: &Hypothesis| {
            if !cause.is_electrical(plant) {
                return Vec::new();
            }
            let places: &[f64] = if cause.range.is_some() { &PLACES } else { &PLACES[..1] };
            let mut at = |place: &f64| {
                let size = size_at(cause, *place);
                let outcome = model.outcome(&cause.effects(plant, size), workspace);
                AtSize { size, regime: outcome.regime, pattern: pattern(&entries, &sound, &outcome) }
            };
            places.iter().map(&mut at).collect()
        };
        let at_sizes = causes.par_iter().map_init(Workspace::new, at_sizes).collect();
        Solved { quantities: model.quantities, entries, causes, at_sizes }
    }
}

/// What a cause changes of the readings, in steps.
fn pattern(entries: &[Entry], sound: &Outcome, outcome: &Outcome) -> Pattern {
    let change = |((entry, value), sound_own): ((&Entry, &Predicted), f64)| {
        let in_steps = |value: f64| (value / f64::from(entry.step)).round();
        // What is its own without a fault is in the variance of the reading.
        let own = in_steps((value.own.powi(2) - sound_own.powi(2)).max(0.0).sqrt());
        let own = if own > LEAST_OWN { own as u32 } else { 0 };
        (in_steps(value.value - f64::from(entry.sound)) as i32, own)
    };
    let own = sound.values.iter().map(|value| value.own);
    let changes: Vec<(i32, u32)> = entries.iter().zip(&outcome.values).zip(own).map(change).collect();
    pattern_of(&changes)
}
