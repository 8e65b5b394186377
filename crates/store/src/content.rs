//! Texts as they are kept: each once, by its hash; the next text of a file as what differs from the one before.
//!
//! A site file of a thousand stations has a hundred thousand bytes, and an edit changes one line of it. After a number of differences a text is
//! kept whole again, so that reading one stays quick; what is read is held against its hash.

use crate::StoreError;
use crate::database::Statements;
use crate::hash;
use crate::merge::{hunks, lines_of};
use latchline_words::refusals::StoreFault;
use std::fmt::Write as _;

/// Differences in a row before a text is kept whole.
const MOST_DIFFERENCES: i64 = 40;

/// Keeps a text, as a difference from `before` where that is shorter; gives its hash.
pub(crate) fn keep(
    statements: &mut dyn Statements,
    text: &str,
    before: Option<&str>,
) -> Result<String, StoreError> {
    let hash = hash::of_text(text);
    let known = statements.row("select depth from content where hash = $1", &[hash.as_str().into()])?;
    if known.is_some() {
        return Ok(hash);
    }
    let mut kept = (None, 0, text.to_string());
    if let Some(before) = before {
        let base = hash::of_text(before);
        let row = statements.row("select depth from content where hash = $1", &[base.as_str().into()])?;
        if let Some(depth) = row.map(|row| row.integer(0) + 1).filter(|depth| *depth <= MOST_DIFFERENCES) {
            let difference = encoded(before, text);
            if difference.len() < text.len() / 2 {
                kept = (Some(base), depth, difference);
            }
        }
    }
    let (base, depth, body) = kept;
    statements.run(
        "insert into content (hash, base, depth, body) values ($1, $2, $3, $4) on conflict do nothing",
        &[hash.as_str().into(), base.into(), depth.into(), body.into()],
    )?;
    Ok(hash)
}

/// The text with a hash.
pub(crate) fn text(statements: &mut dyn Statements, place: &str, hash: &str) -> Result<String, StoreError> {
    let short = hash.get(..12).unwrap_or(hash);
    let damaged =
        |detail: &StoreFault<'_>| StoreError::Damaged { place: place.to_string(), detail: detail.both() };
    let mut differences = Vec::new();
    let mut wanted = hash.to_string();
    let mut text = loop {
        let row =
            statements.row("select base, body from content where hash = $1", &[wanted.as_str().into()])?;
        let row = row.ok_or_else(|| damaged(&StoreFault::TextMissing { hash: short }))?;
        let (base, body) = (row.text(0), row.text(1));
        if base.is_empty() {
            break body;
        }
        differences.push(body);
        if differences.len() as i64 > MOST_DIFFERENCES {
            return Err(damaged(&StoreFault::TextLeadsNowhere { hash: short }));
        }
        wanted = base;
    };
    for difference in differences.iter().rev() {
        text =
            decoded(&text, difference).ok_or_else(|| damaged(&StoreFault::TextInPieces { hash: short }))?;
    }
    if hash::of_text(&text) == hash {
        Ok(text)
    } else {
        Err(damaged(&StoreFault::TextIsOther { hash: short }))
    }
}

/// What makes `new` of `old`: for each range of lines that is replaced `first count bytes`, a line end, and so many bytes of new lines.
fn encoded(old: &str, new: &str) -> String {
    let (old, new) = (lines_of(old), lines_of(new));
    let mut text = String::new();
    for hunk in hunks(&old, &new) {
        let lines = hunk.lines.concat();
        let _ = writeln!(text, "{} {} {}", hunk.base.start, hunk.base.len(), lines.len());
        text.push_str(&lines);
    }
    text
}

fn decoded(old: &str, mut difference: &str) -> Option<String> {
    let old = lines_of(old);
    let (mut text, mut at) = (String::new(), 0);
    while !difference.is_empty() {
        let (head, rest) = difference.split_once('\n')?;
        let numbers: Vec<usize> = head.split(' ').filter_map(|number| number.parse().ok()).collect();
        let [first, count, bytes] = numbers.as_slice() else { return None };
        old.get(at..*first)?.iter().for_each(|line| text.push_str(line));
        text.push_str(rest.get(..*bytes)?);
        difference = rest.get(*bytes..)?;
        at = first.checked_add(*count)?;
    }
    old.get(at..)?.iter().for_each(|line| text.push_str(line));
    Some(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn what_was_encoded_is_decoded(old in "([ab]?\n?){0,12}", new in "([abä]?\n?){0,12}") {
            prop_assert_eq!(decoded(&old, &encoded(&old, &new)), Some(new));
        }

        #[test]
        fn what_is_no_difference_is_refused_or_decoded(old in "([ab]\n){0,4}", other in ".{0,20}|[0-9 \n]{0,20}") {
            let _ = decoded(&old, &other);
        }
    }
}
