//! The capacity that a battery must have, by two patterns in use for alarm systems.
//!
//! Door entry has no such duty of its own in most countries; the patterns are used here because they are
//! published and known. Neither result says that a system complies with either standard.
//!
//! **BS 5839-1, battery annex** (annex E of the 2025 issue, annex D of 2017): `C = 1.25 (T1 I1 + D T2
//! I2)`, with the standby current `I1` for `T1` hours, then the alarm current `I2` for `T2` hours; `D =
//! 1` if `C / 20 >= I2` (the load is no harder than the 20-hour rate), else `1.75`. `D` depends on `C`
//! and `C` on `D`; [`bs_5839_annex`] takes `D = 1` only if the capacity that it gives satisfies the
//! condition. A simplified form in circulation, `1.25 (T1 I1 + I2)`, takes `D T2` as 1 h, that is `D =
//! 2`.
//!
//! **NFPA 72 10.6.7 pattern**: the sum of current times hours, times a margin (1.2; a figure of 1.25 is
//! also seen).

use crate::range::{RangeError, not_negative, positive, within};

/// Which discharge factor holds in the formula of BS 5839-1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DischargeFactor {
    /// 1: the alarm load is at most the 20-hour current.
    One,
    /// 1.75: it is harder.
    OneAndThreeQuarters,
}

impl DischargeFactor {
    /// The number.
    pub fn value(self) -> f64 {
        match self {
            DischargeFactor::One => 1.0,
            DischargeFactor::OneAndThreeQuarters => 1.75,
        }
    }
}

/// Least capacity by the annex of BS 5839-1, in ampere-hours, with the discharge factor that holds.
pub fn bs_5839_annex(
    standby_a: f64,
    standby_hours: f64,
    alarm_a: f64,
    alarm_hours: f64,
) -> Result<(f64, DischargeFactor), RangeError> {
    not_negative("standby_a", standby_a)?;
    not_negative("standby_hours", standby_hours)?;
    not_negative("alarm_a", alarm_a)?;
    not_negative("alarm_hours", alarm_hours)?;
    let capacity =
        |factor: DischargeFactor| 1.25 * (standby_hours * standby_a + factor.value() * alarm_hours * alarm_a);
    let light = capacity(DischargeFactor::One);
    if light / 20.0 >= alarm_a {
        Ok((light, DischargeFactor::One))
    } else {
        let hard = DischargeFactor::OneAndThreeQuarters;
        Ok((capacity(hard), hard))
    }
}

/// Sum of current times hours over the parts of a duty, times a margin (1 to 3), in ampere-hours.
///
/// `parts` are pairs of amperes and hours.
pub fn margin_on_sum_ah(parts: &[(f64, f64)], margin: f64) -> Result<f64, RangeError> {
    within("margin", margin, 1.0..=3.0)?;
    let mut sum_ah = 0.0;
    for &(current_a, duration_hours) in parts {
        not_negative("current_a", current_a)?;
        positive("duration_hours", duration_hours)?;
        sum_ah += current_a * duration_hours;
    }
    Ok(margin * sum_ah)
}
