//! What the verdict leaves open: what was not judged, assumed or accepted.

use super::alike::Names;
use crate::paint::Look;
use crate::report::Report;
use crate::table::paragraph;
use crate::{figures, template, wording};
use latchline_assess::Assessment;
use latchline_finding::{Language, OperatingState, Severity};
use latchline_words::report::{Head, JobWords, Remark, severity};
use latchline_words::{codes, states};

/// Kinds of what was not judged that are named at the head of the page.
const MOST_NAMED_AT_HEAD: usize = 3;

/// What was not judged, in a line, for the head of the page; what to enter stands in the block of its own.
pub(super) fn left_open(assessment: &Assessment, look: &Look) -> String {
    let mut kinds: Vec<(&str, Vec<String>)> = Vec::new();
    for missing in &assessment.not_judged {
        let title = codes::of(missing.code.as_str()).map_or("", |words| words.title(look.language));
        let what = template::plain(&missing.missing.say(look.language));
        match kinds.iter_mut().find(|(known, _)| *known == title) {
            Some((_, all)) => all.push(what),
            None => kinds.push((title, vec![what])),
        }
    }
    if kinds.is_empty() {
        return String::new();
    }
    let more = kinds.len().saturating_sub(MOST_NAMED_AT_HEAD);
    let named: Vec<String> = kinds
        .iter()
        .take(MOST_NAMED_AT_HEAD)
        .map(|(title, what)| match what.as_slice() {
            [only] => format!("{title} ({only})"),
            [first, others @ ..] => format!("{title} ({first}, +{})", others.len()),
            [] => String::from(*title),
        })
        .collect();
    let line = Remark::LeftOpen { what: &named.join("; "), more: (more > 0).then_some(more) };
    paragraph(&line.say(look.language), 0, look.width)
}

/// What could not be judged; where there is `little_room`, what is missing alike at several is said once.
pub(super) fn not_judged(assessment: &Assessment, little_room: bool, look: &Look) -> String {
    let language = look.language;
    let mut text = String::new();
    let names = Names::of(assessment);
    let mut told: Vec<(String, String, Vec<String>)> = Vec::new();
    for missing in &assessment.not_judged {
        let title = codes::of(missing.code.as_str()).map(|words| words.title(language));
        let title = title.map_or_else(String::new, |title| format!(" ({title})"));
        let line = format!("{}{title}: {}", missing.code, wording::not_judged(missing, language));
        let bare = names.without(&line);
        let elements = missing.elements.iter().map(|element| template::plain(element.as_str()));
        match told.iter_mut().find(|(known, _, _)| little_room && *known == bare) {
            Some((_, _, others)) => others.extend(elements),
            None => told.push((bare, line, Vec::new())),
        }
    }
    for (_, line, others) in told {
        let line = match others.is_empty() {
            true => line,
            false => JobWords::AndOthers { message: &line, names: &others.join(", ") }.say(language),
        };
        text.push_str(&paragraph(&line, 2, look.width));
    }
    for state in assessment.states.iter().filter(|state| !state.exact) {
        let name = match language {
            Language::English => String::from(state.kind.name()),
            Language::German => states::name(&OperatingState::from(state.kind), language),
        };
        let sets = &figures::fixed(state.call_sets, 0);
        let line = Remark::SearchBounded { state: &name, sets }.say(language);
        text.push_str(&paragraph(&line, 2, look.width));
    }
    let left = assessment.remedies_not_sought;
    if left > 0 {
        let remark = match left {
            1 => Remark::RemediesNotSoughtToOne,
            count => Remark::RemediesNotSought { count },
        };
        text.push_str(&paragraph(&remark.say(language), 2, look.width));
    }
    if text.is_empty() {
        return text;
    }
    let how = Remark::HowToGetIt.say(language);
    let can_be_stated = assessment.not_judged.iter().any(|one| one.missing.can_be_stated());
    let how = if !can_be_stated { String::new() } else { paragraph(&how, 2, look.width) };
    format!("{}\n{text}{how}", look.severity(Severity::Warning, Head::NotJudged.say(language)))
}

pub(super) fn assumed(assessment: &Assessment, look: &Look) -> String {
    if assessment.assumed.is_empty() {
        return String::new();
    }
    let values: Vec<String> = assessment.assumed.iter().map(|value| template::plain(value)).collect();
    let line = Remark::AssumedValues { values: &values.join(", ") }.say(look.language);
    format!("{}\n{}", look.bold(Head::AssumedValues.say(look.language)), paragraph(&line, 2, look.width))
}

pub(super) fn accepted(report: &Report<'_>, look: &Look) -> String {
    if report.accepted.is_empty() {
        return String::new();
    }
    let mut text = format!("{}\n", look.bold(Head::Accepted.say(look.language)));
    for finding in &report.accepted {
        let wording = codes::wording(finding, look.language);
        let reason = finding.accepted.as_ref().map_or_else(String::new, |acceptance| {
            format!("{}, {}", template::plain(&acceptance.date), template::plain(&acceptance.reason))
        });
        let severity = severity(finding.severity, look.language);
        let line = format!("{severity} {}: {} ({reason})", finding.code, wording.message);
        text.push_str(&paragraph(&line, 2, look.width));
    }
    text
}
