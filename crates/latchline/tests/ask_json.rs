//! Every question of the telephone as JSON: the sentences of the text, and the figures that stand in them.
#![allow(clippy::unwrap_used, reason = "tests may fail")]

use crate::common::Folder;
use serde_json::Value;

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
    assert!(text.contains(&format!("has {} V more", rounded(&carried[0]["margin_v"], 1, false))), "{text}");
}

#[test]
fn a_locks_cable() {
    let folder = Folder::new();
    let (json, text) = both(&folder, &["ask", "lock", "strike-12", "--length", "35"]);
    let best = &json["cables"][0];
    assert!(best["works"] == true && best["least_v"].as_f64() >= best["needs_v"].as_f64(), "{json}");
    let (has, needs) = (rounded(&best["least_v"], 1, false), rounded(&best["needs_v"], 1, true));
    assert!(text.contains(&format!("it then has {has} V and needs {needs} V")), "{text}");
    for cable in json["cables"].as_array().unwrap() {
        assert_eq!(cable["works"], cable["longest_m"].as_f64().unwrap() >= 35.0, "{cable}");
        let row = format!(
            "{} {} V at the lock",
            cable["cable"].as_str().unwrap(),
            rounded(&cable["least_v"], 1, false)
        );
        assert!(text.contains(&row), "{row}: {text}");
    }
    let (json, text) = both(&folder, &["ask", "lock", "strike-12", "--length", "35", "--cable", "bell wire"]);
    assert!(json["works"] == false && json["cables"].as_array().unwrap().len() == 1, "{json}");
    assert!(
        text.contains(&format!("works up to {} m", json["cables"][0]["longest_m"].as_f64().unwrap())),
        "{text}"
    );
    let (json, _) = both(&folder, &["ask", "lock", "gate-contact", "--length", "5"]);
    assert_eq!(json["cables"].as_array().unwrap().len(), 0, "{json}");
}

#[test]
fn hours_of_a_battery() {
    let folder = Folder::new();
    let (json, text) = both(&folder, &["ask", "battery", "24", "--hours", "8"]);
    let battery = &json["battery"];
    assert!(battery["hours"].as_f64().unwrap() >= 8.0 && json["wanted_hours"] == 8.0, "{json}");
    for part in [
        format!("run {} h in standby", rounded(&battery["hours"], 1, false)),
        format!(
            "({} batteries, {} Ah in all)",
            battery["batteries"],
            battery["capacity_ah"].as_f64().unwrap()
        ),
        format!("gives {} A", rounded(&battery["current_a"], 2, true)),
    ] {
        assert!(text.contains(&part), "{part}: {text}");
    }
    let (json, _) = both(&folder, &["ask", "battery", "24", "--supply", "ostrel-ps-120"]);
    assert!(json["battery"].is_null(), "{json}");
}

#[test]
fn a_mix_on_a_supply() {
    let folder = Folder::new();
    let (json, text) = both(&folder, &["ask", "mix", "ostrel-v4=12", "ostrel-v7=6"]);
    for supply in json["supplies"].as_array().unwrap() {
        let figures = format!(
            "{}: the shares of the data sheet's counts add up to {}, where 1 is full (common practice); the largest current is {} A of {} A.",
            supply["supply"].as_str().unwrap(),
            rounded(&supply["shares"], 2, true),
            rounded(&supply["current_a"], 2, true),
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
        (&Value::from(27), &serde_json::json!([2, 7])),
        "{json}"
    );
    assert!(text.contains("tens units 2 7"), "{text}");
    let (json, text) = both(&folder, &["ask", "switches", "12345"]);
    let dwelling =
        json["fields"].as_array().unwrap().iter().find(|field| field["field"] == "dwelling").unwrap();
    assert!(dwelling["setting"].is_null(), "{json}");
    assert!(text.contains(&format!("from {} to {}", dwelling["lowest"], dwelling["highest"])), "{text}");
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
