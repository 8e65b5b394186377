//! What the answer will say once a reading is given: the same inference, run on the reading that stands for every outcome.
//!
//! Readings in one state share a model, and what causes predict in it is worked out once for all of them.

use super::meaning::{LEAST_NAMED, Meaning};
use crate::evidence::Evidence;
use crate::evidence::good_reading;
use crate::hypothesis::Hypothesis;
use crate::inference::Inference;
use crate::kept::Kept;
use crate::model::Model;
use crate::plant::Plant;
use crate::posterior::Ranking;
use crate::quantity::Quantity;
use crate::rates::Rates;
use latchline_network::BusState;
use std::collections::BTreeMap;

/// Causes that a meter sees and that are ranked again, the most probable so far.
const MOST_ASKED_AGAIN: usize = 160;

/// The enquiry so far, to be asked again with one reading more.
pub(super) struct Replay<'r, 'a> {
    plant: &'r Plant<'a>,
    evidence: &'r Evidence,
    rates: &'r Rates,
    design_fails: bool,
    /// Causes that are still possible at all, in the order of the ranking.
    hypotheses: Vec<Hypothesis>,
    /// For each of them the cause that is asked about; `None` for one that is not.
    asked: Vec<Option<usize>>,
    /// What is not known so far, in bits.
    open_bits: f64,
    /// Those readings that are looked at, a model for each state.
    shared: Vec<Shared<'r, 'a>>,
}

/// The enquiry with readings of one state that could be taken.
struct Shared<'r, 'a> {
    state: Option<BusState>,
    model: Model<'r, 'a>,
    kept: Kept,
}

impl<'r, 'a> Replay<'r, 'a> {
    /// Of causes of which those in `left` are asked about; all in `rest`, and all that no meter sees, are asked about as one, the last of them.
    pub fn new(
        plant: &'r Plant<'a>,
        evidence: &'r Evidence,
        hypotheses: &[Hypothesis],
        ranking: &Ranking,
        (left, rest): (&[usize], &[usize]),
        inference: &'r Inference<'_, '_, '_>,
        looked_at: &[Quantity],
    ) -> Self {
        let of = |place: usize| &hypotheses[ranking.causes[place].hypothesis];
        let is_seen = |place: usize| of(place).is_electrical(plant);
        let unseen = left.iter().copied().find(|place| !is_seen(*place));
        let asked = |place: usize| match is_seen(place) && !rest.contains(&place) {
            true => left.contains(&place).then_some(place),
            false => unseen,
        };
        // The rest is so improbable that one reading seldom brings it back.
        let is_asked_again = |place: &usize| !is_seen(*place) || *place < MOST_ASKED_AGAIN;
        let again: Vec<usize> = (0..ranking.causes.len()).filter(is_asked_again).collect();
        let asked: Vec<Option<usize>> = again.iter().map(|place| asked(*place)).collect();
        let shares = grouped(
            asked.iter().zip(&again).map(|(asked, place)| (*asked, ranking.causes[*place].probability)),
        );
        let mut states: Vec<Option<BusState>> = Vec::new();
        for quantity in looked_at {
            let state = quantity.state().cloned();
            if !states.contains(&state) {
                states.push(state);
            }
        }
        let of_state = |state: Option<BusState>| {
            let in_it = |one: &&Quantity| one.state() == state.as_ref();
            let more: Vec<Quantity> = looked_at.iter().filter(in_it).cloned().collect();
            let model = Model::with(plant, evidence, &more);
            Shared { state, model, kept: Kept::new(again.len()) }
        };
        Replay {
            plant,
            evidence,
            rates: inference.rates,
            design_fails: inference.design_fails,
            hypotheses: again.iter().map(|place| of(*place).clone()).collect(),
            asked,
            // Where nothing was read or told yet, the first reading says of whom is told: nothing can be shared.
            shared: if evidence.is_empty() { Vec::new() } else { states.into_iter().map(of_state).collect() },
            open_bits: entropy_bits(&shares),
        }
    }

    /// The outcomes as they will be answered, neighbours that leave the same cause in the lead joined, and the bits that they tell.
    pub fn held(&self, quantity: &Quantity, outcomes: Vec<Meaning>) -> (Vec<Meaning>, f64) {
        let ask = |meaning: Meaning| self.answered(quantity, meaning);
        let mut held: Vec<(Meaning, f64)> = outcomes.into_iter().map(ask).collect();
        let mut place = 1;
        while place < held.len() {
            if held[place].0.causes.first() != held[place - 1].0.causes.first() {
                place += 1;
                continue;
            }
            let (above, _) = held.remove(place);
            let below = &held[place - 1].0;
            let probability = below.probability + above.probability;
            // The likelier of the two stands for both.
            let middle = if below.probability > above.probability { below.middle } else { above.middle };
            let joined = Meaning { low: below.low, high: above.high, middle, probability, ..above };
            held[place - 1] = self.answered(quantity, joined);
            place = place.saturating_sub(1).max(1);
        }
        let total: f64 = held.iter().map(|(meaning, _)| meaning.probability).sum();
        let after: f64 = held.iter().map(|(meaning, bits)| meaning.probability * bits).sum();
        let bits = (self.open_bits - after / total.max(1e-300)).max(0.0);
        (held.into_iter().map(|(meaning, _)| meaning).collect(), bits)
    }

    /// An outcome with the causes and shares that the reading which stands for it leaves, and what is open then, in bits.
    fn answered(&self, quantity: &Quantity, outcome: Meaning) -> (Meaning, f64) {
        let mut evidence = self.evidence.clone();
        evidence.measured.push(good_reading(quantity.clone(), outcome.middle));
        let shared = self.shared.iter().find(|one| one.state.as_ref() == quantity.state());
        let place = shared.and_then(|one| {
            let known = one.model.quantities.iter().skip(self.evidence.measured.len());
            let behind = known.enumerate().find(|(_, known)| *known == quantity)?.0;
            Some((one, self.evidence.measured.len() + behind))
        });
        let ranking = match place {
            Some((shared, place)) => {
                let read = (0..self.evidence.measured.len()).chain([place]).collect();
                let inference = Inference::new(&shared.model, self.rates, &evidence, self.design_fails);
                inference.reading(read, &shared.kept).rank(&self.hypotheses)
            }
            None => {
                let model = Model::of(self.plant, &evidence);
                Inference::new(&model, self.rates, &evidence, self.design_fails).rank(&self.hypotheses)
            }
        };
        let shares =
            grouped(ranking.causes.iter().map(|cause| (self.asked[cause.hypothesis], cause.probability)));
        let mut named: Vec<(usize, f64)> =
            shares.iter().map(|(cause, share)| (*cause, *share)).filter(|one| one.1 >= LEAST_NAMED).collect();
        named.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        let (causes, shares_named) = named.into_iter().unzip();
        (Meaning { causes, shares: shares_named, ..outcome }, entropy_bits(&shares))
    }
}

/// Probabilities of what is asked about.
fn grouped(each: impl Iterator<Item = (Option<usize>, f64)>) -> BTreeMap<usize, f64> {
    let mut shares = BTreeMap::new();
    for (asked, probability) in each {
        if let Some(cause) = asked {
            *shares.entry(cause).or_insert(0.0) += probability;
        }
    }
    shares
}

/// What is not known about which of them it is, in bits.
fn entropy_bits(shares: &BTreeMap<usize, f64>) -> f64 {
    let total: f64 = shares.values().sum();
    shares.values().filter(|share| **share > 0.0).map(|share| -(share / total) * (share / total).log2()).sum()
}
