//! Recharging: how long it takes, and the charging current for a wanted time.
//!
//! `t = f d C / I`: depth of discharge `d` of the capacity `C`, charge factor `f` (charge put in over
//! charge taken out; 1.2 for lead-acid, common practice, no source), charging current `I`. The
//! absorption phase at constant voltage, in which the current tapers, makes the last fifth longer than
//! this; the formula is meant for the first four fifths.
//!
//! A usual demand on chargers of alarm supplies is four fifths of the rated capacity within 24 hours (EN
//! 54-4, 5.3, from memory, not yet confirmed).

use crate::range::{RangeError, fraction, positive, within};

/// Charge put in over charge taken out, lead-acid (common practice, no source).
pub const CHARGE_FACTOR: f64 = 1.2;
/// Share of the capacity that the usual demand wants back.
pub const USUAL_DEPTH: f64 = 0.8;
/// Hours within which it wants it.
pub const USUAL_HOURS: f64 = 24.0;

/// Hours to put back a share `depth` of the capacity with a constant charging current.
pub fn recharge_hours(
    capacity_ah: f64,
    depth: f64,
    charge_factor: f64,
    current_a: f64,
) -> Result<f64, RangeError> {
    positive("current_a", current_a)?;
    Ok(charge_ah(capacity_ah, depth, charge_factor)? / current_a)
}

/// The charging current that puts back a share `depth` of the capacity within `hours`, in amperes.
pub fn charging_current_a(
    capacity_ah: f64,
    depth: f64,
    charge_factor: f64,
    hours: f64,
) -> Result<f64, RangeError> {
    positive("hours", hours)?;
    Ok(charge_ah(capacity_ah, depth, charge_factor)? / hours)
}

fn charge_ah(capacity_ah: f64, depth: f64, charge_factor: f64) -> Result<f64, RangeError> {
    positive("capacity_ah", capacity_ah)?;
    fraction("depth", depth)?;
    within("charge_factor", charge_factor, 1.0..=2.0)?;
    Ok(charge_factor * depth * capacity_ah)
}
