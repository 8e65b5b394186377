//! Language and units of what is printed.

use clap::{Args, ValueEnum};
use latchline_finding::{Language, Locale, Units};

/// Language and units.
#[derive(Debug, Clone, Copy, Args)]
pub struct LocaleArguments {
    /// Language of all sheets
    #[arg(long, value_enum, value_name = "LANGUAGE", default_value_t = LanguageChoice::En)]
    language: LanguageChoice,
    /// Units of length and temperature, and how conductor sizes are shown
    #[arg(long, value_enum, value_name = "UNITS", default_value_t = UnitsChoice::Metric)]
    units: UnitsChoice,
}

/// Language.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum LanguageChoice {
    /// English
    En,
    /// German
    De,
}

/// Units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum UnitsChoice {
    /// m, °C, mm²
    Metric,
    /// ft, °F, AWG
    Us,
}

/// Language of what is written for a person; names, keys and codes stay as they are.
#[derive(Debug, Clone, Copy, Args)]
pub struct LanguageArguments {
    /// Language of what is written for a person (json and sarif stay English)
    #[arg(long, value_enum, value_name = "LANGUAGE", default_value_t = LanguageChoice::En)]
    language: LanguageChoice,
}

impl LanguageArguments {
    /// What the argument means.
    pub fn language(&self) -> Language {
        self.language.language()
    }
}

impl LanguageChoice {
    fn language(self) -> Language {
        match self {
            LanguageChoice::En => Language::English,
            LanguageChoice::De => Language::German,
        }
    }
}

impl LocaleArguments {
    /// What the arguments mean.
    pub fn locale(&self) -> Locale {
        Locale {
            language: self.language.language(),
            units: match self.units {
                UnitsChoice::Metric => Units::Metric,
                UnitsChoice::Us => Units::Us,
            },
        }
    }
}
