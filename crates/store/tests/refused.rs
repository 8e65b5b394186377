//! Files that are no store, stores of a newer program, damaged and read-only ones: told, and left as they are.

use crate::common::{HOUSE, change, kept, length, signed};
use latchline_store::{SCHEMA_VERSION, SiteId, Sqlite, Store, StoreError, Submission, Texts};
use std::path::Path;

fn opened(path: &Path) -> Result<Store, StoreError> {
    Sqlite::open(path).and_then(Store::new)
}

fn bytes(path: &Path) -> Vec<u8> {
    std::fs::read(path).unwrap()
}

#[test]
fn what_is_not_a_store_is_left_as_it_is() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("store.db");
    std::fs::write(&path, "a text of somebody else, long enough to be no empty file".repeat(100)).unwrap();
    let before = bytes(&path);
    assert!(matches!(opened(&path), Err(StoreError::NotAStore(_))));
    assert_eq!(bytes(&path), before);
    // Another program's database.
    let other = folder.path().join("other.db");
    rusqlite::Connection::open(&other).unwrap().execute_batch("create table theirs (x)").unwrap();
    let before = bytes(&other);
    assert!(matches!(opened(&other), Err(StoreError::NotAStore(_))));
    assert_eq!(bytes(&other), before);
    let none = folder.path().join("none.db");
    assert!(matches!(Sqlite::open_to_read(&none).map(drop), Err(StoreError::NoStore(_))));
    assert!(!none.exists());
    assert!(matches!(opened(&folder.path().join("no/such/folder.db")), Err(StoreError::Failed { .. })));
}

#[test]
fn a_store_of_a_newer_program_is_not_touched_not_even_by_a_program_that_has_it_open() {
    let kept = kept();
    let path = kept.folder.path().join("store.db");
    let newer = rusqlite::Connection::open(&path).unwrap();
    newer.execute("update store_schema set version = ?1", [SCHEMA_VERSION + 1]).unwrap();
    let submission =
        Submission { id: "1".to_string(), proposal: change(1, length("door", 15)), signed: signed("kim") };
    let refused = |result: Result<(), StoreError>| match result {
        Err(StoreError::Newer { found, known, .. }) => {
            assert_eq!((found, known), (SCHEMA_VERSION + 1, SCHEMA_VERSION));
        }
        other => panic!("{other:?}"),
    };
    refused(kept.store.submit(kept.site, &submission).map(drop));
    refused(opened(&path).map(drop));
    refused(Sqlite::open_to_read(&path).and_then(Store::to_read).map(drop));
    // It can still be read by who has it open.
    assert_eq!(kept.text(), HOUSE);
}

#[test]
fn a_damaged_store_is_told_and_gives_no_wrong_text() {
    let kept = kept();
    for number in 1..20 {
        kept.edit("kim", &number.to_string(), number, length("high", number as u32));
    }
    let path = kept.folder.path().join("store.db");
    let (site, newest) = (kept.site, kept.text());
    drop(kept.store);
    let whole = bytes(&path);
    let mut told = 0;
    for at in (4_096..whole.len()).step_by(509) {
        let mut damaged = whole.clone();
        damaged[at..(at + 64).min(whole.len())].fill(0x5a);
        std::fs::write(&path, &damaged).unwrap();
        match Sqlite::open_to_read(&path).and_then(Store::to_read).and_then(|store| store.head(site)) {
            Ok(state) => assert_eq!(**state.texts.site_text(), *newest),
            Err(error) => {
                assert!(!matches!(error, StoreError::Overtaken | StoreError::Unfit(_)), "{error:?}");
                told += 1;
            }
        }
    }
    assert!(told > 10, "{told}");
    std::fs::write(&path, &whole[..whole.len() / 2]).unwrap();
    let half = Sqlite::open_to_read(&path).and_then(Store::to_read).and_then(|store| store.head(site));
    assert!(half.is_err());
}

#[test]
fn a_site_or_revision_that_is_not_there_is_told() {
    let kept = kept();
    let submission =
        Submission { id: "1".to_string(), proposal: change(7, length("door", 15)), signed: signed("kim") };
    assert!(matches!(kept.store.submit(kept.site, &submission), Err(StoreError::NotThere(_))));
    assert!(matches!(kept.store.submit(SiteId(9), &submission), Err(StoreError::NotThere(_))));
    assert!(matches!(kept.store.head(SiteId(9)), Err(StoreError::NotThere(_))));
    let empty = Submission { id: String::new(), ..submission.clone() };
    assert!(matches!(kept.store.submit(kept.site, &empty), Err(StoreError::Unfit(_))));
    let long = Submission { id: "x".repeat(101), ..submission };
    assert!(matches!(kept.store.submit(kept.site, &long), Err(StoreError::Unfit(_))));
    assert!(Texts::new("../out.toml", "").is_err());
}
