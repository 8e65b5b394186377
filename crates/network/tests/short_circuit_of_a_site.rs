//! Shorts on small sites against Ohm's law: what the current, its limiter and the heat are made of, worked out beside
//! each case.

use crate::small_site::{near, run, site};
use latchline_network::short_circuit::{Acting, RunShort, nuisance_trips, short_circuits};
use latchline_network::{Layout, StateSpace};
use latchline_site::model::Site;

/// From -5 to 45 °C, lengths within 10 %, 0.1 ohm at each end of each conductor.
const CONDITIONS: &str = "[conditions]\nusual_temperature = \"20 °C\"\nhottest_temperature = \"45 °C\"\ncoldest_temperature = \"-5 °C\"\n\
                          length_tolerance = \"10 %\"\njoint_resistance = \"0.1 ohm\"\n";

/// Loop of `metres` of the cable "half" (2 x 0.5 ohm/m, within 5 %) at its longest and hottest.
fn hot_ohm(metres: f64) -> f64 {
    metres * (1.0 + 0.003_93 * 25.0) * 1.05 * 1.1 + 0.4
}

/// The same at its shortest and coldest.
fn cold_ohm(metres: f64) -> f64 {
    metres * (1.0 - 0.003_93 * 25.0) * 0.95 * 0.9 + 0.4
}

/// Lowest and highest voltage of the supplies, 48 V within 5 %, and what is behind it.
const LOW_V: f64 = 45.6;
const HIGH_V: f64 = 50.4;
const SOURCE_OHM: f64 = 0.5;

fn parts(limit: &str) -> String {
    format!(
        r#"
[supplies]
ps = {{ title = "Supply", source = "invented", family = "mere", voltage = "48 V", voltage_tolerance = "5 %", source_resistance = "0.5 ohm", rated_current = "10 A", {limit} }}

[boxes]
d-trips = {{ title = "Distributor whose ports trip at 0.5 A", source = "invented", family = "mere", role = "distributor", kind = "port-limited", ports = 4, port_current_limit = "0.5 A", port_limit_kind = "trip" }}
d-late = {{ title = "Distributor whose ports trip at 2 A", source = "invented", family = "mere", role = "distributor", kind = "port-limited", ports = 4, port_current_limit = "2 A", port_limit_kind = "hiccup" }}
d-holds = {{ title = "Distributor whose ports hold 0.3 A", source = "invented", family = "mere", role = "distributor", kind = "port-limited", ports = 4, port_current_limit = "0.3 A", port_limit_kind = "constant-current" }}
d-fresh = {{ title = "Regenerating distributor of 24 W", source = "invented", family = "mere", role = "distributor", kind = "regenerated", ports = 4, output_voltage = "48 V", efficiency = "90 %", output_power = "24 W", least_voltage = "20 V" }}

[stations]
flat = {{ title = "Station", source = "invented", family = "mere", kind = "indoor", media = "audio", loop_through = "bridged", converter = false, standby = "100 mA", ringing = "100 mA", talking = "100 mA", load_tolerance = "0 %", least_voltage = "30 V", least_standby_voltage = "30 V" }}

[cables]
wire = {{ title = "Wire", source = "invented", gauge = "0.1 ohm/km", resistance_tolerance = "0 %" }}
half = {{ title = "1 ohm a metre of loop", source = "invented", gauge = "500 ohm/km", pairs = 2, resistance_tolerance = "5 %", conductor_temperature_limit = "90 °C" }}
"#
    )
}

const HOLDS_10_A: &str = "limit_kind = \"constant-current\"";

fn shorts(limit: &str, rest: &str) -> (Site, Vec<RunShort>) {
    let site = site("", &parts(limit), &format!("{CONDITIONS}{rest}"));
    let layout = Layout::new(&site);
    let found = short_circuits(&site, &layout, &StateSpace::new(&site, &layout));
    (site, found.runs)
}

fn at<'s>(site: &Site, shorts: &'s [RunShort], id: &str) -> &'s RunShort {
    let index = run(site, id);
    shorts.iter().find(|short| short.run == index).unwrap_or_else(|| panic!("no short on {id}"))
}

/// Dwellings that go dark besides.
fn dark<'s>(site: &'s Site, short: &RunShort) -> Vec<&'s str> {
    short.also_dark.iter().map(|index| site.dwellings[*index].id.as_str()).collect()
}

/// Steady temperature by `T = T_a + 10 K m/W x 2 I² x 0.5 ohm/m (1 + 0.00393 (T - 20))`, found by stepping.
fn temperature_c(current_a: f64) -> f64 {
    let mut celsius = 45.0;
    for _ in 0..500 {
        celsius = 45.0 + 10.0 * current_a * current_a * (1.0 + 0.003_93 * (celsius - 20.0));
    }
    celsius
}

const TWO_RUNS: &str = "[supplies]\nPS = { model = \"ps\" }\n[dwellings]\nA-1 = {}\nB-1 = {}\n[runs]\n\
                        R1 = { from = \"PS\", to = \"A-1\", cable = \"half\", length = \"20 m\" }\n\
                        R2 = { from = \"PS\", to = \"B-1\", cable = \"half\", length = \"10 m\" }\n";

/// Low voltage, hot cable; the other loads take 0.1 V in the source and 0.1 A through the run itself, so that less is left
/// for the short than without them: `(45.6 - 0.5 x 0.2 - 25.77 x 0.1)/26.27` = 1.634 A. Heat goes with the most that can
/// flow: high voltage, cold cable, no other load.
#[test]
fn a_short_on_which_nothing_acts() {
    let (site, found) = shorts(HOLDS_10_A, TWO_RUNS);
    for (id, metres) in [("R1", 20.0), ("R2", 10.0)] {
        let short = at(&site, &found, id);
        let run_ohm = hot_ohm(metres);
        let left_v = LOW_V - SOURCE_OHM * 0.2 - run_ohm * 0.1;
        near(short.fault_a, left_v / (SOURCE_OHM + run_ohm), 1e-6);
        assert_eq!((short.acts, short.trip_needs_a), (Acting::Nothing, None));
        let most_a = HIGH_V / (SOURCE_OHM + cold_ohm(metres));
        near(short.heating_a, most_a, 1e-6);
        assert_eq!(short.temperature_limit_c, 90.0);
    }
    near(
        at(&site, &found, "R1").temperature_c.expect("flows on"),
        temperature_c(HIGH_V / (SOURCE_OHM + cold_ohm(20.0))),
        1e-6,
    );
    // 10 m: 5.5 A, whose heat grows faster with temperature than it is carried off (10 x 5.5² x 0.00393 > 1).
    assert_eq!(at(&site, &found, "R2").temperature_c, Some(f64::INFINITY));
}

/// Two pairs share the current: half as much each, a quarter of the heat; and the run has half the resistance.
#[test]
fn pairs_share_the_heat() {
    let (site, found) =
        shorts(HOLDS_10_A, &TWO_RUNS.replace("length = \"20 m\"", "length = \"40 m\", pairs = 2"));
    let short = at(&site, &found, "R1");
    let cold = 0.5 * (40.0 * (1.0 - 0.003_93 * 25.0) * 0.95 * 0.9 + 0.4);
    let most_a = HIGH_V / (SOURCE_OHM + cold);
    near(short.heating_a, most_a, 1e-6);
    near(short.temperature_c.expect("flows on"), temperature_c(0.5 * most_a), 1e-6);
}

/// A limiter of 1 A holds, 0.2 A of it go to the loads. 20 m of hot cable take 25.77 V of 1 A, too little for B-1 (30 V), which goes
/// dark; then the short has all of it.
#[test]
fn a_supply_that_holds_its_limit_darkens_the_rest() {
    let (site, found) = shorts("limit_current = \"1 A\", limit_kind = \"constant-current\"", TWO_RUNS);
    let short = at(&site, &found, "R1");
    assert_eq!(short.acts, Acting::SourceLimits);
    near(short.fault_a, 0.8, 1e-9);
    assert_eq!(dark(&site, short), ["B-1"]);
    near(short.heating_a, 1.0, 1e-9);
    near(short.temperature_c.expect("flows on"), temperature_c(1.0), 1e-6);
}

/// Foldback from 2 A at 0.9 x 48 V to 0.5 A at 0 V, without other loads on a short of R: `I = 0.5 + 1.5 I R/43.2`; beside it 0.1 A
/// for A-1 behind the same R and for B-1: `I + 0.2 = 0.5 + 1.5 (I + 0.1) R/43.2`.
#[test]
fn a_foldback_supply_follows_its_line() {
    let foldback = "limit_current = \"2 A\", short_circuit_current = \"0.5 A\", limit_kind = \"foldback\"";
    let (site, found) = shorts(foldback, &TWO_RUNS.replace("20 m", "5 m"));
    let short = at(&site, &found, "R1");
    let ohm = hot_ohm(5.0);
    let slope = 1.5 / 43.2;
    near(short.fault_a, (0.3 + slope * ohm * 0.1) / (1.0 - slope * ohm), 1e-6);
    assert_eq!(short.acts, Acting::SourceLimits);
    near(short.heating_a, 0.5 / (1.0 - slope * cold_ohm(5.0)), 1e-6);
}

/// A supply that hiccups or trips at 1.5 A, of which the loads take 0.2 A: the short needs 1.3 A and has 1.634 A.
#[test]
fn a_supply_that_trips_ends_it() {
    for kind in ["hiccup", "trip"] {
        let (site, found) = shorts(&format!("limit_current = \"1.5 A\", limit_kind = \"{kind}\""), TWO_RUNS);
        let short = at(&site, &found, "R1");
        assert_eq!(short.acts, Acting::SourceTrips);
        assert_eq!(dark(&site, short), ["B-1"]);
        assert_eq!(short.temperature_c, None);
    }
}

fn behind(model: &str) -> String {
    format!(
        "[supplies]\nPS = {{ model = \"ps\" }}\n[distributors]\nD1 = {{ model = \"{model}\" }}\n[dwellings]\nA-1 = {{}}\nA-2 = {{}}\nB-1 = {{}}\n[runs]\n\
         W = {{ from = \"PS\", to = \"D1\", length = \"0.01 m\" }}\nR1 = {{ from = \"D1.1\", to = \"A-1\", cable = \"half\", length = \"10 m\" }}\n\
         R2 = {{ from = \"A-1\", to = \"A-2\", cable = \"half\", length = \"10 m\" }}\nR3 = {{ from = \"D1.2\", to = \"B-1\", cable = \"half\", length = \"5 m\" }}\n"
    )
}

/// A port that trips takes what hangs on it; the others stay.
#[test]
fn a_port_that_trips_takes_its_own() {
    let (site, found) = shorts(HOLDS_10_A, &behind("d-trips"));
    let box_index = 0;
    for (id, port, besides) in [("R1", 1, &[][..]), ("R2", 1, &["A-1"][..]), ("R3", 2, &[][..])] {
        let short = at(&site, &found, id);
        assert_eq!(short.acts, Acting::PortTrips { box_index, port }, "{id}");
        assert_eq!(dark(&site, short), besides, "{id}");
        assert_eq!(short.temperature_c, None);
    }
}

/// At the end of two times 10 m `45.6/(0.9 + 2 R)` = 1.685 A flow where the port trips at 2 A. With the other loads kept
/// `(45.6 - 0.9 x 0.3 - R (0.2 + 0.1))/(0.9 + 2 R)` = 1.530 A of 1.8 A that are left to the short: that lacks less, so it is not the worse
/// case. Cold and at the highest voltage more than 2 A would flow and trip, so the run is heated by hardly 2 A.
#[test]
fn a_port_that_trips_too_late() {
    let (site, found) = shorts(HOLDS_10_A, &behind("d-late"));
    let short = at(&site, &found, "R2");
    // The feeder is all joints.
    near(short.fault_a, LOW_V / (SOURCE_OHM + 0.4 + 2.0 * hot_ohm(10.0)), 1e-5);
    assert_eq!(short.acts, Acting::Nothing);
    near(short.trip_needs_a.expect("there is a trip"), 2.0, 1e-9);
    near(short.heating_a, 2.0, 1e-9);
    near(short.temperature_c.expect("flows on"), temperature_c(2.0), 1e-6);
    // 10 m nearer `45.6/(0.9 + R)` = 3.26 A trip it.
    assert_eq!(at(&site, &found, "R1").acts, Acting::PortTrips { box_index: 0, port: 1 });
}

/// A port holds 0.3 A, of which its loads take 0.2 A.
#[test]
fn a_port_that_holds_its_limit_darkens_its_own() {
    let (site, found) = shorts(HOLDS_10_A, &behind("d-holds"));
    let short = at(&site, &found, "R2");
    assert_eq!(short.acts, Acting::PortLimits { box_index: 0, port: 1 });
    near(short.fault_a, 0.1, 1e-6);
    assert_eq!(dark(&site, short), ["A-1"]);
    near(short.heating_a, 0.3, 1e-9);
}

/// A regenerating box of 24 W at 48 V holds 0.5 A on its ports, whatever its supply does.
#[test]
fn a_regenerating_box_holds_its_rated_power() {
    let (site, found) =
        shorts(HOLDS_10_A, &behind("d-fresh").replace("\"10 m\"", "\"1 m\"").replace("\"5 m\"", "\"1 m\""));
    let short = at(&site, &found, "R2");
    assert_eq!(short.acts, Acting::SourceLimits);
    near(short.fault_a, 0.5 - 0.3, 1e-6);
    assert_eq!(dark(&site, short), ["A-1", "B-1"]);
}

/// The run to a box is shorted at the box's input: 0.4 ohm of joints at the ends of the feeder.
#[test]
fn a_feeder_is_shorted_at_the_box() {
    let (site, found) = shorts(HOLDS_10_A, &behind("d-holds"));
    let short = at(&site, &found, "W");
    // 45.6 V over 0.9 ohm would be 50 A; the supply holds 10 A, of which 0.3 A are loads.
    near(short.unlimited_a, (LOW_V - 0.9 * 0.3) / 0.9, 1e-4);
    near(short.fault_a, 9.7, 1e-9);
    assert_eq!(short.acts, Acting::SourceLimits);
}

/// A trip must not act on what flows in use: at the trip current itself it may. A limiter that only holds is no trip.
#[test]
fn trips_that_a_legitimate_current_reaches() {
    let trips = |limit: &str, model: &str, source_a: f64, port_a: f64| -> Vec<(Option<(usize, u32)>, f64)> {
        let site = site("", &parts(limit), &format!("{CONDITIONS}{}", behind(model)));
        let layout = Layout::new(&site);
        let mut run_a = vec![None; site.runs.len()];
        run_a[run(&site, "R1")] = Some(port_a);
        let found = nuisance_trips(&site, &layout, &[Some(source_a)], &run_a);
        found.iter().map(|one| (one.port, one.trip_a)).collect()
    };
    let supply_trips = "limit_current = \"1.5 A\", limit_kind = \"trip\"";
    assert_eq!(trips(supply_trips, "d-trips", 1.499, 0.499), []);
    assert_eq!(trips(supply_trips, "d-trips", 1.5, 0.5), [(None, 1.5), (Some((0, 1)), 0.5)]);
    assert_eq!(trips(supply_trips, "d-holds", 1.0, 0.5), []);
    assert_eq!(trips(HOLDS_10_A, "d-late", 20.0, 2.1), [(Some((0, 1)), 2.0)]);
}
