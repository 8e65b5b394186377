//! Money in whole millionths of the catalogue's currency, so that sums and bounds are exact; and below a millionth, what decides
//! between plans of equal cost.

/// An amount: millionths times [`MILLIONTH`], and a rest that decides between equals. Sums of a site's parts are far from
/// its range, and sums of rests below a millionth.
pub type Amount = i64;

/// A millionth of the currency.
pub const MILLIONTH: Amount = 1 << 16;

/// What stands for "no design": larger than any sum, and two of them still fit.
pub const NONE: Amount = i64::MAX / 4;

/// Of plans of equal cost the more resilient one, in which a broken joint silences fewer: the rest of a plan is the sum over its
/// runs of their dwellings' squared number, and stays below a millionth. On a site of more than 4,000 items it is left out.
pub fn rest(dwellings: usize, items_of_site: usize) -> Amount {
    let counted = dwellings.min(16);
    if items_of_site > 4000 { 0 } else { (counted * counted) as Amount }
}

/// A price with labour; more decimals than millionths are rounded down, so that no sum of parts is above
/// the price of the whole.
pub fn amount(price: f64, minutes: f64, per_hour: f64) -> Amount {
    let exact = (price + minutes * per_hour / 60.0) * 1e6;
    // What differs from a whole number by less than a thousandth is one but for the rounding of the sum above.
    let whole = exact.round();
    (if (exact - whole).abs() < 1e-3 { whole } else { exact.floor() }) as Amount * MILLIONTH
}

/// An amount of the currency, to the next millionth.
pub fn from_units(units: f64) -> Amount {
    (units * 1e6).round() as Amount * MILLIONTH
}

/// Back to the currency, without the rest.
pub fn units(amount: Amount) -> f64 {
    amount.div_euclid(MILLIONTH) as f64 / 1e6
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rests_decide_between_equals_only() {
        let price = |cents: f64| amount(cents / 100.0, 0.0, 0.0);
        let rest = |dwellings| rest(dwellings, 4000);
        assert!(price(1.0) + rest(3) + rest(5) > price(1.0) + rest(4) + rest(4));
        assert!((0..250).map(|_| rest(16)).sum::<Amount>() < MILLIONTH);
        assert_eq!(units(price(12345.0) + rest(200)), 123.45);
        assert_eq!(from_units(123.45), price(12345.0));
    }
}
