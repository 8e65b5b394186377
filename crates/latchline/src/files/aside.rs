//! Files and folders that are written aside, beside the one whose place they are to take.
//!
//! Their names are unique and carry a check of themselves, so that nothing of anybody else's is taken for ours,
//! and they are locked as long as their run lives. What a killed run left behind is known by both: the name is
//! ours, and nobody holds the lock.

use crate::refusal::Refusal;
use latchline_handover::stamp::sha256;
use latchline_words::refusals::SystemRefusal;
use std::ffi::OsStr;
use std::fs::{self, File, TryLockError};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{SystemTime, UNIX_EPOCH};

/// How all such names begin.
const START: &str = ".latchline-";
/// Digits of the check in a name.
const CHECK_DIGITS: usize = 16;
/// How often another name is tried.
const MOST_TRIES: u32 = 100;

/// What is aside.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A file that is to take a place in its folder.
    File,
    /// A folder that is to take another's place.
    NewFolder,
    /// A folder whose place was taken.
    OldFolder,
}

impl Kind {
    fn word(self) -> &'static str {
        match self {
            Kind::File => "file",
            Kind::NewFolder => "new",
            Kind::OldFolder => "old",
        }
    }
}

/// A fresh name, for the place of `name` where that matters.
pub fn fresh_name(kind: Kind, name: &OsStr) -> String {
    static COUNT: AtomicU32 = AtomicU32::new(0);
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default().as_nanos();
    let stem = format!("{:x}-{since:x}-{:x}", std::process::id(), COUNT.fetch_add(1, Ordering::Relaxed));
    format!("{START}{stem}-{}-{}", kind.word(), check(&stem, kind, name))
}

fn check(stem: &str, kind: Kind, name: &OsStr) -> String {
    let name = if kind == Kind::File { "".into() } else { name.to_string_lossy() };
    let text = format!("latchline aside\n{}\n{stem}\n{name}", kind.word());
    sha256(text.as_bytes()).chars().take(CHECK_DIGITS).collect()
}

/// Whether a name is one that [`fresh_name`] gave.
pub fn is_ours(candidate: &OsStr, kind: Kind, name: &OsStr) -> bool {
    let split = || {
        let rest = candidate.to_str()?.strip_prefix(START)?;
        let (rest, found) = rest.rsplit_once('-')?;
        Some((rest.strip_suffix(kind.word())?.strip_suffix('-')?, found))
    };
    split().is_some_and(|(stem, found)| check(stem, kind, name) == found)
}

/// A file that is written aside; removed again unless it was put in place.
#[derive(Debug)]
pub struct AsideFile {
    /// Where it is.
    pub path: PathBuf,
    /// The open file, locked.
    pub file: File,
    is_placed: bool,
}

impl AsideFile {
    /// A fresh file in a folder.
    ///
    /// # Errors
    /// If none can be made there.
    pub fn new(folder: &Path) -> io::Result<Self> {
        for _ in 0..MOST_TRIES {
            let path = folder.join(fresh_name(Kind::File, OsStr::new("")));
            let file = match fs::OpenOptions::new().read(true).write(true).create_new(true).open(&path) {
                Ok(file) => file,
                Err(error) if error.kind() == ErrorKind::AlreadyExists => continue,
                Err(error) => return Err(error),
            };
            let aside = AsideFile { path, file, is_placed: false };
            let _ = aside.file.try_lock();
            // Between making and locking, another run may have taken it for a leftover.
            if is_at(&aside.file, &aside.path) {
                return Ok(aside);
            }
        }
        Err(io::Error::from(ErrorKind::AlreadyExists))
    }

    /// It was renamed and is no longer aside.
    pub fn placed(mut self) {
        self.is_placed = true;
    }
}

impl Drop for AsideFile {
    fn drop(&mut self) {
        if !self.is_placed {
            let _ = fs::remove_file(&self.path);
        }
    }
}

/// Removes what killed runs left in a folder. What cannot be removed does no harm.
pub fn clear_files(folder: &Path) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        let is_file = entry.file_type().is_ok_and(|kind| kind.is_file());
        if is_file && is_ours(&entry.file_name(), Kind::File, OsStr::new("")) {
            let path = entry.path();
            if let Some(_lock) = abandoned(&path) {
                let _ = fs::remove_file(&path);
            }
        }
    }
}

/// Folders of a kind beside `name`, each with its lock if its run has ended.
///
/// # Errors
/// If the folder around them cannot be read.
pub fn folders(parent: &Path, kind: Kind, name: &OsStr) -> io::Result<Vec<(PathBuf, Option<File>)>> {
    let mut found = Vec::new();
    for entry in fs::read_dir(parent)?.flatten() {
        let is_folder = entry.file_type().is_ok_and(|kind| kind.is_dir());
        if is_folder && is_ours(&entry.file_name(), kind, name) {
            let path = entry.path();
            let lock = abandoned(&path);
            found.push((path, lock));
        }
    }
    found.sort_by(|a, b| a.0.cmp(&b.0));
    Ok(found)
}

/// The lock of a leftover, if nobody holds it.
fn abandoned(path: &Path) -> Option<File> {
    let file = File::open(path).ok()?;
    file.try_lock().ok()?;
    is_at(&file, path).then_some(file)
}

/// The lock of a file or folder that is there; waits while another run holds it, up to a few seconds.
///
/// # Errors
/// If it cannot be opened, or is held too long.
pub fn locked(path: &Path) -> io::Result<File> {
    const PAUSE: std::time::Duration = std::time::Duration::from_millis(10);
    const MOST_PAUSES: u32 = 1_000;
    let mut pauses = 0;
    loop {
        let file = File::open(path)?;
        match file.try_lock() {
            Ok(()) if is_at(&file, path) => return Ok(file),
            // Another run put another file in its place.
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => std::thread::sleep(PAUSE),
            // A file system without locks: what follows is the comparison alone.
            Err(TryLockError::Error(_)) => return Ok(file),
        }
        pauses += 1;
        if pauses > MOST_PAUSES {
            return Err(io::Error::other(Refusal::from(SystemRefusal::Locked)));
        }
    }
}

/// Whether an open file is the one that a path leads to.
#[cfg(unix)]
fn is_at(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    match (file.metadata(), fs::metadata(path)) {
        (Ok(open), Ok(there)) => (open.dev(), open.ino()) == (there.dev(), there.ino()),
        _ => false,
    }
}

/// Whether an open file is the one that a path leads to; elsewhere an open file keeps its place.
#[cfg(not(unix))]
fn is_at(_: &File, path: &Path) -> bool {
    path.exists()
}
