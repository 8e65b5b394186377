//! Short circuits against Ohm's law worked by hand, and against the start-up simulation of the same
//! network with the fault as a resistor.

use latchline_circuit::short_circuit::{
    Acts, FaultLoad, PortProtection, Protection, Protector, ShortCircuitError, ShortCircuitNetwork, TripBand,
    prospective, prospective_worst, standing_fault, steady_temperature_c,
};
use latchline_circuit::startup::{BusLoad, Options, Port, PortLimit, Supply, SupplyLimit, System, simulate};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

const PARENT: [u32; 5] = [0, 0, 1, 0, 3];
const OHM: [f64; 5] = [0.0, 1.5, 2.5, 3.0, 4.5];

fn network(limit: SupplyLimit, ports: &[PortProtection]) -> ShortCircuitNetwork<'_> {
    ShortCircuitNetwork {
        parent: &PARENT,
        loop_resistance_ohm: &OHM,
        voltage_v: 48.0,
        source_ohm: 0.5,
        limit,
        trip: None,
        ports,
    }
}

#[test]
fn currents_follow_from_ohms_law() {
    // 48 V over 0.5, 2, 4.5, 3.5 and 8 ohm.
    let found = prospective(&network(SupplyLimit::None, &[]), 0.0, None).unwrap();
    for (f, expected_a) in found.iter().zip([96.0, 24.0, 48.0 / 4.5, 48.0 / 3.5, 6.0]) {
        assert!((f.fault_a / expected_a - 1.0).abs() < 1e-14, "{f:?}");
        assert_eq!(f.acts, Acts::Undetected);
    }
    // A fault of 4 ohm at node 4: 48/12 = 4 A.
    let found = prospective(&network(SupplyLimit::None, &[]), 4.0, None).unwrap();
    assert!((found[4].fault_a - 4.0).abs() < 1e-14);
}

#[test]
fn kept_loads_follow_from_superposition() {
    // 1 A at node 4 and 2 A at node 2. Open-circuit voltage at node 4: 48 - 0.5*3 - 7.5*1 = 39 V,
    // so 39/8 = 4.875 A through the fault; at node 2: 48 - 1.5 - 4*2 = 38.5 V over 4.5 ohm.
    let load_a = [0.0, 0.0, 2.0, 0.0, 1.0];
    let found = prospective(&network(SupplyLimit::None, &[]), 0.0, Some(&load_a)).unwrap();
    assert!((found[4].fault_a - 4.875).abs() < 1e-13);
    assert!((found[2].fault_a - 38.5 / 4.5).abs() < 1e-13);
}

#[test]
fn limiters_and_trips_are_told_apart() {
    let ports = [
        PortProtection { node: 1, protection: Protection::Limit(0.8) },
        PortProtection {
            node: 3,
            protection: Protection::Trip(TripBand { smallest_a: 4.0, largest_a: 7.0 }),
        },
    ];
    let found = prospective(&network(SupplyLimit::None, &ports), 0.0, None).unwrap();
    assert_eq!(found[1].acts, Acts::Limits(Protector::Port(0)));
    assert_eq!(found[2].fault_a, 0.8);
    // 13.7 A at node 3 trips for certain; 6 A at node 4 lies within the band and does not count.
    assert_eq!(found[3].acts, Acts::Trips(Protector::Port(1)));
    assert_eq!(found[4].acts, Acts::Undetected);
    assert!((found[4].trip_reserve_a.unwrap() + 1.0).abs() < 1e-12);
    // A supply that limits at 5 A starves the trip: it is never reached.
    let limit = SupplyLimit::ConstantCurrent { current_a: 5.0 };
    let found = prospective(&network(limit, &ports), 0.0, None).unwrap();
    assert_eq!(found[3].acts, Acts::Limits(Protector::Supply));
    assert_eq!(found[3].fault_a, 5.0);
    // A hiccup supply trips when it holds its limit.
    let limit = SupplyLimit::Hiccup { current_a: 5.0, trip_time_s: 0.1, off_time_s: 1.0 };
    let found = prospective(&network(limit, &[]), 0.0, Some(&[0.0, 0.0, 0.3, 0.0, 0.3])).unwrap();
    assert!(found.iter().all(|f| f.acts == Acts::Trips(Protector::Supply)), "{found:?}");
    // Exactly the largest trip current counts as tripping: 48 V over 8 ohm is 6 A.
    let band = |largest_a| {
        [PortProtection { node: 3, protection: Protection::Trip(TripBand { smallest_a: 1.0, largest_a }) }]
    };
    let acts =
        |largest_a| prospective(&network(SupplyLimit::None, &band(largest_a)), 0.0, None).unwrap()[4].acts;
    assert_eq!(acts(6.0), Acts::Trips(Protector::Port(0)));
    assert_eq!(acts(6.001), Acts::Undetected);
}

#[test]
fn loads_upstream_can_spoil_detection_further_out() {
    // 4 A at node 1 drop 0.5*4 = 2 V... in the source only for node 3: 46 V over 8 ohm is 5.75 A at
    // node 4, below a trip at 5.9 A that 6 A would reach.
    let ports = [PortProtection {
        node: 3,
        protection: Protection::Trip(TripBand { smallest_a: 1.0, largest_a: 5.9 }),
    }];
    let n = network(SupplyLimit::None, &ports);
    let load_a = [0.0, 4.0, 0.0, 0.0, 0.0];
    assert_eq!(prospective(&n, 0.0, None).unwrap()[4].acts, Acts::Trips(Protector::Port(0)));
    let worst = prospective_worst(&n, 0.0, &load_a).unwrap()[4];
    assert!(worst.loads_kept);
    assert_eq!(worst.worst.acts, Acts::Undetected);
    assert!((worst.worst.fault_a - 5.75).abs() < 1e-12);
}

#[test]
fn a_limiting_port_keeps_the_rest_alight_and_a_folding_supply_does_not() {
    let loads = [
        FaultLoad { node: 2, current_a: 0.1, hold_up_v: 36.0 },
        FaultLoad { node: 4, current_a: 0.1, hold_up_v: 36.0 },
    ];
    let ports = [PortProtection { node: 1, protection: Protection::Limit(0.8) }];
    let standing = standing_fault(&network(SupplyLimit::None, &ports), 2, 0.0, &loads).unwrap();
    assert_eq!(standing.dark, [true, false]);
    // 0.8 A through 2.5 ohm stand on node 1; node 4 has 48 - 0.5*0.9 - 7.5*0.1 = 46.8 V.
    assert!((standing.voltage_v[1] - 2.0).abs() < 1e-12, "{standing:?}");
    assert!((standing.voltage_v[4] - 46.8).abs() < 1e-12);
    let limit = SupplyLimit::Foldback { max_current_a: 2.0, knee_voltage_v: 40.0, short_current_a: 0.4 };
    let standing = standing_fault(&network(limit, &[]), 2, 0.0, &loads).unwrap();
    assert_eq!(standing.dark, [true, true]);
    // 4 ohm on 0.4 A + 0.04 A/V: I (1 - 0.16) = 0.4.
    assert!((standing.fault_a - 0.4 / 0.84).abs() < 1e-12);
    assert!((standing.voltage_v[4] - 4.0 * 0.4 / 0.84).abs() < 1e-12);
    assert_eq!(standing.limited_by, Some(Protector::Supply));
}

#[test]
fn heating_by_hand() {
    // 5 A in 0.5 mm pairs (0.088 ohm/m a conductor), 8 K m/W: 4.4 W/m, 35.2 K at 20 °C;
    // T = (30 + 35.2 * 0.9214)/(1 - 35.2*0.00393) = 72.4575... °C, which satisfies the balance.
    let t = steady_temperature_c(5.0, 0.088, 0.003_93, 8.0, 30.0).unwrap().unwrap();
    let balance = 30.0 + 8.0 * 2.0 * 25.0 * 0.088 * (1.0 + 0.00393 * (t - 20.0));
    assert!((t - balance).abs() < 1e-9 && (72.4..72.5).contains(&t), "{t}");
    assert_eq!(steady_temperature_c(20.0, 0.088, 0.003_93, 8.0, 30.0).unwrap(), None);
    // The same current in aluminium of the same size, 1.64 times the resistance and 0.00403 per kelvin (IEC 60889, from memory): 57.73 K
    // at 20 °C, (30 + 57.728 x 0.9194)/(1 - 57.728 x 0.00403) = 108.261 °C; copper's coefficient would make it 107.60 °C.
    let aluminium = steady_temperature_c(5.0, 0.088 * 1.64, 0.004_03, 8.0, 30.0).unwrap().unwrap();
    assert!((aluminium - 108.2615).abs() < 1e-3, "{aluminium}");
}

#[test]
fn senseless_input_is_refused() {
    let n = network(SupplyLimit::None, &[]);
    assert!(matches!(prospective(&n, f64::NAN, None), Err(ShortCircuitError::Value { .. })));
    assert!(matches!(prospective(&n, 0.0, Some(&[0.0])), Err(ShortCircuitError::Length { .. })));
    assert!(standing_fault(&n, 9, 0.0, &[]).is_err());
    let ports = [PortProtection { node: 0, protection: Protection::Limit(1.0) }];
    assert!(prospective(&network(SupplyLimit::None, &ports), 0.0, None).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 64,
        rng_seed: RngSeed::Fixed(7),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    /// The integrator of the start-up, which knows nothing of these formulas, must settle at the
    /// same voltages and current with the fault as a conductance.
    #[test]
    fn simulation_settles_at_the_standing_fault(
        nodes in prop::collection::vec((any::<u32>(), 0.2..4.0_f64, 0.0..0.08_f64), 2..10),
        fault in any::<prop::sample::Index>(),
        fault_ohm in 0.5..20.0_f64,
        kind in 0..3usize,
        port_a in 0.3..2.0_f64,
        with_port in any::<bool>(),
    ) {
        let mut parent = vec![0u32];
        let mut ohm = vec![0.0];
        let mut load_a = vec![0.0];
        for (k, &(p, r, a)) in nodes.iter().enumerate() {
            parent.push(p % (k as u32 + 1));
            ohm.push(r);
            load_a.push(a);
        }
        let node = 1 + fault.index(nodes.len());
        let limit = match kind {
            0 => SupplyLimit::None,
            1 => SupplyLimit::ConstantCurrent { current_a: 2.0 },
            _ => SupplyLimit::Foldback { max_current_a: 2.5, knee_voltage_v: 40.0, short_current_a: 1.2 },
        };
        let ports: Vec<PortProtection> = with_port
            .then_some(PortProtection { node: 1, protection: Protection::Limit(port_a) })
            .into_iter()
            .collect();
        let n = ShortCircuitNetwork {
            parent: &parent, loop_resistance_ohm: &ohm, voltage_v: 48.0, source_ohm: 0.3, limit,
            trip: None, ports: &ports,
        };
        let loads: Vec<FaultLoad> = load_a.iter().enumerate()
            .map(|(node, &current_a)| FaultLoad { node, current_a, hold_up_v: 0.0 })
            .collect();
        let standing = standing_fault(&n, node, fault_ohm, &loads).unwrap();
        // Loads of the simulation fade below 1 V, those of the formula do not.
        prop_assume!(standing.voltage_v.iter().all(|&v| v > 1.01));
        let system = System {
            parent: parent.clone(),
            loop_resistance_ohm: ohm.clone(),
            // A charged output capacitor: the fault comes upon a running system.
            supply: Supply {
                voltage_v: 48.0, resistance_ohm: 0.3, limit, output_capacitance_f: 220e-6,
                initial_voltage_v: 48.0, ramp_time_s: 0.0,
            },
            ports: ports.iter().map(|p| Port {
                node: p.node, limit: PortLimit::ConstantCurrent { current_a: port_a }, closes_at_s: 0.0,
            }).collect(),
            devices: Vec::new(),
            bus_loads: load_a.iter().enumerate().map(|(k, &current_a)| BusLoad {
                node: k, current_a, conductance_s: if k == node { 1.0 / fault_ohm } else { 0.0 },
            }).collect(),
            bus_capacitors: Vec::new(),
        };
        let settled = simulate(&system, &Options { end_s: 5.0, ..Options::default() }).unwrap();
        for (k, (a, b)) in standing.voltage_v.iter().zip(&settled.bus_voltage_v).enumerate() {
            prop_assert!((a - b).abs() < 2e-3, "node {k}: {a} V and {b} V, {standing:?} {settled:?}");
        }
        prop_assert!((standing.supply_a - settled.supply_current_a).abs() < 2e-3);
        let all = prospective(&n, fault_ohm, Some(&load_a)).unwrap();
        prop_assert!((all[node].fault_a - standing.fault_a).abs() < 1e-12);
    }
}
