//! Physical quantities as types, built and read by the name of their unit.
//!
//! The number inside is always in the SI base unit of the quantity (temperature: degrees Celsius).
//! Only operators that mean something in physics exist: `Current * Resistance` is a [`Voltage`],
//! two lengths add, a voltage and a length do not.

use std::fmt;
use std::ops::{Add, AddAssign, Div, Mul, Sub};

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $symbol:literal, $from:ident, $read:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);

            #[doc = concat!("From a number in ", $symbol, ".")]
            pub const fn $from(value: f64) -> Self {
                Self(value)
            }

            #[doc = concat!("The number in ", $symbol, ".")]
            pub const fn $read(self) -> f64 {
                self.0
            }

            /// The larger of two.
            #[must_use]
            pub fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }

            /// The smaller of two.
            #[must_use]
            pub fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{} {}", self.0, $symbol)
            }
        }

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }

        impl Div<f64> for $name {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(items: I) -> Self {
                Self(items.map(|item| item.0).sum())
            }
        }
    };
}

quantity!(/// An electric potential difference.
    Voltage, "V", from_volts, as_volts);
quantity!(/// An electric current.
    Current, "A", from_amps, as_amps);
quantity!(/// A power.
    Power, "W", from_watts, as_watts);
quantity!(/// An electric resistance.
    Resistance, "ohm", from_ohms, as_ohms);
quantity!(/// A resistance per metre of conductor or of loop; which of the two, its name says.
    ResistancePerLength, "ohm/m", from_ohms_per_metre, as_ohms_per_metre);
quantity!(/// A length.
    Length, "m", from_metres, as_metres);
quantity!(/// A cross-section of conductor.
    Area, "mm²", from_square_millimetres, as_square_millimetres);
quantity!(/// A span of time.
    Duration, "s", from_seconds, as_seconds);
quantity!(/// A capacitance.
    Capacitance, "F", from_farads, as_farads);
quantity!(/// A capacitance per metre of pair.
    CapacitancePerLength, "F/m", from_farads_per_metre, as_farads_per_metre);
quantity!(/// An inductance.
    Inductance, "H", from_henries, as_henries);
quantity!(/// An inductance per metre of pair (loop).
    InductancePerLength, "H/m", from_henries_per_metre, as_henries_per_metre);
quantity!(/// A frequency.
    Frequency, "Hz", from_hertz, as_hertz);
quantity!(/// A level difference.
    Decibels, "dB", from_decibels, as_decibels);
quantity!(/// An electric charge as battery makers give it.
    Charge, "Ah", from_amp_hours, as_amp_hours);
quantity!(/// A temperature in degrees Celsius.
    Temperature, "°C", from_celsius, as_celsius);
quantity!(/// A pure ratio; a tolerance of 5 % is 0.05.
    Ratio, "", from_fraction, as_fraction);

impl Mul<Resistance> for Current {
    type Output = Voltage;
    fn mul(self, resistance: Resistance) -> Voltage {
        Voltage(self.0 * resistance.0)
    }
}

impl Mul<Current> for Voltage {
    type Output = Power;
    fn mul(self, current: Current) -> Power {
        Power(self.0 * current.0)
    }
}

impl Div<Voltage> for Power {
    type Output = Current;
    fn div(self, voltage: Voltage) -> Current {
        Current(self.0 / voltage.0)
    }
}

impl Div<Resistance> for Voltage {
    type Output = Current;
    fn div(self, resistance: Resistance) -> Current {
        Current(self.0 / resistance.0)
    }
}

impl Mul<Length> for ResistancePerLength {
    type Output = Resistance;
    fn mul(self, length: Length) -> Resistance {
        Resistance(self.0 * length.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ohms_law_and_power() {
        let drop = Current::from_amps(0.5) * Resistance::from_ohms(8.0);
        assert_eq!(drop.as_volts(), 4.0);
        assert_eq!((drop * Current::from_amps(0.5)).as_watts(), 2.0);
        assert_eq!((Power::from_watts(2.0) / Voltage::from_volts(4.0)).as_amps(), 0.5);
    }
}
