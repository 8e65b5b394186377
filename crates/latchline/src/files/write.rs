//! One file: written aside, made durable, held against what may be replaced, put in place.

use super::aside::{self, AsideFile};
use super::standing::refuse_hyphen;
use super::written::{note, say};
use super::{MayReplace, Original};
use crate::refusal::{Refusal, Refused, Result};
use latchline_finding::shown;
use latchline_words::refusals::{FileNote, FileRefusal, SystemRefusal};
use std::fs::{self, File};
use std::io::{ErrorKind, Write as _};
use std::path::{Path, PathBuf};

/// Writes a file, so that whoever reads it sees what was there before or all of the new, never half of it.
/// A link stays a link; owner, group and permissions of a file that is replaced stay as far as the system
/// allows, and what cannot stay is said on standard error. Pipes and devices are written straight into.
///
/// # Errors
/// If what stands there may not be replaced, or the file cannot be written; then nothing is changed.
pub fn write(path: &Path, bytes: &[u8], may_replace: MayReplace<'_>) -> Result<()> {
    put(path, bytes, may_replace)?;
    note(path);
    Ok(())
}

fn put(path: &Path, bytes: &[u8], may_replace: MayReplace<'_>) -> Result<()> {
    refuse_hyphen(path)?;
    let cannot = || FileRefusal::CannotWrite { file: &shown::path(path) }.both();
    match standing(path).refused(cannot)? {
        Standing::Nothing => {
            if matches!(may_replace, MayReplace::Read(_)) {
                return Err(FileRefusal::NoLongerThere { file: &shown::path(path) }.into());
            }
            create(path, bytes).refused(cannot)
        }
        Standing::File(target) => replace(path, &target, bytes, may_replace),
        Standing::Stream => {
            if matches!(may_replace, MayReplace::Read(_)) {
                return Err(Refusal::from(FileRefusal::Stream).within(cannot()));
            }
            let mut stream = fs::OpenOptions::new().write(true).open(path).refused(cannot)?;
            stream.write_all(bytes).refused(cannot)
        }
    }
}

/// Writes a changed text in place of the one that was read, with its byte order mark if it had one.
///
/// # Errors
/// If the file is no longer what was read, or cannot be written; then nothing is changed.
pub fn edit(path: &Path, original: &Original, text: &str) -> Result<()> {
    write(path, &original.bytes_with(text), MayReplace::Read(original))
}

/// Makes a folder with all above it, unless it is there.
///
/// # Errors
/// If it cannot be made.
pub fn make_folder(folder: &Path) -> Result<()> {
    refuse_hyphen(folder)?;
    fs::create_dir_all(folder)
        .refused(|| FileRefusal::CannotMakeFolder { folder: &shown::path(folder) }.both())
}

/// What a path leads to.
enum Standing {
    Nothing,
    /// A file, by its own path, behind all links.
    File(PathBuf),
    /// A pipe or a device.
    Stream,
}

fn standing(path: &Path) -> Result<Standing> {
    match fs::metadata(path) {
        Ok(metadata) if metadata.is_dir() => Err(SystemRefusal::IsDirectory.into()),
        Ok(metadata) if !metadata.is_file() => Ok(Standing::Stream),
        Ok(_) => Ok(Standing::File(fs::canonicalize(path)?)),
        Err(error) if error.kind() == ErrorKind::NotFound => match fs::read_link(path) {
            Ok(to) => Err(FileRefusal::DeadLink { file: &shown::path(&to) }.into()),
            Err(_) => Ok(Standing::Nothing),
        },
        Err(error) => Err(error.into()),
    }
}

/// The folder that a file is in.
fn folder_of(target: &Path) -> &Path {
    target.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

fn create(target: &Path, bytes: &[u8]) -> Result<()> {
    let mut aside = aside_for(target)?;
    aside.file.write_all(bytes)?;
    take_place(aside, target)
}

/// Makes a new file that is filled by something else, which is given its path aside.
///
/// # Errors
/// If it exists already, cannot be filled or not be written; then there is none.
pub fn create_by(path: &Path, fill: impl FnOnce(&Path) -> Result<()>) -> Result<()> {
    super::refuse_standing(path, MayReplace::Nothing)?;
    let cannot = || FileRefusal::CannotWrite { file: &shown::path(path) }.both();
    let aside = aside_for(path).refused(cannot)?;
    fill(&aside.path)?;
    take_place(aside, path).refused(cannot)?;
    note(path);
    Ok(())
}

fn aside_for(target: &Path) -> Result<AsideFile> {
    let folder = folder_of(target);
    aside::clear_files(folder);
    Ok(AsideFile::new(folder)?)
}

/// Puts a file that is aside in a place where nothing is.
fn take_place(aside: AsideFile, target: &Path) -> Result<()> {
    aside.file.sync_all()?;
    // A second name fails if the first is taken meanwhile; a renaming would not.
    match fs::hard_link(&aside.path, target) {
        // The name aside goes when it is dropped.
        Ok(()) => drop(aside),
        Err(error) if error.kind() == ErrorKind::AlreadyExists => return Err(FileRefusal::JustMade.into()),
        // A file system without second names.
        Err(_) if target.symlink_metadata().is_err() => {
            fs::rename(&aside.path, target)?;
            aside.placed();
        }
        Err(error) => return Err(error.into()),
    }
    make_durable(folder_of(target));
    Ok(())
}

fn replace(path: &Path, target: &Path, bytes: &[u8], may_replace: MayReplace<'_>) -> Result<()> {
    let cannot = || FileRefusal::CannotWrite { file: &shown::path(path) }.both();
    let folder = folder_of(target);
    aside::clear_files(folder);
    let mut standing = match aside::locked(target) {
        Ok(file) => Some(file),
        // What may not be read can be replaced by force only.
        Err(error) if error.kind() == ErrorKind::PermissionDenied => match may_replace {
            MayReplace::Anything => None,
            _ => return Err(error).refused(cannot),
        },
        Err(error) => return Err(error).refused(cannot),
    };
    let mut aside = AsideFile::new(folder).refused(cannot)?;
    aside.file.write_all(bytes).refused(cannot)?;
    let metadata = fs::metadata(target).refused(cannot)?;
    let lost = take_over(&aside.file, &metadata).refused(cannot)?;
    aside.file.sync_all().refused(cannot)?;
    if let Some(standing) = &mut standing {
        may_replace.refuse(path, standing)?;
    }
    fs::rename(&aside.path, target).refused(cannot)?;
    aside.placed();
    make_durable(folder);
    lost.say_of(path);
    Ok(())
}

/// What a file that takes another's place could not keep: old and new group and user, and how many names the old one has.
#[derive(Debug, Default)]
struct Lost {
    group: Option<(u32, u32)>,
    user: Option<(u32, u32)>,
    names: Option<u64>,
}

impl Lost {
    fn say_of(&self, path: &Path) {
        let file = &*shown::path(path);
        if let Some((was, is)) = self.group {
            say(&FileNote::OtherGroup { file, was: &was.to_string(), is: &is.to_string() });
        }
        if let Some((was, is)) = self.user {
            say(&FileNote::OtherUser { file, was: &was.to_string(), is: &is.to_string() });
        }
        if let Some(names) = self.names {
            say(&FileNote::SeveralNames { file, names: &names.to_string() });
        }
    }
}

/// Gives the new file owner, group and permissions of the one that it replaces; what is lost.
#[cfg(unix)]
fn take_over(new: &File, old: &fs::Metadata) -> std::io::Result<Lost> {
    use std::os::unix::fs::{MetadataExt, fchown};
    let own = new.metadata()?;
    let mut lost = Lost::default();
    if own.gid() != old.gid() && fchown(new, None, Some(old.gid())).is_err() {
        lost.group = Some((old.gid(), own.gid()));
    }
    if own.uid() != old.uid() && fchown(new, Some(old.uid()), None).is_err() {
        lost.user = Some((old.uid(), own.uid()));
    }
    // After the owner: a change of owner takes special permissions away.
    new.set_permissions(old.permissions())?;
    lost.names = Some(old.nlink()).filter(|names| *names > 1);
    Ok(lost)
}

#[cfg(not(unix))]
fn take_over(new: &File, old: &fs::Metadata) -> std::io::Result<Lost> {
    new.set_permissions(old.permissions())?;
    Ok(Lost::default())
}

/// Makes a renaming durable, where the system can.
pub(super) fn make_durable(folder: &Path) {
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}
