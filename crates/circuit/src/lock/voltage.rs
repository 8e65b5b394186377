//! Voltage at a lock at the end of its own two-wire cable.
//!
//! Symbols: `V` voltage of what feeds the lock, `t` its tolerance, `Rs` resistance behind it, `r`
//! resistance of one conductor per metre, `L` length, `j` resistance of one joint, `n` joints per
//! conductor, `I` current of the lock at its rated voltage `Vr`.
//!
//! **Loop.** `R = Rs + 2 r L + 2 n j`.
//!
//! **Direct current, adverse corner.** The source at `V (1 - t)`, `R` hot, long and at the upper end of
//! its tolerance. Of the lock it is supposed only that it draws at most `i(v) = I max(1, v / Vr)`: at
//! most its rated current up to the rated voltage, and no more than in proportion beyond (a coil draws
//! `I v / Vr`, which is less below `Vr`). Then the voltage `v` at the lock is at least the solution of
//! `u = V (1 - t) - R i(u)`:
//!
//! ```text
//! u = V' - R I              if V' - R I <= Vr      (V' = V (1 - t))
//! u = V' / (1 + R I / Vr)   otherwise
//! ```
//!
//! Proof: `f(v) = v + R i(v)` rises strictly, the true `v` has `V' <= f(v)` and `u` has `V' = f(u)`, so
//! `v >= u`. Where `u` would be negative the lock cannot draw its current at all: 0 is returned.
//!
//! **Light corner.** A passive cable and a lock that feeds nothing back never raise the voltage, so `V
//! (1 + t)` bounds it from above; no figure of the lock's current is used. Of a coil on direct current it may be supposed that it draws
//! at least `I v / Vr` (its resistance is at most `Vr / I`); with `R` cold, short and at the lower end of its tolerance the
//! voltage is then at most `V (1 + t) / (1 + R I / Vr)`, by the same argument turned round. It is meant for the
//! settled current: for a few milliseconds after switching on the inductance holds the current back.
//!
//! **Alternating current.** With cable impedance `R + jX` and power factor `cos p` of the lock
//! (lagging), the phasors give `|v| = sqrt(V^2 - (I (X cos p - R sin p))^2) - I (R cos p + X sin p)`.
//! For every power factor `|v| >= V - I sqrt(R^2 + X^2)` (triangle inequality), equal when the angles of
//! lock and cable agree. At 50 and 60 Hz the reactance of small cables (below 0.1 ohm/km each way) is
//! negligible beside 10 to 90 ohm/km of resistance; it can be given.
//!
//! The formula of the loop and of the drop is Ohm's law and Kirchhoff's second law; for alternating
//! current it is the usual `R cos p + X sin p` of cable handbooks with its second-order term kept.

use crate::range::{RangeError, fraction, not_negative, positive, within};

/// The cable from the relay or lock output to the lock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LockCable {
    /// Resistance of one conductor per metre, at the temperature and end of tolerance wanted.
    pub conductor_ohm_per_m: f64,
    /// Length one way in metres, at the end of its tolerance wanted.
    pub length_m: f64,
    /// Joints and terminals in each conductor.
    pub joints: u32,
    /// Resistance of one joint in ohms.
    pub joint_ohm: f64,
    /// Pairs in parallel, at least one.
    pub pairs: u32,
}

/// What feeds the lock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LockSupply {
    /// Open-circuit voltage in volts (root mean square for alternating current).
    pub voltage_v: f64,
    /// Tolerance of that voltage, either way, as a fraction.
    pub tolerance: f64,
    /// Resistance behind it in ohms.
    pub resistance_ohm: f64,
}

impl LockSupply {
    /// Its voltage at the lower end of the tolerance.
    pub fn low_v(&self) -> f64 {
        self.voltage_v * (1.0 - self.tolerance)
    }

    /// Its voltage at the upper end of the tolerance: a bound of the voltage at the lock.
    pub fn high_v(&self) -> f64 {
        self.voltage_v * (1.0 + self.tolerance)
    }

    fn check(&self) -> Result<(), RangeError> {
        positive("voltage_v", self.voltage_v)?;
        fraction("tolerance", self.tolerance)?;
        not_negative("resistance_ohm", self.resistance_ohm)
    }
}

/// Loop resistance of the cable with its joints: `(2 r L + 2 n j) / p`, in ohms; every pair has its own joints.
pub fn loop_resistance_ohm(cable: &LockCable) -> Result<f64, RangeError> {
    not_negative("conductor_ohm_per_m", cable.conductor_ohm_per_m)?;
    not_negative("length_m", cable.length_m)?;
    not_negative("joint_ohm", cable.joint_ohm)?;
    let joints_ohm = f64::from(cable.joints) * cable.joint_ohm;
    within("pairs", f64::from(cable.pairs), 1.0..=1000.0)?;
    Ok(2.0 * (cable.conductor_ohm_per_m * cable.length_m + joints_ohm) / f64::from(cable.pairs))
}

/// Lower bound of the voltage at the lock in volts, under the hypothesis above.
///
/// `loop_ohm` and `current_a` must be taken at the adverse end of their tolerances.
pub fn least_voltage_v(
    supply: &LockSupply,
    loop_ohm: f64,
    rated_voltage_v: f64,
    current_a: f64,
) -> Result<f64, RangeError> {
    supply.check()?;
    not_negative("loop_ohm", loop_ohm)?;
    positive("rated_voltage_v", rated_voltage_v)?;
    not_negative("current_a", current_a)?;
    let low_v = supply.low_v();
    let drop_v = (supply.resistance_ohm + loop_ohm) * current_a;
    let below_rated = low_v - drop_v;
    Ok(if below_rated <= rated_voltage_v {
        below_rated.max(0.0)
    } else {
        low_v / (1.0 + drop_v / rated_voltage_v)
    })
}

/// Upper bound of the settled voltage at a coil in volts: it draws at least `least_current_a` at its rated voltage, and in proportion below
/// and above.
///
/// `loop_ohm` must be taken at the light end of its tolerances.
pub fn highest_voltage_v(
    supply: &LockSupply,
    loop_ohm: f64,
    rated_voltage_v: f64,
    least_current_a: f64,
) -> Result<f64, RangeError> {
    supply.check()?;
    not_negative("loop_ohm", loop_ohm)?;
    positive("rated_voltage_v", rated_voltage_v)?;
    not_negative("least_current_a", least_current_a)?;
    let ohm = supply.resistance_ohm + loop_ohm;
    Ok(supply.high_v() / (1.0 + ohm * least_current_a / rated_voltage_v))
}

/// The least nominal supply voltage with which `required_v` reaches a lock that draws `current_a`:
/// `(required + R I) / (1 - t)`, the inverse of [`least_voltage_v`] below rated voltage, in volts.
///
/// `tolerance` is at most 0.9.
pub fn least_supply_v(
    required_v: f64,
    tolerance: f64,
    loop_ohm: f64,
    current_a: f64,
) -> Result<f64, RangeError> {
    not_negative("required_v", required_v)?;
    within("tolerance", tolerance, 0.0..=0.9)?;
    not_negative("loop_ohm", loop_ohm)?;
    not_negative("current_a", current_a)?;
    Ok((required_v + loop_ohm * current_a) / (1.0 - tolerance))
}

/// The greatest loop resistance, source included, with which `required_v` reaches the lock, in ohms;
/// `None` if the supply is too low even without any cable.
pub fn most_loop_resistance_ohm(
    supply: &LockSupply,
    required_v: f64,
    current_a: f64,
) -> Result<Option<f64>, RangeError> {
    supply.check()?;
    not_negative("required_v", required_v)?;
    positive("current_a", current_a)?;
    let room_v = supply.low_v() - required_v;
    Ok((room_v >= 0.0).then(|| room_v / current_a))
}

/// Voltage at a lock on alternating current, in volts root mean square; 0 where the cable cannot
/// deliver the current.
///
/// `source_v` at the end of its tolerance wanted; `power_factor` 0 to 1, lagging.
pub fn ac_voltage_v(
    source_v: f64,
    loop_ohm: f64,
    loop_reactance_ohm: f64,
    current_a: f64,
    power_factor: f64,
) -> Result<f64, RangeError> {
    positive("source_v", source_v)?;
    not_negative("loop_ohm", loop_ohm)?;
    not_negative("loop_reactance_ohm", loop_reactance_ohm)?;
    not_negative("current_a", current_a)?;
    fraction("power_factor", power_factor)?;
    let sine = (1.0 - power_factor * power_factor).sqrt();
    let across = current_a * (loop_reactance_ohm * power_factor - loop_ohm * sine);
    let along = current_a * (loop_ohm * power_factor + loop_reactance_ohm * sine);
    let square = source_v * source_v - across * across;
    Ok(if square > 0.0 { (square.sqrt() - along).max(0.0) } else { 0.0 })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_two_branches_meet_at_rated_voltage() {
        let supply = LockSupply { voltage_v: 12.5, tolerance: 0.0, resistance_ohm: 0.0 };
        // 1 ohm x 0.5 A: exactly 12 V at the lock by both forms.
        assert_eq!(least_voltage_v(&supply, 1.0, 12.0, 0.5).unwrap(), 12.0);
        assert!((12.5 / (1.0 + 0.5 / 12.0) - 12.0_f64).abs() < 1e-12);
    }

    #[test]
    fn a_cable_that_cannot_carry_the_current_leaves_nothing() {
        let supply = LockSupply { voltage_v: 12.0, tolerance: 0.1, resistance_ohm: 0.0 };
        assert_eq!(least_voltage_v(&supply, 100.0, 12.0, 1.0).unwrap(), 0.0);
        assert_eq!(ac_voltage_v(12.0, 100.0, 0.0, 1.0, 0.0).unwrap(), 0.0);
    }

    #[test]
    fn bad_values_are_named() {
        let supply = LockSupply { voltage_v: f64::NAN, tolerance: 0.0, resistance_ohm: 0.0 };
        assert_eq!(least_voltage_v(&supply, 1.0, 12.0, 0.5).unwrap_err().quantity, "voltage_v");
        assert_eq!(least_supply_v(10.8, 0.95, 1.0, 0.5).unwrap_err().quantity, "tolerance");
        let cable =
            LockCable { conductor_ohm_per_m: 0.02, length_m: -1.0, joints: 2, joint_ohm: 0.01, pairs: 1 };
        assert_eq!(loop_resistance_ohm(&cable).unwrap_err().quantity, "length_m");
    }
}
