//! What one fault would hide: an error in another state.

use crate::common::{Folder, changed, json};
use serde_json::Value;
use std::collections::BTreeMap;

/// Three blocks on one supply with a battery: on mains the farthest block has too little, at the battery's end the bus collapses.
const BLOCKS: &str = r#"[site]
title = "Three blocks and a gate"
family = "ostrel-48"
indoor_station = "ostrel-v7"
door_station = "ostrel-dv1"
management_station = "ostrel-m1"
cable = "pair-0.8"
country = "DE"

[policy]
standby_hours = 2
calls_per_hour = 4
releases_at_once = 1

[buildings]
A = { title = "Block A", floors = ["G", "1", "2"] }
B = { title = "Block B", floors = ["G", "1", "2"] }
C = { title = "Block C", floors = ["G", "1", "2"] }

[supplies]
PA = { model = "ostrel-ps-120b", place = "A/G" }

[distributors]
DA = { model = "ostrel-d8t", place = "A/G" }
DB = { model = "ostrel-d4", place = "B/G" }
DC = { model = "ostrel-d4", place = "C/G" }

[entrances]
gate = { role = "main", place = "outdoors", outdoors = true, lock = { model = "gate-contact" }, heater = true }
doorA = { role = "secondary", place = "A/G", outdoors = true, calls = "A", lock = { model = "strike-12", cable = "flex-0.75", length = "30 m" } }
doorB = { role = "secondary", place = "B/G", outdoors = true, calls = "B", lock = { model = "strike-12", cable = "flex-0.75", length = "6 m" } }
doorC = { role = "secondary", place = "C/G", outdoors = true, calls = "C", lock = { model = "strike-12", cable = "flex-0.75", length = "6 m" } }

[management]
desk = { place = "A/G" }

[dwellings]
"A-1..A-6" = { place = "A/G", per_floor = 2 }
"B-1..B-6" = { place = "B/G", per_floor = 2 }
"C-1..C-6" = { place = "C/G", per_floor = 2 }

[runs]
feedA = { from = "PA", to = "DA", cable = "flex-1.5", length = "1.5 m" }
linkB = { from = "DA.1", to = "DB", cable = "outdoor-0.8", length = "60 m", environment = "buried" }
linkC = { from = "DA.2", to = "DC", cable = "outdoor-0.8", length = "110 m", environment = "buried" }
gateR = { from = "DA.3", to = "gate", cable = "outdoor-0.8", length = "48 m", environment = "buried" }
doorAR = { from = "DA.4", to = "doorA", length = "8 m" }
deskR = { from = "DA.5", to = "desk", length = "8 m" }
risA = { from = "DA.6", to = "A-1..A-6", first = "9 m", spacing = "7 m" }
doorBR = { from = "DB.1", to = "doorB", length = "8 m" }
risB = { from = "DB.2", to = "B-1..B-6", first = "9 m", spacing = "7 m" }
doorCR = { from = "DC.1", to = "doorC", length = "8 m" }
risC = { from = "DC.2", to = "C-1..C-6", first = "9 m", spacing = "7 m", cable = "pair-0.5" }
"#;

/// Each device that has too little, with its voltage and in which state.
fn too_low(check: &Value) -> BTreeMap<String, (Value, Value)> {
    let findings = check["findings"].as_array().expect("findings").iter();
    let low = findings.filter(|one| one["code"] == "voltage-too-low");
    low.map(|one| {
        (one["element"].as_str().expect("a device").to_string(), (one["value"].clone(), one["state"].clone()))
    })
    .collect()
}

fn checked(folder: &Folder, site: &str) -> Value {
    json(folder, &["check", site])
}

/// The same building without battery is the judge: on mains both are one, so what has too little there has it here, volt for volt.
#[test]
fn a_collapse_on_battery_hides_nothing_that_is_short_on_mains() {
    let folder = Folder::new();
    folder.write("site.toml", BLOCKS);
    let on_mains = changed(
        BLOCKS,
        &[("ostrel-ps-120b", "ostrel-ps-120"), ("standby_hours = 2\n", ""), ("calls_per_hour = 4\n", "")],
    );
    folder.write("mains.toml", &on_mains);
    let (with_battery, mains) = (checked(&folder, "site.toml"), checked(&folder, "mains.toml"));
    let codes = |check: &Value| -> Vec<String> {
        let findings = check["findings"].as_array().expect("findings").iter();
        findings.map(|one| one["code"].as_str().expect("a code").to_string()).collect()
    };
    assert!(codes(&with_battery).iter().any(|code| code == "no-operating-point"));
    let short = too_low(&mains);
    assert!(short.contains_key("C-6"), "{short:?}");
    assert_eq!(too_low(&with_battery), short);
    assert!(codes(&mains).iter().any(|code| code == "supply-overloaded"));
    assert!(codes(&with_battery).iter().any(|code| code == "supply-overloaded"));
    // Who accepts the collapse on battery has not accepted that the mains do not do.
    let reason = ["--reason", "known", "--date", "2026-11-02"];
    let accepted = folder.run(&[&["accept", "site.toml", "no-operating-point", "PA"][..], &reason].concat());
    assert_eq!(accepted.status, 0, "{}", accepted.err);
    assert_eq!(folder.run(&["check", "site.toml"]).status, 1);
}
