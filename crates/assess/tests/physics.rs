//! Signal, power return and sampled tolerances of whole sites against closed forms.
#![allow(clippy::unwrap_used, reason = "a failure to build the case is a failed test")]

use latchline_assess::physics_summary::{
    PowerReturnOutcome, ToleranceError, ToleranceOptions, ToleranceSummary,
};
use latchline_assess::{Assessing, Assessment, Effort, Memory, assess};
use latchline_finding::{Language, Sources};
use latchline_site::model::Site;
use latchline_site::resolve;

fn sampled_tolerances(
    site: &Site,
    options: ToleranceOptions,
) -> Result<Vec<ToleranceSummary>, ToleranceError> {
    Assessing::new(site, Effort::Whole, &Memory::default()).tolerance(options).unwrap()
}

const CATALOGUE: &str = r#"
[families.mere]
title = "Mere (invented)"
source = "invented"
nominal_voltage = "48 V"
simultaneous_calls = 1
signal_bands = [{ name = "data", low = "500 kHz", high = "1.5 MHz", budget = "120 dB", ripple = "6 dB" }]
addresses.indoor = [{ field = "dwelling", first = 1, last = 99, set_by = "keyed", digits = 2, label = "FLAT" }]
addresses.door = [{ field = "entrance", first = 0, last = 9, set_by = "keyed", digits = 1, label = "DOOR" }]

[supplies]
half-amp = { title = "Supply", source = "invented", family = "mere", voltage = "48 V", voltage_tolerance = "0 %", source_resistance = "0.001 ohm", rated_current = "0.5 A", limit_kind = "constant-current", feed_choke = "100 H" }
loose = { title = "Supply", source = "invented", family = "mere", voltage = "48 V", voltage_tolerance = "5 %", source_resistance = "0 ohm", rated_current = "5 A", limit_kind = "constant-current", feed_choke = "100 H" }

[stations]
slow = { title = "Station", source = "invented", family = "mere", kind = "indoor", media = "audio", loop_through = "bridged", standby = "0.001 W", ringing = "1 W", talking = "1 W", boot = "0.001 W", boot_time = "250 ms", load_tolerance = "0 %", least_voltage = "20 V", least_standby_voltage = "20 V", turn_on_voltage = "40 V", turn_off_voltage = "20 V", turn_on_delay = "100 ms", input_capacitance = "10000 uF", bridging_resistance = "10 Mohm", bridging_capacitance = "1 pF", signal_impedance = "100 ohm" }
steady = { title = "Station", source = "invented", family = "mere", kind = "indoor", media = "audio", loop_through = "bridged", converter = false, standby = "100 mA", ringing = "100 mA", talking = "100 mA", load_tolerance = "0 %", least_voltage = "44.4 V", least_standby_voltage = "44.4 V", bridging_resistance = "10 Mohm", bridging_capacitance = "1 pF", signal_impedance = "100 ohm" }
door = { title = "Door station", source = "invented", family = "mere", kind = "door", media = "audio", loop_through = "bridged", converter = false, standby = "1 mA", ringing = "1 mA", talking = "1 mA", load_tolerance = "0 %", least_voltage = "20 V", least_standby_voltage = "20 V", directory = 9, bridging_resistance = "10 Mohm", bridging_capacitance = "1 pF", signal_impedance = "100 ohm" }

[cables]
bare = { title = "Pair of 100 ohm and 5 ns/m", source = "invented", gauge = "0.1 ohm/km", resistance_tolerance = "0 %", line = { capacitance = "50 nF/km", inductance = "0.5 mH/km", skin_corner = "1000 MHz", loss_tangent = 0.0 } }
ten = { title = "Loop of 1 ohm/m", source = "invented", gauge = "500 ohm/km", resistance_tolerance = "0 %", line = { capacitance = "50 nF/km", inductance = "0.5 mH/km", skin_corner = "1000 MHz", loss_tangent = 0.0 } }
"#;

fn site(rest: &str) -> Site {
    let text = format!(
        r#"[site]
title = "Case"
family = "mere"
indoor_station = "slow"
door_station = "door"
cable = "bare"
[conditions]
usual_temperature = "20 °C"
hottest_temperature = "20 °C"
coldest_temperature = "20 °C"
length_tolerance = "0 %"
joint_resistance = "0 ohm"
{rest}"#
    );
    let mut sources = Sources::new();
    let catalogue = sources.add("catalogue.toml", CATALOGUE);
    let site_file = sources.add("site.toml", text.as_str());
    let resolved = resolve(&sources, site_file, &[catalogue]);
    resolved.site.unwrap_or_else(|| panic!("{:#?}", resolved.findings))
}

fn assessed(rest: &str) -> Assessment {
    assess(&site(rest))
}

/// Charge at constant current: t = C V / I = 10 mF x 40 V / 0.5 A = 0.8 s for one station, then 100 ms of delay and
/// 250 ms of boot; two stations share the current.
#[test]
fn power_return_takes_the_charge_time() {
    for (flats, expected_s) in [("A-1 = {}", 0.8 + 0.35), ("A-1 = {}\nA-2 = {}", 1.6 + 0.35)] {
        let stops = if flats.contains("A-2") { r#"["A-1", "A-2"]"# } else { r#"["A-1"]"# };
        let found = assessed(&format!(
            "[supplies]\nPS = {{ model = \"half-amp\" }}\n[dwellings]\n{flats}\n[runs]\n\
             R1 = {{ from = \"PS\", to = {stops}, first = \"0.1 m\", spacing = \"0.1 m\" }}\n"
        ));
        let start = &found.start_up[0];
        assert_eq!(start.outcome, PowerReturnOutcome::Runs);
        let time_s = start.time_s.unwrap();
        assert!((time_s - expected_s).abs() < 0.005 * expected_s, "{time_s}, expected {expected_s}");
        // The chart begins with nothing and ends with the open-circuit voltage.
        let curve = &start.curves[0];
        assert!(curve.voltage_v.last().unwrap() > &47.9 && curve.voltage_v[0] < 0.1);
    }
}

/// Quarter wave: an open branch of 50 m at 5 ns/m has its notch at 1 / (4 x 50 x 5e-9) = 1.000 MHz.
#[test]
fn an_open_branch_makes_its_notch_at_a_quarter_wave() {
    let found = assessed(
        r#"[supplies]
PS = { model = "half-amp" }
[dwellings]
A-1 = {}
A-2 = {}
B-1 = {}
[entrances.front]
calls = ["A-2"]
[runs]
R1 = { from = "PS", to = ["front", "A-1"], lengths = ["0.1 m", "0.1 m"] }
R2 = { from = "A-1", to = "A-2", length = "0.1 m" }
R3 = { from = "A-1", to = "B-1", length = "50 m" }
"#,
    );
    let worst = &found.signal[0].worst;
    assert_eq!(worst.station.as_str(), "A-2");
    assert!((worst.at_hz - 1e6).abs() < 1e3, "{}", worst.at_hz);
    assert!(worst.loss_db > 40.0);
    // At half the notch frequency a lossless stub of Z0 across 50 ohm: |1 + j tan(pi/4)/2|, 0.969 dB.
    let response = &found.signal[0];
    let half = response.frequency_hz.iter().position(|hz| *hz == 500e3).unwrap();
    assert!((response.insertion_loss_db[half] - 0.969).abs() < 0.02, "{}", response.insertion_loss_db[half]);
}

const SAMPLED: &str = r#"[supplies]
PS = { model = "loose" }
[dwellings]
A-1 = { station = "steady" }
[runs]
R1 = { from = "PS", to = "A-1", length = "20 m", cable = "ten" }
"#;

/// V = 48 (1 + d) - 0.1 A x 20 ohm, d rectangular within 5 %: V is rectangular from 43.6 to 48.4 V, below 44.4 V with probability
/// 0.8/4.8 = 1/6, with a standard deviation of 4.8/sqrt(12); all of the spread is the source's.
#[test]
fn sampled_tolerance_of_one_factor_in_closed_form() {
    let found = sampled_tolerances(&site(SAMPLED), ToleranceOptions { samples: 40_000, seed: 3 }).unwrap();
    let one = &found[0];
    assert!(one.interval.1 - one.interval.0 < 0.01);
    assert!((one.mean_v.unwrap() - 46.0).abs() < 0.03);
    assert!((one.deviation_v.unwrap() - 4.8 / 12.0_f64.sqrt()).abs() < 0.01);
    assert_eq!(one.shares[0].0.say(Language::English), "source voltage");
    assert!(one.shares[0].1 > 0.999);
}

/// The intervals hold what they promise: 95 % of them or more contain the true 1/6. Fewer than 90 of 100 would come by chance
/// in one of 35 trials (binomial), and the seeds are fixed.
#[test]
fn intervals_cover_the_true_probability() {
    let case = site(SAMPLED);
    let covers = (0..100).filter(|seed| {
        let found = sampled_tolerances(&case, ToleranceOptions { samples: 500, seed: *seed }).unwrap();
        let (low, high) = found[0].interval;
        low <= 1.0 / 6.0 && 1.0 / 6.0 <= high
    });
    let covers = covers.count();
    assert!(covers >= 90, "{covers} of 100");
}

#[test]
fn results_do_not_depend_on_the_number_of_threads() {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build().unwrap();
    let options = ToleranceOptions { samples: 1000, seed: 3 };
    let case = site(SAMPLED);
    let alone = pool.install(|| (assess(&case), sampled_tolerances(&case, options).unwrap()));
    assert_eq!(alone, (assess(&case), sampled_tolerances(&case, options).unwrap()));
    let other = sampled_tolerances(&case, ToleranceOptions { seed: 4, ..options }).unwrap();
    assert_ne!(alone.1, other);
}

#[test]
fn no_samples_are_refused() {
    let refused = sampled_tolerances(&site(SAMPLED), ToleranceOptions { samples: 0, seed: 1 });
    assert!(refused.unwrap_err().to_string().contains("0 samples"));
}
