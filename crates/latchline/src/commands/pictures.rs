//! Pictures as files: their names, and all of them or none.

use crate::files::{self, MayReplace, refuse_inputs, refuse_standing};
use crate::refusal::Result;
use std::path::{Path, PathBuf};

/// The file of a sheet: this name, its number before the ending where there are several.
pub(super) fn numbered(base: &Path, (number, of): (usize, usize), ending: &str) -> PathBuf {
    let mut name = base.as_os_str().to_os_string();
    if of > 1 {
        name.push(format!("-{number}"));
    }
    name.push(format!(".{ending}"));
    PathBuf::from(name)
}

/// Writes pictures, into a folder that is made for them where there is one.
///
/// # Errors
/// If one would take the place of an input or of what is no result, before any is written; or if a file cannot be written.
pub(super) fn put(
    pictures: &[(PathBuf, String)],
    folder: Option<&Path>,
    inputs: &[PathBuf],
    may_replace: MayReplace<'_>,
) -> Result<()> {
    for (path, _) in pictures {
        refuse_inputs(inputs, path)?;
        refuse_standing(path, may_replace)?;
    }
    if let Some(folder) = folder {
        files::make_folder(folder)?;
    }
    for (path, picture) in pictures {
        files::write(path, picture.as_bytes(), may_replace)?;
    }
    Ok(())
}
