//! When two lengths are the same.

/// Less than this of a metre is no difference.
pub(super) const SAME_M: f64 = 0.005;
