//! One state looked at by itself: enough to know that something is no better than it was.
//!
//! The worst of a device over all its states is at most what any one of them gives. So a change that leaves a device short
//! in the very state in which it was short before need not be searched, and likewise a source that has no operating point there, or a signal
//! from the very caller that was too weak.

use crate::calls::CallOption;
use crate::corner::Corner;
use crate::demand::Activity;
use crate::evaluate::{ENCLOSURE_V, SetOutcome, Solver};
use crate::layout::{Layout, NodeRef};
use crate::phase::{Phase, SharedParts};
use crate::states::{Device, highest_voltages};
use latchline_finding::{CallRef, ElementId, OperatingState, StateKind};
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

/// Whether a source is proved to have no operating point in one state; `false` also where the state does not occur on this site or could
/// not be decided.
pub fn has_no_operating_point(
    site: &Site,
    layout: &Layout,
    source: &ElementId,
    state: &OperatingState,
) -> bool {
    let Some(stage) = layout.stages.iter().position(|stage| stage.id == *source) else { return false };
    let Some(LaidOn { phase, set }) = LaidOn::new(site, layout, state) else { return false };
    phase.voltage_v[stage].is_some()
        && Solver::of_stage(layout, &phase, stage).solve_set(stage, &set)
            == SetOutcome::NoOperatingPoint { stage }
}

/// Margins in volts in one state of all devices on the stage of a device, which their worst margins do not exceed. `None` where the state
/// does not occur on this site, or has no operating point that could be found.
pub fn margins_in_state(
    site: &Site,
    layout: &Layout,
    device: Device,
    state: &OperatingState,
) -> Option<Vec<(Device, f64)>> {
    let stage = match device {
        Device::Station(index) => layout.station[index]?.stage,
        Device::Box(index) => layout.box_input[index]?.stage,
    };
    let LaidOn { phase, set } = LaidOn::new(site, layout, state)?;
    phase.voltage_v[stage]?;
    let mut solver = Solver::of_stage(layout, &phase, stage);
    if solver.solve_set(stage, &set) != SetOutcome::Solved {
        return None;
    }
    let solved_v = &solver.solution(stage).voltage_v;
    // The enclosure's upper side, so that no rounding makes the margin too small.
    let margin = |at: &Option<NodeRef>, limit_v: f64| {
        at.filter(|at| at.stage == stage).map(|at| solved_v[at.node] + ENCLOSURE_V - limit_v)
    };
    let stations = layout.station.iter().enumerate().filter_map(|(index, at)| {
        let own = |(station, activity): &(usize, Activity)| *station == index && activity.is_in_use();
        let takes_part = || set.iter().any(|option| phase.options[*option].busy.iter().any(own));
        at.filter(|at| at.stage == stage)?;
        let model = site.station_model(&site.stations[index]);
        let limit = if phase.base_activity[index].is_in_use() || takes_part() {
            &model.least_voltage
        } else {
            &model.least_standby_voltage
        };
        Some((Device::Station(index), margin(at, limit.value.as_volts())?))
    });
    let boxes = layout.box_input.iter().enumerate().filter_map(|(index, at)| {
        let least = site.box_model(&site.boxes[index]).least_voltage.as_ref()?;
        Some((Device::Box(index), margin(at, least.value.as_volts())?))
    });
    Some(stations.chain(boxes).collect())
}
