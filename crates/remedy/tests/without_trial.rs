//! Remedies that need no trial, against what the changed site file says when it is judged from scratch.
#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use crate::common::{SMALL, judge, keys};
use latchline_remedy::{propose, with_remedies};
use latchline_site::edit;

fn acceptance(code: &str, element: &str) -> String {
    format!(
        "[[accept]]\ncode = \"{code}\"\nelement = \"{element}\"\nreason = \"agreed\"\ndate = 2026-01-01\n"
    )
}

#[test]
fn an_acceptance_that_matches_nothing_goes_and_nothing_else_changes() {
    let mut text = SMALL.to_string();
    for number in 0..20 {
        text.push_str(&acceptance("voltage-too-low", &format!("no-{number}")));
    }
    let judged = judge(&text);
    let bench = judged.bench();
    let idle: Vec<_> = judged
        .assessment
        .findings
        .iter()
        .filter(|finding| finding.code.as_str() == "acceptance-without-match")
        .collect();
    assert_eq!(idle.len(), 20);
    let before = keys(&judged.assessment.findings);
    for finding in &idle {
        let remedies = propose(&bench, finding);
        assert_eq!(remedies.len(), 1);
        let after = judge(&edit::apply(&text, &remedies[0].edit).unwrap());
        let gone = ("acceptance-without-match".to_string(), finding.element.clone().unwrap().to_string());
        let mut expected = before.clone();
        assert!(expected.remove(&gone));
        assert_eq!(keys(&after.assessment.findings), expected);
    }
    let (findings, left) = with_remedies(&bench);
    assert_eq!(left, 0);
    let offered = findings.iter().filter(|finding| finding.code.as_str() == "acceptance-without-match");
    assert!(offered.into_iter().all(|finding| finding.remedies.len() == 1));
}

#[test]
fn of_two_that_say_the_same_neither_goes_alone() {
    let twice = acceptance("voltage-too-low", "no-such").repeat(2);
    let judged = judge(&format!("{SMALL}{twice}"));
    let bench = judged.bench();
    for finding in &judged.assessment.findings {
        if finding.code.as_str() == "acceptance-without-match" {
            assert!(propose(&bench, finding).is_empty());
        }
    }
}
