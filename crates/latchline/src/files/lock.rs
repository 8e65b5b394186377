//! One program works on a folder at a time.

use crate::refusal::{Refused, Result};
use latchline_finding::shown;
use latchline_words::refusals::FolderRefusal;
use std::fs::{File, OpenOptions, TryLockError};
use std::io::{Read as _, Seek as _, Write as _};
use std::path::Path;

/// The file that is locked; it stays, since removing it would let two programs lock two files of one name.
const NAME: &str = ".latchline.lock";

/// The lock of a folder, held until it is dropped or the process ends, however it ends.
#[derive(Debug)]
pub struct FolderLock {
    _file: File,
}

impl FolderLock {
    /// Takes the lock.
    ///
    /// # Errors
    /// If another process holds it, which is named; or the folder cannot be written.
    pub fn take(folder: &Path) -> Result<Self> {
        let shown = shown::path(folder);
        let cannot = || FolderRefusal::CannotLock { folder: &shown };
        let options = OpenOptions::new().read(true).write(true).create(true).truncate(false).clone();
        let mut file = options.open(folder.join(NAME)).refused(cannot)?;
        match file.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => {
                let mut holder = String::new();
                // Who holds it is a help only.
                let _ = file.take(20).read_to_string(&mut holder);
                let process = holder.trim().parse::<usize>().ok();
                return Err(FolderRefusal::TakenByOther { process, folder: &shown }.into());
            }
            Err(TryLockError::Error(error)) => return Err(error).refused(cannot),
        }
        let written = file
            .set_len(0)
            .and_then(|()| file.rewind())
            .and_then(|()| file.write_all(std::process::id().to_string().as_bytes()));
        written.refused(cannot)?;
        Ok(FolderLock { _file: file })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_is_locked_once_and_by_name() {
        let folder = tempfile::tempdir().unwrap();
        let lock = FolderLock::take(folder.path()).unwrap();
        let refused = FolderLock::take(folder.path()).unwrap_err().to_string();
        assert!(refused.contains(&format!("process {}", std::process::id())), "{refused}");
        drop(lock);
        FolderLock::take(folder.path()).unwrap();
        assert!(FolderLock::take(&folder.path().join("none")).is_err());
    }
}
