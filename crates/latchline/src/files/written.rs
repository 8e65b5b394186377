//! What this run has written so far, so that who is told of a failure is told that too.

use latchline_words::refusals::FileNote;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

/// More are not told one by one.
const MOST: usize = 8;

static WRITTEN: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

/// Notes that a file or folder was written.
pub(super) fn note(path: &Path) {
    let mut written = WRITTEN.lock().unwrap_or_else(PoisonError::into_inner);
    if written.len() < MOST && !written.iter().any(|known| known == path) {
        written.push(path.to_path_buf());
    }
}

/// The files and folders that were written, the first ones of many.
pub fn written() -> Vec<PathBuf> {
    WRITTEN.lock().unwrap_or_else(PoisonError::into_inner).clone()
}

/// Says on standard error, in the language of the command, what is noteworthy of a file that was written.
pub(super) fn say(note: &FileNote<'_>) {
    // Nothing is left to tell it to if standard error is closed.
    let _ = writeln!(std::io::stderr(), "{}", note.say(crate::typed::language()));
}
