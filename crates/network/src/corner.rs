//! Corners of the tolerances.

/// A corner of the tolerances.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Corner {
    /// Everything at its stated value.
    Nominal,
    /// Low supply, high resistance, high load: the lowest voltages.
    Adverse,
    /// High supply, low resistance, low load: the highest voltages.
    Light,
}

impl Corner {
    /// All three, in the order of the arrays that are kept for each.
    pub const ALL: [Corner; 3] = [Corner::Nominal, Corner::Adverse, Corner::Light];

    /// Index into arrays kept for each corner.
    pub fn index(self) -> usize {
        self as usize
    }
}
