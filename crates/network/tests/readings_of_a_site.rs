//! Predicted readings of small sites against Ohm's law, worked out beside each case.

use crate::small_site::{near, run, site, station};
use latchline_finding::{CallMoment, StateKind};
use latchline_network::readings::{
    Basis, DROP_METER_V, NoPrediction, Prediction, Predictor, Reading, ReadingPlace, Readings, RunFeed,
    WorstOfDevice,
};
use latchline_network::{BusState, Corner, Device, Layout, StageSource, StandingCall, StateSpace};
use latchline_site::model::Site;

/// From -5 to 45 °C, lengths within 10 %, 0.1 ohm at each end of each conductor.
const CONDITIONS: &str = "[conditions]\nusual_temperature = \"20 °C\"\nhottest_temperature = \"45 °C\"\ncoldest_temperature = \"-5 °C\"\n\
                          length_tolerance = \"10 %\"\njoint_resistance = \"0.1 ohm\"\n";

/// Supply of 48 V within 5 % behind 0.5 ohm; loads are constant currents within 10 %.
const PARTS: &str = r#"
[supplies]
ps = { title = "Supply", source = "invented", family = "mere", voltage = "48 V", voltage_tolerance = "5 %", source_resistance = "0.5 ohm", rated_current = "10 A", limit_kind = "constant-current" }

[boxes]
d-fresh = { title = "Regenerating distributor", source = "invented", family = "mere", role = "distributor", kind = "regenerated", ports = 4, output_voltage = "40 V", efficiency = "90 %", least_voltage = "20 V" }

[stations]
flat = { title = "Station", source = "invented", family = "mere", kind = "indoor", media = "audio", loop_through = "bridged", converter = false, standby = "100 mA", ringing = "150 mA", talking = "200 mA", load_tolerance = "10 %", least_voltage = "20 V", least_standby_voltage = "20 V" }
door = { title = "Door station", source = "invented", family = "mere", kind = "door", media = "audio", loop_through = "bridged", converter = false, standby = "50 mA", ringing = "100 mA", talking = "100 mA", load_tolerance = "10 %", least_voltage = "20 V", least_standby_voltage = "20 V", directory = 99 }

[cables]
wire = { title = "Wire", source = "invented", gauge = "0.1 ohm/km", resistance_tolerance = "0 %" }
half = { title = "1 ohm a metre of loop", source = "invented", gauge = "500 ohm/km", pairs = 2, resistance_tolerance = "5 %", line = { capacitance = "60 nF/km", inductance = "0.6 mH/km", skin_corner = "100 kHz", loss_tangent = 0.01 } }
"#;

const CHAIN: &str = "[supplies]\nPS = { model = \"ps\" }\n[entrances]\nfront = { calls = [\"everyone\"] }\n[dwellings]\nA-1 = {}\nA-2 = {}\n[runs]\n\
                     R1 = { from = \"PS\", to = [\"A-1\", \"A-2\"], cable = \"half\", lengths = [\"10 m\", \"20 m\"] }\n\
                     R2 = { from = \"PS\", to = \"front\", cable = \"half\", length = \"5 m\" }\n";

/// Of a corner: loop of so many metres of "half", the supply's voltage, the factor of the loads.
type Figures = (fn(f64) -> f64, f64, f64);
const NOMINAL: Figures = (|metres| metres + 0.4, 48.0, 1.0);
const ADVERSE: Figures = (|metres| metres * (1.0 + 0.003_93 * 25.0) * 1.05 * 1.1 + 0.4, 45.6, 1.1);
const LIGHT: Figures = (|metres| metres * (1.0 - 0.003_93 * 25.0) * 0.95 * 0.9 + 0.4, 50.4, 0.9);
const SOURCE_OHM: f64 = 0.5;

struct Case {
    site: Site,
    layout: Layout,
    space: StateSpace,
}

impl Case {
    fn new(rest: &str) -> Self {
        let site = site("", PARTS, &format!("{CONDITIONS}{rest}"));
        let layout = Layout::new(&site);
        let space = StateSpace::new(&site, &layout);
        Case { site, layout, space }
    }

    fn predictor(&self) -> Predictor<'_> {
        Predictor { site: &self.site, layout: &self.layout, space: &self.space }
    }

    fn readings(&self) -> Readings {
        Readings::new(&self.predictor(), [], &[])
    }
}

/// Nominal from the nominal corner, lowest and highest from these.
#[track_caller]
fn spans(found: Option<&Prediction>, figures: [f64; 3], corners: [Corner; 2]) {
    let found = found.expect("a prediction");
    near(found.nominal.value, figures[0], 1e-8);
    near(found.lowest.value, figures[1], 1e-8);
    near(found.highest.value, figures[2], 1e-8);
    assert_eq!([found.lowest.corner, found.highest.corner], corners);
    assert!(![found.nominal, found.lowest, found.highest].iter().any(|estimate| estimate.is_bound));
}

const LOW_IS_ADVERSE: [Corner; 2] = [Corner::Adverse, Corner::Light];
const LOW_IS_LIGHT: [Corner; 2] = [Corner::Light, Corner::Adverse];

#[test]
fn standby_voltages_and_currents_follow_from_ohms_law() {
    let case = Case::new(CHAIN);
    let readings = case.readings();
    let at = |id| ReadingPlace::Station(station(&case.site, id));
    let volts = |places: fn(Figures) -> f64| [NOMINAL, ADVERSE, LIGHT].map(places);
    let supply = volts(|(_, volts, load)| volts - SOURCE_OHM * 0.25 * load);
    spans(readings.standby_voltage(ReadingPlace::Supply(0)), supply, LOW_IS_ADVERSE);
    let first = volts(|(ohm, volts, load)| volts - (SOURCE_OHM * 0.25 + ohm(10.0) * 0.2) * load);
    spans(readings.standby_voltage(at("A-1")), first, LOW_IS_ADVERSE);
    let last =
        volts(|(ohm, volts, load)| volts - (SOURCE_OHM * 0.25 + ohm(10.0) * 0.2 + ohm(20.0) * 0.1) * load);
    spans(readings.standby_voltage(at("A-2")), last, LOW_IS_ADVERSE);
    spans(readings.standby_current(ReadingPlace::Supply(0)), [0.25, 0.225, 0.275], LOW_IS_LIGHT);
    let run = |id| ReadingPlace::Run(run(&case.site, id));
    spans(readings.standby_current(run("R1")), [0.2, 0.18, 0.22], LOW_IS_LIGHT);
    spans(readings.standby_current(run("R2")), [0.05, 0.045, 0.055], LOW_IS_LIGHT);
    let open = readings.open_circuit_voltage(StageSource::Supply(0));
    spans(open, [48.0, 45.6, 50.4], LOW_IS_ADVERSE);
    assert_eq!(open.map(|open| open.basis), Some(Basis::Source));
}

/// The voltage at the start of a run is that of what it starts from; any reading can be asked for by itself.
#[test]
fn a_run_starts_at_the_voltage_of_its_source() {
    let case = Case::new(CHAIN);
    let state = || BusState::from(StateKind::StandbyDay);
    let places = [ReadingPlace::Run(run(&case.site, "R2")), ReadingPlace::Supply(0)];
    let found = case.predictor().predict(places.map(|at| Reading::Voltage { at, state: state() }));
    let [start, source] = places.map(|at| found[&Reading::Voltage { at, state: state() }]);
    assert!(start.is_ok() && start == source);
}

/// The door takes 100 mA, the station that talks 200 mA, the other stays in standby.
#[test]
fn a_station_talks_with_its_first_entrance() {
    let case = Case::new(CHAIN);
    let readings = case.readings();
    let expected = [NOMINAL, ADVERSE, LIGHT]
        .map(|(ohm, volts, load)| volts - (SOURCE_OHM * 0.4 + ohm(10.0) * 0.3 + ohm(20.0) * 0.2) * load);
    let last = station(&case.site, "A-2");
    spans(readings.talking_voltage(last), expected, LOW_IS_ADVERSE);
    let door = station(&case.site, "front");
    let call = StandingCall { caller: door, answering: last, moment: CallMoment::Talking };
    assert_eq!(readings.talking[last], Some(BusState { kind: StateKind::Call, calls: vec![call] }));
    assert_eq!(readings.talking[door], None);
}

/// What is lost on the run in each state and corner: of the first length `first` amperes, of the second `second`.
fn lost_v((ohm, _, load): Figures, first_a: f64, second_a: f64) -> f64 {
    (ohm(10.0) * first_a + ohm(20.0) * second_a) * load
}

#[test]
fn the_drop_over_a_run_is_what_its_lengths_take() {
    let case = Case::new(CHAIN);
    let readings = case.readings();
    let run = run(&case.site, "R1");
    let call = readings.run_call[run].clone().expect("someone calls");
    assert_eq!(call.station, station(&case.site, "A-2"), "the farthest");
    let drops = readings.drops(run, 0, 1);
    assert_eq!(drops.len(), 2);
    for (reading, (first_a, second_a)) in drops.iter().zip([(0.2, 0.1), (0.3, 0.2)]) {
        let lost = [NOMINAL, LIGHT, ADVERSE].map(|corner| lost_v(corner, first_a, second_a));
        spans(readings.get(reading), lost, LOW_IS_LIGHT);
    }
}

/// Loads of constant current: a joint of x ohm adds x times the current of its length, so both sizes follow from Ohm's law.
#[test]
fn a_joint_shows_and_fails_where_ohms_law_says() {
    let case = Case::new(CHAIN);
    let run = run(&case.site, "R1");
    let first = case.readings();
    let state = first.run_call[run].clone().expect("someone calls").state;
    let limit_v = 20.0;
    let worst: Vec<WorstOfDevice<'_>> = ["A-1", "A-2"]
        .map(|id| WorstOfDevice { device: Device::Station(station(&case.site, id)), state: &state, limit_v })
        .to_vec();
    let readings = Readings::new(&case.predictor(), [], &worst);
    let joints: Vec<_> = readings.joints_of(run).collect();
    assert_eq!(joints.len(), 2);
    let hidden = |first_a, second_a| lost_v(ADVERSE, first_a, second_a) - lost_v(LIGHT, first_a, second_a);
    let (ohm, volts, load) = ADVERSE;
    let last_v = volts - (SOURCE_OHM * 0.4 + ohm(10.0) * 0.3 + ohm(20.0) * 0.2) * load;
    let close = |found: f64, expected: f64| near(found, expected, 2e-3 * expected);
    for (joint, [standby_a, call_a]) in joints.iter().zip([[0.2, 0.3], [0.1, 0.2]]) {
        let of = |range: f64, amperes: f64| (range + DROP_METER_V) / (amperes * LIGHT.2);
        let expected = of(hidden(0.2, 0.1), standby_a).min(of(hidden(0.3, 0.2), call_a));
        close(joint.revealed_ohm.expect("shows"), expected);
        let alone = |first: f64, second: f64| if joint.section == 0 { (first, 0.0) } else { (0.0, second) };
        let range = |(first, second)| hidden(first, second);
        let expected = of(range(alone(0.2, 0.1)), standby_a).min(of(range(alone(0.3, 0.2)), call_a));
        close(joint.revealed_alone_ohm.expect("shows"), expected);
        let fails = joint.fails.expect("fails");
        assert_eq!(fails.device, Device::Station(station(&case.site, "A-2")), "it has less in hand");
        close(fails.ohm, (last_v - limit_v) / (call_a * load));
        assert!(!joint.hides_a_failure());
    }
    // With next to nothing in hand the same readings hide what fails, and say so.
    let thin: Vec<WorstOfDevice<'_>> =
        worst.iter().map(|one| WorstOfDevice { limit_v: last_v - 0.5, ..*one }).collect();
    let readings = Readings::new(&case.predictor(), [], &thin);
    assert!(readings.joints_of(run).all(|joint| joint.hides_a_failure()));
    close(readings.joints[0].fails.expect("fails").ohm, 0.5 / (0.3 * load));
}

#[test]
fn a_run_alone_has_the_loop_and_the_capacitance_of_its_cable() {
    let case = Case::new(CHAIN);
    let readings = case.readings();
    let run = run(&case.site, "R1");
    let ohm = [NOMINAL, LIGHT, ADVERSE].map(|(ohm, ..)| ohm(10.0) + ohm(20.0));
    spans(readings.loop_resistance(run), ohm, LOW_IS_LIGHT);
    // 30 m of 60 pF/m, lengths within 10 %.
    spans(readings.capacitance(run), [1.8e-9, 1.62e-9, 1.98e-9], LOW_IS_LIGHT);
    let pairs = Case::new(&CHAIN.replace("\"20 m\"]", "\"20 m\"], pairs = 2"));
    spans(pairs.readings().loop_resistance(run), ohm.map(|ohm| 0.5 * ohm), LOW_IS_LIGHT);
    spans(pairs.readings().capacitance(run), [3.6e-9, 3.24e-9, 3.96e-9], LOW_IS_LIGHT);
}

/// 30 m of 60 pF/m, lengths within 10 %, and a capacitance of a metre that is a guess within 20 %: 1.8 nF times 0.9 and 0.8, times 1.1 and 1.2.
#[test]
fn a_capacitance_that_is_assumed_has_a_wider_range() {
    let mut case = Case::new(CHAIN);
    let mut catalogue = (*case.site.catalogue).clone();
    for cable in catalogue.cables.values_mut() {
        if let Some(line) = &mut cable.line {
            line.capacitance.provenance = latchline_finding::Provenance::Assumed;
        }
    }
    case.site.catalogue = std::sync::Arc::new(catalogue);
    let readings = case.readings();
    let found = readings.capacitance(run(&case.site, "R1"));
    spans(found, [1.8e-9, 1.296e-9, 2.376e-9], LOW_IS_LIGHT);
    assert_eq!(found.map(|found| found.basis), Some(Basis::AssumedCable));
}

/// What was measured takes the place of the cable's figures, within 2 %, the loop at the temperatures of the corners.
#[test]
fn a_measured_run_is_expected_to_read_the_same_again() {
    let case = Case::new(&CHAIN.replace(
        "lengths = [\"10 m\", \"20 m\"]",
        "lengths = [\"10 m\", \"20 m\"], existing = true, measured = { loop = \"40 ohm\", capacitance = \"2 nF\" }",
    ));
    let readings = case.readings();
    let run = run(&case.site, "R1");
    let (cold, hot) = (1.0 - 0.003_93 * 25.0, 1.0 + 0.003_93 * 25.0);
    spans(readings.loop_resistance(run), [40.0, 40.0 * 0.98 * cold, 40.0 * 1.02 * hot], LOW_IS_LIGHT);
    spans(readings.capacitance(run), [2e-9, 1.96e-9, 2.04e-9], LOW_IS_LIGHT);
    let basis = |found: Option<&Prediction>| found.map(|found| found.basis);
    assert_eq!(basis(readings.loop_resistance(run)), Some(Basis::Measured));
    assert_eq!(basis(readings.capacitance(run)), Some(Basis::Measured));
}

/// What a regenerating box puts out, over its efficiency, is a constant power at its input:
/// `v = (V + sqrt(V² - 4 R P))/2`.
#[test]
fn a_regenerating_box_draws_its_output_over_its_efficiency() {
    let case = Case::new(
        "[supplies]\nPS = { model = \"ps\" }\n[distributors]\nD = { model = \"d-fresh\" }\n[entrances]\nfront = { calls = [\"everyone\"] }\n[dwellings]\nA-1 = {}\n[runs]\n\
         R1 = { from = \"PS\", to = \"D\", cable = \"half\", length = \"10 m\" }\n\
         R2 = { from = \"D.1\", to = [\"A-1\", \"front\"], cable = \"half\", lengths = [\"20 m\", \"5 m\"] }\n",
    );
    let readings = case.readings();
    let corners = [NOMINAL, ADVERSE, LIGHT];
    let input = corners.map(|(ohm, volts, load)| {
        let (ohm, watts) = (SOURCE_OHM + ohm(10.0), 40.0 * 0.15 * load / 0.9);
        0.5 * (volts + (volts * volts - 4.0 * ohm * watts).sqrt())
    });
    spans(readings.standby_voltage(ReadingPlace::BoxInput(0)), input, LOW_IS_ADVERSE);
    let [nominal, adverse, light] = input;
    let into = |volts: f64, load: f64| 40.0 * 0.15 * load / 0.9 / volts;
    let amperes = [into(nominal, 1.0), into(light, 0.9), into(adverse, 1.1)];
    spans(readings.standby_current(ReadingPlace::Supply(0)), amperes, LOW_IS_LIGHT);
    spans(readings.standby_current(ReadingPlace::BoxOutput(0)), [0.15, 0.135, 0.165], LOW_IS_LIGHT);
    let flat = corners.map(|(ohm, _, load)| 40.0 - ohm(20.0) * 0.15 * load);
    let at = ReadingPlace::Station(station(&case.site, "A-1"));
    spans(readings.standby_voltage(at), flat, LOW_IS_ADVERSE);
    let feeds: Vec<RunFeed> = (0..2).map(|run| RunFeed { run, supply: Some(0) }).collect();
    assert_eq!(readings.power_order, feeds);
}

/// The way to the last station: three drops, whose sum is what is missing of the supply's lowest voltage.
#[test]
fn the_way_to_a_device_adds_up() {
    let case = Case::new(CHAIN);
    let device = Device::Station(station(&case.site, "A-2"));
    let path = case.predictor().path(device, &StateKind::StandbyDay.into()).expect("a way");
    let (ohm, volts, load) = ADVERSE;
    let drops = [SOURCE_OHM * 0.25 * load, ohm(10.0) * 0.2 * load, ohm(20.0) * 0.1 * load];
    assert_eq!(path.segments.len(), drops.len());
    for (segment, drop_v) in path.segments.iter().zip(drops) {
        near(segment.drop_v, drop_v, 1e-8);
    }
    near(path.voltage_v, volts - drops.iter().sum::<f64>(), 1e-8);
    near(path.source_v - path.drop_v, path.voltage_v, 1e-8);
    // 0.5 ohm a metre at 20 °C is 0.5 (1 + 0.00393 x 25) at 45 °C.
    let per_m: Vec<Option<f64>> = path.segments.iter().map(|segment| segment.conductor_ohm_per_m).collect();
    assert_eq!(per_m[0], None);
    near(per_m[1].expect("a section"), 0.5 * (1.0 + 0.003_93 * 25.0), 1e-12);
}

/// What cannot be predicted says why.
#[test]
fn no_prediction_has_a_reason() {
    let case = Case::new(&CHAIN.replace("cable = \"half\", length = \"5 m\"", "length = \"5 m\""));
    let at = ReadingPlace::Station(station(&case.site, "A-1"));
    let door = station(&case.site, "front");
    let nobody = StandingCall { caller: door, answering: door, moment: CallMoment::Talking };
    let cases = [
        (Reading::Capacitance { run: run(&case.site, "R2") }, NoPrediction::CapacitanceUnknown),
        (Reading::Voltage { at, state: StateKind::AllCall.into() }, NoPrediction::NoSuchState),
        (Reading::Voltage { at, state: StateKind::BatteryEnd.into() }, NoPrediction::NoSuchState),
        (
            Reading::Voltage { at, state: BusState { kind: StateKind::Call, calls: vec![nobody] } },
            NoPrediction::NoSuchState,
        ),
        (
            Reading::Voltage { at: ReadingPlace::Station(99), state: StateKind::StandbyDay.into() },
            NoPrediction::NotFed,
        ),
    ];
    let found = case.predictor().predict(cases.iter().map(|(reading, _)| reading.clone()));
    for (reading, why) in cases {
        assert_eq!(found[&reading], Err(why), "{reading:?}");
    }
    // 200 ohm in the way of stations that take 20 W each.
    let collapsing = PARTS.replace("standby = \"100 mA\"", "standby = \"20 W\"");
    let text = format!("{CONDITIONS}{}", CHAIN.replace("\"20 m\"", "\"200 m\""));
    let site = site("", &collapsing, &text);
    let layout = Layout::new(&site);
    let space = StateSpace::new(&site, &layout);
    let predictor = Predictor { site: &site, layout: &layout, space: &space };
    let reading = Reading::Voltage { at, state: StateKind::StandbyDay.into() };
    assert_eq!(predictor.predict([reading.clone()])[&reading], Err(NoPrediction::NoOperatingPoint));
    assert_eq!(
        predictor.path(Device::Station(station(&site, "A-2")), &StateKind::StandbyDay.into()).err(),
        Some(NoPrediction::NoOperatingPoint)
    );
}
