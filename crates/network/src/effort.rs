//! How much is asked of what takes long.

/// How much is asked of what takes long: power return and signals.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Effort {
    /// What a trial is refused by. A start-up ends as hiccuping when one converter has dropped out
    /// [`MOST_DROPOUTS`](crate::start_up::MOST_DROPOUTS) times; it may have come to rest later, so this can only call a start worse than it
    /// is. Of signals it is said on which side of the budget and of the ripple a station is, and no more: what is far from them is a
    /// figure on a coarse look.
    Hurried,
    /// The whole time is simulated, and every level is solved.
    Whole,
}
