//! Staged equals whole: in any order, after any edits and undos; and a partial result never looks clean.

use crate::common::{HOUSE, session, whole};
use latchline_assess::{Assessment, Verdict};
use latchline_finding::{Change, Edit, Severity};
use latchline_session::{GivenUp, Session, Stage, Standing};
use proptest::prelude::*;

/// What is done to a session.
#[derive(Debug, Clone)]
enum Deed {
    Edit(Edit),
    Undo,
    Redo,
    Ask(Stage),
    Look,
    Whole,
}

fn edits() -> impl Strategy<Value = Edit> {
    let run = || prop_oneof![Just("feed1"), Just("door"), Just("low"), Just("feed2"), Just("high")];
    let flat = || prop_oneof![Just("F1"), Just("F2"), Just("F3"), Just("F4"), Just("F5")];
    prop_oneof![
        (run(), 1..400_u32).prop_map(|(run, m)| {
            let key = if matches!(run, "low" | "high") { "first" } else { "length" };
            Edit::set(&["runs", run, key], format!("\"{m} m\""))
        }),
        (run(), prop_oneof![Just("pair-0.5"), Just("pair-0.8"), Just("no-such-cable")])
            .prop_map(|(run, cable)| Edit::set(&["runs", run, "cable"], format!("\"{cable}\""))),
        (flat(), prop_oneof![Just("ostrel-v4"), Just("ostrel-v7"), Just("ostrel-a1")])
            .prop_map(|(flat, model)| Edit::set(&["dwellings", flat, "station"], format!("\"{model}\""))),
        prop_oneof![Just("ostrel-ps-60"), Just("ostrel-ps-120")]
            .prop_map(|model| Edit::set(&["supplies", "P2", "model"], format!("\"{model}\""))),
        (20..45_u32).prop_map(|c| Edit::set(&["conditions", "hottest_temperature"], format!("\"{c} °C\""))),
        flat().prop_map(|flat| Edit::set(&["entrances", "front", "calls"], format!("[\"{flat}\"]"))),
        Just(Edit::remove(&["entrances", "front", "calls"])),
        prop_oneof![Just("voltage-too-low"), Just("thin-margin"), Just("silenced-group")].prop_map(|code| {
            let body = format!("code = \"{code}\"\nreason = \"known\"\ndate = 2026-02-01\n");
            Edit::one(&["accept"], Change::AppendTable(body))
        }),
    ]
}

fn deeds() -> impl Strategy<Value = Vec<Deed>> {
    let stage = prop_oneof![
        Just(Stage::Voltages),
        Just(Stage::ShortCircuit),
        Just(Stage::Signal),
        Just(Stage::StartUp)
    ];
    let deed = prop_oneof![
        4 => edits().prop_map(Deed::Edit),
        2 => Just(Deed::Undo),
        1 => Just(Deed::Redo),
        4 => stage.prop_map(Deed::Ask),
        2 => Just(Deed::Look),
        2 => Just(Deed::Whole),
    ];
    prop::collection::vec(deed, 1..14)
}

fn ask(session: &Session, stage: Stage) -> Result<(), GivenUp> {
    let view = session.view();
    match stage {
        Stage::Voltages => view.voltages().map(drop),
        Stage::ShortCircuit => view.short_circuit().map(drop),
        Stage::Signal => view.signal().map(drop),
        Stage::StartUp => view.start_up().map(drop),
    }
}

/// What is said before everything is in agrees with the whole.
fn look(session: &Session, all: Option<&Assessment>) {
    let view = session.view();
    match (view.standing(), all) {
        (Standing::Unusable, None) => {}
        (Standing::Known(verdict), Some(all)) => assert_eq!(verdict, all.verdict),
        (standing @ Standing::FailsAlready(_), Some(all)) => {
            assert_eq!(all.verdict, Verdict::Fails);
            assert!(!standing.pending().is_empty());
        }
        (standing @ Standing::Pending(_), Some(_)) => {
            assert!(!standing.holds(), "a partial result never looks clean");
            assert!(!standing.pending().is_empty());
        }
        (standing, all) => panic!("{standing:?} but {:?}", all.map(|all| all.verdict)),
    }
    if let (Some(report), Some(all)) = (view.rules(), all) {
        let mut rest: Vec<_> = all.findings.iter().collect();
        for finding in &report.findings {
            let at = rest.iter().position(|one| *one == finding);
            rest.remove(at.unwrap_or_else(|| panic!("{finding:?} is not among all")));
        }
        // What is still to come is of rules whose stages are not in, or an acceptance that matches nothing.
        if view.standing().pending().is_empty() {
            assert!(rest.iter().all(|one| one.code.as_str() == "acceptance-without-match"), "{rest:#?}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]
    #[test]
    fn staged_equals_whole_in_any_order_after_any_edits_and_undos(deeds in deeds()) {
        let mut session = session(HOUSE);
        let mut texts = vec![HOUSE.to_string()];
        for deed in deeds {
            match deed {
                Deed::Edit(edit) => {
                    if session.edit(&edit).is_ok() {
                        texts.push(session.view().text().to_string());
                    }
                }
                Deed::Undo => {
                    if session.undo().is_some() {
                        texts.pop();
                        let view = session.view();
                        prop_assert_eq!(view.text(), texts.last().map_or("", String::as_str));
                    }
                }
                Deed::Redo => {
                    if session.redo().is_some() {
                        texts.push(session.view().text().to_string());
                    }
                }
                Deed::Ask(stage) => prop_assert_eq!(ask(&session, stage), Ok(())),
                Deed::Look => look(&session, whole(session.view().text()).0.as_ref()),
                Deed::Whole => {
                    let view = session.view();
                    let (all, reading) = whole(view.text());
                    prop_assert_eq!(view.reading(), &reading[..]);
                    let expected = all.clone().map(|all| Assessment { read: reading, ..all });
                    prop_assert_eq!(view.assessment().ok().flatten(), expected.as_ref());
                    look(&session, all.as_ref());
                }
            }
        }
    }
}

#[test]
fn nothing_is_clean_until_everything_is_in() {
    let orders: [[Stage; 4]; 4] = [
        [Stage::Voltages, Stage::Signal, Stage::StartUp, Stage::ShortCircuit],
        [Stage::StartUp, Stage::ShortCircuit, Stage::Voltages, Stage::Signal],
        [Stage::Signal, Stage::StartUp, Stage::ShortCircuit, Stage::Voltages],
        [Stage::ShortCircuit, Stage::Voltages, Stage::Signal, Stage::StartUp],
    ];
    for order in orders {
        let session = session(HOUSE);
        let view = session.view();
        for (number, stage) in order.into_iter().enumerate() {
            let standing = view.standing();
            assert_eq!(standing.pending().len(), 4 - number, "{standing:?}");
            assert!(!standing.holds());
            ask(&session, stage).unwrap();
        }
        assert!(view.standing().holds(), "{:?}", view.standing());
    }
}

#[test]
fn an_error_is_said_before_everything_is_in() {
    let mut session = session(HOUSE);
    session.edit(&Edit::set(&["runs", "high", "first"], "\"900 m\"")).unwrap();
    session.edit(&Edit::set(&["runs", "high", "cable"], "\"pair-0.5\"")).unwrap();
    let view = session.view();
    view.voltages().unwrap();
    assert_eq!(
        view.standing(),
        Standing::FailsAlready(vec![Stage::ShortCircuit, Stage::Signal, Stage::StartUp])
    );
    let report = view.rules().unwrap();
    assert!(report.findings.iter().any(|finding| finding.severity == Severity::Error));
}
