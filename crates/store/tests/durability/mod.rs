//! The power goes in the middle of edits: what was acknowledged is there, nothing is half there, and the work goes on.

mod medium;
mod vfs;

use crate::common::{HOUSE, SITE, accepted, change, length, signed};
use latchline_finding::Edit;
use latchline_store::{
    LiveError, LiveFolder, Number, Outcome, Proposal, Settled, SiteId, Sqlite, Store, StoreError, Submission,
    Texts,
};
use medium::{Dice, Happened, Medium};
use std::cell::RefCell;
use std::path::Path;
use std::sync::atomic::Ordering;

/// Edits that are recorded.
const EDITS: usize = 300;
/// Cuts that are tried.
const CUTS: usize = 1_000;

fn store_in(folder: &Path) -> Result<Store, StoreError> {
    Sqlite::open_on(&folder.join("store.db"), Some(vfs::NAME)).and_then(Store::new)
}

/// A live file that records what is done to it, in the order of a careful program: written aside, synced, renamed, the folder synced.
#[derive(Default)]
struct Live(RefCell<Option<Vec<u8>>>);

impl LiveFolder for Live {
    fn read(&self, _: &str, _: usize) -> Result<Option<Vec<u8>>, LiveError> {
        Ok(self.0.borrow().clone())
    }

    fn replace(&self, _: &str, was: Option<&[u8]>, text: &str) -> Result<(), LiveError> {
        if self.0.borrow().as_deref() != was {
            return Err(LiveError::Changed);
        }
        vfs::note(Happened::LiveWritten(text.as_bytes().to_vec()));
        vfs::note(Happened::LiveSynced);
        vfs::note(Happened::LiveRenamed);
        *self.0.borrow_mut() = Some(text.as_bytes().to_vec());
        vfs::note(Happened::LiveFolderSynced);
        Ok(())
    }
}

/// A house with so many flats that a text fills some pages.
fn large_house() -> String {
    let flats: String =
        (0..300).map(|flat| format!("W{flat} = {{ place = \"A/{}\" }}\n", flat / 4)).collect();
    HOUSE.replace("[dwellings]\n", &format!("[dwellings]\n{flats}"))
}

/// What is submitted one after the other, and what was there after each.
struct Day {
    happened: Vec<Happened>,
    submissions: Vec<Submission>,
    /// Number and text after each; the first is the site as it was taken in.
    states: Vec<(Number, String)>,
}

fn submission(at: usize, head: Number) -> Submission {
    let flat = format!("W{}", at * 7 % 300);
    let proposal = match at % 10 {
        3 => Proposal::Undo,
        4 => Proposal::Redo,
        7 => change(head.0, Edit::set(&["dwellings", &flat, "extensions"], format!("{}", 1 + at % 3))),
        8 => change(head.0, Edit::set(&["site", "title"], format!("\"{}\"", "House ".repeat(at % 40 + 1)))),
        _ => change(head.0, length("door", 1 + at as u32)),
    };
    Submission { id: at.to_string(), proposal, signed: signed("kim") }
}

/// A day's work on a fresh store, as it was recorded.
fn a_day() -> Day {
    let folder = tempfile::tempdir().unwrap();
    let live = Live::default();
    vfs::record();
    let store = store_in(folder.path()).unwrap();
    let texts = Texts::new(SITE, large_house().as_str()).unwrap();
    let site = store.create_site("House", &texts, &signed("kim")).unwrap();
    let mut states = vec![(site.head.number, large_house())];
    vfs::note(Happened::Acknowledged(1));
    let mut submissions = Vec::new();
    for at in 0..EDITS {
        let submission = submission(at, states[at].0);
        accepted(&store.submit(site.id, &submission).unwrap());
        vfs::note(Happened::Acknowledged(at + 2));
        let head = store.head(site.id).unwrap();
        states.push((head.revision.number, head.texts.site_text().to_string()));
        submissions.push(submission);
        store.settle(site.id, &live, &signed("file")).unwrap();
    }
    let happened = vfs::recorded();
    Day { happened, submissions, states }
}

/// What is wrong after one cut, if something is.
fn fault(day: &Day, medium: &Medium, dice: &mut Dice) -> Option<String> {
    let folder = tempfile::tempdir().unwrap();
    let (left, live) = medium.after_the_power_went(dice);
    for (name, bytes) in &left {
        std::fs::write(folder.path().join(name), bytes).unwrap();
    }
    let store = match store_in(folder.path()) {
        Ok(store) => store,
        Err(error) => return Some(format!("it cannot be opened: {error}")),
    };
    let acknowledged = medium.acknowledged;
    let site = SiteId(1);
    let head = match store.head(site) {
        Ok(head) => head,
        Err(StoreError::NotThere(_)) if acknowledged == 0 => return None,
        Err(error) => return Some(format!("{acknowledged} were acknowledged: {error}")),
    };
    // One more may be on the medium than the client was told of.
    let count = head.revision.number.0 as usize;
    if count < acknowledged || count > acknowledged + 1 {
        return Some(format!("{acknowledged} were acknowledged, {count} are there"));
    }
    let some = [0, count / 3, count.saturating_sub(2), count - 1].into_iter().chain([dice.next(count)]);
    for at in some {
        let (number, text) = &day.states[at];
        match store.state(site, *number) {
            Ok(state) if **state.texts.site_text() == **text => {}
            other => return Some(format!("revision {} is {other:?}", number.0)),
        }
    }
    if let Some(live) = &live
        && !day.states.iter().any(|(_, text)| text.as_bytes() == live)
    {
        return Some(String::from("the live file is half written"));
    }
    // The file is brought up to date, and is not taken for somebody else's.
    let live = Live(RefCell::new(live));
    match store.settle(site, &live, &signed("file")) {
        Ok(Settled::Current { .. }) => {}
        other => return Some(format!("the live file: {other:?}")),
    }
    if live.0.borrow().as_deref() != Some(head.texts.site_text().as_bytes()) {
        return Some(String::from("the live file is not as the head"));
    }
    // The client sends again what it has no answer to, and goes on.
    if let (Some(next), Some((number, text))) =
        (day.submissions.get(acknowledged.saturating_sub(1)), day.states.get(acknowledged))
        && acknowledged > 0
    {
        match store.submit(site, next) {
            Ok(Outcome::Accepted(revision)) if revision.number == *number => {}
            other => return Some(format!("sent again: {other:?}")),
        }
        if **store.head(site).unwrap().texts.site_text() != **text {
            return Some(String::from("sent again, it is something else"));
        }
    }
    None
}

/// Faults after so many cuts, spread over the day; the first words of each.
fn faults(day: &Day, cuts: usize, syncs: bool) -> Vec<String> {
    let mut dice = Dice(20_261_128);
    let mut places: Vec<usize> = (0..cuts).map(|_| dice.next(day.happened.len())).collect();
    places.sort_unstable();
    let mut medium = Medium::new(syncs);
    let mut at = 0;
    let mut found = Vec::new();
    for place in places {
        for happened in &day.happened[at..place] {
            medium.follow(happened);
        }
        at = place;
        if let Some(fault) = fault(day, &medium, &mut dice) {
            found.push(format!("cut at {place}: {fault}"));
        }
    }
    found
}

#[test]
fn a_thousand_cuts_in_the_middle_of_edits_lose_nothing_that_was_acknowledged() {
    let _one = vfs::registered();
    let day = a_day();
    // The record has what it is about: the log was taken into the file and begun anew.
    let written = |name: &str| {
        let is_it =
            |one: &&Happened| matches!(one, Happened::Written { file, at, .. } if file == name && *at == 0);
        day.happened.iter().filter(is_it).count()
    };
    assert!(written("store.db-wal") >= 2, "the log was begun {} times", written("store.db-wal"));
    assert!(written("store.db") >= 2, "the file was written {} times", written("store.db"));
    let found = faults(&day, CUTS, true);
    assert!(found.is_empty(), "{} faults, the first: {}", found.len(), found[0]);
    // The test sees what it is made for: on a medium that does not sync, edits are lost.
    let lost = faults(&day, 60, false);
    assert!(lost.len() > 30, "{} of 60", lost.len());
}

#[test]
fn a_full_medium_refuses_the_edit_and_keeps_what_was_acknowledged() {
    let _one = vfs::registered();
    let folder = tempfile::tempdir().unwrap();
    let store = store_in(folder.path()).unwrap();
    let texts = Texts::new(SITE, large_house().as_str()).unwrap();
    let site = store.create_site("House", &texts, &signed("kim")).unwrap().id;
    let mut dice = Dice(7);
    let (mut accepted_count, mut refused) = (0, 0);
    for at in 0..200_u32 {
        let head = store.head(site).unwrap();
        let edit = change(head.revision.number.0, length("door", 1 + at));
        let submission = Submission { id: at.to_string(), proposal: edit, signed: signed("kim") };
        vfs::ROOM.store(dice.next(40_000) as i64, Ordering::SeqCst);
        let outcome = store.submit(site, &submission);
        vfs::ROOM.store(i64::MAX, Ordering::SeqCst);
        match outcome {
            Ok(outcome) => {
                accepted(&outcome);
                accepted_count += 1;
            }
            Err(StoreError::Full(_)) => {
                refused += 1;
                assert_eq!(store.head(site).unwrap(), head);
                // With room again the same id is accepted once.
                if at % 2 == 0 {
                    accepted(&store.submit(site, &submission).unwrap());
                    accepted_count += 1;
                }
            }
            Err(other) => panic!("{other:?}"),
        }
    }
    assert!(refused > 20, "{refused}");
    assert_eq!(store.head_number(site).unwrap(), Number(1 + accepted_count));
    Sqlite::open_to_read(&folder.path().join("store.db")).unwrap().check_whole().unwrap();
}

#[test]
fn a_medium_that_can_only_be_read_is_told_and_can_be_read() {
    let _one = vfs::registered();
    let folder = tempfile::tempdir().unwrap();
    let store = store_in(folder.path()).unwrap();
    let texts = Texts::new(SITE, HOUSE).unwrap();
    let site = store.create_site("House", &texts, &signed("kim")).unwrap().id;
    drop(store);
    vfs::IS_READ_ONLY.store(true, Ordering::SeqCst);
    let refused = store_in(folder.path()).map(drop);
    vfs::IS_READ_ONLY.store(false, Ordering::SeqCst);
    // The log cannot be opened beside it.
    let told = refused.expect_err("it is refused").to_string();
    assert!(told.contains("may be written") || told.contains("make file and folder writable"), "{told}");
    let read = Store::to_read(Sqlite::open_to_read(&folder.path().join("store.db")).unwrap()).unwrap();
    assert_eq!(**read.head(site).unwrap().texts.site_text(), *HOUSE);
}
