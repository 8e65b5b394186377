//! How the files of a site stand in the folder beside the store.

use latchline_finding::{Both, Language, shown};
use latchline_store::Settled;
use latchline_words::office::Told;

/// How the files of a site stand.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) enum Files {
    /// There is no folder: the demo.
    #[default]
    Nowhere,
    /// They say what the newest revision says.
    Current { path: String },
    /// Another program changed them where something else was changed here; nothing is written until it is decided.
    Conflict { path: String, aside: i64, place: String },
    /// A file cannot be read as a text, and is left as it is.
    Unusable { path: String, why: Both },
    /// They could not be written; what was changed is safe in the store.
    Failed { path: String, why: Both },
}

impl Files {
    /// Of what came of bringing files and store together.
    pub fn of(path: &str, settled: &Settled) -> Self {
        let path = path.to_string();
        match settled {
            Settled::Current { .. } | Settled::TakenIn { .. } => Files::Current { path },
            Settled::Conflict { aside, clashes, .. } => {
                let place = clashes.first().map_or(String::new(), |clash| clash.place.clone());
                Files::Conflict { path, aside: aside.0, place }
            }
            Settled::Unusable { path, why } => Files::Unusable { path: path.clone(), why: why.clone() },
        }
    }

    /// In words; empty where there is no folder.
    pub fn say(&self, language: Language) -> String {
        match self {
            Files::Nowhere => String::new(),
            Files::Current { path } => Told::FileCurrent { file: &shown::name(path) }.say(language),
            Files::Conflict { path, place, .. } => {
                let place = if place.is_empty() { path } else { place };
                Told::FileConflict { file: &shown::name(path), place: &shown::name(place) }.say(language)
            }
            Files::Unusable { path, why } | Files::Failed { path, why } => {
                Told::FileTrouble { file: &shown::name(path), why: why.of(language) }.say(language)
            }
        }
    }

    /// Whether somebody has to do something about it.
    pub fn is_trouble(&self) -> bool {
        !matches!(self, Files::Nowhere | Files::Current { .. })
    }
}
