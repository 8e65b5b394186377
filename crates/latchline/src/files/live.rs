//! The live files of a store, in their folder.

use super::{MayReplace, write};
use crate::refusal::{Refusal, in_words};
use latchline_store::{LiveError, LiveFolder};
use std::fs;
use std::io::{ErrorKind, Read as _};
use std::path::{Path, PathBuf};

/// A folder in which the site files of a store are kept up to date.
#[derive(Debug)]
pub struct LiveFiles {
    folder: PathBuf,
}

impl LiveFiles {
    /// Those in a folder.
    pub fn new(folder: &Path) -> Self {
        LiveFiles { folder: folder.to_path_buf() }
    }
}

impl LiveFolder for LiveFiles {
    fn read(&self, path: &str, most: usize) -> Result<Option<Vec<u8>>, LiveError> {
        let failed = |error: &std::io::Error| LiveError::Failed(in_words(error));
        let path = self.folder.join(path);
        let file = match fs::File::open(&path) {
            Ok(file) => file,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
            Err(error) => return Err(failed(&error)),
        };
        let mut bytes = Vec::new();
        file.take(most as u64 + 1).read_to_end(&mut bytes).map_err(|error| failed(&error))?;
        Ok(Some(bytes))
    }

    fn replace(&self, path: &str, was: Option<&[u8]>, text: &str) -> Result<(), LiveError> {
        let path = self.folder.join(path);
        let failed = |error: &Refusal| LiveError::Failed(error.both());
        if let Some(parent) = path.parent() {
            super::make_folder(parent).map_err(|error| failed(&error))?;
        }
        let may_replace = was.map_or(MayReplace::Nothing, MayReplace::Written);
        write(&path, text.as_bytes(), may_replace).map_err(|error| {
            // Somebody was quicker: it is read again.
            let now = fs::read(&path).ok();
            if now.as_deref() == was { failed(&error) } else { LiveError::Changed }
        })
    }
}
