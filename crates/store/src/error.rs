//! What can go wrong with a store: what, where, and what to do.

use latchline_finding::shown;
use std::path::Path;

/// Why something could not be done. Whatever it is, nothing was changed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum StoreError {
    /// There is no such site, revision or name.
    #[error("there is no {0} in the store")]
    NotThere(String),
    /// A name is in use.
    #[error("the name \"{0}\" is in use; choose another")]
    NameTaken(String),
    /// What was given is not of a kind that can be kept; says what and why.
    #[error("{0}")]
    Unfit(String),
    /// An id came a second time with something else under it.
    #[error("the id \"{0}\" was used for another edit; every edit needs an id of its own")]
    IdReused(String),
    /// The store was made by a newer program.
    #[error(
        "the store \"{place}\" is of version {found}, made by a newer latchline; this one knows versions up to {known}: install the newer one (nothing was changed)"
    )]
    Newer {
        /// Where it is.
        place: String,
        /// Its version.
        found: i64,
        /// The latest version that this program knows.
        known: i64,
    },
    /// The file is something else.
    #[error("\"{0}\" is not a store of latchline; name another file or folder (nothing was changed)")]
    NotAStore(String),
    /// There is none yet.
    #[error("there is no store at \"{0}\"; check the path")]
    NoStore(String),
    /// No space is left.
    #[error(
        "no space is left for the store \"{0}\"; make room and do it again (what was acknowledged is kept)"
    )]
    Full(String),
    /// The medium or the file can only be read.
    #[error(
        "the store \"{0}\" can only be read; make file and folder writable, or copy them to another place (nothing was changed)"
    )]
    ReadOnly(String),
    /// Another process has it.
    #[error("the store \"{0}\" is busy: another program holds it; try again when it has finished")]
    Busy(String),
    /// It has been damaged.
    #[error(
        "the store \"{place}\" is damaged ({detail}); keep a copy of it, and restore the last backup: latchline store restore"
    )]
    Damaged {
        /// Where it is.
        place: String,
        /// What was found.
        detail: String,
    },
    /// The head was raised by somebody else while this was worked on; the store tries again by itself.
    #[error("somebody else changed the site at the same moment; try again")]
    Overtaken,
    /// Something else that the database or the system said.
    #[error("cannot use the store \"{place}\": {detail}")]
    Failed {
        /// Where it is.
        place: String,
        /// What was said.
        detail: String,
    },
}

impl StoreError {
    /// A path as it is told.
    pub(crate) fn place(path: &Path) -> String {
        shown::path(path)
    }

    /// Something that the caller gave and that cannot be kept.
    pub(crate) fn unfit(what: impl Into<String>) -> Self {
        StoreError::Unfit(what.into())
    }
}
