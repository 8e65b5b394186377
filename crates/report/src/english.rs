//! The wording of findings, remedies and verdicts, in one place.
//!
//! Every code has its own [`Words`]; a code without them (from a newer rule) falls back to its
//! title with its figures, so that nothing is ever lost.

mod doors;
mod physics;
mod reading;
mod rules;

use crate::report::Report;
use crate::{figures, state_words, template};
use latchline_assess::rules::codes;
use latchline_assess::{NotJudged, Verdict};
use latchline_finding::{Change, CodeDoc, Edit, EditStep, Figure, Finding, Language, Remedy, Severity, Unit};

/// The templates of one code (see `template.rs` for their language).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Words {
    /// The code.
    pub code: &'static str,
    /// What is wrong, in one sentence without full stop.
    pub message: &'static str,
    /// What stands beside the caret; may be empty.
    pub label: &'static str,
    /// What to do; may be empty.
    pub hint: &'static str,
}

/// A finding in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wording {
    /// What is wrong, in one sentence without full stop.
    pub message: String,
    /// What stands beside the caret.
    pub label: Option<String>,
    /// What to do.
    pub hint: Option<String>,
}

/// All wordings.
pub fn all() -> impl Iterator<Item = &'static Words> {
    reading::WORDS.iter().chain(rules::WORDS).chain(physics::WORDS).chain(doors::WORDS)
}

/// The template of the message of a code, for other languages to stand beside.
pub fn message_template(code: &str) -> Option<&'static str> {
    all().find(|words| words.code == code).map(|words| words.message)
}

/// The wording of a finding; `doc` is the manual page of its code, for the fallback.
pub fn wording(finding: &Finding, doc: Option<&CodeDoc>) -> Wording {
    let words = all().find(|words| words.code == finding.code.as_str());
    let part =
        |template: &str| template::fill(template, finding, Language::English).filter(|text| !text.is_empty());
    Wording {
        message: words.and_then(|words| part(words.message)).unwrap_or_else(|| fallback(finding, doc)),
        label: words.and_then(|words| part(words.label)),
        hint: words.and_then(|words| part(words.hint)),
    }
}

/// Title of the code, the element, the figures and the state.
fn fallback(finding: &Finding, doc: Option<&CodeDoc>) -> String {
    let title = doc.map_or_else(|| finding.code.as_str().replace('-', " "), |doc| doc.title.to_string());
    let template = if finding.limit.is_some() {
        "<{element}: >TITLE<: {value}, limit {limit}><, {state}>"
    } else {
        "<{element}: >TITLE<: {value}><, {state}>"
    };
    template::fill(template, finding, Language::English).unwrap_or_default().replacen("TITLE", &title, 1)
}

/// A verified remedy in words: what to change, what it brings and costs.
pub fn remedy(remedy: &Remedy) -> String {
    let mut text = remedy.kind.replace('-', " ");
    let changes = edit(&remedy.edit);
    if !changes.is_empty() {
        text = format!("{text}: {}", changes.join("; "));
    }
    if let Some(value) = remedy.value_after {
        text = format!("{text}; brings it to {}", figures::sentence(value));
    }
    if remedy.kind == "doubled-pair" {
        text.push_str("; halves the pair's impedance and doubles its capacitance");
    }
    if remedy.cost.is_none() {
        text.push_str("; what is fitted is in no price list");
    }
    if let Some(cost) = remedy.cost.filter(|cost| cost.is_finite()) {
        text = if cost.abs() < 0.005 {
            format!("{text}; at no cost of material")
        } else if cost < 0.0 {
            format!("{text}; saves {} of material", figures::trimmed(-cost, 2))
        } else {
            format!("{text}; costs {} more of material", figures::trimmed(cost, 2))
        };
    }
    text
}

/// The changes of an edit, as the user would write them.
pub fn edit(edit: &Edit) -> Vec<String> {
    edit.changes
        .iter()
        .filter_map(|(path, change)| {
            let place = path_words(path);
            Some(template::plain(&match change {
                Change::Set(value) => format!("{place} = {value}"),
                Change::Remove => format!("remove {place}"),
                Change::Insert(_, value) => format!("add {value} to {place}"),
                Change::AppendTable(body) => format!("add [[{place}]] {body}"),
                Change::Rename(name) => format!("rename {place} to {name}"),
                Change::Lines { line, .. } => format!("change lines from {}", line + 1),
                Change::Expect(_) => return None,
            }))
        })
        .collect()
}

/// A path into a site file in its own notation: `runs.W3.lengths[2]`.
pub fn path_words(path: &[EditStep]) -> String {
    let mut words = String::new();
    for step in path {
        match step {
            EditStep::Key(key) => {
                if !words.is_empty() {
                    words.push('.');
                }
                let bare = |sign: char| sign.is_ascii_alphanumeric() || sign == '-' || sign == '_';
                if !key.is_empty() && key.chars().all(bare) {
                    words.push_str(key);
                } else {
                    words.push_str(&format!("{key:?}"));
                }
            }
            EditStep::Index(index) => words.push_str(&format!("[{index}]")),
        }
    }
    words
}

/// "rests on assumed values: ...".
pub fn rests_on(values: &[String]) -> String {
    let values: Vec<String> = values.iter().map(|value| template::plain(value)).collect();
    format!("rests on assumed values: {}", values.join(", "))
}

/// What a related place is to its finding.
pub fn role(role: &str) -> String {
    role.replace('-', " ")
}

/// What could not be judged and how to get it, without the code.
pub fn not_judged(missing: &NotJudged) -> String {
    let elements: Vec<String> =
        missing.elements.iter().map(|element| template::plain(element.as_str())).collect();
    let whom = if elements.is_empty() { String::new() } else { format!(" (for {})", elements.join(", ")) };
    let how = match missing.code {
        codes::LINE_CONSTANTS_MISSING => {
            ": constants or losses of its data sheet, or measure the capacitance with the far end open and divide it by the length"
        }
        _ => "",
    };
    format!("needs {}{whom}{how}", template::plain(&missing.missing))
}

/// The verdict in one or two lines; the second, if any, names the tightest place.
pub fn verdict(report: &Report<'_>) -> (String, Option<String>) {
    let counts = report.counts();
    let counted = [
        (counts.errors, "error", "errors"),
        (counts.warnings, "warning", "warnings"),
        (counts.advice, "piece of advice", "pieces of advice"),
        (counts.accepted, "accepted", "accepted"),
    ];
    let counted: Vec<String> = counted
        .iter()
        .filter(|(count, ..)| *count > 0)
        .map(|(count, one, many)| format!("{count} {}", if *count == 1 { one } else { many }))
        .collect();
    let tail = if counted.is_empty() { String::new() } else { format!(" ({})", counted.join(", ")) };
    let Some(assessment) = report.assessment else {
        return (format!("cannot be used, nothing was judged{tail}"), None);
    };
    let first = match &assessment.verdict {
        _ if report.counts().errors > 0 => format!("fails{tail}"),
        Verdict::Fails => format!("fails{tail}"),
        Verdict::FailsAsAccepted => {
            let count = accepted_errors(report);
            let errors = if count == 1 { "error" } else { "errors" };
            format!("fails, with {count} accepted {errors} and no other{tail}")
        }
        Verdict::Holds => format!("holds in every state that was solved{tail}"),
        Verdict::HoldsOnAssumedData => {
            let values = assessment.assumed.len();
            let word = if values == 1 { "value" } else { "values" };
            format!("holds in every state that was solved, on {values} assumed {word}{tail}")
        }
        Verdict::NotJudged => {
            let missing = assessment.not_judged.len();
            let word = if missing == 1 { "thing" } else { "things" };
            format!("nothing failed, but {missing} {word} could not be judged{tail}")
        }
    };
    (first, tightest(report))
}

/// Errors that the user has accepted: they are still what they are.
fn accepted_errors(report: &Report<'_>) -> usize {
    let findings = report.assessment.iter().flat_map(|assessment| &assessment.findings);
    findings.filter(|finding| finding.severity == Severity::Error && finding.accepted.is_some()).count()
}

/// The device with the least margin, in words.
fn tightest(report: &Report<'_>) -> Option<String> {
    let assessment = report.assessment?;
    let device = &assessment.devices[assessment.tightest_device()?];
    let id = template::plain(device.id.as_str());
    let source = template::plain(device.source.as_str());
    let state = state_words::in_words(&device.worst.state);
    let limit = figures::sentence(Figure::new(device.worst.limit_v, Unit::Volt));
    let Some(voltage) = device.worst.adverse_v.filter(|voltage| voltage.is_finite()) else {
        return Some(format!("worst: {id} on {source} has no operating point {state}; its limit is {limit}"));
    };
    let margin = device.worst.margin_v();
    let at_least = if device.worst.is_bound { "at least " } else { "" };
    let voltage = figures::rounded_down(voltage, 2);
    Some(if margin < 0.0 {
        let short = figures::rounded_up(-margin, 2);
        format!(
            "worst: {id} on {source} has {at_least}{voltage} V, {short} V below its limit of {limit}, {state}"
        )
    } else {
        let spare = figures::rounded_down(margin, 2);
        format!(
            "tightest: {id} on {source} has {at_least}{voltage} V, {spare} V above its limit of {limit}, {state}"
        )
    })
}

/// With a capital first letter.
pub fn capital(text: &str) -> String {
    let mut signs = text.chars();
    signs.next().into_iter().flat_map(char::to_uppercase).chain(signs).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_finding::{Code, Origin, Severity};

    #[test]
    fn a_code_without_words_falls_back_to_its_title_and_figures() {
        let finding = Finding::new(Code("brand-new-code"), Severity::Error, Origin::None)
            .about("A-1")
            .figures(35.0, 36.0, Unit::Volt);
        assert_eq!(wording(&finding, None).message, "A-1: brand new code: 35 V, limit 36 V");
    }

    #[test]
    fn what_is_missing_is_named_with_how_to_get_it() {
        let missing = NotJudged {
            code: codes::LINE_CONSTANTS_MISSING,
            elements: vec!["A-R5".into()],
            missing: String::from("clad-0.5 line"),
        };
        assert_eq!(
            not_judged(&missing),
            "needs clad-0.5 line (for A-R5): constants or losses of its data sheet, or measure the capacitance with the \
             far end open and divide it by the length"
        );
    }

    #[test]
    fn remedies_are_written_as_the_user_would_write_them() {
        let remedy = Remedy {
            kind: "thicker-conductor",
            edit: Edit::set(&["runs", "W 3", "cable"], "\"flex-1.0\""),
            value_after: Some(Figure::new(41.2, Unit::Volt)),
            cost: Some(12.5),
        };
        assert_eq!(
            super::remedy(&remedy),
            "thicker conductor: runs.\"W 3\".cable = \"flex-1.0\"; brings it to 41.2 V; costs 12.5 more of material"
        );
    }
}
