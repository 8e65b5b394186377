//! Remedies that let a run start somewhere else, and those that only measure, each on a small site whose fault it is for: it is
//! offered, and what it says is so after the site file is changed and judged from scratch.

use crate::common::{Judged, judge, keys};
use latchline_finding::{Finding, Remedy, Severity};
use latchline_remedy::{offered, propose};
use latchline_site::edit;

fn about<'f>(judged: &'f Judged, code: &str) -> Vec<&'f Finding> {
    judged.assessment.findings.iter().filter(|finding| finding.code.as_str() == code).collect()
}

fn remedies_of(text: &str, code: &str) -> Vec<Remedy> {
    let judged = judge(text);
    let open = about(&judged, code);
    let first = open.first().unwrap_or_else(|| panic!("no {code}: {:#?}", judged.assessment.findings));
    propose(&judged.bench(), first)
}

/// The site file after the remedy of a kind for the first finding of a code, which is gone by it.
fn mended(text: &str, code: &str, kind: &str) -> String {
    let remedies = remedies_of(text, code);
    let kinds: Vec<_> = remedies.iter().map(|remedy| remedy.kind).collect();
    let remedy =
        remedies.iter().find(|remedy| remedy.kind == kind).unwrap_or_else(|| panic!("{kind}: {kinds:?}"));
    let changed = edit::apply(text, &remedy.edit).unwrap_or_else(|error| panic!("{error}"));
    assert!(about(&judge(&changed), code).len() < about(&judge(text), code).len(), "{changed}");
    changed
}

const HEAD: &str = "[site]\ntitle = \"House\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v7\"\n\
    door_station = \"ostrel-dv1\"\ncable = \"flex-1.5\"\n[buildings]\nA = { floors = [\"G\", \"1\", \"2\", \"3\"] }\n\
    [entrances]\nfront = { role = \"main\", place = \"A/G\" }\n";

/// Two runs on a supply with one output, and no box beside it: a distributor takes the output and both runs. It costs what it costs and a metre of
/// the runs' cable.
#[test]
fn more_runs_than_outputs_get_a_distributor() {
    let text = "[site]\ntitle = \"House\"\nfamily = \"mossop-24\"\nindoor_station = \"mossop-t1\"\ndoor_station = \"mossop-p1\"\n\
        cable = \"pair-0.5\"\n[buildings]\nA = { floors = [\"G\", \"1\"] }\n[supplies]\nPS = { model = \"mossop-ps-24\", place = \"A/G\" }\n\
        [entrances]\nfront = { role = \"main\", place = \"A/G\" }\n[dwellings]\n\"A-1..A-4\" = { place = \"A/G\", per_floor = 2 }\n[runs]\n\
        a = { from = \"PS\", to = [\"A-1\", \"A-2\", \"A-3\", \"A-4\"], first = \"8 m\", spacing = \"5 m\" }\n\
        b = { from = \"PS\", to = \"front\", length = \"9 m\" }\n";
    let changed = mended(text, "supply-outputs-exceeded", "distributor-at-the-supply");
    for line in [
        "D-new = { model = \"mossop-f4\", place = \"A/G\" }",
        "a = { from = \"D-new.1\", to",
        "b = { from = \"D-new.2\", to",
        "{ from = \"PS\", to = \"D-new\", cable = \"pair-0.5\", length = \"1 m\" }",
    ] {
        assert!(changed.contains(line), "{line}: {changed}");
    }
    let remedies = remedies_of(text, "supply-outputs-exceeded");
    let cost = remedies.iter().find(|one| one.kind == "distributor-at-the-supply").and_then(|one| one.cost);
    assert_eq!(cost.map(|cost| cost.rounded().as_units()), Some(44.25), "{remedies:?}");
}

/// Distributors one behind the other, four deep where three are allowed.
#[test]
fn a_box_too_deep_is_fed_from_further_up() {
    let rest = "[supplies]\nPS = { model = \"ostrel-ps-60\", place = \"A/G\" }\n[distributors]\n\
        D1 = { model = \"ostrel-d8t\", place = \"A/G\" }\nD2 = { model = \"ostrel-d8t\", place = \"A/1\" }\n\
        D3 = { model = \"ostrel-d8t\", place = \"A/2\" }\nD4 = { model = \"ostrel-d8t\", place = \"A/3\" }\n\
        [dwellings]\nF1 = { place = \"A/3\" }\n[runs]\nfeed = { from = \"PS\", to = \"D1\", length = \"1 m\" }\n\
        door = { from = \"D1.1\", to = \"front\", length = \"8 m\" }\nrise-1 = { from = \"D1.2\", to = \"D2\", length = \"3 m\" }\n\
        rise-2 = { from = \"D2.1\", to = \"D3\", length = \"4 m\" }\nrise-3 = { from = \"D3.1\", to = \"D4\", length = \"5 m\" }\n\
        flat = { from = \"D4.1\", to = \"F1\", length = \"6 m\" }\n";
    let changed = mended(&format!("{HEAD}{rest}"), "cascade-too-deep", "another-port");
    // D3 with D4 behind it takes 4 m and the 3 m back to D1, D4 alone 5 m and the 4 m back to D2: 7 m are less than 9 m.
    assert!(changed.contains("rise-2 = { from = \"D1.3\", to = \"D3\", lengths = [\"7 m\"] }"), "{changed}");
}

/// Two distributors of eight screens each on one output and port; the supply has two outputs.
#[test]
fn an_overloaded_port_hands_its_distributor_to_another_output() {
    let flats: String = (1..=16).map(|n| format!("F{n} = {{ place = \"A/1\" }}\n")).collect();
    let runs: String = (0..4)
        .map(|n| {
            let names: Vec<String> = (n * 4 + 1..n * 4 + 5).map(|n| format!("\"F{n}\"")).collect();
            format!("R{n} = {{ from = \"D2.{}\", to = [{}], spacing = \"3 m\" }}\n", n + 1, names.join(", "))
        })
        .collect();
    let text = format!(
        "{HEAD}[supplies]\nPS = {{ model = \"ostrel-ps-120\", place = \"A/G\" }}\n[distributors]\n\
         D1 = {{ model = \"ostrel-d4\", place = \"A/G\" }}\nD2 = {{ model = \"ostrel-d8t\", place = \"A/1\" }}\n\
         [dwellings]\n{flats}[runs]\nfeed = {{ from = \"PS\", to = \"D1\", length = \"1 m\" }}\n\
         door = {{ from = \"D1.1\", to = \"front\", length = \"8 m\" }}\nrise = {{ from = \"D1.2\", to = \"D2\", length = \"6 m\" }}\n{runs}"
    );
    let changed = mended(&text, "port-overloaded", "another-output");
    assert!(changed.contains("rise = { from = \"PS\", to = \"D2\", lengths = [\"7 m\"] }"), "{changed}");
}

/// A chain of nine screens on thin wire up three floors: a run for each floor carries a third of them.
#[test]
fn a_chain_over_landings_becomes_a_run_for_each() {
    let flats: String =
        (1..=9).map(|n| format!("F{n} = {{ place = \"A/{}\" }}\n", (n - 1) / 3 + 1)).collect();
    let names: Vec<String> = (1..=9).map(|n| format!("\"F{n}\"")).collect();
    let text = |spacing_m: u32| {
        format!(
            "{HEAD}[policy]\nlargest_silenced_group = 3\n[supplies]\nPS = {{ model = \"ostrel-ps-120\", place = \"A/G\" }}\n[distributors]\n\
             D1 = {{ model = \"ostrel-d8t\", place = \"A/G\" }}\n[dwellings]\n{flats}[runs]\n\
             feed = {{ from = \"PS\", to = \"D1\", length = \"1 m\" }}\ndoor = {{ from = \"D1.1\", to = \"front\", length = \"8 m\" }}\n\
             flats = {{ from = \"D1.2\", to = [{}], spacing = \"{spacing_m} m\", cable = \"pair-0.8\" }}\n",
            names.join(", ")
        )
    };
    let changed = mended(&text(3), "silenced-group", "run-for-each-landing");
    assert!(changed.contains("to = [\"F1\", \"F2\", \"F3\"]"), "{changed}");
    assert!(changed.contains("to = [\"F4\", \"F5\", \"F6\"]"), "{changed}");
    assert!(changed.contains("lengths = [\"21 m\", \"3 m\", \"3 m\"]"), "{changed}");
}

#[test]
fn a_run_to_a_door_outdoors_may_get_a_protector_at_each_end() {
    let text = format!(
        "{HEAD}[supplies]\nPS = {{ model = \"ostrel-ps-60\", place = \"A/G\" }}\n[distributors]\n\
         D1 = {{ model = \"ostrel-d4\", place = \"A/G\" }}\n[dwellings]\nF1 = {{ place = \"A/1\" }}\n[runs]\n\
         feed = {{ from = \"PS\", to = \"D1\", length = \"1 m\" }}\nflat = {{ from = \"D1.2\", to = \"F1\", length = \"6 m\" }}\n\
         door = {{ from = \"D1.1\", to = \"front\", length = \"60 m\", cable = \"flex-1.5\", environment = \"outdoors\" }}\n"
    );
    let changed = mended(&text, "outdoor-run-without-surge-protection", "surge-protection-at-both-ends");
    assert_eq!(changed.matches("surge_protection = \"1 ohm\"").count(), 2, "{changed}");
}

/// A station that is short by less than the tolerances of its cable: the run is measured before it is replaced. What the remedy says
/// is held against the file with the figure written in, and with two per cent more.
#[test]
fn a_run_that_nobody_measured_may_do_as_it_is() {
    let text = |first_dm: u32, measured: &str| {
        format!(
            "{HEAD}[supplies]\nPS = {{ model = \"ostrel-ps-120\", place = \"A/G\" }}\n[distributors]\n\
             D1 = {{ model = \"ostrel-d8t\", place = \"A/G\" }}\n[dwellings]\nF1 = {{ place = \"A/1\" }}\n[runs]\n\
             feed = {{ from = \"PS\", to = \"D1\", length = \"1 m\" }}\ndoor = {{ from = \"D1.1\", to = \"front\", length = \"8 m\" }}\n\
             flats = {{ from = \"D1.2\", to = \"F1\", length = \"{}.{} m\", cable = \"pair-0.5\"{measured} }}\n",
            first_dm / 10,
            first_dm % 10
        )
    };
    let is_short = |first_dm: &u32| {
        let judged = judge(&text(*first_dm, ""));
        about(&judged, "voltage-too-low")
            .iter()
            .any(|one| one.element.as_ref().is_some_and(|id| id.as_str() == "F1"))
    };
    let first_dm = (100..6000).step_by(20).find(is_short).unwrap_or_else(|| panic!("no length is too long"));
    let judged = judge(&text(first_dm, ""));
    let finding = *about(&judged, "voltage-too-low").first().unwrap_or_else(|| panic!("none"));
    let remedies = offered(&judged.bench(), finding);
    let measured = remedies.iter().find(|remedy| remedy.measure.is_some());
    let remedy = measured.unwrap_or_else(|| panic!("{remedies:#?}"));
    assert!(!remedy.changes_the_file());
    let Some(measure) = &remedy.measure else { panic!() };
    assert_eq!(
        (measure.run.as_str(), measure.at.as_str(), measure.joined_at.as_str()),
        ("flats", "D1.2", "F1")
    );
    assert!(measure.most_ohm >= measure.expected_ohm.floor(), "{measure:?}");
    let with = |ohm: f64| judge(&text(first_dm, &format!(", measured = {{ loop = \"{ohm} ohm\" }}")));
    assert!(about(&with(measure.most_ohm), "voltage-too-low").is_empty());
    assert!(!about(&with(measure.most_ohm * 1.02), "voltage-too-low").is_empty());
}

/// Where an error goes, what comes is no error, and is named; the changed file judged from scratch finds that and nothing else new.
#[test]
fn what_comes_with_a_change_is_named() {
    let text = include_str!("../../../crates/latchline/src/demo/faulty.toml");
    let judged = judge(text);
    let bench = judged.bench();
    let before = keys(&judged.assessment.findings);
    let (mut named, mut seen) = (0, std::collections::BTreeSet::new());
    for finding in judged.assessment.findings.iter().filter(|finding| finding.severity == Severity::Error) {
        if !seen.insert(finding.code) {
            continue;
        }
        for remedy in propose(&bench, finding).iter().filter(|remedy| !remedy.brings.is_empty()) {
            named += 1;
            let changed = edit::apply(text, &remedy.edit).unwrap_or_else(|error| panic!("{error}"));
            let after = judge(&changed).assessment.findings;
            let brought: std::collections::BTreeSet<(String, String)> = remedy
                .brings
                .iter()
                .map(|one| {
                    let element = one.element.as_ref().map(ToString::to_string).unwrap_or_default();
                    (one.code.as_str().to_string(), element)
                })
                .collect();
            let new: std::collections::BTreeSet<_> = keys(&after).difference(&before).cloned().collect();
            assert_eq!(new, brought, "{}", remedy.kind);
            let errors = |all: &[Finding]| all.iter().filter(|one| one.severity == Severity::Error).count();
            assert!(errors(&after) < errors(&judged.assessment.findings));
        }
    }
    assert!(named > 0);
}

/// Two towers on supplies of their own, whose risers were exchanged: each door calls the flats on the other one's bus. Exchanging the two
/// runs mends both doors, and nothing has to be bought.
#[test]
fn risers_that_were_taken_for_each_other_are_exchanged() {
    let tower = |name: &str, other: &str| {
        format!(
            "d{name} = {{ from = \"D{name}.3\", to = \"door{name}\", length = \"9 m\" }}\n\
             low{name} = {{ from = \"D{name}.1\", to = \"T{other}-1..T{other}-3\", first = \"9 m\", spacing = \"6 m\" }}\n\
             high{name} = {{ from = \"D{name}.2\", to = \"T{name}-4..T{name}-6\", first = \"12 m\", spacing = \"6 m\" }}\n\
             feed{name} = {{ from = \"PS{name}\", to = \"D{name}\", cable = \"flex-1.5\", length = \"1.5 m\" }}\n"
        )
    };
    let part = |row: &dyn Fn(&str) -> String| ["1", "2"].map(row).concat();
    let text = format!(
        "[site]\ntitle = \"Towers\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v4\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.8\"\n\
         [buildings]\n{}[supplies]\n{}[distributors]\n{}[entrances]\n{}[dwellings]\n{}[runs]\n{}{}",
        part(&|name| format!("T{name} = {{ floors = [\"G\", \"1\"] }}\n")),
        part(&|name| format!("PS{name} = {{ model = \"ostrel-ps-120\", place = \"T{name}/G\" }}\n")),
        part(&|name| format!("D{name} = {{ model = \"ostrel-d4\", place = \"T{name}/G\" }}\n")),
        part(&|name| format!(
            "door{name} = {{ role = \"main\", place = \"T{name}/G\", calls = \"T{name}\" }}\n"
        )),
        part(&|name| format!("\"T{name}-1..T{name}-6\" = {{ place = \"T{name}/G\", per_floor = 3 }}\n")),
        tower("1", "2"),
        tower("2", "1"),
    );
    let changed = mended(&text, "call-across-buses", "ports-exchanged");
    assert!(
        changed.contains("low1 = { from = \"D2.1\"") && changed.contains("low2 = { from = \"D1.1\""),
        "{changed}"
    );
    assert!(about(&judge(&changed), "call-across-buses").is_empty());
    let remedies = remedies_of(&text, "call-across-buses");
    let cost = remedies.iter().find(|one| one.kind == "ports-exchanged").and_then(|one| one.cost);
    assert_eq!(cost.map(|cost| cost.rounded().as_units()), Some(0.0), "{remedies:?}");
}
