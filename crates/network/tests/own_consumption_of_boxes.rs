//! What a box takes itself has a tolerance, as stations have.

use crate::small_site::{STEADY, near, site};
use latchline_network::{Layout, SearchOptions, StateSpace, worst_states};

fn source_current(tolerance: &str) -> f64 {
    let catalogue = format!(
        "[supplies]\nps = {{ title = \"Supply\", source = \"invented\", family = \"mere\", voltage = \"24 V\", voltage_tolerance = \"0 %\", \
         source_resistance = \"0 ohm\", rated_current = \"4 A\", limit_kind = \"hiccup\" }}\n\
         [boxes]\nhub = {{ title = \"Box\", source = \"invented\", family = \"mere\", role = \"distributor\", kind = \"transparent\", ports = 2, \
         consumption = \"0.2 A\"{tolerance} }}\n\
         [stations]\nflat = {{ title = \"Flat\", source = \"invented\", family = \"mere\", kind = \"indoor\", media = \"audio\", \
         loop_through = \"bridged\", standby = \"0.1 A\", ringing = \"0.1 A\", talking = \"0.1 A\", load_tolerance = \"0 %\", \
         least_voltage = \"10 V\", least_standby_voltage = \"10 V\" }}\n\
         [cables]\nwire = {{ title = \"Wire\", source = \"invented\", gauge = \"50 ohm/km\", resistance_tolerance = \"0 %\" }}\n"
    );
    let rest = format!(
        "{STEADY}[supplies]\nPS = {{ model = \"ps\" }}\n[distributors]\nD = {{ model = \"hub\" }}\n[dwellings]\nA-1 = {{}}\n\
         [runs]\nF = {{ from = \"PS\", to = \"D\", length = \"1 m\" }}\nR = {{ from = \"D.1\", to = \"A-1\", length = \"1 m\" }}\n"
    );
    let site = site("", &catalogue, &rest);
    let layout = Layout::new(&site);
    let space = StateSpace::new(&site, &layout);
    let worst =
        worst_states(&site, &layout, &space, &SearchOptions { tolerance: 0.0, ..SearchOptions::default() });
    worst.source_current[0].as_ref().and_then(|current| current.current_a).expect("an operating point")
}

/// 0.1 A of the flat and 0.2 A of the box: with 25 % more 0.35 A, with nothing stated 10 %, 0.32 A.
#[test]
fn the_largest_current_has_it_in() {
    near(source_current(", load_tolerance = \"0 %\""), 0.30, 1e-9);
    near(source_current(", load_tolerance = \"25 %\""), 0.35, 1e-9);
    near(source_current(""), 0.32, 1e-9);
}
