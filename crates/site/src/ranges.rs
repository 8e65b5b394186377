//! Ranges of names: "A-1..A-32" stands for and so on to A-32.

/// Most names that one range stands for.
const MOST: u32 = 2_000;

/// What a range is not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NoRange;

/// The names of a range; `None` if the text is none, an error if it is meant as one but cannot be told.
///
/// Both ends have the same beginning and a number, the second no less than the first ("A-1..A-32", or "A-1..32"). Noughts that lead
/// the first number are kept ("A-01..A-12").
pub fn names(text: &str) -> Option<Result<Vec<String>, NoRange>> {
    let (first, last) = text.split_once("..")?;
    let (first, last) = (first.trim(), last.trim());
    let tail = |text: &str| text.len() - text.bytes().rev().take_while(u8::is_ascii_digit).count();
    let (stem, from) = first.split_at(tail(first));
    let (other_stem, to) = last.split_at(tail(last));
    let numbers = from.parse::<u32>().ok().zip(to.parse::<u32>().ok());
    let fits = other_stem.is_empty() || other_stem == stem;
    Some(match numbers {
        Some((from_number, to_number))
            if fits && to_number >= from_number && to_number - from_number < MOST =>
        {
            let width = from.len();
            Ok((from_number..=to_number).map(|number| format!("{stem}{number:0width$}")).collect())
        }
        _ => Err(NoRange),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all(text: &str) -> Vec<String> {
        names(text).and_then(Result::ok).unwrap_or_default()
    }

    #[test]
    fn ranges_count_up_and_keep_their_noughts() {
        assert_eq!(all("A-1..A-3"), ["A-1", "A-2", "A-3"]);
        assert_eq!(all("A-08..11"), ["A-08", "A-09", "A-10", "A-11"]);
        assert_eq!(all("7 .. 8"), ["7", "8"]);
        assert_eq!(all("Flat 9..Flat 10"), ["Flat 9", "Flat 10"]);
        assert_eq!(names("A-1"), None);
        for wrong in ["A-3..A-1", "A-1..B-3", "A..B", "..", "A-1..", "A-1..A-99999", "A-1..A-99999999999"] {
            assert_eq!(names(wrong), Some(Err(NoRange)), "{wrong}");
        }
    }
}
