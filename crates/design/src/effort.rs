//! How hard to look for a design.

/// How hard to look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effort {
    /// Walking orders of each bus that are tried in any case.
    pub orders: usize,
    /// Walking orders at most, all buses together, as long as the caller wants further ones.
    pub most_orders: usize,
    /// Plans of each bus that are assessed at most.
    pub most_plans: usize,
    /// Whether the first design that passes is taken, without looking for a cheaper one.
    pub takes_first: bool,
    /// Whether it is worked out what each limit costs.
    pub prices_limits: bool,
    /// Seed for the orders beyond the natural ones.
    pub seed: u64,
}

impl Default for Effort {
    fn default() -> Self {
        Effort {
            orders: 3,
            most_orders: 3,
            most_plans: usize::MAX,
            takes_first: false,
            prices_limits: true,
            seed: 0,
        }
    }
}
