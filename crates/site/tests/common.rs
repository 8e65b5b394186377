//! What several subjects need.

use latchline_finding::Sources;
use latchline_site::model::Site;
use latchline_site::{builtin_catalogue, resolve};

/// The site of a text, with the built-in catalogue.
pub fn site(text: &str) -> Site {
    let mut sources = Sources::new();
    let (name, catalogue) = builtin_catalogue();
    let catalogue = sources.add(name, catalogue);
    let file = sources.add("site.toml", text);
    let resolved = resolve(&sources, file, &[catalogue]);
    resolved.site.unwrap_or_else(|| panic!("{text}\n{:#?}", resolved.findings))
}
