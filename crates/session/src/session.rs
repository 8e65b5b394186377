//! The text as it is now, and how it came about.

use crate::catalogues::{CatalogueReader, Shelf};
use crate::known::Known;
use crate::revision::Revision;
use crate::view::View;
use latchline_assess::{Memory, Wanted};
use latchline_finding::{Edit, FileId, SourceFile, Sources};
use latchline_site::ParsedSite;
use latchline_site::edit::{self, EditError};
use latchline_site::parse::Rows;
use std::collections::{BTreeMap, VecDeque};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

/// Texts of which everything that was worked out is kept, the newest among them.
const MOST_KNOWN: usize = 8;

/// A site file with the catalogues that it names.
#[derive(Debug, Clone)]
pub struct Files {
    /// All texts.
    pub sources: Sources,
    /// The site file among them.
    pub site_file: FileId,
    /// The catalogues among them that hold whatever the site file names, in their order.
    pub catalogues: Vec<FileId>,
    /// Those that it names, by the path at which it does.
    pub named: BTreeMap<String, FileId>,
}

/// A site that is being worked on.
#[derive(Debug)]
pub struct Session {
    site_file: FileId,
    shelf: Shelf,
    /// Rows of the texts that were read.
    rows: Rows,
    memory: Memory,
    /// Number of the text that is the newest, which all work looks at.
    newest: Arc<AtomicU64>,
    texts: u64,
    revision: Revision,
    now: Arc<Known>,
    /// Texts that were there before, the latest last.
    before: VecDeque<Arc<Known>>,
    undo: Vec<Edit>,
    redo: Vec<Edit>,
}

impl Session {
    /// Reads the files. Mistakes in them are findings.
    pub fn new(files: Files) -> Self {
        let site = files.sources.file(files.site_file).clone();
        Session::of_parsed(&ParsedSite::new(files.site_file, &site), files, None)
    }

    /// The same, the site file having been read as TOML before, with someone who reads the catalogues that a text names beside those given.
    pub fn of_parsed(site: &ParsedSite<'_>, files: Files, reader: Option<Box<dyn CatalogueReader>>) -> Self {
        let Files { sources, site_file, catalogues, named } = files;
        let memory = Memory::default();
        let mut shelf = Shelf::new(sources, catalogues, named, reader);
        let catalogues = shelf.of(&site.catalogue_paths(), None);
        let sources = shelf.texts().clone();
        let newest = Arc::new(AtomicU64::new(0));
        let resolved = catalogues.loaded.resolve_parsed(site);
        let wanted = Wanted::while_newest(Arc::clone(&newest), 0);
        let now = Arc::new(Known::new(0, sources, catalogues, resolved, &memory, wanted));
        Session {
            site_file,
            shelf,
            rows: Rows::default(),
            memory,
            newest,
            texts: 1,
            revision: Revision(0),
            now,
            before: VecDeque::new(),
            undo: Vec::new(),
            redo: Vec::new(),
        }
    }

    /// With someone who reads the catalogues that a text names newly; without, such a text cannot be used.
    #[must_use]
    pub fn with_reader(mut self, reader: impl CatalogueReader + 'static) -> Self {
        self.shelf.read_by(Box::new(reader));
        self
    }

    /// The newest revision.
    pub fn revision(&self) -> Revision {
        self.revision
    }

    /// The newest revision, to be asked for its stages.
    pub fn view(&self) -> View {
        View::new(self.revision, self.site_file, Arc::clone(&self.now))
    }

    /// Changes the text: all of the edit or, on an error, nothing. Work on the revision before is given up.
    ///
    /// # Errors
    /// If the edit does not fit the text; see [`edit::apply`].
    pub fn edit(&mut self, change: &Edit) -> Result<Revision, EditError> {
        let text = edit::apply_at(self.text(), &self.now.places, change)?;
        self.undo.push(edit::difference(&text, self.text()));
        self.redo.clear();
        Ok(self.go_to(text))
    }

    /// Changes the text by an edit that was made on an earlier view: where something else is now in its place, it is refused.
    ///
    /// # Errors
    /// As [`Session::edit`].
    pub fn edit_made_on(&mut self, view: &View, change: &Edit) -> Result<Revision, EditError> {
        let change = edit::expecting(view.text(), change)?;
        self.edit(&change)
    }

    /// Takes the last change back; `None` if there is none.
    pub fn undo(&mut self) -> Option<Revision> {
        let back = self.undo.pop()?;
        let (revision, again) = self.turn(&back)?;
        self.redo.push(again);
        Some(revision)
    }

    /// Makes the change again that was taken back last; `None` if there is none, or another was made since.
    pub fn redo(&mut self) -> Option<Revision> {
        let again = self.redo.pop()?;
        let (revision, back) = self.turn(&again)?;
        self.undo.push(back);
        Some(revision)
    }

    /// Applies an inverse edit; also gives what takes it back again.
    fn turn(&mut self, change: &Edit) -> Option<(Revision, Edit)> {
        // It was made from the very text that it is applied to.
        let text = edit::apply(self.text(), change).ok()?;
        let inverse = edit::difference(&text, self.text());
        Some((self.go_to(text), inverse))
    }

    fn text(&self) -> &str {
        &self.now.sources.file(self.site_file).text
    }

    fn go_to(&mut self, text: String) -> Revision {
        self.revision.0 += 1;
        if text == self.text() {
            return self.revision;
        }
        let is_it = |known: &Arc<Known>| *known.sources.file(self.site_file).text == *text;
        let next = match self.before.iter().position(is_it).and_then(|at| self.before.remove(at)) {
            Some(known) => known,
            None => {
                let number = self.texts;
                self.texts += 1;
                let name = self.now.sources.file(self.site_file).name.clone();
                let site = SourceFile { name, text: text.into() };
                let parsed = ParsedSite::with_rows(self.site_file, &site, &mut self.rows);
                let catalogues = self.shelf.of(&parsed.catalogue_paths(), Some(&self.now.catalogues));
                let resolved = catalogues.loaded.resolve_parsed(&parsed);
                let sources = self.shelf.sources(self.site_file, &site);
                let wanted = Wanted::while_newest(Arc::clone(&self.newest), number);
                Arc::new(Known::new(number, sources, catalogues, resolved, &self.memory, wanted))
            }
        };
        self.newest.store(next.number, Ordering::Release);
        self.before.push_back(std::mem::replace(&mut self.now, next));
        if self.before.len() >= MOST_KNOWN {
            self.before.pop_front();
        }
        self.revision
    }
}
