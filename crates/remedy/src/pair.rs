//! What no single change mends, in pairs of changes.

use crate::bench::Bench;
use crate::candidate::Candidate;
use crate::candidates;
use latchline_finding::{Edit, Finding, Remedy};

/// Most candidates of a finding that are combined in pairs.
const MOST_IN_PAIRS: usize = 10;

/// Most pairs that are looked at for so many candidates.
pub(crate) fn most_pairs(candidates: usize) -> usize {
    let single = candidates.min(MOST_IN_PAIRS);
    single * single.saturating_sub(1) / 2
}

/// The cheapest pair of changes that mends a finding.
pub fn pair(bench: &Bench<'_>, finding: &Finding) -> Option<Remedy> {
    let single: Vec<Candidate> = candidates::of(bench, finding).take(MOST_IN_PAIRS).collect();
    let mut pairs = Vec::new();
    for (index, one) in single.iter().enumerate() {
        for other in &single[index + 1..] {
            let edit: Edit = one.edit.clone().then(other.edit.clone());
            let both = Candidate::new("two-changes", edit);
            pairs.push(Candidate { is_priced: one.is_priced && other.is_priced, ..both });
        }
    }
    let kept = bench.cheapest_of_each_kind(&pairs, finding, 1);
    kept.first().map(|mending| bench.remedy(&pairs[mending.index], mending, finding))
}
