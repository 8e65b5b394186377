//! How long a battery carries a load.
//!
//! Symbols: `C` rated capacity in Ah at the `H`-hour rate, `k` Peukert exponent, `I` current drawn from
//! the battery.
//!
//! **Peukert's law in the rated-time form**: `t = H (C / (I H))^k`. At the rated current `C / H` it
//! gives `H` hours whatever `k`. The one-constant form `t = C / I^k` found in handbooks silently takes
//! the rating to be for one hour and 1 A and is wrong for an `H`-hour rating; it is not used.
//!
//! **Below the rated current** the law would promise more than the rated capacity. It is not relied on
//! there: `t = C / I`.
//!
//! **Ageing and temperature.** A battery is replaced when it has 80 % of its capacity left: the capacity
//! counted on is `C / 1.25`. In the cold it gives less: `C / F` with the factor `F` of IEEE 485, Table 1
//! for lead-acid, 25 °C reference (values from memory, not yet confirmed), interpolated linearly. Above
//! 25 °C the table's gain is not counted on (warmth costs life); below its -3.9 °C end no figure is
//! given.

use crate::range::{RangeError, fraction, positive, within};

/// Capacity at the start over capacity at the end of life (replaced at 80 %): IEEE 485 and BS 5839-1 use
/// 1.25.
pub const AGEING_FACTOR: f64 = 1.25;

/// IEEE 485 Table 1, lead-acid: temperature in °C and the factor by which the capacity needed grows.
const TEMPERATURE_FACTORS: [(f64, f64); 7] =
    [(-3.9, 1.52), (1.7, 1.35), (4.4, 1.30), (10.0, 1.19), (15.6, 1.11), (21.1, 1.04), (25.0, 1.00)];

/// Coldest temperature of that table in °C.
pub const COLDEST_C: f64 = -3.9;

/// A battery as its maker rates it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BatteryRating {
    /// Rated capacity in ampere-hours.
    pub capacity_ah: f64,
    /// Hours over which that was measured (20 for the 20-hour rate).
    pub rated_hours: f64,
    /// Peukert exponent, 1 (ideal) to 2.
    pub peukert_exponent: f64,
}

impl BatteryRating {
    fn check(&self) -> Result<(), RangeError> {
        positive("capacity_ah", self.capacity_ah)?;
        positive("rated_hours", self.rated_hours)?;
        within("peukert_exponent", self.peukert_exponent, 1.0..=2.0)
    }
}

/// Factor by which the capacity needed grows at a battery temperature in °C (-3.9 to 60).
pub fn temperature_factor(battery_c: f64) -> Result<f64, RangeError> {
    within("battery_c", battery_c, COLDEST_C..=60.0)?;
    let mut below = TEMPERATURE_FACTORS[0];
    for above in TEMPERATURE_FACTORS {
        if battery_c <= above.0 {
            let span = above.0 - below.0;
            let share = if span > 0.0 { (battery_c - below.0) / span } else { 1.0 };
            return Ok(below.1 + share * (above.1 - below.1));
        }
        below = above;
    }
    Ok(1.0)
}

/// The capacity counted on: rated, over ageing, over temperature, in ampere-hours.
pub fn effective_capacity_ah(capacity_ah: f64, ageing: f64, battery_c: f64) -> Result<f64, RangeError> {
    positive("capacity_ah", capacity_ah)?;
    within("ageing", ageing, 1.0..=5.0)?;
    Ok(capacity_ah / ageing / temperature_factor(battery_c)?)
}

/// Peukert's law in the rated-time form, `H (C / (I H))^k`, in hours; no limit below the rated current.
pub fn rated_time_hours(rating: &BatteryRating, current_a: f64) -> Result<f64, RangeError> {
    rating.check()?;
    positive("current_a", current_a)?;
    let BatteryRating { capacity_ah, rated_hours, peukert_exponent } = *rating;
    Ok(rated_hours * libm::pow(capacity_ah / (current_a * rated_hours), peukert_exponent))
}

/// Hours that the battery carries a constant current: Peukert's law above the rated current, `C / I` below.
pub fn hours(rating: &BatteryRating, current_a: f64) -> Result<f64, RangeError> {
    let by_law = rated_time_hours(rating, current_a)?;
    Ok(by_law.min(rating.capacity_ah / current_a))
}

/// The constant current that takes as much out of a battery by Peukert's law as one that is `call_a` for a share of the time
/// and `standby_a` for the rest, in amperes: `((1 - d) I^k + d Ic^k)^(1/k)`. Never below the mean of the two.
pub fn equivalent_current_a(
    standby_a: f64,
    call_a: f64,
    share: f64,
    peukert_exponent: f64,
) -> Result<f64, RangeError> {
    positive("standby_a", standby_a)?;
    positive("call_a", call_a)?;
    fraction("share", share)?;
    within("peukert_exponent", peukert_exponent, 1.0..=2.0)?;
    let power = |current_a: f64| libm::pow(current_a, peukert_exponent);
    let mean = (1.0 - share) * power(standby_a) + share * power(call_a.max(standby_a));
    Ok(libm::pow(mean, 1.0 / peukert_exponent))
}

/// Current drawn from the battery for a power on the bus: `P / (efficiency V)`, in amperes.
///
/// `battery_v` is the voltage at which the current is reckoned; a converter draws the most at the end of
/// discharge.
pub fn battery_current_a(bus_power_w: f64, efficiency: f64, battery_v: f64) -> Result<f64, RangeError> {
    positive("bus_power_w", bus_power_w)?;
    fraction("efficiency", efficiency)?;
    positive("efficiency", efficiency)?;
    positive("battery_v", battery_v)?;
    Ok(bus_power_w / (efficiency * battery_v))
}
