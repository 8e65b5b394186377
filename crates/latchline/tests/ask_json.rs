//! Every question of the telephone as JSON: the sentences of the text, and the figures that stand in them.
#![allow(clippy::unwrap_used, reason = "tests may fail")]

use crate::common::Folder;
use serde_json::{Value, json};

/// The JSON of a question and its text on one line, which must say the same and end alike.
fn both(folder: &Folder, question: &[&str]) -> (Value, String) {
    let text = folder.run(question);
    let ran = folder.run(&[question, &["--format", "json"]].concat());
    assert_eq!(text.status, ran.status, "{question:?}: {}{}", text.err, ran.err);
    let json: Value = serde_json::from_str(&ran.out).unwrap_or_else(|_| panic!("{}{}", ran.out, ran.err));
    assert_eq!(json["works"], text.status == 0, "{json}");
    let line = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let (said, text) = (json["says"].as_array().unwrap(), line(&text.out));
    let mut rest = text.as_str();
    for sentence in said {
        let sentence = line(sentence.as_str().unwrap());
        rest = rest
            .strip_prefix(&*sentence)
            .unwrap_or_else(|| panic!("{sentence:?} is not at {rest:?}"))
            .trim_start();
    }
    (json, text)
}

/// A figure as people are told it: on the unsafe side, in so many decimals.
fn rounded(value: &Value, decimals: i32, up: bool) -> String {
    let scale = 10_f64.powi(decimals);
    let scaled = value.as_f64().unwrap() * scale;
    let whole = if up { (scaled - 1e-9).ceil() } else { (scaled + 1e-9).floor() };
    format!("{:.*}", decimals as usize, whole / scale)
}

#[test]
fn stations_on_a_run() {
    let (json, text) = both(&Folder::new(), &["reach", "--total", "60", "--cable", "bell wire"]);
    let carried = json["carried"].as_array().unwrap();
    assert!(
        carried.len() == 2 && carried[0]["stations"].as_u64() <= carried[1]["stations"].as_u64(),
        "{json}"
    );
    let first = format!(
        "{} {} work on {} m of {} ",
        carried[0]["stations"], json["station"], json["total_m"], json["cable"]
    );
    assert!(text.starts_with(&first.replace('"', "").replace(".0 m", " m")), "{first}: {text}");
    assert!(text.contains(&format!("{}: {}.", "on mains", carried[1]["stations"])), "{text}");
    assert!(text.contains(&format!("has {} V more", rounded(&carried[0]["margin_v"], 2, false))), "{text}");
    let lightest = &json["lightest"];
    let said =
        format!("of {}, the lightest, {} work", lightest["station"].as_str().unwrap(), lightest["stations"]);
    assert!(text.contains(&said), "{said}: {text}");
}

#[test]
fn a_locks_cable() {
    let folder = Folder::new();
    let (json, text) = both(&folder, &["ask", "lock", "strike-12", "--length", "35"]);
    let best = &json["cables"][0];
    assert!(best["works"] == true && best["least_v"].as_f64() >= best["needs_v"].as_f64(), "{json}");
    let (has, needs) = (rounded(&best["least_v"], 2, false), rounded(&best["needs_v"], 1, true));
    assert!(text.contains(&format!("it then has {has} V and needs {needs} V")), "{text}");
    for cable in json["cables"].as_array().unwrap() {
        assert_eq!(cable["works"], cable["longest_m"].as_f64().unwrap() >= 35.0, "{cable}");
        let row = format!(
            "{} {} V at the lock",
            cable["cable"].as_str().unwrap(),
            rounded(&cable["least_v"], 2, false)
        );
        assert!(text.contains(&row), "{row}: {text}");
    }
    let (json, text) = both(&folder, &["ask", "lock", "strike-12", "--length", "35", "--cable", "bell wire"]);
    assert!(json["works"] == false && json["cables"].as_array().unwrap().len() == 1, "{json}");
    assert!(
        text.contains(&format!("works up to {} m", json["cables"][0]["longest_m"].as_f64().unwrap())),
        "{text}"
    );
    // What else helps stands as figures too: two pairs, and a supply of the lock's own.
    let (json, _) = both(&folder, &["ask", "lock", "strike-12", "--length", "5", "--cable", "pair-0.8"]);
    let beyond = format!("{}", json["cables"][0]["longest_m"].as_f64().unwrap() + 4.0);
    let (json, text) =
        both(&folder, &["ask", "lock", "strike-12", "--length", &beyond, "--cable", "pair-0.8"]);
    let cable = &json["cables"][0];
    assert!(cable["works"] == false && cable["suits"] == true && json["outdoors"] == false, "{json}");
    let doubled = cable["longest_doubled_m"].as_f64().unwrap();
    assert!(
        doubled >= beyond.parse().unwrap()
            && text.contains(&format!("in parallel reach {doubled} m: write pairs = 2")),
        "{text}"
    );
    let own = &cable["own_supply"];
    assert!(own["least_v"].as_f64() >= cable["needs_v"].as_f64(), "{json}");
    let said =
        format!("a supply of the lock's own at {} V, {} %", own["voltage_v"], own["tolerance_percent"]);
    assert!(text.contains(&said.replace(".0 ", " ")), "{said}: {text}");
    let (json, _) = both(&folder, &["ask", "lock", "gate-contact", "--length", "5"]);
    assert_eq!(json["cables"].as_array().unwrap().len(), 0, "{json}");
}

#[test]
fn old_cable() {
    let folder = Folder::new();
    assert_eq!(folder.run(&["new", "--demo", "demo"]).status, 0);
    for (site, can_stay) in [("demo/site.toml", true), ("demo/faulty.toml", false)] {
        let (json, text) = both(&folder, &["ask", "old-cable", site]);
        assert_eq!(json["works"], can_stay, "{json}");
        for run in json["runs"].as_array().unwrap() {
            assert!(text.contains(run["run"].as_str().unwrap()), "{run}: {text}");
            assert!(text.contains(&format!("{:.2}", run["loop_ohm"].as_f64().unwrap())), "{run}: {text}");
        }
    }
}

#[test]
fn hours_of_a_battery() {
    let folder = Folder::new();
    let (json, text) = both(&folder, &["ask", "battery", "14", "--hours", "10"]);
    let battery = &json["battery"];
    assert!(battery["hours"].as_f64().unwrap() >= 10.0 && json["wanted_hours"] == 10.0, "{json}");
    for part in [
        format!(
            "for {} h with its heater on and {} h without, in standby",
            rounded(&battery["hours_with_heater"], 1, false),
            rounded(&battery["hours"], 1, false)
        ),
        format!(
            "({} batteries, {} Ah in all)",
            battery["batteries"],
            battery["capacity_ah"].as_f64().unwrap()
        ),
        format!(
            "gives {} A with the heater on and {} A without",
            rounded(&battery["current_with_heater_a"], 3, true),
            rounded(&battery["current_a"], 3, true)
        ),
    ] {
        assert!(text.contains(&part), "{part}: {text}");
    }
    // More than a supply may have are shared between two, and what one says of them stands beside.
    let (json, said) = both(&folder, &["ask", "battery", "24", "--hours", "8"]);
    let (battery, one) = (&json["battery"], &json["on_one_supply"]);
    assert_eq!(one["broken"], json!(["supply-count-exceeded"]), "{json}");
    let current = rounded(&one["largest_current_a"], 3, true);
    assert!(said.contains(&format!("largest current {current} A of {} A", one["rated_a"])), "{said}");
    assert_eq!((&battery["supplies"], &battery["stations_on_each"]), (&json!(2), &json!(12)), "{json}");
    assert!(battery["broken"].as_array().unwrap().is_empty() && json["works"] == true, "{json}");
    let (json, _) = both(&folder, &["ask", "battery", "12", "--hours", "8"]);
    assert!(json["battery"]["broken"].as_array().unwrap().is_empty() && json["works"] == true, "{json}");
    let (json, _) = both(&folder, &["ask", "battery", "24", "--supply", "ostrel-ps-120"]);
    assert!(json["battery"].is_null(), "{json}");
}

#[test]
fn a_mix_on_a_supply() {
    let folder = Folder::new();
    let (json, text) = both(&folder, &["ask", "mix", "ostrel-v4=12", "ostrel-v7=6"]);
    for supply in json["supplies"].as_array().unwrap() {
        let figures = format!(
            "For {}, the shares of the data sheet's counts add up to {}, 1 being full (common practice), the largest current is {} A of {} A.",
            supply["supply"].as_str().unwrap(),
            rounded(&supply["shares"], 2, true),
            rounded(&supply["current_a"], 3, true),
            supply["rated_a"].as_f64().unwrap()
        );
        assert!(text.contains(&figures), "{figures}: {text}");
    }
    let (json, _) = both(&folder, &["ask", "mix", "ostrel-v7=40"]);
    assert!(json["supplies"][0]["works"] == false && json["supplies"][0]["limit"].is_string(), "{json}");
}

#[test]
fn switches_of_a_number() {
    let folder = Folder::new();
    let (json, text) = both(&folder, &["ask", "switches", "27", "--extension", "2"]);
    let dwelling =
        json["fields"].as_array().unwrap().iter().find(|field| field["field"] == "dwelling").unwrap();
    assert_eq!(
        (&dwelling["number"], &dwelling["setting"]["at"]),
        (&Value::from(27), &json!([2, 7])),
        "{json}"
    );
    assert!(text.contains("tens units 2 7"), "{text}");
    let (json, text) = both(&folder, &["ask", "switches", "12345"]);
    let dwelling =
        json["fields"].as_array().unwrap().iter().find(|field| field["field"] == "dwelling").unwrap();
    assert!(dwelling["setting"].is_null(), "{json}");
    assert!(text.contains(&format!("from {} to {}", dwelling["lowest"], dwelling["highest"])), "{text}");
}

/// A number with a comma is a decimal in German, and asked about in English, where it may mean a thousand; so is a station named twice over.
#[test]
fn what_may_mean_two_things_is_asked_about() {
    let folder = Folder::new();
    let point = folder.run(&["ask", "lock", "strike-12", "--length", "6.5", "--language", "de"]);
    let comma = folder.run(&["ask", "lock", "strike-12", "--length", "6,5", "--language", "de"]);
    assert_eq!((comma.status, &comma.out), (0, &point.out), "{}", comma.err);
    assert!(comma.out.starts_with("strike-12 über 6,5 m aus ostrel-dv1"), "{}", comma.out);
    let total = folder.run(&["reach", "--total", "60,5 m", "--language", "de"]);
    assert!(total.status == 0 && total.out.contains(" an 60,5 m "), "{}{}", total.out, total.err);
    for asked in [
        &["ask", "lock", "strike-12", "--length", "6,5"][..],
        &["reach", "--total", "6,5"],
        &["ask", "battery", "12", "--hours", "6,5"],
    ] {
        let ran = folder.run(asked);
        assert_eq!((ran.status, &*ran.out), (2, ""), "{asked:?}");
        assert!(ran.err.contains("has a comma in its number: write 6.5"), "{asked:?}: {}", ran.err);
    }
    let twice = folder.run(&["ask", "switches", "27B:2", "--extension", "3"]);
    assert_eq!(twice.status, 2);
    assert!(
        twice.err.contains("The name says station 2 of the dwelling, and --extension 3"),
        "{}",
        twice.err
    );
    assert_eq!(folder.run(&["ask", "switches", "27B", "--extension", "2"]).status, 0);
}

/// A result goes to a file as every other does, and never over an input.
#[test]
fn an_answer_goes_to_a_file() {
    let folder = Folder::new();
    let asked = ["ask", "switches", "27", "--format", "json", "--output", "answer.json"];
    let ran = folder.run(&asked);
    assert_eq!((ran.status, ran.out.as_str()), (0, ""), "{}", ran.err);
    let document: Value = serde_json::from_str(&folder.read("answer.json")).unwrap();
    assert_eq!(document["question"], "switches");
}
