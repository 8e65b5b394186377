//! Sites and their revisions.

use crate::texts::Texts;

/// A site in the store.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SiteId(pub i64);

/// The number of a revision within its site, from 1 upwards; never used twice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Number(pub i64);

/// When a change is made, by whom, and with which engine: given by the caller, since nothing here reads a clock.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Signed {
    /// Milliseconds since the beginning of 1970, UTC.
    pub at_ms: i64,
    /// Who, as it is shown.
    pub by: String,
    /// Whose undo it is: changes of one client are taken back by that client, the last first.
    pub client: String,
    /// The version of the engine.
    pub engine: String,
    /// What it is about; may be empty.
    pub note: String,
}

/// How a revision came about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// The first.
    First,
    /// A change.
    Edit,
    /// A revision was taken back.
    Undo,
    /// A revision that took something back was taken back.
    Redo,
    /// An old state was brought back whole.
    BroughtBack,
    /// The live file was changed by another program.
    Outside,
    /// The live file was changed by another program and does not go together with what was changed here. It is kept, but the site
    /// does not follow it: it is no ancestor of the head.
    Aside,
}

impl Kind {
    const WORDS: [(Kind, &'static str); 7] = [
        (Kind::First, "first"),
        (Kind::Edit, "edit"),
        (Kind::Undo, "undo"),
        (Kind::Redo, "redo"),
        (Kind::BroughtBack, "brought back"),
        (Kind::Outside, "outside"),
        (Kind::Aside, "aside"),
    ];

    /// The word for it in the store.
    pub fn word(self) -> &'static str {
        Kind::WORDS.iter().find(|(kind, _)| *kind == self).map_or("edit", |(_, word)| word)
    }

    pub(crate) fn of_word(word: &str) -> Kind {
        Kind::WORDS.iter().find(|(_, known)| *known == word).map_or(Kind::Edit, |(kind, _)| *kind)
    }
}

/// A revision without its texts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Revision {
    /// Its number.
    pub number: Number,
    /// The revision that it was made from; the first has none.
    pub parent: Option<Number>,
    /// How it came about.
    pub kind: Kind,
    /// The revision that it takes back, makes again or brings back.
    pub of: Option<Number>,
    /// SHA-256 of its texts with their paths.
    pub hash: String,
    /// When, by whom, with which engine.
    pub signed: Signed,
    /// The names that were given to it, in order.
    pub names: Vec<String>,
}

/// A revision with its texts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct State {
    /// The revision.
    pub revision: Revision,
    /// Its texts.
    pub texts: Texts,
}

/// A site in a list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SiteEntry {
    /// The site.
    pub id: SiteId,
    /// Its name, used once in a store.
    pub name: String,
    /// The path of its site file.
    pub file: String,
    /// Its newest revision.
    pub head: Revision,
}
