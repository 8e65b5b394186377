//! What a supply takes from the mains and gives off as heat, and what it may give when it is hot.
//!
//! Output power `P`, efficiency `n`, power factor `f`, mains voltage `V` (single phase): input power `P
//! / n`, mains current `P / (n f V)`, heat `P (1/n - 1)`. The efficiency is the one at that load; a
//! figure at rated load flatters light loads.
//!
//! **Derating**: full power up to `limit_c`, then less by a share `s` of it for every kelvin: `P (1 - s
//! (t - limit))`, not below 0. The slope is the maker's; 2.5 % per kelvin is usual for convection-cooled
//! supplies (common practice, no source).

use crate::range::{RangeError, fraction, not_negative, positive, within};

/// Mains input current in amperes, root mean square.
pub fn mains_current_a(
    output_w: f64,
    efficiency: f64,
    power_factor: f64,
    mains_v: f64,
) -> Result<f64, RangeError> {
    not_negative("output_w", output_w)?;
    above_zero_fraction("efficiency", efficiency)?;
    above_zero_fraction("power_factor", power_factor)?;
    positive("mains_v", mains_v)?;
    Ok(output_w / (efficiency * power_factor * mains_v))
}

/// Heat that stays in the cupboard, in watts.
pub fn heat_w(output_w: f64, efficiency: f64) -> Result<f64, RangeError> {
    not_negative("output_w", output_w)?;
    above_zero_fraction("efficiency", efficiency)?;
    Ok(output_w * (1.0 / efficiency - 1.0))
}

/// Power that a supply may give at an ambient temperature, in watts.
pub fn derated_power_w(
    rated_w: f64,
    limit_c: f64,
    derating_per_k: f64,
    ambient_c: f64,
) -> Result<f64, RangeError> {
    not_negative("rated_w", rated_w)?;
    within("limit_c", limit_c, -100.0..=200.0)?;
    within("ambient_c", ambient_c, -100.0..=200.0)?;
    fraction("derating_per_k", derating_per_k)?;
    let over_k = (ambient_c - limit_c).max(0.0);
    Ok(rated_w * (1.0 - derating_per_k * over_k).max(0.0))
}

fn above_zero_fraction(quantity: &'static str, value: f64) -> Result<(), RangeError> {
    within(quantity, value, 0.01..=1.0)
}
