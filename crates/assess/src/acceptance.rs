//! Findings that the user accepts.

use crate::rule::finding;
use crate::rules::acceptance_without_match;
use latchline_finding::{Acceptance, Finding};
use latchline_site::model::Site;

/// Marks accepted findings; an acceptance that matches nothing becomes a finding.
pub(crate) fn apply(site: &Site, findings: &mut Vec<Finding>) {
    let mut idle = Vec::new();
    for entry in &site.acceptances {
        let mut used = false;
        for one in findings.iter_mut() {
            let same_element = entry.element.as_ref().is_none_or(|wanted| {
                one.element.as_ref().is_some_and(|element| element.as_str() == wanted.value)
            });
            if one.code.as_str() == entry.code.value && same_element {
                used = true;
                one.accepted = Some(Acceptance { reason: entry.reason.clone(), date: entry.date.clone() });
            }
        }
        if !used {
            let doc = &acceptance_without_match::ACCEPTANCE_WITHOUT_MATCH.doc;
            let mut found = finding(doc, entry.origin.clone()).with("code", entry.code.value.as_str());
            if let Some(element) = &entry.element {
                found = found.about(element.value.as_str());
            }
            idle.push(found);
        }
    }
    findings.extend(idle);
}
