//! The scratch of solving, with the enclosure that it holds.

use super::super::enclosure::SweepScratch;
use super::super::newton::Factor;

/// All scratch of [`solve()`](super::solve()); reused, so that solving a feasible problem allocates nothing after the
/// first time.
#[derive(Clone, Debug, Default)]
pub struct Workspace {
    pub(super) voltage_v: Vec<f64>,
    pub(super) pair: Vec<[f64; 2]>,
    pub(super) factor: Factor,
    pub(super) sweep: SweepScratch,
    pub(super) tangent: Vec<f64>,
    pub(super) trial: Vec<f64>,
    pub(super) half_width_v: Vec<f64>,
}

impl Workspace {
    /// An empty workspace; it grows with the first tree.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Voltages of the last call of [`solve()`](super::solve()) that returned [`Outcome::Solved`](super::Outcome::Solved), V: the middle of the
    /// enclosure.
    #[must_use]
    pub fn voltages_v(&self) -> &[f64] {
        &self.voltage_v
    }

    /// Lower end of the enclosure of the last solved problem at a node, V.
    #[must_use]
    pub fn lower_v(&self, node: usize, solved: &Enclosure) -> f64 {
        self.voltage_v[node] - self.half_width(node, solved)
    }

    /// Upper end of the enclosure of the last solved problem at a node, V.
    #[must_use]
    pub fn upper_v(&self, node: usize, solved: &Enclosure) -> f64 {
        self.voltage_v[node] + self.half_width(node, solved)
    }

    pub(super) fn half_width(&self, node: usize, solved: &Enclosure) -> f64 {
        if solved.uniform { solved.width_v / 2.0 } else { self.half_width_v[node] }
    }

    pub(super) fn general(&mut self, nodes: usize) {
        self.factor.resize(nodes);
        self.sweep.resize(nodes);
        self.tangent.resize(nodes, 0.0);
        self.trial.resize(nodes, 0.0);
        self.half_width_v.resize(nodes, 0.0);
    }
}

/// The verified ends around the voltages in the workspace.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Enclosure {
    /// Largest difference between the two ends, V.
    pub width_v: f64,
    pub(super) uniform: bool,
}
