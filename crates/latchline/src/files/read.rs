//! Reading files, with a clear message for everything that is not one.

use crate::refusal::{Refusal, Refused, Result};
use latchline_finding::{Both, shown};
use latchline_words::refusals::FileRefusal;
use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::Path;
use std::sync::Arc;

/// Files larger than this are not read.
const LARGEST_BYTES: u64 = 100_000_000;

/// The byte order mark of UTF-8.
const MARK: &str = "\u{feff}";

/// A text as it was read, to be held against the file before it is changed.
#[derive(Debug, Clone)]
pub struct Original {
    /// The text, without byte order mark.
    pub text: Arc<str>,
    /// Whether the file begins with a byte order mark.
    is_marked: bool,
}

impl Original {
    fn mark(&self) -> &'static str {
        if self.is_marked { MARK } else { "" }
    }

    /// The bytes of a file with another text, marked as this one is.
    pub fn bytes_with(&self, text: &str) -> Vec<u8> {
        [self.mark(), text].concat().into_bytes()
    }

    /// Whether a file still holds what was read.
    ///
    /// # Errors
    /// If it cannot be read.
    pub fn is(&self, file: &mut dyn Read) -> std::io::Result<bool> {
        let length = self.mark().len() + self.text.len();
        let mut found = Vec::with_capacity(length + 1);
        file.take(length as u64 + 1).read_to_end(&mut found)?;
        Ok(found.strip_prefix(self.mark().as_bytes()).is_some_and(|text| *text == *self.text.as_bytes()))
    }
}

/// A text, without byte order mark. `-` reads `input`.
///
/// # Errors
/// If there is no such file, or it is a directory, unreadable, too large, or not UTF-8.
pub fn read_text(path: &Path, input: &mut dyn Read) -> Result<String> {
    Ok(original(path, read_bytes(path, input)?)?.text.as_ref().to_owned())
}

/// What was read from a file (see [`read_bytes`]) as text, together with how it begins.
///
/// # Errors
/// If it is not UTF-8.
pub fn original(path: &Path, bytes: Vec<u8>) -> Result<Original> {
    text(bytes).refused(|| cannot_use(path))
}

/// That what was read from a file, or from standard input, cannot be used.
pub fn cannot_use(path: &Path) -> Both {
    match is_standard_input(path) {
        true => FileRefusal::CannotUseInput.both(),
        false => FileRefusal::CannotUse { file: &shown::path(path) }.both(),
    }
}

/// What is in a file, up to a hundred million bytes. `-` reads `input`.
///
/// # Errors
/// If there is no such file, or it is a directory, unreadable or too large.
pub fn read_bytes(path: &Path, input: &mut dyn Read) -> Result<Vec<u8>> {
    if is_standard_input(path) {
        return limited(input).refused(|| FileRefusal::CannotReadInput);
    }
    read_file(path).refused(|| FileRefusal::CannotRead { file: &shown::path(path) }.both())
}

fn is_standard_input(path: &Path) -> bool {
    path == Path::new("-")
}

fn read_file(path: &Path) -> Result<Vec<u8>> {
    let explained = |error: std::io::Error| match error.kind() {
        ErrorKind::NotFound => {
            if let Ok(to) = std::fs::read_link(path) {
                return FileRefusal::DeadLink { file: &shown::path(&to) }.into();
            }
            let ends = |ending| path.extension().is_some_and(|own| own.eq_ignore_ascii_case(ending));
            match (ends("toml"), ends("xlsx")) {
                (true, _) => FileRefusal::NoSuchSite.into(),
                (_, true) => FileRefusal::NoSuchSurvey.into(),
                (false, false) => FileRefusal::NoSuchFile.into(),
            }
        }
        ErrorKind::PermissionDenied => FileRefusal::MayNotRead.into(),
        ErrorKind::IsADirectory => FileRefusal::IsDirectory.into(),
        _ => Refusal::from(error),
    };
    let file = File::open(path).map_err(explained)?;
    if file.metadata().map_err(explained)?.is_dir() {
        return Err(FileRefusal::IsDirectory.into());
    }
    limited(&mut { file })
}

fn limited(input: &mut dyn Read) -> Result<Vec<u8>> {
    let mut bytes = Vec::new();
    input.take(LARGEST_BYTES + 1).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > LARGEST_BYTES {
        return Err(FileRefusal::TooLarge { megabytes: (LARGEST_BYTES / 1_000_000) as usize }.into());
    }
    Ok(bytes)
}

fn text(bytes: Vec<u8>) -> Result<Original> {
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err(FileRefusal::Utf16.into());
    }
    let others = [(&b"PK\x03\x04"[..], FileRefusal::PackedNotText), (b"%PDF", FileRefusal::PdfNotText)];
    if let Some((_, refusal)) = others.into_iter().find(|(beginning, _)| bytes.starts_with(beginning)) {
        return Err(refusal.into());
    }
    let text = String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        let bytes = error.as_bytes();
        let line = bytes[..at].iter().filter(|byte| **byte == b'\n').count() + 1;
        Refusal::from(FileRefusal::NotUtf8 { byte: at + 1, line, value: &format!("0x{:02x}", bytes[at]) })
    })?;
    Ok(match text.strip_prefix(MARK) {
        Some(rest) => Original { text: Arc::from(rest), is_marked: true },
        None => Original { text: Arc::from(text), is_marked: false },
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn message(bytes: &[u8]) -> String {
        format!("{:#}", read_text(Path::new("-"), &mut { bytes }).unwrap_err())
    }

    #[test]
    fn a_byte_order_mark_is_accepted() {
        assert_eq!(read_text(Path::new("-"), &mut "\u{feff}a = 1".as_bytes()).unwrap(), "a = 1");
    }

    #[test]
    fn what_is_not_utf8_is_told_with_its_place() {
        assert!(message(b"a = 1\nb = \"\xe4\"").contains("byte 12 (line 2) is 0xe4"));
        assert!(message(b"\xff\xfea\0").contains("UTF-16"));
        assert!(message(b"abc\xf0\x9f").contains("byte 4 (line 1)"));
    }
}
