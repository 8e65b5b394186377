//! One line per finding, for editors and `grep`, then the verdict.

use crate::{Report, wording};
use latchline_finding::{Language, shown};
use latchline_words::codes;
use latchline_words::report::{Mark, severity};
use std::fmt::Write;

/// The report as lines `place: severity[code]: message`, accepted findings marked as such, and a
/// last line with the verdict.
pub fn render(report: &Report<'_>, language: Language) -> String {
    let mut text = findings(report, language);
    let name = shown::whole(report.name, &[]);
    for missing in report.assessment.iter().flat_map(|assessment| &assessment.not_judged) {
        let mark = Mark::NotJudged.say(language);
        let needs = wording::not_judged(missing, language);
        let _ = writeln!(text, "{name}: {mark}[{}]: {needs}", missing.code);
    }
    let _ = writeln!(text, "{name}: {}", wording::verdict(report, language).0);
    text
}

/// The lines of the findings alone.
pub fn findings(report: &Report<'_>, language: Language) -> String {
    let mut text = String::new();
    for finding in report.standing.iter().chain(&report.accepted) {
        let wording = codes::wording(finding, language);
        let place = report
            .places
            .short(&finding.origin, language)
            .unwrap_or_else(|| shown::whole(report.name, &[]).into_owned());
        let accepted = Mark::Accepted.say(language);
        let accepted = if finding.accepted.is_some() { format!("{accepted} ") } else { String::new() };
        let severity = severity(finding.severity, language);
        let _ = writeln!(text, "{place}: {accepted}{severity}[{}]: {}", finding.code, wording.message);
    }
    text
}
