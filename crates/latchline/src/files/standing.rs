//! What may be replaced by what is written.

use super::Original;
use crate::refusal::Result;
use latchline_finding::shown;
use latchline_words::refusals::FileRefusal;
use std::fs;
use std::io::Read as _;
use std::path::Path;

/// Bytes at the beginning of a file in which it says whose it is.
const HEAD_BYTES: usize = 1_000;

/// What may stand where a file is written.
#[derive(Debug, Clone, Copy)]
pub enum MayReplace<'a> {
    /// Nothing.
    Nothing,
    /// A result of an earlier run, or an empty file.
    OwnResult,
    /// What was read before.
    Read(&'a Original),
    /// These bytes, which this run wrote.
    Written(&'a [u8]),
    /// Any file.
    Anything,
}

impl MayReplace<'_> {
    /// Refuses what stands there, given as a reader of all its bytes.
    ///
    /// # Errors
    /// If it is not what may be replaced, or cannot be read.
    pub(super) fn refuse(self, path: &Path, standing: &mut dyn std::io::Read) -> Result<()> {
        let shown = &*shown::path(path);
        match self {
            MayReplace::Anything => {}
            MayReplace::Nothing => return Err(FileRefusal::Exists { file: shown }.into()),
            MayReplace::OwnResult => {
                let mut head = Vec::new();
                standing.take(HEAD_BYTES as u64).read_to_end(&mut head)?;
                if !head.is_empty() && !is_own_result(&head) {
                    return Err(FileRefusal::ExistsNoResult { file: shown }.into());
                }
            }
            MayReplace::Read(original) => {
                if !original.is(standing)? {
                    return Err(FileRefusal::ChangedSinceRead { file: shown }.into());
                }
            }
            MayReplace::Written(bytes) => {
                let mut found = Vec::new();
                standing.take(bytes.len() as u64 + 1).read_to_end(&mut found)?;
                if found != bytes {
                    return Err(FileRefusal::ChangedByOther { file: shown }.into());
                }
            }
        }
        Ok(())
    }
}

/// Refuses a hyphen alone, which elsewhere is standard input or output: whoever writes it does not mean a file of that name.
///
/// # Errors
/// If it is one.
pub(super) fn refuse_hyphen(path: &Path) -> Result<()> {
    if path == Path::new("-") {
        return Err(FileRefusal::Hyphen.into());
    }
    Ok(())
}

/// Refuses early what [`write`](fn@super::write) would refuse, before the work for it is done.
///
/// # Errors
/// If what stands there may not be replaced.
pub fn refuse_standing(path: &Path, may_replace: MayReplace<'_>) -> Result<()> {
    refuse_hyphen(path)?;
    let Ok(metadata) = path.symlink_metadata() else { return Ok(()) };
    let metadata = fs::metadata(path).unwrap_or(metadata);
    if metadata.is_dir() {
        return Err(FileRefusal::WriteToDirectory { file: &shown::path(path) }.into());
    }
    if !metadata.is_file() {
        // A pipe or a device takes everything.
        return Ok(());
    }
    match fs::File::open(path) {
        Ok(mut file) => may_replace.refuse(path, &mut file),
        // Told when it is written.
        Err(_) => Ok(()),
    }
}

/// Whether these are the first bytes of a drawing, a phone page or a JSON document that this program writes. Texts and tables
/// say nothing of where they are from.
fn is_own_result(head: &[u8]) -> bool {
    let head = String::from_utf8_lossy(head);
    let has = |mark: &str| head.contains(mark);
    head.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"latchline-drawing\"")
        || head.starts_with("999\nlatchline\n")
        || (head.starts_with("<!doctype html>") && has("content=\"latchline phone\""))
        || (head.starts_with('{') && (has("\"latchline_version\": \"") || has("\"name\": \"latchline\"")))
}
