//! A number of an argument as people write it: with a decimal point or, in German, a decimal comma.

use crate::refusal::{Refusal, Refused, Result};
use latchline_finding::Language;
use latchline_site::keys::{Dimension, UNITS, leading_number, spelled_unit, without_groups};
use latchline_words::figures;
use latchline_words::refusals::ArgumentRefusal;

/// A number, and whether it was written with a comma.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Decimal {
    value: f64,
    has_comma: bool,
}

impl Decimal {
    /// The number as it stands, a comma being a decimal one.
    pub(super) fn as_written(self) -> f64 {
        self.value
    }

    /// The number, in the unit that was asked for.
    ///
    /// # Errors
    /// If it has a comma and the answer is not in German: a comma may mean a thousand there.
    pub(super) fn in_language(self, option: &str, language: Language) -> Result<f64> {
        if self.has_comma && language != Language::German {
            return Err(ArgumentRefusal::HasComma { option, value: &self.value.to_string() }.into());
        }
        Ok(self.value)
    }
}

/// A length in metres: `6`, `6.5`, `6,5`, `6m`, `6.5 m`, `6.5 metres`. One in another unit is told in metres.
pub(super) fn metres(text: &str) -> Result<Decimal> {
    let together = without_groups(text).unwrap_or_else(|| text.to_string());
    if let Some(read) = read(&together, &["m", "M"]) {
        return Ok(read);
    }
    if let Some(end) = end_of_range(&together) {
        return Err(match metres(end) {
            Ok(read) => ArgumentRefusal::RangeOfMetres { text, metres: &read.value.to_string() }.into(),
            Err(_) => ArgumentRefusal::Range { text }.into(),
        });
    }
    let is_of_number = |sign: char| sign.is_ascii_digit() || "+-., ".contains(sign);
    let unit = together.trim().trim_start_matches(is_of_number);
    let spelled = spelled_unit(unit);
    if spelled.is_some_and(|meant| meant.symbol == "m" && meant.in_metres.is_none())
        && let Some(read) = read(&together, &[unit])
    {
        return Ok(read);
    }
    let factor = spelled.and_then(|meant| meant.in_metres).map(|(_, factor)| factor).or_else(|| {
        let known = UNITS.iter().find(|known| known.symbol == unit && known.dimension == Dimension::Length);
        known.map(|known| known.factor)
    });
    match factor.zip(leading_number(&together)) {
        Some((factor, number)) => {
            let metres = format!("{:.4}", number * factor);
            let metres = metres.trim_end_matches('0').trim_end_matches('.');
            Err(ArgumentRefusal::OtherUnit { text, metres }.into())
        }
        None => Err(ArgumentRefusal::NoMetres { text }.into()),
    }
}

/// That a length in metres is not between these.
pub(super) fn no_length(option: &str, value: f64, least: f64, most: f64) -> Refusal {
    Refusal::in_each(|language| {
        let [value, least, most] =
            &[value, least, most].map(|metres| figures::decimals(metres.to_string(), language));
        ArgumentRefusal::NoLength { option, value, least, most }.say(language)
    })
}

/// The longer end of a range with its unit: `60 m` of `50-60 m`, `50..60 m`, `50 to 60 m`, `50 m bis 60 m`.
fn end_of_range(text: &str) -> Option<&str> {
    let joints = ["...", "..", "–", "—", "-", "/", " to ", " bis ", " and ", " und "];
    joints.iter().find_map(|joint| {
        let (from, to) = text.split_once(joint)?;
        let [low, high] = [leading_number(from.trim())?, leading_number(to.trim())?];
        // From high to low the longer end comes first and has its unit with the other.
        if low <= high { Some(to.trim()) } else { Some(from.trim()) }
    })
}

/// A number of hours: `8`, `8.5`, `8,5`, `8 h`.
pub(super) fn hours(text: &str) -> Result<Decimal> {
    read(text, &["h"]).refused(|| ArgumentRefusal::NoHours { text })
}

fn read(text: &str, units: &[&str]) -> Option<Decimal> {
    let number = text.trim();
    let number = units.iter().find_map(|unit| number.strip_suffix(unit)).unwrap_or(number).trim_end();
    let has_comma = number.contains(',');
    // "1,000" and "1.000,5" may be thousands.
    if has_comma && (number.matches(',').count() > 1 || number.contains('.')) {
        return None;
    }
    let value: f64 = number.replace(',', ".").parse().ok()?;
    value.is_finite().then_some(Decimal { value, has_comma })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(text: &str) -> Result<Decimal, String> {
        metres(text).map_err(|refusal| refusal.to_string())
    }

    #[test]
    fn a_comma_is_a_decimal_in_german_and_asked_about_in_english() {
        for text in ["6.5", "6.5 m", "6.5M"] {
            let read = metres(text).map(|number| number.in_language("--total", Language::English).ok());
            assert_eq!(read, Ok(Some(6.5)), "{text}");
        }
        let comma = metres("6,5 m").expect("a number");
        assert_eq!(comma.in_language("--total", Language::German).ok(), Some(6.5));
        let asked = comma.in_language("--total", Language::English).expect_err("a comma").to_string();
        assert_eq!(
            asked,
            "--total has a comma in its number: write 6.5, or --language de for a decimal comma"
        );
        assert_eq!(hours("8,5 h").map(|number| number.value), Ok(8.5));
        // 200 ft are 60.96 m (0.3048 m to the foot, exact).
        assert_eq!(said("200 ft"), Err(String::from("200 ft is 60.96 m; write 60.96")));
        assert_eq!(said("200 feet"), Err(String::from("200 feet is 60.96 m; write 60.96")));
        for text in ["60 metres", "60 Meter", "60 mtr"] {
            assert_eq!(said(text).map(Decimal::as_written), Ok(60.0), "{text}");
        }
        // A chain that holds at the shorter end may not hold at the longer one.
        for text in [
            "50-60 m",
            "50 - 60 m",
            "50–60m",
            "50..60",
            "50 to 60 m",
            "50 m to 60 m",
            "50 bis 60 m",
            "60-50 m",
        ] {
            let asked = format!("{text} is a range: take the longer end, 60 m, so that it holds for both");
            assert_eq!(said(text), Err(asked), "{text}");
        }
        // 200 ft to the foot of 0.3048 m: the end in feet is told with the range.
        assert_eq!(
            said("150-200 ft"),
            Err(String::from(
                "150-200 ft is a range: take its longer end in metres, so that it holds for both"
            ))
        );
        assert_eq!(said("-5 m").map(Decimal::as_written), Ok(-5.0));
        assert_eq!(said("1 500 m").map(Decimal::as_written), Ok(1500.0));
        for text in ["", "m", "1.000,5", "1,000,5", "six", "nan", "inf"] {
            assert!(metres(text).is_err(), "{text}");
        }
    }
}
