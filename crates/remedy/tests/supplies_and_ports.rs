//! More than one thing at a supply or port: a supply with batteries, a chain on two ports, a distributor where no port is free.
#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use crate::common::{judge, judge_with, keys};
use latchline_finding::{Finding, Remedy};
use latchline_remedy::{offered, propose, tried};
use latchline_site::{builtin_catalogue, edit};

/// The finding of a code, and what is offered for it; each, applied and judged again, takes it away.
fn found(text: &str, code: &str) -> (Finding, Vec<Remedy>) {
    let judged = judge(text);
    let finding = judged.assessment.findings.iter().find(|one| one.code.as_str() == code).cloned();
    let finding = finding.unwrap_or_else(|| panic!("no {code}: {:?}", keys(&judged.assessment.findings)));
    let remedies = offered(&judged.bench(), &finding);
    let wanted = keys(std::slice::from_ref(&finding));
    for remedy in remedies.iter().filter(|remedy| remedy.changes_the_file()) {
        let after = judge(&edit::apply(text, &remedy.edit).unwrap()).assessment.findings;
        assert!(keys(&after).is_disjoint(&wanted), "{remedy:?} leaves {wanted:?}");
        assert!(
            keys(&after).is_subset(&keys(&judged.assessment.findings)) || !remedy.brings.is_empty(),
            "{remedy:?}"
        );
    }
    (finding, remedies)
}

/// A house of so many flats on a supply with these keys; the flats on one chain of a distributor of this model, whose other ports are taken
/// by door stations.
fn house(supply: &str, policy: &str) -> String {
    let dwellings: String = (1..=12).map(|number| format!("A-{number} = {{ place = \"A/1\" }}\n")).collect();
    let names: Vec<String> = (1..=12).map(|number| format!("\"A-{number}\"")).collect();
    format!(
        "[site]\ntitle = \"House\"\nfamily = \"ostrel-48\"\nindoor_station = \"ostrel-v4\"\ndoor_station = \"ostrel-dv1\"\ncable = \"pair-0.8\"\n\
         [policy]\n{policy}\n[buildings]\nA = {{ floors = [\"G\", \"1\"] }}\n[supplies]\nPS = {{ model = \"{supply}\", place = \"A/G\" }}\n\
         [distributors]\nD1 = {{ model = \"ostrel-d4\", place = \"A/G\" }}\n\
         [entrances]\nfront = {{ role = \"main\", place = \"A/G\" }}\n[dwellings]\n{dwellings}[runs]\n\
         feed = {{ from = \"PS\", to = \"D1\", cable = \"flex-1.5\", length = \"1 m\" }}\n\
         door = {{ from = \"D1.4\", to = \"front\", length = \"8 m\" }}\n\
         flats = {{ from = \"D1.1\", to = [{}], first = \"6 m\", spacing = \"3 m\" }}\n",
        names.join(", ")
    )
}

/// By hand: twelve stations of 0.4 W, a door station of 2.4 W and a distributor of 1.2 W are 8.4 W, at 85 % and 24 V 0.41 A. An old battery has
/// 0.8 x 17 Ah, 0.68 A for 20 h; with the exponent 1.15 it lasts at best 20 h x (0.68 / 0.41)^1.15 = 36 h, two of them at best 80 h. So for 40 h
/// a supply with one battery does not do, and batteries without such a supply do nothing: both are tried together.
#[test]
fn a_supply_without_battery_gets_one_with_several() {
    let text = house("ostrel-ps-120", "standby_hours = 40");
    let (_, remedies) = found(&text, "battery-missing");
    let both =
        remedies.iter().find(|one| one.kind == "two-changes").unwrap_or_else(|| panic!("{remedies:?}"));
    let kinds: Vec<&str> = both.parts.iter().map(|(kind, _)| *kind).collect();
    assert_eq!(kinds, ["other-supply", "more-batteries"]);
    assert_eq!(both.cost, None, "no price list has further batteries");
    // Where one battery lasts, one is bought.
    let (_, short) = found(&house("ostrel-ps-120", "standby_hours = 2"), "battery-missing");
    assert_eq!(short[0].kind, "other-supply");
}

/// Nine stations on a port that takes eight, each part of the cut chain with a terminator of its own, as the family needs.
#[test]
fn a_chain_that_needs_a_terminator_is_cut_in_two() {
    let text = include_str!("../../../checks/by_hand/nine-on-a-larkfen-port.toml")
        .replace("first = \"7 m\", spacing = \"4 m\"", "first = \"4 m\", spacing = \"2 m\"");
    let (_, remedies) = found(&text, "too-many-stations-on-port");
    let moved =
        remedies.iter().find(|one| one.kind == "another-port").unwrap_or_else(|| panic!("{remedies:?}"));
    let after = judge(&edit::apply(&text, &moved.edit).unwrap());
    let chains: Vec<usize> =
        after.site.runs.iter().map(|run| run.sections.len()).filter(|stops| *stops > 1).collect();
    assert_eq!(chains.iter().sum::<usize>(), 9, "{chains:?}");
    assert!(chains.iter().all(|stops| *stops <= 8), "{chains:?}");
}

/// Seventeen on a port of a distributor with no port left: a second distributor beside it carries the far part of the chain.
#[test]
fn a_second_distributor_where_no_port_is_free() {
    let text = include_str!("../../../checks/by_hand/seventeen-on-a-port.toml").replace(
        "[runs]",
        "B-1 = { place = \"A/1\" }\nB-2 = { place = \"A/2\" }\n[runs]\nleft = { from = \"D1.2\", to = \"B-1\", length = \"6 m\" }\n\
         right = { from = \"D1.3\", to = \"B-2\", length = \"6 m\" }",
    );
    let (_, remedies) = found(&text, "too-many-stations-on-port");
    let second = remedies.iter().find(|one| one.kind == "another-distributor");
    let second = second.unwrap_or_else(|| panic!("{remedies:?}"));
    let after = judge(&edit::apply(&text, &second.edit).unwrap());
    assert_eq!(after.site.boxes.len(), 2);
    assert!(after.assessment.findings.iter().all(|one| one.code.as_str() != "too-many-stations-on-port"));
    // It is not for `propose` to guess a way: the second one hangs where the first does.
    assert_eq!(after.site.boxes[0].place, after.site.boxes[1].place);
    assert!(!propose(&judge(&text).bench(), &found(&text, "too-many-stations-on-port").0).is_empty());
}

/// Nine stations on a port that takes eight, 39 m from end to end: cut in two on the cable that is there the last hears too little, and a cable with less
/// loss alone leaves nine on the port. Both together do.
#[test]
fn what_a_cut_brings_is_mended_by_a_second_change() {
    let text = include_str!("../../../checks/by_hand/nine-on-a-larkfen-port.toml");
    let (_, remedies) = found(text, "too-many-stations-on-port");
    let [both] = &remedies[..] else { panic!("{remedies:?}") };
    assert_eq!(both.kind, "two-changes");
    let kinds: Vec<&str> = both.parts.iter().map(|(kind, _)| *kind).collect();
    assert_eq!(kinds, ["another-port", "other-cable"]);
    // Neither does alone.
    let before = judge(text);
    let first = judge(&edit::apply(text, &both.parts[0].1).unwrap());
    assert!(first.assessment.findings.iter().any(|one| one.code.as_str() == "signal-too-weak"));
    assert!(edit::apply(text, &both.parts[1].1).is_err() || before.site.runs.len() == 3);
    let after = judge(&edit::apply(text, &both.edit).unwrap());
    assert!(after.site.runs.iter().all(|run| run.sections.len() <= 8));
}

/// Nineteen stations on a supply whose datasheet allows eighteen. Other stations than were chosen are not needed: a second supply takes one of the
/// three chains, on a box that passes nothing but signals, and then no supply has more than eleven.
#[test]
fn a_supply_with_too_many_stations_gets_a_second_one_beside_it() {
    let text = include_str!("../../../checks/by_hand/supply-count-v7.toml");
    let (_, remedies) = found(text, "supply-count-exceeded");
    let second = &remedies[0];
    assert_eq!(second.kind, "second-supply", "{remedies:?}");
    assert!(!second.edit.changes_stations_of_dwellings());
    let after = judge(&edit::apply(text, &second.edit).unwrap());
    assert_eq!(after.site.supplies.len(), 2);
    assert_eq!(after.site.stations.len(), judge(text).site.stations.len());
    // Nobody is cut off: a door reaches whom it called before.
    assert!(after.assessment.findings.iter().all(|one| one.code.as_str() != "call-across-buses"));
    let on = |run: &str| after.site.runs.iter().find(|one| one.id.as_str() == run).unwrap().from;
    let moved: Vec<&str> = ["s1", "s2", "s3"]
        .into_iter()
        .filter(|run| {
            on(run) != judge(text).site.runs.iter().find(|one| one.id.as_str() == *run).unwrap().from
        })
        .collect();
    assert!(!moved.is_empty() && moved.len() < 3, "{moved:?}");
}

/// Two doors and four stations behind one port of 0.9 A, no other port free. Each door that holds its lock takes about 0.18 A more over it; without
/// one of them the port gives what is left.
#[test]
fn a_lock_gets_a_supply_of_its_own_where_a_port_gives_too_little() {
    let text = r#"[site]
title = "House"
family = "ostrel-48"
indoor_station = "ostrel-v4"
door_station = "ostrel-dv1"
cable = "flex-1.5"
[buildings]
A = { floors = ["G", "1"] }
[supplies]
PS = { model = "ostrel-ps-120", place = "A/G" }
[distributors]
D1 = { model = "ostrel-d4", place = "A/G" }
[branch-boxes]
T = { model = "ostrel-t4", place = "A/G" }
[entrances]
front = { role = "main", place = "A/G", lock = { model = "strike-12", cable = "flex-1.0", length = "2 m", suppression = "diode" } }
back = { role = "secondary", place = "A/G", lock = { model = "strike-12", cable = "flex-1.0", length = "2 m", suppression = "diode" } }
[dwellings]
A-1 = { place = "A/1" }
A-2 = { place = "A/1" }
A-3 = { place = "A/1" }
A-4 = { place = "A/1" }
A-5 = { place = "A/G" }
A-6 = { place = "A/G" }
[runs]
feed = { from = "PS", to = "D1", length = "1 m" }
doors = { from = "D1.4", to = "T", length = "8 m" }
f = { from = "T.1", to = "front", length = "2 m" }
g = { from = "T.3", to = ["A-5", "A-6"], first = "5 m", spacing = "3 m" }
b = { from = "T.2", to = "back", length = "2 m" }
f2 = { from = "D1.2", to = "A-3", length = "9 m" }
f3 = { from = "D1.3", to = "A-4", length = "9 m" }
flats = { from = "D1.1", to = ["A-1", "A-2"], first = "6 m", spacing = "3 m" }
"#;
    let (_, remedies) = found(text, "port-overloaded");
    let own = remedies.iter().find(|one| one.kind == "lock-supply-of-its-own");
    let own = own.unwrap_or_else(|| panic!("{remedies:?}"));
    assert!(own.value_after.is_some_and(|after| after.figure.value < 0.9), "{own:?}");
    // Without a lock that a door feeds there is none to move.
    let none = text.replace(
        ", lock = { model = \"strike-12\", cable = \"flex-1.0\", length = \"2 m\", suppression = \"diode\" }",
        "",
    );
    assert!(!judge(&none).assessment.findings.iter().any(|one| one.code.as_str() == "port-overloaded"));
}

/// Twelve stations that boot at 1 W, a door station and a distributor draw more than 12 W / 48 V = 0.25 A when power returns: a supply of
/// 0.2 A does not start them, nor can one of 0.24 A, which is larger, and is not tried. The first that is tried carries them.
#[test]
fn a_supply_below_the_current_of_a_start_is_not_tried() {
    let builtin = builtin_catalogue().1;
    let start = builtin.find("[supplies.ostrel-ps-60]").unwrap();
    let end = start + builtin[start + 1..].find("\n[").unwrap() + 1;
    let supply = |name: &str, rated: &str, limit: &str| {
        let block = builtin[start..end].replace("ostrel-ps-60", name);
        let line = |line: &str| match line.split(" = ").next() {
            Some("rated_current") => format!("rated_current = \"{rated}\"\n"),
            Some("limit_current") => format!("limit_current = \"{limit}\"\n"),
            _ => format!("{line}\n"),
        };
        block.lines().map(line).collect::<String>()
    };
    let (small, larger) = (supply("small", "0.2 A", "0.22 A"), supply("larger", "0.24 A", "0.26 A"));
    let judged = judge_with(&house("small", ""), &[builtin, &format!("{small}\n{larger}")]);
    let finding = judged.assessment.findings.iter().find(|one| one.code.as_str().starts_with("start-up-"));
    let finding = finding.unwrap_or_else(|| panic!("{:?}", keys(&judged.assessment.findings)));
    let drawn_a = judged.assessment.sources[0].power_return_current_a.unwrap();
    assert!(drawn_a > 0.25, "{drawn_a} A");
    let tried = tried(&judged.bench(), finding);
    let models: Vec<String> =
        tried.iter().filter(|one| one.kind == "larger-supply").map(|one| format!("{:?}", one.edit)).collect();
    assert!(!models.is_empty());
    assert!(models.iter().all(|edit| !edit.contains("larger")), "{models:?}");
}
