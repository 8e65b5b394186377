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

pub use bench::{Bench, Prepared, Trial};
pub use candidate::Candidate;
pub use mend::{Mended, Step, mend, pair};

use latchline_finding::{Finding, Remedy, Severity};

/// Most remedies kept for one finding.
pub const MOST_REMEDIES: usize = 4;

/// The remedies of one finding, cheapest first, then least labour. Empty if no single change of the
/// kinds that are known mends it.
pub fn propose(bench: &Bench<'_>, finding: &Finding) -> Vec<Remedy> {
    let candidates = candidates::of(bench, finding);
    let mut kept = bench.cheapest_of_each_kind(&candidates, finding);
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
