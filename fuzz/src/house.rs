//! A small house that readings, found lists, edits and what phones noted are of.

use latchline_finding::{Both, CodeDoc, FileId, Language, SourceFile, Sources};
use latchline_report::{Detail, Look, Report, json, sarif, short, text};
use latchline_session::{CatalogueReader, Files, Session, View};
use latchline_site::builtin_catalogue;
use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

/// Its site file.
pub const HOUSE: &str = include_str!("../house.toml");
/// Name under which a site file finds the one further catalogue that there is.
pub const PARTS: &str = "parts.toml";

/// Both languages.
pub const LANGUAGES: [Language; 2] = [Language::English, Language::German];

/// Finds one catalogue, and no other.
#[derive(Debug)]
struct OneCatalogue(Arc<str>);

impl CatalogueReader for OneCatalogue {
    fn read(&self, path: &str) -> Result<SourceFile, Both> {
        if path == PARTS {
            Ok(SourceFile { name: String::from(PARTS), text: Arc::clone(&self.0) })
        } else {
            Err(Both::same("there is no such file"))
        }
    }
}

/// A session on a site file, with what is found where it names [`PARTS`].
pub fn session(site: &str, parts: &str) -> Session {
    let mut sources = Sources::new();
    let site_file: FileId = sources.add("site.toml", site);
    let (name, text) = builtin_catalogue();
    let catalogues = vec![sources.add(name, text)];
    let files = Files { sources, site_file, catalogues, named: BTreeMap::new() };
    Session::new(files).with_reader(OneCatalogue(Arc::from(parts)))
}

/// The house as it is; the same for every input.
pub fn house() -> &'static View {
    static VIEW: OnceLock<View> = OnceLock::new();
    VIEW.get_or_init(|| session(HOUSE, "").view())
}

/// Writes what was found in every form.
pub fn written(report: &Report<'_>) {
    for language in LANGUAGES {
        let look = Look::default().in_language(language);
        for detail in [Detail::FirstPage, Detail::Lines] {
            text::render(report, &look, detail);
        }
        short::render(report, language);
    }
    json::render(report).expect("every report has a form in JSON");
    sarif::render(report, "").expect("every report has a form in SARIF");
}

/// Every code that a finding can have.
pub fn codes() -> Vec<&'static CodeDoc> {
    let mut codes: Vec<&'static CodeDoc> =
        latchline_assess::codes().chain(latchline_survey::codes::CODES).collect();
    codes.sort_by_key(|doc| doc.code);
    codes
}
