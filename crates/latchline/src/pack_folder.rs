//! Writing a folder of files that appears whole or not at all.
//!
//! All files are written into a fresh folder beside the one asked for, which then takes its name. A
//! folder of an earlier run is set aside first and removed last; whatever goes wrong before, the old
//! folder is there as it was.

use anyhow::{Context, Result, bail};
use latchline_pack::{CONTENTS_MARK, CONTENTS_NAME, PackFile};
use std::collections::BTreeSet;
use std::fs;
use std::io::Write as _;
use std::path::{Component, Path, PathBuf};

/// Refuses a folder that must not be replaced: a file, or a folder with anything that an earlier run did
/// not write.
///
/// # Errors
/// If it is one.
pub fn refuse_unusable(folder: &Path) -> Result<()> {
    let shown = folder.display();
    if !matches!(folder.components().next_back(), Some(Component::Normal(_))) {
        bail!("\"{shown}\" cannot be replaced by a pack; name a folder of its own, for example pack");
    }
    let Ok(metadata) = folder.symlink_metadata() else { return Ok(()) };
    if !metadata.is_dir() {
        bail!("\"{shown}\" exists and is no folder; choose another name");
    }
    let present = files_in(folder, folder).with_context(|| format!("cannot look into \"{shown}\""))?;
    if present.is_empty() {
        return Ok(());
    }
    let listed = fs::read_to_string(folder.join(CONTENTS_NAME)).unwrap_or_default();
    if listed.lines().next() != Some(CONTENTS_MARK) {
        bail!("\"{shown}\" holds files that are no pack; choose another folder");
    }
    let mut known: BTreeSet<&str> =
        listed.lines().filter_map(|line| line.split_once("  ")).map(|(_, name)| name).collect();
    known.insert(CONTENTS_NAME);
    if let Some(other) = present.iter().find(|name| !known.contains(name.as_str())) {
        bail!(
            "\"{shown}\" holds \"{other}\", which is not of the earlier pack; move it away or choose another folder"
        );
    }
    Ok(())
}

/// Names of all files under a folder, relative to `root`, with `/` between folders.
fn files_in(root: &Path, folder: &Path) -> std::io::Result<Vec<String>> {
    let mut names = Vec::new();
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let path = entry.path();
        if entry.file_type()?.is_dir() {
            names.extend(files_in(root, &path)?);
        } else {
            let relative = path.strip_prefix(root).unwrap_or(&path);
            let parts: Vec<String> =
                relative.components().map(|part| part.as_os_str().to_string_lossy().into_owned()).collect();
            names.push(parts.join("/"));
        }
    }
    names.sort();
    Ok(names)
}

/// Makes the folder with these files, or replaces one that an earlier run made.
///
/// # Errors
/// If it cannot be written; then nothing is left of it, and an earlier folder is as it was.
pub fn replace(folder: &Path, files: &[PackFile]) -> Result<()> {
    refuse_unusable(folder)?;
    let shown = folder.display();
    let fresh = beside(folder, "new");
    let written = write_all(&fresh, files).and_then(|()| put_in_place(&fresh, folder));
    written
        .inspect_err(|_| drop(fs::remove_dir_all(&fresh)))
        .with_context(|| format!("cannot write the folder \"{shown}\"; nothing was changed"))
}

fn write_all(fresh: &Path, files: &[PackFile]) -> std::io::Result<()> {
    if let Some(parent) = fresh.parent().filter(|parent| !parent.as_os_str().is_empty()) {
        fs::create_dir_all(parent)?;
    }
    // Fails if it exists: nothing of anybody else's is written over.
    fs::create_dir(fresh)?;
    for file in files {
        let path = fresh.join(&file.name);
        if let Some(parent) = path.parent() {
            fs::create_dir_all(parent)?;
        }
        let mut target = fs::OpenOptions::new().write(true).create_new(true).open(&path)?;
        target.write_all(&file.bytes)?;
        target.sync_data()?;
    }
    Ok(())
}

fn put_in_place(fresh: &Path, folder: &Path) -> std::io::Result<()> {
    if folder.symlink_metadata().is_err() {
        return fs::rename(fresh, folder);
    }
    let old = beside(folder, "old");
    fs::rename(folder, &old)?;
    if let Err(error) = fs::rename(fresh, folder) {
        fs::rename(&old, folder)?;
        return Err(error);
    }
    // The new pack is there; what cannot be removed of the old one does no harm.
    let _ = fs::remove_dir_all(&old);
    Ok(())
}

fn beside(folder: &Path, word: &str) -> PathBuf {
    let mut name = std::ffi::OsString::from(".");
    name.push(folder.file_name().unwrap_or_default());
    name.push(format!(".{}.{word}", std::process::id()));
    folder.with_file_name(name)
}
