//! The sites in the store, as pages need them: texts, revisions, who can take back what.

use crate::files::Files;
use crate::refused::Refused;
use latchline_finding::{Both, Language, Sources};
use latchline_site::ParsedSite;
use latchline_store::{
    Conflict, FileChange, Kind, LARGEST_TEXT_BYTES, LiveFolder, Number, Outcome, Proposal, Revision, Settled,
    Signed, SiteEntry, State, Store, StoreError, Submission, Texts,
};
use latchline_words::office::{OfficeRefusal, Told};
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

/// Revisions that a page lists.
const MOST_LISTED: usize = 500;

/// A folder that the files of all sites are kept up to date in.
pub type Folder = Box<dyn LiveFolder + Send + Sync>;

/// All sites.
pub(crate) struct Archive {
    store: Store,
    engine: &'static str,
    folder: Option<Folder>,
    /// How the files of each site stood when they were last looked at.
    files: Mutex<BTreeMap<String, Files>>,
    /// What each site named and the store had not, at the revision that was looked at last.
    unread: Mutex<BTreeMap<String, (Number, Vec<String>)>>,
    /// One at a time brings files and store together.
    settling: Mutex<()>,
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
            error => Refused::Unfit(error.both()),
        }
    }
}

impl Archive {
    pub fn new(store: Store, engine: &'static str, folder: Option<Folder>) -> Self {
        Archive {
            store,
            engine,
            folder,
            files: Mutex::default(),
            unread: Mutex::default(),
            settling: Mutex::default(),
        }
    }

    /// The store, for the record of questions.
    pub fn store(&self) -> &Store {
        &self.store
    }

    /// Brings the files of a site and its newest revision together; whether a revision came of it.
    pub fn settle(&self, name: &str, at_ms: i64) -> Result<bool, Refused> {
        let Some(folder) = &self.folder else { return Ok(false) };
        let _one = self.settling.lock().unwrap_or_else(PoisonError::into_inner);
        let site = self.site(name)?;
        let signed = self.signed(&By { client: "file", at_ms }, "");
        let settle = || self.store.settle(site.id, folder.as_ref(), &signed);
        let mut settled = settle();
        let mut is_news = matches!(settled, Ok(Settled::TakenIn { .. }));
        if matches!(settled, Ok(Settled::Current { .. } | Settled::TakenIn { .. }))
            && self.take_in_named(&site, folder.as_ref(), at_ms)?
        {
            settled = settle();
            is_news = true;
        }
        let files = match settled {
            Ok(settled) => Files::of(&site.file, &settled),
            Err(error) => Files::Failed { path: site.file.clone(), why: error.both() },
        };
        let mut all = self.files.lock().unwrap_or_else(PoisonError::into_inner);
        let before = all.insert(name.to_string(), files.clone());
        Ok(is_news || before.is_some_and(|before| before != files))
    }

    /// Takes in the catalogues that the site file names and the store has not, as far as they lie in the folder; whether there were any.
    fn take_in_named(&self, site: &SiteEntry, folder: &dyn LiveFolder, at_ms: i64) -> Result<bool, Refused> {
        let head = self.store.head(site.id)?;
        let number = head.revision.number;
        let mut unread = self.unread.lock().unwrap_or_else(PoisonError::into_inner);
        let missing = match unread.get(&site.name) {
            Some((known, missing)) if *known == number => missing.clone(),
            _ => missing(&head.texts),
        };
        let mut files = Vec::new();
        for path in &missing {
            // What is no text, or lies elsewhere, is told where the site names it.
            let read = folder.read(path, LARGEST_TEXT_BYTES).ok().flatten();
            if let Some(text) = read.and_then(|bytes| String::from_utf8(bytes).ok())
                && head.texts.clone().put(path, text.as_str()).is_ok()
            {
                files.push((path.clone(), FileChange::Write(text)));
            }
        }
        unread.insert(site.name.clone(), (number, missing));
        if files.is_empty() {
            return Ok(false);
        }
        let note: Vec<String> = files.iter().map(|(path, _)| format!("+ {path}")).collect();
        let signed = self.signed(&By { client: "file", at_ms }, &note.join(", "));
        let id = format!("catalogues of revision {}", number.0);
        let submission = Submission { id, proposal: Proposal::Change { base: number, files }, signed };
        Ok(matches!(self.store.submit(site.id, &submission)?, Outcome::Accepted(_)))
    }

    /// How the files of a site stood when they were last looked at.
    pub fn files(&self, name: &str) -> Files {
        let all = self.files.lock().unwrap_or_else(PoisonError::into_inner);
        all.get(name).cloned().unwrap_or_default()
    }

    /// Decides a conflict for what was changed here: the files are written over; what they said stays as the revision aside.
    pub fn pass_over(&self, name: &str, aside: i64) -> Result<(), Refused> {
        Ok(self.store.pass_over(self.site(name)?.id, Number(aside))?)
    }

    /// A path for the file of a new site that no other site has.
    pub fn free_file(&self, name: &str) -> Result<String, Refused> {
        let plain = |sign: char| if sign.is_alphanumeric() || "-_.".contains(sign) { sign } else { '-' };
        let stem: String = name.chars().map(plain).collect();
        let stem = stem.trim_matches(['.', '-']);
        let stem = if stem.is_empty() { "site" } else { stem };
        let taken: Vec<String> = self.list()?.into_iter().map(|site| site.file.to_lowercase()).collect();
        let numbered = |number: usize| match number {
            1 => format!("{stem}.toml"),
            _ => format!("{stem}-{number}.toml"),
        };
        let free = (1..=taken.len() + 1).map(numbered).find(|file| !taken.contains(&file.to_lowercase()));
        free.ok_or(Refused::Broken(OfficeRefusal::NoFreeName))
    }

    /// Who did something and when, with which engine.
    pub fn signed(&self, by: &By<'_>, note: &str) -> Signed {
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
        Err(Refused::Unfit(StoreError::NameTaken(name.to_string()).both()))
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

    /// What the change says that undo (`is_back`) or redo of a client turns to, as it was first made.
    pub fn note_of_turn(&self, name: &str, client: &str, is_back: bool) -> Result<String, Refused> {
        let site = self.site(name)?.id;
        let turns = self.store.turns(site, client)?;
        let mut turned = if is_back { turns.undo } else { turns.redo };
        while let Some(Revision { kind: Kind::Undo | Kind::Redo, of: Some(of), .. }) = turned {
            turned = Some(self.store.state(site, of)?.revision);
        }
        Ok(turned.map_or_else(String::new, |revision| revision.signed.note))
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

/// The catalogues that a site file names and that are not among its texts.
fn missing(texts: &Texts) -> Vec<String> {
    let mut sources = Sources::new();
    let file = sources.add(texts.site_path(), Arc::clone(texts.site_text()));
    let mut named: Vec<String> = ParsedSite::new(file, sources.file(file))
        .catalogue_paths()
        .into_iter()
        .map(|path| path.value)
        .filter(|path| texts.get(path).is_none())
        .collect();
    named.sort();
    named.dedup();
    named
}

/// A conflict in words: where the two meet, what is there and what was wanted.
pub(crate) fn conflict(conflict: &Conflict) -> Refused {
    Refused::Conflict(Both::new(said(conflict, Language::English), said(conflict, Language::German)))
}

fn said(conflict: &Conflict, language: Language) -> String {
    let mut text = String::new();
    for clash in conflict.clashes.iter().take(8) {
        let place = if clash.place.is_empty() { &clash.path } else { &clash.place };
        text.push_str(&Told::Conflict { place }.say(language));
        let shown = |value: &Option<String>| value.as_deref().unwrap_or("–").trim().to_string();
        text.push('\n');
        text.push_str(&Told::Both { is: &shown(&clash.is), wanted: &shown(&clash.wanted) }.say(language));
        text.push('\n');
    }
    text.trim_end().to_string()
}
