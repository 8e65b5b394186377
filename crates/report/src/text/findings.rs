//! Findings with the lines that they point at.

use crate::paint::Look;
use crate::report::Report;
use crate::table::paragraph;
use crate::{caret, wording};
use latchline_assess::jobs::excess;
use latchline_finding::Finding;
use latchline_words::codes;
use latchline_words::report::{Remark, severity};
use std::fmt::Write;

/// Findings of the rules: the worst of a code in full, the others a line each.
pub(super) fn findings(report: &Report<'_>, look: &Look) -> Vec<String> {
    let mut blocks: Vec<String> = Vec::new();
    let mut rest = &report.judged[..];
    while let Some(first) = rest.first() {
        let same =
            rest.iter().take_while(|other| (other.severity, other.code) == (first.severity, first.code));
        let (group, others) = rest.split_at(same.count());
        rest = others;
        blocks.push(finding_group(report, group, look));
    }
    blocks
}

pub(super) fn in_full(report: &Report<'_>, finding: &Finding, look: &Look) -> String {
    let wording = codes::wording(finding, look.language);
    caret::in_full(&report.places, finding, &wording, report.currency(), look) + "\n"
}

/// A finding as one sentence behind its severity and code, without lines of files.
pub(super) fn in_a_line(finding: &Finding, look: &Look) -> String {
    let severity = severity(finding.severity, look.language);
    let message = codes::wording(finding, look.language).message;
    paragraph(&format!("{severity} {}: {message}", finding.code.as_str()), 0, look.width)
}

fn finding_group(report: &Report<'_>, group: &[&Finding], look: &Look) -> String {
    let Some(worst) =
        (0..group.len()).max_by(|a, b| excess(group[*a]).total_cmp(&excess(group[*b])).then(b.cmp(a)))
    else {
        return String::new();
    };
    let mut text = in_full(report, group[worst], look);
    if group.len() > 1 {
        let more = Remark::MoreOf { count: group.len() - 1, code: group[worst].code.as_str() };
        let _ = writeln!(text, "  {}", more.say(look.language));
    }
    for (_, other) in group.iter().enumerate().filter(|(index, _)| *index != worst) {
        let mut line = codes::wording(other, look.language).message;
        if let Some(place) = report.places.short(&other.origin, look.language) {
            line = format!("{line} ({place})");
        }
        if let Some(remedy) = other.remedies.first() {
            let remedy = &wording::remedy(remedy, report.currency(), look.language);
            line = Remark::RemedyBehind { message: &line, remedy }.say(look.language);
        }
        text.push_str(&paragraph(&line, 4, look.width));
    }
    text
}
