//! Figures with the side to which they are rounded.

use crate::figure::Figure;
use crate::locale::Rounding;

/// A figure with the side to which it is rounded where it is shown, so that it never flatters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rounded {
    /// The figure as it was calculated.
    pub figure: Figure,
    /// The side: down for what must not be less, up for what must not be more.
    pub rounding: Rounding,
}

impl Rounded {
    /// What must not be less: a least voltage, a margin, hours.
    pub fn down(figure: Figure) -> Self {
        Self { figure, rounding: Rounding::Down }
    }

    /// What must not be more: a highest voltage, a current, a load, a time that is waited.
    pub fn up(figure: Figure) -> Self {
        Self { figure, rounding: Rounding::Up }
    }
}
