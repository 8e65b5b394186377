//! Remedies, verdicts and gaps in words; the words themselves are rows of `latchline_words::report`.

use crate::report::Report;
use latchline_assess::{NotJudged, Verdict, rules};
use latchline_finding::{
    Brought, Change, Edit, EditStep, ElementId, Figure, Language, MainsLost, Money, Remedy, Severity, Unit,
    WithoutMains,
};
use latchline_words::report::{
    Counted, Remark, RemedyWords, Tightest, UnlessWord, VerdictWords, remedy_kind, severity,
};
use latchline_words::{figures, states, template};
use std::cmp::Ordering;

/// A verified remedy in words: what to change, what it brings and costs. `currency` is that of the prices, if they have one.
pub fn remedy(remedy: &Remedy, currency: Option<&str>, language: Language) -> String {
    if let ("staggered-start", Some(stagger)) = (remedy.kind, remedy.value_after) {
        let stagger = &figures::rounded(stagger, language);
        return RemedyWords::StaggeredStart { stagger }.say(language);
    }
    if let Some(measure) = &remedy.measure {
        let ohm = |ohm: f64| figures::sentence(Figure::new(ohm, Unit::Ohm), language);
        let name = |element: &ElementId| template::plain(element.as_str());
        let words = RemedyWords::LoopMeasured {
            run: &name(&measure.run),
            at: &name(&measure.at),
            joined_at: &name(&measure.joined_at),
            expected: &ohm(measure.expected_ohm),
            most: &ohm(measure.most_ohm),
        };
        let told = then_told(remedy, language).map_or(String::new(), |told| format!("; {told}"));
        return words.say(language) + &told;
    }
    let mut text = remedy_kind(remedy.kind, language);
    let changes = edit(&remedy.edit, language);
    if !changes.is_empty() {
        text = format!("{text}: {}", changes.join("; "));
    }
    let mut add = |words: RemedyWords<'_>| {
        text.push_str("; ");
        text.push_str(&words.say(language));
    };
    if let Some(value) = remedy.value_after {
        add(RemedyWords::BringsTo { value: &figures::rounded(value, language) });
    }
    if matches!(remedy.kind, "doubled-pair" | "doubled-pairs-all-the-way") {
        add(RemedyWords::DoubledPair);
    }
    if let Some(told) = then_told(remedy, language) {
        text.push_str("; ");
        text.push_str(&told);
    }
    let mut add = |words: RemedyWords<'_>| {
        text.push_str("; ");
        text.push_str(&words.say(language));
    };
    let moved: Vec<String> = moved_at_their_length(&remedy.edit).into_iter().map(template::plain).collect();
    if !moved.is_empty() {
        add(RemedyWords::MeasureTheWay { runs: &moved.join(", ") });
    }
    match remedy.cost.map(Money::rounded) {
        None => match remedy.priced.map(Money::rounded).filter(|priced| *priced > Money::ZERO) {
            None => add(RemedyWords::NotInPriceList),
            Some(priced) => {
                let amount = figures::cost(priced, language);
                let amount = &currency.map_or(amount.clone(), |currency| format!("{amount} {currency}"));
                add(RemedyWords::CostsWithoutSome { amount });
            }
        },
        Some(cost) => {
            let amount = figures::cost(cost, language);
            let amount = &currency.map_or(amount.clone(), |currency| format!("{amount} {currency}"));
            add(match cost.cmp(&Money::ZERO) {
                Ordering::Equal if remedy.buys => RemedyWords::SamePrice,
                Ordering::Equal => RemedyWords::NoCost,
                Ordering::Less => RemedyWords::Saves { amount },
                Ordering::Greater => RemedyWords::Costs { amount },
            });
        }
    }
    if let Some(work) = work(remedy, language) {
        text.push_str("; ");
        text.push_str(&work);
    }
    text
}

/// The work of a change, or that it is not known; `None` if there is none.
pub(crate) fn work(remedy: &Remedy, language: Language) -> Option<String> {
    match remedy.minutes.filter(|minutes| minutes.is_finite()) {
        Some(minutes) => minutes_of_work(minutes, language),
        None => Some(RemedyWords::WorkNotKnown.say(language)),
    }
}

/// Minutes of work, rounded up; `None` where there is none.
pub(crate) fn minutes_of_work(minutes: f64, language: Language) -> Option<String> {
    (minutes >= 0.5).then(|| RemedyWords::Work { minutes: &figures::fixed(minutes.ceil(), 0) }.say(language))
}

/// Runs that are hung elsewhere and keep the length that is stated for them.
fn moved_at_their_length(edit: &Edit) -> Vec<&str> {
    let keys_of_runs = edit.changes.iter().filter_map(|(path, _)| match &path[..] {
        [EditStep::Key(table), EditStep::Key(run), EditStep::Key(key)] if table == "runs" => {
            Some((run.as_str(), key.as_str()))
        }
        _ => None,
    });
    let touched: Vec<(&str, &str)> = keys_of_runs.collect();
    let has_its_length = |run: &str| {
        let mut keys = touched.iter().filter(|(other, _)| *other == run);
        keys.any(|(_, key)| matches!(*key, "length" | "lengths" | "first" | "spacing"))
    };
    let moved = touched.iter().filter(|(run, key)| *key == "from" && !has_its_length(run));
    moved.map(|(run, _)| *run).collect()
}

/// What a change makes of doors and stations while the mains are lost.
fn mains_lost(one: &MainsLost, language: Language) -> String {
    let names: Vec<String> = one.elements.iter().map(|name| template::plain(name.as_str())).collect();
    let names = &names.join(", ");
    let word = match one.what {
        WithoutMains::LockOpens => RemedyWords::LockOpens { names, unless: None },
        WithoutMains::LockOpensUnlessBattery => {
            RemedyWords::LockOpens { names, unless: Some(UnlessWord::LockSupplyHasBattery.say(language)) }
        }
        WithoutMains::LockStaysShut => RemedyWords::LockStaysShut { names, unless: None },
        WithoutMains::LockStaysShutUnlessBattery => {
            RemedyWords::LockStaysShut { names, unless: Some(UnlessWord::LockSupplyHasBattery.say(language)) }
        }
        WithoutMains::LightGoesOut => RemedyWords::LightGoesOut { names, unless: None },
        WithoutMains::LightGoesOutUnlessBattery => {
            RemedyWords::LightGoesOut { names, unless: Some(UnlessWord::LightSupplyHasBattery.say(language)) }
        }
        WithoutMains::StationGoesDark => {
            RemedyWords::StationsGoDark { stations: one.elements.len(), names: &few(&one.elements) }
        }
    };
    word.say(language)
}

/// Names in a row; of many the first and the last.
fn few(elements: &[ElementId]) -> String {
    match elements {
        [first, _, .., last] => {
            format!("{} … {}", template::plain(first.as_str()), template::plain(last.as_str()))
        }
        others => others.iter().map(|name| template::plain(name.as_str())).collect::<Vec<_>>().join(", "),
    }
}

/// What a change brings, if it brings anything, and what it makes of doors and stations while the mains are lost.
pub(crate) fn then_told(remedy: &Remedy, language: Language) -> Option<String> {
    // What is left of the finding itself, as something less, was there before.
    let (left, new): (Vec<&Brought>, Vec<&Brought>) =
        remedy.brings.iter().partition(|one| remedy.clears.contains(&(one.code, one.element.clone())));
    let named = |one: &Brought| {
        let element = one.element.as_ref().map(|element| template::plain(element.as_str()));
        let severity = severity(one.severity, language);
        RemedyWords::Brought { severity, code: one.code.as_str(), element: element.as_deref() }.say(language)
    };
    let list = |all: &[&Brought]| all.iter().map(|one| named(one)).collect::<Vec<_>>().join(", ");
    let left = (!left.is_empty()).then(|| RemedyWords::ThenLeft { findings: &list(&left) }.say(language));
    let findings = (!new.is_empty()).then(|| RemedyWords::ThenTold { findings: &list(&new) }.say(language));
    let lost = remedy.mains_lost.iter().map(|one| mains_lost(one, language));
    let told: Vec<String> = left.into_iter().chain(findings).chain(lost).collect();
    (!told.is_empty()).then(|| told.join("; "))
}

/// The changes of an edit, as the user would write them.
pub fn edit(edit: &Edit, language: Language) -> Vec<String> {
    edit.changes
        .iter()
        .filter_map(|(path, change)| {
            let place = &path_words(path);
            Some(template::plain(&match change {
                Change::Set(value) => format!("{place} = {value}"),
                Change::Remove => RemedyWords::Removes { place }.say(language),
                Change::Insert(_, value) => RemedyWords::Adds { value, place }.say(language),
                Change::AppendTable(body) => RemedyWords::AddsTable { table: place, body }.say(language),
                Change::Rename(name) => RemedyWords::Renames { place, name }.say(language),
                Change::Lines { line, .. } => RemedyWords::ChangesLines { line: line + 1 }.say(language),
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
pub fn rests_on(values: &[String], language: Language) -> String {
    let values: Vec<String> = values.iter().map(|value| template::plain(value)).collect();
    RemedyWords::RestsOn { values: &values.join(", ") }.say(language)
}

/// What could not be judged and how to get it, without the code.
pub fn not_judged(missing: &NotJudged, language: Language) -> String {
    let elements: Vec<String> =
        missing.elements.iter().map(|element| template::plain(element.as_str())).collect();
    let elements = (!elements.is_empty()).then(|| elements.join(", "));
    let how =
        (missing.code == rules::codes::LINE_CONSTANTS_MISSING).then(|| Remark::LineConstants.say(language));
    let needs = Remark::Needs {
        missing: &template::plain(&missing.missing.say(language)),
        elements: elements.as_deref(),
        how: how.as_deref(),
    };
    needs.say(language)
}

/// The verdict in one or two lines; the second, if any, names the tightest place.
pub fn verdict(report: &Report<'_>, language: Language) -> (String, Option<String>) {
    let counts = report.counts();
    // Where nothing but that is wrong the verdict itself says so.
    let not_judged = report
        .assessment
        .filter(|assessment| report.fails() || assessment.verdict != Verdict::NotJudged)
        .map_or(0, |assessment| assessment.not_judged.len());
    let counted = [
        (counts.errors, Counted::Errors { count: counts.errors }),
        (counts.warnings, Counted::Warnings { count: counts.warnings }),
        (counts.advice, Counted::Advice { count: counts.advice }),
        (counts.accepted, Counted::Accepted { count: counts.accepted }),
        (not_judged, Counted::NotJudged { count: not_judged }),
    ];
    let counted: Vec<String> =
        counted.iter().filter(|(count, _)| *count > 0).map(|(_, words)| words.say(language)).collect();
    let counted = (!counted.is_empty()).then(|| counted.join(", "));
    let counted = counted.as_deref();
    let Some(assessment) = report.assessment else {
        let words = match report.counts().errors {
            0 => VerdictWords::Usable { counted },
            _ => VerdictWords::Unusable { counted },
        };
        return (words.say(language), None);
    };
    let words = match &assessment.verdict {
        _ if report.counts().errors > 0 => VerdictWords::Fails { counted },
        Verdict::Fails => VerdictWords::Fails { counted },
        Verdict::FailsAsAccepted => {
            VerdictWords::FailsAsAccepted { errors: accepted_errors(report), counted }
        }
        Verdict::Holds => VerdictWords::Holds { counted },
        Verdict::HoldsOnAssumedData => {
            VerdictWords::HoldsOnAssumedData { values: assessment.assumed.len(), counted }
        }
        Verdict::NotJudged => VerdictWords::NotJudged { things: assessment.not_judged.len(), counted },
    };
    (words.say(language), tightest(report, language))
}

/// Errors that the user has accepted: they are still what they are.
fn accepted_errors(report: &Report<'_>) -> usize {
    let findings = report.assessment.iter().flat_map(|assessment| &assessment.findings);
    findings.filter(|finding| finding.severity == Severity::Error && finding.accepted.is_some()).count()
}

/// The device with the least margin, in words.
fn tightest(report: &Report<'_>, language: Language) -> Option<String> {
    let assessment = report.assessment?;
    let found = &assessment.devices[assessment.tightest_device()?];
    let device = &template::plain(found.id.as_str());
    let source = &template::plain(found.source.as_str());
    let state = &states::in_words(&found.worst.state, language);
    let limit = &figures::sentence(Figure::new(found.worst.limit_v, Unit::Volt), language);
    let Some(voltage_v) = found.worst.adverse_v.filter(|voltage| voltage.is_finite()) else {
        return Some(Tightest::NoOperatingPoint { device, source, state, limit }.say(language));
    };
    let margin_v = found.worst.margin_v();
    let mut voltage = figures::volts(voltage_v, language);
    if found.worst.is_bound {
        voltage = Tightest::AtLeast { voltage: &voltage }.say(language);
    }
    let voltage = &voltage;
    // On a site that fails for something else nothing is called tight.
    if margin_v >= 0.0 && report.fails() {
        return None;
    }
    Some(if margin_v < 0.0 {
        let short = &figures::volts_short(-margin_v, language);
        Tightest::Below { device, source, voltage, short, limit, state }.say(language)
    } else {
        let spare = &figures::volts(margin_v, language);
        Tightest::Above { device, source, voltage, spare, limit, state }.say(language)
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
    use latchline_assess::Missing;
    use latchline_finding::Rounded;

    #[test]
    fn what_is_missing_is_named_with_how_to_get_it() {
        let missing = NotJudged {
            code: rules::codes::LINE_CONSTANTS_MISSING,
            elements: vec!["A-R5".into()],
            missing: Missing::key("clad-0.5", "line"),
        };
        assert_eq!(
            not_judged(&missing, Language::English),
            "needs clad-0.5 line (for A-R5): constants or losses of its data sheet; or measure the capacitance with the \
             far end open, divide it by the length, and take the other three constants from a like cable, as assumed: \
             latchline catalogue"
        );
    }

    #[test]
    fn remedies_are_written_as_the_user_would_write_them() {
        let remedy = Remedy {
            kind: "thicker-conductor",
            edit: Edit::set(&["runs", "W 3", "cable"], "\"flex-1.0\""),
            value_after: Some(Rounded::down(Figure::new(41.209, Unit::Volt))),
            cost: Some(Money::from_units(12.5)),
            minutes: Some(0.0),
            ..Remedy::default()
        };
        assert_eq!(
            super::remedy(&remedy, Some("GBP"), Language::English),
            "thicker conductor: runs.\"W 3\".cable = \"flex-1.0\"; brings it to 41.20 V; costs 12.50 GBP more for parts"
        );
    }

    #[test]
    fn remedies_speak_german() {
        let remedy = Remedy {
            kind: "thicker-conductor",
            edit: Edit::set(&["runs", "W3", "cable"], "\"flex-1.0\""),
            value_after: Some(Rounded::down(Figure::new(41.209, Unit::Volt))),
            cost: Some(Money::from_units(12.5)),
            minutes: Some(0.0),
            ..Remedy::default()
        };
        assert_eq!(
            super::remedy(&remedy, None, Language::German),
            "dickere Ader: runs.W3.cable = \"flex-1.0\"; bringt es auf 41,20 V; kostet 12,50 mehr für Teile"
        );
    }
}
