//! Several clients on one site: what is accepted has a serial order, nothing accepted is lost, sending again is harmless.

use crate::common::{Kept, accepted, change, kept, length, signed};
use latchline_finding::Edit;
use latchline_site::edit::apply;
use latchline_store::{Kind, Number, Outcome, Proposal, Signed, Store, Submission};
use proptest::prelude::*;
use std::collections::BTreeMap;

const CLIENTS: [&str; 3] = ["kim", "lee", "sam"];
const RUNS: [&str; 3] = ["door", "low", "high"];

/// What a client does next.
#[derive(Debug, Clone)]
enum Step {
    /// Gives a run another length, as seen from so many revisions ago.
    Edit {
        client: usize,
        run: usize,
        metres: u32,
        behind: i64,
    },
    Undo(usize),
    Redo(usize),
    /// Sends something again that was sent before.
    Again(usize),
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![
        5 => (0..3_usize, 0..3_usize, 1..6_u32, 0..4_i64)
            .prop_map(|(client, run, metres, behind)| Step::Edit { client, run, metres, behind }),
        2 => (0..3_usize).prop_map(Step::Undo),
        1 => (0..3_usize).prop_map(Step::Redo),
        1 => any::<prop::sample::Index>().prop_map(|at| Step::Again(at.index(1_000))),
    ]
}

fn lengths(text: &str) -> BTreeMap<String, Option<String>> {
    let document: toml_edit::DocumentMut = text.parse().unwrap();
    let length = |run: &str| {
        let length = document["runs"][run].get("length").and_then(|length| length.as_str());
        (run.to_string(), length.map(String::from))
    };
    RUNS.map(length).into()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    #[test]
    fn what_is_accepted_has_a_serial_order_and_nothing_of_it_is_lost(
        steps in proptest::collection::vec(step(), 1..40),
    ) {
        let kept = kept();
        let mut sent: Vec<(Submission, Outcome)> = Vec::new();
        // Lengths after each revision that is in force, by a model that knows nothing of texts.
        let mut model = vec![lengths(&kept.text())];
        for (at, step) in steps.iter().enumerate() {
            let (client, proposal) = match step {
                Step::Edit { client, run, metres, behind } => {
                    let base = (model.len() as i64 - behind).max(1);
                    (CLIENTS[*client], change(base, length(RUNS[*run], *metres)))
                }
                Step::Undo(client) => (CLIENTS[*client], Proposal::Undo),
                Step::Redo(client) => (CLIENTS[*client], Proposal::Redo),
                Step::Again(which) => {
                    if let Some((submission, first)) = sent.get(which % sent.len().max(1)) {
                        let before = kept.text();
                        prop_assert_eq!(&kept.store.submit(kept.site, submission).unwrap(), first);
                        prop_assert_eq!(kept.text(), before);
                    }
                    continue;
                }
            };
            let submission = Submission { id: at.to_string(), proposal, signed: signed(client) };
            let turns = kept.store.turns(kept.site, client).unwrap();
            let before = kept.text();
            let outcome = kept.store.submit(kept.site, &submission).unwrap();
            let now = model.last().unwrap().clone();
            let wanted = match (&submission.proposal, step) {
                (Proposal::Change { base, .. }, Step::Edit { run, metres, .. }) => {
                    let (run, value) = (RUNS[*run].to_string(), Some(format!("{metres} m")));
                    let stands = model[base.0 as usize - 1][&run] == now[&run];
                    let mut wanted = now.clone();
                    wanted.insert(run, value);
                    stands.then_some(wanted)
                }
                (proposal, _) => {
                    let target = if *proposal == Proposal::Undo { turns.undo } else { turns.redo };
                    match target {
                        None => Some(now.clone()),
                        // Whatever that revision changed must still be as it left it, and becomes what it was.
                        Some(target) => {
                            let at = target.number.0 as usize - 1;
                            let (after, before) = (&model[at], &model[at - 1]);
                            let changed: Vec<&String> =
                                after.keys().filter(|run| after[*run] != before[*run]).collect();
                            let stands = changed.iter().all(|run| now[*run] == after[*run]);
                            let mut wanted = now.clone();
                            for run in changed {
                                wanted.insert(run.clone(), before[run].clone());
                            }
                            // What is already so needs no taking back.
                            (stands || wanted == now).then_some(wanted)
                        }
                    }
                }
            };
            match &outcome {
                Outcome::Accepted(revision) => {
                    prop_assert_eq!(revision.number, Number(model.len() as i64 + 1));
                    prop_assert_eq!(Some(lengths(&kept.text())), wanted.clone());
                    model.push(wanted.unwrap());
                }
                Outcome::Unchanged(_) => {
                    prop_assert_eq!(wanted, Some(now));
                    prop_assert_eq!(kept.text(), before);
                }
                Outcome::Conflict(conflict) => {
                    prop_assert_eq!(wanted, None, "{:?}", conflict);
                    prop_assert_eq!(kept.text(), before);
                }
            }
            sent.push((submission, outcome));
        }
        // The texts, one after the other, by the edits alone.
        let mut text = kept.store.state(kept.site, Number(1)).unwrap().texts.site_text().to_string();
        for revision in kept.store.history(kept.site, None, 1_000).unwrap().iter().rev().skip(1) {
            let state = kept.store.state(kept.site, revision.number).unwrap();
            if revision.kind == Kind::Edit {
                let is_it = |one: &&(Submission, Outcome)| {
                    matches!(&one.1, Outcome::Accepted(made) if made.number == revision.number)
                };
                let (submission, _) = sent.iter().find(is_it).unwrap();
                let Proposal::Change { files, .. } = &submission.proposal else { unreachable!() };
                let latchline_store::FileChange::Edit(edit) = &files[0].1 else { unreachable!() };
                text = apply(&text, edit).unwrap();
                prop_assert_eq!(&**state.texts.site_text(), text.as_str());
            } else {
                text = state.texts.site_text().to_string();
            }
        }
        prop_assert_eq!(kept.text(), text);
    }
}

/// Many edits at the same time, from threads, each with a value of its own: all are there, in one row of revisions.
#[test]
fn threads_that_edit_at_once_lose_nothing() {
    let Kept { store, folder, site } = kept();
    const EACH: usize = 25;
    std::thread::scope(|scope| {
        for client in CLIENTS {
            let store: Store = store.clone();
            scope.spawn(move || {
                for number in 0..EACH {
                    let base = store.head_number(site).unwrap();
                    let edit =
                        Edit::set(&["dwellings", &format!("{client}-{number}")], "{ place = \"A/1\" }");
                    let submission = Submission {
                        id: format!("{client}/{number}"),
                        proposal: change(base.0, edit),
                        signed: Signed { client: client.to_string(), ..Signed::default() },
                    };
                    let first = store.submit(site, &submission).unwrap();
                    accepted(&first);
                    assert_eq!(store.submit(site, &submission).unwrap(), first);
                }
            });
        }
    });
    let head = store.head(site).unwrap();
    assert_eq!(head.revision.number, Number(1 + 3 * EACH as i64));
    for client in CLIENTS {
        for number in 0..EACH {
            assert!(head.texts.site_text().contains(&format!("{client}-{number} = ")));
        }
    }
    for revision in store.history(site, None, 1_000).unwrap() {
        assert_eq!(revision.parent.map_or(0, |parent| parent.0), revision.number.0 - 1);
    }
    drop(folder);
}
