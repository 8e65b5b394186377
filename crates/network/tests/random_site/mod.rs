//! Random systems of up to ten dwellings: chains, branch boxes, port resistances, regenerating boxes in cascade, extensions,
//! several entrances with different scopes, all on one bus or the doors on one of their own.
#![allow(dead_code, reason = "each test file uses its own share of these")]

use latchline_finding::Sources;
use latchline_network::Phase;
use latchline_site::model::Site;
use proptest::prelude::*;
use std::fmt::Write as _;

/// A catalogue of plain parts; figures in the range that the trade knows (common practice, no source).
fn catalogue(draw: &Draw) -> String {
    let standby = ["0.9 W", "18 mA", "0.4 W"][draw.load_kind % 3];
    let talking = ["6 W", "130 mA", "5 W"][draw.load_kind % 3];
    format!(
        r#"
currency = "EUR"
[families.test]
title = "Test"
source = "invented"
nominal_voltage = "48 V"
simultaneous_calls = {calls}
simultaneous_views = 1
all_call = true
signal_bands = [{{ name = "speech", low = "300 Hz", high = "3.4 kHz", budget = "12 dB" }}, {{ name = "data", low = "100 kHz", high = "2 MHz", budget = "30 dB", ripple = "6 dB" }}, {{ name = "picture", low = "1 MHz", high = "4 MHz", budget = "20 dB", share = "50 %" }}]
[families.test.addresses]
indoor = [{{ field = "dwelling", first = 1, last = 99, set_by = "keyed", digits = 2, label = "NUMBER" }}, {{ field = "extension", first = 1, last = 9, set_by = "keyed", digits = 1, label = "STATION" }}]
door = [{{ field = "entrance", first = 1, last = 9, set_by = "keyed", digits = 1, label = "DOOR" }}]
management = [{{ field = "management", first = 1, last = 9, set_by = "keyed", digits = 1, label = "DESK" }}]
[supplies.supply]
title = "Supply"
source = "invented"
family = "test"
voltage = "48 V"
voltage_tolerance = "3 %"
source_resistance = "{source_ohm} ohm"
rated_current = "4 A"
limit_kind = "constant-current"
feed_choke = "10 mH"
[boxes.plain]
title = "Plain"
source = "invented"
family = "test"
role = "distributor"
kind = "transparent"
ports = 4
consumption = "0.5 W"
least_voltage = "30 V"
port_resistance = "0.2 ohm"
signal_loss = "1 dB"
[boxes.fresh]
title = "Fresh"
source = "invented"
family = "test"
role = "distributor"
kind = "regenerated"
ports = 4
least_voltage = "30 V"
output_voltage = "46 V"
output_tolerance = "2 %"
output_resistance = "0.3 ohm"
efficiency = "85 %"
signal_loss = "1 dB"
feed_choke = "10 mH"
turn_on_voltage = "28 V"
turn_off_voltage = "20 V"
input_capacitance = "220 uF"
[boxes.tee]
title = "Tee"
source = "invented"
family = "test"
role = "branch-box"
kind = "transparent"
ports = 3
[stations.flat]
title = "Flat"
source = "invented"
family = "test"
kind = "indoor"
media = "video"
loop_through = "bridged"
standby = "{standby}"
ringing = "4 W"
talking = "{talking}"
boot = "2 W"
rectifier_drop = "1.4 V"
least_voltage = "36 V"
least_standby_voltage = "30 V"
bridging_resistance = "20 kohm"
bridging_capacitance = "100 pF"
signal_impedance = "100 ohm"
turn_on_voltage = "31 V"
turn_off_voltage = "22 V"
input_capacitance = "220 uF"
boot_time = "2 s"
[stations.light]
title = "Light"
source = "invented"
family = "test"
kind = "indoor"
media = "audio"
loop_through = "bridged"
standby = "0.2 W"
boot = "0.2 W"
boot_time = "0.001 ms"
ringing = "2 W"
talking = "1.5 W"
least_voltage = "34 V"
least_standby_voltage = "28 V"
bridging_resistance = "20 kohm"
bridging_capacitance = "100 pF"
signal_impedance = "600 ohm"
turn_on_voltage = "29 V"
turn_off_voltage = "22 V"
input_capacitance = "100 uF"
[stations.door]
title = "Door"
source = "invented"
family = "test"
kind = "door"
media = "video"
loop_through = "end"
standby = "3 W"
boot = "3 W"
boot_time = "0.001 ms"
ringing = "7 W"
talking = "8 W"
night_extra = "1 W"
rectifier_drop = "1.4 V"
least_voltage = "36 V"
least_standby_voltage = "32 V"
bridging_resistance = "20 kohm"
bridging_capacitance = "100 pF"
signal_impedance = "100 ohm"
turn_on_voltage = "33 V"
turn_off_voltage = "22 V"
input_capacitance = "470 uF"
[stations.desk]
title = "Desk"
source = "invented"
family = "test"
kind = "management"
media = "audio"
loop_through = "end"
standby = "1 W"
boot = "1 W"
boot_time = "0.001 ms"
ringing = "3 W"
talking = "4 W"
least_voltage = "36 V"
least_standby_voltage = "32 V"
bridging_resistance = "20 kohm"
bridging_capacitance = "100 pF"
signal_impedance = "600 ohm"
turn_on_voltage = "33 V"
turn_off_voltage = "22 V"
input_capacitance = "100 uF"
[cables.wire]
title = "Wire"
source = "invented"
gauge = "{gauge} mm"
line = {{ capacitance = "50 nF/km", inductance = "0.6 mH/km", skin_corner = "80 kHz", loss_tangent = 0.01 }}
"#,
        calls = draw.calls,
        source_ohm = draw.source_ohm,
        gauge = draw.gauge,
    )
}

#[derive(Debug, Clone)]
pub struct Draw {
    pub calls: usize,
    pub load_kind: usize,
    pub source_ohm: f64,
    pub gauge: f64,
    pub regenerate: bool,
    pub entrances: usize,
    pub desk: bool,
    /// Per dwelling: run 0..4, section length, light model, with extension.
    pub dwellings: Vec<(usize, f64, bool, bool)>,
    pub feeder_m: f64,
    pub partial_scope: bool,
    /// Whether the further doors and the desk have a supply of their own.
    pub second_supply: bool,
}

pub fn draws() -> impl Strategy<Value = Draw> {
    let dwelling = (0..4_usize, 2.0..25.0_f64, any::<bool>(), prop::bool::weighted(0.2));
    (
        (1..=3_usize, 0..3_usize, 0.0..0.6_f64, prop::sample::select(vec![0.5, 0.6, 0.8])),
        (any::<bool>(), 1..=3_usize, any::<bool>(), any::<bool>()),
        prop::collection::vec(dwelling, 1..=10),
        1.0..40.0_f64,
        any::<bool>(),
    )
        .prop_map(|(first, second, dwellings, feeder_m, second_supply)| Draw {
            calls: first.0,
            load_kind: first.1,
            source_ohm: (first.2 * 100.0).round() / 100.0,
            gauge: first.3,
            regenerate: second.0,
            entrances: second.1,
            desk: second.2,
            partial_scope: second.3,
            dwellings,
            feeder_m,
            second_supply,
        })
}

/// The site: supply, plain distributor with the doors; its port 4 feeds a second distributor (plain or
/// regenerating); runs 0 and 1 from the first, run 2 and a branch box with run 3 from the second.
fn site_text(draw: &Draw) -> String {
    let mut text = String::from(
        "[site]\ntitle = \"T\"\nfamily = \"test\"\nindoor_station = \"flat\"\ndoor_station = \"door\"\n[supplies]\nPS = { model = \"supply\" }\n",
    );
    let doors_on = if draw.second_supply && (draw.entrances > 1 || draw.desk) {
        text.push_str("Q = { model = \"supply\" }\n");
        "Q"
    } else {
        "PS"
    };
    text.push_str("[distributors]\nD1 = { model = \"plain\" }\n");
    let mut runs: Vec<Vec<(String, f64)>> = vec![Vec::new(); 4];
    let mut dwellings = String::from("[dwellings]\n");
    for (index, &(run, length, light, extension)) in draw.dwellings.iter().enumerate() {
        let name = format!("F{}", index + 1);
        let model = if light { "light" } else { "flat" };
        let extensions = if extension { ", extensions = [\"light\"]" } else { "" };
        let _ = writeln!(dwellings, "{name} = {{ station = \"{model}\"{extensions} }}");
        runs[run].push((name.clone(), length));
        if extension {
            runs[run].push((format!("{name}:2"), 3.0));
        }
    }
    let second = !runs[2].is_empty() || !runs[3].is_empty();
    if second {
        let model = if draw.regenerate { "fresh" } else { "plain" };
        let _ = writeln!(text, "D2 = {{ model = \"{model}\" }}");
    }
    if !runs[3].is_empty() {
        text.push_str("[branch-boxes]\nB1 = { model = \"tee\" }\n");
    }
    text.push_str("[entrances]\n");
    for index in 0..draw.entrances {
        let role = if index == 0 { "main" } else { "secondary" };
        let calls = if draw.partial_scope && index > 0 { "\"F1\"" } else { "\"everyone\"" };
        let _ = writeln!(text, "E{index} = {{ role = \"{role}\", calls = [{calls}] }}");
    }
    if draw.desk {
        text.push_str("[management]\nDesk = { model = \"desk\", calls = [\"everyone\"] }\n");
    }
    text.push_str(&dwellings);
    text.push_str("[runs]\n");
    let feeder = (draw.feeder_m * 10.0).round() / 10.0;
    let _ =
        writeln!(text, "W0 = {{ from = \"PS\", to = \"D1\", cable = \"wire\", length = \"{feeder} m\" }}");
    let starts = ["D1.1", "D1.2", "D2.1", "B1.1"];
    for (run, stops) in runs.iter().enumerate().filter(|(_, stops)| !stops.is_empty()) {
        let names: Vec<String> = stops.iter().map(|(name, _)| format!("\"{name}\"")).collect();
        let lengths: Vec<String> = stops.iter().map(|(_, length)| format!("\"{length:.2} m\"")).collect();
        let (names, lengths) = (names.join(", "), lengths.join(", "));
        let from = starts[run];
        let _ = writeln!(
            text,
            "R{run} = {{ from = \"{from}\", to = [{names}], cable = \"wire\", lengths = [{lengths}] }}"
        );
    }
    if second {
        text.push_str("W4 = { from = \"D1.4\", to = \"D2\", cable = \"wire\", length = \"18 m\" }\n");
    }
    if !runs[3].is_empty() {
        text.push_str("W5 = { from = \"D2.2\", to = \"B1\", cable = \"wire\", length = \"9 m\" }\n");
    }
    // Doors: a chain from port 3, the last one branching off the first where there are three.
    text.push_str("W6 = { from = \"D1.3\", to = [\"E0\"], cable = \"wire\", lengths = [\"15 m\"] }\n");
    if draw.entrances > 1 {
        let _ = writeln!(
            text,
            "W7 = {{ from = \"{doors_on}\", to = [\"E1\"], cable = \"wire\", lengths = [\"30 m\"] }}"
        );
    }
    if draw.entrances > 2 {
        let _ = writeln!(
            text,
            "W8 = {{ from = \"{doors_on}\", to = [\"E2\"], cable = \"wire\", lengths = [\"11 m\"] }}"
        );
    }
    if draw.desk {
        let _ = writeln!(
            text,
            "W9 = {{ from = \"{doors_on}\", to = [\"Desk\"], cable = \"wire\", lengths = [\"4 m\"] }}"
        );
    }
    text
}

pub fn resolve(draw: &Draw) -> Site {
    let mut sources = Sources::new();
    let catalogue = sources.add("catalogue", catalogue(draw));
    let text = site_text(draw);
    let site = sources.add("site", text.clone());
    let resolved = latchline_site::resolve(&sources, site, &[catalogue]);
    resolved.site.unwrap_or_else(|| panic!("{:#?}\n{text}", resolved.findings))
}

/// Every admissible set of at most so many options, by plain recursion.
pub fn every_set(phase: &Phase) -> Vec<Vec<usize>> {
    let mut sets = vec![Vec::new()];
    let mut grown = vec![Vec::new()];
    for _ in 0..phase.most_calls + phase.most_releases {
        let mut next = Vec::new();
        for set in &grown {
            let from = set.last().map_or(0, |last: &usize| last + 1);
            for option in from..phase.options.len() {
                if set.iter().all(|other| phase.options[*other].is_compatible(&phase.options[option])) {
                    let mut larger = set.clone();
                    larger.push(option);
                    if phase.admits(&larger) {
                        next.push(larger);
                    }
                }
            }
        }
        sets.extend(next.iter().cloned());
        grown = next;
    }
    sets
}
