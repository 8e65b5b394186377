//! A plan still to be tried.

use crate::money::Amount;
use crate::plan::Plan;
use crate::runs::Barred;
use std::cmp::Reverse;

/// A plan still to be tried, cheapest first.
pub(super) struct Candidate {
    pub(super) plan: Plan,
    /// Which of the assumptions it was made with.
    pub(super) root: usize,
    pub(super) barred: Barred,
    /// The order in which candidates were made decides between equals.
    pub(super) number: usize,
}

impl Candidate {
    pub(super) fn rank(&self) -> Reverse<(Amount, usize)> {
        Reverse((self.plan.cost, self.number))
    }
}

impl PartialEq for Candidate {
    fn eq(&self, other: &Self) -> bool {
        self.rank() == other.rank()
    }
}

impl Eq for Candidate {}

impl PartialOrd for Candidate {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Candidate {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.rank().cmp(&other.rank())
    }
}
