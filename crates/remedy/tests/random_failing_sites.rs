//! Every remedy of 200 random failing sites, applied to the text and judged again from scratch: its
//! finding is gone, and what has come that was not there is what the remedy names, no error, an error being gone.

use crate::common::{judge, keys};
use latchline_assess::{Memory, assess_trial};
use latchline_finding::{Code, ElementId, Finding, Severity};
use latchline_remedy::propose;
use latchline_site::edit;
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// A small generator of its own, so that the sites are the same everywhere and for ever
/// (splitmix64, Steele, Lea and Flood 2014).
struct Draw(u64);

impl Draw {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }

    fn one_of<'a>(&mut self, choices: &[&'a str]) -> &'a str {
        choices[self.below(choices.len())]
    }
}

/// A site with the mistakes that people make: thin and long cable, small supplies, high settings,
/// strange parts, equal numbers, forgotten dwellings.
fn failing_site(seed: u64) -> String {
    let mut draw = Draw(seed);
    let mut text = String::from(
        "[site]\ntitle = \"Random\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v7\"\ndoor_station = \"ostrel-dv1\"\n",
    );
    if draw.below(3) == 0 {
        let _ = writeln!(text, "[policy]\nlargest_silenced_group = {}", 2 + draw.below(5));
    }
    text.push_str("[buildings]\nA = { floors = [\"G\", \"1\", \"2\", \"3\"] }\n[supplies]\n");
    let supply = draw.one_of(&["ostrel-ps-60", "ostrel-ps-60", "ostrel-ps-120"]);
    let set = if draw.below(5) == 0 { ", set_voltage = \"53.5 V\"" } else { "" };
    let _ = writeln!(text, "PS = {{ model = \"{supply}\", place = \"A/G\"{set} }}");
    text.push_str("[distributors]\nD1 = { model = \"ostrel-d4\", place = \"A/G\" }\n");
    let calls = draw.one_of(&["\"A\"", "\"A\"", "\"A/G\", \"A/1\", \"A/2\""]);
    let _ = writeln!(
        text,
        "[entrances]\nfront = {{ role = \"main\", place = \"A/G\", calls = [{calls}], lock = {{ model = \"strike-12\", feed = \"station\", cable = \"flex-1.0\", length = \"4 m\", hold_time = \"5 s\", suppression = \"diode\" }} }}"
    );
    text.push_str("[dwellings]\n");
    let runs = 1 + draw.below(3);
    let mut wiring = String::new();
    let mut number = 0;
    for run in 0..runs {
        let stations = 1 + draw.below(6);
        let mut names = Vec::new();
        for _ in 0..stations {
            number += 1;
            let floor = draw.one_of(&["G", "1", "2", "3"]);
            let model = match draw.below(8) {
                0 => ", station = \"larkfen-v5\"",
                1 => ", station = \"ostrel-v4\"",
                _ => "",
            };
            let same = if draw.below(12) == 0 { ", number = 7" } else { "" };
            let _ = writeln!(text, "F-{number} = {{ place = \"A/{floor}\"{model}{same} }}");
            names.push(format!("\"F-{number}\""));
        }
        let cable = draw.one_of(&["pair-0.5", "pair-0.6", "clad-0.5", "pair-0.8"]);
        let (first, spacing) = (10 + draw.below(60), 4 + draw.below(14));
        let mut extra = String::new();
        if draw.below(6) == 0 {
            extra.push_str(", environment = \"outdoors\"");
        }
        if draw.below(6) == 0 {
            extra.push_str(", pairs = 3");
        }
        if draw.below(8) == 0 {
            extra.push_str(", existing = true, measured = { loop = \"31 ohm\", insulation = \"0.3 Mohm\" }");
        }
        let port = run + 1;
        let names = names.join(", ");
        let _ = writeln!(
            wiring,
            "R{port} = {{ from = \"D1.{port}\", to = [{names}], cable = \"{cable}\", first = \"{first} m\", spacing = \"{spacing} m\"{extra} }}"
        );
    }
    text.push_str("[runs]\nfeed = { from = \"PS\", to = \"D1\", cable = \"flex-1.5\", length = \"2 m\" }\n");
    text.push_str("door = { from = \"PS\", to = \"front\", cable = \"pair-0.8\", length = \"9 m\" }\n");
    text + &wiring
}

#[test]
fn every_remedy_mends_its_finding_and_names_what_it_brings() {
    let (mut failing, mut remedies, mut mended, mut brought, mut kept) = (0, 0, 0, 0, 0);
    let mut kinds = BTreeSet::new();
    let mut seed = 0;
    while failing < 200 {
        seed += 1;
        let text = failing_site(seed);
        let judged = judge(&text);
        let open: Vec<&Finding> =
            judged.assessment.findings.iter().filter(|finding| finding.severity > Severity::Advice).collect();
        if open.is_empty() {
            continue;
        }
        failing += 1;
        let bench = judged.bench();
        let before = keys(&judged.assessment.findings);
        // Two findings a site are enough to see every kind; all of them would take minutes.
        for finding in open.iter().step_by(open.len().div_ceil(2)) {
            let key = keys(&[(*finding).clone()]);
            let proposed = propose(&bench, finding);
            // What was chosen for dwellings is changed last.
            let made = || proposed.iter().filter(|remedy| remedy.changes_the_file());
            let is_chosen: Vec<bool> =
                made().map(|remedy| remedy.edit.changes_stations_of_dwellings()).collect();
            let ways: Vec<(&str, bool)> =
                made().zip(&is_chosen).map(|(remedy, chosen)| (remedy.kind, *chosen)).collect();
            assert!(is_chosen.is_sorted(), "site {seed}: {ways:?}");
            kept += usize::from(is_chosen.contains(&true) && is_chosen.contains(&false));
            for remedy in proposed.iter().filter(|remedy| remedy.changes_the_file()) {
                remedies += 1;
                kinds.insert(remedy.kind);
                let changed =
                    edit::apply(&text, &remedy.edit).unwrap_or_else(|error| panic!("site {seed}: {error}"));
                let after = keys(&judge(&changed).assessment.findings);
                assert!(after.is_disjoint(&key), "site {seed}: {} does not mend {key:?}", remedy.kind);
                let new: BTreeSet<_> = after.difference(&before).cloned().collect();
                let named: BTreeSet<_> = remedy
                    .brings
                    .iter()
                    .map(|one| {
                        let element = one.element.as_ref().map(ToString::to_string).unwrap_or_default();
                        (one.code.as_str().to_string(), element)
                    })
                    .collect();
                assert_eq!(new, named, "site {seed}: {}", remedy.kind);
                assert!(remedy.brings.iter().all(|one| one.severity < Severity::Error));
                let is_error = |(code, element): &(Code, Option<ElementId>)| {
                    open.iter().any(|one| {
                        one.severity == Severity::Error && one.code == *code && one.element == *element
                    })
                };
                assert!(new.is_empty() || remedy.clears.iter().any(is_error), "site {seed}: {}", remedy.kind);
                brought += new.len();
            }
        }
        if failing % 20 == 0 {
            let mut session = judged.session();
            let result = session.mend(Severity::Warning).expect("nobody else edits");
            let view = session.view();
            let left = keys(&view.assessment().expect("nobody else edits").expect("resolves").findings);
            let again = judge(view.text());
            assert_eq!(keys(&again.assessment.findings), left);
            assert!(keys(&again.assessment.findings).len() <= before.len());
            mended += result.steps.len();
        }
    }
    assert!(kept > 10, "{kept} lists with both");
    // The sites are varied enough to need remedies of many kinds.
    assert!(
        remedies > 200 && kinds.len() >= 10 && mended > 10 && brought > 0,
        "{remedies} remedies, {kinds:?}, {mended} steps, {brought} findings brought"
    );
}

/// A change that is only tried is judged with less effort: what is found, and how much it matters, is what the whole finds, but that a start
/// that drops out again and again is not followed to its end.
#[test]
fn a_trial_finds_what_the_whole_finds() {
    let found = |findings: &[Finding]| -> BTreeSet<(String, Option<ElementId>, Severity)> {
        let named = |one: &Finding| (one.code.as_str().to_string(), one.element.clone(), one.severity);
        findings.iter().map(named).filter(|(code, ..)| !code.starts_with("start-up-")).collect()
    };
    let (mut failing, mut codes) = (0, BTreeSet::new());
    for seed in 1..=150 {
        let judged = judge(&failing_site(seed));
        let tried = assess_trial(&judged.site, &Memory::default(), None, &|_| true, &|_| true)
            .unwrap_or_else(|| panic!("site {seed}: everything is allowed"));
        let whole = found(&judged.assessment.findings);
        assert_eq!(found(&tried.findings), whole, "site {seed}");
        failing += usize::from(whole.iter().any(|(_, _, severity)| *severity == Severity::Error));
        codes.extend(whole.into_iter().map(|(code, _, _)| code));
    }
    assert!(failing > 50 && codes.len() > 10, "{failing} failing, {codes:?}");
}
