//! No difference between two site files is silent: every key is in the table, and a difference in each is told.

use crate::common::site;
use latchline_site::changes::{Bearing, Changes, KEYS, bearing_of};
use latchline_site::keys::TableSpec;
use latchline_site::model::SITE_FILE;

/// A small site; what is added stands at the marks.
const BASE: &str = r#"
[site]
title = "Base"
family = "ostrel-48"
indoor_station = "ostrel-v7"
door_station = "ostrel-dv1"
cable = "pair-0.8"
@site
[conditions]
@conditions
[policy]
@policy
[buildings]
A = { floors = ["G", "1"] @building }
[supplies]
PS = { model = "ostrel-ps-120b", place = "A/G" @supply }
[distributors]
D1 = { model = "ostrel-d4", place = "A/G" }
[entrances]
front = { role = "main", place = "A/G", lock = { model = "strike-12", cable = "flex-1.0", length = "5 m" @lock } @entrance }
rear = { place = "A/G" @rear }
[dwellings]
A-1 = { place = "A/G" @dwelling }
A-2 = { place = "A/1" }
[runs]
feed = { from = "PS", to = "D1", cable = "flex-1.5", length = "2 m" }
flats = { from = "D1.1", to = ["A-1", "A-2"], spacing = "5 m" @run }
door = { from = "D1.2", to = "front", length = "5 m" }
back = { from = "D1.3", to = "rear", length = "5 m" }
"#;

const MARKS: [&str; 9] =
    ["site", "conditions", "policy", "building", "supply", "lock", "entrance", "rear", "dwelling"];

/// The base with these lines at a mark.
fn with(mark: &str, text: &str) -> String {
    let mut site = BASE.to_string();
    for known in MARKS.iter().chain(&["run"]) {
        let is_table = ["site", "conditions", "policy"].contains(known);
        let here = match (*known == mark, is_table) {
            (false, _) => String::new(),
            (true, true) => format!("{text}\n"),
            (true, false) => format!(", {text}"),
        };
        let end = if is_table { "\n" } else { " " };
        site = site.replace(&format!("@{known}{end}"), &format!("{here}{end}"));
    }
    site
}

fn tables(table: &'static TableSpec, all: &mut Vec<&'static TableSpec>) {
    for key in table.keys {
        // The site's own cables are held against each other as parts of the catalogue are.
        let own_cables = key.name == "cables" && std::ptr::eq(table, &raw const SITE_FILE);
        if let Some(table) = key.kind.table().filter(|_| !own_cables)
            && !all.iter().any(|one| std::ptr::eq(*one, table))
        {
            all.push(table);
            tables(table, all);
        }
    }
}

#[test]
fn every_key_of_the_site_file_is_in_the_table_and_no_other() {
    let mut all = Vec::new();
    tables(&SITE_FILE, &mut all);
    assert!(all.len() > 12, "{} tables", all.len());
    for table in &all {
        for key in table.keys {
            assert!(bearing_of(table.name, key.name).is_some(), "{:?} {} is in no row", table.name, key.name);
        }
    }
    for (table, keys) in KEYS {
        let spec = all.iter().find(|spec| spec.name == *table);
        let spec = spec.unwrap_or_else(|| panic!("{table:?} is no table of the site file"));
        for (key, _) in *keys {
            assert!(spec.keys.iter().any(|one| one.name == *key), "{table:?} has no {key}");
        }
    }
}

/// Differences, each in one key, at a mark of the base: key, mark, what is written before, and after.
const DIFFERENCES: &[(&str, &str, &str, &str)] = &[
    ("country", "site", "", r#"country = "GB""#),
    ("usual_temperature", "conditions", "", r#"usual_temperature = "25 °C""#),
    ("length_tolerance", "conditions", "", r#"length_tolerance = "7 %""#),
    ("end_allowance", "conditions", "", r#"end_allowance = "0.5 m""#),
    ("joint_resistance", "conditions", "", r#"joint_resistance = "20 mohm""#),
    ("thin_margin", "policy", "", r#"thin_margin = "2 V""#),
    ("standby_hours", "policy", "standby_hours = 4", "standby_hours = 6"),
    ("calls_per_hour", "policy", "", "calls_per_hour = 4"),
    ("spare_ports", "policy", "", "spare_ports = 1"),
    ("floor_height", "building", "", r#"floor_height = "3 m""#),
    ("batteries", "supply", "", "batteries = 2"),
    ("set_voltage", "supply", "", r#"set_voltage = "47 V""#),
    ("ambient", "supply", "", r#"ambient = "35 °C""#),
    ("hold_time", "lock", "", r#"hold_time = "8 s""#),
    ("feed", "lock", "", r#"feed = "own-supply", supply_voltage = "12 V""#),
    ("supply_voltage", "lock", "", r#"feed = "own-supply", supply_voltage = "12 V""#),
    ("suppression", "lock", "", r#"suppression = "diode""#),
    ("exit_button", "lock", "", "exit_button = true"),
    ("door_contact", "lock", "", "door_contact = true"),
    ("emergency_release", "lock", "", "emergency_release = true"),
    ("heater", "entrance", "", "heater = true"),
    ("surge_protection", "entrance", "", r#"surge_protection = "1 ohm""#),
    ("outdoors", "entrance", "", "outdoors = true"),
    ("escape_route", "entrance", "escape_route = true", "escape_route = false"),
    ("model", "rear", "", r#"lock = { model = "strike-12", cable = "flex-1.0", length = "5 m" }"#),
    ("calls", "rear", "", r#"calls = "A-1""#),
    ("label", "dwelling", "", r#"label = "Miller""#),
    ("joints", "run", "", "joints = 2"),
    ("terminator", "run", "", "terminator = false"),
    ("existing", "run", "", "existing = true"),
    ("environment", "run", "", r#"environment = "buried""#),
    ("surge_protection", "run", "", r#"surge_protection = "1 ohm""#),
    ("surge_protection_at", "run", "", r#"surge_protection_at = "both""#),
    ("surge_earth", "run", "", r#"surge_earth = "6 mm²""#),
    ("surge_earth", "entrance", "", r#"surge_earth = "10 AWG""#),
    ("fire_alarm_owner", "entrance", "", r#"fire_alarm_owner = "the fire alarm firm""#),
    ("contact_current", "lock", "", r#"contact_current = "0.1 A""#),
    ("loop", "run", "", r#"measured = { loop = "2 ohm" }"#),
];

#[test]
fn a_difference_is_told_either_way() {
    for (key, mark, old, new) in DIFFERENCES {
        let text = |text: &str| if text.is_empty() { with("", "") } else { with(mark, text) };
        let (old, new) = (site(&text(old)), site(&text(new)));
        let changes = Changes::between(&old, &new);
        let told: Vec<&str> = changes.keys.iter().map(|one| one.key).collect();
        assert!(told.contains(key), "{key}: {told:?}");
        let work = changes.keys.iter().any(|one| one.bearing != Bearing::Known);
        assert_eq!(
            changes.is_empty(),
            !work && changes.quantities.is_empty() && changes.at_doors.is_empty(),
            "{key}"
        );
        if *key != "model" {
            let back = Changes::between(&new, &old);
            assert!(back.keys.iter().any(|one| one.key == *key), "{key} taken back");
        }
        assert_eq!(Changes::between(&new, &new).keys, [], "{key}");
    }
}
