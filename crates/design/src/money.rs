//! Money as plans are compared by it: whole millionths of the catalogue's currency, and below a millionth, what decides
//! between plans of equal cost.

use latchline_finding::Money;

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

/// A price with labour; what is less than a millionth is rounded down, so that no sum of parts is above the price of the whole.
pub fn amount(price: Money, minutes: f64, per_hour: Money) -> Amount {
    let labour = minutes * per_hour.as_millionths() as f64 / 60.0;
    // What differs from a whole number by less than a thousandth is one but for the rounding of the product.
    let whole = labour.round();
    let labour = if (labour - whole).abs() < 1e-3 { whole } else { labour.floor() };
    (price.as_millionths() + labour as i64) * MILLIONTH
}

/// An amount of money.
pub fn from_money(money: Money) -> Amount {
    money.as_millionths() * MILLIONTH
}

/// Back to money, without the rest.
pub fn money(amount: Amount) -> Money {
    Money::from_millionths(amount.div_euclid(MILLIONTH))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rests_decide_between_equals_only() {
        let price = |cents: f64| amount(Money::from_units(cents / 100.0), 0.0, Money::ZERO);
        let rest = |dwellings| rest(dwellings, 4000);
        assert!(price(1.0) + rest(3) + rest(5) > price(1.0) + rest(4) + rest(4));
        assert!((0..250).map(|_| rest(16)).sum::<Amount>() < MILLIONTH);
        assert_eq!(money(price(12345.0) + rest(200)), Money::from_units(123.45));
        assert_eq!(from_money(Money::from_units(123.45)), price(12345.0));
    }

    #[test]
    fn labour_is_rounded_down_but_for_the_rounding_of_products() {
        let labour = |minutes: f64, per_hour: f64| {
            amount(Money::ZERO, minutes, Money::from_units(per_hour)) / MILLIONTH
        };
        assert_eq!(labour(1.2, 45.0), 900_000);
        assert_eq!(labour(1.0, 50.0), 833_333);
    }
}
