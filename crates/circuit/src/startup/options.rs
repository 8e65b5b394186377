//! What to simulate and how closely.

/// What to simulate and how closely.
#[derive(Debug, Clone, PartialEq)]
pub struct Options {
    /// End time, s.
    pub end_s: f64,
    /// Largest local error of a capacitor voltage per step, V.
    pub tolerance_v: f64,
    /// Nodes whose voltages are recorded.
    pub record_nodes: Vec<usize>,
    /// About the most samples kept of each.
    pub most_points: usize,
    /// Whether to account for energy (costs about a fifth more time).
    pub account_energy: bool,
    /// Most steps, taken or discarded.
    pub most_steps: usize,
    /// Most switchings.
    pub most_events: usize,
    /// Most dropouts of one converter.
    pub most_dropouts: usize,
    /// Most passes over all nodes: what a step takes where much switches in it is many of them.
    pub most_passes: u64,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            end_s: 10.0,
            tolerance_v: 5e-3,
            record_nodes: Vec::new(),
            most_points: 2000,
            account_energy: false,
            most_steps: 200_000,
            most_events: 100_000,
            most_dropouts: usize::MAX,
            most_passes: u64::MAX,
        }
    }
}
