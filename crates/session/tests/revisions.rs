//! Revisions: edits are applied or refused, work that is no longer wanted is given up, undo finds what was known.

use crate::common::{HOUSE, files, session};
use latchline_finding::{Both, Change, Edit, EditStep, Severity, SourceFile};
use latchline_session::{CatalogueReader, GivenUp, Session};
use latchline_site::edit::EditError;
use std::sync::{Arc, Mutex};

#[test]
fn work_on_an_older_revision_is_given_up_and_nothing_of_it_kept() {
    let mut session = session(HOUSE);
    let old = session.view();
    session.edit(&Edit::set(&["runs", "door", "length"], "\"15 m\"")).unwrap();
    assert_eq!(old.voltages().err(), Some(GivenUp));
    assert_eq!(old.assessment().err(), Some(GivenUp));
    assert_eq!(old.remedies().err(), Some(GivenUp));
    assert_eq!(old.headroom().err(), Some(GivenUp));
    assert_eq!(old.standing().pending().len(), 4);
    assert!(session.view().assessment().unwrap().is_some());
    // Taken back, its text is the newest again.
    session.undo().unwrap();
    assert!(old.assessment().unwrap().is_some());
    assert_ne!(old.revision(), session.view().revision(), "a revision is never used twice");
}

#[test]
fn going_back_to_a_text_finds_what_was_known_of_it() {
    let mut session = session(HOUSE);
    let first: *const _ = session.view().assessment().unwrap().unwrap();
    session.edit(&Edit::set(&["runs", "door", "length"], "\"15 m\"")).unwrap();
    let second: *const _ = session.view().assessment().unwrap().unwrap();
    session.undo().unwrap();
    assert_eq!(first, session.view().assessment().unwrap().unwrap() as *const _);
    // The same text by another way.
    session.edit(&Edit::set(&["runs", "door", "length"], "\"15 m\"")).unwrap();
    assert_eq!(second, session.view().assessment().unwrap().unwrap() as *const _);
}

#[test]
fn undo_and_redo_go_back_and_forth_byte_for_byte() {
    let text = HOUSE.replace("\n[runs]", "\n# the runs   \n[runs]  # in order\n");
    for text in [text.clone(), text.replace('\n', "\r\n"), format!("\u{feff}{text}")] {
        let mut session = session(&text);
        let edits = [
            Edit::set(&["runs", "door", "length"], "\"15 m\""),
            Edit::remove(&["dwellings", "F5"]),
            Edit::one(&["supplies", "P1"], Change::Rename("PS".to_string())),
            Edit::one(&["accept"], Change::AppendTable("code = \"thin-margin\"\n".to_string())),
            Edit::set(&["conditions", "hottest_temperature"], "\"30 °C\""),
        ];
        let mut texts = vec![text.clone()];
        for edit in &edits {
            session.edit(edit).unwrap();
            texts.push(session.view().text().to_string());
        }
        for at in (0..edits.len()).rev() {
            session.undo().unwrap();
            assert_eq!(session.view().text(), texts[at]);
        }
        assert_eq!(session.undo(), None);
        for text in &texts[1..] {
            session.redo().unwrap();
            assert_eq!(session.view().text(), text);
        }
        assert_eq!(session.redo(), None);
    }
}

fn row(index: usize) -> Vec<EditStep> {
    vec!["runs".into(), "high".into(), "to".into(), index.into()]
}

#[test]
fn an_edit_made_on_an_older_revision_is_applied_or_refused_never_laid_over_another_row() {
    let mut session = session(HOUSE);
    let old = session.view();
    // Somebody takes the first flat of the run out: all rows move up.
    session.edit(&Edit { changes: vec![(row(0), Change::Remove)] }).unwrap();
    let now = session.view();
    for edit in [
        Edit { changes: vec![(row(1), Change::Remove)] },
        Edit { changes: vec![(row(1), Change::Set("\"F2\"".to_string()))] },
        Edit::one(&["runs", "high", "to"], Change::Insert(1, "\"F2\"".to_string())),
    ] {
        let refused = session.edit_made_on(&old, &edit);
        assert!(matches!(refused, Err(EditError::Changed(_))), "{edit:?}: {refused:?}");
        assert_eq!(session.view().text(), now.text());
        assert_eq!(session.revision(), now.revision());
    }
    // Something elsewhere is as it was.
    session.edit_made_on(&old, &Edit::set(&["runs", "door", "length"], "\"15 m\"")).unwrap();
    // A value that somebody else changed meanwhile is not laid over.
    let other = Edit::set(&["runs", "door", "length"], "\"16 m\"");
    assert!(matches!(session.edit_made_on(&old, &other), Err(EditError::Changed(_))));
    // Nor one that somebody else added.
    session.edit(&Edit::set(&["runs", "door", "pairs"], "2")).unwrap();
    let pairs = Edit::set(&["runs", "door", "pairs"], "3");
    assert!(matches!(session.edit_made_on(&old, &pairs), Err(EditError::Changed(_))));
    assert!(session.view().text().contains("pairs = 2"));
}

#[test]
fn mending_is_a_row_of_edits_that_can_be_taken_back() {
    let mut session = session(&HOUSE.replace(
        "first = \"12 m\", spacing = \"5 m\" }\n\n",
        "first = \"700 m\", spacing = \"5 m\", cable = \"pair-0.5\" }\n\n",
    ));
    let before = session.view().text().to_string();
    let errors = |session: &Session| {
        let view = session.view();
        let findings = &view.assessment().unwrap().unwrap().findings;
        findings.iter().filter(|one| one.severity == Severity::Error && one.accepted.is_none()).count()
    };
    let failing = errors(&session);
    let mended = session.mend(Severity::Error).unwrap();
    assert!(!mended.steps.is_empty());
    assert!(errors(&session) < failing, "{failing} errors before");
    for _ in &mended.steps {
        session.undo().unwrap();
    }
    assert_eq!(session.view().text(), before);
}

#[test]
fn many_threads_ask_and_one_edits() {
    let session = Arc::new(Mutex::new(session(HOUSE)));
    std::thread::scope(|scope| {
        for _ in 0..3 {
            let session = Arc::clone(&session);
            scope.spawn(move || {
                for _ in 0..12 {
                    let view = session.lock().unwrap().view();
                    if let Ok(found) = view.assessment() {
                        let text = view.text();
                        let (all, reading) = crate::common::whole(text);
                        let all = all.map(|all| latchline_assess::Assessment { read: reading, ..all });
                        assert_eq!(found, all.as_ref());
                    }
                }
            });
        }
        for metres in 0..20 {
            let edit = Edit::set(&["runs", "door", "length"], format!("\"{} m\"", 5 + metres % 7));
            session.lock().unwrap().edit(&edit).unwrap();
            std::thread::yield_now();
        }
    });
}

/// A folder with one catalogue, which counts how often it is read.
#[derive(Debug, Clone)]
struct Folder {
    text: Arc<Mutex<Option<String>>>,
    asked: Arc<Mutex<Vec<String>>>,
}

impl CatalogueReader for Folder {
    fn read(&self, path: &str) -> Result<SourceFile, Both> {
        self.asked.lock().unwrap().push(path.to_string());
        let text = self.text.lock().unwrap().clone().filter(|_| path == "own.toml");
        let text = text.ok_or_else(|| Both::new("it is away", "sie ist weg"))?;
        Ok(SourceFile { name: String::from("folder/own.toml"), text: text.into() })
    }
}

const OWN: &str = r#"[cables.own-1]
title = "own"
source = "invented"
gauge = "1 mm"
"#;

/// What an edit newly names is read at once, once; it holds for the texts that name it and no others.
#[test]
fn a_catalogue_that_an_edit_names_is_read_at_once() {
    let folder = Folder { text: Arc::default(), asked: Arc::default() };
    let mut session = Session::new(files(HOUSE)).with_reader(folder.clone());
    let cable = |session: &Session| {
        session.view().site().is_some_and(|site| site.catalogue.cables.contains_key("own-1"))
    };
    let before = session.view();
    let named = Edit::set(&["site", "catalogues"], "[\"own.toml\"]");

    // It is not there: the site cannot be used, and says at the name why.
    session.edit(&named).unwrap();
    let view = session.view();
    assert!(view.site().is_none() && view.catalogues().len() == 1);
    let told = view.reading().iter().find(|one| one.code.as_str() == "catalogue-not-read").unwrap();
    assert_eq!(told.severity, Severity::Error);
    assert_eq!(&view.text()[told.origin.span().unwrap().range()], "\"own.toml\"");
    session.undo().unwrap();
    assert!(session.view().site().is_some() && !cable(&session));

    // Now it is.
    *folder.text.lock().unwrap() = Some(OWN.to_string());
    session.edit(&Edit::set(&["runs", "door", "length"], "\"15 m\"")).unwrap();
    session.edit(&named).unwrap();
    assert!(cable(&session), "{:?}", session.view().reading());
    assert_eq!(session.view().catalogues().len(), 2);
    let texts = session.view();
    assert_eq!(texts.sources().file(texts.catalogues()[1]).name, "folder/own.toml");
    session.edit(&Edit::set(&["runs", "door", "cable"], "\"own-1\"")).unwrap();
    let assessment = session.view().assessment().unwrap().cloned().unwrap();

    // As if it had been given from the start.
    let mut given = files(session.view().text());
    given.named.insert(String::from("own.toml"), given.sources.add("folder/own.toml", OWN));
    assert_eq!(Session::new(given).view().assessment().unwrap(), Some(&assessment));

    // Read once; gone with the edit that named it, and back with it.
    session.undo().unwrap();
    session.undo().unwrap();
    assert!(!cable(&session) && session.view().catalogues() == before.catalogues());
    session.redo().unwrap();
    assert!(cable(&session));
    assert_eq!(*folder.asked.lock().unwrap(), ["own.toml", "own.toml"]);
}

#[test]
fn idle_acceptances_go_together_and_come_back_together() {
    let entry = |number: usize| {
        format!(
            "\n[[accept]]\ncode = \"thin-margin\"\nelement = \"F{number}\"\nreason = \"r\"\ndate = 2026-02-03\n"
        )
    };
    // Two of the same match nothing either.
    let house = HOUSE.split_once("\n[[accept]]").expect("an acceptance").0;
    let text = format!("{house}{}{}", (1..=40).map(entry).collect::<String>(), entry(7));
    let mut session = session(&text);
    let mended = session.mend(Severity::Warning).unwrap();
    assert_eq!(mended.steps.len(), 41);
    assert_eq!(session.view().text().trim_end(), house.trim_end());
    session.undo().unwrap();
    assert_eq!(session.view().text(), text);
}
