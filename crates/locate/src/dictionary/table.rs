//! The faults of a site as a table: what every cause makes of every reading, small enough to be carried along.
//!
//! A cause is solved at a few of its sizes, and kept as its differences from the site without a fault, in steps of the deviation of a good meter. What
//! readings share by the tolerances is kept as a few columns of their covariance by its pivoted Cholesky factor (Higham, Accuracy and Stability of
//! Numerical Algorithms, chapter 10, number from memory), and what these leave as a variance of each reading's own. Readings are then ranked from the
//! table alone (`rank`), without a network to solve. It knows no symptoms, and of readings those in standby by day and of runs alone.

use crate::evidence::good_reading;
use crate::hypothesis::{Hypothesis, hypotheses};
use crate::kind::Kind;
use crate::model::Model;
use crate::plant::Plant;
use crate::predict::node;
use crate::quantity::{Quantity, places, written};
use crate::rates::{Age, Rates};
use crate::size::size_at;
use latchline_circuit::flow::Workspace;
use latchline_finding::StateKind;
use latchline_network::readings::ReadingPlace;
use rayon::prelude::*;

/// Sizes of a cause that are kept, as places of its range.
const PLACES: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];
/// Columns of the covariance that are kept.
const MOST_COLUMNS: usize = 12;
/// No more are kept where all that is left is less than this share of every variance.
const LEAST_LEFT: f64 = 0.02;
/// A step of what is kept, in deviations of a good meter.
const STEP: f64 = 1.0;
/// An own deviation below this, in steps, is nothing.
const LEAST_OWN: f64 = 0.5;

/// The faults of a site as a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Dictionary {
    pub(super) readings: Vec<Entry>,
    pub(super) elements: Vec<String>,
    pub(super) causes: Vec<Row>,
    pub(super) none_of_these: f32,
    pub(super) wrong_reading: f32,
    pub(super) careless_reading: f32,
}

/// A reading that is known.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Entry {
    /// As it is written on the command line; `current:` before the place of a current.
    pub name: String,
    /// Without a fault, on the scale on which it is compared.
    pub sound: f32,
    /// A step of what is kept, on that scale.
    pub step: f32,
    /// What no other reading shares of its tolerance, and what is its own without a fault, as a variance.
    pub own_variance: f32,
    /// How it depends on what readings share.
    pub columns: Vec<f32>,
}

/// A cause.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Row {
    pub kind: Kind,
    /// Index into the elements.
    pub element: u32,
    /// Prior probability.
    pub prior: f32,
    /// At every size that is kept; empty for one that no reading shows.
    pub points: Vec<Point>,
}

/// A cause at one of its sizes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Point {
    /// The size in its unit; 0 for a cause without.
    pub size: f32,
    /// Nothing is interpolated between points of different regimes.
    pub regime: u8,
    pub changes: Vec<Change>,
}

/// What a cause changes of a reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Change {
    /// Index into the readings.
    pub reading: u32,
    /// Difference from the site without a fault, in steps.
    pub steps: i32,
    /// Its own deviation, in steps.
    pub own_steps: u32,
}

impl Dictionary {
    /// Of a site, with how often each cause is met.
    pub fn new(plant: &Plant<'_>, rates: &Rates, age: Age) -> Self {
        let model = Model::new(plant, quantities(plant), &[]);
        let mut workspace = Workspace::new();
        let sound = model.outcome(&[], &mut workspace);
        let rows = model.rows(&[], &model.all(), &mut workspace);
        let (columns, left) = columns(&rows);
        let readings: Vec<Entry> = model
            .quantities
            .iter()
            .enumerate()
            .map(|(place, quantity)| {
                let value = sound.values[place].value;
                let meter = good_reading(quantity.clone(), quantity.unscale(value)).deviation();
                Entry {
                    name: name(plant, quantity),
                    sound: value as f32,
                    step: (STEP * meter) as f32,
                    own_variance: (left[place] + sound.values[place].own.powi(2)) as f32,
                    columns: columns.iter().map(|column| column[place] as f32).collect(),
                }
            })
            .collect();
        let all = hypotheses(plant, rates, age);
        let mut elements: Vec<String> = all.iter().map(|one| one.cause.element.name(plant.site)).collect();
        elements.sort_unstable();
        elements.dedup();
        let points: Vec<Vec<Point>> = all
            .par_iter()
            .map_init(Workspace::new, |workspace, one| points(&model, &readings, one, workspace))
            .collect();
        let of = |(one, points): (&Hypothesis, Vec<Point>)| {
            let element = elements.binary_search(&one.cause.element.name(plant.site)).unwrap_or(0);
            Row { kind: one.cause.kind, element: element as u32, prior: one.prior as f32, points }
        };
        let causes = all.iter().zip(points).map(of).collect();
        Dictionary {
            readings,
            elements,
            causes,
            none_of_these: rates.none_of_these as f32,
            wrong_reading: rates.wrong_reading as f32,
            careless_reading: rates.careless_reading as f32,
        }
    }

    /// How many readings it knows.
    pub fn readings(&self) -> usize {
        self.readings.len()
    }

    /// How many causes it knows.
    pub fn causes(&self) -> usize {
        self.causes.len()
    }
}

/// How a reading is named in a table.
pub(super) fn name(plant: &Plant<'_>, quantity: &Quantity) -> String {
    match quantity {
        Quantity::Current { .. } => format!("current:{}", written(plant, quantity)),
        Quantity::Loop { .. } => format!("loop:{}", written(plant, quantity)),
        _ => written(plant, quantity),
    }
}

/// The readings of a table: every voltage and every current out of a source and into a run in standby by day; of every run its loop and its insulation.
fn quantities(plant: &Plant<'_>) -> Vec<Quantity> {
    let state = || StateKind::StandbyDay.into();
    let mut list = Vec::new();
    for (_, at) in places(plant.site).into_iter().filter(|(_, at)| node(plant, *at).is_some()) {
        match at {
            ReadingPlace::Run(run) => {
                list.push(Quantity::Current { at, state: state() });
                list.extend([Quantity::Loop { run }, Quantity::Insulation { run }]);
            }
            ReadingPlace::Supply(_) | ReadingPlace::BoxOutput(_) => {
                list.push(Quantity::Voltage { at, state: state() });
                list.push(Quantity::Current { at, state: state() });
            }
            ReadingPlace::BoxLink(_) => {}
            _ => list.push(Quantity::Voltage { at, state: state() }),
        }
    }
    list
}

fn points(
    model: &Model<'_, '_>,
    readings: &[Entry],
    cause: &Hypothesis,
    workspace: &mut Workspace,
) -> Vec<Point> {
    if !cause.is_electrical(model.plant) {
        return Vec::new();
    }
    let mut regimes: Vec<u64> = Vec::new();
    let mut at = |place: f64| {
        let size = size_at(cause, place);
        let outcome = model.outcome(&cause.effects(model.plant, size), workspace);
        let regime = regimes.iter().position(|known| *known == outcome.regime).unwrap_or_else(|| {
            regimes.push(outcome.regime);
            regimes.len() - 1
        });
        let change = |(reading, (entry, value)): (usize, (&Entry, &crate::predict::Predicted))| {
            let in_steps = |value: f64| (value / f64::from(entry.step)).round();
            let steps = in_steps(value.value - f64::from(entry.sound)) as i32;
            let own = in_steps(value.own);
            let own_steps = if own > LEAST_OWN { own as u32 } else { 0 };
            (steps != 0 || own_steps != 0).then_some(Change { reading: reading as u32, steps, own_steps })
        };
        let changes = readings.iter().zip(&outcome.values).enumerate().filter_map(change).collect();
        Point { size: size as f32, regime: regime as u8, changes }
    };
    match cause.range {
        None => vec![at(0.0)],
        Some(_) => PLACES.map(at).into(),
    }
}

/// Columns `c` of which the sum of `c c'` is nearly the covariance of these rows of derivatives, and what they leave of every variance.
fn columns(rows: &[Vec<f64>]) -> (Vec<Vec<f64>>, Vec<f64>) {
    let dot = |a: &[f64], b: &[f64]| -> f64 { a.iter().zip(b).map(|(a, b)| a * b).sum() };
    let whole: Vec<f64> = rows.iter().map(|row| dot(row, row)).collect();
    let mut left = whole.clone();
    let mut columns: Vec<Vec<f64>> = Vec::new();
    // Of what is left as a share of the whole, since readings have different units.
    let share =
        |left: &[f64], place: usize| if whole[place] > 0.0 { left[place] / whole[place] } else { 0.0 };
    while columns.len() < MOST_COLUMNS {
        // The pivot that explains most of all: by its own share and what others share with it.
        let pivot = (0..rows.len())
            .max_by(|a, b| share(&left, *a).total_cmp(&share(&left, *b)).then(b.cmp(a)))
            .filter(|pivot| share(&left, *pivot) > LEAST_LEFT);
        let Some(pivot) = pivot else { break };
        let root = left[pivot].sqrt();
        let of = |place: usize| {
            let known: f64 = columns.iter().map(|column| column[place] * column[pivot]).sum();
            (dot(&rows[place], &rows[pivot]) - known) / root
        };
        let column: Vec<f64> = (0..rows.len()).map(of).collect();
        left.iter_mut().zip(&column).for_each(|(left, value)| *left = (*left - value * value).max(0.0));
        columns.push(column);
    }
    (columns, left)
}
