//! What is cut from which drum.

/// One stock length with what is cut from it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Drum {
    /// Its length.
    pub stock: u32,
    /// Lengths cut from it, longest first.
    pub cuts: Vec<u32>,
}

impl Drum {
    /// What is left of it.
    pub fn left(&self) -> u32 {
        self.stock - self.cuts.iter().sum::<u32>()
    }
}

/// A cutting plan with its proof.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CuttingPlan {
    /// The drums, longest first.
    pub drums: Vec<Drum>,
    /// No plan buys less than this.
    pub bound: u64,
}

impl CuttingPlan {
    /// Total length bought.
    pub fn bought(&self) -> u64 {
        self.drums.iter().map(|drum| u64::from(drum.stock)).sum()
    }

    /// Whether no plan buys less.
    pub fn is_proved_least(&self) -> bool {
        self.bought() == self.bound
    }
}

/// Total length of drums.
pub(super) fn total(drums: &[Drum]) -> u64 {
    drums.iter().map(|drum| u64::from(drum.stock)).sum()
}
