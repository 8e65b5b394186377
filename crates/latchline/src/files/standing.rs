//! What may be replaced by what is written.

use super::Original;
use crate::refusal::Result;
use latchline_finding::shown;
use latchline_words::refusals::FileRefusal;
use serde::Deserialize;
use serde::de::{DeserializeOwned, IgnoredAny};
use std::fs;
use std::io::Read as _;
use std::path::Path;

/// Most bytes of a JSON document that is looked into to see whose it is.
const MOST_BYTES: u64 = 300_000_000;

/// Bytes at the beginning of a page in which it says whose it is.
const HEAD_BYTES: usize = 1_000;

/// What may stand where a file is written.
#[derive(Debug, Clone, Copy)]
pub enum MayReplace<'a> {
    /// Nothing.
    Nothing,
    /// A result of an earlier run, or an empty file.
    OwnResult,
    /// Readings of phones that an earlier run put together, or an empty file.
    OwnReadings,
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
            MayReplace::OwnResult | MayReplace::OwnReadings => {
                let mut found = Vec::new();
                standing.take(MOST_BYTES + 1).read_to_end(&mut found)?;
                let is_own = match self {
                    MayReplace::OwnReadings => is_merged_readings(&found),
                    _ => is_own_result(&found),
                };
                if !found.is_empty() && !is_own {
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

/// Whether these are the bytes of a drawing, a phone page or a JSON document that this program writes and can write again. Texts and tables say
/// nothing of where they are from.
fn is_own_result(bytes: &[u8]) -> bool {
    let head = String::from_utf8_lossy(&bytes[..bytes.len().min(HEAD_BYTES)]);
    head.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"latchline-drawing\"")
        || head.starts_with("999\nlatchline\n")
        || (head.starts_with("<!doctype html>") && head.contains("content=\"latchline phone\""))
        || json(bytes).is_some_and(|document: Document| document.is_result())
        || json(bytes).is_some_and(|document: Sarif| document.is_own())
}

/// Whether these are the bytes of readings that were put together: no result, since it is not made again from a site.
fn is_merged_readings(bytes: &[u8]) -> bool {
    json(bytes).is_some_and(|document: Document| document.is_merged_readings())
}

/// What a JSON document says of where it is from; the rest of it is passed over.
#[derive(Deserialize)]
struct Document {
    latchline_version: Option<IgnoredAny>,
    /// Only what phones exchange has it.
    format: Option<IgnoredAny>,
    from: Option<serde_json::Value>,
}

/// A document in SARIF 2.1.0.
#[derive(Deserialize)]
struct Sarif {
    runs: Vec<Run>,
}

#[derive(Deserialize)]
struct Run {
    tool: Tool,
}

#[derive(Deserialize)]
struct Tool {
    driver: Driver,
}

#[derive(Deserialize)]
struct Driver {
    name: String,
}

impl Document {
    fn is_result(&self) -> bool {
        self.format.is_none() && self.latchline_version.is_some()
    }

    fn is_merged_readings(&self) -> bool {
        let is_of_laptop = self.from.as_ref().is_some_and(|from| from == "laptop");
        self.format.is_some() && self.latchline_version.is_some() && is_of_laptop
    }
}

impl Sarif {
    fn is_own(&self) -> bool {
        matches!(&self.runs[..], [run] if run.tool.driver.name == "latchline")
    }
}

fn json<T: DeserializeOwned>(bytes: &[u8]) -> Option<T> {
    serde_json::from_slice(bytes).ok()
}
