//! Bad input is told, each at its line, and left out.

use crate::{checked, with_demo};
use latchline_finding::Language;
use latchline_locate::input::{read_csv, read_item, read_toml};
use proptest::prelude::*;

fn told(items: &[&str]) -> Vec<String> {
    with_demo(|plant| {
        let found = checked(plant, items);
        assert_eq!(
            found.evidence.measured.len() + found.evidence.symptoms.len() + found.problems.len(),
            items.len()
        );
        found.problems.iter().map(|problem| problem.message.of(Language::English).to_string()).collect()
    })
}

#[test]
fn a_voltage_in_millivolts_is_asked_about() {
    let told = told(&["A-12=47mV"]);
    assert_eq!(told.len(), 1);
    assert!(told[0].contains("was it 47 V?"), "{}", told[0]);
}

#[test]
fn what_is_meant_as_it_stands_is_taken() {
    assert!(told(&["A-12=47mV!"]).is_empty());
}

/// A caller who says both has not been understood; what comes and goes may well work now.
#[test]
fn what_cannot_be_told_of_a_station_at_once_is_asked_about() {
    let contradicted = told(&["A-12=dead", "A-12=works", "A-13=works"]);
    assert_eq!(contradicted.len(), 2);
    assert!(contradicted[0].contains("\"dead\" and \"works\" at once"), "{}", contradicted[0]);
    assert_eq!(told(&["A-12=restarts", "A-12=dead"]).len(), 2);
    assert!(told(&["A-12=comes-and-goes", "A-12=works"]).is_empty());
    assert!(told(&["A-12=no-picture", "A-12=no-speech", "A-13=dead"]).is_empty());
}

/// Said twice it is no more probable.
#[test]
fn what_is_told_twice_counts_once() {
    with_demo(|plant| {
        let found = checked(plant, &["A-12=dead", "A-12=dead"]);
        assert_eq!((found.evidence.symptoms.len(), found.problems.len()), (1, 0));
    });
}

#[test]
fn an_unknown_place_has_its_nearest() {
    let told = told(&["A-112=47V"]);
    assert!(told[0].contains("\"A-112\"") && told[0].contains("A-12"), "{}", told[0]);
}

#[test]
fn impossible_values_states_and_places_are_told() {
    let told = told(&[
        "A-12=230V",
        "A-R1=-3ohm",
        "A-12=3ohm",
        "A-PS@ringing=47V",
        "A-R1=dead",
        "A-12=47,2V",
        "A-12=red",
    ]);
    assert_eq!(told.len(), 7);
    for (text, word) in
        told.iter().zip(["no supply", "below zero", "run", "state", "station", "point", "unit"])
    {
        assert!(text.contains(word), "{text}: {word}");
    }
}

/// A short leaves little voltage but never turns it round; a reversed pair turns all of it round (two leads on two conductors).
#[test]
fn a_voltage_below_zero_is_swapped_leads_or_a_reversed_pair() {
    let told = told(&["A-12=-5V"]);
    assert_eq!(told.len(), 1);
    assert!(told[0].contains("swap the meter leads") && told[0].contains("A-12=5V"), "{}", told[0]);
    with_demo(|plant| {
        // An open wire picks up a little (common practice, no source): it is no voltage.
        let picked_up = checked(plant, &["A-12=-0.3V", "A-12=-4mV"]);
        assert!(picked_up.problems.is_empty(), "{:?}", picked_up.problems);
        assert!(picked_up.evidence.measured.iter().all(|one| one.value == 0.0));
        assert!(checked(plant, &["A-12=-47V"]).problems.is_empty());
        let found = crate::located(plant, &["A-12=-47V"]);
        assert_eq!(found.cause(0).0.cause.kind, latchline_locate::Kind::Reversed);
    });
}

#[test]
fn files_give_rows_and_every_mistake_with_its_line() {
    let text = "instrument = \"plain\"\n\n[[reading]]\nat = \"A-12\"\nvalue = \"33 V\"\nstate = \"ringing\"\n\n[[reading]]\nat = \"A-13\"\n\n[[symptom]]\nat = \"A-12\"\ntold = \"restarts\"\ncolour = \"red\"\n";
    let (rows, problems) = read_toml(text);
    assert_eq!(rows.len(), 2);
    assert_eq!(rows[0].instrument.as_deref(), Some("plain"));
    assert_eq!(problems.iter().map(|problem| problem.line).collect::<Vec<_>>(), [8, 14]);
    let (rows, problems) = read_csv("at;value;state;colour\nA-12;\"33 V\";ringing;\n;47 V;;\n");
    assert_eq!((rows.len(), rows[0].line, rows[0].value.as_str()), (1, 2, "33 V"));
    assert_eq!(problems.iter().map(|problem| problem.line).collect::<Vec<_>>(), [1, 3]);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]
    #[test]
    fn nothing_that_is_typed_panics(text in "[ -~äµΩ]{0,40}") {
        let _ = read_toml(&text);
        let _ = read_csv(&text);
        if let Ok(row) = read_item(&text, 1) {
            prop_assert!(!row.at.is_empty() && !row.value.is_empty());
        }
    }
}
