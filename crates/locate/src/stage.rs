//! One stage with a fault, solved.
//!
//! The flow knows neither cut-off nor current limits. Here devices below their cut-off voltage are switched off, the lowest
//! first, and a source or port over its limit is replaced by its limit with everything behind it switched off, so that only
//! resistances are left. Where either happens the state is *unsettled*. A device that is off tries to start again and again, so a meter
//! shows something between its drawing nothing and its drawing what it would at its cut-off voltage: both are solved, and the
//! range between them is known at every place. Behind a limit what a meter shows is known only roughly.

mod draft;

use crate::effect::Effect;
use crate::plant::{Plant, StateLoads};
use draft::Draft;
use latchline_circuit::flow::{Sensitivities, Source, Tree, Workspace, weighted_sensitivities};
use latchline_network::Corner;
use latchline_network::phase::StageLoads;

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
    /// Whether any device is off or any limit acts.
    pub is_unsettled: bool,
    /// Whether the source gives nothing.
    pub is_dead: bool,
    /// What the fault makes of the conductors that lead to every node: so many times their resistance.
    pub copper_times: Vec<f64>,
    /// Watts that the fault makes a node draw: they are no tolerance of the device.
    extra_w: Vec<f64>,
    problem: Option<Problem>,
}

/// The flow problem that was solved, kept for its derivatives.
#[derive(Debug, Clone)]
struct Problem {
    tree: Tree,
    source: Source,
    loads: StageLoads,
    voltage_v: Vec<f64>,
    /// Node of the problem of every node of the layout.
    node: Vec<usize>,
    /// First node of the problem on the segment that leads to every node of the layout.
    first: Vec<usize>,
}

impl StageSolved {
    fn dead(nodes: usize) -> Self {
        StageSolved {
            voltage_v: vec![0.0; nodes],
            range_v: vec![0.0; nodes],
            own_v: vec![0.0; nodes],
            current_a: vec![0.0; nodes],
            own_a: vec![0.0; nodes],
            cut: vec![true; nodes],
            off: vec![false; nodes],
            limited: vec![false; nodes],
            is_unsettled: false,
            is_dead: true,
            copper_times: vec![1.0; nodes],
            extra_w: vec![0.0; nodes],
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

    /// The load of the device at a node of the layout as it was solved: watts, amperes and siemens.
    pub fn load(&self, node: usize) -> (f64, f64, f64) {
        let Some(problem) = &self.problem else { return (0.0, 0.0, 0.0) };
        let at = problem.node[node];
        let own_w = (problem.loads.power_w[at] - self.extra_w[node]).max(0.0);
        (own_w, problem.loads.current_a[at], problem.loads.conductance_s[at])
    }

    /// Open-circuit voltage of the source as it was solved.
    pub fn source_v(&self) -> f64 {
        self.problem.as_ref().map_or(0.0, |problem| problem.source.voltage_v)
    }
}

impl Problem {
    fn derive(&self, weights: Vec<f64>) -> Option<Sensitivities> {
        weighted_sensitivities(&self.tree, &self.source, &self.loads.as_loads(), &self.voltage_v, weights)
    }

    fn subtree(&self, root: usize) -> Vec<bool> {
        let mut inside = vec![false; self.tree.len()];
        inside[root] = true;
        for node in root + 1..self.tree.len() {
            inside[node] = inside[self.tree.parents()[node] as usize];
        }
        inside
    }
}

/// Solves a stage with a fault. `below`: for each converter of the stage, the power that it draws.
pub(crate) fn solve_stage(
    plant: &Plant<'_>,
    state: &StateLoads,
    index: usize,
    effects: &[Effect],
    converters_w: &[f64],
    has_power: bool,
    workspace: &mut Workspace,
) -> StageSolved {
    let laid = &plant.layout.stages[index];
    let nodes = laid.parent.len();
    let Some(voltage_v) = state.voltage_v[index].filter(|_| has_power) else {
        return StageSolved::dead(nodes);
    };
    let mut source = Source { voltage_v, resistance_ohm: laid.resistance_ohm[Corner::Nominal.index()][0] };
    let mut reversed = vec![false; nodes];
    let mut across: Vec<(usize, f64, f64)> = Vec::new();
    let mut cut_at = vec![false; nodes];
    let mut ohm = laid.resistance_ohm[Corner::Nominal.index()].clone();
    let mut loads = state.loads[index].clone();
    if !plant.drawn.is_empty() {
        source.voltage_v *= plant.times(&[plant.source[index]]);
        for (node, ohm) in ohm.iter_mut().enumerate() {
            *ohm += plant.segments[index][node].as_ref().map_or(0.0, |parts| plant.beyond_nominal_ohm(parts));
            let times = plant.times(&plant.loads[index][node]);
            loads.power_w[node] *= times;
            loads.current_a[node] *= times;
            loads.conductance_s[node] *= times;
        }
    }
    for (converter, watt) in laid.converters.iter().zip(converters_w) {
        loads.power_w[converter.node] += watt;
    }
    // What a fault does to the conductors it does to them as they were built.
    let copper = |node: usize| {
        plant.segments[index][node]
            .as_ref()
            .map_or(0.0, |parts| parts.copper_ohm * plant.times(&parts.copper))
    };
    let mut copper_times = vec![1.0; nodes];
    let mut extra_w = vec![0.0; nodes];
    for effect in effects.iter().filter(|effect| effect.touches(index, &plant.run_stage)) {
        match *effect {
            Effect::Series { at, ohm: extra } => ohm[at.node] += extra,
            Effect::Open { at } => cut_at[at.node] = true,
            Effect::Across { at, position, siemens } => across.push((at.node, position, siemens)),
            Effect::Extra { at, watt } => {
                loads.power_w[at.node] += watt;
                extra_w[at.node] += watt;
            }
            Effect::NoLoad { at } => {
                loads.power_w[at.node] = 0.0;
                loads.current_a[at.node] = 0.0;
                loads.conductance_s[at.node] = 0.0;
            }
            Effect::SourceVoltage { factor, .. } => source.voltage_v *= factor,
            Effect::SourceResistance { ohm, .. } => source.resistance_ohm += ohm,
            Effect::Dead { .. } => return StageSolved::dead(nodes),
            Effect::Conductors { run, factor } => {
                for at in plant.section[run].iter().flatten() {
                    copper_times[at.node] *= factor;
                }
            }
            Effect::Longer { at, factor } => copper_times[at.node] *= factor,
            Effect::Reversed { at } => reversed[at.node] = true,
            Effect::Capacitance { .. } | Effect::Earth { .. } => {}
        }
    }
    for (node, times) in copper_times.iter().enumerate().filter(|(_, times)| **times != 1.0) {
        ohm[node] += (times - 1.0) * copper(node);
    }
    ohm[0] = 0.0;
    let mut draft = Draft {
        parent: laid.parent.clone(),
        ohm,
        wanted: loads.clone(),
        loads,
        cut_off_v: plant.cut_off_v[index].clone(),
        of: (0..nodes).map(Some).collect(),
        cut: cut_at,
        off: vec![false; nodes],
        limited: Vec::new(),
    };
    for node in 1..nodes {
        let above = draft.parent[node] as usize;
        draft.cut[node] |= draft.cut[above];
        reversed[node] ^= reversed[above];
    }
    // From the last node on, so that the earlier ones keep their places.
    across.sort_by_key(|bridge| std::cmp::Reverse(bridge.0));
    for (node, position, siemens) in across {
        draft.bridge(node, position, siemens);
    }
    let mut solved = draft.settle(plant, index, source, workspace);
    for (voltage, _) in solved.voltage_v.iter_mut().zip(&reversed).filter(|(_, reversed)| **reversed) {
        *voltage = -*voltage;
    }
    StageSolved { copper_times, extra_w, ..solved }
}
