//! What the documents of doors and of supplies say alike.

use crate::json::{NotJudgedDocument, not_judged};
use crate::json_findings::{FindingDocument, finding_document};
use crate::report::Report;
use latchline_assess::Missing;
use latchline_finding::{ElementId, Language};
use latchline_site::model::RelayContact;
use latchline_words::report::SheetWords;

/// What every reader must be told.
pub(super) fn caution() -> &'static str {
    SheetWords::Caution.row()[0]
}

pub(super) fn findings(
    report: &Report<'_>,
    element: &ElementId,
) -> (Vec<FindingDocument>, Vec<NotJudgedDocument>) {
    let about = report.standing.iter().filter(|finding| finding.element.as_ref() == Some(element));
    let gaps = report.assessment.map_or(&[][..], |assessment| &assessment.not_judged);
    (
        about.map(|finding| finding_document(report, finding)).collect(),
        gaps.iter().filter(|gap| gap.elements.contains(element)).map(not_judged).collect(),
    )
}

/// What is missing, in the words of the JSON form.
pub(super) fn english(missing: &[Missing]) -> Vec<String> {
    missing.iter().map(|one| one.say(Language::English)).collect()
}

pub(super) fn contact(contact: RelayContact) -> &'static str {
    match contact {
        RelayContact::NormallyOpen => "normally-open",
        RelayContact::NormallyClosed => "normally-closed",
    }
}
