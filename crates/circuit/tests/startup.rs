//! Start-up against closed forms and published figures.
//!
//! Sources are named beside each check. Where none is, the figure follows from the circuit's
//! differential equation, written out in the comment.

use latchline_circuit::startup::{
    BusDevice, BusLoad, Converter, DeviceStatus, HiccupCause, Limiter, Options, Outcome, Port, PortLimit,
    StartUp, StartupError, StopReason, Supply, SupplyLimit, System, boot_condition, boots_together_fit,
    simulate, simulate_while, smallest_stagger, start_conditions,
};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use std::cell::Cell;

fn supply(voltage_v: f64, resistance_ohm: f64, limit: SupplyLimit) -> Supply {
    Supply {
        voltage_v,
        resistance_ohm,
        limit,
        output_capacitance_f: 0.0,
        initial_voltage_v: 0.0,
        ramp_time_s: 0.0,
    }
}

fn capacitor(node: usize, capacitance_f: f64) -> BusDevice {
    BusDevice {
        node,
        capacitance_f,
        bridge_drop_v: 0.0,
        initial_voltage_v: 0.0,
        discharge_s: 0.0,
        inrush_limit_a: None,
        converter: None,
    }
}

fn converter(turn_on_v: f64, turn_off_v: f64, power_w: f64) -> Converter {
    Converter {
        turn_on_v,
        turn_off_v,
        delay_s: 0.0,
        boot_power_w: power_w,
        boot_time_s: 0.0,
        running_power_w: power_w,
    }
}

/// A chain with one device at every node but the root.
fn chain(supply: Supply, section_ohm: f64, devices: Vec<BusDevice>) -> System {
    let n = devices.iter().map(|d| d.node).max().unwrap_or(0) + 1;
    System {
        parent: (0..n as u32).map(|k| k.saturating_sub(1)).collect(),
        loop_resistance_ohm: vec![section_ohm; n],
        supply,
        ports: Vec::new(),
        devices,
        bus_loads: Vec::new(),
        bus_capacitors: Vec::new(),
    }
}

fn run(system: &System, end_s: f64) -> StartUp {
    simulate(system, &Options { end_s, ..Options::default() }).expect("a valid case")
}

/// Time at which the recorded voltage of `node` first reaches `level_v`, by linear interpolation.
fn reaches(system: &System, node: usize, level_v: f64, end_s: f64, tolerance_v: f64) -> f64 {
    let options = Options {
        end_s,
        tolerance_v,
        record_nodes: vec![node],
        most_points: 1_000_000,
        ..Options::default()
    };
    let result = simulate(system, &options).expect("a valid case");
    let w = &result.waveforms[0];
    let i = w.voltage_v.iter().position(|&v| v >= level_v).expect("level is reached");
    if i == 0 {
        return w.time_s[0];
    }
    let share = (level_v - w.voltage_v[i - 1]) / (w.voltage_v[i] - w.voltage_v[i - 1]);
    w.time_s[i - 1] + share * (w.time_s[i] - w.time_s[i - 1])
}

/// First start of a converter that takes nothing: the time at which its capacitor reaches a
/// voltage, without interpolating in samples.
fn charge_time(limit: SupplyLimit, source_ohm: f64, voltage_v: f64, capacitance_f: f64, to_v: f64) -> f64 {
    let mut device = capacitor(0, capacitance_f);
    device.converter = Some(converter(to_v, 0.5 * to_v, 0.0));
    let system = chain(supply(voltage_v, source_ohm, limit), 0.0, vec![device]);
    let options = Options { end_s: 100.0, tolerance_v: 1e-5, ..Options::default() };
    let result = simulate(&system, &options).expect("a valid case");
    result.devices[0].first_start_s.expect("it starts")
}

#[test]
fn constant_current_charges_in_c_v_over_i() {
    // t = C V/I for 180 uF to 57 V (capacitance from IEEE 802.3, from memory; inrush band 400 to
    // 450 mA from IEEE 802.3at as printed in Maniktala's guide): 25.65, 22.8, 102.6 ms.
    for (current_a, expected_s) in [(0.40, 25.65e-3), (0.45, 22.8e-3), (0.10, 102.6e-3)] {
        let t = charge_time(SupplyLimit::ConstantCurrent { current_a }, 1e-3, 60.0, 180e-6, 57.0);
        assert!((t / expected_s - 1.0).abs() < 1e-4, "{current_a} A: {t} s");
    }
}

#[test]
fn inrush_limit_of_a_device_charges_in_c_v_over_i() {
    let mut device = capacitor(1, 180e-6);
    device.inrush_limit_a = Some(0.45);
    device.converter = Some(converter(57.0, 30.0, 0.0));
    let result = run(&chain(supply(60.0, 0.1, SupplyLimit::None), 1.0, vec![device]), 1.0);
    let t = result.devices[0].first_start_s.unwrap();
    assert!((t / 22.8e-3 - 1.0).abs() < 1e-4, "{t} s");
}

#[test]
fn resistor_charges_capacitor_as_the_exponential_says() {
    // Worked exercise: 350 ohm, 0.02 F to 89 %: printed 15 s, from t = R C ln(1/(1 - 0.89)).
    let t = charge_time(SupplyLimit::None, 350.0, 10.0, 0.02, 8.9);
    assert!((t / 15.451 - 1.0).abs() < 1e-3, "{t} s");
}

#[test]
fn capacitor_discharges_into_a_resistor() {
    // Worked exercise: 20 kohm, 100 uF, 40 V to 18 V towards -0 V: t = R C ln(40/18) = 1.597 s. The
    // printed exercise (1.2 s) measures the fall *of* 18 V, R C ln(40/22) = 1.1957 s.
    for (level_v, expected_s) in [(18.0, 1.59702), (22.0, 1.19567)] {
        let mut device = capacitor(0, 100e-6);
        device.initial_voltage_v = 40.0;
        device.discharge_s = 1.0 / 20e3;
        // A converter without power that stops at the level; it starts at once.
        device.converter = Some(converter(39.0, level_v, 0.0));
        let system = chain(supply(0.0, 1.0, SupplyLimit::None), 0.0, vec![device]);
        let options = Options { end_s: expected_s * 1.001, ..Options::default() };
        assert_eq!(simulate(&system, &options).unwrap().devices[0].dropouts, 1);
        let options = Options { end_s: expected_s * 0.999, ..Options::default() };
        assert_eq!(simulate(&system, &options).unwrap().devices[0].dropouts, 0);
    }
}

#[test]
fn converter_starts_between_the_two_roots() {
    // 48 V, 10 ohm, 20 W: roots 4.60928 and 43.39072 V of v^2 - 48 v + 200 = 0. With almost no
    // hysteresis the converter stays only if its start threshold lies between them.
    let outcome = |turn_on_v: f64| {
        let mut device = capacitor(1, 100e-6);
        device.converter = Some(converter(turn_on_v, turn_on_v - 0.01, 20.0));
        let system = chain(supply(48.0, 4.0, SupplyLimit::None), 6.0, vec![device]);
        let condition = start_conditions(&system)[0];
        let (low, high) = condition.roots_v.unwrap();
        assert!((low - 4.609_28).abs() < 1e-5 && (high - 43.390_72).abs() < 1e-5);
        let result = run(&system, 2.0);
        let up = matches!(result.outcome, Outcome::OperatingPoint { .. });
        assert_eq!(up, condition.holds, "at {turn_on_v} V: {:?}", result.outcome);
        if up {
            assert!((result.bus_voltage_v[1] - 43.390_72).abs() < 1e-3);
        } else {
            assert_eq!(result.devices[0].status, DeviceStatus::Cycles);
        }
        up
    };
    assert!(!outcome(4.5));
    assert!(outcome(4.7));
    assert!(outcome(20.0));
    assert!(outcome(43.3));
    assert!(!outcome(43.5));
}

#[test]
fn constant_power_discharge_takes_the_energy() {
    // Supply off at once (0 V): a capacitor that feeds P runs from V1 to V2 in C (V1^2 - V2^2)/(2 P).
    let mut device = capacitor(0, 470e-6);
    device.initial_voltage_v = 48.0;
    device.converter = Some(converter(40.0, 18.0, 6.0));
    let expected_s = 470e-6 * (48.0_f64.powi(2) - 18.0_f64.powi(2)) / 12.0;
    let system = chain(supply(0.0, 1.0, SupplyLimit::None), 0.0, vec![device]);
    for (end_s, dropouts) in [(expected_s * 0.999, 0), (expected_s * 1.001, 1)] {
        assert_eq!(run(&system, end_s).devices[0].dropouts, dropouts);
    }
}

#[test]
fn boot_below_the_limit_follows_the_closed_form() {
    // In constant current I with constant power P: C du/dt = I - P/u, so from u1 to u2
    // t = C [ (u2 - u1)/I + (P/I^2) ln((I u2 - P)/(I u1 - P)) ].
    let (i, p, c, u1, u2): (f64, f64, f64, f64, f64) = (0.4, 6.0, 180e-6, 30.0, 45.0);
    let mut device = capacitor(0, c);
    device.converter = Some(converter(u1, 20.0, p));
    let system = chain(supply(60.0, 1e-3, SupplyLimit::ConstantCurrent { current_a: i }), 0.0, vec![device]);
    let expected_s = c * u1 / i + c * ((u2 - u1) / i + p / (i * i) * ((i * u2 - p) / (i * u1 - p)).ln());
    let t = reaches(&system, 0, u2, 1.0, 1e-5);
    assert!((t / expected_s - 1.0).abs() < 2e-4, "{t} s, {expected_s} s");
}

#[test]
fn hiccup_of_a_resistor_overload_has_the_period_of_its_timers() {
    // 20 ohm on 48 V wants 2.4 A of a 1 A limit: in limit from the first instant of every attempt,
    // so the period is trip time + off time.
    let mut system = chain(
        supply(48.0, 0.1, SupplyLimit::Hiccup { current_a: 1.0, trip_time_s: 0.08, off_time_s: 0.9 }),
        1.0,
        vec![capacitor(1, 47e-6)],
    );
    system.devices[0].converter = Some(converter(36.0, 20.0, 2.0));
    system.bus_loads.push(BusLoad { node: 1, current_a: 0.0, conductance_s: 0.05 });
    let result = run(&system, 20.0);
    let Outcome::Hiccups { cause: HiccupCause::Supply, period_s: Some(period_s) } = result.outcome else {
        panic!("{:?}", result.outcome)
    };
    assert!((period_s - 0.98).abs() < 1e-6, "{period_s} s");
    assert!((result.supply_trips_s[0] - 0.08).abs() < 1e-6);
    assert_eq!(result.devices[0].status, DeviceStatus::NeverUp);
    assert!(result.end_s < 5.0, "it stops when the state repeats, not at {} s", result.end_s);
}

#[test]
fn a_ramp_delays_the_limit_and_with_it_the_trip() {
    // With a soft start of 0.3 s the resistor of 20.1 ohm in all reaches 1 A at 20.1 V, that is,
    // after 0.3 * 20.1/48 s; the trip follows 0.08 s later.
    let mut limited =
        supply(48.0, 0.1, SupplyLimit::Hiccup { current_a: 1.0, trip_time_s: 0.08, off_time_s: 0.9 });
    limited.ramp_time_s = 0.3;
    let mut system = chain(limited, 0.0, vec![capacitor(1, 1e-9)]);
    system.bus_loads.push(BusLoad { node: 1, current_a: 0.0, conductance_s: 0.05 });
    let result = run(&system, 20.0);
    let first_s = 0.3 * 20.1 / 48.0 + 0.08;
    assert!((result.supply_trips_s[0] / first_s - 1.0).abs() < 2e-3, "{:?}", result.supply_trips_s);
    let Outcome::Hiccups { period_s: Some(period_s), .. } = result.outcome else {
        panic!("{:?}", result.outcome)
    };
    assert!((period_s / (first_s + 0.9) - 1.0).abs() < 2e-3, "{period_s} s");
}

#[test]
fn foldback_holds_a_resistor_where_the_two_lines_cross() {
    // Limit 0.3 A + 0.03 A/V up to 40 V, load 0.04 A/V: they meet at 30 V and 1.2 A; the device
    // that would start at 36 V never does.
    let limit = SupplyLimit::Foldback { max_current_a: 1.5, knee_voltage_v: 40.0, short_current_a: 0.3 };
    let mut s = supply(48.0, 0.1, limit);
    s.output_capacitance_f = 220e-6;
    let mut device = capacitor(1, 180e-6);
    device.converter = Some(converter(36.0, 20.0, 5.0));
    let mut system = chain(s, 0.0, vec![device]);
    system.bus_loads.push(BusLoad { node: 0, current_a: 0.0, conductance_s: 0.04 });
    let result = run(&system, 10.0);
    assert_eq!(result.outcome, Outcome::BrownOut { limited_by: vec![Limiter::Supply], open_ports: vec![] });
    assert!((result.bus_voltage_v[0] - 30.0).abs() < 1e-3, "{} V", result.bus_voltage_v[0]);
    assert!((result.supply_current_a - 1.2).abs() < 1e-4);
    assert_eq!(result.devices[0].status, DeviceStatus::NeverUp);
}

#[test]
fn converters_that_overload_a_constant_current_supply_drop_out_in_a_closed_form_period() {
    // One converter of 20 W on 0.3 A: discharges from 36 to 20 V and charges back. With constant
    // current I, charging takes C dV/I; discharging C [ -(u1-u2)/I... ] from C du/dt = I - P/u.
    let (i, p, c, on, off): (f64, f64, f64, f64, f64) = (0.3, 20.0, 220e-6, 36.0, 20.0);
    let mut device = capacitor(0, c);
    device.converter = Some(converter(on, off, p));
    let system = chain(supply(48.0, 1e-3, SupplyLimit::ConstantCurrent { current_a: i }), 0.0, vec![device]);
    let charge_s = c * (on - off) / i;
    let discharge_s = c * ((off - on) / i + p / (i * i) * ((i * off - p) / (i * on - p)).ln());
    let result = run(&system, 10.0);
    let Outcome::Hiccups { cause: HiccupCause::Converter(0), period_s: Some(period_s) } = result.outcome
    else {
        panic!("{:?}", result.outcome)
    };
    assert!((period_s / (charge_s + discharge_s) - 1.0).abs() < 1e-3, "{period_s} s");
    assert_eq!(result.devices[0].status, DeviceStatus::Cycles);
}

#[test]
fn a_tripping_port_retries_or_stays_open() {
    let with = |retry_time_s| {
        let mut system =
            chain(supply(48.0, 0.1, SupplyLimit::None), 1.0, vec![capacitor(1, 47e-6), capacitor(2, 47e-6)]);
        system.parent[2] = 0;
        system.devices[0].converter = Some(converter(36.0, 20.0, 2.0));
        system.devices[1].converter = Some(converter(36.0, 20.0, 2.0));
        system.bus_loads.push(BusLoad { node: 2, current_a: 0.0, conductance_s: 0.1 });
        let limit = PortLimit::Trip { current_a: 1.0, trip_time_s: 0.02, retry_time_s };
        system.ports.push(Port { node: 2, limit, closes_at_s: 0.5 });
        run(&system, 20.0)
    };
    let retrying = with(Some(0.3));
    let Outcome::Hiccups { cause: HiccupCause::Port(0), period_s: Some(period_s) } = retrying.outcome else {
        panic!("{:?}", retrying.outcome)
    };
    assert!((period_s - 0.32).abs() < 1e-6, "{period_s} s");
    assert!(matches!(retrying.devices[0].status, DeviceStatus::Up { .. }));
    let latched = with(None);
    assert_eq!(latched.outcome, Outcome::BrownOut { limited_by: vec![], open_ports: vec![0] });
    assert_eq!(latched.port_trips, [1]);
    assert!(matches!(latched.devices[0].status, DeviceStatus::Up { .. }));
}

#[test]
fn a_limited_port_charges_its_branch_at_its_limit() {
    let mut device = capacitor(2, 180e-6);
    device.converter = Some(converter(36.0, 20.0, 2.0));
    let mut system = chain(supply(48.0, 0.1, SupplyLimit::None), 1.0, vec![device]);
    let limit = PortLimit::ConstantCurrent { current_a: 0.25 };
    system.ports.push(Port { node: 1, limit, closes_at_s: 0.1 });
    let result = run(&system, 5.0);
    let t = result.devices[0].first_start_s.unwrap();
    assert!((t / (0.1 + 180e-6 * 36.0 / 0.25) - 1.0).abs() < 1e-4, "{t} s");
    assert!(matches!(result.outcome, Outcome::OperatingPoint { .. }));
}

#[test]
fn bridge_drop_and_a_charged_capacitor_are_respected() {
    // The capacitor ends a bridge drop below the bus; one charged above the bus keeps its charge.
    let mut low = capacitor(1, 100e-6);
    low.bridge_drop_v = 1.4;
    let mut high = capacitor(1, 100e-6);
    high.initial_voltage_v = 60.0;
    let result = run(&chain(supply(48.0, 0.1, SupplyLimit::None), 1.0, vec![low, high]), 5.0);
    assert!((result.devices[0].capacitor_v - 46.6).abs() < 1e-3);
    assert!((result.devices[1].capacitor_v - 60.0).abs() < 1e-9);
}

#[test]
fn a_stagger_is_found_where_what_boots_together_can_be_fed() {
    // Four devices whose boot needs 4 x 12 W / 36 V = 1.33 A from 1 A: together they drop out.
    let devices = (1..=4)
        .map(|k| {
            let mut device = capacitor(k, 100e-6);
            device.converter = Some(Converter {
                turn_on_v: 36.0,
                turn_off_v: 20.0,
                delay_s: 0.05,
                boot_power_w: 12.0,
                boot_time_s: 0.5,
                running_power_w: 3.0,
            });
            device
        })
        .collect();
    let limit = SupplyLimit::ConstantCurrent { current_a: 0.9 };
    // A star of equal branches: nothing that could set the devices apart in time.
    let mut system = chain(supply(48.0, 0.1, limit), 0.5, devices);
    system.parent.fill(0);
    let condition = boot_condition(&system);
    assert!((condition.required_a - 4.0 / 3.0).abs() < 1e-12 && !condition.holds);
    let options = Options::default();
    let together = simulate(&system, &options).unwrap();
    assert!(!matches!(together.outcome, Outcome::OperatingPoint { time_s, .. } if time_s < 0.6));
    let stagger = smallest_stagger(&system, &[0, 1, 2, 3], 1.0, 0.005, &options).unwrap();
    assert!(stagger.value > 0.0 && stagger.value <= 0.6, "{} s", stagger.value);
    assert!(stagger.value - stagger.fails_at <= 0.005);
    assert!(matches!(stagger.start_up.outcome, Outcome::OperatingPoint { .. }));
    // With many groups the last boots long after the end time of a single one.
    let options = Options { end_s: 2.0, ..options };
    let groups = [0, 3, 6, 9];
    let stagger = smallest_stagger(&system, &groups, 1.0, 0.25, &options).unwrap();
    let Outcome::OperatingPoint { time_s, .. } = stagger.start_up.outcome else { panic!("{stagger:?}") };
    assert!(time_s > 9.0 * stagger.value);
}

#[test]
fn what_boots_together_is_held_against_what_can_be_fed() {
    // At 48 V behind 0.1 ohm: P = v (48 - v)/0.1 has its greatest value 5760 W at 24 V. Two that boot at 12 W and one that runs
    // at 3 W take 27 W, 0.563 A at just under 48 V; each alone 12 W or 12 W and what runs.
    let booting = |node: usize, delay_s: f64, boot_w: f64| {
        let mut device = capacitor(node, 100e-6);
        device.converter = Some(Converter {
            turn_on_v: 36.0,
            turn_off_v: 20.0,
            delay_s,
            boot_power_w: boot_w,
            boot_time_s: 0.5,
            running_power_w: 3.0,
        });
        device
    };
    let case = |current_a: f64, delays_s: [f64; 3], boot_w: f64| {
        let devices = (1..=3).map(|node| booting(node, delays_s[node - 1], boot_w)).collect();
        let mut system = chain(supply(48.0, 0.1, SupplyLimit::ConstantCurrent { current_a }), 0.0, devices);
        system.parent.fill(0);
        system
    };
    // All at once: 36 W, 0.7512 A by v = (48 + sqrt(48² - 4 x 0.1 x 36))/2.
    let together_a = 36.0 / (0.5 * (48.0 + (48.0_f64 * 48.0 - 14.4).sqrt()));
    assert!(boots_together_fit(&case(together_a + 1e-6, [0.0; 3], 12.0)));
    assert!(!boots_together_fit(&case(together_a - 1e-6, [0.0; 3], 12.0)));
    // The third when the first two are up: 12 W + 2 x 3 W, and before it 2 x 12 W, which is more.
    let two_a = 24.0 / (0.5 * (48.0 + (48.0_f64 * 48.0 - 9.6).sqrt()));
    assert!(boots_together_fit(&case(two_a + 1e-6, [0.0, 0.0, 0.5], 12.0)));
    assert!(!boots_together_fit(&case(two_a - 1e-6, [0.0, 0.0, 0.5], 12.0)));
    // More than the source can give at any voltage.
    assert!(!boots_together_fit(&case(1e6, [0.0; 3], 1921.0)));
    assert!(boots_together_fit(&case(1e6, [0.0; 3], 1919.0)));
    // A port that holds its current holds what is behind it.
    let mut system = case(1e3, [0.0; 3], 12.0);
    system.ports.push(Port {
        node: 2,
        limit: PortLimit::ConstantCurrent { current_a: 0.25 },
        closes_at_s: 0.0,
    });
    assert!(!boots_together_fit(&system));
    system.ports[0].limit = PortLimit::ConstantCurrent { current_a: 0.26 };
    assert!(boots_together_fit(&system));
}

#[test]
fn endless_switching_is_refused_or_stopped() {
    let mut device = capacitor(1, 100e-6);
    device.converter = Some(converter(36.0, 36.0, 20.0));
    let mut system = chain(supply(48.0, 0.1, SupplyLimit::None), 1.0, vec![device]);
    let refused = simulate(&system, &Options::default()).unwrap_err();
    assert_eq!(refused, StartupError::NoHysteresis { device: 0, turn_on_v: 36.0, turn_off_v: 36.0 });
    assert!(refused.to_string().contains("36 V"));
    // A hair of hysteresis is not refused; whatever happens, it ends.
    system.devices[0].converter = Some(converter(36.0, 35.998, 2000.0));
    let options = Options { most_events: 1000, most_steps: 100_000, ..Options::default() };
    let result = simulate(&system, &options).unwrap();
    assert!(
        matches!(result.outcome, Outcome::Stopped { .. } | Outcome::Hiccups { .. }),
        "{:?}",
        result.outcome
    );
}

#[test]
fn a_run_is_stopped_when_it_takes_too_much_or_is_no_longer_wanted() {
    let mut device = capacitor(1, 100e-6);
    device.converter = Some(converter(36.0, 30.0, 2.0));
    let system = chain(supply(48.0, 0.1, SupplyLimit::None), 1.0, vec![device]);
    let whole = simulate(&system, &Options::default()).unwrap();
    assert!(matches!(whole.outcome, Outcome::OperatingPoint { .. }), "{:?}", whole.outcome);
    let stopped = |reason| Outcome::Stopped { reason };
    let few = Options { most_passes: 20, ..Options::default() };
    let found = simulate(&system, &few).unwrap();
    assert_eq!(found.outcome, stopped(StopReason::TooManyPasses));
    assert!(found.steps < whole.steps);
    let asked = Cell::new(0);
    let wanted = || {
        asked.set(asked.get() + 1);
        asked.get() <= 5
    };
    let found = simulate_while(&system, &Options::default(), &wanted).unwrap();
    assert_eq!(found.outcome, stopped(StopReason::GivenUp));
    assert_eq!((asked.get(), found.steps + found.discarded_steps), (6, 5));
}

#[test]
fn hundreds_of_inrush_limiters_behind_a_limited_supply_are_solved() {
    // 300 limiters of 0.3 A behind 5 A: the bends of the limiters lie within millivolts of one
    // another.
    let devices: Vec<BusDevice> = (1..=300)
        .map(|k| {
            let mut device = capacitor(k, [47e-6, 100e-6, 220e-6][k % 3]);
            device.inrush_limit_a = Some(0.3);
            device.bridge_drop_v = 1.4;
            let delay_s = 0.05 + 0.0013 * ((k * 37) % 300) as f64;
            device.converter = Some(Converter { delay_s, ..converter(30.0, 20.0, 0.4) });
            device
        })
        .collect();
    let limit = SupplyLimit::ConstantCurrent { current_a: 5.0 };
    let mut system = chain(supply(48.0, 0.05, limit), 0.3, devices);
    for k in 1..=300u32 {
        system.parent[k as usize] = if k % 10 == 1 { 0 } else { k - 1 };
    }
    let result = run(&system, 10.0);
    let Outcome::OperatingPoint { time_s, .. } = result.outcome else { panic!("{:?}", result.outcome) };
    // All must at least be charged to 30 V: t >= 30 V sum C / I.
    let total_f: f64 = system.devices.iter().map(|d| d.capacitance_f).sum();
    assert!(time_s >= 30.0 * total_f / 5.0, "{time_s} s");
    // 300 x 0.4 W at the source and the losses: from 2.5 A (120 W at 48 V) upwards, by at most 5 %.
    assert!((2.5..2.65).contains(&result.supply_current_a), "{} A", result.supply_current_a);
}

#[test]
fn senseless_input_is_refused() {
    let good = chain(supply(48.0, 0.1, SupplyLimit::None), 1.0, vec![capacitor(1, 1e-4)]);
    assert!(simulate(&good, &Options::default()).is_ok());
    let spoil: [fn(&mut System); 8] = [
        |s| s.parent[1] = 1,
        |s| s.loop_resistance_ohm[1] = f64::NAN,
        |s| s.devices[0].capacitance_f = 0.0,
        |s| s.devices[0].node = 7,
        |s| s.supply.voltage_v = -1.0,
        |s| s.devices[0].converter = Some(converter(36.0, 37.0, 1.0)),
        |s| s.loop_resistance_ohm.truncate(1),
        |s| {
            s.supply.limit =
                SupplyLimit::Foldback { max_current_a: 1.0, knee_voltage_v: 40.0, short_current_a: 0.2 };
        },
    ];
    for (i, spoil) in spoil.iter().enumerate() {
        let mut bad = good.clone();
        spoil(&mut bad);
        assert!(simulate(&bad, &Options::default()).is_err(), "case {i}");
    }
}

/// Random systems: a random tree with devices of the usual sizes behind one of four limiters.
fn systems() -> impl Strategy<Value = System> {
    let node = (any::<u32>(), 0.0..3.0_f64, 20e-6..470e-6_f64, 0.0..1.5_f64, 0.5..6.0_f64, 0.0..0.2_f64);
    (prop::collection::vec(node, 1..12), 0..4usize, 0.3..3.0_f64).prop_map(|(nodes, kind, current_a)| {
        let limit = match kind {
            0 => SupplyLimit::None,
            1 => SupplyLimit::ConstantCurrent { current_a },
            2 => SupplyLimit::Foldback {
                max_current_a: current_a,
                knee_voltage_v: 36.0,
                short_current_a: 0.3 * current_a,
            },
            _ => SupplyLimit::Hiccup { current_a, trip_time_s: 0.06, off_time_s: 0.4 },
        };
        let mut s = supply(48.0, 0.2, limit);
        s.output_capacitance_f = if kind == 2 { 220e-6 } else { 0.0 };
        let mut system = chain(s, 0.0, Vec::new());
        for (k, (parent, r, c, drop, power, delay)) in nodes.into_iter().enumerate() {
            let parent = parent % (k as u32 + 1);
            system.parent.push(parent);
            // No zero resistance next to the supply: an inrush limiter that is bypassed there joins
            // two charged capacitors, and the energy of that spark is lost in no element.
            system.loop_resistance_ohm.push(if r < 0.3 && parent != 0 { 0.0 } else { r.max(0.05) });
            let mut device = capacitor(k + 1, c);
            device.bridge_drop_v = drop;
            device.inrush_limit_a = (power > 4.0).then_some(0.4);
            device.converter = Some(Converter {
                turn_on_v: 34.0,
                turn_off_v: 20.0,
                delay_s: if delay < 0.05 { 0.0 } else { delay },
                boot_power_w: 2.0 * power,
                boot_time_s: 0.3,
                running_power_w: power,
            });
            system.devices.push(device);
        }
        system
    })
}

fn class(outcome: &Outcome) -> usize {
    match outcome {
        Outcome::OperatingPoint { .. } => 0,
        Outcome::Hiccups { .. } => 1,
        Outcome::BrownOut { .. } => 2,
        Outcome::Undecided => 3,
        Outcome::Stopped { .. } => 4,
    }
}

/// Same class, and the same time to start within 1 % if nothing dropped out on the way: each
/// dropout multiplies small differences in the order in which the rest return.
fn same(a: &StartUp, b: &StartUp) -> bool {
    let smooth = [a, b].iter().all(|s| s.devices.iter().all(|d| d.dropouts == 0));
    class(&a.outcome) == class(&b.outcome)
        && match (&a.outcome, &b.outcome) {
            (Outcome::OperatingPoint { time_s: a, .. }, Outcome::OperatingPoint { time_s: b, .. })
                if smooth =>
            {
                (a / b - 1.0).abs() < 0.01
            }
            _ => true,
        }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 64,
        rng_seed: RngSeed::Fixed(20),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn energy_balances(system in systems()) {
        let options = Options { account_energy: true, end_s: 2.0, tolerance_v: 1e-3, ..Options::default() };
        let result = simulate(&system, &options).unwrap();
        let e = result.energy.unwrap();
        let spent = e.cables_j + e.bridges_j + e.devices_j + e.bus_loads_j + e.stored_j;
        prop_assert!((e.supplied_j - spent).abs() <= 2e-3 * e.supplied_j.max(0.01),
            "supplied {} J, spent {} J", e.supplied_j, spent);
    }

    #[test]
    fn tolerance_does_not_decide_the_outcome(system in systems()) {
        let at = |tolerance_v, shift: f64| {
            let mut system = system.clone();
            for converter in system.devices.iter_mut().filter_map(|d| d.converter.as_mut()) {
                converter.turn_off_v *= 1.0 + shift;
                converter.boot_power_w *= 1.0 + shift;
            }
            let options = Options { tolerance_v, end_s: 3.0, ..Options::default() };
            simulate(&system, &options).unwrap()
        };
        let (coarse, fine) = (at(5e-3, 0.0), at(2e-4, 0.0));
        prop_assert_ne!(class(&coarse.outcome), 4, "{:?}", coarse.outcome);
        // Where 0.1 % of threshold and power decides (a capacitor that turns round next to a stop
        // threshold, a collapse that only just recovers), the outcome itself is undetermined: such
        // cases are left out, judged by the fine tolerance alone.
        prop_assume!(same(&at(2e-4, -1e-3), &at(2e-4, 1e-3)));
        prop_assert!(same(&coarse, &fine), "{:?} and {:?}", coarse.outcome, fine.outcome);
    }

    #[test]
    fn repeated_runs_agree_to_the_bit(system in systems()) {
        let options = Options { end_s: 1.0, record_nodes: vec![0], ..Options::default() };
        prop_assert_eq!(simulate(&system, &options).unwrap(), simulate(&system, &options).unwrap());
    }
}
