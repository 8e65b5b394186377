//! The live files: site file and catalogues in the folder beside the store, for people who like an editor.
//!
//! What is true is the head. A file that says the same is done; one that says what it was last given, or any revision since, was not brought up
//! to date before something ended the program, and is now; anything else was written by another program, as a change of what the file
//! was last given. It becomes a revision where it goes together with what was changed here; where it does not, it is kept as a revision
//! aside, both are shown, and the file is left as it is until somebody has decided. A file that is gone is written again; one that the site no
//! longer has is left.

use crate::StoreError;
use crate::database::{Statements, Value};
use crate::hash;
use crate::rebase::merge_all;
use crate::revision::{Kind, Number, Revision, Signed, SiteId, State};
use crate::rows::{New, head_number, insert, state};
use crate::store::{Store, check_signed};
use crate::submission::Clash;
use crate::submit::{next_number, raise};
use crate::texts::{LARGEST_TEXT_BYTES, Texts};
use latchline_finding::Both;
use latchline_words::refusals::{LiveFault, NotKept};

/// How often it is begun anew because head or files changed meanwhile.
const MOST_TRIES: usize = 20;

/// Why a live file could not be replaced; nothing was changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LiveError {
    /// It is no longer what was read.
    Changed,
    /// What the system said, in a sentence without full stop.
    Failed(Both),
}

/// The folder of the live files, as whoever may touch files sees it.
pub trait LiveFolder {
    /// The bytes of a file; `None` if there is none. More than `most` bytes need not be given, but one more than that must be.
    ///
    /// # Errors
    /// What the system said.
    fn read(&self, path: &str, most: usize) -> Result<Option<Vec<u8>>, LiveError>;

    /// Puts a text in place of what was read (`None`: of nothing), so that at every moment and after every crash the file is what it was
    /// or all of the new, and the new is on the medium when this returns.
    ///
    /// # Errors
    /// [`LiveError::Changed`] if something else is there.
    fn replace(&self, path: &str, was: Option<&[u8]>, text: &str) -> Result<(), LiveError>;
}

/// How the files of a site stand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Settled {
    /// They say what the head says.
    Current {
        /// The head.
        head: Number,
        /// What had to be written for it.
        written: Vec<String>,
    },
    /// Another program changed them; the change is a revision now, and the files say what the head says.
    TakenIn {
        /// The revision.
        revision: Revision,
        /// What had to be written because something else was changed here meanwhile.
        written: Vec<String>,
    },
    /// Another program changed them, and something else was changed here. Both are kept; the files are left as they are until it is decided: bring
    /// the revision aside back, or take the head by [`Store::pass_over`].
    Conflict {
        /// What the files say, as a revision that the site does not follow.
        aside: Number,
        /// What was changed here.
        head: Number,
        /// Where they meet: `is` stands in the head, `wanted` in the file.
        clashes: Vec<Clash>,
    },
    /// A file cannot be read as a text of a site; it is left as it is, and nothing is written until it can.
    Unusable {
        /// The file.
        path: String,
        /// Why, in a sentence without full stop.
        why: Both,
    },
}

/// What the store knows of the files of a site.
struct Known {
    head: State,
    exported: Option<State>,
    aside: Option<State>,
}

/// A file as it was found.
struct Found {
    path: String,
    bytes: Option<Vec<u8>>,
}

impl Store {
    /// Brings files and head together; see [`Settled`]. `signed` is for a change that another program made.
    ///
    /// # Errors
    /// If there is no such site, or store or files cannot be written. Whatever was written by then is whole; doing it again goes on.
    pub fn settle(
        &self,
        site: SiteId,
        folder: &dyn LiveFolder,
        signed: &Signed,
    ) -> Result<Settled, StoreError> {
        check_signed(signed)?;
        let mut taken_in = None;
        for _ in 0..MOST_TRIES {
            let known = self.known(site)?;
            let found = match self.found(&known, folder) {
                Ok(found) => found,
                Err((path, why)) => return Ok(Settled::Unusable { path, why }),
            };
            if let Some(theirs) = self.outside(site, &known, &found)? {
                let base = known.exported.as_ref().unwrap_or(&known.head);
                let merged = match known.exported {
                    Some(_) => merge_all(&base.texts, &known.head.texts, &theirs)?,
                    None => Err(foreign(&known.head.texts, &theirs)),
                };
                match merged {
                    // The head has all of it: only the file lags behind.
                    Ok(texts) if texts == known.head.texts => {}
                    Ok(texts) => {
                        match self.take_in(site, &known, &texts, &theirs, signed) {
                            Ok(revision) => taken_in = Some(revision),
                            Err(StoreError::Overtaken) => {}
                            Err(error) => return Err(error),
                        }
                        continue;
                    }
                    Err(clashes) => {
                        let aside = self.put_aside(site, &known, &theirs, signed)?;
                        return Ok(Settled::Conflict { aside, head: known.head.revision.number, clashes });
                    }
                }
            }
            if let Some(written) = write_all(self.place(), &known.head.texts, &found, folder)? {
                let head = known.head.revision.number;
                self.record(site, &known, head)?;
                return Ok(match taken_in {
                    Some(revision) => Settled::TakenIn { revision, written },
                    None => Settled::Current { head, written },
                });
            }
        }
        Err(StoreError::Busy(self.place().to_string()))
    }

    /// Decides a conflict for what was changed here: what the files say stays in the store as the revision aside, and the next
    /// [`Store::settle`] writes the head over it.
    ///
    /// # Errors
    /// If that revision is not the one that the files were last found to be.
    pub fn pass_over(&self, site: SiteId, aside: Number) -> Result<(), StoreError> {
        self.write(|statements| {
            let sql = "update live set exported = aside, aside = null where site = $1 and aside = $2";
            match statements.run(sql, &[site.0.into(), aside.0.into()])? {
                0 => Err(StoreError::not_there(&NotKept::Undecided { number: &aside.0.to_string() })),
                _ => Ok(()),
            }
        })
    }

    /// The revision that the files were last given, and the one aside that is not decided.
    ///
    /// # Errors
    /// If it cannot be read.
    pub fn live_state(&self, site: SiteId) -> Result<(Option<Number>, Option<Number>), StoreError> {
        self.read(|statements| live_row(statements, site))
    }

    fn known(&self, site: SiteId) -> Result<Known, StoreError> {
        self.read(|statements| {
            let head = head_number(statements, site)?;
            let (exported, aside) = live_row(statements, site)?;
            let mut at = |number| state(statements, self.place(), site, number);
            Ok(Known {
                head: at(head)?,
                exported: exported.map(&mut at).transpose()?,
                aside: aside.map(&mut at).transpose()?,
            })
        })
    }

    /// The files that the site has or had when they were last written; or the one that cannot be used, and why.
    fn found(&self, known: &Known, folder: &dyn LiveFolder) -> Result<Vec<Found>, (String, Both)> {
        let mut paths: Vec<&str> = known.head.texts.files().map(|(path, _)| path).collect();
        if let Some(exported) = &known.exported {
            paths.extend(exported.texts.files().map(|(path, _)| path));
        }
        let mut found: Vec<Found> = Vec::new();
        for path in paths {
            if found.iter().any(|one| one.path == path) {
                continue;
            }
            let unusable = |why: Both| (path.to_string(), why);
            let bytes = folder.read(path, LARGEST_TEXT_BYTES).map_err(|error| match error {
                LiveError::Changed => unusable(LiveFault::Changes.both()),
                LiveError::Failed(why) => unusable(why),
            })?;
            if let Some(bytes) = &bytes {
                if bytes.len() > LARGEST_TEXT_BYTES {
                    return Err(unusable(LiveFault::TooLarge { most: LARGEST_TEXT_BYTES }.both()));
                }
                match std::str::from_utf8(bytes) {
                    Ok(text) if text.contains('\0') => {
                        return Err(unusable(LiveFault::ZeroByte.both()));
                    }
                    Ok(_) => {}
                    Err(error) => {
                        let at = error.valid_up_to() + 1;
                        return Err(unusable(LiveFault::NotText { byte: at }.both()));
                    }
                }
            }
            found.push(Found { path: path.to_string(), bytes });
        }
        Ok(found)
    }

    /// What another program made of what the files were last given; `None` if none did.
    fn outside(&self, site: SiteId, known: &Known, found: &[Found]) -> Result<Option<Texts>, StoreError> {
        let base = known.exported.as_ref().unwrap_or(&known.head);
        let mut theirs = base.texts.clone();
        let mut is_outside = false;
        for Found { path, bytes } in found {
            let Some(text) = bytes.as_deref().and_then(|bytes| std::str::from_utf8(bytes).ok()) else {
                continue;
            };
            let is_text = |state: &State| state.texts.get(path).is_some_and(|kept| **kept == *text);
            let is_left = known.head.texts.get(path).is_none();
            let is_ours = is_left
                || is_text(&known.head)
                || match &known.exported {
                    Some(exported) => is_text(exported) || self.is_since(site, exported, path, text)?,
                    None => false,
                };
            if !is_ours {
                theirs.put(path, text)?;
                is_outside = true;
            }
        }
        Ok(is_outside.then_some(theirs))
    }

    /// Whether a file is as a revision has it that came after what the files were last given: it was written, and the program ended before
    /// that was recorded.
    fn is_since(&self, site: SiteId, exported: &State, path: &str, text: &str) -> Result<bool, StoreError> {
        let values: [Value; 4] =
            [site.0.into(), path.into(), exported.revision.number.0.into(), hash::of_text(text).into()];
        let sql = "select t.number from revision_text t
            join revision r on r.site = t.site and r.number = t.number
            where t.site = $1 and t.path = $2 and t.number > $3 and t.hash = $4 and r.kind <> 'aside' limit 1";
        self.read(|statements| Ok(statements.row(sql, &values)?.is_some()))
    }

    /// Makes a revision of what another program changed, unless the head has moved.
    fn take_in(
        &self,
        site: SiteId,
        known: &Known,
        texts: &Texts,
        theirs: &Texts,
        signed: &Signed,
    ) -> Result<Revision, StoreError> {
        let parent = known.head.revision.number;
        self.write(|statements| {
            let number = raise(statements, site, parent)?;
            let new = New { number, parent: Some(parent), kind: Kind::Outside, of: None, texts, signed };
            let revision = insert(statements, site, &new, Some(&known.head.texts))?;
            if texts == theirs {
                // The files say it already.
                put_live(statements, site, Some(number), None)?;
            }
            Ok(revision)
        })
    }

    /// Keeps what the files say as a revision that the site does not follow, once.
    fn put_aside(
        &self,
        site: SiteId,
        known: &Known,
        theirs: &Texts,
        signed: &Signed,
    ) -> Result<Number, StoreError> {
        if let Some(aside) = known.aside.as_ref().filter(|aside| aside.texts == *theirs) {
            return Ok(aside.revision.number);
        }
        let base = known.exported.as_ref().unwrap_or(&known.head);
        self.write(|statements| {
            let number = next_number(statements, site)?;
            let sql = "update site set last = $1 where id = $2 and last = $3";
            if statements.run(sql, &[number.0.into(), site.0.into(), (number.0 - 1).into()])? != 1 {
                return Err(StoreError::Overtaken);
            }
            let parent = Some(base.revision.number);
            let new = New { number, parent, kind: Kind::Aside, of: None, texts: theirs, signed };
            insert(statements, site, &new, Some(&base.texts))?;
            let exported = known.exported.as_ref().map(|exported| exported.revision.number);
            put_live(statements, site, exported, Some(number))?;
            Ok(number)
        })
    }

    /// Records which revision the files have been given, unless it is known.
    fn record(&self, site: SiteId, known: &Known, exported: Number) -> Result<(), StoreError> {
        let before = known.exported.as_ref().map(|state| state.revision.number);
        if Some(exported) == before && known.aside.is_none() {
            return Ok(());
        }
        self.write(|statements| put_live(statements, site, Some(exported), None))
    }
}

/// The files that were there before the site had any.
fn foreign(head: &Texts, theirs: &Texts) -> Vec<Clash> {
    let differing = theirs.files().filter(|(path, text)| head.get(path) != Some(text));
    let clash = |(path, text): (&str, &std::sync::Arc<str>)| Clash {
        path: path.to_string(),
        place: String::new(),
        was: None,
        is: head.get(path).map(|text| text.to_string()),
        wanted: Some(text.to_string()),
        reason: String::from("the file was there before this site was"),
    };
    differing.map(clash).collect()
}

/// Writes what differs; `None` if a file changed meanwhile.
fn write_all(
    place: &str,
    head: &Texts,
    found: &[Found],
    folder: &dyn LiveFolder,
) -> Result<Option<Vec<String>>, StoreError> {
    let mut written = Vec::new();
    for (path, text) in head.files() {
        let was = found.iter().find(|one| one.path == path).and_then(|one| one.bytes.as_deref());
        if was == Some(text.as_bytes()) {
            continue;
        }
        match folder.replace(path, was, text) {
            Ok(()) => written.push(path.to_string()),
            Err(LiveError::Changed) => return Ok(None),
            Err(LiveError::Failed(detail)) => {
                return Err(StoreError::Failed { place: place.to_string(), detail });
            }
        }
    }
    Ok(Some(written))
}

fn live_row(
    statements: &mut dyn Statements,
    site: SiteId,
) -> Result<(Option<Number>, Option<Number>), StoreError> {
    let row = statements.row("select exported, aside from live where site = $1", &[site.0.into()])?;
    Ok(row.map_or((None, None), |row| (row.optional(0).map(Number), row.optional(1).map(Number))))
}

fn put_live(
    statements: &mut dyn Statements,
    site: SiteId,
    exported: Option<Number>,
    aside: Option<Number>,
) -> Result<(), StoreError> {
    let values: [Value; 3] =
        [site.0.into(), exported.map(|number| number.0).into(), aside.map(|number| number.0).into()];
    let sql = "insert into live (site, exported, aside) values ($1, $2, $3)
        on conflict (site) do update set exported = $2, aside = $3";
    statements.run(sql, &values)?;
    Ok(())
}
