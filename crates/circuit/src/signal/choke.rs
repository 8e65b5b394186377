//! Low corner that feed chokes put under the signal.

use std::f64::consts::TAU;

use super::value::{ValueError, not_negative, positive};

/// Frequency in hertz below which feed chokes in parallel short the signal: `R / (2 pi Lp)` with
/// `1/Lp = sum 1/L`, which for `n` equal chokes is `n R / (2 pi L)`.
///
/// `resistance_ohm` is what drives the pair: source and terminating resistance in parallel. At the corner
/// the loss of lossless chokes on a short pair is 3.01 dB. No choke: 0 Hz. Sums of first-order terms, so
/// cable resistance between the feeds is left out; [`super::respond`] has it in.
pub fn low_corner_hz(resistance_ohm: f64, inductances_h: &[f64]) -> Result<f64, ValueError> {
    not_negative("resistance_ohm", resistance_ohm)?;
    let mut inverse_per_h = 0.0;
    for &inductance_h in inductances_h {
        positive("inductance_h", inductance_h)?;
        inverse_per_h += 1.0 / inductance_h;
    }
    Ok(resistance_ohm * inverse_per_h / TAU)
}
