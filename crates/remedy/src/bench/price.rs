//! What a change takes.

use latchline_finding::Money;
use std::cmp::Ordering;

/// What a change takes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Price {
    /// Extra material; `None` where something of it has no price.
    pub material: Option<Money>,
    /// What of it has a price.
    pub priced: Money,
    /// Whether anything is bought.
    pub buys: bool,
    /// Work in minutes.
    pub minutes: f64,
}

impl Price {
    /// Cheapest first, those without price last, then least labour.
    pub fn order(&self, other: &Price) -> Ordering {
        self.by_material(other).then(self.minutes.total_cmp(&other.minutes))
    }

    /// Cheapest first, those without price last.
    pub fn by_material(&self, other: &Price) -> Ordering {
        let dearer = self.material.is_none().cmp(&other.material.is_none());
        dearer.then(self.material.cmp(&other.material))
    }
}
