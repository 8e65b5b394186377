//! One state looked at by itself: enough to know that something is no better than it was.
//!
//! The worst of a device over all its states is at most what any one of them gives. So a change that leaves a device short
//! in the very state in which it was short before need not be searched, and likewise a source that has no operating point there or is
//! overloaded, or a signal from the very caller that was too weak.

use crate::calls::CallOption;
use crate::corner::Corner;
use crate::demand::Activity;
use crate::evaluate::{ENCLOSURE_V, SetOutcome, Solver};
use crate::layout::{Layout, NodeRef};
use crate::phase::{Phase, SharedParts};
use crate::source_power::at_terminals;
use crate::state_space::highest_voltages;
use crate::worst::Device;
use latchline_finding::{CallRef, OperatingState, StateKind};
use latchline_site::model::Site;

/// A state as it was found, laid on a site.
struct LaidOn {
    phase: Phase,
    /// The calls that stand, as positions among the options of the phase.
    set: Vec<usize>,
}

impl LaidOn {
    /// `None` where the state does not occur on this site.
    ///
    /// Only the calls of the state are laid on, so that a bound which rests on all calls of the site is not
    /// above the one that the search would take.
    fn new(site: &Site, layout: &Layout, state: &OperatingState) -> Option<Self> {
        let light = Phase::new(site, layout, StateKind::LightLoad, Corner::Light, None);
        let highest = highest_voltages(layout, light.as_ref());
        let is_it = |option: &CallOption, call: &CallRef| {
            option.moment == call.moment
                && site.stations[option.caller].id == call.from
                && site.stations[option.answering].id == call.to
        };
        let shared = SharedParts::with_calls(site, state.kind, |option| {
            state.calls.is_empty() || state.calls.iter().any(|call| is_it(option, call))
        });
        let phase = Phase::with(site, layout, state.kind, Corner::Adverse, Some(&highest), &shared)?;
        let mut set = Vec::with_capacity(state.calls.len());
        for call in &state.calls {
            set.push(phase.options.iter().position(|option| is_it(option, call))?);
        }
        let fits_all = set.iter().enumerate().all(|(index, option)| {
            set[..index].iter().all(|other| phase.options[*option].is_compatible(&phase.options[*other]))
        });
        if !fits_all || !phase.admits(&set) {
            return None;
        }
        set.sort_unstable();
        Some(LaidOn { phase, set })
    }
}

/// What one state shows of what a source feeds.
#[derive(Debug, Clone, PartialEq)]
pub enum Witnessed {
    /// It is proved to have no operating point.
    NoOperatingPoint,
    /// It has one.
    Solved(Witness),
}

/// What is no better in the worst state than it is in this one.
#[derive(Debug, Clone, PartialEq)]
pub struct Witness {
    /// Margins in volts of all devices on the stage, which their worst margins do not exceed.
    pub margins_v: Vec<(Device, f64)>,
    /// Current of the source in amperes, which its largest is not below.
    pub source_current_a: f64,
    /// Power at its terminals in watts, which its largest is not below.
    pub source_power_w: f64,
}

/// One state on one stage by itself; `None` where the state does not occur on this site, or nothing can be said of it.
pub fn in_state(site: &Site, layout: &Layout, stage: usize, state: &OperatingState) -> Option<Witnessed> {
    let LaidOn { phase, set } = LaidOn::new(site, layout, state)?;
    let open_circuit_v = phase.voltage_v[stage]?;
    let mut solver = Solver::of_stage(layout, &phase, stage);
    match solver.solve_set(stage, &set) {
        SetOutcome::Solved => {}
        SetOutcome::NoOperatingPoint { stage: failing } if failing == stage => {
            return Some(Witnessed::NoOperatingPoint);
        }
        _ => return None,
    }
    let solution = solver.solution(stage);
    // The enclosure's upper side, so that no rounding makes the margin too small.
    let margin_v = |at: NodeRef, limit_v: f64| solution.voltage_v[at.node] + ENCLOSURE_V - limit_v;
    let on_it = |at: &Option<NodeRef>| at.filter(|at| at.stage == stage);
    let stations = layout.station.iter().enumerate().filter_map(|(index, at)| {
        let at = on_it(at)?;
        let own = |(station, activity): &(usize, Activity)| *station == index && activity.is_in_use();
        let takes_part = || set.iter().any(|option| phase.options[*option].busy.iter().any(own));
        let model = site.station_model(&site.stations[index]);
        let limit = if phase.base_activity[index].is_in_use() || takes_part() {
            &model.least_voltage
        } else {
            &model.least_standby_voltage
        };
        Some((Device::Station(index), margin_v(at, limit.value.as_volts())))
    });
    let boxes = layout.box_input.iter().enumerate().filter_map(|(index, at)| {
        let least = site.box_model(&site.boxes[index]).least_voltage.as_ref()?;
        Some((Device::Box(index), margin_v(on_it(at)?, least.value.as_volts())))
    });
    let source_current_a = solution.source_current_a;
    Some(Witnessed::Solved(Witness {
        margins_v: stations.chain(boxes).collect(),
        source_current_a,
        source_power_w: at_terminals(layout, stage, open_circuit_v, source_current_a),
    }))
}
