//! Cells of tables as they are shown.

/// Between the text of a cell and its left and right edges.
pub(crate) const CELL_SIDE_MM: f64 = 1.2;

/// A cell as it is shown.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum ShownCell {
    /// Words, to the left.
    Words(String),
    /// A number, to the right.
    Number(String),
    /// A box to tick.
    Tick,
    /// Room to write.
    WriteIn,
}
