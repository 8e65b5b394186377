//! Answers that have misled people who had nothing but the documents: what they say now, and in which state it holds.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests may read and write files, and fail"
)]

use crate::common::Folder;
use serde_json::Value;

fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn demo() -> Folder {
    let folder = Folder::new();
    assert_eq!(folder.run(&["new", "--demo", "demo"]).status, 0);
    folder
}

/// A station that two calls at once leave too little and one call does not: the design is said to be the reason with two, the reading is
/// proposed with two, nobody is told to swap the station, and the reading with one call is said to decide nothing.
#[test]
fn a_design_that_fails_with_two_calls_is_not_judged_by_one() {
    let folder = demo();
    // With a supply that bears two calls, what a meter shows then can be foretold.
    folder.edit("demo/faulty.toml", "\"ostrel-ps-60\"", "\"ostrel-ps-120\"");
    let ran = folder.run(&["locate", "demo/faulty.toml", "A-44=restarts"]);
    let said = words(&ran.out);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let check = folder.run(&["check", "demo/faulty.toml", "--format", "json"]).out;
    let check: Value = serde_json::from_str(&check).unwrap();
    let device = check["devices"].as_array().unwrap().iter().find(|one| one["id"] == "A-44").unwrap();
    // Two calls, as the check has them, and its figure rounded down.
    let worst = &device["worst"];
    assert_eq!(worst["calls"].as_array().unwrap().len(), 2, "{worst}");
    let volts = (worst["adverse_v"].as_f64().unwrap() * 100.0).floor() / 100.0;
    for told in [
        &*format!("The site as drawn is reason enough: A-44 has {volts} V with 2 calls at once ("),
        "It does not show with one call (front-A rings A-44) and nothing else: there it keeps",
        "Measure first: voltage at A-44, with 2 calls at once (",
        "do not swap it",
        "If that cannot be put: voltage at A-44, with one call (front-A rings A-44) and nothing else.",
        "What mends it: latchline check demo/faulty.toml.",
    ] {
        assert!(said.contains(told), "{told}: {said}");
    }
    assert!(!said.contains("Swap it with a neighbour's"), "{said}");
    // The state can be written back as it is printed, and is the one that is meant.
    let item = said.split("latchline locate demo/faulty.toml ").nth(1).unwrap().split(' ').next().unwrap();
    assert!(item.starts_with("A-44@ringing:") && item.contains('+'), "{item}");
    let again = folder.run(&["locate", "demo/faulty.toml", item]);
    assert_eq!(again.status, 0, "{item}: {}", again.err);
    let json = folder.run(&["locate", "demo/faulty.toml", "A-44=restarts", "--format", "json"]).out;
    let json: Value = serde_json::from_str(&json).unwrap();
    let drawn = &json["as_drawn"][0];
    assert_eq!(format!("A-44@{}=37V,least-held", drawn["reading"]["state"].as_str().unwrap()), item);
    let (plain, limit) = (drawn["plain_voltage_v"].as_f64().unwrap(), drawn["limit_v"].as_f64().unwrap());
    assert!(plain >= limit && drawn["voltage_v"].as_f64().unwrap() < limit, "{drawn}");
    // More calls than the site lets stand, and one party in two of them, are no state.
    for state in
        ["ringing:A-45/gate+ringing:A-44/gate", "ringing:A-45/gate+ringing:A-44/lodge+ringing:A-01/front-A"]
    {
        let ran = folder.run(&["locate", "demo/faulty.toml", &format!("A-45@{state}=33V")]);
        assert!(ran.status == 2 && ran.err.contains("cannot occur at A-45"), "{state}: {}", ran.err);
    }
}

/// Behind a supply that is at its limit with two calls no figure can be foretold: the reading is one with one call, and says nothing against
/// the station.
#[test]
fn a_reading_that_cannot_be_foretold_is_not_proposed() {
    let folder = demo();
    for station in ["A-44", "A-45"] {
        let said = words(&folder.run(&["locate", "demo/faulty.toml", &format!("{station}=restarts")]).out);
        let alone = format!(
            "Measure first: voltage at {station}, with one call (front-A rings {station}) and nothing else"
        );
        assert!(said.contains(&alone), "{said}");
        // With every tolerance against it one call alone may do.
        let falls_short = "as drawn, and nothing against the station: the design falls short with 2 calls";
        let is_the_reason = "the design is the reason and not the station: do not swap it";
        assert!(said.contains(falls_short) || said.contains(is_the_reason), "{said}");
        assert!(!said.contains("Swap it with a neighbour's"), "{said}");
    }
}

/// Three stations on 570 m of 0.22 mm² beside a good old chain: 2 x 570 m x 17.241 mohm mm²/m (IEC 60028) / 0.22 mm² are 89 ohm, over which
/// 48 V give at most 48² / (4 x 89) = 6.4 W, less than three stations that start together.
#[test]
fn a_good_old_cable_is_not_blamed_for_its_neighbour() {
    let folder = Folder::with_starter();
    let run = "first = \"8 m\", spacing = \"6 m\" }";
    let measured = "first = \"8 m\", spacing = \"6 m\", existing = true, measured = { loop = \"1.5 ohm\", insulation = \"20 Mohm\" } }";
    folder.edit("site.toml", run, measured);
    folder.edit(
        "site.toml",
        "lengths = [\"14 m\", \"6 m\", \"7.5 m\", \"4 m\"] }",
        "cable = \"alarm-0.22\", lengths = [\"190 m\", \"190 m\", \"190 m\", \"4 m\"] }",
    );
    let check = folder.run(&["check", "site.toml", "--format", "json"]).out;
    let check: Value = serde_json::from_str(&check).unwrap();
    let codes: Vec<&str> =
        check["findings"].as_array().unwrap().iter().map(|one| one["code"].as_str().unwrap()).collect();
    assert!(codes.contains(&"no-operating-point"), "{codes:?}");
    let ran = folder.run(&["ask", "old-cable", "site.toml"]);
    let said = words(&ran.out);
    let first = "First the bus: all of PS collapses, because flats-2 cannot carry the load. As if that were mended: Yes, the old cable can stay (flats-1)";
    assert!(said.starts_with(first), "{said}");
    let json: Value =
        serde_json::from_str(&folder.run(&["ask", "old-cable", "site.toml", "--format", "json"]).out)
            .unwrap();
    assert_eq!(json["runs"][0]["verdict"], "can-stay", "{json}");
    assert_eq!(json["runs"][0]["apart_from"], serde_json::json!(["flats-2"]), "{json}");
    // The check says the same of it.
    let runs = check["runs"].as_array().unwrap();
    assert_eq!(runs.iter().find(|run| run["id"] == "flats-1").unwrap()["existing"], "can-stay");
    // The run that it comes of cannot stay, old as it may be.
    folder.edit("site.toml", "\"190 m\", \"4 m\"] }", "\"190 m\", \"4 m\"], existing = true }");
    let said = words(&folder.run(&["ask", "old-cable", "site.toml"]).out);
    assert!(
        said.contains("As if that were mended: No, the old cable cannot stay as it is on flats-2: "),
        "{said}"
    );
    assert!(said.contains("It can stay on flats-1."), "{said}");
}

/// Each kind of what stands against a run is said once, voltage before reading.
#[test]
fn each_kind_against_an_old_cable_is_said_once() {
    let folder = Folder::with_starter();
    folder.edit(
        "site.toml",
        "cable = \"flex-1.5\", length = \"1.5 m\"",
        "cable = \"alarm-0.22\", length = \"190 m\", existing = true, measured = { loop = \"60 ohm\", insulation = \"0.2 Mohm\" }",
    );
    let said = words(&folder.run(&["ask", "old-cable", "site.toml"]).out);
    let line = said.split("feed: ").nth(2).unwrap_or_else(|| panic!("{said}"));
    let (voltage, reading) =
        (line.find("collapses").or(line.find("and needs")), line.find("insulation of run feed"));
    assert!(voltage.is_some() && voltage < reading, "{line}");
    assert_eq!(line.matches("collapses").count() + line.matches("and needs").count(), 1, "{line}");
}

/// Without a model it says how long the lightest last too, as if that one were asked for by name.
#[test]
fn a_battery_without_a_model_is_told_for_the_lightest_too() {
    let folder = Folder::new();
    for (count, hours) in [("12", "8"), ("30", "8"), ("12", "200")] {
        let out = words(&folder.run(&["ask", "battery", count, "--hours", hours]).out);
        let json = folder.run(&["ask", "battery", count, "--hours", hours, "--format", "json"]).out;
        let json: Value = serde_json::from_str(&json).unwrap();
        let light = &json["lightest"];
        let model = light["station"].as_str().unwrap_or_else(|| panic!("{json}"));
        assert!(out.contains(&format!("{count} {model}, the lightest, ")), "{out}");
        let named = ["ask", "battery", count, "--hours", hours, "--station", model, "--format", "json"];
        let named: Value = serde_json::from_str(&folder.run(&named).out).unwrap();
        assert_eq!(named["battery"], light["battery"]);
        assert!(named["lightest"].is_null());
    }
}

/// Whatever nobody said is hedged in the sentence, with how to say it; what was said is not.
#[test]
fn all_that_is_assumed_of_switches_is_hedged() {
    let folder = Folder::new();
    let said = |asked: &[&str]| words(&folder.run(&[&["ask", "switches"], asked].concat()).out);
    assert!(
        said(&["F-7"]).starts_with(
            "If 7 is the number of F-7 (in a site file: latchline addresses SITE F-7), the building is 0 (else --building N) and its main station is meant (the second: F-7:2), indoor station of"
        ),
        "{}",
        said(&["F-7"])
    );
    assert!(
        said(&["7"]).starts_with("If the building is 0 (else --building N) and its main station is meant"),
        "{}",
        said(&["7"])
    );
    assert!(
        said(&["7:1", "--building", "3"]).starts_with("Indoor station of "),
        "{}",
        said(&["7:1", "--building", "3"])
    );
    let german = said(&["F-7", "--language", "de"]);
    assert!(
        german.contains("es Gebäude 0 ist (sonst --building N) und die Hauptstation gemeint ist"),
        "{german}"
    );
}

/// A slip is answered with what is meant.
#[test]
fn slips_are_answered_with_what_is_meant() {
    let folder = Folder::with_starter();
    for (asked, told) in [
        (&["reach", "--total", "60", "--cable", "bel wire"][..], "did you mean \"bell wire\" (pair-0.5)?"),
        (&["explain", "wifi", "does", "not", "work"], "symptoms: "),
        (&["explain", "foobar"], "Or symptoms: "),
        (&["locate", "site.toml", "A-6=confused"], "restarts"),
        (
            &["locate", "site.toml", "@ringing=37V"],
            "\"ringing\" is a state, not a place: write where the meter was before it, for example A-12@ringing=37V",
        ),
        (&["locate", "site.toml", "ringing=37V"], "is a state, not a place"),
    ] {
        let ran = folder.run(asked);
        assert!(ran.status == 2 && words(&ran.err).contains(told), "{asked:?}: {}", ran.err);
    }
    // 14 dwellings at 4 on a floor fill four floors, and the house has three: 12 fit, or 5 on a floor.
    folder.edit(
        "site.toml",
        "A-1 = { place = \"A/G\" }",
        "\"B-1..B-14\" = { place = \"A/G\", per_floor = 4 }\nA-1 = { place = \"A/G\" }",
    );
    let said = words(&folder.run(&["check", "site.toml"]).out);
    assert!(
        said.contains("14 dwellings at 4 on a floor fill 4 floors, and from G up the building has 3: at most 12 dwellings fit, or per_floor = 5"),
        "{said}"
    );
}
