//! The catalogues of a text: those that hold for every text, and those that it names.

use latchline_finding::{Both, FileId, SourceFile, Sourced, Sources};
use latchline_site::LoadedCatalogues;
use latchline_words::terms::Term;
use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;

/// Who reads catalogues for a session, which itself knows no files.
pub trait CatalogueReader: fmt::Debug + Send + Sync {
    /// The text at a path as a site file names it, under the name that is shown of it.
    ///
    /// # Errors
    /// Why it cannot be read, in a sentence without full stop.
    fn read(&self, path: &str) -> Result<SourceFile, Both>;
}

/// The catalogues of one text.
#[derive(Debug, Clone)]
pub(crate) struct Catalogues {
    /// What the text names.
    named: Vec<String>,
    /// Those that could be read, in the order in which they hold.
    pub files: Vec<FileId>,
    pub loaded: Arc<LoadedCatalogues>,
}

/// Every catalogue that was read so far. What was read once stays as it was then.
#[derive(Debug)]
pub(crate) struct Shelf {
    /// Every text with its number; that of the site file is whichever came first.
    sources: Sources,
    always: Vec<FileId>,
    named: BTreeMap<String, FileId>,
    reader: Option<Box<dyn CatalogueReader>>,
}

impl Shelf {
    pub fn new(
        sources: Sources,
        always: Vec<FileId>,
        named: BTreeMap<String, FileId>,
        reader: Option<Box<dyn CatalogueReader>>,
    ) -> Self {
        Shelf { sources, always, named, reader }
    }

    /// Every text that was read.
    pub fn texts(&self) -> &Sources {
        &self.sources
    }

    pub fn read_by(&mut self, reader: Box<dyn CatalogueReader>) {
        self.reader = Some(reader);
    }

    /// The texts with this one of the site file.
    pub fn sources(&self, site_file: FileId, site: &SourceFile) -> Sources {
        self.sources.with_text(site_file, Arc::clone(&site.text))
    }

    /// The catalogues of a text that names these: as they were known, or with what is new read.
    pub fn of(&mut self, paths: &[Sourced<String>], known: Option<&Catalogues>) -> Catalogues {
        let is_same = |known: &&Catalogues| known.named.iter().eq(paths.iter().map(|path| &path.value));
        if let Some(known) = known.filter(is_same) {
            return known.clone();
        }
        let named: Vec<String> = paths.iter().map(|path| path.value.clone()).collect();
        let mut files = self.always.clone();
        let mut unread = BTreeMap::new();
        for path in &named {
            match self.file(path) {
                Ok(file) => files.push(file),
                Err(why) => {
                    unread.insert(path.clone(), why);
                }
            }
        }
        let loaded = Arc::new(LoadedCatalogues::new(&self.sources, &files).without(unread));
        Catalogues { named, files, loaded }
    }

    fn file(&mut self, path: &str) -> Result<FileId, Both> {
        if let Some(file) = self.named.get(path) {
            return Ok(*file);
        }
        let reader = self.reader.as_ref().ok_or_else(|| Term::NotGiven.both())?;
        let SourceFile { name, text } = reader.read(path)?;
        let file = self.sources.add(name, text);
        self.named.insert(path.to_string(), file);
        Ok(file)
    }
}
