//! A catalogue that the text newly names is taken in at once, or said to be away.

use crate::common::{SITE, Served, status};

const OWN: &str = "[cables.own-1]\ntitle = \"own\"\nsource = \"test\"\ngauge = \"1 mm\"\n";

/// The whole text as a page sends it, with a catalogue named.
fn naming(file: &str) -> String {
    let text = SITE.replacen("[site]\n", &format!("[site]\ncatalogues = [\"{file}\"]\n"), 1);
    serde_json::json!({ "kind": "text", "text": text }).to_string()
}

#[test]
fn a_catalogue_that_is_named_on_the_page_is_taken_in() {
    let served = Served::beside(SITE, Some(("own.toml", OWN)));
    assert_eq!(status(&served.edit("one", 1, r#"{"kind":"cable","run":"flats-1","cable":"own-1"}"#)), 422);
    let named = served.edit("two", 1, &naming("own.toml"));
    assert_eq!(status(&named), 200, "{named}");
    assert!(!served.get("/sites/house").contains("catalogue-not-read"));
    // The catalogue is a revision of its own, kept in the store as every text of the site.
    let cable = served.edit("three", 3, r#"{"kind":"cable","run":"flats-1","cable":"own-1"}"#);
    assert!(cable.ends_with("{\"revision\":4}"), "{cable}");
    assert!(served.get("/sites/house/history").contains("+ own.toml"));
}

#[test]
fn a_catalogue_that_is_away_is_told_where_it_is_named() {
    for file in ["away.toml", "../own.toml", "/etc/hostname"] {
        let served = Served::beside(SITE, Some(("own.toml", OWN)));
        let named = served.edit("one", 1, &naming(file));
        assert_eq!(status(&named), 200, "{named}");
        let page = served.get("/sites/house");
        assert!(
            page.contains("cannot be read: there is no such text in the folder of the site file"),
            "{page}"
        );
        // Taken back, the site is what it was.
        let undo = served.undo("two");
        assert_eq!(status(&undo), 200, "{undo}");
        assert!(!served.get("/sites/house").contains("cannot be read"));
    }
}
