//! A number of an argument as people write it: with a decimal point or, in German, a decimal comma.

use anyhow::{Result, bail};
use latchline_finding::Language;

/// A number, and whether it was written with a comma.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Decimal {
    value: f64,
    has_comma: bool,
}

impl Decimal {
    /// The number, in the unit that was asked for.
    ///
    /// # Errors
    /// If it has a comma and the answer is not in German: a comma may mean a thousand there.
    pub(super) fn in_language(self, option: &str, language: Language) -> Result<f64> {
        if self.has_comma && language != Language::German {
            bail!(
                "{option} has a comma in its number: write {}, or --language de for a decimal comma",
                self.value
            );
        }
        Ok(self.value)
    }
}

/// A length in metres: `6`, `6.5`, `6,5`, `6m`, `6.5 m`.
pub(super) fn metres(text: &str) -> Result<Decimal, String> {
    read(text, &["m", "M"]).ok_or_else(|| format!("\"{text}\" is no length in metres; write for example 6.5"))
}

/// A number of hours: `8`, `8.5`, `8,5`, `8 h`.
pub(super) fn hours(text: &str) -> Result<Decimal, String> {
    read(text, &["h"]).ok_or_else(|| format!("\"{text}\" is no number of hours; write for example 8.5"))
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
        for text in ["", "m", "1.000,5", "1,000,5", "six", "nan", "inf"] {
            assert!(metres(text).is_err(), "{text}");
        }
    }
}
