//! The text of a catalogue: read, listed part by part, and put under a site that names it.

use super::house::{self, HOUSE, LANGUAGES, PARTS};
use super::site::check;
use latchline_finding::Sources;
use latchline_report::{Look, catalogue as told};
use latchline_site::{LoadedCatalogues, builtin_catalogue};

/// Parts whose pages are looked at.
const MOST_SHOWN: usize = 4;

/// As the text of a catalogue.
pub fn catalogue(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let mut sources = Sources::new();
    let (name, builtin) = builtin_catalogue();
    let files = [sources.add(name, builtin), sources.add(PARTS, text)];
    let loaded = LoadedCatalogues::new(&sources, &files);
    loaded.checked();
    for language in LANGUAGES {
        let look = Look::default().in_language(language);
        told::list(loaded.catalogue(), &sources, &look);
        let own = told::names(loaded.catalogue()).into_iter().filter(|name| text.contains(name));
        for name in own.take(MOST_SHOWN) {
            told::part(loaded.catalogue(), &sources, name, &look);
        }
    }
    let site = HOUSE.replacen("[site]", &format!("[site]\ncatalogues = [\"{PARTS}\"]"), 1);
    check(&house::session(&site, text).view());
}
