//! The site as it is after some of its jobs, and what went with them.

use crate::view::View;
use latchline_assess::Assessment;
use latchline_finding::{Code, Edit, ElementId, Finding, Remedy};
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

/// What names a finding across two assessments.
pub(crate) type Key = (Code, Option<ElementId>);

/// That of a finding.
pub(crate) fn key(finding: &Finding) -> Key {
    (finding.code, finding.element.clone())
}

/// What was worked out on texts of the site with jobs done, so that it is not worked out again where the jobs are tried from the beginning.
#[derive(Default)]
pub(crate) struct Remembered {
    /// The site by its text.
    views: BTreeMap<String, View>,
    /// The change that was chosen for findings, by the text of the site.
    pub chosen: BTreeMap<(String, Vec<Key>), Option<Remedy>>,
}

/// The site as it is after the jobs so far.
pub(crate) struct After<'a> {
    /// The assessment that the jobs are of.
    pub first: &'a Assessment,
    pub now: View,
    /// The site as it was before each of the jobs so far.
    pub before: Vec<View>,
    pub remembered: &'a RefCell<Remembered>,
    /// By which job a finding went.
    pub went: BTreeMap<Key, usize>,
    /// The last job that was done, and what stood before it.
    pub last: Option<(usize, BTreeSet<Key>)>,
    /// Changes that may yet be looked at for jobs that come after others.
    pub most_after: usize,
}

impl After<'_> {
    /// The site with one more change; `None` if it does not fit or the site is of no use with it.
    pub fn with_change(&self, change: &Edit) -> Option<View> {
        self.with_change_on(&self.now, change)
    }

    /// The same of another site.
    pub fn with_change_on(&self, view: &View, change: &Edit) -> Option<View> {
        let next = view.with_change(change)?;
        let mut remembered = self.remembered.borrow_mut();
        Some(remembered.views.entry(next.text().to_string()).or_insert(next).clone())
    }
}

/// Writes down what went with the last job that was done; what has become less than a warning is gone as well.
pub(crate) fn settle(
    last: &mut Option<(usize, BTreeSet<Key>)>,
    went: &mut BTreeMap<Key, usize>,
    standing: &BTreeSet<Key>,
) {
    if let Some((job, before)) = last.take() {
        for key in before.difference(standing) {
            went.entry(key.clone()).or_insert(job);
        }
    }
}

/// Findings that stand.
pub(crate) fn standing(assessment: &Assessment) -> impl Iterator<Item = &Finding> {
    assessment.findings.iter().filter(|finding| finding.is_to_be_mended())
}

/// The finding as it is now, or where it is gone the first of those that are wanted gone.
pub(crate) fn now_standing<'a>(now: &'a Assessment, head: &Key, wanted: &[Key]) -> Option<&'a Finding> {
    let of = |wanted: &Key| standing(now).find(|finding| key(finding) == *wanted);
    of(head).or_else(|| wanted.iter().find_map(of))
}
