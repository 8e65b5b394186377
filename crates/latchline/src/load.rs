//! A session on a site file with its catalogues.

use crate::files::{Original, original, read_bytes, read_text, refuse_for_site, refuse_pack_for_site};
use crate::refusal::Result;
use latchline_finding::{Both, SourceFile, Sources};
use latchline_handover::Stamp;
use latchline_report::STANDARD_INPUT;
use latchline_session::{CatalogueReader, Files, Session, View};
use latchline_site::{ParsedSite, builtin_catalogue};
use latchline_words::refusals::FileRefusal;
use std::collections::BTreeMap;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A session on files.
#[derive(Debug)]
pub struct Opened {
    /// The session.
    pub session: Session,
    /// The site file as it was read, for changing it.
    pub original: Original,
    /// The files that were read.
    pub files: Vec<PathBuf>,
}

/// Reads the catalogues that an edit names, from the folder of the site file.
#[derive(Debug)]
struct BesideTheSite {
    folder: PathBuf,
}

impl CatalogueReader for BesideTheSite {
    fn read(&self, path: &str) -> Result<SourceFile, Both> {
        catalogue_beside(&self.folder, path)
    }
}

/// A catalogue as a file in a folder names it.
///
/// # Errors
/// Why it cannot be read, in a sentence without full stop.
pub fn catalogue_beside(folder: &Path, path: &str) -> Result<SourceFile, Both> {
    let file = folder.join(path);
    match read_text(&file, &mut std::io::empty()) {
        Ok(text) => Ok(SourceFile { name: file.display().to_string(), text: text.into() }),
        Err(_) if matches!(file.try_exists(), Ok(false)) => Err(FileRefusal::NoSuchFile.both()),
        Err(refusal) => Err(refusal.innermost()),
    }
}

/// The stamp of what is printed from these texts: their hash, and the revision made from it unless the
/// user has a word of their own.
pub fn stamp(view: &View, revision: Option<String>, date: Option<String>) -> Stamp {
    let files = std::iter::once(view.site_file()).chain(view.catalogues().iter().copied());
    let stated = || view.site().and_then(|site| site.current_revision().map(String::from));
    Stamp::of_texts(files.map(|file| &*view.sources().file(file).text), revision.or_else(stated), date)
}

/// An error if the site would come from standard input, where the command changes its file.
///
/// # Errors
/// If it would.
pub fn refuse_standard_input(site: &Path) -> Result<()> {
    if site == Path::new("-") { Err(FileRefusal::ChangeNeedsFile.into()) } else { Ok(()) }
}

/// Reads a site file and every catalogue that it names (relative to its own folder).
///
/// # Errors
/// If the site file cannot be read as text. Mistakes in the text are findings, not errors, and so are catalogues that cannot be read.
pub fn open(path: &Path, input: &mut dyn Read) -> Result<Opened> {
    refuse_pack_for_site(path)?;
    let bytes = read_bytes(path, input)?;
    refuse_for_site(path, &bytes)?;
    let original = original(path, bytes)?;
    let mut sources = Sources::new();
    let name = if path == Path::new("-") { String::from(STANDARD_INPUT) } else { path.display().to_string() };
    let site_file = sources.add(name, Arc::clone(&original.text));
    let site = sources.file(site_file).clone();
    let parsed = ParsedSite::new(site_file, &site);
    let (builtin_name, builtin_text) = builtin_catalogue();
    let catalogues = vec![sources.add(builtin_name, builtin_text)];
    let folder = path.parent().unwrap_or(Path::new("")).to_path_buf();
    let named = parsed.catalogue_paths();
    let catalogue_files = named.iter().map(|named| folder.join(&named.value));
    let files = std::iter::once(path.to_path_buf()).chain(catalogue_files).collect();
    let given = Files { sources, site_file, catalogues, named: BTreeMap::new() };
    let session = Session::of_parsed(&parsed, given, Some(Box::new(BesideTheSite { folder })));
    Ok(Opened { session, original, files })
}
