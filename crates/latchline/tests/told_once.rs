//! One count, one fault, one figure: where two outputs said two things of the same, or one thing many times.

use crate::common::{Folder, changed, json, words};
use serde_json::Value;

/// Two runs of one distributor; what differs from test to test is put in for its words.
const HOUSE: &str = r#"[site]
title = "Two runs"
family = "ostrel-48"
indoor_station = "ostrel-v7x"
door_station = "ostrel-dv1"
cable = "pair-0.5"
[buildings]
A = { floors = ["G", "1", "2", "3"] }
[supplies]
PS = { model = "ostrel-ps-120", place = "A/G" }
[distributors]
D1 = { model = "ostrel-d4", place = "A/G" }
[entrances]
front = { role = "main", place = "A/G", escape_route = false, escape_decided_by = "owner", escape_decided_on = 2026-01-02, lock = { model = "strike-12", cable = "flex-0.75", length = "6 m" } }
[dwellings]
"A-1..A-6" = { place = "A/G", per_floor = 3 }
"A-7..A-12" = { place = "A/2", per_floor = 3 }
[runs]
feed = { from = "PS", to = "D1", cable = "flex-1.5", length = "1.5 m" }
left = { from = "D1.1", to = "A-1..A-6", first = "8 m", spacing = "6 m" }
right = { from = "D1.2", to = "A-7..A-12", first = "60 m", spacing = "8 m" }
door = { from = "D1.3", to = "front", length = "9 m" }
"#;

/// Six telephones and a panel without a converter, which boots with 3 A for 5 s on a port that opens at 0.35 A.
const BIG_BOOT: &str = r#"[site]
title = "Big boot"
family = "mossop-24"
indoor_station = "mossop-t1"
door_station = "big"
cable = "pair-0.8"
catalogues = ["big.toml"]
[buildings]
A = { floors = ["G", "1", "2"] }
[supplies]
PS = { model = "mossop-ps-24b", place = "A/G" }
[distributors]
F = { model = "mossop-f4", place = "A/G" }
[entrances]
front = { role = "main", place = "A/G" }
[dwellings]
"A-1..A-6" = { place = "A/G", per_floor = 2 }
[runs]
feed = { from = "PS", to = "F", length = "1 m", cable = "flex-1.5" }
left = { from = "F.1", to = "A-1..A-6", first = "5 m", spacing = "4 m" }
door = { from = "F.2", to = "front", length = "6 m" }
"#;

const BIG_PANEL: &str = r#"[stations.big]
title = "Panel that boots with 3 A"
source = "made for this test"
family = "mossop-24"
kind = "door"
media = "audio"
loop_through = "bridged"
converter = false
standby = "85 mA"
ringing = "200 mA"
talking = "220 mA"
boot = "3 A"
boot_time = "5 s"
load_tolerance = "10 %"
least_voltage = "18 V"
least_standby_voltage = "16 V"
highest_voltage = "28 V"
input_capacitance = "220 uF"
bridging_resistance = "5 kohm"
bridging_capacitance = "200 pF"
signal_impedance = "600 ohm"
directory = 64
"#;

fn folder(text: &str, changes: &[(&str, &str)]) -> Folder {
    let folder = Folder::new();
    folder.write("house.toml", changed(text, changes));
    folder
}

/// 3 A and 10 % on a port that opens at 0.35 A: the panel is dark in the end, and booting takes more than 3.3 A. It had counted as up at once.
#[test]
fn a_panel_behind_an_open_port_is_not_up() {
    let folder = folder(BIG_BOOT, &[]);
    folder.write("big.toml", BIG_PANEL);
    let start = &json(&folder, &["check", "house.toml"])["start_up"][0];
    assert!(start["boot_current_a"].as_f64().is_some_and(|booting_a| booting_a > 3.3), "{start}");
    assert!(start["trips"].as_u64().is_some_and(|trips| trips > 0), "{start}");
    assert_ne!(start["outcome"], "runs", "{start}");
    let page = words(&folder, &["check", "house.toml", "--lines"]);
    assert!(!page.contains("up at once") && !page.contains("everything is up"), "{page}");
}

/// Both runs too long: each alone collapses the bus. The worst device hangs behind the most copper, and two pairs on both, nothing bought, mend it.
#[test]
fn a_bus_that_collapses_on_two_runs_is_mended_on_both() {
    let one = folder(HOUSE, &[("\"60 m\"", "\"120 m\"")]);
    let found = json(&one, &["check", "house.toml"]);
    let codes: Vec<&str> =
        found["findings"].as_array().unwrap().iter().filter_map(|one| one["code"].as_str()).collect();
    assert!(codes.contains(&"no-operating-point"), "{codes:?}");
    // 120 m and five times 8 m on the right, 8 m and five times 6 m on the left.
    assert_eq!(found["tightest"], "A-12", "{found}");
    assert!(words(&one, &["check", "house.toml"]).contains("Worst: A-12 on PS goes dark"), "the right run");
    let both = folder(HOUSE, &[("\"60 m\"", "\"85 m\""), ("first = \"8 m\"", "first = \"80 m\"")]);
    let jobs = json(&both, &["check", "house.toml"]);
    let command = jobs["jobs"][0]["command"].as_str().unwrap_or_else(|| panic!("no change: {jobs}"));
    let typed: Vec<&str> = command.split_whitespace().skip(1).collect();
    assert!(words(&both, &typed).contains("written to"), "{command}");
    let after = json(&both, &["check", "house.toml"]);
    let dark = after["findings"].as_array().unwrap().iter().any(|one| one["code"] == "no-operating-point");
    assert!(!dark, "{after}");
}

/// Nobody can mend the nine doors from here: one job names them all.
#[test]
fn the_same_fault_without_a_change_is_one_job() {
    let door = |name: &str| {
        format!(
            "{name} = {{ role = \"secondary\", place = \"A/G\", escape_route = true, escape_decided_by = \"owner\", escape_decided_on = 2026-01-02, \
             lock = {{ model = \"strike-12\", cable = \"flex-0.75\", length = \"6 m\" }} }}\n"
        )
    };
    let doors: String = (1..=4).map(|number| door(&format!("x{number}"))).collect();
    let runs: String = (1..=4)
        .map(|number| {
            format!("d{number} = {{ from = \"D1.{}\", to = \"x{number}\", length = \"9 m\" }}\n", number + 3)
        })
        .collect();
    let folder = folder(
        &format!("{HOUSE}{runs}"),
        &[("[dwellings]\n", &format!("{doors}[dwellings]\n")), ("ostrel-d4", "ostrel-d8t")],
    );
    let found = json(&folder, &["check", "house.toml"]);
    assert!(found["jobs"].is_array(), "{found}");
    for job in found["jobs"].as_array().unwrap() {
        let code = &job["causes"][0]["findings"][0]["code"];
        let alike = found["jobs"].as_array().unwrap().iter().filter(|other| {
            other["change"].is_null()
                && job["change"].is_null()
                && other["done_by"].is_null()
                && job["done_by"].is_null()
                && other["causes"][0]["findings"][0]["code"] == *code
                && other["causes"][0]["severity"] == job["causes"][0]["severity"]
        });
        assert!(alike.count() <= 1, "{code}: {:#?}", found["jobs"]);
    }
}

/// A range that is no table is one mistake, and so are the names of one range that nothing has.
#[test]
fn one_slip_in_a_range_is_one_mistake() {
    let row = "\"A-1..A-6\" = { place = \"A/G\", per_floor = 3 }";
    let broken = json(&folder(HOUSE, &[(row, "\"A-1..A-6\" = \"three a floor\"")]), &["check", "house.toml"]);
    let errors = |found: &Value| -> Vec<String> {
        let all = found["findings"].as_array().unwrap().iter();
        all.filter(|one| one["severity"] == "error")
            .map(|one| one["code"].as_str().unwrap().to_string())
            .collect()
    };
    assert_eq!(errors(&broken), ["wrong-type"], "{broken}");
    let renamed = folder(HOUSE, &[(row, "\"A-01..A-06\" = { place = \"A/G\", per_floor = 3 }")]);
    let unknown = errors(&json(&renamed, &["check", "house.toml"]));
    assert_eq!(unknown.iter().filter(|code| *code == "unknown-name").count(), 1, "{unknown:?}");
    let said = words(&renamed, &["check", "house.toml"]);
    assert!(said.contains("named \"A-1\", nor 5 further names of the range"), "{said}");
}

/// The lock's cable grows from 6 m to 29 m: what it has beyond its least shrinks, though it still releases; a battery that is new is told with its
/// hours although the file asks for hours only now.
#[test]
fn what_got_worse_at_a_lock_and_a_battery_that_is_new_are_compared() {
    let old = folder(HOUSE, &[]);
    let text = HOUSE
        .replace("length = \"6 m\"", "length = \"20 m\"")
        .replace("PS = { model = \"ostrel-ps-120\"", "PS = { model = \"ostrel-ps-120b\"");
    old.write("new.toml", text.replace("[buildings]", "[policy]\nstandby_hours = 4\n[buildings]"));
    let found = json(&old, &["compare", "house.toml", "new.toml"]);
    let lock = &found["lock_margins_v"][0];
    assert_eq!((&lock["element"], &lock["better"]), (&Value::from("front"), &Value::from(false)), "{found}");
    let hours = &found["battery_hours"][0];
    assert_eq!((&hours["element"], &hours["old"]), (&Value::from("PS"), &Value::from(0.0)), "{found}");
    let said = words(&old, &["compare", "house.toml", "new.toml"]);
    assert!(said.contains("lock of front: ") && said.contains(" h of battery, had none"), "{said}");
}

/// Who said that it is not known yet is printed, and no decision is named that nobody took.
#[test]
fn a_way_out_that_is_not_known_says_who_said_so() {
    let folder = folder(HOUSE, &[("escape_route = false", "escape_route = \"not known\"")]);
    let said = words(&folder, &["check", "house.toml", "--door", "front"]);
    assert!(
        said.contains("not known (owner, 2026-01-02) whether it is an escape route: not judged"),
        "{said}"
    );
    let german = words(&folder, &["check", "house.toml", "--door", "front", "--language", "de"]);
    assert!(german.contains("nicht bekannt (owner, 2026-01-02), ob sie Fluchtweg ist"), "{german}");
}
