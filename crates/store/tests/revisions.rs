//! Sites, revisions and what is found of them again.

use crate::common::{HOUSE, SITE, kept, length, signed};
use latchline_store::{Kind, Number, Sqlite, Store, StoreError, Texts};

#[test]
fn all_of_it_is_there_when_the_store_is_opened_again() {
    let kept = kept();
    let mut texts = vec![HOUSE.to_string()];
    for metres in 1..100 {
        kept.edit("kim", &metres.to_string(), i64::from(metres), length("high", metres));
        texts.push(kept.text());
    }
    let path = kept.folder.path().join("store.db");
    drop(kept.store);
    for store in [
        Store::new(Sqlite::open(&path).unwrap()).unwrap(),
        Store::to_read(Sqlite::open_to_read(&path).unwrap()).unwrap(),
    ] {
        for (at, text) in texts.iter().enumerate() {
            let state = store.state(kept.site, Number(at as i64 + 1)).unwrap();
            assert_eq!(**state.texts.site_text(), **text);
        }
        assert_eq!(store.head_number(kept.site).unwrap(), Number(100));
    }
}

#[test]
fn many_revisions_take_little_room() {
    let kept = kept();
    let dwellings: String =
        (0..1_000).map(|flat| format!("W{flat} = {{ place = \"A/{flat}\" }}\n")).collect();
    let large = HOUSE.replace("[dwellings]\n", &format!("[dwellings]\n{dwellings}"));
    let texts = Texts::new(SITE, large.as_str()).unwrap();
    let site = kept.store.create_site("Large", &texts, &signed("kim")).unwrap().id;
    let kept = crate::common::Kept { site, ..kept };
    for metres in 1..200 {
        kept.edit("kim", &metres.to_string(), i64::from(metres), length("high", metres));
    }
    drop(kept.store);
    let bytes = std::fs::metadata(kept.folder.path().join("store.db")).unwrap().len();
    let whole = 200 * large.len() as u64;
    assert!(bytes < whole / 8, "{bytes} bytes of {whole}");
}

#[test]
fn the_history_is_given_in_parts_the_newest_first() {
    let kept = kept();
    for metres in 1..10 {
        kept.edit("kim", &metres.to_string(), i64::from(metres), length("high", metres));
    }
    kept.store.name_state(kept.site, Number(4), "b", &signed("kim")).unwrap();
    kept.store.name_state(kept.site, Number(4), "a", &signed("kim")).unwrap();
    let numbers = |below, most| {
        let history = kept.store.history(kept.site, below, most).unwrap();
        history.iter().map(|one| one.number.0).collect::<Vec<_>>()
    };
    assert_eq!(numbers(None, 3), [10, 9, 8]);
    assert_eq!(numbers(Some(Number(4)), 9), [3, 2, 1]);
    let history = kept.store.history(kept.site, Some(Number(5)), 1).unwrap();
    assert_eq!(history[0].names, ["a", "b"]);
    assert_eq!(kept.store.history(kept.site, Some(Number(2)), 1).unwrap()[0].kind, Kind::First);
    kept.store.name_state(kept.site, Number(5), "a", &signed("kim")).unwrap();
    kept.store.remove_name(kept.site, "b").unwrap();
    assert_eq!(kept.store.named_states(kept.site).unwrap(), [("a".to_string(), Number(5))]);
}

#[test]
fn sites_are_listed_by_name_and_a_name_is_used_once() {
    let kept = kept();
    let texts = Texts::new("b.toml", "").unwrap();
    let create = |name: &str| kept.store.create_site(name, &texts, &signed("kim"));
    create("Birch").unwrap();
    assert_eq!(create("House"), Err(StoreError::NameTaken("House".to_string())));
    assert!(matches!(create(" "), Err(StoreError::Unfit(_))));
    assert!(matches!(create(&"x".repeat(201)), Err(StoreError::Unfit(_))));
    kept.store.rename_site(kept.site, "Ash").unwrap();
    assert!(matches!(kept.store.rename_site(kept.site, "Birch"), Err(StoreError::NameTaken(_))));
    let names: Vec<String> = kept.store.sites().unwrap().into_iter().map(|site| site.name).collect();
    assert_eq!(names, ["Ash", "Birch"]);
    assert_eq!(kept.store.site_named("Birch").unwrap().file, "b.toml");
    assert!(matches!(kept.store.site_named("House"), Err(StoreError::NotThere(_))));
}
