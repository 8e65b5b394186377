//! The store of a folder as whole programs: listed, checked, backed up, restored.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests may read and write files, and fail"
)]

use crate::common::Folder;
use latchline_finding::Edit;
use latchline_store::{FileChange, Number, Outcome, Proposal, Signed, Sqlite, Store, Submission, Texts};

const HOUSE: &str = "[site]\ntitle = \"House\"\nfamily = \"ostrel-48\"\n";

/// A folder with a store of one site, which was edited once.
fn folder() -> Folder {
    let folder = Folder::new();
    std::fs::create_dir(folder.path("sites")).unwrap();
    let store = Store::new(Sqlite::open(&folder.path("sites/latchline.db")).unwrap()).unwrap();
    let signed = Signed { at_ms: 1_790_000_000_000, by: "Kim".to_string(), ..Signed::default() };
    let texts = Texts::new("house/site.toml", HOUSE).unwrap();
    let site = store.create_site("Linden\u{1b}[2J Court", &texts, &signed).unwrap();
    let change = FileChange::Edit(Edit::set(&["site", "title"], "\"Home\""));
    let files = vec![("house/site.toml".to_string(), change)];
    let submission =
        Submission { id: "1".to_string(), proposal: Proposal::Change { base: Number(1), files }, signed };
    assert!(matches!(store.submit(site.id, &submission), Ok(Outcome::Accepted(_))));
    folder
}

#[test]
fn a_store_is_listed_checked_backed_up_and_restored() {
    let folder = folder();
    let list = folder.run(&["store", "list", "sites"]);
    assert!(list.out.starts_with("Linden<U+001B>[2J Court (house/site.toml): revision 2, 2026-"), "{list:?}");
    assert!(list.out.trim_end().ends_with("by Kim"), "{list:?}");
    let check = folder.run(&["store", "check", "sites"]);
    assert_eq!(check.out, "sites/latchline.db is undamaged: 2 revisions, 0 answers\n");
    assert_eq!(folder.run(&["store", "backup", "sites", "monday.db"]).out, "wrote monday.db\n");
    let again = folder.run(&["store", "backup", "sites", "monday.db"]);
    assert_eq!(again.status, 2);
    assert!(again.err.contains("exists already"), "{again:?}");
    assert_eq!(folder.run(&["store", "list", "monday.db"]).out, list.out);
    assert!(folder.names().iter().all(|name| !name.starts_with(".latchline-")), "{:?}", folder.names());
    let restored = folder.run(&["store", "restore", "monday.db", "other"]);
    assert_eq!(restored.status, 0, "{restored:?}");
    assert_eq!(restored.out, "restored other/latchline.db\nother/house/site.toml: written\n");
    assert_eq!(folder.read("other/house/site.toml"), HOUSE.replace("House", "Home"));
    assert_eq!(folder.run(&["store", "list", "other"]).out, list.out);
}

#[test]
fn nothing_that_is_there_is_lost_by_restoring() {
    let folder = folder();
    assert_eq!(folder.run(&["store", "backup", "sites", "monday.db"]).status, 0);
    let refused = folder.run(&["store", "restore", "monday.db", "sites"]);
    assert_eq!(refused.status, 2);
    assert!(refused.err.contains("--replace"), "{refused:?}");
    std::fs::create_dir(folder.path("sites/house")).unwrap();
    folder.write("sites/house/site.toml", "[site]\ntitle = \"mine\"\n");
    let replaced = folder.run(&["store", "restore", "monday.db", "sites", "--replace"]);
    assert_eq!(replaced.status, 0, "{replaced:?}");
    assert!(replaced.out.contains("saved as revision 3"), "{replaced:?}");
    assert_eq!(folder.read("sites/house/site.toml"), "[site]\ntitle = \"mine\"\n");
    assert_eq!(folder.run(&["store", "check", "sites/latchline-before-restore-1.db"]).status, 0);
    // While another program works on the folder, nothing is restored.
    let lock = std::fs::File::open(folder.path("sites/.latchline.lock")).unwrap();
    lock.try_lock().unwrap();
    let locked = folder.run(&["store", "restore", "monday.db", "sites", "--replace"]);
    assert_eq!(locked.status, 2);
    assert!(locked.err.contains("another latchline"), "{locked:?}");
}

#[test]
fn what_is_no_store_or_damaged_is_told() {
    let folder = folder();
    folder.write("note.db", "not a store".repeat(1_000));
    for (arguments, why) in [
        (vec!["store", "list", "nowhere.db"], "there is no store at"),
        (vec!["store", "list", "note.db"], "is not a store of latchline"),
        (vec!["store", "restore", "note.db", "other"], "is not a store of latchline"),
    ] {
        let ran = folder.run(&arguments);
        assert_eq!(ran.status, 2, "{ran:?}");
        assert!(ran.err.contains(why), "{ran:?}");
    }
    assert!(!folder.path("other").exists());
    let mut bytes = std::fs::read(folder.path("sites/latchline.db")).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle..middle + 2_000].fill(0x5a);
    folder.write("damaged.db", bytes);
    let damaged = folder.run(&["store", "check", "damaged.db"]);
    assert_eq!(damaged.status, 2, "{damaged:?}");
    assert!(damaged.err.contains("is damaged"), "{damaged:?}");
}
