//! The sites in the store, as pages need them: texts, revisions, who can take back what.

use crate::refused::Refused;
use latchline_finding::Language;
use latchline_store::{
    Conflict, FileChange, Number, Outcome, Proposal, Revision, Signed, SiteEntry, State, Store, StoreError,
    Submission, Texts,
};
use latchline_words::office::Told;

/// Revisions that a page lists.
const MOST_LISTED: usize = 500;

/// All sites.
#[derive(Debug)]
pub(crate) struct Archive {
    store: Store,
    engine: &'static str,
}

/// Who asks, and when.
#[derive(Debug, Clone)]
pub(crate) struct By<'a> {
    /// The page's own name: what it did it can take back.
    pub client: &'a str,
    /// Milliseconds since 1970.
    pub at_ms: i64,
}

impl From<StoreError> for Refused {
    fn from(error: StoreError) -> Self {
        match error {
            StoreError::NotThere(_) => Refused::NotFound,
            error => Refused::Unfit(error.to_string()),
        }
    }
}

impl Archive {
    pub fn new(store: Store, engine: &'static str) -> Self {
        Archive { store, engine }
    }

    fn signed(&self, by: &By<'_>, note: &str) -> Signed {
        Signed {
            at_ms: by.at_ms,
            client: by.client.to_string(),
            engine: self.engine.to_string(),
            note: note.chars().take(latchline_store::LONGEST_NOTE).collect(),
            ..Signed::default()
        }
    }

    /// All sites with their newest revision.
    pub fn list(&self) -> Result<Vec<SiteEntry>, Refused> {
        Ok(self.store.sites()?)
    }

    /// Takes a site in under this name, or one like it if it is taken; gives the name.
    pub fn create(&self, name: &str, files: &[(String, String)], by: &By<'_>) -> Result<String, Refused> {
        let mut files = files.iter();
        let (path, text) = files.next().ok_or(Refused::NotFound)?;
        let mut texts = Texts::new(path, text.as_str())?;
        for (path, text) in files {
            texts.put(path, text.as_str())?;
        }
        let signed = self.signed(by, "");
        for number in 1..1_000 {
            let free = if number == 1 { name.to_string() } else { format!("{name} {number}") };
            match self.store.create_site(&free, &texts, &signed) {
                Err(StoreError::NameTaken(_)) => {}
                made => return Ok(made.map(|site| site.name)?),
            }
        }
        Err(Refused::Unfit(StoreError::NameTaken(name.to_string()).to_string()))
    }

    fn site(&self, name: &str) -> Result<SiteEntry, Refused> {
        Ok(self.store.site_named(name)?)
    }

    /// What a site is made of now.
    pub fn head(&self, name: &str) -> Result<State, Refused> {
        Ok(self.store.head(self.site(name)?.id)?)
    }

    /// Its revisions, the newest first.
    pub fn history(&self, name: &str) -> Result<Vec<Revision>, Refused> {
        Ok(self.store.history(self.site(name)?.id, None, MOST_LISTED)?)
    }

    /// One of them.
    pub fn state(&self, name: &str, number: i64) -> Result<State, Refused> {
        Ok(self.store.state(self.site(name)?.id, Number(number))?)
    }

    /// Whether a client can take something back, and make it again.
    pub fn turns(&self, name: &str, client: &str) -> (bool, bool) {
        let turns = self.site(name).and_then(|site| Ok(self.store.turns(site.id, client)?));
        turns.map_or((false, false), |turns| (turns.undo.is_some(), turns.redo.is_some()))
    }

    /// A change of the site file, made on a revision.
    pub fn change(
        &self,
        name: &str,
        id: &str,
        base: i64,
        change: FileChange,
        note: &str,
        by: &By<'_>,
    ) -> Result<Outcome, Refused> {
        let files = vec![(self.site(name)?.file, change)];
        self.submit(name, id, Proposal::Change { base: Number(base), files }, note, by)
    }

    /// A change, or the client's last one taken back or made again, or an old state brought back.
    pub fn submit(
        &self,
        name: &str,
        id: &str,
        proposal: Proposal,
        note: &str,
        by: &By<'_>,
    ) -> Result<Outcome, Refused> {
        let site = self.site(name)?;
        let submission = Submission { id: id.to_string(), proposal, signed: self.signed(by, note) };
        Ok(self.store.submit(site.id, &submission)?)
    }
}

/// A conflict in words: where the two meet, what is there and what was wanted.
pub(crate) fn conflict(conflict: &Conflict, language: Language) -> Refused {
    let mut text = String::new();
    for clash in conflict.clashes.iter().take(8) {
        let place = if clash.place.is_empty() { &clash.path } else { &clash.place };
        text.push_str(&Told::Conflict { place }.say(language));
        let shown = |value: &Option<String>| value.as_deref().unwrap_or("–").trim().to_string();
        text.push('\n');
        text.push_str(&Told::Both { is: &shown(&clash.is), wanted: &shown(&clash.wanted) }.say(language));
        text.push('\n');
    }
    Refused::Conflict(text.trim_end().to_string())
}
