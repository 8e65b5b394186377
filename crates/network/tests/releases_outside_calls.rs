//! Releases by exit button, reader or keypad while calls stand, by hand.

use crate::small_site::{STEADY, near, with_calls};
use latchline_finding::StateKind;
use latchline_network::{Layout, SearchOptions, StateSpace, worst_states};
use latchline_site::model::Site;

const PARTS: &str = r#"
[supplies]
ps = { title = "Supply", source = "invented", family = "mere", voltage = "24 V", voltage_tolerance = "0 %", source_resistance = "0 ohm", rated_current = "4 A", limit_kind = "hiccup", outputs = 4 }
[stations]
flat = { title = "Flat", source = "invented", family = "mere", kind = "indoor", media = "audio", loop_through = "bridged", standby = "0.02 A", ringing = "0.09 A", talking = "0.15 A", load_tolerance = "10 %", least_voltage = "10 V", least_standby_voltage = "10 V" }
door = { title = "Door", source = "invented", family = "mere", kind = "door", media = "audio", loop_through = "bridged", standby = "0.03 A", ringing = "0.2 A", talking = "0.25 A", releasing_extra = "0.3 A", lock_output_voltage = "12 V", load_tolerance = "10 %", least_voltage = "10 V", least_standby_voltage = "10 V" }
[locks]
strike = { title = "Strike", source = "invented", kind = "strike", power_loss = "stays-shut", feed = "dc", voltage = "12 V", current = "0.3 A" }
[cables]
wire = { title = "Wire", source = "invented", gauge = "50 ohm/km", resistance_tolerance = "0 %" }
"#;

fn house(policy: &str, side: &str) -> Site {
    let rest = format!(
        "{STEADY}[policy]\n{policy}\n[supplies]\nPS = {{ model = \"ps\" }}\n\
         [entrances]\nfront = {{ role = \"main\", calls = [\"everyone\"], lock = {{ model = \"strike\", feed = \"station\" }} }}\n\
         side = {{ calls = [\"everyone\"], lock = {{ model = \"strike\", {side} }} }}\n[dwellings]\nA-1 = {{}}\n[runs]\n\
         F = {{ from = \"PS\", to = \"front\", length = \"10 m\" }}\nS = {{ from = \"PS\", to = \"side\", length = \"10 m\" }}\n\
         R = {{ from = \"PS\", to = \"A-1\", length = \"10 m\" }}\n"
    );
    with_calls(1, "", PARTS, &rest)
}

/// The largest current of the supply while a call stands, and the least voltage of any device.
fn worst(site: &Site) -> (f64, f64) {
    let layout = Layout::new(site);
    let space = StateSpace::new(site, &layout);
    let options = SearchOptions { tolerance: 0.0, ..SearchOptions::default() };
    let worst = worst_states(site, &layout, &space, &options);
    let current = worst.source_current[0].as_ref().expect("a current");
    assert_eq!(space.phases[current.phase].kind, StateKind::Call);
    let voltage = |device: &latchline_network::DeviceStates| device.worst().voltage_v.expect("a voltage");
    let least = worst.devices.iter().map(voltage).fold(f64::INFINITY, f64::min);
    (current.current_a.expect("an operating point"), least)
}

/// All with 10 % more: the door that calls talks and releases, 0.55 A, the flat talks, 0.15 A, the other door waits, 0.03 A: 0.803 A. With
/// releases outside calls that one takes 0.3 A more: 1.133 A, and no more than that, its own call's release being the same one. 10 m of 50
/// ohm/km are 1 ohm of loop: 24 V - 0.605 V at the door that talks either way.
#[test]
fn the_other_door_is_released_as_well() {
    let (without, least_without) = worst(&house("", "feed = \"station\""));
    near(without, 1.1 * 0.73, 1e-9);
    let (with, least_with) = worst(&house("releases_outside_calls = true", "feed = \"station\""));
    near(with, 1.1 * 1.03, 1e-9);
    near(least_without, 24.0 - 1.1 * 0.55, 1e-6);
    near(least_with, 24.0 - 1.1 * 0.55, 1e-6);
}

/// A lock with a supply of its own, or one that is held shut by power, takes nothing more from the bus when it opens.
#[test]
fn what_the_bus_does_not_energise_is_not_counted() {
    for side in ["feed = \"own-supply\", supply_voltage = \"12 V\"", "feed = \"dry-contact\""] {
        let (with, _) = worst(&house("releases_outside_calls = true", side));
        near(with, 1.1 * 0.73, 1e-9);
    }
}
