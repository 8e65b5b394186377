//! One state looked at by itself: enough to know that something is no better than it was.
//!
//! The worst of a device over all its states is at most what any one of them gives. So a change that leaves a device short
//! in the very state in which it was short before need not be searched, and likewise a signal from the very caller that was too weak.

use crate::demand::Activity;
use crate::evaluate::{ENCLOSURE_V, SetOutcome, Solver};
use crate::layout::{Corner, Layout};
use crate::phase::Phase;
use crate::states::{Device, highest_voltages};
use latchline_finding::{OperatingState, StateKind};
use latchline_site::model::Site;

/// Margin of a device in volts in one state, which its worst margin does not exceed. `None` where the state does not occur on
/// this site, or has no operating point that could be found.
///
/// Only the calls of the state are laid on, so that a bound which rests on all calls of the site is not
/// above the one that the search would take.
pub fn margin_in_state(site: &Site, layout: &Layout, device: Device, state: &OperatingState) -> Option<f64> {
    let at = match device {
        Device::Station(index) => layout.station[index]?,
        Device::Box(index) => layout.box_input[index]?,
    };
    let light = Phase::new(site, layout, StateKind::LightLoad, Corner::Light, None);
    let highest = highest_voltages(layout, light.as_ref());
    let phase = Phase::new(site, layout, state.kind, Corner::Adverse, Some(&highest))?;
    phase.voltage_v[at.stage]?;
    let mut set = Vec::with_capacity(state.calls.len());
    for call in &state.calls {
        let found = phase.options.iter().position(|option| {
            option.moment == call.moment
                && site.stations[option.caller].id == call.from
                && site.stations[option.answering].id == call.to
        })?;
        set.push(found);
    }
    let fits_all = set.iter().enumerate().all(|(index, option)| {
        set[..index].iter().all(|other| phase.options[*option].is_compatible(&phase.options[*other]))
    });
    if !fits_all || set.len() > phase.most_calls {
        return None;
    }
    set.sort_unstable();
    let mut solver = Solver::of_stage(layout, &phase, at.stage);
    if solver.solve_set(at.stage, &set) != SetOutcome::Solved {
        return None;
    }
    let limit_v = match device {
        Device::Station(index) => {
            let own = |(station, activity): &(usize, Activity)| *station == index && activity.is_in_use();
            let takes_part = set.iter().any(|option| phase.options[*option].busy.iter().any(own));
            let model = site.station_model(&site.stations[index]);
            let limit = if takes_part || phase.base_activity[index].is_in_use() {
                &model.least_voltage
            } else {
                &model.least_standby_voltage
            };
            limit.value.as_volts()
        }
        Device::Box(index) => site.box_model(&site.boxes[index]).least_voltage.as_ref()?.value.as_volts(),
    };
    // The enclosure's upper side, so that no rounding makes the margin too small.
    Some(solver.solution(at.stage).voltage_v[at.node] + ENCLOSURE_V - limit_v)
}
