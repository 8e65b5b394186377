//! What people say when something does not work: what to measure first, and which findings it may come of.
//!
//! What is said is held against ways of saying it, word by word. A word counts the more the fewer symptoms have it, and one that is
//! denied ("no speech", "does not ring", "klingelt nicht") is another word than the same one affirmed.

mod search;
mod table;

use latchline_finding::Language;
pub use search::{Meant, meant_by};

/// A symptom as people tell it.
#[derive(Debug)]
pub struct Symptom {
    /// What it is called: English, German.
    title: [&'static str; 2],
    /// Ways in which people say it, in English and in German, in small letters.
    told: [&'static [&'static str]; 2],
    /// What to measure first: English, German.
    measure: [&'static str; 2],
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

/// Every symptom.
pub fn all() -> &'static [Symptom] {
    table::ALL
}

#[cfg(test)]
mod tests;
