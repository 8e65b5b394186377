//! The reading that tells most for the effort of taking it.
//!
//! For every reading that could be taken, each cause that is left predicts a normal distribution: its value at the sizes that are
//! still possible, with the tolerances that the readings so far leave. How much the reading tells, the mutual information of
//! cause and reading, is bounded below by the pairwise bound of Kolchinsky and Tracey (Entropy 19, 2017, 361, equation 10 with
//! Bhattacharyya distances; number from memory): `-sum_i p_i ln sum_j p_j exp(-B_ij)`, which needs no grid.

use crate::evidence::{Evidence, Instrument, Measured, Taken};
use crate::gauss::Cholesky;
use crate::hypothesis::Hypothesis;
use crate::inference::Inference;
use crate::model::{Model, Outcome};
use crate::plant::Plant;
use crate::posterior::Ranking;
use crate::quantity::Quantity;
use candidates::candidates;
pub(crate) use candidates::effort_minutes;
use latchline_circuit::flow::Workspace;
pub use meaning::Meaning;
use meaning::{Component, meanings};
use rayon::prelude::*;

mod candidates;
mod meaning;

/// Causes that a reading is asked to tell apart, besides all those that no meter sees.
const MOST_CAUSES: usize = 80;
/// Causes below this probability are not asked about.
const LEAST_LEFT: f64 = 1e-5;
/// A reading that tells less than this, in bits, is not worth taking.
const LEAST_BITS: f64 = 0.02;
/// A reading of which one outcome is as probable as this tells little in words; so many of the best are looked at for another.
const MOSTLY_ONE: f64 = 0.97;
const MOST_LOOKED_AT: usize = 40;
/// A reading whose outcomes all leave the same cause in the lead has to tell more than this, in bits.
const LEAST_BITS_OF_ONE: f64 = 0.3;

/// The reading to take next.
#[derive(Debug, Clone, PartialEq)]
pub struct NextReading {
    /// What, where, in which state.
    pub quantity: Quantity,
    /// Bits that it tells, at least.
    pub bits: f64,
    /// Minutes that it takes.
    pub minutes: f64,
    /// What its outcomes mean, from the lowest.
    pub meanings: Vec<Meaning>,
}

/// Finds it.
pub(crate) fn next_reading(
    plant: &Plant<'_>,
    evidence: &Evidence,
    hypotheses: &[Hypothesis],
    ranking: &Ranking,
    inference: &Inference<'_, '_, '_>,
) -> Option<NextReading> {
    // If something was told, what it points to is to be told apart, not the faults that a house always may have.
    let is_any_pointed_to = ranking.causes.iter().any(|cause| cause.is_pointed_to);
    let counts = |place: &usize| {
        let cause = &ranking.causes[*place];
        cause.probability > LEAST_LEFT && (cause.is_pointed_to || !is_any_pointed_to)
    };
    let (mut left, unseen): (Vec<usize>, Vec<usize>) = (0..ranking.causes.len())
        .filter(counts)
        .partition(|place| hypotheses[ranking.causes[*place].hypothesis].is_electrical(plant));
    left.truncate(MOST_CAUSES);
    // All that no meter sees predict the same: they are one.
    let unseen_share: f64 = unseen.iter().map(|place| ranking.causes[*place].probability).sum();
    if !evidence.is_empty() {
        left.extend(unseen.first());
    }
    if left.len() < 2 {
        return None;
    }
    let share = |place: usize| {
        if Some(&place) == unseen.first() { unseen_share } else { ranking.causes[place].probability }
    };
    let total: f64 = left.iter().map(|place| share(*place)).sum();
    let shares: Vec<f64> = left.iter().map(|place| share(*place) / total).collect();
    let taken: Vec<Quantity> = evidence.measured.iter().map(|one| one.quantity.clone()).collect();
    let possible: Vec<Quantity> = candidates(plant, evidence, hypotheses, ranking, &left)
        .into_iter()
        .filter(|quantity| !taken.contains(quantity) && !evidence.out_of_reach.contains(quantity))
        .collect();
    let mut quantities = taken.clone();
    quantities.extend(possible);
    let mut model = Model::new(plant, quantities, &[]);
    model.take_as(evidence);
    let known = taken.len();
    let conditioned = Conditioned::new(&model, evidence, known);
    let outcomes: Vec<[Outcome; 3]> = left
        .par_iter()
        .map_init(Workspace::new, |workspace, place| {
            let posterior = &ranking.causes[*place];
            let hypothesis = &hypotheses[posterior.hypothesis];
            let size = posterior.size.map_or([0.0; 3], |size| [size.inner.0, size.best, size.inner.1]);
            size.map(|size| model.outcome(&hypothesis.effects(plant, size), workspace))
        })
        .collect();
    let last = evidence.measured.last().map(|one| one.quantity.place());
    let components =
        |place: usize| components(place, &model, &left, &shares, &outcomes, &conditioned, inference);
    let scored: Vec<(f64, f64, f64)> = (known..model.quantities.len())
        .into_par_iter()
        .map(|place| {
            let bits = information(&components(place)) / std::f64::consts::LN_2;
            let minutes = effort_minutes(plant, &model.quantities[place], last);
            (bits / minutes, bits, minutes)
        })
        .collect();
    let mut order: Vec<usize> = (0..scored.len()).collect();
    order.sort_by(|a, b| scored[*b].0.total_cmp(&scored[*a].0).then(a.cmp(b)));
    order.retain(|place| scored[*place].1 >= LEAST_BITS);
    // Of a reading whose outcomes run into each other nobody could say what it means: one that tells some apart comes first.
    let told = order.iter().take(MOST_LOOKED_AT).map(|place| {
        let quantity = &model.quantities[known + place];
        (*place, meanings(quantity, &components(known + place)))
    });
    let mut first = None;
    for (place, told) in told {
        let is_plain = told.len() > 1 && told.iter().all(|one| one.probability < MOSTLY_ONE);
        if is_plain {
            first = Some((place, told));
            break;
        }
        if first.is_none() && scored[place].1 >= LEAST_BITS_OF_ONE {
            first = Some((place, told));
        }
    }
    let (place, meanings) = first?;
    let (_, bits, minutes) = scored[place];
    Some(NextReading { quantity: model.quantities[known + place].clone(), bits, minutes, meanings })
}

/// Tolerances as the readings so far leave them, by the derivatives of the sound network.
struct Conditioned {
    known: usize,
    /// For every quantity its weights on the residuals of those that are known, and what is left of its variance.
    weights: Vec<Vec<f64>>,
    variance: Vec<f64>,
}

impl Conditioned {
    fn new(model: &Model<'_, '_>, evidence: &Evidence, known: usize) -> Self {
        let rows = model.rows(&[], &mut Workspace::new());
        let dot = |a: &[f64], b: &[f64]| -> f64 { a.iter().zip(b).map(|(a, b)| a * b).sum() };
        let mut matrix = vec![0.0; known * known];
        for row in 0..known {
            for column in 0..known {
                matrix[row * known + column] = dot(&rows[row], &rows[column]);
            }
            matrix[row * known + row] += evidence.measured[row].deviation().powi(2);
        }
        let factor = Cholesky::new(&matrix, known);
        let each: Vec<(Vec<f64>, f64)> = rows
            .par_iter()
            .map(|row| {
                let shared: Vec<f64> = (0..known).map(|place| dot(row, &rows[place])).collect();
                let weights = factor.solve(&shared);
                let variance = (dot(row, row) - dot(&weights, &shared)).max(0.0);
                (weights, variance)
            })
            .collect();
        let (weights, variance) = each.into_iter().unzip();
        Conditioned { known, weights, variance }
    }
}

fn components(
    place: usize,
    model: &Model<'_, '_>,
    left: &[usize],
    shares: &[f64],
    outcomes: &[[Outcome; 3]],
    conditioned: &Conditioned,
    inference: &Inference<'_, '_, '_>,
) -> Vec<Component> {
    let quantity = &model.quantities[place];
    left.iter()
        .zip(shares)
        .zip(outcomes)
        .map(|((cause, share), outcome)| {
            let values = [0, 1, 2].map(|size| outcome[size].values[place].value);
            let own = outcome[1].values[place].own;
            let mean = 0.3 * values[0] + 0.4 * values[1] + 0.3 * values[2];
            let spread = 0.3 * (values[0] - mean).powi(2)
                + 0.4 * (values[1] - mean).powi(2)
                + 0.3 * (values[2] - mean).powi(2);
            // What is dead depends on nothing.
            let is_dead = values[1] == 0.0;
            let shift: f64 = if is_dead {
                0.0
            } else {
                (0..conditioned.known)
                    .map(|known| {
                        let residual = inference.observed[known] - outcome[1].values[known].value;
                        conditioned.weights[place][known] * residual.clamp(-2.0, 2.0)
                    })
                    .sum()
            };
            let tolerance = if is_dead { 0.0 } else { conditioned.variance[place] };
            let meter = good_reading(quantity.clone(), quantity.unscale(values[1])).deviation();
            Component {
                share: *share,
                mean: mean + shift,
                deviation: (spread + own * own + tolerance + meter * meter).sqrt(),
                cause: *cause,
            }
        })
        .collect()
}

fn information(components: &[Component]) -> f64 {
    let mut sum = 0.0;
    for one in components {
        let mut alike = 0.0;
        for other in components {
            let variance = 0.5 * (one.deviation.powi(2) + other.deviation.powi(2));
            let apart = (one.mean - other.mean).powi(2) / (8.0 * variance);
            let by_width = 0.5 * (variance / (one.deviation * other.deviation)).ln();
            alike += other.share * (-(apart + by_width)).exp();
        }
        sum -= one.share * alike.ln();
    }
    sum.max(0.0)
}

/// A reading as a good meter gives it.
pub fn good_reading(quantity: Quantity, value: f64) -> Measured {
    Measured { quantity, value, instrument: Instrument::Good, taken: Taken::Settled }
}
