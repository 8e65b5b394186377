//! Ranges of names: "A-1..A-32" stands for and so on to A-32.

use latchline_finding::Both;
use latchline_words::reading::BadRange;

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
    let ((stem, from), (other_stem, to)) = (stem_and_number(first), stem_and_number(last));
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

/// The names that a range which is none most likely stands for, so that no further mistake follows from it: both ends turned round, the beginning of
/// the first, dots too many left out; `None` where nothing of the kind is seen.
pub fn meant(text: &str) -> Option<Vec<String>> {
    let (first, last) = split_meant(text)?;
    let ((stem, from), (_, to)) = (stem_and_number(first), stem_and_number(last));
    let [low, high] = match (from.parse::<u32>().ok()?, to.parse::<u32>().ok()?) {
        (low, high) if low <= high => [from, &high.to_string()].map(String::from),
        (high, low) => [low.to_string(), high.to_string()],
    };
    names(&format!("{stem}{low}..{stem}{high}"))?.ok()
}

/// The two ends of what was meant as a range, with dots or with a dash between two names that begin alike ("A-1 – A-32").
fn split_meant(text: &str) -> Option<(&str, &str)> {
    if let Some((first, last)) = text.split_once("..") {
        return Some((first.trim(), last.trim_start_matches('.').trim()));
    }
    dashed(text)
}

/// The ends of a text that has a dash where a range has two dots, between two names with the same beginning and a number.
pub fn dashed(text: &str) -> Option<(&str, &str)> {
    let parts = [" - ", " – ", "–", " — ", "—", " to ", " bis "];
    let ends = parts.iter().find_map(|part| text.split_once(part))?;
    let (first, last) = (ends.0.trim(), ends.1.trim());
    let ((stem, from), (other_stem, to)) = (stem_and_number(first), stem_and_number(last));
    (!stem.is_empty() && stem == other_stem && !from.is_empty() && !to.is_empty()).then_some((first, last))
}

/// Why a text that is meant as a range of names is none.
pub fn what_does_not_fit(text: &str) -> Both {
    if let Some((first, last)) = dashed(text) {
        return BadRange::Dash { first, last }.both();
    }
    let Some((first, last)) = text.split_once("..") else { return BadRange::NoNumber { end: text }.both() };
    let (first, last) = (first.trim(), last.trim());
    let ((stem, from), (other_stem, to)) = (stem_and_number(first), stem_and_number(last));
    let (Ok(from_number), Ok(to_number)) = (from.parse::<u32>(), to.parse::<u32>()) else {
        // A number too long for one is too many.
        if let Some(end) = [first, last].into_iter().find(|end| stem_and_number(end).1.is_empty()) {
            return BadRange::NoNumber { end }.both();
        }
        return BadRange::TooMany { most: MOST as usize }.both();
    };
    if !other_stem.is_empty() && other_stem != stem {
        return BadRange::Beginnings { first, last }.both();
    }
    if to_number < from_number {
        return BadRange::Down { from, to }.both();
    }
    BadRange::TooMany { most: MOST as usize }.both()
}

/// What stands before the number at the end of a name, and the number.
fn stem_and_number(text: &str) -> (&str, &str) {
    text.split_at(text.len() - text.bytes().rev().take_while(u8::is_ascii_digit).count())
}

/// The stops of a range as a cable passes them: up or down ("A-10..A-1"), and the same further station of each dwelling ("A-1:2..A-3:2").
pub fn stops(text: &str) -> Option<Result<Vec<String>, NoRange>> {
    let (first, last) = text.split_once("..")?;
    let ((first, station), (last, same_station)) = (station_of(first.trim()), station_of(last.trim()));
    if station != same_station {
        return Some(Err(NoRange));
    }
    let passed = names(&format!("{first}..{last}"))?.or_else(|wrong| {
        let mut down = names(&format!("{last}..{first}")).unwrap_or(Err(wrong))?;
        down.reverse();
        Ok(down)
    });
    Some(passed.map(|all| all.into_iter().map(|name| name + station).collect()))
}

/// A name without the further station of the dwelling that stands behind it, and that with its colon: "A-1" and ":2" of "A-1:2".
fn station_of(name: &str) -> (&str, &str) {
    match name.rsplit_once(':') {
        Some((dwelling, ordinal))
            if !ordinal.is_empty() && ordinal.bytes().all(|one| one.is_ascii_digit()) =>
        {
            (dwelling, &name[dwelling.len()..])
        }
        _ => (name, ""),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all(text: &str) -> Vec<String> {
        names(text).and_then(Result::ok).unwrap_or_default()
    }

    #[test]
    fn what_does_not_fit_is_named() {
        let said = |text: &str| what_does_not_fit(text).of(latchline_finding::Language::English).to_string();
        for (text, first) in [
            ("A-3..A-1", "the range counts down from 3 to 1:"),
            ("A-1..B-3", "the ends of the range, A-1 and B-3, do not begin alike:"),
            ("A-1..A", "A does not end in a number:"),
            ("A-1..A-99999", "it stands for more than 2000 names:"),
            ("A-1..A-99999999999", "it stands for more than 2000 names:"),
        ] {
            assert!(said(text).starts_with(first), "{text}: {}", said(text));
        }
    }

    #[test]
    fn what_a_slip_in_a_range_stands_for_is_seen() {
        let three = ["A-1", "A-2", "A-3"].map(String::from).to_vec();
        for slip in ["A-3..A-1", "A-1..B-3", "A-1...A-3", "A-1 - A-3", "A-1–A-3", "A-1 to A-3"] {
            assert_eq!(meant(slip), Some(three.clone()), "{slip}");
        }
        for none in ["A-1", "A..B", "..", "1 - 3", "Flat 1 - west", "A-1..A-99999"] {
            assert_eq!(meant(none), None, "{none}");
        }
        assert_eq!(dashed("Flat 1 - Flat 9"), Some(("Flat 1", "Flat 9")));
        assert!(what_does_not_fit("A-1 – A-3").of(latchline_finding::Language::English).contains("A-1..A-3"));
    }

    #[test]
    fn ranges_count_up_and_keep_their_noughts() {
        assert_eq!(all("A-1..A-3"), ["A-1", "A-2", "A-3"]);
        assert_eq!(all("A-08..11"), ["A-08", "A-09", "A-10", "A-11"]);
        assert_eq!(all("7 .. 8"), ["7", "8"]);
        assert_eq!(all("Flat 9..Flat 10"), ["Flat 9", "Flat 10"]);
        assert_eq!(names("A-1"), None);
        let passed = |text: &str| stops(text).and_then(Result::ok).unwrap_or_default();
        assert_eq!(passed("A-1:2..A-3:2"), ["A-1:2", "A-2:2", "A-3:2"]);
        assert_eq!(passed("A-11..A-08"), ["A-11", "A-10", "A-09", "A-08"]);
        assert_eq!(passed("A-3:2..A-2:2"), ["A-3:2", "A-2:2"]);
        assert_eq!(passed("A-1..A-2"), ["A-1", "A-2"]);
        for wrong in ["A-1:2..A-3:3", "A-1:2..A-3", "A..B", "A-3..B-1", ".."] {
            assert_eq!(stops(wrong), Some(Err(NoRange)), "{wrong}");
        }
        for wrong in [
            "A-3..A-1",
            "A-1:2..A-3:2",
            "A-1..B-3",
            "A..B",
            "..",
            "A-1..",
            "A-1..A-99999",
            "A-1..A-99999999999",
        ] {
            assert_eq!(names(wrong), Some(Err(NoRange)), "{wrong}");
        }
    }
}
