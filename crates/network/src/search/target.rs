//! What is searched for, and what is found.

use crate::bound::Functional;
use crate::evaluate::SetOutcome;

/// The worst set found.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Worst {
    /// Options that stand, as positions in the stage's list, in ascending order.
    pub set: Vec<usize>,
    /// The functional's value there; `None` where there is no operating point.
    pub value: Option<f64>,
    /// How the set came out.
    pub outcome: SetOutcome,
}

/// What a search gave.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Found {
    /// The worst set; `None` if no set beats what was known already.
    pub worst: Option<Worst>,
    /// Whether the search was completed; see the module's claim.
    pub complete: bool,
}

/// A target: what to make as bad as possible, and which options must or must not take part.
pub(crate) struct Target<'a> {
    /// What to worsen.
    pub functional: Functional,
    /// Options of its own, as positions in ascending order.
    pub own: &'a [usize],
    /// Whether exactly one of its own options stands, or none.
    pub in_use: bool,
}

/// How bad a value is; nothing is worse than none.
pub(super) fn badness(value: Option<f64>, sign: f64) -> f64 {
    value.map_or(f64::INFINITY, |value| sign * value)
}
