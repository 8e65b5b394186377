//! The worst state of every device, searched with bounds, against plain enumeration of every
//! admissible set of calls, on random systems of up to ten dwellings: chains, branch boxes, port
//! resistances, regenerating boxes in cascade, extensions, several entrances with different scopes.
//!
//! The enumeration shares the flow solver with the search (which is checked elsewhere against other
//! programs) but neither bounds nor pruning nor order.

use latchline_finding::Sources;
use latchline_network::demand::Activity;
use latchline_network::evaluate::{SetOutcome, Solver};
use latchline_network::{Device, Layout, SearchOptions, StateSpace, worst_states};
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
[stations.light]
title = "Light"
source = "invented"
family = "test"
kind = "indoor"
media = "audio"
loop_through = "bridged"
standby = "0.2 W"
ringing = "2 W"
talking = "1.5 W"
least_voltage = "34 V"
least_standby_voltage = "28 V"
[stations.door]
title = "Door"
source = "invented"
family = "test"
kind = "door"
media = "video"
loop_through = "end"
standby = "3 W"
ringing = "7 W"
talking = "8 W"
night_extra = "1 W"
rectifier_drop = "1.4 V"
least_voltage = "36 V"
least_standby_voltage = "32 V"
[stations.desk]
title = "Desk"
source = "invented"
family = "test"
kind = "management"
media = "audio"
loop_through = "end"
standby = "1 W"
ringing = "3 W"
talking = "4 W"
least_voltage = "36 V"
least_standby_voltage = "32 V"
[cables.wire]
title = "Wire"
source = "invented"
gauge = "{gauge} mm"
"#,
        calls = draw.calls,
        source_ohm = draw.source_ohm,
        gauge = draw.gauge,
    )
}

#[derive(Debug, Clone)]
struct Draw {
    calls: usize,
    load_kind: usize,
    source_ohm: f64,
    gauge: f64,
    regenerate: bool,
    entrances: usize,
    desk: bool,
    /// Per dwelling: run 0..4, section length, light model, with extension.
    dwellings: Vec<(usize, f64, bool, bool)>,
    feeder_m: f64,
    partial_scope: bool,
}

fn draws() -> impl Strategy<Value = Draw> {
    let dwelling = (0..4_usize, 2.0..25.0_f64, any::<bool>(), prop::bool::weighted(0.2));
    (
        (1..=3_usize, 0..3_usize, 0.0..0.6_f64, prop::sample::select(vec![0.5, 0.6, 0.8])),
        (any::<bool>(), 1..=3_usize, any::<bool>(), any::<bool>()),
        prop::collection::vec(dwelling, 1..=10),
        1.0..40.0_f64,
    )
        .prop_map(|(first, second, dwellings, feeder_m)| Draw {
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
        })
}

/// The site: supply, plain distributor with the doors; its port 4 feeds a second distributor (plain or
/// regenerating); runs 0 and 1 from the first, run 2 and a branch box with run 3 from the second.
fn site_text(draw: &Draw) -> String {
    let mut text = String::from(
        "[site]\ntitle = \"T\"\nfamily = \"test\"\nindoor_station = \"flat\"\ndoor_station = \"door\"\n[supplies]\nPS = { model = \"supply\" }\n[distributors]\nD1 = { model = \"plain\" }\n",
    );
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
        text.push_str("W7 = { from = \"PS\", to = [\"E1\"], cable = \"wire\", lengths = [\"30 m\"] }\n");
    }
    if draw.entrances > 2 {
        text.push_str("W8 = { from = \"PS\", to = [\"E2\"], cable = \"wire\", lengths = [\"11 m\"] }\n");
    }
    if draw.desk {
        text.push_str("W9 = { from = \"PS\", to = [\"Desk\"], cable = \"wire\", lengths = [\"4 m\"] }\n");
    }
    text
}

fn resolve(draw: &Draw) -> Site {
    let mut sources = Sources::new();
    let catalogue = sources.add("catalogue", catalogue(draw));
    let text = site_text(draw);
    let site = sources.add("site", text.clone());
    let resolved = latchline_site::resolve(&sources, site, &[catalogue]);
    resolved.site.unwrap_or_else(|| panic!("{:#?}\n{text}", resolved.findings))
}

/// Every admissible set of at most so many options, by plain recursion.
fn every_set(phase: &latchline_network::Phase) -> Vec<Vec<usize>> {
    let mut sets = vec![Vec::new()];
    let mut grown = vec![Vec::new()];
    for _ in 0..phase.most_calls {
        let mut next = Vec::new();
        for set in &grown {
            let from = set.last().map_or(0, |last: &usize| last + 1);
            for option in from..phase.options.len() {
                if set.iter().all(|other| phase.options[*other].is_compatible(&phase.options[option])) {
                    let mut larger = set.clone();
                    larger.push(option);
                    next.push(larger);
                }
            }
        }
        sets.extend(next.iter().cloned());
        grown = next;
    }
    sets
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn search_and_enumeration_agree(draw in draws()) {
        let site = resolve(&draw);
        let layout = Layout::new(&site);
        let space = StateSpace::new(&site, &layout);
        let exact = SearchOptions { tolerance: 0.0, most_sets: 1_000_000, most_sets_of_stage: 100_000_000, most_sets_without_bound: 1_000_000 };
        let found = worst_states(&site, &layout, &space, &exact);
        let coarse = worst_states(&site, &layout, &space, &SearchOptions::default());
        for (index, phase) in space.phases.iter().enumerate() {
            let mut solver = Solver::new(&layout, phase);
            let sets = every_set(phase);
            let mut least = vec![f64::INFINITY; found.devices.len()];
            let mut most = vec![0.0_f64; layout.stages.len()];
            let mut most_run = vec![0.0_f64; site.runs.len()];
            for set in &sets {
                for (stage, most) in most.iter_mut().enumerate() {
                    let solved = solver.solve_set(stage, set) == SetOutcome::Solved;
                    *most = if solved { most.max(solver.segment_current_a(stage, 0)) } else { f64::INFINITY };
                    for (run, start) in layout.run_start.iter().enumerate() {
                        let Some(at) = start.filter(|at| at.stage == stage) else { continue };
                        most_run[run] = if solved { most_run[run].max(solver.segment_current_a(stage, at.node)) } else { f64::INFINITY };
                    }
                    for (device, least) in found.devices.iter().zip(&mut least) {
                        if device.at.stage != stage {
                            continue;
                        }
                        let limit = limit(&site, phase, set, device.device);
                        let margin = if solved { solver.solution(stage).voltage_v[device.at.node] - limit } else { f64::NEG_INFINITY };
                        *least = least.min(margin);
                    }
                }
            }
            for (device, least) in found.devices.iter().zip(&least) {
                let Some(margin) = device.margins.iter().find(|margin| margin.phase == index) else { continue };
                prop_assert!(margin.complete);
                if least.is_finite() {
                    prop_assert!((margin.margin_v() - least).abs() < 1e-6,
                        "{:?} in {:?}: searched {} V, enumerated {} V", device.device, phase.kind, margin.margin_v(), least);
                } else {
                    prop_assert!(margin.voltage_v.is_none());
                }
            }
            for (device, least) in coarse.devices.iter().zip(&least) {
                let Some(margin) = device.margins.iter().find(|margin| margin.phase == index) else { continue };
                if margin.voltage_v.is_some() {
                    prop_assert!((margin.margin_v() - least).abs() <= SearchOptions::default().tolerance + 1e-6);
                }
            }
            for (current, most) in found.source_current.iter().zip(&most).chain(found.run_current.iter().zip(&most_run)) {
                let Some(current) = current.as_ref().filter(|current| current.phase == index) else { continue };
                if let Some(current_a) = current.current_a {
                    prop_assert!((current_a - most).abs() < 1e-6, "{current_a} A searched, {most} A enumerated");
                }
            }
        }
    }
}

/// The limit that holds for a device while a set stands.
fn limit(site: &Site, phase: &latchline_network::Phase, set: &[usize], device: Device) -> f64 {
    match device {
        Device::Station(station) => {
            let model = site.station_model(&site.stations[station]);
            let busy = set
                .iter()
                .flat_map(|option| &phase.options[*option].busy)
                .find(|(index, _)| *index == station)
                .map_or(phase.base_activity[station], |(_, activity)| *activity);
            let in_use = matches!(busy, Activity::Ringing | Activity::Talking | Activity::Releasing);
            if in_use { model.least_voltage.value } else { model.least_standby_voltage.value }.as_volts()
        }
        Device::Box(index) => {
            let model = site.box_model(&site.boxes[index]);
            model.least_voltage.as_ref().map_or(0.0, |least| least.value.as_volts())
        }
    }
}
