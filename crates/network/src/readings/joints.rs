//! The smallest joint that an installer's readings reveal in each section of a run, and the smallest with which the site fails.
//!
//! A joint is a resistance in series with the section, both conductors together, that no plan has. It is *revealed* by a drop
//! that comes above the highest predicted one, even where every tolerance hides it: in the light corner, with the least current and the
//! least resistance of everything else, less what two readings of one meter may differ by ([`DROP_METER_V`]). The site *fails*
//! with it where a device beyond falls below its limit in the adverse corner, in the worst state that was found for that device. Of the
//! devices beyond, the one that would be first by the slope of its voltage is looked at; other devices, other states and other
//! corners between the two are not.
//!
//! Both sizes come from solving the operating state with the joint in place, to [`SIZE_TOLERANCE`], rounded to the side that
//! promises less: what is revealed up, what fails down.

use super::predicted::{Readings, WorstOfDevice};
use super::section_joint::{JointThatFails, SectionJoint};
use super::{Predictor, Reading};
use crate::BusState;
use crate::corner::Corner;
use crate::evaluate::{SetOutcome, Solver};
use crate::layout::NodeRef;
use crate::phase::Phase;
use latchline_finding::StateKind;
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::rc::Rc;

/// What the difference of two readings of one meter on one range may be off by, in volts: two digits of 10 mV at either end. Its gain
/// error is the same at both ends and, as a share of the drop, below the rest (assumed; common practice, no source).
pub const DROP_METER_V: f64 = 0.04;
/// Sizes of joints are found to this share.
pub const SIZE_TOLERANCE: f64 = 1e-3;
/// Joints above this are an open wire and not looked for, in ohms.
const LARGEST_OHM: f64 = 10_000.0;
/// Steps of the search; each halves the interval at least.
const MOST_STEPS: usize = 60;

/// Operating states of a site, each made once.
struct States<'p, 'a> {
    from: &'p Predictor<'a>,
    phases: BTreeMap<(StateKind, usize), Option<Cow<'p, Phase>>>,
}

impl<'p, 'a> States<'p, 'a> {
    fn new(from: &'p Predictor<'a>, wanted: impl IntoIterator<Item = (StateKind, Corner)>) -> Self {
        let mut phases = BTreeMap::new();
        for (kind, corner) in wanted {
            phases.entry((kind, corner.index())).or_insert_with(|| from.phase(kind, corner));
        }
        States { from, phases }
    }

    fn phase(&self, kind: StateKind, corner: Corner) -> Option<&Phase> {
        self.phases.get(&(kind, corner.index()))?.as_deref()
    }
}

/// The joints of every section that a supply reaches; `worst`: every device in its worst state.
pub(super) fn of_sections(
    from: &Predictor<'_>,
    readings: &Readings,
    worst: &[WorstOfDevice<'_>],
) -> Vec<SectionJoint> {
    let adverse = worst.iter().map(|one| (one.state.kind, Corner::Adverse));
    let light = (0..from.site.runs.len())
        .flat_map(|run| readings.drops(run, 0, 0))
        .filter_map(|reading| Some((reading.state()?.kind, Corner::Light)));
    let states = States::new(from, adverse.chain(light));
    let failing = Failing::new(&states, worst);
    let mut joints = Vec::new();
    for run in 0..from.site.runs.len() {
        let sections = from.site.runs[run].sections.len();
        for section in 0..sections {
            let Some(at) = from.section_node(run, section) else { continue };
            let least = |first, last| {
                let drops = readings.drops(run, first, last);
                drops.iter().filter_map(|reading| revealed(&states, readings, reading, at)).reduce(f64::min)
            };
            joints.push(SectionJoint {
                run,
                section,
                revealed_ohm: least(0, sections - 1),
                revealed_alone_ohm: least(section, section),
                fails: failing.with_joint(&states, at),
            });
        }
    }
    joints
}

/// Smallest joint at a place that puts a drop above its highest.
fn revealed(states: &States<'_, '_>, readings: &Readings, reading: &Reading, at: NodeRef) -> Option<f64> {
    let Reading::Drop { run, first, last, state } = reading else { return None };
    let highest_v = readings.get(reading)?.highest.value + DROP_METER_V;
    let from = states.from;
    let start = from.layout.stage(at).parent[from.section_node(*run, *first)?.node] as usize;
    let end = from.section_node(*run, *last)?.node;
    let phase = states.phase(state.kind, Corner::Light)?;
    let set = state.set_in(phase)?;
    let mut solver = Solver::of_stage(from.layout, phase, at.stage);
    let mut above_v = |joint_ohm: f64| match solver.solve_set_with_joint(at, joint_ohm, &set) {
        SetOutcome::Solved => {
            let voltage_v = &solver.solution(at.stage).voltage_v;
            Some(voltage_v[start] - voltage_v[end] - highest_v)
        }
        _ => None,
    };
    least_ohm(&mut above_v).map(|(_, enough)| enough)
}

/// Devices in their worst states, each with the current that its state sends through every segment.
struct Failing<'w> {
    devices: Vec<FailingDevice<'w>>,
}

struct FailingDevice<'w> {
    worst: WorstOfDevice<'w>,
    at: NodeRef,
    set: Vec<usize>,
    /// Voltage above the limit.
    margin_v: f64,
    /// Current through the segment that leads to each node.
    current_a: Rc<Vec<f64>>,
}

/// A stage in one state.
struct SolvedState {
    /// Current through the segment that leads to each node.
    current_a: Rc<Vec<f64>>,
    /// Voltage of each node.
    voltage_v: Vec<f64>,
}

impl<'w> Failing<'w> {
    fn new(states: &States<'_, '_>, worst: &[WorstOfDevice<'w>]) -> Self {
        let mut solved: BTreeMap<(usize, &BusState), Option<SolvedState>> = BTreeMap::new();
        let from = states.from;
        let mut devices = Vec::new();
        for one in worst {
            let Some(at) = from.device_node(one.device) else { continue };
            let Some(phase) = states.phase(one.state.kind, Corner::Adverse) else { continue };
            let Some(set) = one.state.set_in(phase) else { continue };
            let known = solved.entry((at.stage, one.state)).or_insert_with(|| {
                let mut solver = Solver::of_stage(from.layout, phase, at.stage);
                let outcome = solver.solve_set(at.stage, &set);
                (outcome == SetOutcome::Solved).then(|| SolvedState {
                    current_a: Rc::new(solver.segment_currents_a(at.stage)),
                    voltage_v: solver.solution(at.stage).voltage_v.clone(),
                })
            });
            let Some(state) = known else { continue };
            let margin_v = state.voltage_v[at.node] - one.limit_v;
            devices.push(FailingDevice {
                worst: *one,
                at,
                set,
                margin_v,
                current_a: state.current_a.clone(),
            });
        }
        Failing { devices }
    }

    fn with_joint(&self, states: &States<'_, '_>, at: NodeRef) -> Option<JointThatFails> {
        let layout = states.from.layout;
        let end = layout.stage(at).subtree_end[at.node] as usize;
        let beyond = self.devices.iter().filter(|one| {
            one.at.stage == at.stage && (at.node..end).contains(&one.at.node) && one.margin_v > 0.0
        });
        let ohm = |one: &FailingDevice<'_>| one.margin_v / one.current_a[at.node].max(1e-12);
        let first = beyond.min_by(|a, b| ohm(a).total_cmp(&ohm(b)))?;
        let phase = states.phase(first.worst.state.kind, Corner::Adverse)?;
        let mut solver = Solver::of_stage(layout, phase, at.stage);
        let mut below_v = |joint_ohm: f64| match solver.solve_set_with_joint(at, joint_ohm, &first.set) {
            SetOutcome::Solved => {
                Some(first.worst.limit_v - solver.solution(at.stage).voltage_v[first.at.node])
            }
            _ => None,
        };
        let (ohm, _) = least_ohm(&mut below_v)?;
        Some(JointThatFails { ohm, device: first.worst.device, state: first.worst.state.kind })
    }
}

/// Two sizes of joint within [`SIZE_TOLERANCE`] of each other, at the larger of which a figure that rises with it is not below
/// zero, at the smaller of which it is. Where there is no operating point the figure counts as not below zero: the bus has collapsed.
fn least_ohm(figure: &mut impl FnMut(f64) -> Option<f64>) -> Option<(f64, f64)> {
    let mut is_reached = |ohm: f64| figure(ohm).is_none_or(|value| value >= 0.0);
    if is_reached(0.0) {
        return Some((0.0, 0.0));
    }
    let (mut below, mut enough) = (0.0, 1.0);
    while !is_reached(enough) {
        below = enough;
        enough *= 2.0;
        if enough > LARGEST_OHM {
            return None;
        }
    }
    for _ in 0..MOST_STEPS {
        if enough - below <= SIZE_TOLERANCE * enough {
            break;
        }
        let middle = f64::midpoint(below, enough);
        if is_reached(middle) { enough = middle } else { below = middle }
    }
    Some((below, enough))
}
