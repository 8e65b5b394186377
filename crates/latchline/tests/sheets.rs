//! The sheets of doors and supplies, by the whole program.
#![allow(clippy::disallowed_methods, reason = "tests may read and write files")]

use crate::common::Folder;

fn demo() -> Folder {
    let folder = Folder::new();
    assert_eq!(folder.run(&["new", "--demo", "demo"]).status, 0);
    folder
}

#[test]
fn each_door_of_the_demo_has_its_sheet() {
    let folder = demo();
    for door in ["front-A", "front-B", "gate", "bins"] {
        let ran = folder.run(&["check", "demo/site.toml", "--door", door]);
        assert_eq!((ran.status, ran.err.as_str()), (0, ""), "{}", ran.out);
        assert!(ran.out.starts_with(&format!("Door {door}\n")), "{}", ran.out);
        for word in ["Power", "Voltage", "Wiring", "Times", "Mind", "not a certificate"] {
            assert!(ran.out.contains(word), "{door} lacks {word}: {}", ran.out);
        }
        assert!(ran.out.lines().all(|line| line.chars().count() <= 100), "{}", ran.out);
    }
    let dry = folder.run(&["check", "demo/site.toml", "--door", "gate"]);
    assert!(dry.out.contains("its input -> relay common, normally open -> its input"), "{}", dry.out);
}

#[test]
fn sheets_fit_a_narrow_terminal() {
    let folder = demo();
    for sheet in [["--door", "front-A"], ["--supply", "A-PS"]] {
        let mut command = folder.command(&["check", "demo/site.toml", sheet[0], sheet[1]]);
        let output = command.env("COLUMNS", "60").output().unwrap();
        let text = String::from_utf8(output.stdout).unwrap();
        let body = text.lines().filter(|line| !line.starts_with("    ") || line.starts_with("      "));
        for line in body {
            assert!(line.chars().count() <= 60, "{line}");
        }
    }
}

#[test]
fn each_supply_of_the_demo_has_its_sheet() {
    let folder = demo();
    let with = folder.run(&["check", "demo/site.toml", "--supply", "A-PS"]);
    assert_eq!(with.status, 0);
    for word in [
        "Battery",
        "Hours in standby",
        "Mains lost",
        "Mains back",
        ": good",
        "Hours to recharge",
        "Mains current",
        "Heat",
    ] {
        assert!(with.out.contains(word), "{word}: {}", with.out);
    }
    let text = folder.read("demo/site.toml");
    let start = text.find("B-PS").unwrap();
    let (before, after) = text.split_at(start);
    folder.write("demo/site.toml", format!("{before}{}", after.replacen("ps-120b", "ps-120", 1)));
    let without = folder.run(&["check", "demo/site.toml", "--supply", "B-PS"]);
    assert_eq!(without.status, 1);
    assert!(without.out.contains("without mains nothing works"), "{}", without.out);
    assert!(without.out.contains("the policy asks for 3 h without mains"), "{}", without.out);
}

#[test]
fn a_lock_that_gets_too_little_is_told_on_its_sheet_and_in_the_check() {
    let folder = demo();
    let text = folder.read("demo/site.toml");
    let start = text.find("[entrances.bins]").unwrap();
    let (before, after) = text.split_at(start);
    let long = after.replacen("length = \"4 m\"", "length = \"90 m\"", 1);
    assert_ne!(long, after);
    folder.write("demo/site.toml", format!("{before}{long}"));
    let check = folder.run(&["check", "demo/site.toml", "--format", "short"]);
    assert_eq!(check.status, 1);
    assert!(check.out.contains("error[lock-voltage-too-low]"), "{}", check.out);
    let sheet = folder.run(&["check", "demo/site.toml", "--door", "bins"]);
    assert_eq!(sheet.status, 1);
    assert!(sheet.out.contains("needs at least 10.8 V: NOT good"), "{}", sheet.out);
    assert!(sheet.out.contains("error: lock-voltage-too-low"), "{}", sheet.out);
}

#[test]
fn names_that_do_not_exist_and_sites_that_cannot_be_read_are_answered() {
    let folder = demo();
    let wrong = folder.run(&["check", "demo/site.toml", "--door", "back"]);
    assert_eq!(wrong.status, 2);
    let known = "the site has no entrance \"back\"; it has front-A, front-B, gate, bins";
    assert!(wrong.err.contains(known), "{}", wrong.err);
    let wrong = folder.run(&["check", "demo/site.toml", "--supply", "front-A"]);
    assert!(wrong.status == 2 && wrong.err.contains("it has A-PS, B-PS"), "{}", wrong.err);
    let both = folder.run(&["check", "demo/site.toml", "--door", "gate", "--format", "sarif"]);
    assert_eq!(both.status, 2);
    folder.write("empty.toml", "");
    let empty = folder.run(&["check", "empty.toml", "--door", "gate"]);
    assert_eq!(empty.status, 2);
    assert!(!empty.out.is_empty(), "the report says why");
}

/// One door for every kind of lock, feed and suppressor.
const EVERY_LOCK: &str = include_str!("../../drawing/src/wiring/every_lock.toml");

/// In every country, for every kind of lock: a sheet as text and as JSON, every figure with the formula it is from and
/// the source of each of its inputs, and no word of a certificate but that it is none.
#[test]
fn every_figure_of_every_door_says_where_it_is_from() {
    let folder = Folder::new();
    let doors =
        ["strike-dc", "strike-ac", "strike-safe", "magnet", "magnet-strong", "motor", "gate", "two", "bus"];
    for country in ["GB", "US", "IT", "DE", "FR", "CH", "NO", "DK", "ES", "AU", "JP"] {
        folder.write("site.toml", EVERY_LOCK.replace("\"GB\"", &format!("\"{country}\"")));
        // One country shows all locks, the others what differs by country.
        let doors = if country == "GB" { &doors[..] } else { &doors[2..3] };
        for door in doors {
            let text = folder.run(&["check", "site.toml", "--door", door]).out;
            let rest = text.replace("not a certificate", "");
            for word in ["certif", "complian", "complies", "approved for"] {
                assert!(!rest.to_lowercase().contains(word), "{door}: {word}: {text}");
            }
            let json = folder.run(&["check", "site.toml", "--door", door, "--format", "json"]).out;
            let sheet: serde_json::Value = serde_json::from_str(&json).unwrap();
            assert!(sheet["height_range"]["source"].as_str().is_some_and(|source| !source.is_empty()));
            let mut lines = Vec::new();
            lines_of(&sheet, &mut lines);
            assert!(*door == "gate" || lines.len() >= 5, "{door}: {json}");
            for line in lines {
                for key in ["formula", "source", "quantity"] {
                    assert!(line[key].as_str().is_some_and(|text| !text.is_empty()), "{door}: {line}");
                }
                let inputs = line["inputs"].as_array().unwrap();
                assert!(!inputs.is_empty(), "{door}: {line}");
                for input in inputs {
                    assert!(input["source"].as_str().is_some_and(|text| !text.is_empty()), "{door}: {line}");
                }
            }
            for part in sheet["standby_load"]["parts"].as_array().unwrap() {
                assert!(part["source"].as_str().is_some_and(|text| !text.is_empty()), "{door}: {part}");
            }
        }
    }
}

/// Every calculation line of a document, wherever it stands.
fn lines_of<'v>(value: &'v serde_json::Value, lines: &mut Vec<&'v serde_json::Value>) {
    match value {
        serde_json::Value::Array(items) => items.iter().for_each(|item| lines_of(item, lines)),
        serde_json::Value::Object(fields) if fields.contains_key("formula") => lines.push(value),
        serde_json::Value::Object(fields) => fields.values().for_each(|field| lines_of(field, lines)),
        _ => {}
    }
}

/// A place that is outdoors already is not said to be so twice, alternating current has no plus, and a feed that is too low
/// at the lock's own terminals asks for no cable of 0 ohm.
#[test]
fn sheets_say_what_a_person_would() {
    let folder = Folder::new();
    folder.write("site.toml", EVERY_LOCK);
    let sheet = |door: &str| folder.run(&["check", "site.toml", "--door", door]).out;
    assert!(sheet("gate").contains("Place       outdoors\n"), "{}", sheet("gate"));
    assert!(sheet("strike-ac").contains("feed ~ -> relay common"), "{}", sheet("strike-ac"));
    assert!(!sheet("magnet-strong").contains("at most 0 ohm"), "{}", sheet("magnet-strong"));
}
