//! Money in whole millionths of the catalogue's currency, so that sums and bounds are exact.

/// An amount in millionths. Sums of a site's parts are far from its range.
pub type Micro = i64;

/// What stands for "no design": larger than any sum, and two of them still fit.
pub const NONE: Micro = i64::MAX / 4;

/// A price with labour, in millionths; more decimals than that are rounded down, so that no sum of parts is above
/// the price of the whole.
pub fn micro(price: f64, minutes: f64, per_hour: f64) -> Micro {
    let exact = (price + minutes * per_hour / 60.0) * 1e6;
    // What differs from a whole number by less than a thousandth is one but for the rounding of the sum above.
    let whole = exact.round();
    (if (exact - whole).abs() < 1e-3 { whole } else { exact.floor() }) as Micro
}

/// Back to the currency.
pub fn units(amount: Micro) -> f64 {
    amount as f64 / 1e6
}
