//! Faults placed by bridges in print: a loop test needs the resistance to the fault and that of the wire, whatever measures them.
//!
//! Hawkins Electrical Guide, volume 3 (out of copyright; the edition is not stated in the copy), Murray loop. Page 54, figure 597: a faulty wire of 16.46 ohm to the
//! mile in a loop of 54.07 ohm, the scale at 332 of 1,000: 1.09 miles. Page 53, figure 596, wires alike: at 500 of 1,000 the fault is half way. An
//! exercise without a printed answer: ratio arms of 2 and 1 ohm on 300 m of cable, of which the bridge's balance makes 600 m / 3 = 200 m, and 1 % of
//! its reading 2 m.
//!
//! The bridge gives the resistance of one wire to the fault. A short between the two wires of a run shows twice that as the loop.

use crate::checked;
use latchline_finding::Sources;
use latchline_locate::{Kind, Options, Plant, Rates, locate};
use latchline_network::Layout;
use latchline_site::{builtin_catalogue, resolve};

/// Loop of the faulty wire and the one that it is looped with, in ohms.
const LOOP_OHM: f64 = 54.07;
const OHM_PER_MILE: f64 = 16.46;
const METRES_PER_MILE: f64 = 1609.344;

/// Where a short lies in a run of this length whose loop was measured as [`LOOP_OHM`], in metres, its least and its most, if it reads so much now.
fn short_m(length_m: f64, reads_ohm: f64) -> [f64; 3] {
    let text = format!(
        r#"
[site]
title = "A long way to a gate (invented)"
family = "ostrel-48"
indoor_station = "ostrel-v7"
door_station = "ostrel-dv1"
cable = "pair-0.8"
[buildings]
V = {{ floors = ["G"] }}
[supplies]
PS = {{ model = "ostrel-ps-60", place = "V/G" }}
[distributors]
D1 = {{ model = "ostrel-d4", place = "V/G" }}
[entrances]
gate = {{ role = "main", place = "V/G", outdoors = true }}
[dwellings]
V-1 = {{ place = "V/G" }}
[runs]
feed = {{ from = "PS", to = "D1", cable = "flex-1.5", length = "1 m" }}
house = {{ from = "D1.1", to = ["V-1"], length = "10 m" }}
way = {{ from = "D1.2", to = "gate", cable = "outdoor-0.8", length = "{length_m} m", measured = {{ loop = "{LOOP_OHM} ohm" }} }}
"#
    );
    let mut sources = Sources::new();
    let (name, catalogue) = builtin_catalogue();
    let catalogue = sources.add(name, catalogue);
    let file = sources.add("site.toml", text);
    let resolved = resolve(&sources, file, &[catalogue]);
    let site = resolved.site.unwrap_or_else(|| panic!("{:?}", resolved.findings));
    let layout = Layout::new(&site);
    let plant = Plant::new(&site, &layout);
    let items = [
        format!("way={reads_ohm:.3}ohm,precise"),
        format!("insulation:way={reads_ohm:.2}ohm"),
        String::from("gate=dead"),
    ];
    let items: Vec<&str> = items.iter().map(String::as_str).collect();
    let asked = checked(&plant, &items);
    assert!(asked.problems.is_empty(), "{:?}", asked.problems);
    let found = locate(&plant, &asked.evidence, &Rates::built_in(), &Options::default());
    let (hypothesis, posterior) = found.cause(0);
    assert_eq!(hypothesis.cause.kind, Kind::Short);
    assert_eq!(hypothesis.cause.element.name(&site), "way: D1.2 – gate");
    let size = posterior.size.unwrap();
    [size.best, size.low, size.high].map(|place| place * length_m)
}

#[test]
fn a_fault_lies_where_the_printed_murray_loop_puts_it() {
    let to_fault_ohm = 0.332 * LOOP_OHM;
    let length_m = LOOP_OHM / 2.0 / OHM_PER_MILE * METRES_PER_MILE;
    let miles = short_m(length_m, 2.0 * to_fault_ohm).map(|metres| metres / METRES_PER_MILE);
    assert!((miles[0] - 1.09).abs() < 0.01, "{miles:?}");
    assert!(miles[1] < 1.09 && miles[2] > 1.09, "{miles:?}");
}

#[test]
fn with_wires_alike_half_the_scale_is_half_the_way() {
    let metres = short_m(300.0, 0.5 * LOOP_OHM);
    assert!((metres[0] - 150.0).abs() < 1.5, "{metres:?}");
}

#[test]
fn arms_of_two_and_one_put_it_at_two_thirds_of_the_cable() {
    let at = |times: f64| short_m(300.0, times * LOOP_OHM * 2.0 / 3.0)[0];
    assert!((at(1.0) - 200.0).abs() < 1.5, "{}", at(1.0));
    // 1 % of the reading is 2 m of 200 m.
    assert!((at(1.01) - at(1.0) - 2.0).abs() < 1.0 && (at(1.0) - at(0.99) - 2.0).abs() < 1.0);
}
