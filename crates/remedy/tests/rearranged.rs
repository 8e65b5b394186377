//! Remedies that change the plan itself, each on a small site whose fault it is for: it is offered, and what
//! it says is so after the site file is changed and judged from scratch.

use crate::common::{Judged, judge_with};
use latchline_finding::Finding;
use latchline_remedy::propose;
use latchline_site::{builtin_catalogue, edit};

/// A station with one pair of terminals, as door stations of some families are.
const CATALOGUE: &str = "[stations.single]\ntitle = \"Single\"\nsource = \"made for this test\"\n\
    family = \"ostrel-48\"\nkind = \"indoor\"\nmedia = \"audio\"\nloop_through = \"end\"\nstandby = \"0.15 W\"\n\
    ringing = \"1 W\"\ntalking = \"1.6 W\"\nleast_voltage = \"36 V\"\nleast_standby_voltage = \"30 V\"\n";

fn judge(text: &str) -> Judged {
    judge_with_budget(text, "50 dB")
}

/// With another budget for the picture than the family's 50 dB.
fn judge_with_budget(text: &str, budget: &str) -> Judged {
    let builtin = builtin_catalogue().1.replace("\"50 dB\"", &format!("\"{budget}\""));
    judge_with(text, &[&builtin, CATALOGUE])
}

fn about<'f>(findings: &'f [Finding], code: &str) -> Vec<&'f Finding> {
    findings.iter().filter(|finding| finding.code.as_str() == code).collect()
}

/// The site file after the remedy of a kind for the first finding of a code.
fn mended(text: &str, code: &str, kind: &str) -> String {
    let judged = judge(text);
    let bench = judged.bench();
    let open = about(&judged.assessment.findings, code);
    let first = open.first().unwrap_or_else(|| panic!("no {code}: {:#?}", judged.assessment.findings));
    let remedies = propose(&bench, first);
    let remedy = remedies
        .iter()
        .find(|remedy| remedy.kind == kind)
        .unwrap_or_else(|| panic!("{kind}: {:?}", remedies.iter().map(|r| r.kind).collect::<Vec<_>>()));
    let changed = edit::apply(text, &remedy.edit).unwrap_or_else(|error| panic!("{error}"));
    let after = judge(&changed).assessment.findings;
    assert!(about(&after, code).len() < open.len(), "{changed}");
    changed
}

const HEAD: &str = "[site]\ntitle = \"House\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v7\"\n\
    door_station = \"ostrel-dv1\"\ncable = \"pair-0.5\"\n[buildings]\nA = { floors = [\"G\", \"1\"] }\n\
    [entrances]\nfront = { role = \"main\", place = \"A/G\" }\n";

#[test]
fn a_station_with_one_pair_of_terminals_is_moved_or_gets_a_branch_box() {
    let text = format!(
        "{HEAD}[supplies]\nPS = {{ model = \"ostrel-ps-60\", place = \"A/G\" }}\n\
         [distributors]\nD1 = {{ model = \"ostrel-d8t\", place = \"A/G\" }}\n[dwellings]\n\
         F1 = {{ place = \"A/1\" }}\nF2 = {{ place = \"A/1\", station = \"single\" }}\nF3 = {{ place = \"A/1\" }}\n[runs]\n\
         feed = {{ from = \"PS\", to = \"D1\", length = \"1 m\" }}\n\
         door = {{ from = \"D1.1\", to = \"front\", length = \"8 m\" }}\n\
         flats = {{ from = \"D1.2\", to = [\"F1\", \"F2\", \"F3\"], spacing = \"6 m\" }}\n"
    );
    let branched = mended(&text, "end-station-looped", "branch-box");
    assert!(branched.contains("to = [\"F1\", \"T-new\", \"F3\"]"), "{branched}");
    assert!(branched.contains("from = \"T-new.1\", to = \"F2\""), "{branched}");
    let moved = mended(&text, "end-station-looped", "changed-order");
    assert!(moved.contains("to = [\"F1\", \"F3\", \"F2\"]"), "{moved}");
}

#[test]
fn a_station_that_needs_more_voltage_goes_before_others_of_its_floor() {
    // The same chain, but for the order: by Ohm's law the station that needs 37 V is best off first.
    let text = |last_m: u32| {
        format!(
            "{HEAD}[supplies]\nPS = {{ model = \"ostrel-ps-120\", place = \"A/G\" }}\n\
             [distributors]\nD1 = {{ model = \"ostrel-d8t\", place = \"A/G\" }}\n[dwellings]\n\
             F1 = {{ place = \"A/1\", station = \"ostrel-a1\" }}\nF2 = {{ place = \"A/1\", station = \"ostrel-a1\" }}\n\
             F3 = {{ place = \"A/1\", station = \"ostrel-v7x\" }}\n[runs]\n\
             feed = {{ from = \"PS\", to = \"D1\", length = \"1 m\" }}\n\
             door = {{ from = \"D1.1\", to = \"front\", length = \"8 m\" }}\n\
             flats = {{ from = \"D1.2\", to = [\"F1\", \"F2\", \"F3\"], lengths = [\"20 m\", \"30 m\", \"{last_m} m\"], cable = \"clad-0.5\" }}\n"
        )
    };
    // The least length at which the last station falls short.
    let last_m = (10..100)
        .step_by(2)
        .find(|last_m| !about(&judge(&text(*last_m)).assessment.findings, "voltage-too-low").is_empty());
    let text = text(last_m.unwrap_or_else(|| panic!("no length is too long")));
    let moved = mended(&text, "voltage-too-low", "changed-order");
    assert!(moved.contains("to = [\"F3\", \"F1\", \"F2\"]"), "{moved}");
}

#[test]
fn an_overloaded_supply_hands_a_distributor_to_another() {
    let flats: String = (1..=16).map(|n| format!("F{n} = {{ place = \"A/1\" }}\n")).collect();
    let run = |port: u32, from: usize| {
        let names: Vec<String> = (from..from + 4).map(|n| format!("\"F{n}\"")).collect();
        format!(
            "R{from} = {{ from = \"D{port}.{}\", to = [{}], spacing = \"3 m\", cable = \"flex-1.5\" }}\n",
            (from / 4) % 3 + 2,
            names.join(", ")
        )
    };
    let runs: String = (0..4).map(|n| run(if n < 3 { 1 } else { 2 }, n * 4 + 1)).collect();
    let text = format!(
        "{HEAD}[supplies]\nPS = {{ model = \"ostrel-ps-60\", place = \"A/G\" }}\n\
         [distributors]\nD1 = {{ model = \"ostrel-d8t\", place = \"A/G\" }}\n\
         D2 = {{ model = \"ostrel-d8t\", place = \"A/1\" }}\n[dwellings]\n{flats}[runs]\n\
         feed = {{ from = \"PS\", to = \"D1\", length = \"1 m\", cable = \"flex-1.5\" }}\n\
         rise = {{ from = \"D1.6\", to = \"D2\", length = \"6 m\", cable = \"flex-1.5\" }}\n\
         door = {{ from = \"D1.1\", to = \"front\", length = \"8 m\" }}\n{runs}"
    );
    let split = mended(&text, "supply-overloaded", "supply-nearer-by");
    assert!(split.contains("to = \"D-new.link\""), "{split}");
    assert!(split.contains("from = \"PS-new\", to = \"D-new\""), "{split}");
    assert!(split.contains("from = \"D-new.1\", to = \"D2\""), "{split}");
}

/// A chain with an open branch from its first station: the tap of the textbooks. The budget is set so low that the
/// branch decides.
#[test]
fn an_open_branch_that_eats_the_picture_is_looped_in() {
    let text = |branch_m: u32| {
        format!(
            "{HEAD}[supplies]\nPS = {{ model = \"ostrel-ps-60\", place = \"A/G\" }}\n\
             [distributors]\nD1 = {{ model = \"ostrel-d4\", place = \"A/G\" }}\n[dwellings]\n\
             F1 = {{ place = \"A/1\" }}\nF2 = {{ place = \"A/1\" }}\nF3 = {{ place = \"A/1\" }}\n[runs]\n\
             feed = {{ from = \"PS\", to = \"D1\", length = \"1 m\", cable = \"flex-1.5\" }}\n\
             door = {{ from = \"D1.1\", to = \"front\", length = \"8 m\" }}\n\
             flats = {{ from = \"D1.2\", to = [\"F1\", \"F2\"], lengths = [\"20 m\", \"20 m\"] }}\n\
             branch = {{ from = \"F1\", to = \"F3\", length = \"{branch_m} m\" }}\n"
        )
    };
    let mut kinds = std::collections::BTreeSet::new();
    for (branch_m, budget) in
        [(6, "10 dB"), (10, "12 dB"), (10, "14 dB"), (14, "14 dB"), (20, "13 dB"), (30, "15 dB")]
    {
        let text = text(branch_m);
        let judged = judge_with_budget(&text, budget);
        let bench = judged.bench();
        for finding in about(&judged.assessment.findings, "signal-too-weak") {
            for remedy in propose(&bench, finding) {
                let changed = edit::apply(&text, &remedy.edit).unwrap_or_else(|error| panic!("{error}"));
                let after = judge_with_budget(&changed, budget).assessment.findings;
                let stays =
                    about(&after, "signal-too-weak").iter().any(|other| other.element == finding.element);
                assert!(!stays, "{}: {changed}", remedy.kind);
                kinds.insert(remedy.kind);
            }
        }
    }
    assert!(kinds.contains("branch-looped-in"), "{kinds:?}");
}

/// Two flats on each of two landings, the second with an extension, 4 m from stop to stop: boxes where the first flats were, at 5 m and 17 m of
/// the chain, so 12 m from box to box, and a run into each flat, of 1 m (beside its box) or 4 m. By hand.
#[test]
fn a_chain_through_flats_becomes_branch_boxes_on_the_landings() {
    let text = format!(
        "{}[policy]\nchains_through_dwellings = false\n[supplies]\nPS = {{ model = \"ostrel-ps-60\", place = \"A/G\" }}\n\
         [distributors]\nD1 = {{ model = \"ostrel-d8t\", place = \"A/G\" }}\n[dwellings]\n\
         F1 = {{ place = \"A/G\" }}\nF2 = {{ place = \"A/G\", extensions = [\"ostrel-v4\"] }}\n\
         F3 = {{ place = \"A/1\" }}\nF4 = {{ place = \"A/1\" }}\n[runs]\n\
         feed = {{ from = \"PS\", to = \"D1\", length = \"1 m\" }}\n\
         door = {{ from = \"D1.1\", to = \"front\", length = \"8 m\" }}\n\
         flats = {{ from = \"D1.2\", to = [\"F1\", \"F2\", \"F2:2\", \"F3\", \"F4\"], first = \"5 m\", spacing = \"4 m\" }}\n",
        HEAD
    );
    let changed = mended(&text, "chain-through-dwellings", "branch-box-for-each-landing");
    let site: toml::Table = changed.parse().expect("it is TOML");
    let run = |name: &str, key: &str| site["runs"][name][key].to_string();
    assert_eq!(run("flats", "to"), "[\"T-flats-1\", \"T-flats-2\"]");
    assert_eq!(run("flats", "lengths"), "[\"5 m\", \"12 m\"]");
    assert_eq!(run("T-flats-1-1b", "lengths"), "[\"1 m\"]");
    assert_eq!(run("T-flats-1-2b", "to"), "[\"F2\", \"F2:2\"]");
    assert_eq!(run("T-flats-1-2b", "lengths"), "[\"4 m\", \"4 m\"]");
    assert_eq!(run("T-flats-2-1b", "to"), "[\"F3\"]");
    assert_eq!(run("T-flats-2-2b", "lengths"), "[\"4 m\"]");
    assert!(about(&judge(&changed).assessment.findings, "chain-through-dwellings").is_empty());
}
