//! One slip of the pen breaks many things: the first job is to mend the slip, and with it done nothing is left.

use crate::common::session;
use latchline_assess::rules::codes;
use latchline_finding::{ElementId, Money, Severity};
use std::collections::BTreeSet;

/// A terrace with these keys of `[site]`, of the supply, of the dwellings and of what feeds the houses.
fn terrace(indoor: &str, supply: &str, dwellings: &str, houses: &str) -> String {
    format!(
        "[site]\ntitle = \"Terrace\"\nfamily = \"ostrel-48\"\nindoor_station = \"{indoor}\"\ndoor_station = \"ostrel-dv1\"\n\
         cable = \"pair-0.8\"\n[buildings]\nR = {{ floors = [\"G\", \"1\"] }}\n\
         [supplies]\nPS = {{ model = \"ostrel-ps-120\", place = \"R/G\"{supply} }}\n\
         [distributors]\nD1 = {{ model = \"ostrel-d4\", place = \"R/G\" }}\n\
         [entrances]\ngate = {{ role = \"main\", place = \"R/G\" }}\n[dwellings]\n{dwellings}\n[runs]\n\
         feed = {{ from = \"PS\", to = \"D1\", cable = \"flex-1.5\", length = \"2 m\" }}\n\
         door = {{ from = \"D1.3\", to = \"gate\", length = \"8 m\" }}\n{houses}\n"
    )
}

const HOUSES: &str = "\"H1..H11\" = { place = \"R/G\" }";
const TWO_CHAINS: &str = "west = { from = \"D1.1\", to = [\"H5\", \"H4\", \"H3\", \"H2\", \"H1\"], first = \"9 m\", spacing = \"7 m\" }\n\
                          east = { from = \"D1.2\", to = \"H6..H11\", first = \"5 m\", spacing = \"7 m\" }";

/// The errors of a site: code and element.
fn errors(text: &str) -> BTreeSet<(&'static str, Option<ElementId>)> {
    let session = session(text);
    let view = session.view();
    let findings = &view.assessment().unwrap().unwrap().findings;
    let open = findings.iter().filter(|one| one.severity == Severity::Error);
    open.map(|one| (one.code.as_str(), one.element.clone())).collect()
}

/// The kind of the only job of errors and what it costs, after it was seen that its change leaves no error.
fn only_job(text: &str) -> (&'static str, Option<Money>, &'static str) {
    let mut session = session(text);
    let view = session.view();
    let (jobs, assessment) = (view.jobs().unwrap().unwrap(), view.remedies().unwrap().unwrap());
    let of_errors = jobs.jobs.iter().filter(|job| jobs.causes[job.causes[0]].severity == Severity::Error);
    let of_errors: Vec<_> = of_errors.collect();
    assert_eq!(of_errors.len(), 1, "{:#?}", of_errors);
    let worst = &assessment.findings[jobs.causes[of_errors[0].causes[0]].findings[0]];
    let change = of_errors[0].told_change().unwrap().remedy.clone();
    session.edit(&change.edit).unwrap();
    let after = session.view();
    let left = &after.assessment().unwrap().unwrap().findings;
    assert!(left.iter().all(|one| one.severity < Severity::Error), "{:?}", change.edit);
    (change.kind, change.cost.map(Money::rounded), worst.code.as_str())
}

/// The same site holds where nothing is set, so the setting is what is wrong: whatever else mends a part of it costs more.
#[test]
fn a_supply_turned_down_is_turned_up_again() {
    let text = |set: &str| {
        let far = TWO_CHAINS.replace("\"9 m\"", "\"60 m\"").replace("\"5 m\"", "\"60 m\"");
        terrace("ostrel-v7", set, HOUSES, &far)
    };
    assert_eq!(errors(&text("")), BTreeSet::new());
    let low = text(", set_voltage = \"39 V\"");
    assert!(errors(&low).len() > 1, "{:?}", errors(&low));
    let (kind, cost, _) = only_job(&low);
    assert_eq!((kind, cost), ("supply-as-delivered", Some(Money::ZERO)));
}

/// Eleven stations of another family by one line of `[site]`: one job, named after the family, not eleven after what each gets.
#[test]
fn a_wrong_family_in_one_line_is_one_job() {
    assert_eq!(errors(&terrace("ostrel-v4", "", HOUSES, TWO_CHAINS)), BTreeSet::new());
    let wrong = terrace("larkfen-v5", "", HOUSES, TWO_CHAINS);
    assert!(errors(&wrong).len() > 11, "{:?}", errors(&wrong));
    let (kind, _, worst) = only_job(&wrong);
    assert_eq!((kind, worst), ("part-of-the-family", codes::MIXED_FAMILIES.as_str()));
}

/// Two ranges whose numbers overlap by one `number`: by hand, five houses from 1 have 1 to 5, six from 3 have 3 to 8, so 3, 4 and 5 are there
/// twice. Begun at 6, none is.
#[test]
fn numbers_of_a_range_that_overlap_are_one_job() {
    let rooms = |number: &str| {
        let dwellings = format!(
            "\"H1..H5\" = {{ place = \"R/G\", number = 1 }}\n\"H6..H11\" = {{ place = \"R/G\"{number} }}"
        );
        terrace("ostrel-v4", "", &dwellings, TWO_CHAINS)
    };
    assert_eq!(errors(&rooms(", number = 6")), BTreeSet::new());
    let twice = rooms(", number = 3");
    // H6, H7 and H8 have 3, 4 and 5, as H3, H4 and H5 have.
    assert_eq!(errors(&twice).len(), 3, "{:?}", errors(&twice));
    let (kind, cost, _) = only_job(&twice);
    assert!(["number-by-the-tool", "other-number"].contains(&kind), "{kind}");
    assert_eq!(cost, Some(Money::ZERO));
}
