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
    let (with, least_with) = worst(&house("releases_at_once = 9", "feed = \"station\""));
    near(with, 1.1 * 1.03, 1e-9);
    near(least_without, 24.0 - 1.1 * 0.55, 1e-6);
    near(least_with, 24.0 - 1.1 * 0.55, 1e-6);
}

/// A lock with a supply of its own, or one that is held shut by power, takes nothing more from the bus when it opens.
#[test]
fn what_the_bus_does_not_energise_is_not_counted() {
    for side in ["feed = \"own-supply\", supply_voltage = \"12 V\"", "feed = \"dry-contact\""] {
        let (with, _) = worst(&house("releases_at_once = 9", side));
        near(with, 1.1 * 0.73, 1e-9);
    }
}

/// A door of the brute force: what it takes in standby, ringing, talking with its lock released, what a release takes more, and the loop of
/// its own run.
struct Door {
    extra_w: f64,
    loop_ohm: f64,
}

const FLATS_LOOP_OHM: [f64; 2] = [1.5, 4.0];
/// Watts with 10 % more, standby, ringing and talking, of a flat and a door.
const FLAT_W: [f64; 3] = [1.1 * 0.5, 1.1 * 2.0, 1.1 * 4.0];
const DOOR_W: [f64; 3] = [1.1 * 0.7, 1.1 * 3.0, 1.1 * 5.0];
const SOURCE_OHM: f64 = 1.0;

/// Voltages of loads of constant power on runs of their own behind one source resistance, by going back and forth between currents and
/// voltages until nothing moves: the plain sweep of the textbooks, which shares nothing with the program's solver.
fn swept(loads: &[(f64, f64)]) -> (f64, f64) {
    let mut volts = vec![24.0; loads.len()];
    let mut total_a = 0.0;
    for _ in 0..400 {
        total_a = loads.iter().zip(&volts).map(|((watts, _), volt)| watts / volt).sum();
        for ((watts, ohm), volt) in loads.iter().zip(&mut volts) {
            *volt = 24.0 - SOURCE_OHM * total_a - ohm * watts / *volt;
        }
    }
    (total_a, volts.iter().copied().fold(f64::INFINITY, f64::min))
}

/// The worst of every choice: at most `calls` calls, each ringing or talking with the lock released, and at most `releases` doors released
/// by hand beside.
fn by_force(doors: &[Door], calls: usize, releases: usize) -> (f64, f64) {
    let (mut most_a, mut least_v) = (0.0_f64, f64::INFINITY);
    // Per flat: nobody, or a door with its moment. 2 flats; a door is in one call at most.
    let choices: Vec<Option<(usize, bool)>> = std::iter::once(None)
        .chain((0..doors.len()).flat_map(|door| [Some((door, false)), Some((door, true))]))
        .collect();
    for one in &choices {
        for two in &choices {
            let standing: Vec<_> = [one, two].into_iter().flatten().collect();
            let is_twice = standing.len() == 2 && standing[0].0 == standing[1].0;
            if is_twice || standing.len() > calls {
                continue;
            }
            for by_hand in 0_u32..1 << doors.len() {
                let doubled = |(door, talks): &&(usize, bool)| *talks && by_hand >> door & 1 == 1;
                if by_hand.count_ones() as usize > releases
                    || standing.iter().copied().any(|call| doubled(&call))
                {
                    continue;
                }
                let flat = |call: &Option<(usize, bool)>| {
                    FLAT_W[call.map_or(0, |(_, talks)| 1 + usize::from(talks))]
                };
                let mut loads = vec![(flat(one), FLATS_LOOP_OHM[0]), (flat(two), FLATS_LOOP_OHM[1])];
                for (index, door) in doors.iter().enumerate() {
                    let call = standing.iter().find(|call| call.0 == index);
                    let talks = call.is_some_and(|call| call.1);
                    let own = DOOR_W[call.map_or(0, |call| 1 + usize::from(call.1))];
                    let released = if talks || by_hand >> index & 1 == 1 { 1.1 * door.extra_w } else { 0.0 };
                    loads.push((own + released, door.loop_ohm));
                }
                let (total_a, volts) = swept(&loads);
                most_a = most_a.max(total_a);
                least_v = least_v.min(volts);
            }
        }
    }
    (most_a, least_v)
}

/// Doors that differ in what their release takes and in their way, so that the doors that are worst for the supply are not those that are
/// worst for a voltage; two flats, any number of calls and releases at once, against every choice of both.
#[test]
fn the_worst_doors_are_those_of_every_choice() {
    let doors = [(2.0, 12.0), (7.0, 1.0), (4.5, 4.0), (6.0, 2.0)]
        .map(|(extra_w, loop_ohm)| Door { extra_w, loop_ohm });
    let stations: String = doors
        .iter()
        .enumerate()
        .map(|(index, door)| {
            format!(
                "door{index} = {{ title = \"Door\", source = \"invented\", family = \"mere\", kind = \"door\", media = \"audio\", loop_through = \"bridged\", \
                 standby = \"0.7 W\", ringing = \"3 W\", talking = \"5 W\", releasing_extra = \"{} W\", lock_output_voltage = \"12 V\", \
                 load_tolerance = \"10 %\", least_voltage = \"5 V\", least_standby_voltage = \"5 V\" }}\n",
                door.extra_w
            )
        })
        .collect();
    let parts = format!(
        "[supplies]\nps = {{ title = \"Supply\", source = \"invented\", family = \"mere\", voltage = \"24 V\", voltage_tolerance = \"0 %\", \
         source_resistance = \"1 ohm\", rated_current = \"9 A\", limit_kind = \"hiccup\", outputs = 8 }}\n[stations]\n\
         flat = {{ title = \"Flat\", source = \"invented\", family = \"mere\", kind = \"indoor\", media = \"audio\", loop_through = \"bridged\", \
         standby = \"0.5 W\", ringing = \"2 W\", talking = \"4 W\", load_tolerance = \"10 %\", least_voltage = \"5 V\", least_standby_voltage = \"5 V\" }}\n\
         {stations}[locks]\nstrike = {{ title = \"Strike\", source = \"invented\", kind = \"strike\", power_loss = \"stays-shut\", feed = \"dc\", \
         voltage = \"12 V\", current = \"0.3 A\" }}\n[cables]\nwire = {{ title = \"Wire\", source = \"invented\", gauge = \"50 ohm/km\", resistance_tolerance = \"0 %\" }}\n"
    );
    // 50 ohm a kilometre of one conductor: 10 m of run for an ohm of loop.
    let run = |name: &str, to: &str, loop_ohm: f64| {
        format!("{name} = {{ from = \"PS\", to = \"{to}\", length = \"{} m\" }}\n", loop_ohm * 10.0)
    };
    let mut runs = run("R1", "A-1", FLATS_LOOP_OHM[0]) + &run("R2", "A-2", FLATS_LOOP_OHM[1]);
    let mut entrances = String::new();
    for (index, door) in doors.iter().enumerate() {
        runs += &run(&format!("W{index}"), &format!("E{index}"), door.loop_ohm);
        let role = if index == 0 { "role = \"main\", " } else { "" };
        entrances += &format!(
            "E{index} = {{ {role}station = \"door{index}\", calls = [\"everyone\"], lock = {{ model = \"strike\", feed = \"station\" }} }}\n"
        );
    }
    for calls in [1, 2] {
        for releases in 0..=doors.len() {
            let rest = format!(
                "{STEADY}[policy]\nreleases_at_once = {releases}\n[supplies]\nPS = {{ model = \"ps\" }}\n[entrances]\n{entrances}\
                 [dwellings]\nA-1 = {{}}\nA-2 = {{}}\n[runs]\n{runs}"
            );
            let (current, voltage) = worst(&with_calls(calls, "", &parts, &rest));
            let (most_a, least_v) = by_force(&doors, calls, releases);
            near(current, most_a, 1e-6);
            near(voltage, least_v, 1e-5);
        }
    }
}
