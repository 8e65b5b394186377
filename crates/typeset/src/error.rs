//! Why a PDF could not be made.

use latchline_finding::{Both, Language};
use latchline_words::refusals::ResultRefusal;
use std::fmt;

/// Why a PDF could not be made: a mistake in Latchline, not in the site.
#[derive(Debug)]
pub enum TypesetError {
    /// The embedded font cannot be read.
    Font,
}

impl TypesetError {
    /// In words.
    pub fn both(&self) -> Both {
        match self {
            TypesetError::Font => ResultRefusal::NoFont.both(),
        }
    }
}

impl fmt::Display for TypesetError {
    /// In English, for tests and for other programs.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.both().of(Language::English))
    }
}

impl std::error::Error for TypesetError {}
