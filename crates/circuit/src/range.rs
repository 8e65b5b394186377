//! Checks of single values that the lock and battery kernels share.

use crate::signal::ValueError;
use std::ops::RangeInclusive;

/// Accepts a value within a range; the error names the quantity and says the range in words.
pub(crate) fn within(
    quantity: &'static str,
    value: f64,
    range: RangeInclusive<f64>,
    limit: &'static str,
) -> Result<(), ValueError> {
    if range.contains(&value) { Ok(()) } else { Err(ValueError { quantity, value, limit }) }
}

/// A value above 0 (at least 1e-12) and at most 1e9.
pub(crate) fn positive(quantity: &'static str, value: f64) -> Result<(), ValueError> {
    within(quantity, value, 1e-12..=1e9, "above 0 (1e-12 to 1e9)")
}

/// A value of 0 to 1e9.
pub(crate) fn not_negative(quantity: &'static str, value: f64) -> Result<(), ValueError> {
    within(quantity, value, 0.0..=1e9, "between 0 and 1e9")
}

/// A fraction of 0 to 1.
pub(crate) fn fraction(quantity: &'static str, value: f64) -> Result<(), ValueError> {
    within(quantity, value, 0.0..=1.0, "between 0 and 1")
}
