//! Two texts held against each other, line by line.

use latchline_finding::shown;
use similar::{ChangeTag, TextDiff};
use std::fmt::Write as _;

/// The lines that differ, as `-` and `+` lines with the number of the line in its own text.
pub fn difference(before: &str, after: &str) -> String {
    let mut text = String::new();
    for change in TextDiff::from_lines(before, after).iter_all_changes() {
        let (sign, index) = match change.tag() {
            ChangeTag::Equal => continue,
            ChangeTag::Delete => ('-', change.old_index()),
            ChangeTag::Insert => ('+', change.new_index()),
        };
        let line = shown::whole(change.value().trim_end_matches(['\n', '\r']), &['\t']);
        let _ = writeln!(text, "{:>5} {sign} {line}", index.map_or(0, |index| index + 1));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_changed_lines_are_shown() {
        let text = difference("a\nb\nc\nd\n", "a\nx\nc\ny\nd\n");
        assert_eq!(text, "    2 - b\n    2 + x\n    4 + y\n");
        assert_eq!(difference("a\n", "a\n"), "");
    }
}
