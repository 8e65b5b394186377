//! What the server holds: the archive, the sites that are open, and what bounds them.

use crate::archive::{Archive, By, Folder};
use crate::refused::Refused;
use crate::work::Work;
use latchline_finding::Both;
use latchline_store::Store;
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};
use tokio::sync::{Semaphore, watch};

/// Sites that are open at once; the one that was not asked for longest is closed.
const MOST_OPEN: usize = 12;
/// Long tasks of the engine at once, so that answering never starves.
const MOST_THINKING: usize = 2;

/// What the server is given.
#[derive(Debug, Clone)]
pub struct Options {
    /// A secret that pages carry and every write must show: nobody from elsewhere can know it.
    pub token: String,
    /// Milliseconds since the beginning of 1970, UTC.
    pub clock: fn() -> i64,
    /// The version of the engine.
    pub engine: &'static str,
    /// The demo: site file.
    pub demo: &'static str,
    /// Whether the store outlives the server, so that the record of questions does.
    pub keeps_record: bool,
}

/// A site to begin with: its name and files, the site file first.
#[derive(Debug, Clone)]
pub struct Initial {
    /// Name, used in addresses of pages.
    pub name: String,
    /// Path and text of the site file, then of its catalogues.
    pub files: Vec<(String, String)>,
}

/// Everything that the server holds.
pub struct Office {
    /// As given.
    pub(crate) options: Options,
    /// What is true.
    pub(crate) archive: Archive,
    /// Open sites, the one asked for last at the end.
    open: Mutex<VecDeque<Arc<Work>>>,
    /// Permits of long tasks.
    pub(crate) thinking: Arc<Semaphore>,
    /// Turns true when the server stops.
    pub(crate) stopping: watch::Sender<bool>,
    /// Writes of the last second.
    pub(crate) writes: Mutex<VecDeque<i64>>,
}

impl std::fmt::Debug for Office {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Office").field("options", &self.options).finish_non_exhaustive()
    }
}

impl Office {
    /// On a store, with the folder that the files of all sites are kept up to date in, if there is one. Sites that are not in it yet are
    /// taken in; what other programs made of files since is taken in too.
    ///
    /// # Errors
    /// Why a site cannot be taken in, in words.
    pub fn new(
        options: Options,
        store: Store,
        sites: &[Initial],
        folder: Option<Folder>,
    ) -> Result<Arc<Self>, Both> {
        let archive = Archive::new(store, options.engine, folder);
        let by = By { client: "files", at_ms: (options.clock)() };
        let words = |refused: Refused| refused.both();
        let known = archive.list().map_err(words)?;
        for site in sites.iter().filter(|site| known.iter().all(|known| known.name != site.name)) {
            archive.create(&site.name, &site.files, &by).map_err(words)?;
        }
        for site in archive.list().map_err(words)? {
            archive.settle(&site.name, by.at_ms).map_err(words)?;
        }
        Ok(Arc::new(Office {
            options,
            archive,
            open: Mutex::default(),
            thinking: Arc::new(Semaphore::new(MOST_THINKING)),
            stopping: watch::Sender::new(false),
            writes: Mutex::default(),
        }))
    }

    /// The sites that are open.
    pub(crate) fn all_open(&self) -> Vec<Arc<Work>> {
        self.open.lock().unwrap_or_else(PoisonError::into_inner).iter().cloned().collect()
    }

    /// A site if it is open.
    pub(crate) fn opened(&self, name: &str) -> Option<Arc<Work>> {
        let open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        open.iter().find(|work| work.name == name).cloned()
    }

    /// An open site; opens it if need be. Reads and resolves text: not for threads that answer.
    pub(crate) fn work(&self, name: &str) -> Result<Arc<Work>, Refused> {
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(at) = open.iter().position(|work| work.name == name)
            && let Some(work) = open.remove(at)
        {
            open.push_back(Arc::clone(&work));
            return Ok(work);
        }
        // What another program made of its file comes first; where that cannot be told, the site opens all the same and says so.
        self.archive.settle(name, (self.options.clock)())?;
        let head = self.archive.head(name)?;
        let work = Arc::new(Work::new(name, &head));
        if open.len() >= MOST_OPEN {
            open.pop_front();
        }
        open.push_back(Arc::clone(&work));
        Ok(work)
    }
}
