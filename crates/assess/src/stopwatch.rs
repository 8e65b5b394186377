//! What a stopwatch may show of a time that was worked out.

/// How far a stopwatch in the hand may be out, in seconds (assumed; no source).
const HAND_S: f64 = 0.5;

/// Least, as worked out, and most, in seconds, of a time that may itself be out by a fraction.
pub(crate) fn by_stopwatch_s(time_s: f64, tolerance: f64) -> [f64; 3] {
    let least_s = (time_s * (1.0 - tolerance) - HAND_S).max(0.0);
    [least_s, time_s, time_s * (1.0 + tolerance) + HAND_S]
}
