//! A stage with a fault, solved, and what can be derived from it.

use latchline_circuit::flow::{Sensitivities, Source, Tree, weighted_sensitivities};
use latchline_network::phase::StageLoads;
use std::collections::BTreeMap;

/// A stage with a fault, solved.
#[derive(Debug, Clone)]
pub(crate) struct StageSolved {
    /// Voltage of every node of the layout, in volts: the middle of its range; below zero behind a reversed pair.
    pub voltage_v: Vec<f64>,
    /// How far it moves while devices try to start, in volts.
    pub range_v: Vec<f64>,
    /// Its own deviation: that range, or a limit that is known only roughly.
    pub own_v: Vec<f64>,
    /// Current through the segment that leads to it, at its near end, in amperes.
    pub current_a: Vec<f64>,
    /// The deviation of that current.
    pub own_a: Vec<f64>,
    /// Whether the node is cut off from the source.
    pub cut: Vec<bool>,
    /// Whether the device there is off, since it is below its cut-off voltage or behind a limit.
    pub off: Vec<bool>,
    /// Whether a limit acts there.
    pub limited: Vec<bool>,
    /// Whether that limit tries again and again, so that what hangs there has power for a moment each time.
    pub pulses: Vec<bool>,
    /// Whether any device is off or any limit acts.
    pub is_unsettled: bool,
    /// Whether the source gives nothing.
    pub is_dead: bool,
    /// What the fault makes of the conductors that lead to a node: so many times their resistance, where it is not once.
    pub(super) copper_times: BTreeMap<usize, f64>,
    /// Watts and siemens that the fault makes a node draw: they are no tolerance of the device.
    pub(super) extra_w: BTreeMap<usize, f64>,
    pub(super) extra_s: BTreeMap<usize, f64>,
    /// `None` where there is nothing to derive, or a reduced stage was solved.
    pub(super) problem: Option<Problem>,
}

/// The flow problem that was solved, kept for its derivatives.
#[derive(Debug, Clone)]
pub(super) struct Problem {
    pub(super) tree: Tree,
    pub(super) source: Source,
    pub(super) loads: StageLoads,
    pub(super) voltage_v: Vec<f64>,
    /// Node of the problem of every node of the layout.
    pub(super) node: Vec<usize>,
    /// First node of the problem on the segment that leads to every node of the layout.
    pub(super) first: Vec<usize>,
}

impl StageSolved {
    pub(super) fn dead(nodes: usize) -> Self {
        StageSolved {
            voltage_v: vec![0.0; nodes],
            range_v: vec![0.0; nodes],
            own_v: vec![0.0; nodes],
            current_a: vec![0.0; nodes],
            own_a: vec![0.0; nodes],
            cut: vec![true; nodes],
            off: vec![false; nodes],
            limited: vec![false; nodes],
            pulses: vec![false; nodes],
            is_unsettled: false,
            is_dead: true,
            copper_times: BTreeMap::new(),
            extra_w: BTreeMap::new(),
            extra_s: BTreeMap::new(),
            problem: None,
        }
    }

    /// Derivatives of the voltage of a node, with what is off left off; `None` where there is none to derive.
    pub fn voltage_sensitivities(&self, node: usize) -> Option<(Sensitivities, &[usize])> {
        if self.cut[node] || self.limited[node] {
            return None;
        }
        let problem = self.problem.as_ref()?;
        let mut weights = vec![0.0; problem.tree.len()];
        weights[problem.node[node]] = 1.0;
        problem.derive(weights).map(|found| (found, &problem.node[..]))
    }

    /// Derivatives of the current through the segment that leads to a node.
    pub fn current_sensitivities(&self, node: usize) -> Option<(Sensitivities, &[usize])> {
        if self.cut[node] || self.limited[node] {
            return None;
        }
        let problem = self.problem.as_ref()?;
        let inside = problem.subtree(problem.first[node]);
        let loads = &problem.loads;
        let mut weights = vec![0.0; problem.tree.len()];
        for (node, weight) in weights.iter_mut().enumerate().filter(|(node, _)| inside[*node]) {
            let above = problem.voltage_v[node] - loads.drop_v[node];
            let power = loads.power_w[node];
            *weight = loads.conductance_s[node] - if power > 0.0 { power / (above * above) } else { 0.0 };
        }
        let mut found = problem.derive(weights)?;
        for node in (0..inside.len()).filter(|node| inside[*node]) {
            let above = problem.voltage_v[node] - loads.drop_v[node];
            if above > 0.0 {
                found.per_power_v_per_w[node] += 1.0 / above;
            }
            found.per_current_v_per_a[node] += 1.0;
            found.per_conductance_v_per_s[node] += problem.voltage_v[node];
        }
        Some((found, &problem.node[..]))
    }

    /// How many times their resistance the conductors have that lead to a node.
    pub fn copper_times(&self, node: usize) -> f64 {
        self.copper_times.get(&node).copied().unwrap_or(1.0)
    }

    /// The load of the device at a node of the layout as it was solved: watts, amperes and siemens.
    pub fn load(&self, node: usize) -> (f64, f64, f64) {
        let Some(problem) = &self.problem else { return (0.0, 0.0, 0.0) };
        let at = problem.node[node];
        let own = |all: f64, extra: &BTreeMap<usize, f64>| {
            (all - extra.get(&node).copied().unwrap_or(0.0)).max(0.0)
        };
        let loads = &problem.loads;
        (
            own(loads.power_w[at], &self.extra_w),
            loads.current_a[at],
            own(loads.conductance_s[at], &self.extra_s),
        )
    }

    /// Open-circuit voltage of the source as it was solved.
    pub fn source_v(&self) -> f64 {
        self.problem.as_ref().map_or(0.0, |problem| problem.source.voltage_v)
    }
}

impl Problem {
    pub(super) fn derive(&self, weights: Vec<f64>) -> Option<Sensitivities> {
        weighted_sensitivities(&self.tree, &self.source, &self.loads.as_loads(), &self.voltage_v, weights)
    }

    pub(super) fn subtree(&self, root: usize) -> Vec<bool> {
        let mut inside = vec![false; self.tree.len()];
        inside[root] = true;
        for node in root + 1..self.tree.len() {
            inside[node] = inside[self.tree.parents()[node] as usize];
        }
        inside
    }
}
