//! Every key of the parts that a site uses, called assumed one by one, is told; and what is not told changes nothing.
#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use latchline_assess::rules::codes;
use latchline_assess::{Assessment, assess};
use latchline_finding::{DataGrade, Edit, Sources};
use latchline_site::catalogue::{Bears, CATALOGUE_FILE};
use latchline_site::keys::{KeySpec, TableSpec, Without};
use latchline_site::model::SITE_FILE;
use latchline_site::{builtin_catalogue, edit, resolve};
use toml::{Table, Value};

const SITE: &str = r#"[site]
title = "Every kind of part"
family = "ostrel-48"
indoor_station = "ostrel-v4"
door_station = "ostrel-dv1"
management_station = "ostrel-m1"
cable = "pair-0.8"
country = "GB"
[conditions]
usual_temperature = "20 °C"
hottest_temperature = "40 °C"
coldest_temperature = "0 °C"
length_tolerance = "5 %"
joint_resistance = "10 mohm"
[policy]
standby_hours = 4
[buildings]
A = { floors = ["G"] }
[supplies]
PS = { model = "ostrel-ps-120b", place = "A/G", ambient = "20 °C" }
[distributors]
D1 = { model = "ostrel-d4", place = "A/G" }
[branch-boxes]
T1 = { model = "ostrel-t2", place = "A/G" }
[entrances.front]
role = "main"
place = "A/G"
calls = ["everyone"]
accessories = ["ostrel-keypad"]
lights = [{ model = "names-12", feed = "station", lit = "night" }]
alarm_inputs = [{ kind = "tamper", cable = "pair-0.5", length = "2 m", tells = ["lodge"] }]
lock = { model = "strike-12", feed = "station", contact = "normally-open", cable = "flex-1.0", length = "5 m", hold_time = "3 s" }
[management]
lodge = { place = "A/G", calls = ["everyone"] }
[dwellings]
A-1 = { place = "A/G" }
A-2 = { place = "A/G" }
[runs]
feed = { from = "PS", to = "D1", length = "2 m" }
door = { from = "D1.1", to = ["front", "lodge"], lengths = ["5 m", "5 m"] }
riser = { from = "D1.2", to = "T1", length = "5 m" }
R1 = { from = "T1.1", to = "A-1", length = "5 m" }
R2 = { from = "T1.2", to = "A-2", length = "5 m" }
"#;

/// Parts that the site uses, by table.
const IN_USE: &[(&str, &[&str])] = &[
    ("families", &["ostrel-48"]),
    ("supplies", &["ostrel-ps-120b"]),
    ("boxes", &["ostrel-d4", "ostrel-t2"]),
    ("stations", &["ostrel-v4", "ostrel-dv1", "ostrel-m1"]),
    ("cables", &["pair-0.8", "pair-0.5", "flex-1.0"]),
    ("locks", &["strike-12"]),
    ("accessories", &["ostrel-keypad"]),
    ("lights", &["names-12"]),
];

/// Keys that say where values are from.
const OF_SOURCES: &[&str] =
    &["title", "german_title", "source", "assumed", "measured", "standard", "replaces"];
/// Cables of locks and alarm inputs, through which no signal goes.
const WITHOUT_SIGNAL: &[&str] = &["pair-0.5", "flex-1.0"];
/// Keys by which nothing is judged.
const NOT_JUDGED_BY: &[&str] = &["price", "labour_minutes", "drum_lengths", "called"];

fn assessed(catalogue: &str) -> Assessment {
    assessed_site(catalogue, SITE)
}

/// The built-in catalogue with nothing assumed in the parts in use.
fn nothing_assumed() -> String {
    let mut text = builtin_catalogue().1.to_string();
    let known: Table = text.parse().unwrap();
    for (table, names) in IN_USE {
        for name in *names {
            let part = known[*table][*name].as_table().unwrap();
            let tables = part.iter().filter_map(|(key, value)| Some((Some(key), value.as_table()?)));
            for (inner, values) in std::iter::once((None, part)).chain(tables) {
                if values.contains_key("assumed") {
                    let path: Vec<&str> = [*table, *name]
                        .into_iter()
                        .chain(inner.map(String::as_str))
                        .chain(["assumed"])
                        .collect();
                    text = edit::apply(&text, &Edit::remove(&path)).unwrap();
                }
            }
        }
    }
    text
}

fn told_of(assessment: &Assessment, part: &str) -> Vec<String> {
    let of_part = |one: &&String| one.strip_prefix(part).is_some_and(|rest| rest.starts_with(' '));
    assessment.assumed.iter().filter(of_part).cloned().collect()
}

#[test]
fn every_key_that_is_called_assumed_is_told() {
    let text = nothing_assumed();
    let before = assessed(&text);
    let known: Table = text.parse().unwrap();
    let mut flipped = 0;
    for (table, names) in IN_USE {
        for name in *names {
            let part = known[*table][*name].as_table().unwrap();
            for (key, value) in part.iter().filter(|(key, _)| !OF_SOURCES.contains(&key.as_str())) {
                let changed =
                    edit::apply(&text, &Edit::set(&[*table, *name, "assumed"], format!("[\"{key}\"]")));
                let assessment = assessed(&changed.unwrap());
                let wanted = format!("{name} {key}");
                let is_judged_by = !(NOT_JUDGED_BY.contains(&key.as_str())
                    || key == "line" && WITHOUT_SIGNAL.contains(name));
                let told = &assessment.assumed;
                assert_eq!(told.contains(&wanted), is_judged_by, "{wanted}: {told:?}");
                flipped += 1;
                // Keys of tables inside that can be called assumed on their own.
                let (Value::Table(inner), "battery" | "line") = (value, key.as_str()) else { continue };
                for inner_key in inner.keys().filter(|key| !OF_SOURCES.contains(&key.as_str())) {
                    let path = [*table, *name, key, "assumed"];
                    let changed = edit::apply(&text, &Edit::set(&path, format!("[\"{inner_key}\"]")));
                    let wanted = if key == "line" { wanted.clone() } else { format!("{wanted} {inner_key}") };
                    let assessment = assessed(&changed.unwrap());
                    let told = &assessment.assumed;
                    assert_eq!(told.contains(&wanted), is_judged_by, "{wanted}: {told:?}");
                    flipped += 1;
                }
            }
        }
    }
    assert!(flipped > 150, "{flipped} keys");
    assert!(before.assumed.iter().all(|one| !one.contains("battery")), "{:?}", before.assumed);
}

/// Another price, time for labour or length of drum: the assessment is the same to the last figure. The figures have as many digits
/// as before, so that places in the file stay the same, too.
#[test]
fn what_is_never_told_changes_nothing() {
    let text = nothing_assumed();
    let before = assessed(&text);
    let known: Table = text.parse().unwrap();
    for (table, names) in IN_USE {
        for name in *names {
            for key in NOT_JUDGED_BY {
                let Some(value) = known[*table][*name].get(key) else { continue };
                let written = value.to_string();
                let other: String =
                    written.chars().map(|sign| if sign.is_ascii_digit() { '7' } else { sign }).collect();
                let changed = edit::apply(&text, &Edit::set(&[*table, *name, *key], other)).unwrap();
                assert_eq!(assessed(&changed), before, "{name} {key}");
            }
        }
    }
}

fn assessed_site(catalogue: &str, site: &str) -> Assessment {
    let mut sources = Sources::new();
    let catalogue = sources.add("catalogue.toml", catalogue);
    let file = sources.add("site.toml", site);
    let resolved = resolve(&sources, file, &[catalogue]);
    assess(&resolved.site.unwrap_or_else(|| panic!("{:#?}", resolved.findings)))
}

/// The text with a supply that folds back.
fn folding_back(text: &str, supply: &str) -> String {
    let keys = [
        ("limit_kind", "\"foldback\""),
        ("foldback_from", "\"85 %\""),
        ("short_circuit_current", "\"1 A\""),
        ("output_capacitance", "\"470 uF\""),
    ];
    let edit = keys.iter().fold(Edit::default(), |edit, (key, value)| {
        edit.then(Edit::set(&["supplies", supply, *key], value.to_string()))
    });
    edit::apply(text, &edit).unwrap()
}

/// The text without a key, whether it holds it or not.
fn without(text: &str, path: &[&str]) -> String {
    let known: Table = text.parse().unwrap();
    let mut table = &known;
    for name in &path[..path.len() - 1] {
        table = table[*name].as_table().unwrap();
    }
    match table.get(path[path.len() - 1]) {
        Some(_) => edit::apply(text, &Edit::remove(path)).unwrap(),
        None => text.to_string(),
    }
}

/// Rows of a table, and of those inside it, for which a value is guessed and on which something rests.
fn guessed(spec: &'static TableSpec) -> Vec<&'static KeySpec> {
    let inner = spec.keys.iter().filter_map(|row| row.kind.table());
    std::iter::once(spec)
        .chain(inner)
        .flat_map(|table| table.keys)
        .filter(|row| row.without == Without::Assumed && row.bears != Bears::OnNothing)
        .collect()
}

/// A value that nobody wrote and that is taken all the same is told like one that is called assumed: whatever row of a catalogue
/// says that a value is guessed, a part in use that leaves it out is listed with it.
#[test]
fn every_value_that_a_catalogue_leaves_to_a_guess_is_told() {
    let text = nothing_assumed();
    let mut rows = Vec::new();
    for table in CATALOGUE_FILE.keys {
        let Some(spec) = table.kind.table() else { continue };
        for row in guessed(spec) {
            let (_, names) = IN_USE.iter().find(|(name, _)| *name == table.name).unwrap();
            let is_told = |name: &&str| {
                // Only a supply that folds back has where it begins to.
                let with = if row.name == "foldback_from" { folding_back(&text, name) } else { text.clone() };
                let changed = without(&with, &[table.name, *name, row.name]);
                told_of(&assessed(&changed), name).contains(&format!("{name} {}", row.name))
            };
            assert!(names.iter().any(is_told), "no part in use is told with {} of {}", row.name, table.name);
            rows.push(row.name);
        }
    }
    for known in ["load_tolerance", "port_resistance", "resistance_tolerance", "undervoltage_tolerance"] {
        assert!(rows.contains(&known), "{rows:?}");
    }
}

/// The same for the site file: the case of each row is where it stands, and what is told of it.
#[test]
fn every_value_that_a_site_leaves_to_a_guess_is_told() {
    let text = nothing_assumed();
    let lock = r#"lock = { model = "strike-12", feed = "own-supply", supply_voltage = "12 V", supply_tolerance = "5 %", "#;
    let site = SITE.replace(r#"lock = { model = "strike-12", feed = "station", "#, lock);
    assert_ne!(site, SITE);
    let before = assessed_site(&text, &site).assumed;
    let mut rows = 0;
    for table in SITE_FILE.keys {
        let Some(spec) = table.kind.table() else { continue };
        if table.name == "cables" {
            // The rows of the catalogue's cables.
            continue;
        }
        for row in guessed(spec) {
            let (path, told) = match (table.name, row.name) {
                ("conditions", key) => (vec!["conditions", key], format!("conditions {key}")),
                ("entrances", key @ "supply_tolerance") => {
                    (vec!["entrances", "front", "lock", key], format!("front lock {key}"))
                }
                (table, key) => panic!("{key} of {table} is left to a guess and has no case here"),
            };
            assert!(!before.contains(&told), "{told} is written");
            let after = assessed_site(&text, &without(&site, &path)).assumed;
            assert!(after.contains(&told), "{told}: {after:?}");
            rows += 1;
        }
    }
    assert!(rows > 5, "{rows} rows");
}

/// Signals are judged with the cables at the ends of the length tolerance and at both temperatures: a finding of them rests on what of these is
/// assumed. The resistance of joints is not in their network.
#[test]
fn a_signal_finding_rests_on_the_conditions_that_it_is_judged_at() {
    let text = nothing_assumed();
    // A riser so long that hardly anything of the picture arrives.
    let long = SITE.replace(r#"to = "T1", length = "5 m""#, r#"to = "T1", length = "900 m""#);
    assert_ne!(long, SITE);
    let grade = |site: &str| {
        let assessment = assessed_site(&text, site);
        let finding = assessment.findings.iter().find(|one| one.code == codes::SIGNAL_TOO_WEAK);
        match &finding.expect("the picture is too weak").grade {
            DataGrade::Known => Vec::new(),
            DataGrade::Assumed(values) => values.clone(),
        }
    };
    assert_eq!(grade(&long), Vec::<String>::new());
    for key in ["length_tolerance", "hottest_temperature", "coldest_temperature", "usual_temperature"] {
        assert_eq!(grade(&without(&long, &["conditions", key])), [format!("conditions {key}")]);
    }
    assert_eq!(grade(&without(&long, &["conditions", "joint_resistance"])), Vec::<String>::new());
}
