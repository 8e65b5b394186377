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

/// Refuses two results in one file: the second would lie over the first.
///
/// # Errors
/// If two of them would, whatever was forced.
pub fn refuse_one_place<P: AsRef<Path>>(results: &[P]) -> Result<()> {
    let twice =
        |(at, one): (usize, &P)| results[..at].iter().any(|other| is_one_place(one.as_ref(), other.as_ref()));
    match results.iter().enumerate().find(|(at, one)| twice((*at, *one))) {
        Some((_, result)) => Err(FileRefusal::TwoResults { file: &shown::path(result.as_ref()) }.into()),
        None => Ok(()),
    }
}

/// Whether two paths lead to one file, or will once it is written.
fn is_one_place(one: &Path, other: &Path) -> bool {
    let place = |path: &Path| {
        let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        Some((fs::canonicalize(folder).ok()?, path.file_name()?.to_os_string()))
    };
    is_same(one, other) || one == other || place(one).is_some_and(|one| place(other) == Some(one))
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
