//! How the reader of printed sheets is used to words, numbers and units.

use crate::figure::{Figure, Unit};
use std::borrow::Cow;

/// Language of everything that Latchline writes itself; the user's own words stay as they are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Language {
    /// English.
    #[default]
    English,
    /// German.
    German,
}

impl Language {
    /// Each of them.
    pub const ALL: [Language; 2] = [Language::English, Language::German];
}

/// One thing said in every language. Made from the rows of the crate of words.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Both {
    name: Option<String>,
    english: Cow<'static, str>,
    german: Cow<'static, str>,
}

impl Both {
    /// In English and in German.
    pub fn new(english: impl Into<Cow<'static, str>>, german: impl Into<Cow<'static, str>>) -> Self {
        Self { name: None, english: english.into(), german: german.into() }
    }

    /// What is the same in every language: a symbol, a name.
    pub fn same(text: impl Into<Cow<'static, str>>) -> Self {
        let text = text.into();
        Self::new(text.clone(), text)
    }

    /// With a name for programs, where that is not the English.
    #[must_use]
    pub fn named(self, name: impl Into<String>) -> Self {
        Self { name: Some(name.into()), ..self }
    }

    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        self.english.is_empty()
    }

    /// What programs read: the name, else the English.
    pub fn name(&self) -> &str {
        self.name.as_deref().unwrap_or(&self.english)
    }

    /// In this language.
    pub fn of(&self, language: Language) -> &str {
        match language {
            Language::English => &self.english,
            Language::German => &self.german,
        }
    }
}

/// To which side a figure is rounded where it is shown: never to the better one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rounding {
    /// To the nearest; currents and loads up.
    Nearest,
    /// Down: least voltages, hours and capacities that are counted on, margins.
    Down,
    /// Up: highest voltages, currents, loads, what is needed, lengths to cut.
    Up,
}

/// Units of lengths and temperatures, and how conductor sizes are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Units {
    /// m, °C, mm².
    #[default]
    Metric,
    /// ft, °F; mm² sizes with the nearest AWG.
    Us,
}

/// Language and units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Locale {
    /// Language.
    pub language: Language,
    /// Units.
    pub units: Units,
}

impl From<Language> for Locale {
    /// In metric units.
    fn from(language: Language) -> Locale {
        Locale { language, units: Units::Metric }
    }
}

/// Metres of a foot: 0.3048 by definition (international yard and pound agreement of 1959; NIST Special Publication 811, appendix B.8; from
/// memory).
pub const METRES_PER_FOOT: f64 = 0.3048;
const FEET_PER_METRE: f64 = 1.0 / METRES_PER_FOOT;

impl Locale {
    /// The decimal sign.
    pub fn decimal_sign(&self) -> char {
        match self.language {
            Language::English => '.',
            Language::German => ',',
        }
    }

    /// A number with fixed decimals; zero has no sign.
    pub fn number(&self, value: f64, decimals: usize) -> String {
        let mut text = format!("{value:.decimals$}");
        if text.starts_with('-') && text.bytes().all(|byte| matches!(byte, b'-' | b'0' | b'.')) {
            text.remove(0);
        }
        self.decimals(text)
    }

    /// A number with at most so many decimals and no trailing zeros; zero has no sign.
    pub fn trimmed(&self, value: f64, decimals: usize) -> String {
        let text = self.number(value, decimals);
        let sign = self.decimal_sign();
        if text.contains(sign) { text.trim_end_matches('0').trim_end_matches(sign).to_string() } else { text }
    }

    /// A number written with a decimal point, with the reader's sign instead.
    pub fn decimals(&self, text: String) -> String {
        if self.decimal_sign() == '.' { text } else { text.replace('.', ",") }
    }

    /// Number, decimals and symbol of a figure in the reader's units.
    pub fn scaled(&self, figure: Figure) -> (f64, u8, &'static str) {
        let Figure { value, unit } = figure;
        match (unit, self.units) {
            (Unit::Metre, Units::Us) => (value * FEET_PER_METRE, 1, "ft"),
            (Unit::Celsius, Units::Us) => (value * 1.8 + 32.0, 0, "°F"),
            (Unit::Metre, Units::Metric) => (value, 1, "m"),
            (Unit::Celsius, Units::Metric) => (value, 0, "°C"),
            (Unit::Volt, _) => (value, 2, "V"),
            (Unit::Ampere, _) => (value, 3, "A"),
            (Unit::Watt, _) => (value, 1, "W"),
            (Unit::Ohm, _) => (value, if value != 0.0 && value.abs() < 0.1 { 4 } else { 2 }, self.ohm("ohm")),
            (Unit::Second, _) => (value, if value < 1.0 { 3 } else { 1 }, "s"),
            (Unit::Hour, _) => (value, 1, "h"),
            (Unit::Farad, _) => (value * 1e9, 2, "nF"),
            (Unit::AmpereHour, _) => (value, 1, "Ah"),
            (Unit::Hertz, _) => (value / 1e3, 2, "kHz"),
            (Unit::Decibel, _) => (value, 1, "dB"),
            (Unit::Percent, _) => (value * 100.0, 1, "%"),
            (Unit::Ratio, _) => (value, 2, ""),
            (Unit::Count, _) => (value, 0, ""),
        }
    }

    /// A unit of resistance, "ohm", "kohm", "Mohm" or "mohm", as the reader is used to it.
    pub fn ohm(&self, symbol: &'static str) -> &'static str {
        match (self.language, symbol) {
            (Language::English, _) => symbol,
            (Language::German, "mohm") => "mΩ",
            (Language::German, "kohm") => "kΩ",
            (Language::German, "Mohm") => "MΩ",
            (Language::German, _) => "Ω",
        }
    }

    /// Symbol of a unit in the reader's units.
    pub fn symbol(&self, unit: Unit) -> &'static str {
        self.scaled(Figure::new(1.0, unit)).2
    }

    /// A date written YYYY-MM-DD as the reader is used to it; anything else as it is.
    pub fn date(&self, date: &str) -> String {
        let mut parts = date.split('-');
        let (Some(year), Some(month), Some(day), None) =
            (parts.next(), parts.next(), parts.next(), parts.next())
        else {
            return date.to_string();
        };
        const MONTHS: [&str; 12] =
            ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
        let name = month.parse().ok().and_then(|number: usize| MONTHS.get(number.wrapping_sub(1)));
        let Some(name) = name else { return date.to_string() };
        let day_number = day.trim_start_matches('0');
        match (self.language, self.units) {
            (Language::German, _) => format!("{day}.{month}.{year}"),
            (Language::English, Units::Metric) => format!("{day_number} {name} {year}"),
            (Language::English, Units::Us) => format!("{name} {day_number}, {year}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ENGLISH: Locale = Locale { language: Language::English, units: Units::Metric };
    const GERMAN: Locale = Locale { language: Language::German, units: Units::Metric };
    const AMERICAN: Locale = Locale { language: Language::English, units: Units::Us };

    #[test]
    fn numbers_and_dates_by_locale() {
        assert_eq!([ENGLISH.number(41.5, 2), GERMAN.number(41.5, 2)], ["41.50", "41,50"]);
        assert_eq!([ENGLISH.trimmed(41.5, 2), GERMAN.trimmed(40.0, 2)], ["41.5", "40"]);
        assert_eq!([ENGLISH.trimmed(100.0, 0), GERMAN.trimmed(-0.001, 1)], ["100", "0"]);
        assert_eq!(ENGLISH.number(-0.001, 1), "0.0");
        assert_eq!(ENGLISH.date("2026-11-02"), "2 Nov 2026");
        assert_eq!(AMERICAN.date("2026-11-02"), "Nov 2, 2026");
        assert_eq!(GERMAN.date("2026-11-02"), "02.11.2026");
        assert_eq!(GERMAN.date("soon"), "soon");
    }
}
