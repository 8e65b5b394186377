//! What the network of a site is made of, element by element: small sites in which one element decides, and the
//! insertion loss that it has between 100 ohm and 100 ohm by circuit theory, worked out beside each.
//!
//! With a source of `Z` and a receiver of `Z` a series impedance `Zs` costs `20 log |1 + Zs/2Z|`, a shunt admittance
//! `Y` costs `20 log |1 + Y Z/2|`. Wire of the parts used here is short for its frequencies (10 m at 2 kHz), unless the case is
//! about the line itself.

use crate::small_site::{STEADY, site, station};
use latchline_finding::Language;
use latchline_network::Layout;
use latchline_network::signal_tree::{CableLengths, SignalSurvey, survey};
use latchline_site::model::Site;
use std::f64::consts::TAU;

const LOW_HZ: f64 = 1e3;
const HIGH_HZ: f64 = 2e3;

/// `wire` is next to nothing; `half` has 500 ohm/km a conductor, that is 1 ohm a metre of loop.
const PARTS: &str = r#"
[supplies]
ps = { title = "Supply", source = "invented", family = "mere", voltage = "48 V", voltage_tolerance = "0 %", source_resistance = "0.1 ohm", rated_current = "5 A", limit_kind = "constant-current", feed_choke = "100 H" }
ps-bare = { title = "Supply without a choke", source = "invented", family = "mere", voltage = "48 V", voltage_tolerance = "0 %", source_resistance = "0.1 ohm", rated_current = "5 A", limit_kind = "constant-current", feed_choke = "0 mH" }
ps-5 = { title = "Supply behind 5 mH", source = "invented", family = "mere", voltage = "48 V", voltage_tolerance = "0 %", source_resistance = "0.1 ohm", rated_current = "5 A", limit_kind = "constant-current", feed_choke = "5 mH" }
ps-unknown = { title = "Supply of which little is known", source = "invented", family = "mere", voltage = "48 V", voltage_tolerance = "0 %", source_resistance = "0.1 ohm", rated_current = "5 A", limit_kind = "constant-current" }

[boxes]
d-plain = { title = "Distributor", source = "invented", family = "mere", role = "distributor", kind = "transparent", ports = 4, signal_loss = "3 dB" }
d-limited = { title = "Distributor", source = "invented", family = "mere", role = "distributor", kind = "port-limited", ports = 4, port_current_limit = "1 A", port_limit_kind = "constant-current", signal_loss = "3 dB" }
d-isolating = { title = "Isolating distributor", source = "invented", family = "mere", role = "distributor", kind = "isolating", ports = 4, signal_loss = "0 dB", feed_choke = "20 mH" }
d-fresh = { title = "Regenerating distributor", source = "invented", family = "mere", role = "distributor", kind = "regenerated", ports = 4, output_voltage = "48 V", efficiency = "90 %", signal_loss = "0 dB", feed_choke = "20 mH" }
t-plain = { title = "Branch box", source = "invented", family = "mere", role = "branch-box", kind = "transparent", ports = 3 }

[stations]
flat = { title = "Station", source = "invented", family = "mere", kind = "indoor", media = "audio", loop_through = "bridged", converter = false, standby = "1 mA", ringing = "2 mA", talking = "2 mA", least_voltage = "20 V", least_standby_voltage = "20 V", bridging_resistance = "100 Mohm", bridging_capacitance = "1 pF", signal_impedance = "100 ohm" }
heavy = { title = "Station that loads the pair", source = "invented", family = "mere", kind = "indoor", media = "audio", loop_through = "bridged", converter = false, standby = "1 mA", ringing = "2 mA", talking = "2 mA", least_voltage = "20 V", least_standby_voltage = "20 V", bridging_resistance = "200 ohm", bridging_capacitance = "1 uF", signal_impedance = "100 ohm" }
video = { title = "Video station", source = "invented", family = "mere", kind = "indoor", media = "video", loop_through = "bridged", converter = false, standby = "1 mA", ringing = "2 mA", talking = "2 mA", least_voltage = "20 V", least_standby_voltage = "20 V", bridging_resistance = "100 Mohm", bridging_capacitance = "1 pF", signal_impedance = "300 ohm" }
door = { title = "Door station", source = "invented", family = "mere", kind = "door", media = "video", loop_through = "bridged", converter = false, standby = "1 mA", ringing = "2 mA", talking = "2 mA", least_voltage = "20 V", least_standby_voltage = "20 V", directory = 99, bridging_resistance = "50 ohm", bridging_capacitance = "1 pF", signal_impedance = "100 ohm" }
desk = { title = "Desk", source = "invented", family = "mere", kind = "management", media = "audio", loop_through = "bridged", converter = false, standby = "1 mA", ringing = "2 mA", talking = "2 mA", least_voltage = "20 V", least_standby_voltage = "20 V", bridging_resistance = "100 Mohm", bridging_capacitance = "1 pF", signal_impedance = "100 ohm" }

[cables]
wire = { title = "Wire", source = "invented", gauge = "0.1 ohm/km", pairs = 4, resistance_tolerance = "0 %", line = { capacitance = "1 nF/km", inductance = "10 uH/km", skin_corner = "1000 MHz", loss_tangent = 0.0 } }
half = { title = "1 ohm a metre of loop", source = "invented", gauge = "500 ohm/km", pairs = 4, resistance_tolerance = "5 %", line = { capacitance = "1 nF/km", inductance = "10 uH/km", skin_corner = "1000 MHz", loss_tangent = 0.0 } }
skin = { title = "1 ohm a metre of loop, with skin effect from 1 kHz", source = "invented", gauge = "500 ohm/km", resistance_tolerance = "0 %", line = { capacitance = "1 nF/km", inductance = "10 uH/km", skin_corner = "1 kHz", loss_tangent = 0.0 } }
lossy = { title = "Wire with a bad dielectric", source = "invented", gauge = "0.1 ohm/km", pairs = 2, resistance_tolerance = "0 %", line = { capacitance = "1 nF/km", inductance = "10 uH/km", skin_corner = "1000 MHz", loss_tangent = 0.5 } }
hundred = { title = "Pair of 100 ohm, 5 ns/m", source = "invented", gauge = "0.1 ohm/km", pairs = 2, resistance_tolerance = "0 %", line = { capacitance = "50 nF/km", inductance = "0.5 mH/km", skin_corner = "1000 MHz", loss_tangent = 0.0 } }
unknown = { title = "Cable of which little is known", source = "invented", gauge = "500 ohm/km" }
"#;

fn family(low: &str, high: &str) -> String {
    format!(
        "signal_bands = [{{ name = \"all\", low = \"{low}\", high = \"{high}\", budget = \"120 dB\" }}]\n\
         terminator_resistance = \"100 ohm\"\nterminator_capacitance = \"1 uF\"\n"
    )
}

fn surveyed(site: &Site) -> SignalSurvey {
    survey(site, &Layout::new(site))
}

/// A site of bands from 1 to 2 kHz, at 20 °C unless it says otherwise.
fn voice(rest: &str) -> (Site, SignalSurvey) {
    let conditions = if rest.contains("[conditions]") { "" } else { STEADY };
    let site = site(&family("1 kHz", "2 kHz"), PARTS, &format!("{conditions}{rest}"));
    let found = surveyed(&site);
    (site, found)
}

/// Greatest loss of a station in the first band, in decibel.
fn loss_db(site: &Site, found: &SignalSurvey, id: &str) -> f64 {
    let index = station(site, id);
    let row = found.bands[0].stations.iter().find(|row| row.station == index);
    row.unwrap_or_else(|| panic!("{id} was not judged: {:?}", found.missing)).loss_db
}

#[track_caller]
fn near_db(found_db: f64, expected_db: f64) {
    assert!((found_db - expected_db).abs() < 2e-3, "{found_db} dB, expected {expected_db} dB");
}

/// Loss of a series resistance.
fn series_db(ohm: f64) -> f64 {
    20.0 * (1.0 + ohm / 200.0).log10()
}

/// Loss of a shunt admittance, real and imaginary part in siemens.
fn shunt_db(real_s: f64, imaginary_s: f64) -> f64 {
    20.0 * (1.0 + 50.0 * real_s).hypot(50.0 * imaginary_s).log10()
}

/// One door on a wire, one flat on a run of its own.
fn one_flat(run: &str) -> String {
    format!(
        "[supplies]\nPS = {{ model = \"ps\" }}\n[entrances]\nfront = {{ calls = [\"everyone\"] }}\n[dwellings]\nA-1 = {{}}\n\
         [runs]\nW = {{ from = \"PS\", to = [\"front\"], lengths = [\"0.1 m\"] }}\n\
         R = {{ from = \"PS\", to = [\"A-1\"], {run} }}\n"
    )
}

const WARM: &str = "[conditions]\nusual_temperature = \"20 °C\"\nhottest_temperature = \"45 °C\"\n\
                    length_tolerance = \"10 %\"\njoint_resistance = \"0.5 ohm\"\n";

/// 60 m x 1 ohm/m, 25 K warmer at 0.00393/K, 5 % of tolerance, 10 % longer: 76.109 ohm. Joints are the business of the direct
/// current.
#[test]
fn a_cable_is_hot_and_at_its_upper_tolerance() {
    let ohm = 60.0 * (1.0 + 0.003_93 * 25.0) * 1.05 * 1.1;
    let (site, found) = voice(&format!("{WARM}{}", one_flat("cable = \"half\", lengths = [\"60 m\"]")));
    near_db(loss_db(&site, &found, "A-1"), series_db(ohm));
    assert_eq!(found.bands[0].stations[0].lengths, CableLengths::Longest);
    // Two pairs in parallel have half of it.
    let (site, found) =
        voice(&format!("{WARM}{}", one_flat("cable = \"half\", lengths = [\"60 m\"], pairs = 2")));
    near_db(loss_db(&site, &found, "A-1"), series_db(0.5 * ohm));
}

/// A measured loop of 40 ohm, pairs and all, takes the place of the cable's however long it is, read 2 % too low, and is brought
/// to 45 °C: 44.81 ohm.
#[test]
fn a_measured_loop_takes_the_place_of_the_cables() {
    let (site, found) = voice(&format!(
        "{WARM}{}",
        one_flat("cable = \"half\", lengths = [\"60 m\"], pairs = 2, measured = { loop = \"40 ohm\" }")
    ));
    near_db(loss_db(&site, &found, "A-1"), series_db(40.0 * 1.02 * (1.0 + 0.003_93 * 25.0)));
}

/// A measured capacitance of 4 uF, read 2 % too low, is a shunt; at 2 kHz j 51.27 mS. With a loss tangent of 0.5 half as much is conductance.
#[test]
fn a_measured_capacitance_takes_the_place_of_the_cables() {
    let susceptance_s = TAU * HIGH_HZ * 4e-6 * 1.02;
    let measured = "lengths = [\"10 m\"], pairs = 2, measured = { capacitance = \"4 uF\" }";
    let (site, found) = voice(&one_flat(measured));
    near_db(loss_db(&site, &found, "A-1"), shunt_db(0.0, susceptance_s));
    let (site, found) = voice(&one_flat(&format!("cable = \"lossy\", {measured}")));
    near_db(loss_db(&site, &found, "A-1"), shunt_db(0.5 * susceptance_s, susceptance_s));
}

/// `R (1 + (f/fc)²)^¼` with a corner at 1 kHz: at 2 kHz 5^¼ = 1.4953 times 60 ohm.
#[test]
fn resistance_grows_with_the_skin_effect() {
    let (site, found) = voice(&one_flat("cable = \"skin\", lengths = [\"60 m\"]"));
    near_db(loss_db(&site, &found, "A-1"), series_db(60.0 * 5.0_f64.powf(0.25)));
}

/// Surge protectors: 10 ohm in the flat's run and 6 ohm at the entrance are 16 ohm in the way.
#[test]
fn surge_protectors_are_in_the_way() {
    let text = one_flat("lengths = [\"10 m\"], surge_protection = \"10 ohm\"")
        .replace("calls = [\"everyone\"]", "calls = [\"everyone\"], surge_protection = \"6 ohm\"");
    let (site, found) = voice(&text);
    near_db(loss_db(&site, &found, "A-1"), series_db(16.0));
    // One at each end of the run counts twice.
    let both = text.replace(
        "surge_protection = \"10 ohm\"",
        "surge_protection = \"10 ohm\", surge_protection_at = \"both\"",
    );
    let (site, found) = voice(&both);
    near_db(loss_db(&site, &found, "A-1"), series_db(26.0));
}

/// From port to port the signal passes two matched attenuators of 3 dB each; nothing else hangs on the box.
#[test]
fn a_box_costs_its_loss_at_each_port() {
    for model in ["d-plain", "d-limited"] {
        let (site, found) = voice(&format!(
            "[supplies]\nPS = {{ model = \"ps\" }}\n[distributors]\nD1 = {{ model = \"{model}\" }}\n[entrances]\nfront = {{ calls = [\"everyone\"] }}\n\
             [dwellings]\nA-1 = {{}}\n[runs]\nW = {{ from = \"PS\", to = \"D1\", length = \"0.1 m\" }}\n\
             F = {{ from = \"D1.1\", to = \"front\", length = \"0.1 m\" }}\nR = {{ from = \"D1.2\", to = \"A-1\", length = \"10 m\" }}\n"
        ));
        near_db(loss_db(&site, &found, "A-1"), 6.0);
    }
}

/// A branch box of which no loss is stated is a joint.
#[test]
fn a_branch_box_is_a_joint() {
    let (site, found) = voice(
        "[supplies]\nPS = { model = \"ps\" }\n[branch-boxes]\nT1 = { model = \"t-plain\" }\n[entrances]\nfront = { calls = [\"everyone\"] }\n\
         [dwellings]\nA-1 = {}\nA-2 = {}\n[runs]\nW = { from = \"PS\", to = [\"front\", \"T1\"], lengths = [\"0.1 m\", \"0.1 m\"] }\n\
         R1 = { from = \"T1.1\", to = [\"A-1\"], cable = \"skin\", lengths = [\"60 m\"] }\n\
         R2 = { from = \"T1.2\", to = [\"A-2\"], lengths = [\"1 m\"] }\n",
    );
    near_db(loss_db(&site, &found, "A-1"), series_db(60.0 * 5.0_f64.powf(0.25)));
    near_db(loss_db(&site, &found, "A-2"), 0.0);
}

/// A supply is a short behind its choke: 5 mH at 1 kHz is j 31.416 ohm. The low corner of 50 ohm on 5 mH is 1591.5 Hz.
#[test]
fn a_supply_is_a_short_behind_its_choke() {
    let text = one_flat("lengths = [\"10 m\"]").replace("\"ps\"", "\"ps-5\"");
    let (site, found) = voice(&text);
    near_db(loss_db(&site, &found, "A-1"), shunt_db(0.0, -1.0 / (TAU * LOW_HZ * 5e-3)));
    assert_eq!(found.bands[0].stations[0].at_hz, LOW_HZ);
    let corner = &found.feeds[0];
    assert_eq!((corner.count, corner.lowest_hz), (1, LOW_HZ));
    assert!((corner.corner_hz.expect("has a choke") - 50.0 / (TAU * 5e-3)).abs() < 1e-6);
    // Without a choke next to nothing arrives, and there is no corner.
    let text = one_flat("lengths = [\"10 m\"]").replace("\"ps\"", "\"ps-bare\"");
    let (site, found) = voice(&text);
    assert!(loss_db(&site, &found, "A-1") > 80.0);
    assert_eq!(found.feeds[0].corner_hz, None);
}

/// An isolating box joins link and ports; its input only feeds, so a supply without a choke there does no harm. Two ports fed
/// through 20 mH each are 10 mH across the pair: j 62.832 ohm at 1 kHz. Where the ports of a regenerating box are fed the same way, its
/// input takes part, so it has its own good supply there.
#[test]
fn boxes_that_feed_their_ports_do_so_through_chokes() {
    let expected_db = shunt_db(0.0, -1.0 / (TAU * LOW_HZ * 10e-3));
    let isolating = "[supplies]\nPS = { model = \"ps\" }\nQ = { model = \"ps-bare\" }\n[distributors]\nI1 = { model = \"d-isolating\" }\n\
         [entrances]\nfront = { calls = [\"everyone\"] }\n[dwellings]\nA-1 = {}\nA-2 = {}\n[runs]\n\
         W = { from = \"PS\", to = [\"front\", \"I1.link\"], lengths = [\"0.1 m\", \"0.1 m\"] }\n\
         V = { from = \"Q\", to = \"I1\", length = \"0.1 m\" }\n\
         R1 = { from = \"I1.1\", to = \"A-1\", length = \"10 m\" }\nR2 = { from = \"I1.2\", to = \"A-2\", length = \"10 m\" }\n";
    let regenerating = "[supplies]\nPS = { model = \"ps\" }\n[distributors]\nI1 = { model = \"d-fresh\" }\n\
         [entrances]\nfront = { calls = [\"everyone\"] }\n[dwellings]\nA-1 = {}\nA-2 = {}\n[runs]\n\
         W = { from = \"PS\", to = [\"front\", \"I1\"], lengths = [\"0.1 m\", \"0.1 m\"] }\n\
         R1 = { from = \"I1.1\", to = \"A-1\", length = \"10 m\" }\nR2 = { from = \"I1.2\", to = \"A-2\", length = \"10 m\" }\n";
    for text in [isolating, regenerating] {
        let (site, found) = voice(text);
        for flat in ["A-1", "A-2"] {
            near_db(loss_db(&site, &found, flat), expected_db);
        }
        // The supply's 100 H beside two of 20 mH.
        let corner = found.feeds.iter().find(|one| one.count == 3).expect("three feeds on the pair");
        let henry = 1.0 / (2.0 / 20e-3 + 1.0 / 100.0);
        assert!((corner.corner_hz.expect("has chokes") - 50.0 / (TAU * henry)).abs() < 1e-6);
    }
}

/// Stations that wait bridge the pair; the one that listens has its own impedance in the place of its bridging load, and the
/// caller its own in place of its 50 ohm. 200 ohm and 1 uF: 5 mS + j 12.566 mS at 2 kHz.
#[test]
fn waiting_stations_bridge_the_pair() {
    let (site, found) = voice(
        "[supplies]\nPS = { model = \"ps\" }\n[entrances]\nfront = { calls = [\"everyone\"] }\n\
         [dwellings]\nA-1 = { station = \"heavy\" }\nA-2 = { station = \"heavy\" }\n[runs]\n\
         R = { from = \"PS\", to = [\"front\", \"A-1\", \"A-2\"], lengths = [\"0.1 m\", \"1 m\", \"1 m\"] }\n",
    );
    for flat in ["A-1", "A-2"] {
        near_db(loss_db(&site, &found, flat), shunt_db(5e-3, TAU * HIGH_HZ * 1e-6));
    }
}

/// A door that only waits bridges like any other: 50 ohm across the pair, 20 log 2 = 6.021 dB; and each caller is judged.
#[test]
fn each_door_is_judged_with_the_other_waiting() {
    let (site, found) = voice(
        "[supplies]\nPS = { model = \"ps\" }\n[entrances]\nfront = { calls = [\"everyone\"] }\nback = { role = \"secondary\", calls = [\"A-1\"] }\n\
         [dwellings]\nA-1 = {}\nA-2 = {}\n[runs]\n\
         R = { from = \"PS\", to = [\"front\", \"back\"], lengths = [\"0.1 m\", \"1 m\"] }\n\
         S = { from = \"PS\", to = [\"A-1\", \"A-2\"], lengths = [\"0.1 m\", \"1 m\"] }\n",
    );
    for flat in ["A-1", "A-2"] {
        near_db(loss_db(&site, &found, flat), 20.0 * 2.0_f64.log10());
    }
    // The back door calls A-1 alone.
    let callers: Vec<usize> = found.bands[0].callers.iter().map(|one| one.caller).collect();
    assert_eq!(callers, [station(&site, "front"), station(&site, "back")]);
    assert_eq!(found.bands[0].callers[1].station, station(&site, "A-1"));
}

/// 100 ohm, straight or behind 1 uF (j 79.577 ohm at 2 kHz), at the end of a branch; also at the listener's own terminals.
#[test]
fn a_terminator_is_a_load_with_or_without_its_capacitor() {
    let text = |capacitor: bool| {
        format!(
            "[supplies]\nPS = {{ model = \"ps\" }}\n[entrances]\nfront = {{ calls = [\"everyone\"] }}\n\
             [dwellings]\nA-1 = {{}}\nB-1 = {{}}\n[runs]\nW = {{ from = \"PS\", to = [\"front\", \"A-1\"], lengths = [\"0.1 m\", \"1 m\"] }}\n\
             R = {{ from = \"PS\", to = [\"B-1\"], lengths = [\"1 m\"], terminator = true, terminator_capacitor = {capacitor} }}\n"
        )
    };
    for flat in ["A-1", "B-1"] {
        let (site, found) = voice(&text(false));
        near_db(loss_db(&site, &found, flat), shunt_db(0.01, 0.0));
        let (site, found) = voice(&text(true));
        let reactance_ohm = -1.0 / (TAU * HIGH_HZ * 1e-6);
        let square = 100.0 * 100.0 + reactance_ohm * reactance_ohm;
        near_db(loss_db(&site, &found, flat), shunt_db(100.0 / square, -reactance_ohm / square));
    }
}

/// Wired straight to the caller a station of 300 ohm takes 300/400 of its open-circuit voltage; 60 ohm x 5^¼ in between leave
/// 300/(400 + 89.7).
#[test]
fn loss_is_against_being_wired_straight_to_the_caller() {
    let (site, found) = voice(
        &one_flat("cable = \"skin\", lengths = [\"60 m\"]")
            .replace("A-1 = {}", "A-1 = { station = \"video\" }"),
    );
    near_db(loss_db(&site, &found, "A-1"), 20.0 * ((400.0 + 60.0 * 5.0_f64.powf(0.25)) / 400.0).log10());
}

/// An open branch of 50 m, 5 ns/m, within 5 %: j Y tan(2 pi f t l) across the pair, near its quarter wave at 1.12 MHz where it is
/// 47.5 m long, and farther from it as stated (8.8 dB) or longer. Its end has 1 pF, as much as 20 mm of it.
#[test]
fn a_branch_may_be_worst_at_its_shortest() {
    let conditions = STEADY.replace("length_tolerance = \"0 %\"", "length_tolerance = \"5 %\"");
    let text = format!(
        "{conditions}[supplies]\nPS = {{ model = \"ps\" }}\n[entrances]\nfront = {{ calls = [\"A-1\"] }}\n[dwellings]\nA-1 = {{}}\nB-1 = {{}}\n\
         [runs]\nW = {{ from = \"PS\", to = [\"front\"], cable = \"hundred\", lengths = [\"0.01 m\"] }}\n\
         R = {{ from = \"PS\", to = [\"A-1\"], cable = \"hundred\", lengths = [\"0.01 m\"] }}\n\
         S = {{ from = \"PS\", to = [\"B-1\"], cable = \"hundred\", lengths = [\"50 m\"] }}\n"
    );
    let site = site(&family("1120 kHz", "1120.1 kHz"), PARTS, &text);
    let found = surveyed(&site);
    let angle = |length_m: f64| TAU * 1.12e6 * 5e-9 * (length_m + 0.02);
    near_db(loss_db(&site, &found, "A-1"), shunt_db(0.0, 0.01 * angle(47.5).tan()));
    let row = &found.bands[0].stations[0];
    assert_eq!((row.lengths, row.ripple.lengths), (CableLengths::Shortest, CableLengths::Shortest));
    assert!(shunt_db(0.0, 0.01 * angle(50.0).tan()) < row.loss_db - 4.0);
}

/// A quarter wave of two pairs side by side loses most at the length that is stated: longer or shorter it is none.
#[test]
fn what_is_stated_may_be_worst() {
    let text = one_flat("cable = \"hundred\", lengths = [\"50 m\"], pairs = 2");
    let site = site(&family("999 kHz", "1001 kHz"), PARTS, &text);
    let found = surveyed(&site);
    assert_eq!(found.bands[0].stations[0].lengths, CableLengths::AsStated);
}

/// A band of pictures is for video stations.
#[test]
fn a_picture_is_for_video_stations() {
    let bands = "signal_bands = [{ name = \"picture\", low = \"1 kHz\", high = \"2 kHz\", budget = \"120 dB\", video_only = true }]\n";
    let text = "[supplies]\nPS = { model = \"ps\" }\n[entrances]\nfront = { calls = [\"everyone\"] }\n\
         [management]\nDesk = { calls = [\"everyone\"] }\n[dwellings]\nA-1 = { station = \"video\" }\nA-2 = {}\n[runs]\n\
         R = { from = \"PS\", to = [\"front\", \"A-1\", \"A-2\", \"Desk\"], spacing = \"1 m\", first = \"1 m\" }\n";
    let site = site(bands, PARTS, text);
    let found = surveyed(&site);
    let judged: Vec<usize> = found.bands[0].stations.iter().map(|row| row.station).collect();
    assert_eq!(judged, [station(&site, "A-1")]);
    // The desk shows no picture, so it is nobody's caller here.
    assert_eq!(found.bands[0].callers.len(), 1);
}

/// 50 m of 5 ns/m are a quarter wave at 1 MHz. Two pairs side by side have 50 ohm; a quarter wave of them between 100 ohm
/// and 100 ohm costs 20 log ((50/100 + 100/50)/2) = 1.938 dB, and one pair nothing.
#[test]
fn doubled_pairs_halve_the_impedance() {
    for (pairs, expected_db) in [(1, 0.0), (2, 20.0 * 1.25_f64.log10())] {
        let text = one_flat(&format!("cable = \"hundred\", lengths = [\"50 m\"], pairs = {pairs}"));
        let site = site(&family("999 kHz", "1001 kHz"), PARTS, &text);
        let found = surveyed(&site);
        near_db(loss_db(&site, &found, "A-1"), expected_db);
    }
}

/// Each separate network is judged on its own, and what is not known of one does not touch the other.
#[test]
fn what_is_missing_is_told_for_its_own_network() {
    let (site, found) = voice(
        "[supplies]\nPS = { model = \"ps\" }\nQ = { model = \"ps-unknown\" }\nU = { model = \"ps\" }\n\
         [entrances]\nfront = { calls = [\"everyone\"] }\nback = { role = \"secondary\", calls = [\"everyone\"] }\nside = { role = \"secondary\", calls = [\"everyone\"] }\n\
         [dwellings]\nA-1 = {}\nB-1 = {}\nC-1 = {}\n[runs]\n\
         R = { from = \"PS\", to = [\"front\", \"A-1\"], lengths = [\"1 m\", \"1 m\"] }\n\
         S = { from = \"Q\", to = [\"back\", \"B-1\"], lengths = [\"1 m\", \"1 m\"] }\n\
         T = { from = \"U\", to = [\"side\", \"C-1\"], lengths = [\"1 m\", \"1 m\"], cable = \"unknown\" }\n",
    );
    let judged: Vec<usize> = found.bands[0].stations.iter().map(|row| row.station).collect();
    assert_eq!(judged, [station(&site, "A-1")]);
    let missing: Vec<(&str, String)> =
        found.missing.iter().map(|one| (one.element.as_str(), one.missing.say(Language::English))).collect();
    assert_eq!(missing, [("Q", String::from("ps-unknown feed_choke")), ("T", String::from("unknown line"))]);
}
