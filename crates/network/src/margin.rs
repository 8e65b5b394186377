//! What a voltage has in hand.

/// Margin of a voltage to its limit in volts; minus infinity without operating point.
pub fn margin_v(voltage_v: Option<f64>, limit_v: f64) -> f64 {
    voltage_v.map_or(f64::NEG_INFINITY, |voltage_v| voltage_v - limit_v)
}
