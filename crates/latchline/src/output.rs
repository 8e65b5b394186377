//! Writing results: to standard output, or to a file that is never left half written.

use anyhow::{Context, Result, bail};
use std::fs;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};

/// Writes a result to a file if one is named, else to standard output.
///
/// # Errors
/// If it cannot be written.
pub fn put(text: &str, file: Option<&Path>, output: &mut dyn Write) -> Result<()> {
    match file {
        Some(path) => replace(path, text),
        None => {
            output.write_all(text.as_bytes()).and_then(|()| output.flush()).context("cannot write the result")
        }
    }
}

/// An error that says how to replace a file if it exists.
///
/// # Errors
/// If the file exists.
pub fn refuse_existing(path: &Path) -> Result<()> {
    if path.symlink_metadata().is_ok() {
        bail!("\"{}\" exists already; choose another name, or replace it with --force", path.display());
    }
    Ok(())
}

/// An error if a result would be written over the file that it was made from.
///
/// # Errors
/// If both are one file.
pub fn refuse_input(input: &Path, result: Option<&Path>) -> Result<()> {
    let Some(result) = result else { return Ok(()) };
    if let (Ok(input), Ok(output)) = (fs::canonicalize(input), fs::canonicalize(result))
        && input == output
    {
        bail!("\"{}\" is the input; name another file for the result", result.display());
    }
    Ok(())
}

/// Writes a file aside and then puts it in place, so that whoever reads it sees the old text or the
/// new one, never half of it. Permissions of an existing file stay, and a link stays a link.
///
/// # Errors
/// If it cannot be written.
pub fn replace(path: &Path, text: &str) -> Result<()> {
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
    let shown = path.display();
    if target.is_dir() {
        bail!("cannot write \"{shown}\": it is a directory");
    }
    let aside = aside(&target);
    let written = write_aside(&aside, &target, text).and_then(|()| fs::rename(&aside, &target));
    written
        .inspect_err(|_| drop(fs::remove_file(&aside)))
        .with_context(|| format!("cannot write \"{shown}\""))
}

/// [`replace`], keeping the byte order mark that the file may begin with.
///
/// # Errors
/// If it cannot be written.
pub fn replace_keeping_mark(path: &Path, text: &str) -> Result<()> {
    let mut start = [0; 3];
    let marked = fs::File::open(path).and_then(|mut file| file.read_exact(&mut start)).is_ok()
        && start == *"\u{feff}".as_bytes();
    if marked { replace(path, &format!("\u{feff}{text}")) } else { replace(path, text) }
}

fn write_aside(aside: &Path, target: &Path, text: &str) -> std::io::Result<()> {
    let mut file = fs::OpenOptions::new().write(true).create_new(true).open(aside)?;
    file.write_all(text.as_bytes())?;
    if let Ok(existing) = fs::metadata(target) {
        fs::set_permissions(aside, existing.permissions())?;
    }
    file.sync_all()
}

fn aside(target: &Path) -> PathBuf {
    let mut name = std::ffi::OsString::from(".");
    name.push(target.file_name().unwrap_or_default());
    name.push(format!(".{}.new", std::process::id()));
    target.with_file_name(name)
}
