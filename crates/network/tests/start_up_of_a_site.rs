//! Power return on small sites against closed forms: what the simulated case is made of, worked out beside each.
//!
//! A capacitor that is charged at constant current takes `C V/I`; from `V` behind `R` it takes `R C ln(V/(V - u))` to `u`; a
//! constant power `P` behind `R` holds its terminals at `(V + sqrt(V² - 4 P R))/2`.

use crate::small_site::{STEADY, near, site, station};
use latchline_finding::Language;
use latchline_network::start_up::{
    DeviceStart, Effort, StageStart, StartUpOutcome, StartUps, least_stagger, start_up,
};
use latchline_network::{Layout, Memory, StageNode};
use latchline_site::model::Site;

/// Stations with a converter draw 1 mW unless they are about their power.
fn parts(limit: &str) -> String {
    let station = |name: &str, keys: &str| {
        format!(
            "{name} = {{ title = \"Station\", source = \"invented\", family = \"mere\", kind = \"indoor\", media = \"audio\", loop_through = \"bridged\", \
             ringing = \"1 mA\", talking = \"1 mA\", load_tolerance = \"0 %\", least_voltage = \"5 V\", least_standby_voltage = \"5 V\", {keys} }}\n"
        )
    };
    let thresholds = "turn_on_voltage = \"40 V\", turn_off_voltage = \"20 V\"";
    let short_boot = "boot = \"1 mW\", boot_time = \"0.001 ms\"";
    let stations = [
        station(
            "flat",
            &format!("standby = \"1 mW\", {short_boot}, {thresholds}, input_capacitance = \"10000 uF\""),
        ),
        station(
            "bridge",
            &format!(
                "standby = \"1 mW\", {thresholds}, input_capacitance = \"10000 uF\", rectifier_drop = \"1.4 V\", turn_on_delay = \"100 ms\", boot = \"1 mW\", boot_time = \"250 ms\""
            ),
        ),
        station(
            "soft",
            &format!(
                "standby = \"1 mW\", {short_boot}, {thresholds}, input_capacitance = \"5000 uF\", inrush_limit = \"50 mA\""
            ),
        ),
        station(
            "early",
            "standby = \"1 mW\", boot = \"1 mW\", boot_time = \"100 ms\", turn_on_voltage = \"20 V\", turn_off_voltage = \"10 V\", input_capacitance = \"10 uF\"",
        ),
        station(
            "late",
            "standby = \"1 W\", boot = \"20 W\", boot_time = \"500 ms\", turn_on_voltage = \"24 V\", turn_off_voltage = \"10 V\", turn_on_delay = \"1 s\", input_capacitance = \"10 uF\"",
        ),
        station("steady", "converter = false, standby = \"100 mA\""),
        station("resistor", "converter = false, standby = \"480 ohm\""),
    ];
    format!(
        r#"
[supplies]
ps = {{ title = "Supply", source = "invented", family = "mere", voltage = "48 V", voltage_tolerance = "5 %", source_resistance = "2 ohm", rated_current = "50 A", {limit} }}

[boxes]
d-holds = {{ title = "Distributor whose ports hold 0.25 A", source = "invented", family = "mere", role = "distributor", kind = "port-limited", ports = 4, port_current_limit = "0.25 A", port_limit_kind = "constant-current" }}
d-opens = {{ title = "Distributor whose ports open", source = "invented", family = "mere", role = "distributor", kind = "port-limited", ports = 4, port_current_limit = "0.25 A", port_limit_kind = "trip", port_trip_delay = "20 ms" }}
d-plain = {{ title = "Distributor", source = "invented", family = "mere", role = "distributor", kind = "transparent", ports = 4, consumption = "4.4 W", load_tolerance = "0 %", least_voltage = "44 V" }}
d-fresh = {{ title = "Regenerating distributor", source = "invented", family = "mere", role = "distributor", kind = "regenerated", ports = 4, consumption = "2 W", load_tolerance = "0 %", output_voltage = "48 V", output_tolerance = "10 %", output_resistance = "1 ohm", efficiency = "80 %", least_voltage = "20 V", turn_on_voltage = "30 V", turn_off_voltage = "10 V", input_capacitance = "10 uF" }}

[stations]
{}
[cables]
wire = {{ title = "Wire", source = "invented", gauge = "0.1 ohm/km", resistance_tolerance = "0 %" }}
half = {{ title = "1 ohm a metre of loop", source = "invented", gauge = "500 ohm/km", resistance_tolerance = "5 %" }}
"#,
        stations.concat()
    )
}

const HOLDS_50_A: &str = "limit_kind = \"constant-current\"";
const HOLDS_HALF_AN_AMPERE: &str = "limit_current = \"0.5 A\", limit_kind = \"constant-current\"";
const LOW_V: f64 = 45.6;

fn returned(limit: &str, rest: &str) -> (Site, StartUps) {
    let conditions = if rest.contains("[conditions]") { "" } else { STEADY };
    let site = site("", &parts(limit), &format!("{conditions}{rest}"));
    let found =
        start_up(&site, &Layout::new(&site), Effort::Whole, &Memory::default()).expect("it is wanted");
    assert_eq!(found.missing, []);
    (site, found)
}

fn device<'f>(site: &Site, stage: &'f StageStart, id: &str) -> &'f DeviceStart {
    let terminal = StageNode::Station(station(site, id));
    stage
        .devices
        .iter()
        .find(|device| device.terminal == terminal)
        .unwrap_or_else(|| panic!("no device {id}"))
}

/// One flat of a model at the end of `metres` of a cable.
fn one(model: &str, cable: &str, metres: &str) -> String {
    format!(
        "[supplies]\nPS = {{ model = \"ps\" }}\n[dwellings]\nA-1 = {{ station = \"{model}\" }}\n[runs]\n\
         R1 = {{ from = \"PS\", to = \"A-1\", cable = \"{cable}\", length = \"{metres}\" }}\n"
    )
}

fn up_s(site: &Site, found: &StartUps, id: &str) -> f64 {
    device(site, &found.stages[0], id)
        .up_s
        .unwrap_or_else(|| panic!("{id} is never up: {:?}", found.stages[0].outcome))
}

/// The lowest voltage charges through the hottest and longest cable: 45.6 V less 1.4 V of the rectifier, to 40 V less 1.4 V;
/// `R` = 2 ohm + 10 m x 1 ohm/m x 1.09825 x 1.05 x 1.1 + 4 x 0.1 ohm. Then 100 ms of delay and 250 ms of boot.
#[test]
fn charging_is_with_every_tolerance_against_it() {
    let conditions = "[conditions]\nusual_temperature = \"20 °C\"\nhottest_temperature = \"45 °C\"\ncoldest_temperature = \"0 °C\"\n\
                      length_tolerance = \"10 %\"\njoint_resistance = \"0.1 ohm\"\n";
    let (site, found) = returned(HOLDS_50_A, &format!("{conditions}{}", one("bridge", "half", "10 m")));
    let ohm = 2.0 + 10.0 * (1.0 + 0.003_93 * 25.0) * 1.05 * 1.1 + 0.4;
    let drive_v = LOW_V - 1.4;
    let charged_s = ohm * 0.01 * (drive_v / (drive_v - 38.6)).ln();
    near(up_s(&site, &found, "A-1"), charged_s + 0.35, 2e-3);
    let StartUpOutcome::Runs { time_s } = found.stages[0].outcome else {
        panic!("{:?}", found.stages[0].outcome)
    };
    near(time_s, charged_s + 0.35, 2e-3);
}

/// 0.5 A into 10 mF to 40 V: 0.8 s; a load of 0.1 A on the bus leaves 0.4 A: 1 s; a resistance of 480 ohm takes V/480, so
/// the charge ends at `R C ln(I R/(I R - 40 V))` with 480 ohm and 0.5 A: 480 x 0.01 x ln(240/200) = 0.875 s.
#[test]
fn loads_without_a_converter_take_their_share() {
    let (site, found) = returned(HOLDS_HALF_AN_AMPERE, &one("flat", "wire", "1 m"));
    near(up_s(&site, &found, "A-1"), 0.8, 2e-3);
    near(found.stages[0].limit_a.expect("has a limit"), 0.5, 1e-12);
    // 1 mW at 40 V.
    near(found.stages[0].boot_current_a, 1e-3 / 40.0, 1e-9);
    for (model, expected_s) in [("steady", 1.0), ("resistor", 480.0 * 0.01 * (240.0_f64 / 200.0).ln())] {
        let text = one("flat", "wire", "1 m").replace("[runs]", &format!("A-2 = {{ station = \"{model}\" }}\n[runs]\nR2 = {{ from = \"PS\", to = \"A-2\", length = \"1 m\" }}"));
        let (site, found) = returned(HOLDS_HALF_AN_AMPERE, &text);
        // Below 1 V the constant current falls off, which is hardly felt.
        near(up_s(&site, &found, "A-1"), expected_s, 5e-3);
        // One with a converter and one without: both are told of.
        assert_eq!(found.stages[0].devices.len(), 2);
    }
}

/// A station that limits its own inrush to 50 mA: 5 mF x 40 V / 50 mA = 4 s.
#[test]
fn inrush_is_limited_by_the_station() {
    let (site, found) = returned(HOLDS_50_A, &one("soft", "wire", "1 m"));
    near(up_s(&site, &found, "A-1"), 4.0, 2e-3);
}

/// A distributor's own 4.4 W are 0.1 A at its 44 V, taken from the 0.5 A of the supply.
#[test]
fn a_box_takes_its_own_consumption() {
    let text = one("flat", "wire", "1 m")
        .replace("[dwellings]", "[distributors]\nD1 = { model = \"d-plain\" }\n[dwellings]")
        .replace("from = \"PS\"", "from = \"D1.1\"")
        + "W = { from = \"PS\", to = \"D1\", length = \"1 m\" }\n";
    let (site, found) = returned(HOLDS_HALF_AN_AMPERE, &text);
    near(up_s(&site, &found, "A-1"), 1.0, 5e-3);
}

/// A port that holds 0.25 A: 10 mF x 40 V / 0.25 A = 1.6 s, each port its own. One that opens after 20 ms leaves its station dark.
#[test]
fn ports_hold_or_open() {
    let text = |model: &str| {
        format!(
            "[supplies]\nPS = {{ model = \"ps\" }}\n[distributors]\nD1 = {{ model = \"{model}\" }}\n[dwellings]\nA-1 = {{}}\nB-1 = {{}}\n[runs]\n\
             W = {{ from = \"PS\", to = \"D1\", length = \"1 m\" }}\nR1 = {{ from = \"D1.1\", to = \"A-1\", length = \"1 m\" }}\n\
             R2 = {{ from = \"D1.3\", to = \"B-1\", length = \"1 m\" }}\n"
        )
    };
    let (site, found) = returned(HOLDS_50_A, &text("d-holds"));
    for flat in ["A-1", "B-1"] {
        near(up_s(&site, &found, flat), 1.6, 2e-3);
    }
    let (site, found) = returned(HOLDS_50_A, &text("d-opens"));
    let StartUpOutcome::BrownOut { by_supply, ports } = &found.stages[0].outcome else {
        panic!("{:?}", found.stages[0].outcome)
    };
    assert_eq!((*by_supply, ports.as_slice()), (false, &[(0, 1), (0, 3)][..]));
    assert!(!device(&site, &found.stages[0], "A-1").runs);
}

/// A station that is up sees the dip when its neighbour boots with 20 W: 45.6 V behind 2 ohm + 8 ohm hold
/// (45.6 + sqrt(45.6² - 4 x 20 x 10))/2 = 40.7 V, that of the first but for 1 mW.
#[test]
fn a_neighbour_that_boots_makes_a_dip() {
    let text = "[supplies]\nPS = { model = \"ps\" }\n[dwellings]\nA-1 = { station = \"early\" }\nA-2 = { station = \"late\" }\n[runs]\n\
                R1 = { from = \"PS\", to = [\"A-1\", \"A-2\"], cable = \"half\", lengths = [\"8 m\", \"0.01 m\"] }\n";
    let (site, found) = returned(HOLDS_50_A, text);
    let ohm = 2.0 + 8.0 * 1.05;
    let dip_v = 0.5 * (LOW_V + (LOW_V * LOW_V - 4.0 * 20.0 * ohm).sqrt());
    let lowest_v = device(&site, &found.stages[0], "A-1").lowest_v.expect("has been up");
    near(lowest_v, dip_v, 1e-3);
    // One second of delay and half a second of boot, the charge of 10 uF behind it takes microseconds.
    near(up_s(&site, &found, "A-2"), 1.5, 1e-3);
}

/// A supply that trips at 0.5 A after 50 ms and pauses 2 s, on 1 F that it would charge in 80 s: it trips every 2.05 s for as long
/// as it is watched. One that trips for good stays off.
#[test]
fn a_supply_hiccups_or_stays_off() {
    let limit = "limit_current = \"0.5 A\", trip_delay = \"50 ms\", retry_pause = \"2 s\"";
    let text = one("flat", "wire", "1 m");
    for (kind, hiccups) in [("hiccup", true), ("trip", false)] {
        let catalogue = parts(&format!("{limit}, limit_kind = \"{kind}\"")).replace("10000 uF", "1 F");
        let site = site("", &catalogue, &format!("{STEADY}{text}"));
        let found =
            start_up(&site, &Layout::new(&site), Effort::Whole, &Memory::default()).expect("it is wanted");
        match &found.stages[0].outcome {
            StartUpOutcome::Hiccups { period_s } if hiccups => {
                near(period_s.expect("one period"), 2.05, 1e-3)
            }
            StartUpOutcome::BrownOut { by_supply: true, .. } if !hiccups => {}
            other => panic!("{kind}: {other:?}"),
        }
    }
}

/// A regenerating box is a load of its own 2 W and of what boots below, 20 W by the highest that its stations take, over its efficiency of 80 %: 27 W
/// at once. On its own ports it starts as a source of 48 V less 10 % behind 1 ohm.
#[test]
fn a_regenerating_box_is_a_load_above_and_a_source_below() {
    let text = "[supplies]\nPS = { model = \"ps\" }\n[distributors]\nD1 = { model = \"d-fresh\" }\n[dwellings]\nA-1 = { station = \"early\" }\nB-1 = { station = \"late\" }\n[runs]\n\
                R1 = { from = \"PS\", to = [\"A-1\", \"D1\"], cable = \"half\", lengths = [\"8 m\", \"0.01 m\"] }\n\
                R2 = { from = \"D1.1\", to = \"B-1\", cable = \"half\", length = \"10 m\" }\n";
    let (site, found) = returned(HOLDS_50_A, text);
    let ohm = 2.0 + 8.0 * 1.05;
    let dip_v = 0.5 * (LOW_V + (LOW_V * LOW_V - 4.0 * 27.0 * ohm).sqrt());
    near(device(&site, &found.stages[0], "A-1").lowest_v.expect("has been up"), dip_v, 1e-3);
    // Below: 43.2 V, 1 ohm + 10.5 ohm; when it is up it has the voltage of its boot with 20 W for a moment yet.
    let below = found
        .stages
        .iter()
        .find(|stage| {
            stage.devices.iter().any(|one| one.terminal == StageNode::Station(station(&site, "B-1")))
        })
        .expect("its own stage");
    let late = device(&site, below, "B-1");
    assert!(late.runs);
    let booting_v = 0.5 * (43.2 + (43.2_f64 * 43.2 - 4.0 * 20.0 * 11.5).sqrt());
    near(late.lowest_v.expect("is up"), booting_v, 1e-3);
}

/// Where something is not in the catalogue nothing is guessed: the element and the key are named, and the stage is left out.
#[test]
fn what_is_missing_is_named() {
    let catalogue = parts(HOLDS_50_A)
        .replace(", input_capacitance = \"5000 uF\"", "")
        .replace("turn_off_voltage = \"20 V\", inrush", "inrush");
    let text = one("soft", "wire", "1 m");
    let site = site("", &catalogue, &format!("{STEADY}{text}"));
    let found =
        start_up(&site, &Layout::new(&site), Effort::Whole, &Memory::default()).expect("it is wanted");
    assert!(found.stages.is_empty());
    let missing: Vec<(&str, String)> =
        found.missing.iter().map(|one| (one.element.as_str(), one.missing.say(Language::English))).collect();
    assert_eq!(
        missing,
        ["soft turn_off_voltage", "soft input_capacitance"].map(|key| ("A-1", String::from(key)))
    );
}

/// Two stations boot at 20 W for 0.5 s and run at 1 W behind 2 ohm from 45.6 V: together 40 W, which is more than 0.5 A x 45.6 V; one
/// after the other 21 W, 0.471 A at `(45.6 + sqrt(45.6² - 4 x 2 x 21))/2` V. So a delay of 0.25 s between the runs is too short and
/// one of 0.5 s is not. Three at once: the third does not start before the first is up at 0.5 s between each and the next.
#[test]
fn a_delay_between_runs_lets_a_supply_start_that_cannot_feed_all_at_once() {
    let text = |flats: usize| {
        let names = ["A-1", "B-1", "C-1"];
        let dwellings: String =
            names[..flats].iter().map(|name| format!("{name} = {{ station = \"late\" }}\n")).collect();
        let runs: String = names[..flats]
            .iter()
            .map(|name| format!("R{name} = {{ from = \"PS\", to = \"{name}\", length = \"1 m\" }}\n"))
            .collect();
        format!("[supplies]\nPS = {{ model = \"ps\" }}\n[dwellings]\n{dwellings}[runs]\n{runs}")
    };
    for flats in [2, 3] {
        let (site, found) = returned(HOLDS_HALF_AN_AMPERE, &text(flats));
        assert!(!matches!(found.stages[0].outcome, StartUpOutcome::Runs { .. }), "{:?}", found.stages[0]);
        assert_eq!(least_stagger(&site, &Layout::new(&site), 0), Some(0.5), "{flats} flats");
    }
    // A limit below what one takes: no delay helps.
    let (site, _) = returned("limit_current = \"0.4 A\", limit_kind = \"constant-current\"", &text(2));
    assert_eq!(least_stagger(&site, &Layout::new(&site), 0), None);
}
