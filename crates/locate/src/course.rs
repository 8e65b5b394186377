//! The voltage along a way from its source to the end of a run: as planned, with a cause, and as it was read.

use crate::evidence::Evidence;
use crate::hypothesis::Hypothesis;
use crate::located::Located;
use crate::plant::Plant;
use crate::predict::{State, place_of, voltage_node};
use crate::quantity::Quantity;
use latchline_circuit::flow::Workspace;
use latchline_finding::StateKind;
use latchline_network::readings::{Predictor, Reading, ReadingPlace};
use latchline_network::{BusState, NodeRef, Segment, StageNode, StateSpace};

/// States and ways that are followed, at most; what a meter was held to comes first.
const MOST_STATES: usize = 3;
const MOST_WAYS: usize = 4;

/// The voltage along one way in one state.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// In which state.
    pub state: BusState,
    /// Places from the source on.
    pub stops: Vec<CourseStop>,
}

/// A place on a way.
#[derive(Debug, Clone, PartialEq)]
pub struct CourseStop {
    /// Where.
    pub at: ReadingPlace,
    /// Metres of cable from the source.
    pub distance_m: f64,
    /// The least and the most with every tolerance against it and for it; `None` where the site as drawn has no operating point.
    pub planned_v: Option<(f64, f64)>,
    /// The least, the likeliest and the most with the cause, over the sizes that are possible; `None` for a cause that no meter sees.
    pub with_cause_v: Option<[f64; 3]>,
    /// What was read there, least and most that it may have been.
    pub read_v: Vec<(f64, [f64; 2])>,
}

/// The voltages along the ways to what was read and to the cause, which is a place in the ranking; state by state.
pub fn courses(plant: &Plant<'_>, evidence: &Evidence, located: &Located, cause: usize) -> Vec<Course> {
    let (hypothesis, posterior) = located.cause(cause);
    let sizes = posterior.size.map_or(vec![0.0], |size| vec![size.best, size.low, size.high]);
    let of_cause = hypothesis.cause.element.place(plant.site).and_then(|place| voltage_node(plant, place));
    let space = StateSpace::new(plant.site, plant.layout);
    let mut found = Vec::new();
    for state in states(evidence) {
        let read: Vec<NodeRef> = readings(plant, evidence, &state).map(|(at, _)| at).collect();
        let mut ends: Vec<NodeRef> =
            of_cause.into_iter().chain(read).map(|at| end_of_run(plant, at)).collect();
        // What lies on the way to another is no way of its own.
        let is_on_the_way = |at: NodeRef, other: NodeRef| at != other && way(plant, other).contains(&at);
        let all = ends.clone();
        ends.retain(|end| !all.iter().any(|other| is_on_the_way(*end, *other)));
        let mut ways: Vec<NodeRef> = Vec::new();
        for end in ends {
            if !ways.contains(&end) {
                ways.push(end);
            }
        }
        ways.truncate(MOST_WAYS);
        let Some(drawn) = State::new(plant, &state) else { continue };
        let predictor = Predictor { site: plant.site, layout: plant.layout, space: &space };
        for end in ways {
            let along = Along { plant, drawn: &drawn, predictor: &predictor, hypothesis, sizes: &sizes };
            let stops = along.stops(end, &readings(plant, evidence, &state).collect::<Vec<_>>());
            found.push(Course { state: state.clone(), stops });
        }
    }
    found
}

/// The states in which voltages were read, in their order; standby where none was.
fn states(evidence: &Evidence) -> Vec<BusState> {
    let mut states: Vec<BusState> = Vec::new();
    for one in &evidence.measured {
        if let Quantity::Voltage { state, .. } | Quantity::Drop { state, .. } = &one.quantity
            && !states.contains(state)
        {
            states.push(state.clone());
        }
    }
    if states.is_empty() {
        states.push(StateKind::StandbyDay.into());
    }
    states.truncate(MOST_STATES);
    states
}

/// The voltages that were read in a state, each with its node.
fn readings<'e>(
    plant: &'e Plant<'_>,
    evidence: &'e Evidence,
    wanted: &'e BusState,
) -> impl Iterator<Item = (NodeRef, (f64, [f64; 2]))> + 'e {
    evidence.measured.iter().filter_map(move |one| match &one.quantity {
        Quantity::Voltage { at, state } if state == wanted => {
            let (value, limit) = (one.value, one.limit());
            Some((voltage_node(plant, *at)?, (value, [value - limit, value + limit])))
        }
        _ => None,
    })
}

/// The end of the run that a place lies on, or that starts there.
fn end_of_run(plant: &Plant<'_>, at: NodeRef) -> NodeRef {
    let stage = plant.layout.stage(at);
    let leads_on = |run: &usize| {
        let start = plant.layout.run_start[*run].map(|start| start.node);
        start == Some(at.node) && plant.layout.run_end[*run].is_some_and(|end| end.stage == at.stage)
    };
    let run = match (stage.terminal[at.node], stage.segment[at.node]) {
        (StageNode::Port { .. }, _) => (0..plant.site.runs.len()).find(leads_on),
        (_, Segment::Cable { run, .. }) => Some(run),
        _ => None,
    };
    run.and_then(|run| plant.layout.run_end[run]).filter(|end| end.stage == at.stage).unwrap_or(at)
}

/// The nodes from the source to a place.
fn way(plant: &Plant<'_>, end: NodeRef) -> Vec<NodeRef> {
    let parent = &plant.layout.stage(end).parent;
    let up = |node: &usize| (*node > 0).then(|| parent[*node] as usize);
    let mut nodes: Vec<NodeRef> =
        std::iter::successors(Some(end.node), up).map(|node| NodeRef { stage: end.stage, node }).collect();
    nodes.reverse();
    nodes
}

/// What is held against each other along a way.
struct Along<'c, 'p, 'a> {
    plant: &'p Plant<'a>,
    drawn: &'c State<'p, 'a>,
    predictor: &'c Predictor<'c>,
    hypothesis: &'c Hypothesis,
    /// The likeliest size, then the least and the most.
    sizes: &'c [f64],
}

impl Along<'_, '_, '_> {
    fn stops(&self, end: NodeRef, read: &[(NodeRef, (f64, [f64; 2]))]) -> Vec<CourseStop> {
        let stage = self.plant.layout.stage(end);
        let read_at = |at: NodeRef| read.iter().filter(move |(node, _)| *node == at).map(|(_, read)| *read);
        // A port that nobody read has the voltage of its box, less what is lost inside.
        let is_told = |at: &NodeRef| {
            !matches!(stage.terminal[at.node], StageNode::Port { .. }) || read_at(*at).next().is_some()
        };
        let nodes: Vec<NodeRef> = way(self.plant, end).into_iter().filter(is_told).collect();
        let places: Vec<ReadingPlace> =
            nodes.iter().map(|at| place_of(stage.source, stage.terminal[at.node])).collect();
        let reading = |at: &ReadingPlace| Reading::Voltage { at: *at, state: self.drawn.state.clone() };
        let mut predicted = self.predictor.predict(places.iter().map(&reading));
        let with_cause = self.with_cause(&nodes);
        nodes
            .iter()
            .zip(&places)
            .zip(with_cause)
            .map(|((at, place), with_cause_v)| CourseStop {
                at: *place,
                distance_m: stage.distance_m[at.node],
                planned_v: predicted
                    .remove(&reading(place))
                    .and_then(Result::ok)
                    .map(|found| (found.lowest.value, found.highest.value)),
                with_cause_v,
                read_v: read_at(*at).collect(),
            })
            .collect()
    }

    fn with_cause(&self, nodes: &[NodeRef]) -> Vec<Option<[f64; 3]>> {
        if !self.hypothesis.is_electrical(self.plant) {
            return vec![None; nodes.len()];
        }
        let mut workspace = Workspace::new();
        let by_size: Vec<Vec<f64>> = self
            .sizes
            .iter()
            .map(|size| {
                let effects = self.hypothesis.effects(self.plant, *size);
                let faulted = self.drawn.with(&effects, &mut workspace);
                nodes.iter().map(|at| faulted.voltage(*at).abs()).collect()
            })
            .collect();
        let of = |place: usize| {
            let each = || by_size.iter().map(|voltages| voltages[place]);
            let likeliest = each().next()?;
            let (least, most) = (each().fold(likeliest, f64::min), each().fold(likeliest, f64::max));
            Some([least, likeliest, most])
        };
        (0..nodes.len()).map(of).collect()
    }
}
