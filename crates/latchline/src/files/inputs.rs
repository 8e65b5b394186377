//! A result is never written over what it was made from.

use crate::refusal::Result;
use latchline_finding::shown;
use latchline_words::refusals::FileRefusal;
use std::fs;
use std::path::Path;

/// An error if a result would be written over one of the files that it is made from.
///
/// # Errors
/// If it would, whatever was forced.
pub fn refuse_inputs<P: AsRef<Path>>(inputs: &[P], result: &Path) -> Result<()> {
    if inputs.iter().any(|input| is_same(input.as_ref(), result)) {
        return Err(FileRefusal::IsInput { file: &shown::path(result) }.into());
    }
    Ok(())
}

/// Whether two paths lead to one file.
pub fn is_same(one: &Path, other: &Path) -> bool {
    match (fs::canonicalize(one), fs::canonicalize(other)) {
        (Ok(a), Ok(b)) => a == b || is_linked(&a, &b),
        _ => false,
    }
}

#[cfg(unix)]
fn is_linked(one: &Path, other: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    match (fs::metadata(one), fs::metadata(other)) {
        (Ok(a), Ok(b)) => a.is_file() && (a.dev(), a.ino()) == (b.dev(), b.ino()),
        _ => false,
    }
}

#[cfg(not(unix))]
fn is_linked(_: &Path, _: &Path) -> bool {
    false
}
