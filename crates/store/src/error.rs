//! What can go wrong with a store: what, where, and what to do.

use latchline_finding::{Both, Language, shown};
use latchline_words::refusals::{NotKept, StoreFault, UnfitWords};
use std::fmt;
use std::path::Path;

/// Why something could not be done. Whatever it is, nothing was changed.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum StoreError {
    /// There is no such site, revision or name.
    NotThere(Both),
    /// A name is in use.
    NameTaken(String),
    /// What was given is not of a kind that can be kept; says what and why.
    Unfit(Both),
    /// An id came a second time with something else under it.
    IdReused(String),
    /// The store was made by a newer program.
    Newer {
        /// Where it is.
        place: String,
        /// Its version.
        found: i64,
        /// The latest version that this program knows.
        known: i64,
    },
    /// The file is something else.
    NotAStore(String),
    /// There is none yet.
    NoStore(String),
    /// No space is left.
    Full(String),
    /// The medium or the file can only be read.
    ReadOnly(String),
    /// Another process has it.
    Busy(String),
    /// It has been damaged.
    Damaged {
        /// Where it is.
        place: String,
        /// What was found.
        detail: Both,
    },
    /// The head was raised by somebody else while this was worked on; the store tries again by itself.
    Overtaken,
    /// Something else that the database or the system said.
    Failed {
        /// Where it is.
        place: String,
        /// What was said.
        detail: Both,
    },
}

impl StoreError {
    /// A path as it is told.
    pub(crate) fn place(path: &Path) -> String {
        shown::path(path)
    }

    /// Something that is not there.
    pub(crate) fn not_there(what: &NotKept<'_>) -> Self {
        StoreError::NotThere(what.both())
    }

    /// Something that the caller gave and that cannot be kept.
    pub(crate) fn unfit(why: &UnfitWords<'_>) -> Self {
        StoreError::Unfit(why.both())
    }

    /// In words.
    pub fn both(&self) -> Both {
        let said = match self {
            StoreError::Unfit(why) => return why.clone(),
            StoreError::NotThere(what) => StoreFault::NotThere { what },
            StoreError::NameTaken(name) => StoreFault::NameTaken { name },
            StoreError::IdReused(id) => StoreFault::IdReused { id },
            StoreError::Newer { place, found, known } => {
                let (found, known) = (&*found.to_string(), &*known.to_string());
                return StoreFault::Newer { place, found, known }.both();
            }
            StoreError::NotAStore(place) => StoreFault::NotAStore { place },
            StoreError::NoStore(place) => StoreFault::NoStore { place },
            StoreError::Full(place) => StoreFault::Full { place },
            StoreError::ReadOnly(place) => StoreFault::ReadOnly { place },
            StoreError::Busy(place) => StoreFault::Busy { place },
            StoreError::Damaged { place, detail } => StoreFault::Damaged { place, detail },
            StoreError::Overtaken => StoreFault::Overtaken,
            StoreError::Failed { place, detail } => StoreFault::Failed { place, detail },
        };
        said.both()
    }
}

impl fmt::Display for StoreError {
    /// In English, for tests and for other programs.
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(self.both().of(Language::English))
    }
}

impl std::error::Error for StoreError {}
