//! What meters should read in standby: voltages and currents in the three corners of the tolerances.
//!
//! Standby by day is the one state that an installer can hold still on a ladder, so readings are
//! predicted in it: with nominal values, with every tolerance for a low voltage (the adverse corner),
//! and with every tolerance for a high one.

use latchline_finding::StateKind;
use latchline_network::evaluate::Solver;
use latchline_network::{Corner, Layout, NodeRef, Phase, StateSpace};
use latchline_site::model::Site;

/// A predicted reading: nominal, lowest and highest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Predicted {
    /// With nominal values.
    pub nominal: f64,
    /// Lowest of the corners.
    pub low: f64,
    /// Highest of the corners.
    pub high: f64,
}

/// One corner: voltages by stage and node, and currents through the segment to each node.
struct Solved {
    voltage_v: Vec<Option<Vec<f64>>>,
    current_a: Vec<Option<Vec<f64>>>,
}

/// Readings in standby by day.
pub struct Standby {
    /// Nominal, adverse, light.
    corners: [Option<Solved>; 3],
}

impl Standby {
    /// Solves the three corners.
    pub fn new(site: &Site, layout: &Layout, space: &StateSpace) -> Standby {
        let corners = [Corner::Nominal, Corner::Adverse, Corner::Light].map(|corner| {
            let phase = Phase::new(site, layout, StateKind::StandbyDay, corner, Some(&space.highest_v))?;
            Some(solved(layout, &phase))
        });
        Standby { corners }
    }

    fn predicted(&self, value: impl Fn(&Solved) -> Option<f64>) -> Option<Predicted> {
        let mut values = [0.0; 3];
        for (slot, corner) in values.iter_mut().zip(&self.corners) {
            *slot = value(corner.as_ref()?)?;
        }
        let low = values.iter().copied().fold(f64::INFINITY, f64::min);
        let high = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        Some(Predicted { nominal: values[0], low, high })
    }

    /// Voltage at a node; `None` without an operating point in some corner.
    pub fn voltage(&self, at: NodeRef) -> Option<Predicted> {
        self.predicted(|solved| Some(*solved.voltage_v.get(at.stage)?.as_ref()?.get(at.node)?))
    }

    /// Current through the segment that leads to a node; of node 0, that of the source.
    pub fn current(&self, at: NodeRef) -> Option<Predicted> {
        self.predicted(|solved| Some(*solved.current_a.get(at.stage)?.as_ref()?.get(at.node)?))
    }
}

fn solved(layout: &Layout, phase: &Phase) -> Solved {
    let mut solver = Solver::new(layout, phase);
    let mut solved = Solved { voltage_v: Vec::new(), current_a: Vec::new() };
    for stage in 0..layout.stages.len() {
        // Solving the empty set puts this stage, and those that draw from it, into the solver.
        let is_solved = solver.solve_set(stage, &[]).failing_stage().is_none();
        let voltage_v = is_solved.then(|| solver.solution(stage).voltage_v.clone());
        let currents = if is_solved { solver.branch_currents(stage) } else { None };
        solved.current_a.push(currents.map(|currents| currents.branch_a));
        solved.voltage_v.push(voltage_v);
    }
    solved
}
