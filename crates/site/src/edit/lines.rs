//! Edits of whole lines: what takes another edit back, byte for byte.

use super::error::EditError;
use latchline_finding::Edit;

/// The edit that makes `to` of `from`: the lines that differ, with the line before and the line behind, so that it finds its place
/// again or is refused. Empty if nothing differs.
pub fn difference(from: &str, to: &str) -> Edit {
    if from == to {
        return Edit::default();
    }
    let (old, new): (Vec<&str>, Vec<&str>) =
        (from.split_inclusive('\n').collect(), to.split_inclusive('\n').collect());
    let same = old.iter().zip(&new).take_while(|(old, new)| old == new).count();
    let most = old.len().min(new.len()) - same;
    let same_behind = old.iter().rev().zip(new.iter().rev()).take(most).take_while(|(old, new)| old == new);
    let behind = same_behind.count();
    let first = same.saturating_sub(1);
    let behind = behind.saturating_sub(1);
    Edit::lines(first, old[first..old.len() - behind].concat(), new[first..new.len() - behind].concat())
}

/// Puts `becomes` in place of the lines `expects`.
pub(super) fn replace(text: &str, line: usize, expects: &str, becomes: &str) -> Result<String, EditError> {
    let changed = || EditError::Changed(format!("line {}", line + 1));
    let starts = || std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1));
    let fits = |at: &usize| {
        let end = at + expects.len();
        // A text cut off inside a line is another line.
        text[*at..].starts_with(expects)
            && (expects.ends_with('\n') || end == text.len())
            && (!expects.is_empty() || text.is_empty())
    };
    let at = match starts().nth(line).filter(fits) {
        Some(at) => at,
        None => {
            let mut places = starts().filter(fits);
            match (places.next(), places.next()) {
                (Some(at), None) => at,
                _ => return Err(changed()),
            }
        }
    };
    Ok(format!("{}{becomes}{}", &text[..at], &text[at + expects.len()..]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::edit::apply;

    #[test]
    fn the_difference_makes_one_text_of_the_other() {
        for (from, to) in [
            ("a\nb\nc\n", "a\nB\nc\n"),
            ("a\nb\nc\n", "a\nc\n"),
            ("a\nc", "a\nb\nc"),
            ("", "a\n"),
            ("a\n", ""),
            ("a", "a\n"),
            ("a\r\nb\r\n", "a\r\nb"),
            ("a\na\na\n", "a\na\n"),
            ("\u{feff}a\n", "\u{feff}b\n"),
        ] {
            assert_eq!(apply(from, &difference(from, to)).as_deref(), Ok(to), "{from:?} to {to:?}");
            assert_eq!(apply(to, &difference(to, from)).as_deref(), Ok(from), "{to:?} to {from:?}");
        }
    }

    #[test]
    fn lines_that_moved_are_found_and_lines_that_changed_are_not_laid_over() {
        let back = difference("x\nnew\ny\n", "x\nold\ny\n");
        assert_eq!(apply("more\nx\nnew\ny\n", &back).as_deref(), Ok("more\nx\nold\ny\n"));
        for other in ["x\nnewer\ny\n", "x\ny\n", "more\nx\nnew\ny\nx\nnew\ny\n", "new\n"] {
            assert!(matches!(apply(other, &back), Err(EditError::Changed(_))), "{other:?}");
        }
    }
}
