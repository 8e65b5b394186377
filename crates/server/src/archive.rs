//! The texts of sites and how they came about.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// Revisions of one site that are kept.
const MOST_REVISIONS: usize = 2_000;

/// One revision.
#[derive(Debug, Clone)]
pub(crate) struct Revision {
    /// Number, from 1.
    pub number: i64,
    /// Text of the site file.
    pub text: Arc<str>,
    /// What it changed, in the words of who did.
    pub note: String,
    /// When, in milliseconds since 1970.
    pub at_ms: i64,
}

#[derive(Debug, Default)]
struct Kept {
    /// Path of the site file, then catalogues.
    path: String,
    catalogues: Vec<(String, String)>,
    revisions: Vec<Revision>,
    undo: Vec<(Arc<str>, String)>,
    redo: Vec<(Arc<str>, String)>,
    /// Ids that were answered, with the revision that came of them.
    answered: BTreeMap<String, i64>,
}

/// What a site is made of.
#[derive(Debug, Clone)]
pub(crate) struct SiteFiles {
    /// Path and newest text of the site file.
    pub path: String,
    /// The newest revision.
    pub head: Revision,
    /// Path and text of the catalogues.
    pub catalogues: Vec<(String, String)>,
}

/// All sites.
#[derive(Debug, Default)]
pub(crate) struct Archive {
    sites: Mutex<BTreeMap<String, Kept>>,
}

impl Archive {
    fn sites(&self) -> MutexGuard<'_, BTreeMap<String, Kept>> {
        self.sites.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Names of all sites with their newest revision.
    pub fn list(&self) -> Vec<(String, Revision)> {
        let sites = self.sites();
        let newest = |kept: &Kept| kept.revisions.last().cloned();
        sites.iter().filter_map(|(name, kept)| Some((name.clone(), newest(kept)?))).collect()
    }

    /// Takes a site in under this name, or one like it if it is taken; gives the name.
    pub fn create(&self, name: &str, files: Vec<(String, String)>, at_ms: i64) -> String {
        let mut sites = self.sites();
        let mut free = name.to_string();
        let mut number = 2;
        while sites.contains_key(&free) {
            free = format!("{name}-{number}");
            number += 1;
        }
        let mut files = files.into_iter();
        let (path, text) = files.next().unwrap_or_default();
        let first = Revision { number: 1, text: text.into(), note: String::new(), at_ms };
        let kept = Kept { path, catalogues: files.collect(), revisions: vec![first], ..Kept::default() };
        sites.insert(free.clone(), kept);
        free
    }

    /// What a site is made of now.
    pub fn files(&self, name: &str) -> Option<SiteFiles> {
        let sites = self.sites();
        let kept = sites.get(name)?;
        let head = kept.revisions.last()?.clone();
        Some(SiteFiles { path: kept.path.clone(), head, catalogues: kept.catalogues.clone() })
    }

    /// Its revisions, the first first.
    pub fn history(&self, name: &str) -> Vec<Revision> {
        self.sites().get(name).map(|kept| kept.revisions.clone()).unwrap_or_default()
    }

    /// One of them.
    pub fn revision(&self, name: &str, number: i64) -> Option<Revision> {
        self.sites().get(name)?.revisions.iter().find(|revision| revision.number == number).cloned()
    }

    /// The revision that an id was answered with.
    pub fn answered(&self, name: &str, id: &str) -> Option<i64> {
        self.sites().get(name)?.answered.get(id).copied()
    }

    /// Appends a revision.
    pub fn append(&self, name: &str, id: &str, text: &str, note: &str, at_ms: i64) -> Option<Revision> {
        let mut sites = self.sites();
        let kept = sites.get_mut(name)?;
        let head = kept.revisions.last()?.clone();
        kept.undo.push((head.text, note.to_string()));
        kept.redo.clear();
        Some(kept.put(id, text.into(), note.to_string(), at_ms))
    }

    /// Takes the last change back, or makes it again; `None` if there is none.
    pub fn turn(&self, name: &str, back: bool, say: impl Fn(&str) -> String, at_ms: i64) -> Option<Revision> {
        let mut sites = self.sites();
        let kept = sites.get_mut(name)?;
        let head = kept.revisions.last()?.clone();
        let (text, note) = if back { kept.undo.pop()? } else { kept.redo.pop()? };
        let other = if back { &mut kept.redo } else { &mut kept.undo };
        other.push((head.text, note.clone()));
        Some(kept.put("", text, say(&note), at_ms))
    }

    /// Whether something can be taken back, and made again.
    pub fn turns(&self, name: &str) -> (bool, bool) {
        self.sites().get(name).map_or((false, false), |kept| (!kept.undo.is_empty(), !kept.redo.is_empty()))
    }
}

impl Kept {
    fn put(&mut self, id: &str, text: Arc<str>, note: String, at_ms: i64) -> Revision {
        let number = self.revisions.last().map_or(1, |last| last.number + 1);
        let revision = Revision { number, text, note, at_ms };
        self.revisions.push(revision.clone());
        if self.revisions.len() > MOST_REVISIONS {
            self.revisions.remove(0);
        }
        if !id.is_empty() {
            self.answered.insert(id.to_string(), number);
        }
        revision
    }
}
