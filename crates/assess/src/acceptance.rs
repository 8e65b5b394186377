//! Findings that the user accepts.

use crate::rule::finding;
use crate::rules::acceptance_without_match;
use latchline_finding::{Acceptance, Finding};
use latchline_site::model::{AcceptanceEntry, Site};
use std::collections::{BTreeMap, BTreeSet};

/// The acceptances of a site by what they accept; of two of the same the later one counts.
struct Accepted<'a> {
    everywhere: BTreeMap<&'a str, usize>,
    at_element: BTreeMap<(&'a str, &'a str), usize>,
}

impl<'a> Accepted<'a> {
    fn new(entries: &'a [AcceptanceEntry]) -> Self {
        let mut accepted = Accepted { everywhere: BTreeMap::new(), at_element: BTreeMap::new() };
        for (index, entry) in entries.iter().enumerate() {
            let code = entry.code.value.as_str();
            match &entry.element {
                None => accepted.everywhere.insert(code, index),
                Some(element) => accepted.at_element.insert((code, element.value.as_str()), index),
            };
        }
        accepted
    }

    /// The last entry that accepts a finding.
    fn of(&self, finding: &Finding) -> Option<usize> {
        let code = finding.code.as_str();
        let element = finding.element.as_ref();
        let at_element = element.and_then(|element| self.at_element.get(&(code, element.as_str())));
        self.everywhere.get(code).max(at_element).copied()
    }
}

/// Marks accepted findings.
pub(crate) fn mark(site: &Site, findings: &mut [Finding]) {
    if site.acceptances.is_empty() {
        return;
    }
    let accepted = Accepted::new(&site.acceptances);
    for finding in findings {
        if let Some(index) = accepted.of(finding) {
            let entry = &site.acceptances[index];
            finding.accepted = Some(Acceptance { reason: entry.reason.clone(), date: entry.date.clone() });
        }
    }
}

/// A finding for each acceptance that matches none of `findings`, which must be all there are.
pub(crate) fn idle<'f>(site: &Site, findings: impl Iterator<Item = &'f Finding>) -> Vec<Finding> {
    if site.acceptances.is_empty() {
        return Vec::new();
    }
    let mut codes: BTreeSet<&str> = BTreeSet::new();
    let mut places: BTreeSet<(&str, &str)> = BTreeSet::new();
    for one in findings {
        codes.insert(one.code.as_str());
        if let Some(element) = &one.element {
            places.insert((one.code.as_str(), element.as_str()));
        }
    }
    let is_idle = |entry: &&AcceptanceEntry| match &entry.element {
        None => !codes.contains(entry.code.value.as_str()),
        Some(element) => !places.contains(&(entry.code.value.as_str(), element.value.as_str())),
    };
    let idle = site.acceptances.iter().filter(is_idle).map(|entry| {
        let doc = &acceptance_without_match::ACCEPTANCE_WITHOUT_MATCH.doc;
        let mut found = finding(doc, entry.origin.clone()).with("code", entry.code.value.as_str());
        if let Some(element) = &entry.element {
            found = found.about(element.value.as_str());
        }
        found
    });
    idle.collect()
}
