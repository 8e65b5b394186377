//! Names of runs are a set of their own: a run may be called as its door is, and every step stays where it belongs.

use crate::{Made, interfaces, resolved, stamp};
use latchline_handover::Options;
use latchline_handover::commissioning::Spot;
use latchline_handover::job_cards::{Assigned, JobCards};
use latchline_handover::subject::Subject;

/// Stage, number and spot of every step, and on which card it is.
fn places(text: &str) -> Vec<(String, Option<Spot>, Option<usize>)> {
    let made = Made::of(resolved(text));
    let (options, stamp) = (Options::default(), stamp());
    let subject = Subject::new(&made.input(), &options, &stamp);
    let cards = JobCards::new(&subject);
    let card = |spot| match spot {
        Some(Spot::Item(item)) => cards.card_of(item),
        Some(Spot::Run(run)) => cards.card_of_run(&subject, run),
        None => None,
    };
    let assigned = Assigned::new(&subject, &cards);
    assigned.steps.iter().map(|step| (step.number(), step.spot, card(step.spot))).collect()
}

#[test]
fn a_run_named_as_its_door_moves_no_step() {
    let plain = interfaces::SITE;
    let alike = plain
        .replacen("\na = { from", "\nfront = { from", 1)
        .replacen("\nb = { from", "\nrear = { from", 1)
        .replacen("\nd = { from", "\nF1 = { from", 1);
    assert_ne!(plain, alike);
    let steps = places(plain);
    assert!(steps.iter().filter(|(_, spot, _)| matches!(spot, Some(Spot::Item(_)))).count() > 30);
    assert_eq!(steps, places(&alike));
}
