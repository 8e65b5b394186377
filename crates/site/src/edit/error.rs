//! Why an edit could not be applied.

use crate::parse::toml_mistake;
use latchline_finding::{Both, EditStep, Language};
use latchline_words::refusals::SiteRefusal;
use std::fmt;

/// Why an edit could not be applied. The path is in the user's words, as `runs.A-R1.length`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum EditError {
    /// The text is not valid TOML, so that nothing can be edited in it.
    Syntax(String),
    /// Nothing is there.
    NoSuchPlace(String),
    /// What is there is not a table, or not an array, as the edit needs.
    WrongPlace(String),
    /// The new value is not a TOML value.
    BadValue(String),
    /// What is there is not what the edit expects: the text has changed since the edit was made.
    Changed(String),
    /// The new name is taken.
    NameTaken(String),
    /// The path is empty.
    EmptyPath,
}

impl EditError {
    /// In words.
    pub fn both(&self) -> Both {
        match self {
            EditError::Syntax(message) => {
                return SiteRefusal::NoTomlText { detail: &toml_mistake(message) }.both();
            }
            EditError::NoSuchPlace(place) => SiteRefusal::NoPlace { place },
            EditError::WrongPlace(place) => SiteRefusal::OtherPlace { place },
            EditError::BadValue(value) => SiteRefusal::NoValue { value },
            EditError::Changed(place) => SiteRefusal::ChangedSince { place },
            EditError::NameTaken(place) => SiteRefusal::NameTaken { place },
            EditError::EmptyPath => SiteRefusal::NoPath,
        }
        .both()
    }
}

impl fmt::Display for EditError {
    /// In English, for tests and for other programs.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.both().of(Language::English))
    }
}

impl std::error::Error for EditError {}

/// A path in the user's words.
pub(super) fn words(path: &[EditStep]) -> String {
    let steps = path.iter().map(|step| match step {
        EditStep::Key(key) => key.clone(),
        EditStep::Index(index) => format!("[{index}]"),
    });
    steps.collect::<Vec<_>>().join(".")
}
