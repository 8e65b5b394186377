//! Edits are brought to the head or are conflicts that show both; taking back never takes what others did.

use crate::common::{HOUSE, SITE, accepted, change, conflict, kept, length, signed};
use latchline_finding::{Change, Edit};
use latchline_store::{FileChange, Kind, Number, Outcome, Proposal, StoreError, Submission};

#[test]
fn an_edit_becomes_a_revision_with_its_parent_and_who_made_it() {
    let kept = kept();
    let outcome = kept.edit("kim", "1", 1, length("door", 15));
    let revision = accepted(&outcome);
    assert_eq!((revision.number, revision.parent, revision.kind), (Number(2), Some(Number(1)), Kind::Edit));
    assert_eq!(revision.signed, signed("kim"));
    assert_eq!(kept.text(), HOUSE.replace("14 m", "15 m"));
    let state = kept.store.head(kept.site).unwrap();
    assert_eq!(state.revision, *revision);
    assert_eq!(state.revision.hash, state.texts.hash());
}

#[test]
fn a_repeated_id_gets_the_first_answer_and_changes_nothing() {
    let kept = kept();
    let first = kept.edit("kim", "1", 1, length("door", 15));
    let other = kept.edit("lee", "2", 1, length("door", 16));
    conflict(&other);
    let nothing = kept.edit("lee", "3", 2, length("door", 15));
    assert!(matches!(nothing, Outcome::Unchanged(_)));
    kept.edit("kim", "4", 2, length("door", 17));
    let head = kept.text();
    assert_eq!(kept.edit("kim", "1", 1, length("door", 15)), first);
    assert_eq!(
        kept.edit("lee", "2", 1, length("door", 16)),
        other,
        "although its place is free again or not"
    );
    assert_eq!(kept.edit("lee", "3", 2, length("door", 15)), nothing);
    assert_eq!(kept.text(), head);
    // The same id for something else is told.
    let proposal = change(1, length("door", 99));
    let submission = Submission { id: "1".to_string(), proposal, signed: signed("kim") };
    assert_eq!(kept.store.submit(kept.site, &submission), Err(StoreError::IdReused("1".to_string())));
    assert_eq!(kept.text(), head);
}

#[test]
fn an_edit_on_an_older_revision_is_brought_to_the_head_where_its_values_stand() {
    let kept = kept();
    kept.edit("kim", "1", 1, length("door", 15));
    // Another value, even on the same line.
    accepted(&kept.edit("lee", "2", 1, Edit::set(&["runs", "door", "pairs"], "2")));
    assert_eq!(kept.text(), HOUSE.replace("14 m\"", "15 m\", pairs = 2"));
    let outcome = kept.edit("lee", "3", 1, length("door", 16));
    let found = conflict(&outcome);
    assert_eq!((found.base, found.head), (Some(Number(1)), Number(3)));
    let clash = &found.clashes[0];
    assert_eq!((clash.path.as_str(), clash.place.as_str()), (SITE, "runs.door.length"));
    assert_eq!(clash.was.as_deref(), Some("\"14 m\""));
    assert_eq!(clash.is.as_deref(), Some("\"15 m\""));
    assert_eq!(clash.wanted.as_deref(), Some("\"16 m\""));
    let wanted = found.wanted.as_ref().unwrap();
    assert_eq!(**wanted.site_text(), *HOUSE.replace("14 m", "16 m"));
}

#[test]
fn undo_takes_back_what_its_client_did_and_nothing_else() {
    let kept = kept();
    kept.edit("kim", "k1", 1, length("door", 15));
    kept.edit("lee", "l1", 2, length("high", 23));
    kept.edit("kim", "k2", 3, Edit::set(&["runs", "low", "spacing"], "\"6 m\""));
    // Kim's second, then the first, with Lee's between them.
    assert_eq!(accepted(&kept.submit("kim", "k3", Proposal::Undo)).of, Some(Number(4)));
    let undone = kept.submit("kim", "k4", Proposal::Undo);
    assert_eq!((accepted(&undone).kind, accepted(&undone).of), (Kind::Undo, Some(Number(2))));
    assert_eq!(kept.text(), HOUSE.replace("22 m", "23 m"));
    assert_eq!(kept.submit("kim", "k4", Proposal::Undo), undone, "sent again it takes nothing more back");
    assert!(matches!(kept.submit("kim", "k5", Proposal::Undo), Outcome::Unchanged(_)));
    // And again, in order.
    accepted(&kept.submit("kim", "k6", Proposal::Redo));
    assert_eq!(kept.text(), HOUSE.replace("22 m", "23 m").replace("14 m", "15 m"));
    let turns = kept.store.turns(kept.site, "kim").unwrap();
    assert_eq!(turns.undo.map(|one| one.number), Some(Number(7)));
    assert_eq!(turns.redo.map(|one| one.number), Some(Number(5)));
    accepted(&kept.submit("kim", "k7", Proposal::Redo));
    assert!(matches!(kept.submit("kim", "k8", Proposal::Redo), Outcome::Unchanged(_)));
    assert!(kept.text().contains("spacing = \"6 m\""));
}

#[test]
fn undo_of_a_value_that_another_changed_since_is_a_conflict() {
    let kept = kept();
    kept.edit("kim", "k1", 1, length("door", 15));
    kept.edit("lee", "l1", 2, length("door", 16));
    let outcome = kept.submit("kim", "k2", Proposal::Undo);
    let found = conflict(&outcome);
    assert_eq!(found.clashes[0].place, "line 11");
    assert!(found.clashes[0].is.as_ref().unwrap().contains("16 m"));
    assert!(found.clashes[0].wanted.as_ref().unwrap().contains("14 m"));
    assert!(kept.text().contains("16 m"));
    // What stands on the same line is not in the way.
    kept.edit("kim", "k3", 3, Edit::set(&["runs", "high", "cable"], "\"pair-1.0\""));
    kept.edit("lee", "l2", 4, length("high", 30));
    accepted(&kept.submit("kim", "k4", Proposal::Undo));
    assert!(kept.text().contains("length = \"30 m\", cable = \"pair-0.8\" } # through the cellar"));
}

#[test]
fn any_revision_can_be_taken_back_but_the_first() {
    let kept = kept();
    kept.edit("kim", "k1", 1, Edit::one(&["runs", "low", "to"], Change::Insert(2, "\"F9\"".to_string())));
    kept.edit("lee", "l1", 2, length("door", 15));
    let taken = kept.submit("lee", "l2", Proposal::TakeBack(Number(2)));
    assert_eq!(accepted(&taken).of, Some(Number(2)));
    assert_eq!(kept.text(), HOUSE.replace("14 m", "15 m"));
    assert_eq!(kept.store.turns(kept.site, "kim").unwrap().undo, None, "it is taken back already");
    let first =
        Submission { id: "l3".to_string(), proposal: Proposal::TakeBack(Number(1)), signed: signed("lee") };
    assert!(matches!(kept.store.submit(kept.site, &first), Err(StoreError::Unfit(_))));
}

#[test]
fn an_old_state_is_brought_back_as_a_new_revision_unless_something_came_unseen() {
    let kept = kept();
    kept.edit("kim", "1", 1, length("door", 15));
    kept.store.name_state(kept.site, Number(2), "as offered", &signed("kim")).unwrap();
    kept.edit("kim", "2", 2, length("door", 16));
    let back = |base| Proposal::BringBack { base: Number(base), revision: Number(2) };
    conflict(&kept.submit("lee", "3", back(2)));
    let outcome = kept.submit("lee", "4", back(3));
    assert_eq!((accepted(&outcome).kind, accepted(&outcome).of), (Kind::BroughtBack, Some(Number(2))));
    assert_eq!(kept.text(), HOUSE.replace("14 m", "15 m"));
    assert_eq!(kept.store.named_states(kept.site).unwrap(), [("as offered".to_string(), Number(2))]);
    accepted(&kept.submit("lee", "5", Proposal::Undo));
    assert!(kept.text().contains("16 m"));
}

#[test]
fn a_catalogue_comes_goes_and_is_merged_with_the_site_file() {
    let kept = kept();
    let own = "own.toml".to_string();
    let write = |text: &str| FileChange::Write(text.to_string());
    let both = vec![
        (own.clone(), write("[cables]\na = 1\nb = 2\nc = 3\n")),
        (SITE.to_string(), FileChange::Edit(Edit::set(&["site", "catalogues"], "[\"own.toml\"]"))),
    ];
    accepted(&kept.submit("kim", "1", Proposal::Change { base: Number(1), files: both.clone() }));
    assert!(kept.text().contains("catalogues"));
    // Two that keyed in a catalogue of the same name.
    let other = vec![(own.clone(), write("[cables]\nd = 1\n"))];
    conflict(&kept.submit("lee", "2", Proposal::Change { base: Number(1), files: other }));
    let whole =
        |base, text: &str| Proposal::Change { base: Number(base), files: vec![(own.clone(), write(text))] };
    accepted(&kept.submit("kim", "3", whole(2, "[cables]\na = 10\nb = 2\nc = 3\n")));
    accepted(&kept.submit("lee", "4", whole(2, "[cables]\na = 1\nb = 2\nc = 30\n")));
    let head = kept.store.head(kept.site).unwrap();
    assert_eq!(&**head.texts.get("own.toml").unwrap(), "[cables]\na = 10\nb = 2\nc = 30\n");
    let gone = |base| Proposal::Change { base: Number(base), files: vec![(own.clone(), FileChange::Remove)] };
    conflict(&kept.submit("kim", "5", gone(2)));
    accepted(&kept.submit("kim", "6", gone(4)));
    assert_eq!(kept.store.head(kept.site).unwrap().texts.catalogues().count(), 0);
    accepted(&kept.submit("kim", "7", Proposal::Undo));
    assert_eq!(kept.store.head(kept.site).unwrap().texts.catalogues().count(), 1);
}

#[test]
fn what_does_not_fit_its_own_base_is_told_and_nothing_kept_of_it() {
    let kept = kept();
    for (id, edit) in [
        ("1", Edit::remove(&["runs", "none"])),
        ("2", Edit::set(&["runs", "door", "length"], "]")),
        ("3", Edit::one(&["runs", "door"], Change::Expect(None)).then(length("door", 1))),
    ] {
        let outcome = kept.edit("kim", id, 1, edit);
        assert_eq!(conflict(&outcome).wanted, None);
        assert!(!conflict(&outcome).clashes[0].reason.is_empty());
    }
    assert_eq!(kept.text(), HOUSE);
    assert_eq!(kept.store.head_number(kept.site).unwrap(), Number(1));
}
