//! One line per finding, for editors and `grep`, then the verdict.

use crate::{Report, english};
use latchline_finding::shown;
use std::fmt::Write;

/// The report as lines `place: severity[code]: message`, accepted findings marked as such, and a
/// last line with the verdict.
pub fn render(report: &Report<'_>) -> String {
    let mut text = findings(report);
    let name = shown::whole(report.name, &[]);
    for missing in report.assessment.iter().flat_map(|assessment| &assessment.not_judged) {
        let _ = writeln!(text, "{name}: not judged[{}]: {}", missing.code, english::not_judged(missing));
    }
    let _ = writeln!(text, "{name}: {}", english::verdict(report).0);
    text
}

/// The lines of the findings alone.
pub fn findings(report: &Report<'_>) -> String {
    let mut text = String::new();
    for finding in report.standing.iter().chain(&report.accepted) {
        let wording = english::wording(finding, report.code_doc(finding.code.as_str()));
        let place = report
            .places
            .short(&finding.origin)
            .unwrap_or_else(|| shown::whole(report.name, &[]).into_owned());
        let accepted = if finding.accepted.is_some() { "accepted " } else { "" };
        let severity = finding.severity.word();
        let _ = writeln!(text, "{place}: {accepted}{severity}[{}]: {}", finding.code, wording.message);
    }
    text
}
