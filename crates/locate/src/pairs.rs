//! Two causes at once, where no single one explains what was read.
//!
//! A conditional search: each of the best single causes is put into the network at its most probable size, and all others are ranked
//! besides it. Sizes of the first are not integrated again, so shares are among the pairs that were tried and no probabilities.

use crate::evidence::Evidence;
use crate::hypothesis::Hypothesis;
use crate::inference::Inference;
use crate::posterior::Ranking;
use crate::size::Size;

/// Single causes that are tried as the first.
const MOST_FIRST: usize = 10;
/// Pairs that are kept.
const MOST_PAIRS: usize = 3;

/// Two causes.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair {
    /// Hypotheses, each with its size.
    pub causes: [(usize, Option<Size>); 2],
    /// Its share among the pairs that were tried.
    pub share: f64,
    /// Squared whitened distance of the readings.
    pub squared: f64,
}

/// The best pairs; empty where none explains the readings better than the best single cause.
pub(crate) fn pairs(
    inference: &mut Inference<'_, '_, '_>,
    hypotheses: &[Hypothesis],
    single: &Ranking,
) -> Vec<Pair> {
    let plant = inference.model.plant;
    let Some(best) = single.causes.first() else { return Vec::new() };
    let mut found: Vec<(f64, Pair)> = Vec::new();
    let firsts = single.causes.iter().filter(|cause| hypotheses[cause.hypothesis].is_electrical(plant));
    for first in firsts.take(MOST_FIRST) {
        let hypothesis = &hypotheses[first.hypothesis];
        inference.base = hypothesis.effects(plant, first.size.map_or(0.0, |size| size.best));
        let ranking = inference.rank(hypotheses);
        let second = ranking.causes.iter().find(|cause| {
            cause.hypothesis != first.hypothesis && hypotheses[cause.hypothesis].is_electrical(plant)
        });
        let Some(second) = second else { continue };
        let log = hypothesis.prior.ln() + ranking.log_evidence + second.probability.ln();
        let causes = [(first.hypothesis, first.size), (second.hypothesis, second.size)];
        let is_known =
            found.iter().any(|(_, pair)| pair.causes[0].0 == causes[1].0 && pair.causes[1].0 == causes[0].0);
        if !is_known && second.squared < 0.5 * best.squared {
            found.push((log, Pair { causes, share: 0.0, squared: second.squared }));
        }
    }
    inference.base.clear();
    found.sort_by(|a, b| b.0.total_cmp(&a.0));
    let highest = found.first().map_or(0.0, |(log, _)| *log);
    let total: f64 = found.iter().map(|(log, _)| (log - highest).exp()).sum();
    found
        .into_iter()
        .take(MOST_PAIRS)
        .map(|(log, pair)| Pair { share: (log - highest).exp() / total, ..pair })
        .collect()
}

/// Whether a pair is worth looking for: one reading is always explained by one cause.
pub(crate) fn are_worth_trying(evidence: &Evidence, nothing_fits: bool) -> bool {
    nothing_fits && evidence.measured.len() >= 2
}
