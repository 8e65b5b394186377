//! The largest power at a supply's terminals, by hand for one chain and against a plain model of its own on random stars.

use crate::random_site::every_set;
use crate::small_site::{STEADY, near, with_calls};
use latchline_finding::StateKind;
use latchline_network::demand::Activity;
use latchline_network::{Layout, Phase, SearchOptions, StateSpace, worst_states};
use latchline_site::model::Site;
use proptest::prelude::*;
use std::fmt::Write as _;

/// What a station of the test draws by what it does, power or current: standby, ringing, talking.
type Draws = [f64; 3];

const POWER: Draws = [1.0, 4.0, 6.0];
const CURRENT: Draws = [0.02, 0.09, 0.15];
const DOOR: Draws = [0.03, 0.2, 0.25];

fn parts(source_ohm: f64) -> String {
    let loads = |draws: Draws, unit: &str| {
        format!(
            "standby = \"{} {unit}\", ringing = \"{} {unit}\", talking = \"{} {unit}\", load_tolerance = \"10 %\"",
            draws[0], draws[1], draws[2]
        )
    };
    let common = "source = \"invented\", family = \"mere\", media = \"audio\", loop_through = \"bridged\", \
                  least_voltage = \"10 V\", least_standby_voltage = \"10 V\"";
    format!(
        "[supplies]\nps = {{ title = \"Supply\", source = \"invented\", family = \"mere\", voltage = \"24 V\", \
         voltage_tolerance = \"5 %\", source_resistance = \"{source_ohm} ohm\", rated_current = \"4 A\", \
         limit_kind = \"hiccup\" }}\n[stations]\n\
         flat = {{ title = \"Flat\", kind = \"indoor\", {common}, {} }}\n\
         steady = {{ title = \"Flat\", kind = \"indoor\", {common}, {} }}\n\
         door = {{ title = \"Door\", kind = \"door\", {common}, {} }}\n\
         [cables]\nwire = {{ title = \"Wire\", source = \"invented\", gauge = \"50 ohm/km\", resistance_tolerance = \"0 %\" }}\n",
        loads(POWER, "W"),
        loads(CURRENT, "A"),
        loads(DOOR, "A"),
    )
}

/// 0.1 ohm a metre of loop; a star from the supply with the door first.
fn star(source_ohm: f64, calls: usize, lengths: &[(f64, bool)]) -> Site {
    let mut rest = String::from(STEADY);
    rest.push_str("[supplies]\nPS = { model = \"ps\" }\n[entrances]\nfront = { role = \"main\", calls = [\"everyone\"] }\nside = { calls = [\"everyone\"] }\n[dwellings]\n");
    for (index, (_, is_steady)) in lengths.iter().enumerate() {
        let model = if *is_steady { "steady" } else { "flat" };
        let _ = writeln!(rest, "A-{index} = {{ station = \"{model}\" }}");
    }
    rest.push_str("[runs]\nF = { from = \"PS\", to = \"front\", length = \"10 m\" }\nS = { from = \"PS\", to = \"side\", length = \"10 m\" }\n");
    for (index, (length, _)) in lengths.iter().enumerate() {
        let _ = writeln!(rest, "R{index} = {{ from = \"PS\", to = \"A-{index}\", length = \"{length} m\" }}");
    }
    let text =
        parts(source_ohm).replace("family = \"mere\", voltage", "outputs = 16, family = \"mere\", voltage");
    with_calls(calls, "", &text, &rest)
}

/// By iteration from the highest voltage: nothing of the program's solver.
fn power_at_terminals(open_v: f64, source_ohm: f64, branches: &[(f64, f64, f64)]) -> f64 {
    let mut terminal_v = open_v;
    for _ in 0..2_000 {
        let mut total = 0.0;
        for (ohm, power_w, current_a) in branches {
            // v = V - r (I + P/v): the larger root.
            let high = terminal_v - ohm * current_a;
            let at_load = (high + (high * high - 4.0 * ohm * power_w).sqrt()) / 2.0;
            total += current_a + power_w / at_load;
        }
        let next = open_v - source_ohm * total;
        if (next - terminal_v).abs() < 1e-13 {
            return next * total;
        }
        terminal_v = next;
    }
    panic!("no operating point")
}

fn branches(site: &Site, phase: &Phase, set: &[usize], lengths: &[(f64, bool)]) -> Vec<(f64, f64, f64)> {
    let all = site.stations.iter().enumerate().map(|(index, station)| {
        let mut busy = set.iter().flat_map(|option| &phase.options[*option].busy);
        let activity = busy.rfind(|(one, _)| *one == index).map_or(Activity::Standby, |(_, what)| *what);
        let place = match activity {
            Activity::Ringing => 1,
            Activity::Talking | Activity::Releasing => 2,
            _ => 0,
        };
        match station.id.as_str() {
            "front" | "side" => (1.0, 0.0, 1.1 * DOOR[place]),
            id => {
                let (length, is_steady) = lengths[id[2..].parse::<usize>().expect("a number")];
                let ohm = 0.1 * length;
                if is_steady { (ohm, 0.0, 1.1 * CURRENT[place]) } else { (ohm, 1.1 * POWER[place], 0.0) }
            }
        }
    });
    all.collect()
}

/// One door and one flat of constant current, talking: 0.44 A at 25.2 V behind 0.5 ohm make (25.2 - 0.22) V x 0.44 A =
/// 10.9912 W at the terminals, where the low end gives 22.58 V x 0.44 A = 9.9352 W. The other door draws 33 mA besides.
#[test]
fn constant_current_takes_most_at_the_highest_voltage() {
    let site = star(0.5, 1, &[(10.0, true)]);
    let layout = Layout::new(&site);
    let space = StateSpace::new(&site, &layout);
    let worst =
        worst_states(&site, &layout, &space, &SearchOptions { tolerance: 0.0, ..SearchOptions::default() });
    let power = worst.largest_power(0, |_| true).unwrap();
    assert_eq!(space.phases[power.phase].kind, StateKind::Call);
    let current_a = 1.1 * (0.25 + 0.15 + 0.03);
    near(power.power_w.unwrap(), (25.2 - 0.5 * current_a) * current_a, 1e-9);
    near(power.open_circuit_v, 25.2, 1e-12);
    let current = worst.source_current[0].as_ref().unwrap();
    near(current.current_a.unwrap(), current_a, 1e-9);
}

/// 6.6 W behind 3 ohm at 22.8 V take more than at 25.2 V: v = (22.8 + sqrt(22.8^2 - 4 x 3 x 6.6))/2 = 21.8952 V, so
/// 22.8 x 6.6 / 21.8952 = 6.8727 W; at 25.2 V 6.8197 W. The doors' 0.308 A take 7.0224 W and 7.7616 W: the high end wins.
#[test]
fn the_larger_of_both_ends_is_taken() {
    let site = star(0.0, 1, &[(30.0, false)]);
    let layout = Layout::new(&site);
    let space = StateSpace::new(&site, &layout);
    let worst =
        worst_states(&site, &layout, &space, &SearchOptions { tolerance: 0.0, ..SearchOptions::default() });
    let power = worst.largest_power(0, |_| true).unwrap();
    let at = |open_v: f64| {
        power_at_terminals(open_v, 0.0, &[(3.0, 6.6, 0.0), (1.0, 0.0, 0.275), (1.0, 0.0, 0.033)])
    };
    near(at(25.2), 25.2 * 0.308 + 6.819_7, 1e-4);
    near(at(22.8), 22.8 * 0.308 + 6.872_7, 1e-4);
    near(power.power_w.unwrap(), at(25.2), 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// Every set of calls at 41 voltages of the supply's tolerance.
    #[test]
    fn power_and_enumeration_agree(
        source_ohm in 0.0..1.0_f64,
        calls in 1..=2_usize,
        lengths in prop::collection::vec((1.0..80.0_f64, any::<bool>()), 1..=5),
    ) {
        let source_ohm = (source_ohm * 100.0).round() / 100.0;
        let lengths: Vec<(f64, bool)> = lengths.iter().map(|(length, kind)| (length.round(), *kind)).collect();
        let site = star(source_ohm, calls, &lengths);
        let layout = Layout::new(&site);
        let space = StateSpace::new(&site, &layout);
        let options = SearchOptions { tolerance: 0.0, most_sets: 1_000_000, most_sets_of_stage: 100_000_000, most_sets_without_bound: 1_000_000 };
        let worst = worst_states(&site, &layout, &space, &options);
        for (index, phase) in space.phases.iter().enumerate() {
            let mut most = 0.0_f64;
            for set in every_set(phase) {
                let branches = branches(&site, phase, &set, &lengths);
                for step in 0..=40 {
                    let open_v = 22.8 + 2.4 * f64::from(step) / 40.0;
                    most = most.max(power_at_terminals(open_v, source_ohm, &branches));
                }
            }
            let found = worst.source_power[index][0].as_ref().unwrap();
            prop_assert!(found.complete);
            let power_w = found.power_w.unwrap();
            prop_assert!((power_w - most).abs() < 1e-7 * most, "{:?}: {power_w} W, enumerated {most} W", phase.kind);
        }
    }
}
