//! `latchline addresses` for one device, and for what did not answer.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    reason = "tests may read and write files, and fail"
)]

use crate::common::Folder;
use serde_json::Value;

#[test]
fn one_station_with_its_switches_run_and_readings() {
    let folder = Folder::with_starter();
    let ran = folder.run(&["addresses", "site.toml", "A-6:2"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    // A-6 is dwelling 6, whose second station is number 2 in a family whose main station is 1.
    assert!(
        ran.out.starts_with("A-6:2 (ostrel-v4), indoor, building 0, dwelling 6, extension 2:"),
        "{}",
        ran.out
    );
    assert!(ran.out.contains("[6]") && ran.out.contains("[0]"), "{}", ran.out);
    assert!(ran.out.contains("number 4 of 4 on run flats-2 from D1.2"), "{}", ran.out);
    assert!(ran.out.contains("the cable comes from A-6"), "{}", ran.out);
    assert!(ran.out.contains("At its terminals in standby: 4"), "{}", ran.out);
    let json = folder.run(&["addresses", "site.toml", "A-6:2", "--format", "json"]).out;
    let document: Value = serde_json::from_str(&json).unwrap();
    let device = &document[0];
    assert_eq!(device["run"], "flats-2");
    assert_eq!(device["from"], "D1.2");
    assert_eq!(device["ordinal_on_run"], 4);
    let (lowest, nominal, highest) = (
        device["standby_v"]["lowest"].as_f64().unwrap(),
        device["standby_v"]["nominal"].as_f64().unwrap(),
        device["standby_v"]["highest"].as_f64().unwrap(),
    );
    assert!(lowest < nominal && nominal < highest && lowest > 40.0, "{device}");
    // 31.5 m of 0.8 mm: 0.50265 mm² at 17.241 ohm mm²/km is 34.3 ohm/km a leg, 2.16 ohm the loop, and some milliohms of joints.
    let loop_ohm = device["run_loop_ohm"]["nominal"].as_f64().unwrap();
    assert!((2.1..2.5).contains(&loop_ohm), "{loop_ohm}");
    let wrong = folder.run(&["addresses", "site.toml", "A-9"]);
    assert_eq!(wrong.status, 2);
    assert!(wrong.err.contains("did you mean"), "{}", wrong.err);
}

/// 27A and 27B have one number in their names: the first keeps it, and what the second got is told and asked about.
#[test]
fn numbers_that_names_do_not_give_are_told() {
    let folder = Folder::with_starter();
    folder.edit("site.toml", "A-5 = {", "27A = {");
    folder.edit("site.toml", "A-6 = {", "27B = {");
    let text = folder.read("site.toml").replace("\"A-5\", \"A-6\", \"A-6:2\"", "\"27A\", \"27B\", \"27B:2\"");
    folder.write("site.toml", text);
    let out = folder.run(&["addresses", "site.toml"]).out;
    assert!(out.contains("27B has 5: 27 is 27A's"), "{out}");
    assert!(out.contains("state `number`"), "{out}");
    let json = folder.run(&["addresses", "site.toml", "--format", "json"]).out;
    let document: Value = serde_json::from_str(&json).unwrap();
    assert_eq!(document["chosen"][0]["dwelling"], "27B");
    assert_eq!(document["chosen"][0]["taken_by"], "27A");
    // Stated, it is nobody's guess any more.
    folder.edit("site.toml", "27B = {", "27B = { number = 28,");
    assert!(!folder.run(&["addresses", "site.toml"]).out.contains("27 is 27A's"));
}

fn absences(folder: &Folder, found: &str) -> Vec<Value> {
    folder.write("found.txt", found);
    let ran = folder.run(&["addresses", "site.toml", "--found", "found.txt", "--format", "json"]);
    let document: Value = serde_json::from_str(&ran.out).unwrap_or_else(|_| panic!("{}{}", ran.out, ran.err));
    document["absences"].as_array().unwrap().clone()
}

#[test]
fn missing_stations_are_grouped_by_what_explains_them() {
    let folder = Folder::with_starter();
    // All of flats-1.
    let all = absences(&folder, "door 0/0\nindoor 0/4/1\nindoor 0/5/1\nindoor 0/6/1\nindoor 0/6/2\n");
    assert_eq!(all.len(), 1, "{all:?}");
    assert_eq!(all[0]["cause"], "whole-run");
    assert_eq!(all[0]["run"], "flats-1");
    assert_eq!(all[0]["stations"].as_array().unwrap().len(), 3);
    assert_eq!(all[0]["stations"][0]["place"], "A / G");
    let text = folder.run(&["addresses", "site.toml", "--found", "found.txt"]).out;
    assert!(text.contains("A-1, A-2, A-3: all of run flats-1. Look first at D1.1"), "{text}");
    // From A-5 on, flats-2.
    let tail = absences(&folder, "door 0/0\nindoor 0/1/1\nindoor 0/2/1\nindoor 0/3/1\nindoor 0/4/1\n");
    assert_eq!(tail.len(), 1, "{tail:?}");
    assert_eq!(tail[0]["cause"], "run-from");
    assert_eq!(tail[0]["last_that_answers"], "A-4");
    // One in the middle, and one that answers to another number: the rotary switches of A-2 exchanged.
    let two = absences(
        &folder,
        "door 0/0\nindoor 0/1/1\nindoor 0/20/1\nindoor 0/3/1\nindoor 0/4/1\nindoor 0/6/1\nindoor 0/6/2\n",
    );
    let causes: Vec<&str> = two.iter().map(|one| one["cause"].as_str().unwrap()).collect();
    assert_eq!(causes, ["alone", "set-wrong"], "{two:?}");
}
