//! How a site stands: said in one place, from what was found while reading and by the rules.

use crate::assessment::Verdict;
use crate::not_judged::NotJudged;
use crate::stage::Stage;
use latchline_finding::{Finding, Severity};

/// What is known of a verdict.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum VerdictSoFar {
    /// Every stage is in.
    Known(Verdict),
    /// An error stands, so it fails whatever comes; these stages are not in.
    FailsAlready(Vec<Stage>),
    /// These stages are not in, so nothing can be said: what was found so far may be all or not.
    Pending(Vec<Stage>),
}

impl VerdictSoFar {
    /// The stages that are not in.
    pub fn pending(&self) -> &[Stage] {
        match self {
            VerdictSoFar::Known(_) => &[],
            VerdictSoFar::FailsAlready(stages) | VerdictSoFar::Pending(stages) => stages,
        }
    }
}

/// The one place that says how a site stands, from what was found while reading and by the rules.
pub(crate) fn verdict<'f>(
    findings: impl Iterator<Item = &'f Finding>,
    not_judged: &[NotJudged],
    all_known: bool,
) -> Verdict {
    let mut errors = findings.filter(|finding| finding.severity == Severity::Error).peekable();
    if errors.peek().is_some() {
        let all_accepted = errors.all(|finding| finding.accepted.is_some());
        return if all_accepted { Verdict::FailsAsAccepted } else { Verdict::Fails };
    }
    match (not_judged.is_empty(), all_known) {
        (false, _) => Verdict::NotJudged,
        (true, false) => Verdict::HoldsOnAssumedData,
        (true, true) => Verdict::Holds,
    }
}

/// Worst first, then in the order of rules and of the site, which is the order they come in.
pub(crate) fn sort(findings: &mut [Finding]) {
    findings.sort_by_key(|finding| (finding.accepted.is_some(), std::cmp::Reverse(finding.severity)));
}
