//! What a file plainly is, for who names the wrong one: a workbook to `check`, a site to `design`.

use crate::refusal::Result;
use latchline_finding::Both;
use latchline_words::refusals::{FileKind, FileRefusal, InsteadOf};
use std::path::Path;

/// A kind of file that its first bytes or tables tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Empty,
    /// A workbook that may be a survey.
    Workbook,
    /// The workbook of a pack.
    PackWorkbook,
    Pdf,
    /// The page for the phone.
    PhonePage,
    /// Any other page.
    WebPage,
    SvgDrawing,
    DxfDrawing,
    Json,
    Site,
    Catalogue,
    Readings,
}

impl Kind {
    fn of(bytes: &[u8]) -> Option<Kind> {
        let text = bytes.trim_ascii_start();
        let text = text.strip_prefix(b"\xef\xbb\xbf").unwrap_or(text);
        if text.is_empty() {
            return Some(Kind::Empty);
        }
        let beginnings: [(&[u8], Kind); 7] = [
            (b"PK\x03\x04", Kind::Workbook),
            (b"%PDF", Kind::Pdf),
            (b"<svg", Kind::SvgDrawing),
            (b"<?xml", Kind::SvgDrawing),
            (b"{", Kind::Json),
            (b"0\nSECTION", Kind::DxfDrawing),
            // A comment goes before.
            (b"999\nlatchline\n", Kind::DxfDrawing),
        ];
        if let Some((_, kind)) = beginnings.into_iter().find(|(beginning, _)| text.starts_with(beginning)) {
            return Some(if kind == Kind::Workbook && is_of_pack(text) { Kind::PackWorkbook } else { kind });
        }
        let text = std::str::from_utf8(text).ok()?;
        let start = text.get(..15).unwrap_or(text).to_lowercase();
        if start.starts_with("<!doctype html") || start.starts_with("<html") {
            let is_ours = text.contains("name=\"generator\" content=\"latchline phone\"");
            return Some(if is_ours { Kind::PhonePage } else { Kind::WebPage });
        }
        let has = |tables: &[&str]| {
            text.lines().any(|line| {
                let name = line.strip_prefix('[').and_then(|rest| rest.split(['.', ']']).next());
                name.is_some_and(|name| tables.contains(&name.trim()))
            })
        };
        if has(&["site"]) {
            return Some(Kind::Site);
        }
        let begins = |key: &str| text.lines().any(|line| line.starts_with(key));
        // Supplies stand in both; runs, doors and dwellings in a site alone.
        let is_of_site = has(&["buildings", "entrances", "dwellings", "runs", "distributors", "policy"]);
        let is_of_parts = has(&["families", "cables", "stations", "boxes", "locks", "supplies", "rates"])
            || begins("currency");
        if is_of_parts && (!is_of_site || has(&["families", "stations", "boxes", "locks"])) {
            return Some(Kind::Catalogue);
        }
        let is_reading = |line: &str| line.starts_with("[[reading]]") || line.starts_with("[[symptom]]");
        text.lines().any(is_reading).then_some(Kind::Readings)
    }

    fn words(self) -> FileKind {
        match self {
            Kind::Empty => FileKind::Empty,
            Kind::Workbook => FileKind::Workbook,
            Kind::PackWorkbook => FileKind::PackWorkbook,
            Kind::PhonePage => FileKind::PhonePage,
            Kind::WebPage => FileKind::WebPage,
            Kind::Pdf => FileKind::Pdf,
            Kind::SvgDrawing | Kind::DxfDrawing => FileKind::Drawing,
            Kind::Json => FileKind::Json,
            Kind::Site => FileKind::Site,
            Kind::Catalogue => FileKind::Catalogue,
            Kind::Readings => FileKind::Readings,
        }
    }
}

/// Whether a workbook has the sheets of a pack and none of a survey.
fn is_of_pack(bytes: &[u8]) -> bool {
    let names = latchline_survey::workbook::sheet_names(bytes);
    let has = |wanted: &str| names.iter().any(|name| name == wanted);
    has("in-hand")
        && has("cut-list")
        && !names.iter().any(|name| latchline_survey::read::form(name).is_some())
}

/// Refuses the folder of a pack, or its folder of tables, where something else is asked for.
///
/// # Errors
/// If it is one.
pub fn refuse_pack_folder(path: &Path, instead: &InsteadOf<'_>) -> Result<()> {
    if !path.is_dir() {
        return Ok(());
    }
    let is_pack = |folder: &Path| {
        let text = std::fs::read(folder.join("contents.txt")).unwrap_or_default();
        text.starts_with(b"latchline pack")
    };
    if is_pack(path) || path.parent().is_some_and(is_pack) {
        let folder = &latchline_finding::shown::path(path);
        return Err(FileRefusal::PackFolder { folder, instead: &instead.both() }.into());
    }
    Ok(())
}

/// The same where a site file is asked for.
///
/// # Errors
/// If it is one.
pub fn refuse_pack_for_site(path: &Path) -> Result<()> {
    refuse_pack_folder(path, &InsteadOf::SiteMadeFrom)
}

/// Whether a file is a table by its name.
fn is_table(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("csv"))
}

/// Refuses what plainly is no site file, and says which command takes it.
///
/// # Errors
/// If it plainly is something else.
pub fn refuse_for_site(path: &Path, bytes: &[u8]) -> Result<()> {
    let file = &*latchline_finding::shown::path(path);
    let refused =
        |kind: FileKind, instead: Both| FileRefusal::NoSite { file, kind, instead: &instead }.into();
    let Some(kind) = Kind::of(bytes) else {
        if is_table(path) {
            return Err(refused(FileKind::Table, InsteadOf::TableOfSurveyOrPack.both()));
        }
        return Ok(());
    };
    let instead = match kind {
        // An empty or half-written site is read, and what it lacks is told.
        Kind::Site | Kind::Empty => return Ok(()),
        Kind::Workbook => InsteadOf::DesignIt { file },
        Kind::Catalogue => InsteadOf::ListParts { file },
        Kind::Readings => InsteadOf::LocateWith { file },
        Kind::PackWorkbook | Kind::PhonePage => InsteadOf::SiteMadeFrom,
        Kind::WebPage => InsteadOf::MakeSite,
        Kind::Pdf | Kind::SvgDrawing | Kind::DxfDrawing => InsteadOf::SiteDrawnFrom,
        Kind::Json => InsteadOf::SolveNetwork,
    };
    Err(refused(kind.words(), instead.both()))
}

/// Refuses what plainly is no survey, and says which command takes it.
///
/// # Errors
/// If it plainly is something else than a workbook.
pub fn refuse_for_survey(path: &Path, bytes: &[u8]) -> Result<()> {
    let file = &*latchline_finding::shown::path(path);
    let Some(kind) = Kind::of(bytes) else { return Ok(()) };
    let instead = match kind {
        Kind::Workbook => return Ok(()),
        Kind::Site => InsteadOf::CheckIt { file },
        Kind::Catalogue => InsteadOf::NameInSurvey,
        Kind::PackWorkbook | Kind::PhonePage => InsteadOf::SurveyDesignedFrom,
        _ => InsteadOf::MakeSurvey,
    };
    Err(FileRefusal::NoSurvey { file, kind: kind.words(), instead: &instead.both() }.into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_kind_is_told_by_how_the_file_begins() {
        assert_eq!(Kind::of(b"PK\x03\x04rest"), Some(Kind::Workbook));
        assert_eq!(Kind::of(b" \n"), Some(Kind::Empty));
        assert_eq!(Kind::of(b"  0\nSECTION\n"), Some(Kind::DxfDrawing));
        assert_eq!(Kind::of(b"# my house\n[site]\nname = 1\n"), Some(Kind::Site));
        assert_eq!(Kind::of(b"# taken today\n[[reading]]\nat = \"A-1\"\n"), Some(Kind::Readings));
        assert_eq!(Kind::of(b"[site.x]\n[cables.a]\n"), Some(Kind::Site));
        assert_eq!(Kind::of(b"[cables.old-bell]\n"), Some(Kind::Catalogue));
        assert_eq!(Kind::of(b"[suplies.a]\n"), None, "a slip in a table is for the reader to tell");
        assert_eq!(Kind::of(b"\xe4\xff"), None);
    }
}
