//! Lights, heater, alarm inputs, and the standby load.

use super::case::*;
use latchline_finding::{Argument, Language};

fn lights(keys: &str) -> String {
    format!("lights = [{keys}]")
}

#[test]
fn light_feed_missing() {
    let code = "light-feed-missing";
    let keys = lights("{ model = \"porch\" }");
    fails(code, Case { site: "door_station = \"bare\"", ..entrance(&keys) }, ERROR, None);
    passes(code, entrance(&keys));
    let own = lights("{ model = \"porch\", feed = \"own-supply\" }");
    passes(code, Case { site: "door_station = \"bare\"", ..entrance(&own) });
}

/// 2.4 W at 12 V are 0.2 A; with 0.1 A the output's 0.3 A, with 0.101 A a milliampere beyond.
#[test]
fn light_output_overloaded() {
    let code = "light-output-overloaded";
    passes(code, entrance(&lights("{ model = \"porch\" }")));
    passes(code, entrance(&lights("{ model = \"porch\" }, { model = \"names\", lit = \"always\" }")));
    let beyond = lights("{ model = \"porch\" }, { model = \"names-more\" }");
    fails(code, entrance(&beyond), ERROR, Some((0.301, 0.3)));
    // What hangs on the bus or has a supply of its own is not on the output.
    let elsewhere = lights("{ model = \"porch\" }, { model = \"names-more\", feed = \"own-supply\" }");
    passes(code, entrance(&elsewhere));
}

/// The output gives 12 V, the bus 24 V; 10 V and 20 % are 12 V.
#[test]
fn light_feed_unsuitable() {
    let code = "light-feed-unsuitable";
    passes(code, entrance(&lights("{ model = \"porch\" }")));
    passes(code, entrance(&lights("{ model = \"bus\", feed = \"bus\" }")));
    passes(code, entrance(&lights("{ model = \"edge\" }")));
    fails(code, entrance(&lights("{ model = \"beyond\" }")), ERROR, Some((12.0, 10.0)));
    fails(code, entrance(&lights("{ model = \"porch\", feed = \"bus\" }")), ERROR, Some((24.0, 12.0)));
    fails(code, entrance(&lights("{ model = \"bus\" }")), ERROR, Some((12.0, 24.0)));
    let ac = found(code, entrance(&lights("{ model = \"filament\" }")));
    assert!(
        matches!(ac.argument("needs"), Some(Argument::Words(needs)) if needs.name() == "alternating current")
    );
    passes(code, entrance(&lights("{ model = \"filament\", feed = \"own-supply\" }")));
}

#[test]
fn heater_missing() {
    let code = "heater-missing";
    let bare = "door_station = \"bare\"";
    fails(code, Case { site: bare, ..entrance("heater = true") }, WARNING, None);
    passes(code, Case { site: bare, ..entrance("heater = false") });
    passes(code, Case { site: bare, ..Case::default() });
    passes(code, entrance("heater = true"));
}

fn alarm(keys: &str) -> String {
    format!("alarm_inputs = [{keys}]")
}

#[test]
fn alarm_inputs_exceeded() {
    let code = "alarm-inputs-exceeded";
    let one = "{ kind = \"tamper\", tells = [\"A-1\"], cable = \"wire\", length = \"1 m\" }";
    passes(code, entrance(&alarm(&format!("{one}, {one}"))));
    fails(code, entrance(&alarm(&format!("{one}, {one}, {one}"))), ERROR, Some((3.0, 2.0)));
    passes(code, entrance(&alarm(one)));
    // A model that states no inputs has none.
    let case = alarm(one);
    fails(code, Case { site: "door_station = \"bare\"", ..entrance(&case) }, ERROR, Some((1.0, 0.0)));
}

/// 0.1 ohm of loop per metre and two joints of 10 mohm in each conductor: 29.6 m are 3 ohm.
#[test]
fn alarm_loop_too_long() {
    let code = "alarm-loop-too-long";
    let keys = |length: &str| {
        alarm(&format!("{{ kind = \"tamper\", tells = [\"A-1\"], cable = \"wire\"{length} }}"))
    };
    passes(code, entrance(&keys(", length = \"20 m\"")));
    passes(code, entrance(&keys(", length = \"29.6 m\"")));
    fails(code, entrance(&keys(", length = \"30 m\"")), ERROR, Some((3.04, 3.0)));
    passes(code, entrance(&keys(", length = \"30 m\", joints = 0")));
    not_judged(code, entrance(&keys("")), "front alarm input 1 length");
}

#[test]
fn alarm_cable_not_watched() {
    let code = "alarm-cable-not-watched";
    let keys = |more: &str| {
        alarm(&format!(
            "{{ kind = \"duress\", tells = [\"A-1\"], cable = \"wire\", length = \"1 m\"{more} }}"
        ))
    };
    fails(code, entrance(&keys(", contact = \"normally-open\"")), WARNING, None);
    passes(code, entrance(&keys(", contact = \"normally-open\", end_of_line_resistor = true")));
    passes(code, entrance(&keys(", contact = \"normally-closed\"")));
    passes(code, entrance(&keys("")));
}

#[test]
fn alarm_tells_nobody() {
    let code = "alarm-tells-nobody";
    let keys = |kind: &str, more: &str| {
        alarm(&format!("{{ kind = \"{kind}\", cable = \"wire\", length = \"1 m\"{more} }}"))
    };
    for kind in ["tamper", "duress", "door"] {
        fails(code, entrance(&keys(kind, "")), WARNING, None);
        passes(code, entrance(&keys(kind, ", tells = [\"A\"]")));
    }
    // The site has no management station.
    fails(code, entrance(&keys("tamper", ", tells = [\"management\"]")), WARNING, None);
    passes(code, entrance(&keys("fire", "")));
}

#[test]
fn fire_release_through_station() {
    let code = "fire-release-through-station";
    let input = alarm("{ kind = \"fire\", cable = \"wire\", length = \"1 m\" }");
    let with = |more: &str| format!("{input}\n{more}");
    let route = with("escape_route = true");
    fails(code, escape(&route, "model = \"magnet\", emergency_release = true"), ERROR, None);
    fails(code, escape(&input, "model = \"magnet\""), WARNING, None);
    // A handle opens a strike, and moves no magnet.
    fails(code, escape(&route, "model = \"safe\", mechanical_escape = true"), WARNING, None);
    fails(code, escape(&route, "model = \"magnet\", mechanical_escape = true"), ERROR, None);
    let both = with("escape_route = true\nfire_interlock = true");
    passes(code, escape(&both, "model = \"magnet\""));
    passes(code, escape(&input, "model = \"gate\""));
    passes(code, escape("escape_route = true", "model = \"magnet\""));
    // The input is a release, if a poor one: it is not missing.
    passes("fire-interlock-missing", escape(&route, "model = \"magnet\", emergency_release = true"));
}

/// Standby at night of the only supply, in watts, day before it. 24 V, 0.1 ohm of cable: less than 0.1 W is
/// lost in it.
#[test]
fn lights_heater_and_alarm_loops_are_in_the_standby_load() {
    let watts = |keys: &str| {
        let assessment = assessment(Case { battery: BATTERY, ..entrance(keys) });
        let Some(Ok(battery)) = &assessment.supply_sheets[0].battery else { panic!("no battery") };
        [battery.loads[0].bus_power_w, battery.loads[1].bus_power_w]
    };
    let close = |keys: &str, day: f64, night: f64| {
        for (watts, expected) in watts(keys).into_iter().zip([day, night]) {
            assert!(watts >= expected && watts < expected + 0.2, "{keys}: {watts} W, expected {expected} W");
        }
    };
    // Door station 4.5 W, indoor station 0.5 W.
    close("", 5.0, 5.0);
    close("heater = true", 5.0, 11.0);
    // 0.2 A from the station's output: at most 0.2 A x 24 V from the bus.
    close(&lights("{ model = \"porch\" }"), 5.0, 9.8);
    close(&lights("{ model = \"porch\", lit = \"always\" }"), 9.8, 9.8);
    close(&lights("{ model = \"porch\", lit = \"in-use\" }"), 5.0, 5.0);
    close(&lights("{ model = \"porch\", feed = \"own-supply\" }"), 5.0, 5.0);
    // 240 ohm at 24 V: 2.4 W.
    close(&lights("{ model = \"bus\", feed = \"bus\" }"), 5.0, 7.4);
    // Two loops of 2 mA.
    let one = "{ kind = \"tamper\", tells = [\"A-1\"], cable = \"wire\", length = \"1 m\" }";
    close(&alarm(&format!("{one}, {one}")), 5.096, 5.096);
}

/// A fire alarm on the station's input energises a lock that stays shut without power: the state "fire release" is
/// solved, with the lock's load in it. Without the input, or with a lock that opens without power, there is none.
#[test]
fn a_fire_input_is_a_state_of_its_own() {
    let input = alarm("{ kind = \"fire\", cable = \"wire\", length = \"1 m\" }");
    let is_solved = |entrance: &str, lock: &str| {
        let door = ", releasing_extra = \"7 W\"";
        let states = assessment(Case { entrance, lock, door, ..Case::default() }).states;
        states.iter().any(|state| state.kind == latchline_finding::StateKind::FireRelease)
    };
    assert!(is_solved(&input, "model = \"strike\""));
    assert!(!is_solved("", "model = \"strike\""));
    assert!(!is_solved(&input, "model = \"safe\""));
}

/// The parts of the load stand on the sheet with their sources, and add up.
#[test]
fn the_sheet_tells_the_standby_load_part_by_part() {
    let keys = "heater = true\naccessories = [\"keypad\"]\nlights = [{ model = \"porch\" }]";
    let sheet = assessment(Case { lock: "model = \"magnet\"", ..entrance(keys) }).doors.remove(0);
    let load = sheet.load.expect("on the bus");
    let lines: Vec<(String, f64, f64)> = load
        .lines
        .iter()
        .map(|line| (line.source.say(Language::English), line.day_a, line.night_a))
        .collect();
    // At 24 V: 4.5 W; 6 W; 30 mA and 10 mA more at night; magnet 12 V x 0.5 A; 0.2 A.
    let expected = [
        ("door: load in standby", 0.1875, 0.1875),
        ("door: load of the heater", 0.0, 0.25),
        ("keypad: current and current at night", 0.03, 0.04),
        ("magnet: voltage and current", 0.25, 0.25),
        ("porch: load", 0.0, 0.2),
    ];
    assert_eq!(lines.len(), expected.len(), "{lines:?}");
    for (line, expected) in lines.iter().zip(expected) {
        assert_eq!(line.0, expected.0);
        assert!((line.1 - expected.1).abs() < 1e-12 && (line.2 - expected.2).abs() < 1e-12, "{line:?}");
    }
    assert!((load.day_a() - 0.4675).abs() < 1e-12 && (load.night_a() - 0.9275).abs() < 1e-12);
    // Modules against what the station gives and takes.
    let lines = sheet.modules.calculation();
    let limits: Vec<f64> = lines.iter().filter_map(|line| Some(line.limit?.figure.value)).collect();
    assert_eq!(limits, [0.1, 2.0]);
}
