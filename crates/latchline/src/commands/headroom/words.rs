//! What both answers of `latchline headroom` say.

use latchline_assess::{Assessment, Verdict};
use latchline_finding::{ElementId, Severity};
use latchline_reach::More;
use latchline_report::Look;
use latchline_words::codes::title_of;
use latchline_words::commands::HeadroomWords;
use latchline_words::report::JobWords;
use std::collections::BTreeSet;

/// Kinds of errors that one sentence names.
const MOST_TITLES: usize = 4;

/// How many errors a site has, those that stand or, where none does, those that are accepted; and what they are.
pub(super) fn errors_of(assessment: &Assessment, look: &Look) -> (usize, String) {
    let fails = assessment.verdict == Verdict::Fails;
    let all = assessment.read.iter().chain(&assessment.findings);
    let errors = all.filter(|one| one.severity == Severity::Error && (one.accepted.is_none() || !fails));
    let mut titles: Vec<String> =
        errors.map(|finding| title_of(finding.code.as_str(), look.language)).collect();
    let count = titles.len();
    let mut seen = BTreeSet::new();
    titles.retain(|title| seen.insert(title.clone()));
    let more = titles.len().saturating_sub(MOST_TITLES);
    titles.truncate(MOST_TITLES);
    let titles = titles.join("; ");
    let titles = match more {
        0 => titles,
        more => JobWords::NamesAndMore { names: &titles, more }.say(look.language),
    };
    (count, titles)
}

/// Places named in the first sentence.
const MOST_PLACES: usize = 4;

/// Where further stations are added, the fullest places first: "9 at r1 and 1 at r2".
pub(super) fn places_of(more: &More, look: &Look) -> String {
    let mut spread: Vec<&(ElementId, usize)> = more.spread.iter().collect();
    spread.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
    let placed = |(id, count): &&(ElementId, usize)| {
        HeadroomWords::Placed { count: *count, at: id.as_str() }.say(look.language)
    };
    let (named, others) = spread.split_at(spread.len().min(MOST_PLACES));
    let mut names: Vec<String> = named.iter().map(placed).collect();
    let rest: usize = others.iter().map(|(_, count)| count).sum();
    let places = others.len();
    names.extend(
        (rest > 0).then(|| HeadroomWords::PlacedElsewhere { count: rest, places }.say(look.language)),
    );
    match names.split_last() {
        Some((last, [first @ .., before])) => {
            let mut all: Vec<String> = first.to_vec();
            all.push(HeadroomWords::PlacedBoth { one: before, other: last }.say(look.language));
            all.join(", ")
        }
        _ => names.concat(),
    }
}

/// The command that says what is wrong with a site.
pub(super) fn check_of(site: &std::path::Path) -> String {
    let command = format!("latchline check {}", latchline_finding::shown::path(site));
    latchline_finding::shown::prose(&command).into_owned()
}
