//! Solving one set of calls, stage by stage, from the last converter up to the supplies.

use crate::demand::Demand;
use crate::layout::{Layout, NodeRef};
use crate::phase::{Phase, StageLoads};
use latchline_circuit::flow::{
    Margin, Options, Outcome, Source, Tree, Workspace, branch_currents, loading_margin, solve,
};

/// Width of the verified enclosure of every voltage, in volts.
pub const ENCLOSURE_V: f64 = 1e-7;

/// How a set of calls came out in one stage.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SetOutcome {
    /// There is an operating point; the voltages are in the solver.
    Solved,
    /// It is proved that there is none, in this stage.
    NoOperatingPoint {
        /// The stage without operating point: the one asked for or one that draws from it.
        stage: usize,
    },
    /// Too close to collapse to be decided in floating-point arithmetic, or without power.
    Undecided {
        /// The stage.
        stage: usize,
    },
}

impl SetOutcome {
    /// Whether it could not be decided.
    pub fn is_undecided(self) -> bool {
        matches!(self, SetOutcome::Undecided { .. })
    }

    /// The stage that has no operating point, or for which none could be decided.
    pub fn failing_stage(self) -> Option<usize> {
        match self {
            SetOutcome::Solved => None,
            SetOutcome::NoOperatingPoint { stage } | SetOutcome::Undecided { stage } => Some(stage),
        }
    }
}

/// The state of one stage.
#[derive(Debug, Clone, Default)]
pub struct StageSolution {
    /// Voltage of every node in volts.
    pub voltage_v: Vec<f64>,
    /// Current of the source in amperes.
    pub source_current_a: f64,
}

/// How far the loads of a stage can grow together.
pub(crate) struct LoadLimit {
    /// The largest common factor.
    pub share: f64,
    /// The node whose voltage falls fastest there.
    pub weakest_node: usize,
}

/// Solves sets of calls of one phase; everything it needs is allocated once.
pub struct Solver<'a> {
    layout: &'a Layout,
    phase: &'a Phase,
    workspace: Workspace,
    loads: Vec<StageLoads>,
    /// Solution of every stage without any call; `None` without operating point.
    base: Vec<Option<StageSolution>>,
    base_outcome: Vec<SetOutcome>,
    current: Vec<StageSolution>,
    /// Stages that draw from each stage, itself last, deepest first.
    below: Vec<Vec<usize>>,
    /// Load added at one place besides the phase's own, for "what if" questions.
    extra: Option<(NodeRef, Demand)>,
    /// A stage with another resistance than the phase's somewhere, for the same.
    with_joint: Option<(usize, Tree)>,
    /// Sets solved so far.
    pub solved_sets: u64,
}

impl<'a> Solver<'a> {
    /// Solves every stage without calls and keeps the result.
    pub fn new(layout: &'a Layout, phase: &'a Phase) -> Self {
        Solver::with(layout, phase, (0..layout.stages.len()).rev())
    }

    /// The same for one stage and those that draw from it; the others have no solution here.
    pub fn of_stage(layout: &'a Layout, phase: &'a Phase, stage: usize) -> Self {
        Solver::with(layout, phase, layout.with_stages_below(stage).into_iter())
    }

    /// `order`: the stages to solve, those that draw from a stage before it.
    fn with(layout: &'a Layout, phase: &'a Phase, order: impl Iterator<Item = usize>) -> Self {
        let stages = layout.stages.len();
        let below = (0..stages).map(|stage| layout.with_stages_below(stage)).collect();
        let mut solver = Solver {
            layout,
            phase,
            workspace: Workspace::new(),
            loads: phase.base.clone(),
            base: vec![None; stages],
            base_outcome: (0..stages).map(|stage| SetOutcome::Undecided { stage }).collect(),
            current: vec![StageSolution::default(); stages],
            below,
            extra: None,
            with_joint: None,
            solved_sets: 0,
        };
        for index in order {
            let outcome = solver.solve_one(index, &[], false);
            solver.base_outcome[index] = outcome;
            if outcome == SetOutcome::Solved {
                solver.base[index] = Some(solver.current[index].clone());
            }
        }
        solver
    }

    /// The stage without any call, if it has an operating point.
    pub fn base(&self, stage: usize) -> Option<&StageSolution> {
        self.base[stage].as_ref()
    }

    /// How the stage came out without any call.
    pub fn base_outcome(&self, stage: usize) -> SetOutcome {
        self.base_outcome[stage]
    }

    /// Solves a set of call options (indices into the phase's) as far as `stage` depends on it.
    pub fn solve_set(&mut self, stage: usize, set: &[usize]) -> SetOutcome {
        self.solved_sets += 1;
        for position in 0..self.below[stage].len() {
            let index = self.below[stage][position];
            let touched = set.iter().any(|option| {
                self.phase.touches[*option].iter().any(|touch| self.below[index].contains(&touch.at.stage))
            });
            let outcome = if touched {
                self.solve_one(index, set, true)
            } else {
                if let Some(base) = &self.base[index] {
                    self.current[index].clone_from(base);
                }
                self.base_outcome[index]
            };
            if outcome != SetOutcome::Solved {
                return outcome;
            }
        }
        SetOutcome::Solved
    }

    /// Solves a set of call options with a further load at one place of `stage`.
    pub fn solve_set_with(&mut self, at: NodeRef, extra: Demand, set: &[usize]) -> SetOutcome {
        let mut outcome = self.solve_set(at.stage, set);
        if outcome == SetOutcome::Solved {
            self.extra = Some((at, extra));
            outcome = self.solve_one(at.stage, set, true);
            self.extra = None;
        }
        outcome
    }

    /// Solves a set of call options with further ohms of loop resistance in the segment that leads to a node.
    pub fn solve_set_with_joint(&mut self, at: NodeRef, joint_ohm: f64, set: &[usize]) -> SetOutcome {
        let mut outcome = self.solve_set(at.stage, set);
        if outcome == SetOutcome::Solved {
            let mut tree = self.phase.trees[at.stage].clone();
            let mut resistance_ohm = tree.resistances_ohm().to_vec();
            resistance_ohm[at.node] += joint_ohm.max(0.0);
            if tree.replace_resistances(&resistance_ohm).is_err() {
                return SetOutcome::Undecided { stage: at.stage };
            }
            self.with_joint = Some((at.stage, tree));
            outcome = self.solve_one(at.stage, set, true);
            self.with_joint = None;
        }
        outcome
    }

    /// The state of a stage after the last solve that returned [`SetOutcome::Solved`].
    pub fn solution(&self, stage: usize) -> &StageSolution {
        &self.current[stage]
    }

    /// Current through the segment that leads to a node, after the last solve of its stage.
    pub fn segment_current_a(&self, stage: usize, node: usize) -> f64 {
        let loads = &self.loads[stage];
        let voltage = &self.current[stage].voltage_v;
        let end = self.layout.stages[stage].subtree_end[node] as usize;
        (node..end).map(|node| loads.demand(node).current_at(voltage[node], loads.drop_v[node])).sum()
    }

    /// Current through the segment that leads to each node, after the last solve of the stage.
    pub fn segment_currents_a(&self, stage: usize) -> Vec<f64> {
        let loads = &self.loads[stage];
        let voltage = &self.current[stage].voltage_v;
        let mut current: Vec<f64> = (0..voltage.len())
            .map(|node| loads.demand(node).current_at(voltage[node], loads.drop_v[node]))
            .collect();
        let parent = &self.layout.stages[stage].parent;
        for node in (1..current.len()).rev() {
            current[parent[node] as usize] += current[node];
        }
        current
    }

    /// How far all loads of a stage could grow, after the last solve of that stage.
    pub fn loading_margin(&self, stage: usize) -> Option<f64> {
        let source = self.source(stage)?;
        let loads = &self.loads[stage];
        loading_margin(&self.phase.trees[stage], &source, &loads.as_loads()).value()
    }

    /// The same with the node whose voltage falls fastest there; `None` where nothing limits the loads or no limit could be shown. Also after
    /// a solve that showed that this stage has no operating point.
    pub(crate) fn limit(&self, stage: usize) -> Option<LoadLimit> {
        let source = self.source(stage)?;
        match loading_margin(&self.phase.trees[stage], &source, &self.loads[stage].as_loads()) {
            Margin::Limited { estimate, weakest_node, .. } => {
                Some(LoadLimit { share: estimate, weakest_node })
            }
            Margin::Zero { .. } | Margin::Unlimited | Margin::Undecided { .. } => None,
        }
    }

    /// Voltages with all loads of the last solve of a stage times a share.
    pub(crate) fn voltages_at_share(&mut self, stage: usize, share: f64) -> Option<Vec<f64>> {
        let source = self.source(stage)?;
        let mut loads = self.loads[stage].clone();
        for load in loads.power_w.iter_mut().chain(&mut loads.current_a).chain(&mut loads.conductance_s) {
            *load *= share;
        }
        let options = Options { tolerance_v: ENCLOSURE_V, ..Options::default() };
        let outcome =
            solve(&self.phase.trees[stage], &source, &loads.as_loads(), &mut self.workspace, &options);
        matches!(outcome, Ok(Outcome::Solved(_))).then(|| self.workspace.voltages_v().to_vec())
    }

    /// What the stage's nodes asked for in its last solve.
    pub(crate) fn loads(&self, stage: usize) -> &StageLoads {
        &self.loads[stage]
    }

    fn source(&self, stage: usize) -> Option<Source> {
        let voltage_v = self.phase.voltage_v[stage]?;
        let resistance_ohm = self.layout.stages[stage].resistance_ohm[self.phase.corner.index()][0];
        Some(Source { voltage_v, resistance_ohm })
    }

    /// Solves one stage, the stages that draw from it being solved already.
    fn solve_one(&mut self, index: usize, set: &[usize], warm: bool) -> SetOutcome {
        let Some(source) = self.source(index) else { return SetOutcome::Undecided { stage: index } };
        let loads = &mut self.loads[index];
        let base = &self.phase.base[index];
        loads.power_w.copy_from_slice(&base.power_w);
        loads.current_a.copy_from_slice(&base.current_a);
        loads.conductance_s.copy_from_slice(&base.conductance_s);
        for touch in set.iter().flat_map(|option| &self.phase.touches[*option]) {
            if touch.at.stage == index {
                loads.add(touch.at.node, touch.change);
            }
        }
        if let Some((at, extra)) = self.extra
            && at.stage == index
        {
            loads.add(at.node, extra);
        }
        for converter in &self.layout.stages[index].converters {
            let output =
                self.phase.output_v[converter.stage] * self.current[converter.stage].source_current_a;
            loads.power_w[converter.node] += output / converter.efficiency;
        }
        let start_v = if warm { self.base[index].as_ref().map(|base| &base.voltage_v[..]) } else { None };
        let options = Options { tolerance_v: ENCLOSURE_V, start_v, ..Options::default() };
        let flow = loads.as_loads();
        let tree = match &self.with_joint {
            Some((stage, tree)) if *stage == index => tree,
            _ => &self.phase.trees[index],
        };
        match solve(tree, &source, &flow, &mut self.workspace, &options) {
            Ok(Outcome::Solved(_)) => {
                let voltage = self.workspace.voltages_v();
                let solution = &mut self.current[index];
                solution.voltage_v.clear();
                solution.voltage_v.extend_from_slice(voltage);
                solution.source_current_a = (0..voltage.len())
                    .map(|node| loads.demand(node).current_at(voltage[node], loads.drop_v[node]))
                    .sum();
                SetOutcome::Solved
            }
            Ok(Outcome::NoSolution(_)) => SetOutcome::NoOperatingPoint { stage: index },
            // A load that the flow refuses cannot come from a resolved site; it is not hidden.
            Ok(Outcome::Undecided(_)) | Err(_) => SetOutcome::Undecided { stage: index },
        }
    }

    /// Currents and losses of every segment of a stage after its last solve.
    pub fn branch_currents(&self, stage: usize) -> Option<latchline_circuit::flow::Currents> {
        let source = self.source(stage)?;
        let voltage = &self.current[stage].voltage_v;
        Some(branch_currents(&self.phase.trees[stage], &source, &self.loads[stage].as_loads(), voltage))
    }
}
