//! The workbooks that lie in the folder of an earlier pack.

use latchline_handover::stamp::sha256;
use latchline_pack::CONTENTS_NAME;
use latchline_pack::contents::Contents;
use std::fs;
use std::path::Path;

/// A workbook, or a table of its own, in the folder of an earlier pack.
pub struct OldWorkbook {
    /// Its name there.
    pub name: String,
    /// What is in it.
    pub bytes: Vec<u8>,
    /// Whether somebody has changed it since it was made.
    pub is_changed: bool,
}

/// The workbooks in a folder that a pack may replace, older names first.
pub fn workbooks(folder: &Path) -> Vec<OldWorkbook> {
    let list = fs::read(folder.join(CONTENTS_NAME)).unwrap_or_default();
    let Some(contents) = Contents::read(&String::from_utf8_lossy(&list)) else { return Vec::new() };
    let mut names: Vec<&String> =
        contents.made.keys().filter(|name| name.starts_with("workbook") && name.ends_with(".xlsx")).collect();
    // workbook.xlsx, then workbook.new.xlsx, then workbook.new-2.xlsx.
    names.sort_by_key(|name| (name.len(), (*name).clone()));
    let read = names.into_iter().filter_map(|name| {
        let bytes = fs::read(folder.join(name)).ok()?;
        let is_changed = !contents.is_made(&sha256(&bytes));
        Some(OldWorkbook { name: name.clone(), bytes, is_changed })
    });
    read.collect()
}

/// The tables (CSV) in such a folder that somebody has changed, in the order of their names.
pub fn changed_tables(folder: &Path) -> Vec<OldWorkbook> {
    let list = fs::read(folder.join(CONTENTS_NAME)).unwrap_or_default();
    let Some(contents) = Contents::read(&String::from_utf8_lossy(&list)) else { return Vec::new() };
    let is_table = |name: &&String| name.starts_with("tables/") && name.ends_with(".csv");
    let read = contents.made.keys().filter(is_table).filter_map(|name| {
        let bytes = fs::read(folder.join(name)).ok()?;
        let is_changed = !contents.is_made(&sha256(&bytes));
        is_changed.then(|| OldWorkbook { name: name.clone(), bytes, is_changed })
    });
    read.collect()
}
