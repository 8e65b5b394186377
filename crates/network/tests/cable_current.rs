//! What a conductor may carry, among the first limits that a growing load meets, by hand.

use crate::small_site::{STEADY, near, with_calls};
use latchline_network::worst::{FirstLimit, Limited};
use latchline_network::{Growth, Layout, Memory, SearchOptions, StateSpace, worst_states};

/// A flat alone behind 10 m of 50 ohm/km; its currents are constant, so they grow as the load does.
fn first_limit(cable: &str, run: &str) -> FirstLimit {
    let parts = format!(
        r#"
[supplies]
ps = {{ title = "Supply", source = "invented", family = "mere", voltage = "24 V", voltage_tolerance = "0 %", source_resistance = "0 ohm", rated_current = "4 A", limit_kind = "hiccup", outputs = 4 }}
[stations]
flat = {{ title = "Flat", source = "invented", family = "mere", kind = "indoor", media = "audio", loop_through = "bridged", standby = "0.02 A", ringing = "0.09 A", talking = "0.15 A", load_tolerance = "10 %", least_voltage = "10 V", least_standby_voltage = "10 V" }}
door = {{ title = "Door", source = "invented", family = "mere", kind = "door", media = "audio", loop_through = "bridged", standby = "0.03 A", ringing = "0.2 A", talking = "0.25 A", load_tolerance = "10 %", least_voltage = "10 V", least_standby_voltage = "10 V" }}
[cables]
wire = {{ title = "Wire", source = "invented", gauge = "50 ohm/km", resistance_tolerance = "0 %", pairs = 2{cable} }}
"#
    );
    let rest = format!(
        "{STEADY}[supplies]\nPS = {{ model = \"ps\" }}\n[entrances]\nfront = {{ role = \"main\", calls = [\"everyone\"] }}\n\
         [dwellings]\nA-1 = {{}}\n[runs]\nF = {{ from = \"PS\", to = \"front\", length = \"10 m\" }}\n\
         R = {{ from = \"PS\", to = \"A-1\", length = \"10 m\"{run} }}\n"
    );
    let site = with_calls(1, "", &parts, &rest);
    let layout = Layout::new(&site);
    let space = StateSpace::new(&site, &layout);
    let options = SearchOptions { tolerance: 0.0, ..SearchOptions::default() };
    {
        let (worst, memory) = (worst_states(&site, &layout, &space, &options), Memory::default());
        Growth::of(&site, &layout, &space, &worst, &memory).expect("it is wanted")
    }
    .first_limit[0]
        .clone()
        .expect("a first limit")
}

/// In a call the door talks with 0.25 A and 10 % more, 0.275 A, the flat with 0.15 A and 10 % more, 0.165 A: the run to the door meets 0.33 A
/// at 1.2 times the load, before the supply meets 4 A at 9.09 times. Two pairs carry twice as much on the flat's run, which changes nothing
/// at the door's.
#[test]
fn a_cable_meets_its_rating_as_the_load_grows() {
    for run in ["", ", pairs = 2"] {
        let first = first_limit(", current_rating = \"0.33 A\"", run);
        assert_eq!(first.limited, Limited::CableCurrent { run: 0 });
        near(first.factor, 0.33 / 0.275, 1e-6);
        near(first.limit, 0.33, 1e-12);
    }
}

/// Without a rating the supply comes first: 0.44 A grow to 4 A.
#[test]
fn a_cable_without_rating_is_no_limit() {
    let first = first_limit("", "");
    assert_eq!(first.limited, Limited::SourceCurrent);
    near(first.factor, 4.0 / 0.44, 1e-6);
}
