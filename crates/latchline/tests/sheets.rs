//! The sheets of doors and supplies, by the whole program.
#![allow(clippy::disallowed_methods, reason = "tests may read and write files")]

mod common;

use common::Folder;

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
    assert!(dry.out.contains("drive's input -> relay common, normally open -> drive's input"), "{}", dry.out);
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
    for word in ["Battery", "Standby hours", "holds", "Recharge hours", "Mains current", "Heat"] {
        assert!(with.out.contains(word), "{word}: {}", with.out);
    }
    let without = folder.run(&["check", "demo/site.toml", "--supply", "B-PS"]);
    assert_eq!(without.status, 0);
    assert!(without.out.contains("everything stops with the mains"), "{}", without.out);
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
    assert!(sheet.out.contains("needs at least 10.8 V: does not hold"), "{}", sheet.out);
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
