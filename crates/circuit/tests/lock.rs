//! Lock circuits against published tables, a bench measurement, and second methods. The source
//! stands beside each check.

use latchline_circuit::lock::{
    Coil, LockCable, LockSupply, Suppressor, Varistor, ac_voltage_v, current_after_a, highest_voltage_v,
    least_supply_v, least_voltage_v, loop_resistance_ohm, most_loop_resistance_ohm, release_time_s,
    spike_voltage_v,
};
use proptest::prelude::*;

fn close(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "found {found}, expected {expected} +- {tolerance}");
}

/// IEC 60228:2004 class 1/2 resistance at 20 °C, hot at 70 °C (x 1.2 by its annex), against the volt
/// drop that BS 7671 Appendix 4 tabulates for two-core cable in mV/A/m.
#[test]
fn loop_of_two_core_cable_agrees_with_the_tabulated_volt_drop() {
    let rows = [(18.1, 44.0), (12.1, 29.0), (7.41, 18.0), (4.61, 11.0), (3.08, 7.3), (1.83, 4.4)];
    for (ohm_per_km, mv_per_a_per_m) in rows {
        let cable = LockCable {
            conductor_ohm_per_m: ohm_per_km * 1e-3 * 1.2,
            length_m: 10.0,
            joints: 0,
            joint_ohm: 0.0,
            pairs: 1,
        };
        let loop_ohm = loop_resistance_ohm(&cable).unwrap();
        let supply = LockSupply { voltage_v: 12.0, tolerance: 0.0, resistance_ohm: 0.0 };
        let drop_v = 12.0 - least_voltage_v(&supply, loop_ohm, 12.0, 0.5).unwrap();
        let tabulated_v = mv_per_a_per_m * 1e-3 * 0.5 * 10.0;
        close(drop_v, tabulated_v, 0.015 * tabulated_v);
    }
}

/// Licence-exam lesson on the NEC: 20 A over 100 ft of 12 AWG drops 7.9 V (Chapter 9 Table 8, 75 °C,
/// stranded, 1.98 ohm/kft: 7.92 V).
#[test]
fn printed_volt_drop_example() {
    let cable =
        LockCable { conductor_ohm_per_m: 1.98 / 304.8, length_m: 30.48, joints: 0, joint_ohm: 0.0, pairs: 1 };
    let loop_ohm = loop_resistance_ohm(&cable).unwrap();
    let supply = LockSupply { voltage_v: 120.0, tolerance: 0.0, resistance_ohm: 0.0 };
    let drop_v = 120.0 - least_voltage_v(&supply, loop_ohm, 120.0, 20.0).unwrap();
    close(drop_v, 7.9, 0.05);
}

/// By hand: 12 V - 5 % = 11.4 V; 12 m of 0.25 mm² (R20 0.017241/0.25 = 0.068964 ohm/m), 4 joints of 10
/// mohm in all: 1.655136 + 0.04 = 1.695136 ohm; 0.5 A drops 0.847568 V: 10.552432 V, below 12 V - 10 % =
/// 10.8 V. The strike that only buzzes.
#[test]
fn strike_on_bell_wire_by_hand() {
    let cable =
        LockCable { conductor_ohm_per_m: 0.068964, length_m: 12.0, joints: 2, joint_ohm: 0.01, pairs: 1 };
    let loop_ohm = loop_resistance_ohm(&cable).unwrap();
    close(loop_ohm, 1.695136, 1e-12);
    // Two such pairs in parallel, joints and all, are half of it; no pair at all is refused.
    close(loop_resistance_ohm(&LockCable { pairs: 2, ..cable }).unwrap(), 0.847568, 1e-12);
    assert!(loop_resistance_ohm(&LockCable { pairs: 0, ..cable }).is_err());
    let supply = LockSupply { voltage_v: 12.0, tolerance: 0.05, resistance_ohm: 0.0 };
    let voltage_v = least_voltage_v(&supply, loop_ohm, 12.0, 0.5).unwrap();
    close(voltage_v, 10.552432, 1e-12);
    // The supply it would need: (10.8 + 0.847568) / 0.95 = 12.26060 V; the loop it would bear: 0.6 V /
    // 0.5 A = 1.2 ohm.
    close(least_supply_v(10.8, 0.05, loop_ohm, 0.5).unwrap(), 12.260_597_894_736_842, 1e-12);
    close(most_loop_resistance_ohm(&supply, 10.8, 0.5).unwrap().unwrap(), 1.2, 1e-12);
    let low = LockSupply { voltage_v: 11.0, ..supply };
    assert_eq!(most_loop_resistance_ohm(&low, 10.8, 0.5).unwrap(), None);
}

/// Bench measurement (electro-tech-online, thread 167257): a relay of 120 ohm at 12 V released in 2.6 ms
/// with a resistor (peak about 65 V) and in about 8 ms with a plain diode of 0.7 V, whose current took
/// 25 to 30 ms to die.
///
/// The time to die fixes L by the diode's form. Then one drop-out current must explain the 5.4 ms
/// between the two releases, and what is left of 2.6 ms, the armature's own time, must be positive.
#[test]
fn relay_with_resistor_and_with_diode_as_measured() {
    let (current_a, resistance_ohm) = (0.1, 120.0);
    let parallel_ohm = 65.0 / current_a;
    for die_s in [25e-3, 27.5e-3, 30e-3] {
        // t0 scales with L: solve for L from a unit inductance.
        let unit = Coil { current_a, inductance_h: 1.0, resistance_ohm };
        let inductance_h = die_s / release_time_s(&unit, 0.0, &Suppressor::Clamp(0.7)).unwrap();
        assert!((0.9..1.3).contains(&inductance_h), "a relay coil of about one henry: {inductance_h}");
        let coil = Coil { inductance_h, ..unit };
        let difference_s = |dropout_a: f64| {
            release_time_s(&coil, dropout_a, &Suppressor::Clamp(0.7)).unwrap()
                - release_time_s(&coil, dropout_a, &Suppressor::Resistor(parallel_ohm)).unwrap()
        };
        let (mut low, mut high) = (0.01, 0.0999);
        assert!(difference_s(low) > 5.4e-3 && difference_s(high) < 5.4e-3);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if difference_s(middle) > 5.4e-3 { low = middle } else { high = middle }
        }
        let dropout_a = 0.5 * (low + high);
        let armature_s =
            2.6e-3 - release_time_s(&coil, dropout_a, &Suppressor::Resistor(parallel_ohm)).unwrap();
        assert!((0.3..0.6).contains(&(dropout_a / current_a)), "drop-out share {}", dropout_a / current_a);
        assert!((0.5e-3..2.6e-3).contains(&armature_s), "armature {armature_s}");
    }
    // The peak that was seen is across the resistor: 0.1 A x 650 ohm, and 12 V more across the contact.
    let coil = Coil { current_a, inductance_h: 1.1, resistance_ohm };
    close(spike_voltage_v(&coil, 12.0, &Suppressor::Resistor(parallel_ohm), 1e-9).unwrap(), 77.0, 1e-9);
    close(spike_voltage_v(&coil, 12.0, &Suppressor::Clamp(0.7), 1e-9).unwrap(), 12.7, 1e-9);
}

/// The textbook time constant: a short-circuited coil keeps 1/e of its current after L/R.
#[test]
fn short_circuited_coil_keeps_one_over_e_after_its_time_constant() {
    let coil = Coil { current_a: 0.5, inductance_h: 0.12, resistance_ohm: 24.0 };
    let dropout_a = 0.5 / std::f64::consts::E;
    close(release_time_s(&coil, dropout_a, &Suppressor::Resistor(0.0)).unwrap(), 0.005, 1e-15);
    assert_eq!(release_time_s(&coil, 0.1, &Suppressor::None).unwrap(), 0.0);
    assert!(release_time_s(&coil, 0.6, &Suppressor::Clamp(1.0)).is_err());
    assert!(release_time_s(&coil, 0.0, &Suppressor::Resistor(10.0)).is_err());
}

/// Fourth-order Runge-Kutta on `L di/dt = -R i - u(i)` until the current passes `dropout_a`: a second method.
fn by_integration(coil: &Coil, dropout_a: f64, law: impl Fn(f64) -> f64) -> f64 {
    let slope = |i: f64| -(coil.resistance_ohm * i + law(i.max(0.0))) / coil.inductance_h;
    let step_s = coil.inductance_h / coil.resistance_ohm / 20_000.0;
    let (mut i, mut time_s) = (coil.current_a, 0.0);
    loop {
        let k1 = slope(i);
        let k2 = slope(i + 0.5 * step_s * k1);
        let k3 = slope(i + 0.5 * step_s * k2);
        let k4 = slope(i + step_s * k3);
        let next = i + step_s / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
        if next <= dropout_a {
            return time_s + step_s * (i - dropout_a) / (i - next);
        }
        i = next;
        time_s += step_s;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn closed_forms_of_the_decay_agree_with_integration(
        current_a in 0.05..2.0f64,
        resistance_ohm in 5.0..200.0f64,
        time_constant_ms in 0.5..20.0f64,
        share in 0.05..0.9f64,
        volts in 0.5..100.0f64,
        exponent in 0.02..0.3f64,
    ) {
        let inductance_h = time_constant_ms * 1e-3 * resistance_ohm;
        let coil = Coil { current_a, inductance_h, resistance_ohm };
        let dropout_a = share * current_a;
        let clamp_s = release_time_s(&coil, dropout_a, &Suppressor::Clamp(volts)).unwrap();
        let tolerance = 1e-6 * time_constant_ms * 1e-3;
        prop_assert!((clamp_s - by_integration(&coil, dropout_a, |_| volts)).abs() <= tolerance);
        prop_assert!((current_after_a(&coil, volts, clamp_s).unwrap() - dropout_a).abs() <= 1e-12 * (1.0 + volts));
        let varistor = Varistor { voltage_v: volts, at_current_a: 1e-3, exponent };
        let varistor_s = release_time_s(&coil, dropout_a, &Suppressor::Varistor(varistor)).unwrap();
        let law = |i: f64| volts * (i / 1e-3).powf(exponent);
        prop_assert!((varistor_s - by_integration(&coil, dropout_a, law)).abs() <= tolerance);
        let resistor_s = release_time_s(&coil, dropout_a, &Suppressor::Resistor(volts)).unwrap();
        prop_assert!((resistor_s - by_integration(&coil, dropout_a, |i| volts * i)).abs() <= tolerance);
        // A varistor of exponent 0 is a clamp, and more voltage lets go sooner.
        let flat = Varistor { exponent: 0.0, ..varistor };
        let flat_s = release_time_s(&coil, dropout_a, &Suppressor::Varistor(flat)).unwrap();
        prop_assert!((flat_s - clamp_s).abs() <= 1e-12 * time_constant_ms);
        prop_assert!(release_time_s(&coil, dropout_a, &Suppressor::Clamp(2.0 * volts)).unwrap() < clamp_s);
    }

    /// The bound holds for every lock of its hypothesis: a coil, a constant current, or anything between.
    #[test]
    fn no_lock_within_the_hypothesis_sees_less_than_the_bound(
        voltage_v in 6.0..30.0f64,
        tolerance in 0.0..0.2f64,
        resistance_ohm in 0.0..20.0f64,
        rated_v in 6.0..26.0f64,
        current_a in 0.05..2.0f64,
        blend in 0.0..1.0f64,
        within in 0.0..1.0f64,
    ) {
        let supply = LockSupply { voltage_v, tolerance, resistance_ohm: 0.0 };
        let bound_v = least_voltage_v(&supply, resistance_ohm, rated_v, current_a).unwrap();
        let source_v = voltage_v * (1.0 - tolerance + 2.0 * tolerance * within);
        // i(v) between a coil's and a constant current below rated, the coil's above.
        let current = |v: f64| {
            let coil_a = current_a * v / rated_v;
            if v < rated_v { blend * current_a + (1.0 - blend) * coil_a } else { coil_a }
        };
        // v + R i(v) rises: bisect for its crossing of the source voltage.
        let (mut low, mut high) = (0.0, source_v);
        for _ in 0..200 {
            let middle = 0.5 * (low + high);
            if middle + resistance_ohm * current(middle) > source_v { high = middle } else { low = middle }
        }
        prop_assert!(high >= bound_v - 1e-9, "voltage {high}, bound {bound_v}");
        prop_assert!(high <= supply.high_v() + 1e-9);
        // With at least a coil's current it is not above the other bound; it is met by a coil at the feed's upper end.
        let most_v = highest_voltage_v(&supply, resistance_ohm, rated_v, current_a).unwrap();
        prop_assert!(high <= most_v + 1e-9, "voltage {high}, bound {most_v}");
        prop_assert!((most_v + resistance_ohm * current_a * most_v / rated_v - supply.high_v()).abs() <= 1e-9);
        if blend == 1.0 || (bound_v > 0.0 && bound_v < rated_v) {
            let needed_v = least_supply_v(bound_v, tolerance, resistance_ohm, current_a).unwrap();
            prop_assert!((needed_v - voltage_v).abs() <= 1e-9);
        }
    }

    /// Phasors the other way round: from the lock's voltage and current to the source's.
    #[test]
    fn alternating_current_agrees_with_phasors(
        lock_v in 5.0..24.0f64,
        loop_ohm in 0.0..8.0f64,
        reactance_ohm in 0.0..2.0f64,
        current_a in 0.05..1.5f64,
        power_factor in 0.0..1.0f64,
    ) {
        let sine = (1.0 - power_factor * power_factor).sqrt();
        let real = lock_v + current_a * (loop_ohm * power_factor + reactance_ohm * sine);
        let imaginary = current_a * (reactance_ohm * power_factor - loop_ohm * sine);
        let source_v = real.hypot(imaginary);
        let found = ac_voltage_v(source_v, loop_ohm, reactance_ohm, current_a, power_factor).unwrap();
        prop_assert!((found - lock_v).abs() <= 1e-9);
        let impedance_ohm = loop_ohm.hypot(reactance_ohm);
        prop_assert!(found >= source_v - current_a * impedance_ohm - 1e-9);
    }
}
