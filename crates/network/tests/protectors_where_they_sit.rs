//! What surge protectors add to the loop of a run, section by section, by hand.

use crate::small_site::{STEADY, near, run, site};
use latchline_network::resistance::section_resistances;
use latchline_site::model::Site;

const PARTS: &str = r#"
[supplies]
ps = { title = "Supply", source = "invented", family = "mere", voltage = "24 V", voltage_tolerance = "0 %", source_resistance = "0 ohm", rated_current = "4 A", limit_kind = "hiccup", outputs = 4 }
[stations]
flat = { title = "Flat", source = "invented", family = "mere", kind = "indoor", media = "audio", loop_through = "bridged", standby = "0.02 A", ringing = "0.09 A", talking = "0.15 A", least_voltage = "10 V", least_standby_voltage = "10 V" }
door = { title = "Door", source = "invented", family = "mere", kind = "door", media = "audio", loop_through = "bridged", standby = "0.03 A", ringing = "0.2 A", talking = "0.25 A", least_voltage = "10 V", least_standby_voltage = "10 V" }
[cables]
wire = { title = "Wire", source = "invented", gauge = "50 ohm/km", resistance_tolerance = "0 %", pairs = 2 }
"#;

/// Two flats and a door on one run from building A, the door in building `of_door`.
fn case(of_door: &str, keys: &str, of_entrance: &str) -> Site {
    let rest = format!(
        "{STEADY}[buildings]\nA = {{ floors = [\"G\"] }}\nB = {{ floors = [\"G\"] }}\n[supplies]\nPS = {{ model = \"ps\", place = \"A/G\" }}\n\
         [entrances]\nfront = {{ role = \"main\", place = \"{of_door}/G\"{of_entrance} }}\n\
         [dwellings]\nA-1 = {{ place = \"A/G\" }}\nA-2 = {{ place = \"A/G\" }}\n[runs]\n\
         R = {{ from = \"PS\", to = [\"A-1\", \"A-2\", \"front\"], lengths = [\"10 m\", \"20 m\", \"30 m\"]{keys} }}\n"
    );
    site("", PARTS, &rest)
}

/// Ohms of each section beyond those of the cable: 10 m, 20 m and 30 m of 2 x 50 ohm/km are 1, 2 and 3 ohm.
fn added(site: &Site) -> Vec<f64> {
    let sections = section_resistances(site, &site.runs[run(site, "R")]);
    let of_cable = [1.0, 2.0, 3.0];
    for (section, cable) in sections.iter().zip(of_cable) {
        // A meter on the bare cable sees none of them.
        near(section.ohm[0] - section.protection_ohm, cable, 1e-12);
    }
    sections.iter().map(|section| section.protection_ohm).collect()
}

#[test]
fn within_a_building_one_sits_where_the_run_starts() {
    assert_eq!(added(&case("A", "", "")), [0.0, 0.0, 0.0]);
    assert_eq!(added(&case("A", ", surge_protection = \"1.5 ohm\"", "")), [1.5, 0.0, 0.0]);
    let at = |at: &str| format!(", surge_protection = \"1.5 ohm\", surge_protection_at = \"{at}\"");
    assert_eq!(added(&case("A", &at("end"), "")), [0.0, 0.0, 1.5]);
    assert_eq!(added(&case("A", &at("both"), "")), [1.5, 0.0, 1.5]);
}

#[test]
fn from_one_building_to_another_one_sits_at_each_end() {
    assert_eq!(added(&case("B", ", surge_protection = \"1.5 ohm\"", "")), [1.5, 0.0, 1.5]);
    let start = ", surge_protection = \"1.5 ohm\", surge_protection_at = \"start\"";
    assert_eq!(added(&case("B", start, "")), [1.5, 0.0, 0.0]);
}

/// That of the door station is the one at that end, whatever the run says of its ends: it is never counted twice.
#[test]
fn a_door_stations_own_is_the_one_at_that_end() {
    let own = ", surge_protection = \"4 ohm\"";
    assert_eq!(added(&case("B", ", surge_protection = \"1.5 ohm\"", own)), [1.5, 0.0, 4.0]);
    let both = ", surge_protection = \"1.5 ohm\", surge_protection_at = \"both\"";
    assert_eq!(added(&case("A", both, own)), [1.5, 0.0, 4.0]);
}

/// A measured loop is that of the cable alone, shared out by length, 6 ohm over 60 m; protectors come to it where they sit.
#[test]
fn a_measured_loop_leaves_them_where_they_sit() {
    let measured = ", surge_protection = \"1.5 ohm\", measured = { loop = \"6 ohm\" }";
    let site = case("B", measured, "");
    let sections = section_resistances(&site, &site.runs[run(&site, "R")]);
    let nominal: Vec<f64> = sections.iter().map(|section| section.ohm[0]).collect();
    for (found, wanted) in nominal.iter().zip([2.5, 2.0, 4.5]) {
        near(*found, wanted, 1e-9);
    }
}
