//! What a battery reads before it is connected.

/// Nominal voltage of a cell of a lead battery.
const CELL_V: f64 = 2.0;
/// What such a cell reads at rest: worth connecting, charged, and soon after it was charged (from memory; a battery is taken for one of lead,
/// and of another kind its maker's figures hold).
pub const CELL_AT_REST_V: [f64; 3] = [2.08, 2.13, 2.20];

/// Least, usual and highest voltage of a charged battery of this nominal voltage before it is connected, in volts.
pub fn at_rest_v(nominal_v: f64) -> [f64; 3] {
    CELL_AT_REST_V.map(|cell_v| nominal_v / CELL_V * cell_v)
}

#[cfg(test)]
mod tests {
    use super::at_rest_v;

    /// A charged lead battery of 12 V rests between 12.6 V and 12.9 V, one of 12.0 V is all but empty (handbook values, from memory).
    #[test]
    fn a_battery_that_is_all_but_empty_is_below_the_least() {
        let [least_v, usual_v, highest_v] = at_rest_v(12.0);
        assert!(least_v > 12.0 && least_v < 12.6 && highest_v > 12.9);
        assert!((12.6..=12.9).contains(&usual_v));
        assert!((at_rest_v(24.0)[1] - 2.0 * usual_v).abs() < 1e-12);
    }
}
