//! The currents of single elements and their slopes.

use super::super::SATURATION_VOLTAGE_V;
use super::device::{Region, StageDevice};

/// Current of a constant-current bus load at voltage `v`, and its slope.
pub(super) fn bus_current(current_a: f64, v: f64) -> (f64, f64) {
    if v >= SATURATION_VOLTAGE_V {
        (current_a, 0.0)
    } else if v <= 0.0 {
        (0.0, 0.0)
    } else {
        (current_a * v / SATURATION_VOLTAGE_V, current_a / SATURATION_VOLTAGE_V)
    }
}

/// Bridge current at bus voltage `v`, its slope, and what the bridge does.
#[inline]
pub(super) fn bridge(d: &StageDevice, a: f64, history_v: f64, v: f64) -> (f64, f64, Region) {
    let (current, slope) = conducting(d, a, history_v, v);
    if current <= 0.0 {
        (0.0, 0.0, Region::Blocked)
    } else if current >= d.limit_a {
        (d.limit_a, 0.0, Region::Limited)
    } else {
        (current, slope, Region::Conducting)
    }
}

/// Current of a bridge that conducts, whether or not it would at this bus voltage, and its slope.
#[inline]
pub(super) fn conducting(d: &StageDevice, a: f64, history_v: f64, v: f64) -> (f64, f64) {
    let u = v - d.drop_v;
    let (load, load_slope) = if d.power_w == 0.0 {
        (0.0, 0.0)
    } else if u > d.floor_v {
        let inverse = 1.0 / u;
        (d.power_w * inverse, d.power_w * inverse * inverse)
    } else {
        (d.power_w / d.floor_v, 0.0)
    };
    (a * (u - history_v) + d.discharge_s * u + load, a + d.discharge_s - load_slope)
}

/// Capacitor voltage at bus voltage `v` with the bridge current that [`bridge`] gave.
#[inline]
pub(super) fn charged(d: &StageDevice, a: f64, history_v: f64, v: f64) -> f64 {
    if d.current_a <= 0.0 || d.current_a >= d.limit_a {
        fed(d, a, history_v, d.current_a)
    } else {
        v - d.drop_v
    }
}

/// Capacitor voltage when the bridge current is given: the upper root of
/// `(a + g) u + P/u = a h + i`.
#[inline]
fn fed(d: &StageDevice, a: f64, history_v: f64, current_a: f64) -> f64 {
    let slope = a + d.discharge_s;
    let right = a * history_v + current_a;
    if d.power_w == 0.0 {
        return right / slope;
    }
    let discriminant = right * right - 4.0 * slope * d.power_w;
    if discriminant >= 0.0 {
        let u = 0.5 * (right + discriminant.sqrt()) / slope;
        if u >= d.floor_v {
            return u;
        }
    }
    (right - d.power_w / d.floor_v) / slope
}
