//! Changes to a site file that mend findings.
//!
//! A remedy is never guessed: every candidate is an [`Edit`](latchline_finding::Edit) that is applied
//! to a copy of the text, resolved and assessed as a whole. It is kept only if its finding is gone
//! and no finding has come that was not there before (by code and element). What remains
//! is priced by the difference of the two bills and ranked.
//!
//! * [`Bench`]: one site with its assessment, on which candidates are tried;
//! * [`propose`]: the remedies of one finding;
//! * [`mend`]: everything that can be mended, one remedy after the other, singly and then in pairs.

mod bench;
mod candidate;
mod candidates;
mod mend;

pub use bench::{Bench, Trial};
pub use candidate::Candidate;
pub use mend::{Mended, Step, mend, pair};

use latchline_finding::{Finding, Remedy, Severity};

/// Most remedies kept for one finding.
pub const MOST_REMEDIES: usize = 4;

/// The remedies of one finding, cheapest first, then least labour. Empty if no single change of the
/// kinds that are known mends it.
pub fn propose(bench: &Bench<'_>, finding: &Finding) -> Vec<Remedy> {
    let candidates = candidates::of(bench, finding);
    let mut kept = bench.try_all(&candidates, |trial| bench.mends(trial, finding));
    kept.sort_by(|(a, first), (b, second)| {
        let key = |trial: &Trial| (trial.cost, trial.minutes);
        let (a_key, b_key) = (key(first), key(second));
        a_key.0.total_cmp(&b_key.0).then(a_key.1.total_cmp(&b_key.1)).then(a.cmp(b))
    });
    // One of a kind: the cheapest thicker conductor, not four of them.
    let mut kinds: Vec<&str> = Vec::new();
    kept.retain(|(index, _)| {
        let kind = candidates[*index].kind;
        let is_new = !kinds.contains(&kind);
        kinds.push(kind);
        is_new
    });
    kept.truncate(MOST_REMEDIES);
    kept.into_iter().map(|(index, trial)| bench.remedy(&candidates[index], &trial, finding)).collect()
}

/// The findings of the bench's assessment, each with its remedies. Accepted ones and advice keep none:
/// they need none.
pub fn with_remedies(bench: &Bench<'_>) -> Vec<Finding> {
    let mut findings = bench.assessment.findings.clone();
    for finding in &mut findings {
        if finding.accepted.is_none() && finding.severity > Severity::Advice {
            finding.remedies = propose(bench, finding);
        }
    }
    findings
}
