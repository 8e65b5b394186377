//! The reference pages hold the key tables as they are.
//!
//! `LATCHLINE_UPDATE_DOCS=1 cargo test -p latchline-site --test pages` writes them anew.

use latchline_site::catalogue::CATALOGUE_FILE;
use latchline_site::keys::{TableSpec, key_tables};
use latchline_site::model::SITE_FILE;

const BEGIN: &str = "<!-- key tables: generated, do not edit -->\n\n";
const END: &str = "\n<!-- end of key tables -->\n";

fn check(path: &str, page: &str, spec: &'static TableSpec) {
    let start = page.find(BEGIN).expect("the page marks where its tables begin") + BEGIN.len();
    let end = page.find(END).expect("the page marks where its tables end");
    let current = format!("{}{}{}", &page[..start], key_tables(spec), &page[end..]);
    if std::env::var_os("LATCHLINE_UPDATE_DOCS").is_some() {
        #[expect(clippy::disallowed_methods, reason = "this test is the generator of the page")]
        std::fs::write(format!("{}/../../{path}", env!("CARGO_MANIFEST_DIR")), current)
            .expect("the page is writable");
    } else {
        assert!(page == current, "{path} is out of date: set LATCHLINE_UPDATE_DOCS=1 and run this test");
    }
}

#[test]
fn the_site_file_page_is_current() {
    check("docs/site-file.md", include_str!("../../../docs/site-file.md"), &SITE_FILE);
}

#[test]
fn the_catalogue_page_is_current() {
    check("docs/catalogue.md", include_str!("../../../docs/catalogue.md"), &CATALOGUE_FILE);
}

#[test]
fn the_page_shows_the_worked_example_as_it_is() {
    let page = include_str!("../../../docs/site-file.md");
    let example = include_str!("../../../docs/examples/twelve-flats.toml");
    assert!(page.contains(example), "docs/site-file.md must quote docs/examples/twelve-flats.toml");
}
