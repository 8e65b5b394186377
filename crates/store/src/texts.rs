//! The texts of one revision.

use crate::StoreError;
use crate::hash;
use latchline_words::refusals::{KeptThing, UnfitWords};
use std::sync::Arc;

/// Bytes of the largest text that is kept.
pub const LARGEST_TEXT_BYTES: usize = 8_000_000;
/// Most files of a site: the site file and its own catalogues.
pub const MOST_FILES: usize = 64;
/// Signs of the longest path.
pub const LONGEST_PATH: usize = 240;

/// A site file and its own catalogues, each by its path: relative to the folder of the live files, its parts separated by `/`.
/// The built-in catalogue belongs to the engine and is not among them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Texts {
    /// The site file first, then the catalogues in their order.
    files: Vec<(String, Arc<str>)>,
}

impl Texts {
    /// A site file alone.
    ///
    /// # Errors
    /// If path or text cannot be kept.
    pub fn new(path: &str, text: impl Into<Arc<str>>) -> Result<Self, StoreError> {
        let mut texts = Texts { files: Vec::new() };
        texts.put(path, text)?;
        Ok(texts)
    }

    /// Puts a file in place of the one with this path, or behind all others.
    ///
    /// # Errors
    /// If path or text cannot be kept, or there are too many files.
    pub fn put(&mut self, path: &str, text: impl Into<Arc<str>>) -> Result<(), StoreError> {
        let text = text.into();
        check_path(path)?;
        check_text(path, &text)?;
        match self.files.iter().position(|(known, _)| known == path) {
            Some(at) => self.files[at].1 = text,
            None if self.files.len() >= MOST_FILES => {
                return Err(StoreError::unfit(&UnfitWords::TooManyFiles { most: MOST_FILES }));
            }
            None => self.files.push((path.to_string(), text)),
        }
        Ok(())
    }

    /// Takes a catalogue out.
    ///
    /// # Errors
    /// If it is the site file.
    pub fn take_out(&mut self, path: &str) -> Result<(), StoreError> {
        if path == self.site_path() {
            return Err(StoreError::unfit(&UnfitWords::NoSiteFile));
        }
        self.files.retain(|(known, _)| known != path);
        Ok(())
    }

    /// The path of the site file.
    pub fn site_path(&self) -> &str {
        &self.files[0].0
    }

    /// The text of the site file.
    pub fn site_text(&self) -> &Arc<str> {
        &self.files[0].1
    }

    /// The catalogues in their order, path and text.
    pub fn catalogues(&self) -> impl Iterator<Item = (&str, &Arc<str>)> {
        self.files[1..].iter().map(|(path, text)| (path.as_str(), text))
    }

    /// All files, the site file first.
    pub fn files(&self) -> impl Iterator<Item = (&str, &Arc<str>)> {
        self.files.iter().map(|(path, text)| (path.as_str(), text))
    }

    /// The text at a path.
    pub fn get(&self, path: &str) -> Option<&Arc<str>> {
        self.files.iter().find(|(known, _)| known == path).map(|(_, text)| text)
    }

    /// SHA-256 of all paths and texts.
    pub fn hash(&self) -> String {
        hash::of_parts(self.files.iter().flat_map(|(path, text)| [path.as_str(), text]))
    }
}

/// Refuses what could lead out of the folder of live files, or be read there as something else.
fn check_path(path: &str) -> Result<(), StoreError> {
    let shown = &*latchline_finding::shown::name(path);
    let why = if path.is_empty() || path.chars().count() > LONGEST_PATH {
        UnfitWords::PathLength { path: shown, most: LONGEST_PATH }
    } else if path.contains(['\\', ':']) || path.chars().any(latchline_finding::shown::is_hidden) {
        UnfitWords::PathSigns { path: shown }
    } else if path.split('/').any(|part| part.is_empty() || part.starts_with('.')) {
        UnfitWords::PathOut { path: shown }
    } else {
        return Ok(());
    };
    Err(StoreError::unfit(&why))
}

fn check_text(path: &str, text: &str) -> Result<(), StoreError> {
    let shown = &*latchline_finding::shown::name(path);
    if text.len() > LARGEST_TEXT_BYTES {
        return Err(StoreError::unfit(&UnfitWords::TextTooLarge {
            path: shown,
            bytes: text.len(),
            most: LARGEST_TEXT_BYTES,
        }));
    }
    if text.contains('\0') {
        return Err(StoreError::unfit(&UnfitWords::TextZeroByte { path: shown }));
    }
    Ok(())
}

/// Refuses a line of text that is empty where it may not be, too long, or holds a zero byte.
pub(crate) fn check_words(what: KeptThing, text: &str, most: usize) -> Result<(), StoreError> {
    if text.chars().count() > most {
        return Err(StoreError::unfit(&UnfitWords::TooLong { what, most }));
    }
    if text.contains('\0') {
        return Err(StoreError::unfit(&UnfitWords::ZeroByte { what }));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_stay_in_their_folder() {
        for path in ["site.toml", "catalogues/our own.toml", "a/b/ü.toml"] {
            assert!(Texts::new(path, "").is_ok(), "{path}");
        }
        for path in
            ["", "/etc/x", "../x", "a/../x", "a//b", "a\\b", "C:x", ".hidden", "a/.b", "a\nb", "a\u{202e}b"]
        {
            assert!(Texts::new(path, "").is_err(), "{path:?}");
        }
        assert!(Texts::new(&"x".repeat(LONGEST_PATH + 1), "").is_err());
    }

    #[test]
    fn sizes_are_bounded() {
        assert!(Texts::new("a", "x".repeat(LARGEST_TEXT_BYTES)).is_ok());
        assert!(Texts::new("a", "x".repeat(LARGEST_TEXT_BYTES + 1)).is_err());
        assert!(Texts::new("a", "x\0").is_err());
        let mut texts = Texts::new("0", "").unwrap();
        for number in 1..MOST_FILES {
            texts.put(&number.to_string(), "").unwrap();
        }
        assert!(texts.put("one more", "").is_err());
        assert!(texts.put("1", "again").is_ok());
        assert!(texts.take_out("0").is_err());
    }
}
