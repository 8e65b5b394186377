//! What `latchline fix` says of a finding that no change mends: what can be done by hand, what was tried, and why each falls short.

use crate::refusal::Result;
use latchline_assess::rules::codes as rules;
use latchline_finding::{Argument, Brought, Finding};
use latchline_remedy::{Bench, Shortfall, Why, shortfalls};
use latchline_report::table::hanging;
use latchline_report::{Look, wording};
use latchline_words::codes;
use latchline_words::commands::FixWords;
use latchline_words::figures;
use latchline_words::report::remedy_kind;
use latchline_words::template::plain;
use std::io::Write;

/// Findings that a change brings and that are named.
const MOST_BROUGHT: usize = 3;

/// Says that no change mends it, and the hint that `check` gives.
pub(super) fn no_change(finding: &Finding, indent: &str, look: &Look, output: &mut dyn Write) -> Result<()> {
    write!(output, "{}", hanging(indent, &FixWords::NoChange.say(look.language), look.width))?;
    if let Some(hint) = codes::wording(finding, look.language).hint {
        write!(output, "{}", hanging(indent, &wording::capital(&hint), look.width))?;
    }
    Ok(())
}

/// Says what was tried and why each falls short.
pub(super) fn tried(bench: &Bench<'_>, finding: &Finding, look: &Look, output: &mut dyn Write) -> Result<()> {
    let (told, left) = shortfalls(bench, finding);
    let say = |words: FixWords<'_>| words.say(look.language);
    if told.is_empty() {
        return Ok(write!(output, "{}", hanging("  ", &say(FixWords::NothingTried), look.width))?);
    }
    for one in &told {
        write!(output, "{}", hanging("  - ", &shortfall(bench, one, look), look.width))?;
    }
    if left > 0 {
        write!(output, "{}", hanging("  - ", &say(FixWords::TriedMore { changes: left }), look.width))?;
    }
    Ok(())
}

/// Whether a bus that collapses hides this: what is dark has no voltage that could be too low.
fn is_hidden(bench: &Bench<'_>, brought: &Brought) -> bool {
    let collapses = bench.assessment.findings.iter().filter(|one| one.code == rules::NO_OPERATING_POINT);
    brought.code == rules::VOLTAGE_TOO_LOW
        && collapses.filter_map(|one| one.argument("devices")).any(|dark| match dark {
            Argument::Elements(dark) => brought.element.as_ref().is_some_and(|one| dark.contains(one)),
            _ => false,
        })
}

fn shortfall(bench: &Bench<'_>, one: &Shortfall, look: &Look) -> String {
    let language = look.language;
    let kind = remedy_kind(one.kind, language);
    let edit = wording::edit(&one.edit, language).join("; ");
    let (kind, edit) = (&*kind, &*edit);
    match &one.why {
        Why::NotPossible => FixWords::TriedNotPossible { kind, edit },
        Why::NotJudged => FixWords::TriedNotJudged { kind, edit },
        Why::Stays(value) => {
            let value = value.filter(|value| value.figure.value.is_finite());
            let value = value.map(|value| figures::rounded(value, language));
            return FixWords::TriedStays { kind, edit, value: value.as_deref() }.say(language);
        }
        Why::Brings(brought) => {
            let named = |one: &Brought| {
                let title = &*codes::title_of(one.code.as_str(), language);
                let at = one.element.as_ref().map(|element| plain(element.as_str()));
                FixWords::Brought { title, at: at.as_deref() }.say(language)
            };
            let names: Vec<String> = brought.iter().take(MOST_BROUGHT).map(named).collect();
            let more = brought.len().checked_sub(MOST_BROUGHT).filter(|more| *more > 0);
            let names = &*names.join("; ");
            return match brought.iter().all(|one| is_hidden(bench, one)) {
                true => FixWords::TriedLeaves { kind, edit, left: names, more },
                false => FixWords::TriedBrings { kind, edit, brought: names, more },
            }
            .say(language);
        }
    }
    .say(language)
}
