//! Money in whole millionths of the catalogue's currency, so that sums and bounds are exact.

/// An amount in millionths. Sums of a site's parts are far from its range.
pub type Micro = i64;

/// What stands for "no design": larger than any sum, and two of them still fit.
pub const NONE: Micro = i64::MAX / 4;

/// A price with labour, in millionths.
pub fn micro(price: f64, minutes: f64, per_hour: f64) -> Micro {
    ((price + minutes * per_hour / 60.0) * 1e6).round() as Micro
}

/// Back to the currency.
pub fn units(amount: Micro) -> f64 {
    amount as f64 / 1e6
}
