//! Three texts into one: what both sides made of a base, where the two go together.
//!
//! First by lines: each side is a list of replaced ranges of lines of the base, and two ranges that meet are a conflict unless they put the same in
//! the same place. Neighbouring lines that are each replaced one for one do not meet. Where lines meet, by values: what the other
//! side set or removed is applied as an edit that expects what the base had. The result must be TOML if all three were.

use latchline_site::edit;
use similar::{Algorithm, DiffOp, capture_diff_slices};
use std::ops::Range;

/// Lines that differ in the middle of two texts, up to which they are held against each other one by one; beyond, they are one change.
const MOST_LINES: usize = 4_000;
/// Places where two sides meet that are told.
const MOST_MEETINGS: usize = 20;

/// A range of lines of the base and what a side made of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Hunk<'t> {
    /// Lines of the base.
    pub base: Range<usize>,
    /// What stands there instead.
    pub lines: Vec<&'t str>,
}

/// Where two sides meet: the range of lines of the base that both changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Meeting {
    /// The first line, from 0.
    pub line: usize,
    /// What the base has there.
    pub base: String,
    /// What this side has.
    pub ours: String,
    /// What the other side has.
    pub theirs: String,
}

/// The lines of a text, each with its end.
pub(crate) fn lines_of(text: &str) -> Vec<&str> {
    text.split_inclusive('\n').collect()
}

/// What makes `new` of `old`, as replaced ranges of lines in order.
pub(crate) fn hunks<'t>(old: &[&'t str], new: &[&'t str]) -> Vec<Hunk<'t>> {
    let same = old.iter().zip(new).take_while(|(old, new)| old == new).count();
    let most = old.len().min(new.len()) - same;
    let behind =
        old.iter().rev().zip(new.iter().rev()).take(most).take_while(|(old, new)| old == new).count();
    let (middle_old, middle_new) = (&old[same..old.len() - behind], &new[same..new.len() - behind]);
    if middle_old.is_empty() && middle_new.is_empty() {
        return Vec::new();
    }
    let whole = || vec![Hunk { base: same..old.len() - behind, lines: middle_new.to_vec() }];
    if middle_old.is_empty() || middle_new.is_empty() || middle_old.len() + middle_new.len() > MOST_LINES {
        return whole();
    }
    // What lies between lines that are the same.
    let changes = capture_diff_slices(Algorithm::Myers, middle_old, middle_new);
    let same_lines = changes.iter().filter_map(|change| match *change {
        DiffOp::Equal { old_index, new_index, len } => Some((old_index, new_index, len)),
        _ => None,
    });
    let end = (middle_old.len(), middle_new.len(), 0);
    let (mut found, mut at_old, mut at_new) = (Vec::new(), 0, 0);
    for (old_index, new_index, len) in same_lines.chain([end]) {
        if old_index > at_old || new_index > at_new {
            let lines = middle_new[at_new..new_index].to_vec();
            found.push(Hunk { base: at_old + same..old_index + same, lines });
        }
        (at_old, at_new) = (old_index + len, new_index + len);
    }
    found
}

/// Lines that are replaced one for one are changes of their own.
fn singles<'t>(hunks: Vec<Hunk<'t>>) -> Vec<Hunk<'t>> {
    let mut found: Vec<Hunk<'t>> = Vec::new();
    for hunk in hunks {
        if hunk.is_one_for_one() {
            let lines = hunk.base.zip(hunk.lines);
            found.extend(lines.map(|(line, new)| Hunk { base: line..line + 1, lines: vec![new] }));
        } else {
            found.push(hunk);
        }
    }
    found
}

impl Hunk<'_> {
    fn is_one_for_one(&self) -> bool {
        !self.base.is_empty() && self.base.len() == self.lines.len()
    }

    fn meets(&self, other: &Hunk<'_>) -> bool {
        let overlap = self.base.start < other.base.end && other.base.start < self.base.end;
        let touch = self.base.start <= other.base.end && other.base.start <= self.base.end;
        overlap || (touch && !(self.is_one_for_one() && other.is_one_for_one()))
    }
}

/// Both sides by lines.
fn by_lines(base: &str, ours: &str, theirs: &str) -> Result<String, Vec<Meeting>> {
    let (base, ours, theirs) = (lines_of(base), lines_of(ours), lines_of(theirs));
    let (ours, theirs) = (singles(hunks(&base, &ours)), singles(hunks(&base, &theirs)));
    let (mut ours, mut theirs) = (ours.iter().peekable(), theirs.iter().peekable());
    let (mut merged, mut at, mut meetings) = (String::new(), 0, Vec::new());
    let mut put = |hunk: &Hunk<'_>, is_wanted: bool| {
        if !is_wanted {
            return;
        }
        base[at..hunk.base.start].iter().chain(&hunk.lines).for_each(|line| merged.push_str(line));
        at = hunk.base.end;
    };
    loop {
        match (ours.peek(), theirs.peek()) {
            (Some(one), Some(other)) if one == other => {
                put(one, meetings.is_empty());
                ours.next();
                theirs.next();
            }
            (Some(one), Some(other)) if one.meets(other) => {
                let range = one.base.start.min(other.base.start)..one.base.end.max(other.base.end);
                let side = |hunk: &Hunk<'_>| {
                    let before = &base[range.start..hunk.base.start];
                    before.iter().chain(&hunk.lines).chain(&base[hunk.base.end..range.end]).copied().collect()
                };
                meetings.push(Meeting {
                    line: range.start,
                    base: base[range.clone()].concat(),
                    ours: side(one),
                    theirs: side(other),
                });
                // Past both: what follows is told too.
                if one.base.end < other.base.end {
                    ours.next()
                } else {
                    theirs.next()
                };
            }
            (Some(one), Some(other)) if one.base.start > other.base.start => {
                put(other, meetings.is_empty());
                theirs.next();
            }
            (Some(one), _) => {
                put(one, meetings.is_empty());
                ours.next();
            }
            (None, Some(other)) => {
                put(other, meetings.is_empty());
                theirs.next();
            }
            (None, None) => break,
        }
        if meetings.len() >= MOST_MEETINGS {
            break;
        }
    }
    if meetings.is_empty() {
        base[at..].iter().for_each(|line| merged.push_str(line));
        Ok(merged)
    } else {
        Err(meetings)
    }
}

/// Both sides together, or where they meet.
///
/// # Errors
/// Every place where both changed the same.
pub fn merge(base: &str, ours: &str, theirs: &str) -> Result<String, Vec<Meeting>> {
    if base == theirs || ours == theirs {
        return Ok(ours.to_string());
    }
    if base == ours {
        return Ok(theirs.to_string());
    }
    let is_toml = |text: &str| edit::is_toml(text);
    let all_were = is_toml(base) && is_toml(ours) && is_toml(theirs);
    let merged = by_lines(base, ours, theirs);
    match merged {
        Ok(merged) if !all_were || is_toml(&merged) => Ok(merged),
        refused => {
            let meetings = refused.err();
            let by_values = || edit::merge_values(base, ours, theirs).ok();
            match all_were.then(by_values).flatten() {
                Some(merged) => Ok(merged),
                None => Err(meetings.unwrap_or_else(|| vec![whole(base, ours, theirs)])),
            }
        }
    }
}

/// Lines that go together, but not as TOML: a name that both added.
fn whole(base: &str, ours: &str, theirs: &str) -> Meeting {
    Meeting { line: 0, base: base.to_string(), ours: ours.to_string(), theirs: theirs.to_string() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_apart_go_together() {
        assert_eq!(merge("a\nb\nc\n", "A\nb\nc\n", "a\nb\nC\n").as_deref(), Ok("A\nb\nC\n"));
        // Neighbours, each replaced one for one.
        assert_eq!(merge("a\nb\n", "A\nb\n", "a\nB\n").as_deref(), Ok("A\nB\n"));
        assert_eq!(merge("a\nb\nc\n", "A\nB\nc\n", "a\nB\nc\n").as_deref(), Ok("A\nB\nc\n"));
        // The same on both sides.
        assert_eq!(merge("a\nb\nc\n", "A\nb\nX\n", "A\nb\nc\n").as_deref(), Ok("A\nb\nX\n"));
        assert_eq!(merge("a", "a\nb\n", "a").as_deref(), Ok("a\nb\n"));
    }

    #[test]
    fn lines_that_meet_are_both_told() {
        let meetings = merge("a\nb\nc\n", "a\nB\nc\n", "a\nx\nc\n").unwrap_err();
        let expected = Meeting { line: 1, base: "b\n".into(), ours: "B\n".into(), theirs: "x\n".into() };
        assert_eq!(meetings, [expected]);
        // Two rows put in at one place: which is first is nobody's to say.
        assert!(merge("a\nb\n", "a\nx\nb\n", "a\ny\nb\n").is_err());
        assert!(merge("a\nb\nc\n", "a\nc\n", "a\nx\nc\n").is_err());
    }

    #[test]
    fn values_on_one_line_go_together() {
        let base = "[runs]\nr = { length = \"5 m\", cable = \"a\" } # riser\n";
        let ours = base.replace("5 m", "6 m");
        let theirs = base.replace("\"a\"", "\"b\"");
        let both = ours.replace("\"a\"", "\"b\"");
        assert_eq!(merge(base, &ours, &theirs).as_deref(), Ok(both.as_str()));
        // What is already as the other side has it is no conflict.
        assert_eq!(merge(base, &both, &theirs).as_deref(), Ok(both.as_str()));
        let other = base.replace("5 m", "7 m");
        assert!(merge(base, &ours, &other).is_err());
    }

    #[test]
    fn a_name_that_both_added_is_a_conflict() {
        let base = "[runs]\na = 1\nb = 2\nc = 3\nd = 4\n";
        let ours = base.replace("a = 1\n", "a = 1\nx = 1\n");
        let theirs = base.replace("c = 3\n", "c = 3\nx = 2\n");
        assert!(merge(base, &ours, &theirs).is_err());
        // With the same value it says the same already, wherever it stands.
        let same = base.replace("c = 3\n", "c = 3\nx = 1\n");
        assert_eq!(merge(base, &ours, &same).as_deref(), Ok(ours.as_str()));
    }
}
