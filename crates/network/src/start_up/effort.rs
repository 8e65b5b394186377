//! How much is asked of power return.

/// How much is asked of power return.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Effort {
    /// Whether it starts: a run ends as hiccuping when one converter has dropped out [`MOST_DROPOUTS`](super::MOST_DROPOUTS) times. It may have
    /// come to rest later, so this can only call a start worse than it is.
    Hurried,
    /// The whole time is simulated.
    Whole,
}
