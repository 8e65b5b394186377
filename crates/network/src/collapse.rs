//! How much of its load a bus that collapses could carry, and which run it is lost on.

use crate::evaluate::{SetOutcome, Solver};
use crate::layout::{Layout, Segment};
use crate::state_space::StateSpace;

/// What a stage could carry in a state in which it has no operating point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carried {
    /// The largest common factor on all loads of the stage with which it has an operating point. It lies within a relative 1e-6 of a
    /// factor that an enclosure shows possible and of one that weights show impossible (see [`latchline_circuit::flow::Margin`]).
    pub share: f64,
    /// On the way to the place whose voltage falls fastest at that limit: the run on which most is lost. `None` where it
    /// is lost in the source or in a box.
    pub run: Option<usize>,
    /// What the loads on that run and beyond ask for, in watts; `None` where one of them draws a current, whose power hangs on the voltage.
    pub asked_w: Option<f64>,
}

/// How far below the limit voltages are looked at: near enough to see where they are lost, far enough to be solved.
const BELOW_LIMIT: f64 = 0.99;

/// What a stage could carry with a set of calls in a phase; `None` where it has an operating point there or its limit could not be
/// shown.
pub fn carried(
    layout: &Layout,
    space: &StateSpace,
    phase: usize,
    stage: usize,
    set: &[usize],
) -> Option<Carried> {
    let phase = &space.phases[phase];
    let mut solver = Solver::of_stage(layout, phase, stage);
    if solver.solve_set(stage, set) != (SetOutcome::NoOperatingPoint { stage }) {
        return None;
    }
    let limit = solver.limit(stage)?;
    let share = limit.share;
    let tree = &layout.stages[stage];
    let voltage_v = solver.voltages_at_share(stage, share * BELOW_LIMIT)?;
    // Volts lost on each run on the way, from the far end up.
    let mut lost: Vec<(usize, f64)> = Vec::new();
    let mut node = limit.weakest_node;
    while node != 0 {
        let parent = tree.parent[node] as usize;
        if let Segment::Cable { run, .. } = tree.segment[node] {
            let volts = voltage_v[parent] - voltage_v[node];
            match lost.last_mut() {
                Some((known, total)) if *known == run => *total += volts,
                _ => lost.push((run, volts)),
            }
        }
        node = parent;
    }
    let run = lost.iter().max_by(|a, b| a.1.total_cmp(&b.1)).map(|(run, _)| *run);
    let first = run.and_then(|run| layout.run_start[run]).map_or(0, |at| at.node);
    let loads = solver.loads(stage);
    let beyond = first..tree.subtree_end[first] as usize;
    let is_power = loads.current_a[beyond.clone()]
        .iter()
        .chain(&loads.conductance_s[beyond.clone()])
        .all(|one| *one == 0.0);
    let asked_w = is_power.then(|| loads.power_w[beyond].iter().sum());
    Some(Carried { share, run, asked_w })
}
