//! Writing a folder of files that appears whole or not at all, and keeps what people wrote into it.
//!
//! All files are written into a fresh folder beside the one asked for, which then takes its name. A
//! folder of an earlier run is set aside first and removed last; whatever goes wrong before, the old
//! folder is there as it was. What a killed run left is put right by the next.

use super::aside::{self, Kind};
use super::kept::kept;
use super::write::make_durable;
use super::written::say;
use crate::refusal::{Refused, Result};
use latchline_finding::shown;
use latchline_handover::PackFile;
use latchline_handover::stamp::sha256;
use latchline_pack::CONTENTS_NAME;
use latchline_pack::contents::{Contents, Kept, with_kept};
use latchline_words::refusals::{FileNote, FolderRefusal};
use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsStr;
use std::fs::{self, File};
use std::io::{self, ErrorKind, Write as _};
use std::path::{Component, Path, PathBuf};

/// Puts right what a killed run left of a folder, and refuses one that must not be replaced: a file, or a
/// folder with anything that an earlier run did not write.
///
/// # Errors
/// If it is one.
pub fn prepare(folder: &Path) -> Result<()> {
    let shown = shown::path(folder);
    if folder == Path::new("-") {
        return Err(FolderRefusal::Hyphen.into());
    }
    if !matches!(folder.components().next_back(), Some(Component::Normal(_))) {
        return Err(FolderRefusal::NotReplaced { folder: &shown }.into());
    }
    put_right(folder)?;
    let Ok(metadata) = folder.symlink_metadata() else { return Ok(()) };
    if !metadata.is_dir() {
        return Err(FolderRefusal::NoFolder { folder: &shown }.into());
    }
    // While it is held no other run takes the folder away.
    match lock(folder).refused(|| FolderRefusal::CannotLookInto { folder: &shown })? {
        None if folder.symlink_metadata().is_err() => Ok(()),
        _lock => standing(folder).map(|_| ()),
    }
}

/// What is in a folder that a pack may replace.
#[derive(Debug, PartialEq)]
struct Standing {
    /// The list of the earlier pack; without one there are no files.
    contents: Option<Contents>,
    /// Hash of every file by its name, `/` between folders.
    files: BTreeMap<String, String>,
    /// Folders without any file in or below them.
    empty_folders: Vec<String>,
}

/// Looks into a folder.
///
/// # Errors
/// If it holds what no earlier run wrote, or cannot be read.
fn standing(folder: &Path) -> Result<Standing> {
    let shown = shown::path(folder);
    let mut found = Found::default();
    found.look(folder, "").refused(|| FolderRefusal::CannotLookInto { folder: &shown })?;
    let mut files = BTreeMap::new();
    if found.files.is_empty() && found.others.is_empty() {
        return Ok(Standing { contents: None, files, empty_folders: found.empty_folders });
    }
    let list = fs::read(folder.join(CONTENTS_NAME)).unwrap_or_default();
    let Some(contents) = Contents::read(&String::from_utf8_lossy(&list)) else {
        return Err(FolderRefusal::NoPack { folder: &shown }.into());
    };
    let foreign = |name: &&String| *name != CONTENTS_NAME && !contents.made.contains_key(*name);
    if let Some(other) = found.files.iter().filter(foreign).chain(&found.others).next() {
        let other_shown = shown::name(other);
        if other.rsplit('/').next().is_some_and(|name| name.starts_with("~$") || name.starts_with(".~lock."))
        {
            return Err(FolderRefusal::IsOpen { folder: &shown, file: &other_shown }.into());
        }
        return Err(FolderRefusal::Foreign { folder: &shown, file: &other_shown }.into());
    }
    for name in found.files {
        let bytes =
            fs::read(folder.join(&name)).refused(|| FolderRefusal::CannotLookInto { folder: &shown })?;
        files.insert(name, sha256(&bytes));
    }
    Ok(Standing { contents: Some(contents), files, empty_folders: found.empty_folders })
}

/// What is under a folder, by name relative to it.
#[derive(Debug, Default)]
struct Found {
    files: Vec<String>,
    empty_folders: Vec<String>,
    /// Links, pipes, and whatever has a name that is no text.
    others: Vec<String>,
}

impl Found {
    /// Whether there is anything in it.
    fn look(&mut self, folder: &Path, prefix: &str) -> io::Result<bool> {
        let mut is_filled = false;
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            let name = entry.file_name();
            let full = format!("{prefix}{}", name.to_string_lossy());
            let kind = entry.file_type()?;
            if kind.is_dir() && name.to_str().is_some() {
                if self.look(&entry.path(), &format!("{full}/"))? {
                    is_filled = true;
                } else {
                    self.empty_folders.push(full);
                }
                continue;
            }
            is_filled = true;
            let is_plain = kind.is_file() && name.to_str().is_some();
            if is_plain { &mut self.files } else { &mut self.others }.push(full);
        }
        self.files.sort();
        self.empty_folders.sort();
        self.others.sort();
        Ok(is_filled)
    }
}

/// The folder around a folder, and its own name.
fn split(folder: &Path) -> (&Path, &OsStr) {
    let parent = folder.parent().filter(|parent| !parent.as_os_str().is_empty()).unwrap_or(Path::new("."));
    (parent, folder.file_name().unwrap_or_default())
}

/// Puts a folder back that a killed run had set aside, and removes what such runs left beside it.
fn put_right(folder: &Path) -> Result<()> {
    let (parent, name) = split(folder);
    if !parent.is_dir() {
        return Ok(());
    }
    let shown = shown::path(folder);
    let beside = |kind| {
        aside::folders(parent, kind, name).refused(|| FolderRefusal::CannotLookBeside { folder: &shown })
    };
    let old = beside(Kind::OldFolder)?;
    if folder.symlink_metadata().is_err() {
        match old.as_slice() {
            [] => {}
            [(_, None), ..] => {
                return Err(FolderRefusal::BeingWritten { folder: &shown }.into());
            }
            [(path, Some(_))] => {
                fs::rename(path, folder).refused(|| FolderRefusal::CannotPutBack { folder: &shown })?;
                say(&FileNote::PutBack { folder: &shown });
            }
            several => {
                let (first, more) = (&*shown::path(&several[0].0), several.len() - 1);
                return Err(FolderRefusal::LeftSeveral { folder: &shown, first, more }.into());
            }
        }
    } else {
        for (path, lock) in &old {
            if lock.is_some() && !remove_if_nothing_is_lost(path, folder) {
                told_of(path, folder);
            }
        }
    }
    for (path, lock) in beside(Kind::NewFolder)? {
        if lock.is_some() {
            let _ = fs::remove_dir_all(path);
        }
    }
    Ok(())
}

fn told_of(old: &Path, folder: &Path) {
    say(&FileNote::HoldsEarlier { old: &shown::path(old), folder: &shown::path(folder) });
}

/// Removes a folder that was set aside, if every file in it is as a run made it or is in the new folder too.
fn remove_if_nothing_is_lost(old: &Path, new: &Path) -> bool {
    let (Ok(old_files), Ok(new_files)) = (standing(old), standing(new)) else { return false };
    let is_made = |hash| old_files.contents.as_ref().is_some_and(|contents| contents.is_made(hash));
    let stays: BTreeSet<&String> = new_files.files.values().collect();
    let list_as_made = old_files.contents.as_ref().is_none_or(|contents| contents.is_as_made);
    let nothing_is_lost = old_files
        .files
        .iter()
        .all(|(name, hash)| is_made(hash) || stays.contains(hash) || (name == CONTENTS_NAME && list_as_made));
    // What cannot be removed does no harm.
    nothing_is_lost && fs::remove_dir_all(old).is_ok()
}

/// What became of the files of an earlier run.
#[derive(Debug, Default)]
pub struct Earlier {
    /// Those that people changed: they stay.
    pub kept: Vec<Kept>,
    /// Names of those that are not among the new ones: nobody had changed them, and they are gone.
    pub gone: Vec<String>,
}

/// Makes the folder with these files, or replaces one that an earlier run made. What people changed in that one
/// stays under its name, and what was made anew goes beside it.
///
/// # Errors
/// If the earlier one is of another site, or it cannot be written; then nothing is left of it, and an earlier folder
/// is as it was.
pub fn replace(folder: &Path, files: &[PackFile]) -> Result<Earlier> {
    prepare(folder)?;
    let shown = shown::path(folder);
    let cannot = || FolderRefusal::CannotWrite { folder: &shown };
    let (parent, name) = split(folder);
    fs::create_dir_all(parent).refused(cannot)?;
    // Held until the end, and known by it to be at work when it is aside.
    let lock = lock(folder).refused(cannot)?;
    let exists = folder.symlink_metadata().is_ok();
    let before = if exists { Some(standing(folder)?) } else { None };
    refuse_another_site(folder, before.as_ref(), files)?;
    let kept = match &before {
        Some(Standing { contents: Some(contents), files: found, .. }) => kept(contents, found, files),
        _ => Vec::new(),
    };
    let gone = before.as_ref().map_or_else(Vec::new, |before| gone(before, &kept, files));
    let fresh = FreshFolder::new(parent, name).refused(cannot)?;
    fresh.fill(files, &kept).refused(cannot)?;
    if let Some(before) = &before {
        fresh.take_over(folder, before, &kept).refused(cannot)?;
    }
    let old = before.map(|before| set_aside(folder, &before)).transpose().refused(cannot)?;
    if let Err(error) = fs::rename(&fresh.path, folder) {
        let Some(old) = &old else { return Err(error).refused(cannot) };
        let is_back = fs::rename(old, folder);
        // While it was aside another run, which saw no folder, put its own there.
        if is_back.is_err() && standing(folder).is_ok_and(|now| now.contents.is_some()) {
            if !remove_if_nothing_is_lost(old, folder) {
                told_of(old, folder);
            }
            return Err(FolderRefusal::BeingWritten { folder: &shown }.into());
        }
        is_back.refused(|| FolderRefusal::NowCalled { folder: &shown, name: &shown::path(old) }.both())?;
        return Err(error).refused(cannot);
    }
    fresh.placed();
    make_durable(parent);
    if let Some(old) = &old
        && !remove_if_nothing_is_lost(old, folder)
    {
        told_of(old, folder);
    }
    drop(lock);
    super::written::note(folder);
    Ok(Earlier { kept, gone })
}

/// Files of an earlier run that neither stay nor are made anew.
fn gone(before: &Standing, kept: &[Kept], files: &[PackFile]) -> Vec<String> {
    let stays = |name: &str| {
        name == CONTENTS_NAME
            || files.iter().any(|file| file.name == name)
            || kept.iter().any(|one| one.name == name)
    };
    before.files.keys().filter(|name| !stays(name)).cloned().collect()
}

/// Refuses to lay the pack of one building over that of another: its readings would lie among the wrong tables.
fn refuse_another_site(folder: &Path, before: Option<&Standing>, files: &[PackFile]) -> Result<()> {
    let site_of_files = files
        .iter()
        .find(|file| file.name == CONTENTS_NAME)
        .and_then(|list| Contents::read(&String::from_utf8_lossy(&list.bytes))?.site);
    let site_there = before.and_then(|before| before.contents.as_ref()?.site.clone());
    match (site_there, site_of_files) {
        (Some(there), Some(new)) if there != new => {
            Err(FolderRefusal::OtherSite { folder: &shown::path(folder), site: &shown::name(&there) }.into())
        }
        _ => Ok(()),
    }
}

/// Renames a folder aside; back again if it is no longer what was seen in it.
fn set_aside(folder: &Path, seen: &Standing) -> Result<PathBuf> {
    let (parent, name) = split(folder);
    let old = parent.join(aside::fresh_name(Kind::OldFolder, name));
    fs::rename(folder, &old)?;
    let is_as_seen = standing(&old).is_ok_and(|now| now == *seen);
    if !is_as_seen {
        fs::rename(&old, folder)?;
        return Err(FolderRefusal::ChangedMeanwhile.into());
    }
    Ok(old)
}

/// The lock of a folder, where folders have one; waits for another run. `None` if there is no folder.
fn lock(folder: &Path) -> Result<Option<File>> {
    match aside::locked(folder) {
        Ok(open) => Ok(Some(open)),
        Err(error) if matches!(error.kind(), ErrorKind::NotFound | ErrorKind::PermissionDenied) => Ok(None),
        Err(error) => Err(error).refused(|| FolderRefusal::OtherRunWriting),
    }
}

/// A folder that is written aside; removed again unless it was put in place.
struct FreshFolder {
    path: PathBuf,
    _lock: Option<File>,
    is_placed: bool,
}

impl FreshFolder {
    fn new(parent: &Path, name: &OsStr) -> Result<Self> {
        let path = parent.join(aside::fresh_name(Kind::NewFolder, name));
        // Fails if it exists: nothing of anybody else's is written over.
        fs::create_dir(&path)?;
        let lock = lock(&path)?;
        Ok(FreshFolder { path, _lock: lock, is_placed: false })
    }

    fn fill(&self, files: &[PackFile], kept: &[Kept]) -> Result<()> {
        for file in files {
            let stays = kept.iter().find(|one| one.stays_as == file.name);
            let name = match stays {
                None => &file.name,
                Some(Kept { beside: Some(beside), .. }) => beside,
                // The changed file is all there is to say.
                Some(_) => continue,
            };
            if file.name == CONTENTS_NAME {
                self.put(name, with_kept(&String::from_utf8_lossy(&file.bytes), kept).as_bytes())?;
            } else {
                self.put(name, &file.bytes)?;
            }
        }
        Ok(())
    }

    fn put(&self, name: &str, bytes: &[u8]) -> io::Result<()> {
        let path = self.path.join(name);
        if let Some(parent) = path.parent() {
            fs::create_dir_all(parent)?;
        }
        let mut file = fs::OpenOptions::new().write(true).create_new(true).open(path)?;
        file.write_all(bytes)?;
        file.sync_data()
    }

    /// Takes over from the earlier folder what is not the run's own: changed files, empty folders, owner and
    /// permissions.
    fn take_over(&self, folder: &Path, before: &Standing, kept: &[Kept]) -> io::Result<()> {
        for one in kept {
            let (from, to) = (folder.join(&one.name), self.path.join(&one.stays_as));
            if let Some(parent) = to.parent() {
                fs::create_dir_all(parent)?;
            }
            // The same file under a second name: whoever has it open goes on writing into it.
            if fs::hard_link(&from, &to).is_err() {
                fs::copy(&from, &to)?;
            }
        }
        for name in &before.empty_folders {
            let path = self.path.join(name);
            match fs::create_dir_all(&path) {
                Ok(()) => as_before(&path, &folder.join(name))?,
                // A file of the new pack has the name.
                Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
                Err(error) => return Err(error),
            }
        }
        as_before(&self.path, folder)
    }

    fn placed(mut self) {
        self.is_placed = true;
    }
}

impl Drop for FreshFolder {
    fn drop(&mut self) {
        if !self.is_placed {
            let _ = fs::remove_dir_all(&self.path);
        }
    }
}

/// Gives a folder owner and permissions of another, as far as the system allows.
fn as_before(new: &Path, old: &Path) -> io::Result<()> {
    let metadata = fs::metadata(old)?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        let _ = std::os::unix::fs::chown(new, Some(metadata.uid()), Some(metadata.gid()));
    }
    fs::set_permissions(new, metadata.permissions())
}
