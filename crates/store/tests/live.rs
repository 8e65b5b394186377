//! The live file: written after an edit, taken in when an editor changed it, never laid over.

use crate::common::{HOUSE, Kept, SITE, accepted, kept, length, signed};
use latchline_finding::Edit;
use latchline_store::{
    FileChange, Kind, LiveError, LiveFolder, Number, Proposal, Settled, StoreError, Texts,
};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// A folder of files in memory.
#[derive(Default)]
pub struct Folder {
    pub files: RefCell<BTreeMap<String, Vec<u8>>>,
    /// What an editor saves the next time a file is about to be replaced.
    pub saves_meanwhile: RefCell<Option<String>>,
}

impl Folder {
    pub fn text(&self) -> String {
        String::from_utf8(self.files.borrow().get(SITE).cloned().unwrap_or_default()).unwrap()
    }

    pub fn save(&self, text: impl Into<Vec<u8>>) {
        self.files.borrow_mut().insert(SITE.to_string(), text.into());
    }
}

impl LiveFolder for Folder {
    fn read(&self, path: &str, _: usize) -> Result<Option<Vec<u8>>, LiveError> {
        Ok(self.files.borrow().get(path).cloned())
    }

    fn replace(&self, path: &str, was: Option<&[u8]>, text: &str) -> Result<(), LiveError> {
        if let Some(text) = self.saves_meanwhile.borrow_mut().take() {
            self.save(text);
        }
        let mut files = self.files.borrow_mut();
        if files.get(path).map(Vec::as_slice) != was {
            return Err(LiveError::Changed);
        }
        files.insert(path.to_string(), text.as_bytes().to_vec());
        Ok(())
    }
}

fn settle(kept: &Kept, folder: &Folder) -> Settled {
    kept.store.settle(kept.site, folder, &signed("file")).unwrap()
}

/// A site whose file has been written.
fn exported() -> (Kept, Folder) {
    let (kept, folder) = (kept(), Folder::default());
    let written = vec![SITE.to_string()];
    assert_eq!(settle(&kept, &folder), Settled::Current { head: Number(1), written });
    (kept, folder)
}

#[test]
fn the_file_follows_the_head_and_is_done_when_it_says_the_same() {
    let (kept, folder) = exported();
    assert_eq!(folder.text(), HOUSE);
    assert_eq!(settle(&kept, &folder), Settled::Current { head: Number(1), written: vec![] });
    kept.edit("kim", "1", 1, length("door", 15));
    settle(&kept, &folder);
    assert_eq!(folder.text(), kept.text());
    assert_eq!(kept.store.live_state(kept.site).unwrap(), (Some(Number(2)), None));
    // A file that somebody removed is written again.
    folder.files.borrow_mut().clear();
    settle(&kept, &folder);
    assert_eq!(folder.text(), kept.text());
}

#[test]
fn what_was_written_before_the_program_ended_is_not_taken_for_an_outside_change() {
    let (kept, folder) = exported();
    kept.edit("kim", "1", 1, length("door", 15));
    // Written, but the program ended before that was recorded; then the same value was changed again.
    folder.save(kept.text());
    kept.edit("kim", "2", 2, length("door", 16));
    let written = vec![SITE.to_string()];
    assert_eq!(settle(&kept, &folder), Settled::Current { head: Number(3), written });
    assert!(folder.text().contains("16 m"));
}

#[test]
fn an_editors_change_becomes_a_revision_and_can_be_taken_back() {
    let (kept, folder) = exported();
    folder.save(HOUSE.replace("22 m", "23 m"));
    let Settled::TakenIn { revision, written } = settle(&kept, &folder) else { panic!() };
    assert_eq!((revision.number, revision.kind, written.len()), (Number(2), Kind::Outside, 0));
    assert_eq!(kept.text(), folder.text());
    accepted(&kept.submit("kim", "1", Proposal::TakeBack(Number(2))));
    settle(&kept, &folder);
    assert_eq!(folder.text(), HOUSE);
}

#[test]
fn an_editors_change_goes_together_with_one_made_here() {
    let (kept, folder) = exported();
    kept.edit("kim", "1", 1, length("door", 15));
    folder.save(HOUSE.replace("22 m", "23 m").replace("# through the cellar", "# through the loft"));
    let Settled::TakenIn { revision, .. } = settle(&kept, &folder) else { panic!() };
    assert_eq!(revision.number, Number(3));
    let both = HOUSE.replace("14 m", "15 m").replace("22 m", "23 m").replace("cellar", "loft");
    assert_eq!(kept.text(), both);
    assert_eq!(folder.text(), both);
    assert_eq!(settle(&kept, &folder), Settled::Current { head: Number(3), written: vec![] });
    // An editor that saves just when the file is written.
    kept.edit("kim", "2", 3, length("door", 17));
    *folder.saves_meanwhile.borrow_mut() = Some(both.replace("spacing = \"5 m\"", "spacing = \"6 m\""));
    settle(&kept, &folder);
    assert!(folder.text().contains("17 m") && folder.text().contains("\"6 m\""), "{}", folder.text());
    assert_eq!(folder.text(), kept.text());
}

#[test]
fn an_editors_change_that_meets_one_made_here_is_kept_aside_until_it_is_decided() {
    let theirs = HOUSE.replace("14 m", "99 m").replace("22 m", "23 m");
    let conflict = || {
        let (kept, folder) = exported();
        kept.edit("kim", "1", 1, length("door", 15));
        folder.save(theirs.as_str());
        let Settled::Conflict { aside, head, clashes } = settle(&kept, &folder) else { panic!() };
        assert_eq!((aside, head), (Number(3), Number(2)));
        assert!(clashes[0].is.as_ref().unwrap().contains("15 m"));
        assert!(clashes[0].wanted.as_ref().unwrap().contains("99 m"));
        // Nothing is lost or laid over, however often it is looked at and whatever is done here meanwhile.
        kept.edit("kim", "2", 2, Edit::set(&["site", "title"], "\"Home\""));
        assert!(matches!(settle(&kept, &folder), Settled::Conflict { aside: Number(3), .. }));
        assert_eq!(folder.text(), theirs);
        assert!(kept.text().contains("15 m"));
        let state = kept.store.state(kept.site, Number(3)).unwrap();
        assert_eq!((state.revision.kind, &**state.texts.site_text()), (Kind::Aside, theirs.as_str()));
        assert_eq!(kept.store.head_number(kept.site).unwrap(), Number(4));
        (kept, folder)
    };
    // For what was changed here.
    let (kept, folder) = conflict();
    kept.store.pass_over(kept.site, Number(3)).unwrap();
    settle(&kept, &folder);
    assert_eq!(folder.text(), kept.text());
    assert!(folder.text().contains("15 m") && folder.text().contains("22 m"));
    assert!(matches!(kept.store.pass_over(kept.site, Number(3)), Err(StoreError::NotThere(_))));
    // For what the editor wrote.
    let (kept, folder) = conflict();
    accepted(&kept.submit("kim", "3", Proposal::BringBack { base: Number(4), revision: Number(3) }));
    assert_eq!(settle(&kept, &folder), Settled::Current { head: Number(5), written: vec![] });
    assert_eq!(kept.text(), theirs);
    // By making them go together.
    let (kept, folder) = conflict();
    kept.edit("kim", "3", 4, length("door", 99));
    assert!(matches!(settle(&kept, &folder), Settled::TakenIn { .. }));
    assert!(kept.text().contains("Home") && kept.text().contains("99 m") && kept.text().contains("23 m"));
    assert_eq!(folder.text(), kept.text());
    assert_eq!(kept.store.live_state(kept.site).unwrap().1, None);
    // What is aside is nothing that could be taken back.
    let take_back = latchline_store::Submission {
        id: "4".to_string(),
        proposal: Proposal::TakeBack(Number(3)),
        signed: signed("kim"),
    };
    assert!(matches!(kept.store.submit(kept.site, &take_back), Err(StoreError::Unfit(_))));
}

#[test]
fn a_file_that_was_there_before_the_site_is_not_laid_over() {
    let (kept, folder) = (kept(), Folder::default());
    folder.save("mine = 1\n");
    for _ in 0..3 {
        assert!(matches!(settle(&kept, &folder), Settled::Conflict { aside: Number(2), .. }));
        assert_eq!(folder.text(), "mine = 1\n");
    }
    kept.store.pass_over(kept.site, Number(2)).unwrap();
    settle(&kept, &folder);
    assert_eq!(folder.text(), HOUSE);
    assert_eq!(**kept.store.state(kept.site, Number(2)).unwrap().texts.site_text(), *"mine = 1\n");
}

#[test]
fn a_file_that_is_no_text_is_told_and_left() {
    let (kept, folder) = exported();
    kept.edit("kim", "1", 1, length("door", 15));
    for bytes in [b"a = \"\xe4\"".to_vec(), b"a\0".to_vec(), vec![b'x'; 8_000_001]] {
        folder.save(bytes.clone());
        let Settled::Unusable { path, why } = settle(&kept, &folder) else { panic!() };
        assert!(path == SITE && !why.is_empty());
        assert_eq!(folder.files.borrow()[SITE], bytes);
    }
    // Half a file, as an editor leaves it for a moment, is a change that can be taken back, and no TOML.
    folder.save(&HOUSE[..HOUSE.len() / 2]);
    assert!(matches!(settle(&kept, &folder), Settled::Conflict { .. } | Settled::TakenIn { .. }));
    assert_eq!(kept.store.state(kept.site, Number(2)).unwrap().texts.site_text().len(), HOUSE.len());
}

#[test]
fn catalogues_are_live_files_too() {
    let (kept, folder) = exported();
    let own = "parts/own.toml".to_string();
    let add = FileChange::Write("[cables]\na = 1\nb = 2\nc = 3\n".to_string());
    let files = vec![(own.clone(), add)];
    accepted(&kept.submit("kim", "1", Proposal::Change { base: Number(1), files }));
    assert_eq!(settle(&kept, &folder), Settled::Current { head: Number(2), written: vec![own.clone()] });
    folder.files.borrow_mut().insert(own.clone(), b"[cables]\na = 1\nb = 2\nc = 30\n".to_vec());
    assert!(matches!(settle(&kept, &folder), Settled::TakenIn { .. }));
    let head = kept.store.head(kept.site).unwrap();
    assert!(head.texts.get(&own).unwrap().contains("30"));
    let files = vec![(own.clone(), FileChange::Remove)];
    accepted(&kept.submit("kim", "2", Proposal::Change { base: Number(3), files }));
    settle(&kept, &folder);
    assert!(folder.files.borrow().contains_key(&own), "a file that the site no longer has is left");
}

#[test]
fn marks_and_line_ends_of_a_file_stay() {
    let folder = Folder::default();
    let kept = kept();
    let text = format!("\u{feff}{}", HOUSE.replace('\n', "\r\n"));
    let texts = Texts::new(SITE, text.as_str()).unwrap();
    let site = kept.store.create_site("Marked", &texts, &signed("kim")).unwrap().id;
    let kept = Kept { site, ..kept };
    folder.save(text.as_str());
    assert_eq!(settle(&kept, &folder), Settled::Current { head: Number(1), written: vec![] });
    kept.edit("kim", "1", 1, length("door", 15));
    settle(&kept, &folder);
    assert_eq!(folder.text(), text.replace("14 m", "15 m"));
}
