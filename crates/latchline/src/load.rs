//! A site file with its catalogues, read and resolved.

use crate::files::{Original, read_original, read_text};
use anyhow::{Context, Result};
use latchline_finding::{FileId, Sources};
use latchline_pack::Stamp;
use latchline_site::{Resolved, builtin_catalogue, catalogue_paths, resolve};
use std::io::Read;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Texts and what they resolve to.
#[derive(Debug)]
pub struct Loaded {
    /// All texts.
    pub sources: Sources,
    /// The site file among them.
    pub site_file: FileId,
    /// The catalogues among them, in their order.
    pub catalogues: Vec<FileId>,
    /// The site and the findings met while reading.
    pub resolved: Resolved,
    /// The site file as it was read, for changing it.
    pub original: Original,
    /// The files that were read.
    pub files: Vec<PathBuf>,
}

impl Loaded {
    /// The stamp of what is printed from these texts: their hash, and the revision made from it unless the
    /// user has a word of their own.
    pub fn stamp(&self, revision: Option<String>, date: Option<String>) -> Stamp {
        let files = std::iter::once(self.site_file).chain(self.catalogues.iter().copied());
        Stamp::of_texts(files.map(|file| &*self.sources.file(file).text), revision, date)
    }
}

/// Reads a site file and every catalogue that it names (relative to its own folder).
///
/// # Errors
/// If one of the files cannot be read as text. Mistakes in the text are findings, not errors.
pub fn load(path: &Path, input: &mut dyn Read) -> Result<Loaded> {
    let original = read_original(path, input)?;
    let mut sources = Sources::new();
    let name =
        if path == Path::new("-") { String::from("standard input") } else { path.display().to_string() };
    let site_file = sources.add(name, Arc::clone(&original.text));
    let mut catalogues = Vec::new();
    let (builtin_name, builtin_text) = builtin_catalogue();
    catalogues.push(sources.add(builtin_name, builtin_text));
    let mut files = vec![path.to_path_buf()];
    for named in catalogue_paths(&sources, site_file) {
        let file = path.parent().unwrap_or(Path::new("")).join(&named.value);
        let place = named.origin.span().map_or_else(String::new, |span| {
            let (line, column) = sources.line_and_column(span.file, span.start as usize);
            format!(", named at {}:{line}:{column}", sources.file(span.file).name)
        });
        let text = read_text(&file, &mut std::io::empty())
            .with_context(|| format!("the catalogue \"{}\"{place}, cannot be used", named.value))?;
        catalogues.push(sources.add(file.display().to_string(), text));
        files.push(file);
    }
    let resolved = resolve(&sources, site_file, &catalogues);
    Ok(Loaded { sources, site_file, catalogues, resolved, original, files })
}
