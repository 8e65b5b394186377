//! The way from a source to one device in its worst state, segment by segment.

use crate::subject::Subject;
use latchline_assess::DeviceResult;
use latchline_network::evaluate::Solver;
use latchline_network::{NodeRef, Segment};
use latchline_site::model::Site;

/// One segment of the way, in the adverse corner.
#[derive(Debug, Clone, PartialEq)]
pub struct PathSegment {
    /// What it is.
    pub segment: Segment,
    /// Node that it leads to.
    pub node: NodeRef,
    /// Loop resistance in ohms.
    pub resistance_ohm: f64,
    /// Current through it in amperes.
    pub current_a: f64,
}

/// The way to a device: open-circuit voltage, segments from the source on, voltage at the device.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// Open-circuit voltage of the source in volts.
    pub source_v: f64,
    /// Segments in the order of the current.
    pub segments: Vec<PathSegment>,
    /// Voltage at the device in volts.
    pub voltage_v: f64,
}

/// The way to a station or box in the state in which its margin is least; `None` where that state has no
/// operating point or cannot be found again.
pub fn worst_path(subject: &Subject<'_>, device: &DeviceResult) -> Option<Path> {
    let at = node_of(subject, device)?;
    let state = &device.worst.state;
    let phase = subject.space.phases.iter().find(|phase| phase.kind == state.kind)?;
    let mut set = Vec::with_capacity(state.calls.len());
    for call in &state.calls {
        set.push(phase.options.iter().position(|option| option.call_ref(subject.site) == *call)?);
    }
    let mut solver = Solver::new(&subject.layout, phase);
    if solver.solve_set(at.stage, &set).failing_stage().is_some() {
        return None;
    }
    let currents = solver.branch_currents(at.stage)?;
    let stage = subject.layout.stage(at);
    let resistance = &stage.resistance_ohm[phase.corner.index()];
    let mut segments = Vec::new();
    let mut node = at.node;
    loop {
        segments.push(PathSegment {
            segment: stage.segment[node],
            node: NodeRef { stage: at.stage, node },
            resistance_ohm: resistance[node],
            current_a: currents.branch_a[node],
        });
        if node == 0 {
            break;
        }
        node = stage.parent[node] as usize;
    }
    segments.reverse();
    let voltage_v = solver.solution(at.stage).voltage_v[at.node];
    Some(Path { source_v: phase.voltage_v[at.stage]?, segments, voltage_v })
}

fn node_of(subject: &Subject<'_>, device: &DeviceResult) -> Option<NodeRef> {
    let site: &Site = subject.site;
    let station = site.stations.iter().position(|station| station.id == device.id);
    match station {
        Some(index) => subject.layout.station[index],
        None => {
            let index = site.boxes.iter().position(|item| item.id == device.id)?;
            subject.layout.box_input[index]
        }
    }
}
