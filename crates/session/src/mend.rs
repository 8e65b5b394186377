//! Mending everything that can be mended.
//!
//! One step after the other: the worst finding for which a single verified remedy is known gets its
//! cheapest one, as an edit of the session. What no single change mends is then tried in pairs
//! of changes. A step brings no error; one that brings any finding takes an error away, any other takes a finding away and brings
//! none. So the number of errors never grows, and where it stays the number of findings falls: the loop ends.

use crate::session::Session;
use latchline_assess::GivenUp;
use latchline_finding::{Finding, Remedy, Severity};
use latchline_remedy::{Bench, pair, propose};

/// One remedy that was applied.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// The finding that it mended, as it stood.
    pub finding: Finding,
    /// What was done.
    pub remedy: Remedy,
}

/// What came of mending; the session's view shows what is left.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Mended {
    /// The steps in order.
    pub steps: Vec<Step>,
}

impl Session {
    /// Mends the findings of at least this severity. Each step can be taken back like any other edit.
    ///
    /// # Errors
    /// None as long as nobody else edits the session, which nobody can: the type is that of its stages.
    pub fn mend(&mut self, at_least: Severity) -> Result<Mended, GivenUp> {
        let mut mended = Mended::default();
        loop {
            let view = self.view();
            let Some(step) = view.bench()?.and_then(|bench| next(&bench, at_least)) else { break };
            if self.edit(&step.remedy.edit).is_err() || self.view().site().is_none() {
                // It was applied and resolved before it was offered, so this is not expected; nothing is kept of it.
                if self.view().revision() != view.revision() {
                    self.undo();
                }
                break;
            }
            mended.steps.push(step);
        }
        Ok(mended)
    }
}

/// The next step: a single remedy of the worst finding that has one, else a pair.
fn next(bench: &Bench<'_>, at_least: Severity) -> Option<Step> {
    let open: Vec<&Finding> = bench
        .assessment
        .findings
        .iter()
        .filter(|finding| finding.accepted.is_none() && finding.severity >= at_least)
        .collect();
    let step = |finding: &Finding, remedy| Step { finding: finding.clone(), remedy };
    let single = open.iter().find_map(|finding| {
        Some(step(finding, propose(bench, finding).into_iter().find(Remedy::changes_the_file)?))
    });
    single.or_else(|| open.iter().find_map(|finding| Some(step(finding, pair(bench, finding)?))))
}
