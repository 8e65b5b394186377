//! What meters should read in standby: voltages and currents in the three corners of the tolerances.
//!
//! Standby by day is the one state that an installer can hold still on a ladder, so readings are
//! predicted in it: with nominal values, with every tolerance for a low voltage (the adverse corner),
//! and with every tolerance for a high one.

use latchline_circuit::flow::Tree;
use latchline_finding::StateKind;
use latchline_network::demand::{Activity, Demand, station_demand};
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
        let adverse = space.phases.iter().find(|phase| phase.kind == StateKind::StandbyDay);
        let nominal = adverse.and_then(|adverse| nominal(site, layout, adverse));
        Standby {
            corners: [nominal.as_ref(), adverse, space.light.as_ref()]
                .map(|phase| phase.map(|phase| solved(layout, phase))),
        }
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

/// The adverse phase of standby with nominal loads, voltages and resistances in its place.
fn nominal(site: &Site, layout: &Layout, adverse: &Phase) -> Option<Phase> {
    let mut phase = adverse.clone();
    phase.corner = Corner::Nominal;
    phase.is_bound = false;
    for loads in &mut phase.base {
        loads.power_w.fill(0.0);
        loads.current_a.fill(0.0);
        loads.conductance_s.fill(0.0);
    }
    for (station, at) in site.stations.iter().zip(&layout.station) {
        let Some(at) = at else { continue };
        let demand = station_demand(site, station, Activity::Standby, false, Corner::Nominal);
        phase.base[at.stage].add(at.node, demand);
    }
    for (distribution_box, at) in site.boxes.iter().zip(&layout.box_input) {
        let (Some(at), Some(consumption)) = (at, &site.box_model(distribution_box).consumption) else {
            continue;
        };
        phase.base[at.stage].add(at.node, Demand::of(consumption.value));
    }
    let mut trees = Vec::with_capacity(layout.stages.len());
    for (index, stage) in layout.stages.iter().enumerate() {
        phase.voltage_v[index] = Some(stage.voltage_v[Corner::Nominal.index()]);
        phase.output_v[index] = stage.voltage_v[Corner::Nominal.index()];
        let resistance = stage.resistance_ohm[Corner::Nominal.index()].clone();
        trees.push(Tree::new(stage.parent.clone(), resistance).ok()?);
    }
    phase.trees = trees;
    Some(phase)
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
