//! A folder for as long as the program runs.

use crate::refusal::{Refused, Result};
use latchline_words::refusals::FolderRefusal;
use std::fs;
use std::path::{Path, PathBuf};

/// A folder among those of the system for such things, which goes when it is dropped.
pub struct PassingFolder(PathBuf);

impl PassingFolder {
    /// Makes one with a name that nobody else has: this one, the number of the process and a moment.
    ///
    /// # Errors
    /// If it cannot be made.
    pub fn new(name: &str, at_ms: i64) -> Result<Self> {
        let folder = std::env::temp_dir().join(format!("{name}-{}-{at_ms}", std::process::id()));
        fs::create_dir(&folder).refused(|| FolderRefusal::NoPassingFolder)?;
        Ok(PassingFolder(folder))
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        &self.0
    }
}

impl Drop for PassingFolder {
    fn drop(&mut self) {
        // What is left lies where the system clears away.
        let _: std::io::Result<()> = fs::remove_dir_all(&self.0);
    }
}
