//! What is said in several places of a card: once, with a number in each of them.

use super::data::CardBlock;
use super::lines::{TEXT_MM, letter, letter_lines, line_mm};
use latchline_scene::Group;
use latchline_scene::font::{text_width_mm, wrapped};

/// What is shorter is said where it holds.
const LEAST_SIGNS: usize = 20;
/// Below the notes.
const BELOW_MM: f64 = 0.6;

/// Remarks that a card has in several places, in the order in which they are met.
pub(super) struct Notes {
    list: Vec<String>,
}

impl Notes {
    /// Of a card.
    pub(super) fn of(blocks: &[CardBlock]) -> Notes {
        let mut met: Vec<(&str, usize)> = Vec::new();
        for block in blocks {
            let lines = block.lines.iter().filter(|_| block.pictures.is_empty());
            let terminals = block.strip.iter().flat_map(|set| &set.terminals);
            let remarks = terminals.flat_map(|terminal| sayings(&terminal.remark));
            let steps = block.steps.iter().filter_map(|step| Some(step.what.split_once(": ")?.1));
            for words in lines.map(String::as_str).chain(remarks).chain(steps) {
                match met.iter_mut().find(|(known, _)| *known == words) {
                    Some((_, times)) => *times += 1,
                    None => met.push((words, 1)),
                }
            }
        }
        let is_note = |(words, times): &(&str, usize)| *times > 1 && words.chars().count() >= LEAST_SIGNS;
        Notes { list: met.into_iter().filter(is_note).map(|(words, _)| words.to_string()).collect() }
    }

    /// What stands for a remark where it holds: its numbers, and what has none.
    pub(super) fn short(&self, remark: &str) -> String {
        let short = |words: &str| match self.list.iter().position(|note| note == words) {
            Some(number) => mark(number),
            None => words.to_string(),
        };
        if self.list.iter().any(|note| note == remark) {
            return short(remark);
        }
        sayings(remark).map(short).collect::<Vec<_>>().join("; ")
    }

    /// The words of a step: what stands behind a colon in several steps is a note.
    pub(super) fn short_step(&self, what: &str) -> String {
        let noted = what.split_once(": ").and_then(|(head, rest)| {
            let number = self.list.iter().position(|note| note == rest)?;
            Some(format!("{head} {}", mark(number)))
        });
        noted.unwrap_or_else(|| what.to_string())
    }

    /// The notes below one another, and their height.
    pub(super) fn drawn(&self, width_mm: f64) -> Option<(Group, f64)> {
        let mut group = Group::new("job-notes");
        let mut y = 0.0;
        for (number, words) in self.list.iter().enumerate() {
            let mark = mark(number);
            let left = text_width_mm(&mark, TEXT_MM, true) + 1.5;
            letter(&mut group, (0.0, y), &mark, TEXT_MM, true);
            y += letter_lines(
                &mut group,
                (left, y),
                &wrapped(words, TEXT_MM, false, width_mm - left),
                TEXT_MM,
                false,
            );
        }
        (y >= line_mm(TEXT_MM)).then_some((group, y + BELOW_MM))
    }
}

/// What a remark is made of.
fn sayings(remark: &str) -> impl Iterator<Item = &str> {
    remark.split("; ").filter(|words| !words.is_empty())
}

fn mark(number: usize) -> String {
    format!("[{}]", number + 1)
}

#[cfg(test)]
mod tests {
    use super::super::data::{StripSet, StripTerminal};
    use super::*;

    #[test]
    fn what_holds_twice_is_said_once() {
        let long = "leave it long enough to reach every terminal";
        let terminal =
            |remark: &str| StripTerminal { remark: remark.to_string(), ..StripTerminal::default() };
        let strip = vec![StripSet {
            mark: String::from("in"),
            terminals: vec![
                terminal(long),
                terminal(&format!("free; {long}")),
                terminal("once only, however long it is"),
            ],
        }];
        let notes = Notes::of(&[CardBlock { strip, ..CardBlock::default() }]);
        assert_eq!(notes.list, [long]);
        assert_eq!(notes.short(long), "[1]");
        assert_eq!(notes.short(&format!("free; {long}")), "free; [1]");
        assert_eq!(notes.short("once only, however long it is"), "once only, however long it is");
        assert!(notes.drawn(40.0).is_some_and(|(_, height)| height > 2.0 * line_mm(TEXT_MM)));
    }
}
