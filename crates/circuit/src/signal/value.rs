//! Limits of what the signal kernel accepts, and the error that names a value outside them.

use std::fmt;

/// Lowest frequency accepted, in hertz: far below any use, but high enough that no product underflows.
pub const LEAST_FREQUENCY_HZ: f64 = 1e-12;
/// Highest frequency accepted, in hertz: a pair is no transmission line of one mode long before.
pub const GREATEST_FREQUENCY_HZ: f64 = 1e10;
/// Greatest value of any other quantity, in its own unit; keeps every product finite.
const GREATEST: f64 = 1e12;
/// Least value of a capacitance or of anything else that is divided by.
const LEAST: f64 = 1e-24;

/// A value outside its limits.
#[derive(Clone, Debug, PartialEq)]
pub struct ValueError {
    /// Name of the quantity, with its unit.
    pub quantity: &'static str,
    /// The value given.
    pub value: f64,
    /// What it must be.
    pub limit: &'static str,
}

impl fmt::Display for ValueError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} is {:?}, must be {}", self.quantity, self.value, self.limit)
    }
}

impl std::error::Error for ValueError {}

/// A value of 0 to 1e12.
pub(super) fn not_negative(quantity: &'static str, value: f64) -> Result<(), ValueError> {
    if (0.0..=GREATEST).contains(&value) {
        Ok(())
    } else {
        Err(ValueError { quantity, value, limit: "between 0 and 1e12" })
    }
}

/// A value above 0 (at least 1e-24) and at most 1e12.
pub(super) fn positive(quantity: &'static str, value: f64) -> Result<(), ValueError> {
    if (LEAST..=GREATEST).contains(&value) {
        Ok(())
    } else {
        Err(ValueError { quantity, value, limit: "above 0 (1e-24 to 1e12)" })
    }
}

/// A frequency in hertz that the kernel accepts.
pub fn check_frequency_hz(value: f64) -> Result<(), ValueError> {
    if (LEAST_FREQUENCY_HZ..=GREATEST_FREQUENCY_HZ).contains(&value) {
        Ok(())
    } else {
        Err(ValueError { quantity: "frequency_hz", value, limit: "above 0 (1e-12 to 1e10)" })
    }
}
