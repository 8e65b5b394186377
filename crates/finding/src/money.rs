//! Amounts of money.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Sub};

/// Millionths of one unit of a currency.
const MILLIONTHS: i64 = 1_000_000;

/// An amount in the catalogue's currency, in whole millionths: sums, differences and comparisons are exact.
///
/// Millionths and not hundredths, because a metre of cable may cost a fraction of a hundredth. Amounts reach
/// nine million millions, far above the price of any site; beyond that they stay at the end of the range.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Money(i64);

impl Money {
    /// Nothing.
    pub const ZERO: Money = Money(0);

    /// From whole millionths.
    pub const fn from_millionths(millionths: i64) -> Money {
        Money(millionths)
    }

    /// In whole millionths.
    pub const fn as_millionths(self) -> i64 {
        self.0
    }

    /// The millionth nearest to a number of units, as a file or a person gives it.
    pub fn from_units(units: f64) -> Money {
        Money((units * MILLIONTHS as f64).round() as i64)
    }

    /// As a number of units, for files and cells that hold numbers. Not for sums.
    pub fn as_units(self) -> f64 {
        self.0 as f64 / MILLIONTHS as f64
    }

    /// The price of so many pieces, or of so many metres at a price per metre: to the nearest millionth, a half upwards.
    /// The quantity counts in thousandths.
    #[must_use]
    pub fn times(self, quantity: f64) -> Money {
        let thousandths = (quantity * 1e3).round() as i128;
        let product = i128::from(self.0) * thousandths;
        Money(saturated((product + 500).div_euclid(1000)))
    }

    /// What a price per metre is per foot (0.3048 m, exactly), to whole ten-thousandths of a unit, a half upwards.
    #[must_use]
    pub fn per_foot(self) -> Money {
        let ten_thousandths = (i128::from(self.0) * 3_048 + 500_000).div_euclid(1_000_000);
        Money(saturated(ten_thousandths * 100))
    }

    /// To whole hundredths, a half upwards.
    #[must_use]
    pub fn rounded(self) -> Money {
        Money(self.as_hundredths().saturating_mul(10_000))
    }

    /// The same in another currency, of which one unit of this one is worth so much, to the nearest millionth.
    #[must_use]
    pub fn at_rate(self, worth: f64) -> Money {
        let converted = self.0 as f64 * worth;
        Money(saturated(converted.round() as i128))
    }

    /// In whole hundredths, a half upwards: what is shown to people.
    pub fn as_hundredths(self) -> i64 {
        (self.0.saturating_add(5_000)).div_euclid(10_000)
    }
}

fn saturated(value: i128) -> i64 {
    i64::try_from(value).unwrap_or(if value < 0 { i64::MIN } else { i64::MAX })
}

impl Add for Money {
    type Output = Money;

    fn add(self, other: Money) -> Money {
        Money(self.0.saturating_add(other.0))
    }
}

impl Sub for Money {
    type Output = Money;

    fn sub(self, other: Money) -> Money {
        Money(self.0.saturating_sub(other.0))
    }
}

impl Sum for Money {
    fn sum<I: Iterator<Item = Money>>(amounts: I) -> Money {
        amounts.fold(Money::ZERO, Add::add)
    }
}

/// With two decimals, a half of a hundredth upwards.
impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let hundredths = self.as_hundredths();
        let sign = if hundredths < 0 { "-" } else { "" };
        let size = hundredths.unsigned_abs();
        f.pad(&format!("{sign}{}.{:02}", size / 100, size % 100))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sums_of_tenths_are_exact() {
        // Ten times 0.1 is not 1 in binary fractions.
        let tenth = Money::from_units(0.1);
        assert_eq!((0..10).map(|_| tenth).sum::<Money>(), Money::from_units(1.0));
        assert_eq!(tenth.times(10.0), Money::from_units(1.0));
        assert_eq!(Money::from_units(1.0) - tenth.times(9.0), tenth);
    }

    #[test]
    fn metres_at_a_price_are_rounded_to_the_millionth() {
        // 0.185 x 12.345 = 2.283825
        assert_eq!(Money::from_units(0.185).times(12.345).as_millionths(), 2_283_825);
        assert_eq!(Money::from_millionths(1).times(0.5).as_millionths(), 1);
        assert_eq!(Money::from_millionths(i64::MAX).times(2.0).as_millionths(), i64::MAX);
    }

    #[test]
    fn a_foot_is_0_3048_m() {
        // The international foot, exact since 1959 (BIPM, The International System of Units, table of conversions; from memory):
        // 0.62 x 0.3048 = 0.188976, 1.25 x 0.3048 = 0.381, 0.00082 x 0.3048 = 0.00025 (0.000249936).
        assert_eq!(Money::from_units(0.62).per_foot().as_millionths(), 189_000);
        assert_eq!(Money::from_units(1.25).per_foot().as_millionths(), 381_000);
        assert_eq!(Money::from_units(0.00082).per_foot().as_millionths(), 200);
        assert_eq!(Money::from_millionths(i64::MAX).per_foot().as_millionths() % 100, 0);
    }

    #[test]
    fn two_decimals_are_shown() {
        let shown = |millionths: i64| Money::from_millionths(millionths).to_string();
        assert_eq!(shown(6_845_000), "6.85");
        assert_eq!(shown(6_844_999), "6.84");
        assert_eq!(shown(-12_500_000), "-12.50");
        assert_eq!(shown(-1), "0.00");
        assert_eq!(format!("{:>8}", Money::from_units(3.0)), "    3.00");
    }
}
