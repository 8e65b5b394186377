//! How fast a coil lets go when its contact opens, and how high the voltage then jumps.
//!
//! Symbols: `I` current when the contact opens, `L` inductance, `R` resistance of the coil, `i` current, `Id`
//! current at which the armature drops out, `T = L / R`.
//!
//! After the contact opens, the coil's current flows on through the suppressor:
//! `L di/dt = -R i - u(i)`, with `u(i)` the suppressor's voltage. All cases have closed forms:
//!
//! | suppressor | u(i) | time from I to Id |
//! |---|---|---|
//! | resistor Rp | Rp i | `L / (R + Rp) ln(I / Id)` |
//! | diode, clamp | Vd | `T ln((I + Vd/R) / (Id + Vd/R))`; to zero: `T ln(1 + I R / Vd)` |
//! | varistor | `K i^b` | `L / ((1 - b) R) ln((R I^(1-b) + K) / (R Id^(1-b) + K))` |
//!
//! The varistor's is Bernoulli's equation with `y = i^(1-b)`; `b = 0` is a clamp, `b = 1` a resistor.
//! A clamp counts with all voltage in its path: a suppressor diode with a plain diode in series adds
//! both. Nothing across the coil: the contact's arc ends the current in well under a millisecond; 0 is
//! taken, and the spike is bounded by the energy in the coil and the capacitance `C` of its wiring:
//! `I sqrt(L / C)`.
//!
//! What this model leaves out: the coil's inductance falls when the armature leaves, eddy currents in solid
//! iron and remanence slow the release, and the armature needs its own time to move. The result is
//! therefore a lower figure for the delay, good to compare suppressors, not to promise milliseconds.

use crate::range::{RangeError, not_negative, positive, within};

/// A coil at the moment its contact opens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coil {
    /// Current at that moment, in amperes.
    pub current_a: f64,
    /// Its inductance, in henries.
    pub inductance_h: f64,
    /// Its resistance, in ohms.
    pub resistance_ohm: f64,
}

/// Current-voltage law of a varistor: `u = voltage_v (i / at_current_a)^exponent`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Varistor {
    /// Its voltage at `at_current_a`, in volts.
    pub voltage_v: f64,
    /// The current at which that holds, in amperes (1 mA in data sheets).
    pub at_current_a: f64,
    /// The inverse of its exponent of nonlinearity: 0.03 to 0.05 for metal oxide. 0 to 0.99.
    pub exponent: f64,
}

/// What takes the coil's current when the contact opens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Suppressor {
    /// Nothing: the contact's arc.
    None,
    /// A resistor across the coil, in ohms.
    Resistor(f64),
    /// A diode or a clamp: a constant voltage in volts (0.7 for a plain silicon diode).
    Clamp(f64),
    /// A varistor.
    Varistor(Varistor),
}

fn check(coil: &Coil, suppressor: &Suppressor) -> Result<(), RangeError> {
    positive("current_a", coil.current_a)?;
    positive("inductance_h", coil.inductance_h)?;
    positive("resistance_ohm", coil.resistance_ohm)?;
    match suppressor {
        Suppressor::None => Ok(()),
        Suppressor::Resistor(ohm) => not_negative("suppressor_ohm", *ohm),
        Suppressor::Clamp(volts) => positive("clamp_voltage_v", *volts),
        Suppressor::Varistor(varistor) => {
            positive("varistor_voltage_v", varistor.voltage_v)?;
            positive("varistor_current_a", varistor.at_current_a)?;
            within("varistor_exponent", varistor.exponent, 0.0..=0.99)
        }
    }
}

/// Time from the opening of the contact until the current has fallen to `dropout_a`, in seconds.
///
/// `dropout_a` must be below the coil's current; 0 asks when the current has died, which a resistor
/// never quite reaches: then the result is an error.
pub fn release_time_s(coil: &Coil, dropout_a: f64, suppressor: &Suppressor) -> Result<f64, RangeError> {
    check(coil, suppressor)?;
    within("dropout_a", dropout_a, 0.0..=coil.current_a)?;
    let Coil { current_a, inductance_h, resistance_ohm } = *coil;
    let time_s = match *suppressor {
        Suppressor::None => 0.0,
        Suppressor::Resistor(parallel_ohm) => {
            positive("dropout_a", dropout_a)?;
            inductance_h / (resistance_ohm + parallel_ohm) * libm::log(current_a / dropout_a)
        }
        Suppressor::Clamp(clamp_v) => {
            let offset_a = clamp_v / resistance_ohm;
            // ln(1 + x) keeps its digits when the clamp is far above I R.
            let ratio = (current_a - dropout_a) / (dropout_a + offset_a);
            inductance_h / resistance_ohm * libm::log1p(ratio)
        }
        Suppressor::Varistor(Varistor { voltage_v, at_current_a, exponent }) => {
            let power = 1.0 - exponent;
            let factor = voltage_v / libm::pow(at_current_a, exponent);
            let at = |current: f64| resistance_ohm * libm::pow(current, power);
            let ratio = (at(current_a) - at(dropout_a)) / (at(dropout_a) + factor);
            inductance_h / (power * resistance_ohm) * libm::log1p(ratio)
        }
    };
    Ok(time_s)
}

/// Current of the coil at `time_s` after the contact opened, with a diode or clamp of `clamp_v`, in amperes:
/// `(I + Vd/R) e^(-t R/L) - Vd/R`, not below 0.
pub fn current_after_a(coil: &Coil, clamp_v: f64, time_s: f64) -> Result<f64, RangeError> {
    check(coil, &Suppressor::Clamp(clamp_v))?;
    not_negative("time_s", time_s)?;
    let offset_a = clamp_v / coil.resistance_ohm;
    let decay = libm::exp(-time_s * coil.resistance_ohm / coil.inductance_h);
    Ok(((coil.current_a + offset_a) * decay - offset_a).max(0.0))
}

/// Highest voltage across the opening contact, in volts: the supply's and the suppressor's together.
/// With nothing across the coil, the bound by energy with `wiring_capacitance_f`.
pub fn spike_voltage_v(
    coil: &Coil,
    supply_v: f64,
    suppressor: &Suppressor,
    wiring_capacitance_f: f64,
) -> Result<f64, RangeError> {
    check(coil, suppressor)?;
    not_negative("supply_v", supply_v)?;
    positive("wiring_capacitance_f", wiring_capacitance_f)?;
    let across_coil_v = match *suppressor {
        Suppressor::None => coil.current_a * (coil.inductance_h / wiring_capacitance_f).sqrt(),
        Suppressor::Resistor(parallel_ohm) => coil.current_a * parallel_ohm,
        Suppressor::Clamp(clamp_v) => clamp_v,
        Suppressor::Varistor(Varistor { voltage_v, at_current_a, exponent }) => {
            voltage_v * libm::pow(coil.current_a / at_current_a, exponent)
        }
    };
    Ok(supply_v + across_coil_v)
}
