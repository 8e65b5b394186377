//! Supplies that a lock may have of its own: what is tried wherever one is looked for.

/// Their voltages: nominal ones, set a little higher, and those that float a battery (common practice, no source).
pub const LOCK_SUPPLY_VOLTAGES_V: [f64; 6] = [12.0, 12.6, 13.2, 13.8, 24.0, 27.6];
/// Their tolerance in per cent (common practice, no source).
pub const LOCK_SUPPLY_TOLERANCE_PERCENT: f64 = 3.0;
