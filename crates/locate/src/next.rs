//! The reading that tells most for the effort of taking it.
//!
//! For every reading that could be taken, each cause that is left predicts a normal distribution: its value at the sizes that are
//! still possible, with the tolerances that the readings so far leave at each size (`predicted`). How much the reading tells, the mutual information of
//! cause and reading, is bounded below by the pairwise bound of Kolchinsky and Tracey (Entropy 19, 2017, 361, equation 10 with
//! Bhattacharyya distances; number from memory): `-sum_i p_i ln sum_j p_j exp(-B_ij)`, which needs no grid.
//!
//! That is the order in which readings are looked at. The outcomes of the first are then put through the same inference that will answer once the
//! reading is given (`replay`): what is printed, and by how much the reading narrows the list, is what that says.

use crate::evidence::Evidence;
use crate::hypothesis::Hypothesis;
use crate::inference::Inference;
use crate::model::Model;
use crate::plant::Plant;
use crate::posterior::Ranking;
use crate::quantity::Quantity;
use candidates::candidates;
pub(crate) use candidates::effort_minutes;
use latchline_circuit::flow::Workspace;
pub use meaning::Meaning;
use meaning::{Component, meanings};
use predicted::{Left, Shared};
use rayon::prelude::*;
use replay::Replay;

mod candidates;
mod meaning;
mod predicted;
mod replay;

/// Causes that a reading is asked to tell apart, besides all those that no meter sees.
const MOST_CAUSES: usize = 80;
/// Causes below this probability are not asked about.
const LEAST_LEFT: f64 = 1e-5;
/// A reading that tells less than this, in bits, is not worth taking.
const LEAST_BITS: f64 = 0.02;
/// A reading of which one outcome is as probable as this tells little in words; so many of the best are looked at where all are so.
const MOSTLY_ONE: f64 = 0.97;
const MOST_LOOKED_AT: usize = 40;
/// Readings whose outcomes are put through the whole inference, at most; and those of one kind at one kind of place in one state, which are much
/// alike.
const MOST_REPLAYED: usize = 24;
const MOST_ALIKE: usize = 3;
/// Two predictions whose Bhattacharyya distance is larger have nothing in common.
const FAR_APART: f64 = 30.0;
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
    // If something was told, what it points to is to be told apart, each from the others and from all the rest, not the faults that a house always
    // may have. All that no meter sees predict the same: with that rest they are one.
    let is_any_pointed_to = ranking.causes.iter().any(|cause| cause.is_pointed_to);
    let is_electrical = |place: &usize| hypotheses[ranking.causes[*place].hypothesis].is_electrical(plant);
    let (mut left, rest): (Vec<usize>, Vec<usize>) =
        (0..ranking.causes.len()).filter(|place| ranking.causes[*place].probability > LEAST_LEFT).partition(
            |place| is_electrical(place) && (ranking.causes[*place].is_pointed_to || !is_any_pointed_to),
        );
    left.truncate(MOST_CAUSES);
    let unseen = rest.iter().copied().find(|place| !is_electrical(place));
    let unseen_share: f64 = rest.iter().map(|place| ranking.causes[*place].probability).sum();
    if !evidence.is_empty() {
        left.extend(unseen);
    }
    if left.len() < 2 {
        return None;
    }
    let share =
        |place: usize| if Some(place) == unseen { unseen_share } else { ranking.causes[place].probability };
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
    let shared = Shared::new(&model, known);
    let left_causes: Vec<Left> = left
        .par_iter()
        .zip(&shares)
        .map_init(Workspace::new, |workspace, (place, share)| {
            let posterior = &ranking.causes[*place];
            let hypothesis = &hypotheses[posterior.hypothesis];
            let sizes = posterior.size.map_or(vec![0.0], |size| size.fifths.to_vec());
            let given = sizes.into_iter().map(|size| {
                let outcome = model.outcome(&hypothesis.effects(plant, size), workspace);
                shared.given(outcome, &posterior.wrong, inference)
            });
            Left { cause: *place, share: *share, given: given.collect() }
        })
        .collect();
    let last = evidence.measured.last().map(|one| one.quantity.place());
    let components = |place: usize| -> Vec<Component> {
        let quantity = &model.quantities[place];
        left_causes.iter().map(|one| shared.component(quantity, place, one)).collect()
    };
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
    let by_size = |place: usize| -> Vec<Component> {
        let quantity = &model.quantities[known + place];
        left_causes.iter().flat_map(|one| shared.components_by_size(quantity, known + place, one)).collect()
    };
    let mut looked_at: Vec<(usize, Vec<Meaning>)> = Vec::new();
    for place in &order {
        if looked_at.len() >= MOST_REPLAYED {
            break;
        }
        let quantity = &model.quantities[known + place];
        let kind = std::mem::discriminant::<Quantity>;
        let kind_of_place = |one: &Quantity| std::mem::discriminant(&one.place());
        let alike = looked_at.iter().map(|(place, _)| &model.quantities[known + place]).filter(|one| {
            kind(one) == kind(quantity)
                && kind_of_place(one) == kind_of_place(quantity)
                && one.state() == quantity.state()
        });
        if alike.count() >= MOST_ALIKE {
            continue;
        }
        let told = meanings(quantity, &by_size(*place));
        // Of a reading whose outcomes run into each other nobody could say what it means: one that tells some apart comes first.
        if is_plain(&told) {
            looked_at.push((*place, told));
        }
    }
    let otherwise =
        order.iter().take(MOST_LOOKED_AT).find(|place| scored[**place].1 >= LEAST_BITS_OF_ONE).copied();
    let wanted = looked_at.iter().map(|(place, _)| *place).chain(otherwise);
    let quantities: Vec<Quantity> = wanted.map(|place| model.quantities[known + place].clone()).collect();
    // What is promised is what the answer would say: a reading is weighed by what its outcomes would really leave.
    let replay = Replay::new(plant, evidence, hypotheses, ranking, (&left, &rest), inference, &quantities);
    let mut best: Option<(f64, NextReading)> = None;
    for (place, told) in looked_at {
        let (promised_rate, _, minutes) = scored[place];
        if best.as_ref().is_some_and(|(rate, _)| *rate >= promised_rate) {
            break;
        }
        let quantity = &model.quantities[known + place];
        let (meanings, bits) = replay.held(quantity, told);
        let rate = bits / minutes;
        if is_plain(&meanings)
            && bits >= LEAST_BITS
            && best.as_ref().is_none_or(|(best_rate, _)| rate > *best_rate)
        {
            best = Some((rate, NextReading { quantity: quantity.clone(), bits, minutes, meanings }));
        }
    }
    if let Some((_, best)) = best {
        return Some(best);
    }
    let place = otherwise?;
    let quantity = model.quantities[known + place].clone();
    let (meanings, _) = replay.held(&quantity, meanings(&quantity, &by_size(place)));
    let (_, bits, minutes) = scored[place];
    Some(NextReading { quantity, bits, minutes, meanings })
}

/// Whether the outcomes tell some causes apart, and none of them is all but certain.
fn is_plain(meanings: &[Meaning]) -> bool {
    meanings.len() > 1 && meanings.iter().all(|one| one.probability < MOSTLY_ONE)
}

fn information(components: &[Component]) -> f64 {
    // How alike two are is the same either way round.
    let mut alike: Vec<f64> = components.iter().map(|one| one.share).collect();
    for (place, one) in components.iter().enumerate() {
        for (behind, other) in components[..place].iter().enumerate() {
            let variance = 0.5 * (one.deviation.powi(2) + other.deviation.powi(2));
            let apart = (one.mean - other.mean).powi(2) / (8.0 * variance);
            if apart < FAR_APART {
                let both = (one.deviation * other.deviation / variance).sqrt() * (-apart).exp();
                alike[place] += other.share * both;
                alike[behind] += one.share * both;
            }
        }
    }
    let told = |(one, alike): (&Component, &f64)| -one.share * alike.ln();
    components.iter().zip(&alike).map(told).sum::<f64>().max(0.0)
}
