//! Whether the old cable can stay: one command, yes or no first, and why.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests may read and write files, and fail"
)]

use crate::common::{Folder, Ran};
use serde_json::Value;

/// The starter with its first chain marked as old, as it is `measured`.
fn starter(measured: &str) -> Folder {
    let folder = Folder::with_starter();
    let run = "first = \"8 m\", spacing = \"6 m\" }";
    folder.edit(
        "site.toml",
        run,
        &format!("first = \"8 m\", spacing = \"6 m\", existing = true{measured} }}"),
    );
    folder
}

fn ask(folder: &Folder) -> (Ran, String) {
    let ran = folder.run(&["ask", "old-cable", "site.toml"]);
    let said = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    (ran, said)
}

fn json(folder: &Folder) -> Value {
    let ran = folder.run(&["ask", "old-cable", "site.toml", "--format", "json"]);
    serde_json::from_str(&ran.out).unwrap_or_else(|_| panic!("{}{}", ran.out, ran.err))
}

/// 20 m of 0.8 mm copper, there and back, at 20 °C: 40 m x 17.241 mohm mm²/m (IEC 60028) / 0.50265 mm² = 1.372 ohm, and twelve terminals of
/// 10 mohm, four for each of three sections: 1.492 ohm.
const DUE_OHM: f64 = 1.492;

#[test]
fn yes_where_it_was_measured_and_nothing_stands_against_it() {
    let folder = starter(", measured = { loop = \"1.5 ohm\", insulation = \"20 Mohm\" }");
    let (ran, said) = ask(&folder);
    assert!(ran.status == 0 && said.starts_with("Yes, the old cable can stay (flats-1): "), "{said}");
    let document = json(&folder);
    let run = &document["runs"][0];
    assert_eq!((&document["works"], &run["verdict"]), (&Value::Bool(true), &Value::from("can-stay")));
    assert!((run["loop_expected_ohm"].as_f64().unwrap() - DUE_OHM).abs() < 0.01, "{run}");
    assert!((run["cross_section_mm2"].as_f64().unwrap() - 0.503).abs() < 1e-3, "{run}");
    assert!(run["signal"]["loss_db"].as_f64() <= run["signal"]["budget_db"].as_f64(), "{run}");
    // The check says the same of it.
    let check = folder.run(&["check", "site.toml", "--format", "json"]).out;
    let check: Value = serde_json::from_str(&check).unwrap();
    let runs = check["runs"].as_array().unwrap();
    assert_eq!(runs.iter().find(|run| run["id"] == "flats-1").unwrap()["existing"], "can-stay");
}

#[test]
fn it_cannot_be_said_before_loop_and_insulation_are_measured() {
    for (measured, lacks) in [
        ("", "Loop not measured on flats-1. Insulation not measured on flats-1. Measure"),
        (
            ", measured = { loop = \"1.5 ohm\" }",
            "the cable can stay. Insulation not measured on flats-1. Measure",
        ),
    ] {
        let (ran, said) = ask(&starter(measured));
        assert!(ran.status == 1 && said.starts_with("Measure first: loop and insulation of flats-1 "));
        assert!(said.contains(lacks), "{said}");
    }
    let (ran, said) = ask(&Folder::with_starter());
    assert!(ran.status == 1 && said.starts_with("That cannot be said: no run"), "{said}");
    assert!(said.contains("existing = true"), "{said}");
}

#[test]
fn no_where_an_error_stands_against_the_cable_or_what_is_behind_it() {
    let damp = starter(", measured = { loop = \"1.5 ohm\", insulation = \"0.2 Mohm\" }");
    let (ran, said) = ask(&damp);
    assert!(
        ran.status == 1 && said.starts_with("No, the old cable cannot stay as it is on flats-1: "),
        "{said}"
    );
    assert_eq!(json(&damp)["runs"][0]["codes"], serde_json::json!(["insulation-too-low"]));
    // A thin feed shows at the ends of the runs behind it.
    let folder = Folder::with_starter();
    folder.edit(
        "site.toml",
        "cable = \"flex-1.5\", length = \"1.5 m\"",
        "cable = \"alarm-0.22\", length = \"190 m\", existing = true",
    );
    let (ran, said) = ask(&folder);
    assert!(
        ran.status == 1 && said.starts_with("No, the old cable cannot stay as it is on feed: "),
        "{said}"
    );
    let codes = json(&folder)["runs"][0]["codes"].clone();
    let codes: Vec<&str> = codes.as_array().unwrap().iter().map(|code| code.as_str().unwrap()).collect();
    assert!(codes.contains(&"voltage-too-low") || codes.contains(&"no-operating-point"), "{codes:?}");
}

/// A lock that gets too little is no matter of the cable to the door; it is told all the same.
#[test]
fn what_does_not_concern_the_cable_is_told_apart() {
    let folder = starter(", measured = { loop = \"1.5 ohm\", insulation = \"20 Mohm\" }");
    folder.edit("site.toml", "length = \"6 m\", hold_time", "length = \"160 m\", hold_time");
    let (ran, said) = ask(&folder);
    assert!(ran.status == 0 && said.starts_with("Yes, the old cable can stay (flats-1)"), "{said}");
    assert!(said.contains("The site has 1 error that does not concern old cable"), "{said}");
    assert_eq!(json(&folder)["other_errors"], 1);
}

/// Three times what the cable has is a fault or another cable: it does not stay before that is known, though the bus would bear it.
#[test]
fn what_reads_otherwise_is_looked_into_first() {
    let (ran, said) = ask(&starter(", measured = { loop = \"4.5 ohm\", insulation = \"20 Mohm\" }"));
    assert!(ran.status == 1 && said.starts_with("Not before this is looked into, on flats-1: "), "{said}");
    assert!(said.contains("look first"), "{said}");
    // The check says the same of it.
    let page = starter(", measured = { loop = \"4.5 ohm\", insulation = \"20 Mohm\" }")
        .run(&["check", "site.toml"])
        .out;
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(page.contains("reads otherwise than stated, to be looked into first: flats-1"), "{page}");
}
