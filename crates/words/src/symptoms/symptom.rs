//! A symptom as people tell it.

use latchline_finding::Language;

/// A symptom as people tell it.
#[derive(Debug)]
pub struct Symptom {
    /// What it is called: English, German.
    pub(super) title: [&'static str; 2],
    /// Ways in which people say it, in English and in German, in small letters.
    pub(super) told: [&'static [&'static str]; 2],
    /// What to measure first: English, German.
    pub(super) measure: [&'static str; 2],
    /// Codes of what it may come of, likeliest first (common practice, no source).
    pub codes: &'static [&'static str],
}

impl Symptom {
    /// A short way of saying it, with which it is found.
    pub fn short(&self, language: Language) -> &'static str {
        crate::row::of(self.told.map(|ways| ways.first().copied().unwrap_or_default()), language)
    }

    /// What it is called.
    pub fn title(&self, language: Language) -> &'static str {
        crate::row::of(self.title, language)
    }

    /// What to measure first.
    pub fn measure(&self, language: Language) -> &'static str {
        crate::row::of(self.measure, language)
    }
}
