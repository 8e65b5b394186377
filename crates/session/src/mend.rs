//! Mending everything that can be mended.
//!
//! One step after the other: the worst finding for which a single verified remedy is known gets its
//! cheapest one, as an edit of the session. What no single change mends is then tried in pairs
//! of changes. A step brings no error; one that brings any finding takes an error away, any other takes a finding away and brings
//! none. So the number of errors never grows, and where it stays the number of findings falls: the loop ends.
//!
//! Acceptances that match nothing go together, before the others and once more after them: they change nothing else.
//!
//! A later step may do what an earlier one was for. So each is then left out in turn, the last first: what is not needed to have as
//! little left is dropped.

use crate::session::Session;
use crate::view::View;
use latchline_assess::rules::codes;
use latchline_assess::{Assessment, GivenUp};
use latchline_finding::{Code, ElementId, Finding, Remedy, Severity};
use latchline_remedy::{Bench, again, idle_acceptances, pair, propose};
use std::collections::BTreeMap;

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
    /// The steps in order; behind them the acceptances that were removed.
    pub steps: Vec<Step>,
    /// Steps that were found and then left out, since the others leave as little without them.
    pub dropped: Vec<Step>,
}

impl Session {
    /// Mends the findings of at least this severity. Each step can be taken back like any other edit; acceptances that match nothing go, and come
    /// back, together.
    ///
    /// # Errors
    /// None as long as nobody else edits the session, which nobody can: the type is that of its stages.
    pub fn mend(&mut self, at_least: Severity) -> Result<Mended, GivenUp> {
        let idle_before = self.without_idle_acceptances(at_least)?;
        let first = self.view();
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
        let steps = mended.steps.len();
        // The steps are taken back before they are tried without each other: work on a text is given up once there is a newer one.
        let Some(wanted) = self.view().assessment()?.map(left) else {
            mended.steps.extend(idle_before);
            return Ok(mended);
        };
        for _ in 0..steps {
            self.undo();
        }
        let first = if self.view().text() == first.text() { self.view() } else { first };
        drop_needless(&first, &mut mended, &wanted)?;
        for step in &mended.steps {
            // Each was applied in this order a moment ago.
            if self.edit(&step.remedy.edit).is_err() {
                break;
            }
        }
        let idle_after = self.without_idle_acceptances(at_least)?;
        mended.steps.extend(idle_before.into_iter().chain(idle_after));
        Ok(mended)
    }

    /// Removes all acceptances that match nothing by one edit; what was removed.
    fn without_idle_acceptances(&mut self, at_least: Severity) -> Result<Vec<Step>, GivenUp> {
        let view = self.view();
        let Some((idle, together)) = view.bench()?.map(|bench| idle_acceptances(&bench, at_least)) else {
            return Ok(Vec::new());
        };
        if idle.is_empty() || self.edit(&together).is_err() {
            return Ok(Vec::new());
        }
        Ok(idle.into_iter().map(|(finding, remedy)| Step { finding, remedy }).collect())
    }
}

/// What is left to mend: every finding that somebody has to do something about, with the worst severity of its kind. An acceptance that matches
/// nothing is not among them: it goes whatever else is done.
type Left = BTreeMap<(Code, Option<ElementId>), Severity>;

fn left(assessment: &Assessment) -> Left {
    let mut left = Left::new();
    let is_left = |one: &&Finding| one.is_to_be_mended() && one.code != codes::ACCEPTANCE_WITHOUT_MATCH;
    for one in assessment.findings.iter().filter(is_left) {
        let worst = left.entry((one.code, one.element.clone())).or_insert(one.severity);
        *worst = one.severity.max(*worst);
    }
    left
}

/// Whether no more is left than is wanted.
fn is_as_good(left: &Left, wanted: &Left) -> bool {
    left.iter().all(|(key, severity)| wanted.get(key).is_some_and(|wanted| severity <= wanted))
}

/// Leaves out each step in turn, the last first, and drops it if as little is left without it. What stays is told as it is then.
fn drop_needless(first: &View, mended: &mut Mended, wanted: &Left) -> Result<(), GivenUp> {
    // The last step alone took away what it was for.
    for index in (0..mended.steps.len().saturating_sub(1)).rev() {
        let others = mended.steps.iter().enumerate().filter(|(at, _)| *at != index).map(|(_, step)| step);
        let Some(view) = after(first, others) else { continue };
        let is_needless = view.assessment()?.is_some_and(|one| is_as_good(&left(one), wanted));
        if is_needless {
            mended.dropped.insert(0, mended.steps.remove(index));
        }
    }
    if mended.dropped.is_empty() {
        return Ok(());
    }
    let mut view = first.clone();
    for step in &mut mended.steps {
        let Some(bench) = view.bench()? else { break };
        let finding = bench
            .assessment
            .findings
            .iter()
            .find(|one| (one.code, &one.element) == (step.finding.code, &step.finding.element));
        let remedy = finding.and_then(|finding| again(&bench, finding, &step.remedy));
        // Where it no longer mends its finding alone, it is one of those that do together.
        match (finding, remedy) {
            (Some(finding), Some(remedy)) => *step = Step { finding: finding.clone(), remedy },
            _ => step.remedy.value_after = None,
        }
        let Some(next) = view.with_change(&step.remedy.edit) else { break };
        view = next;
    }
    Ok(())
}

/// The site after some steps; `None` if one of them needs another that is not among them.
fn after<'s>(first: &View, steps: impl Iterator<Item = &'s Step>) -> Option<View> {
    let mut view = first.clone();
    for step in steps {
        view = view.with_change(&step.remedy.edit)?;
    }
    Some(view)
}

/// The next step: a single remedy of the worst finding that has one, else a pair; other stations in dwellings only where nothing else helps.
fn next(bench: &Bench<'_>, at_least: Severity) -> Option<Step> {
    let open: Vec<&Finding> = bench
        .assessment
        .findings
        .iter()
        .filter(|finding| finding.accepted.is_none() && finding.severity >= at_least)
        .filter(|finding| finding.code != codes::ACCEPTANCE_WITHOUT_MATCH)
        .collect();
    let step = |finding: &Finding, remedy| Step { finding: finding.clone(), remedy };
    let single = |is_wanted: &dyn Fn(&Remedy) -> bool| {
        open.iter().find_map(|finding| {
            let mut remedies = propose(bench, finding).into_iter().filter(Remedy::changes_the_file);
            Some(step(finding, remedies.find(|one| is_wanted(one))?))
        })
    };
    let pairs = || open.iter().filter_map(|finding| Some(step(finding, pair(bench, finding)?)));
    // What a client has chosen is changed only where nothing else helps.
    let keeps_choice = |remedy: &Remedy| !remedy.edit.changes_stations_of_dwellings();
    single(&keeps_choice)
        .or_else(|| pairs().find(|step| keeps_choice(&step.remedy)))
        .or_else(|| single(&|_| true))
        .or_else(|| pairs().next())
}
