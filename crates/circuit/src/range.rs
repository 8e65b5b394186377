//! Checks of single values that the lock and battery kernels share.

use std::fmt;
use std::ops::RangeInclusive;

/// A value outside the range in which a lock or battery kernel works.
#[derive(Clone, Debug, PartialEq)]
pub struct RangeError {
    /// Name of the quantity, with its unit.
    pub quantity: &'static str,
    /// The value given.
    pub value: f64,
    /// Least value accepted.
    pub least: f64,
    /// Greatest value accepted.
    pub most: f64,
}

impl fmt::Display for RangeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { quantity, value, least, most } = self;
        write!(f, "{quantity} is {value:?}, must be between {least:?} and {most:?}")
    }
}

impl std::error::Error for RangeError {}

/// Accepts a value within a range.
pub(crate) fn within(
    quantity: &'static str,
    value: f64,
    range: RangeInclusive<f64>,
) -> Result<(), RangeError> {
    let (least, most) = (*range.start(), *range.end());
    if range.contains(&value) { Ok(()) } else { Err(RangeError { quantity, value, least, most }) }
}

/// A value above 0 (at least 1e-12) and at most 1e9.
pub(crate) fn positive(quantity: &'static str, value: f64) -> Result<(), RangeError> {
    within(quantity, value, 1e-12..=1e9)
}

/// A value of 0 to 1e9.
pub(crate) fn not_negative(quantity: &'static str, value: f64) -> Result<(), RangeError> {
    within(quantity, value, 0.0..=1e9)
}

/// A fraction of 0 to 1.
pub(crate) fn fraction(quantity: &'static str, value: f64) -> Result<(), RangeError> {
    within(quantity, value, 0.0..=1.0)
}
