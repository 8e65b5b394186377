//! The worst state of every device, and the largest current of every source and run.
//!
//! A [`StateSpace`] is the list of operating states that can occur on a site, each a [`Phase`] in the
//! adverse corner. For every device and every state the set of calls is searched that is worst *for the
//! margin to the limit that holds for what the device is then doing*: standing by, ringing or talking.

use crate::demand::Activity;
use crate::layout::{Layout, NodeRef};
use crate::memory::Memory;
use crate::nominal::nominal_values;
use crate::phase::Phase;
use crate::search::SearchOptions;
use crate::source_power::{self, PowerState, at_highest_voltage, at_terminals};
use crate::stage_calls::{StageCalls, options_by_stage};
use crate::stage_search::{DeviceTarget, LocalCurrent, StageFound, StageTask, key_of_calls};
use crate::state_space::StateSpace;
use crate::wanted::GivenUp;
use crate::worst::{CurrentState, Device, DeviceStates, StateInfo, StateMargin, WorstStates};
use latchline_finding::StateKind;
use latchline_site::model::Site;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::sync::Arc;

/// The open-circuit voltage of a source's high end, and what was found there.
type HighEnd = (f64, Arc<StageFound>);

/// Searches the worst states of a site.
pub fn worst_states(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    options: &SearchOptions,
) -> WorstStates {
    worst_states_with(site, layout, space, options, &Memory::default())
        .expect("work that is wanted whatever happens is not given up")
}

/// As [`worst_states`], with what is remembered of stages that are the same.
///
/// # Errors
/// [`GivenUp`] if the memory's work is no longer wanted.
pub fn worst_states_with(
    site: &Site,
    layout: &Layout,
    space: &StateSpace,
    options: &SearchOptions,
    memory: &Memory,
) -> Result<WorstStates, GivenUp> {
    let mut devices = devices(site, layout);
    let mut source_current: Vec<Option<CurrentState>> = vec![None; layout.stages.len()];
    let mut source_current_held = source_current.clone();
    let mut power_return_current_a: Vec<Option<f64>> = vec![None; layout.stages.len()];
    let mut source_power: Vec<Vec<Option<PowerState>>> =
        vec![vec![None; layout.stages.len()]; space.phases.len()];
    let mut run_current: Vec<Option<CurrentState>> = vec![None; site.runs.len()];
    let mut run_current_held = run_current.clone();
    let tasks = Tasks::new(site, layout, &devices);
    let jobs: Vec<(usize, usize)> = (0..space.phases.len())
        .flat_map(|phase| (0..layout.stages.len()).map(move |stage| (phase, stage)))
        .filter(|(phase, stage)| space.phases[*phase].voltage_v[*stage].is_some())
        .collect();
    let by_stage: Vec<Vec<Vec<usize>>> =
        space.phases.iter().map(|phase| options_by_stage(layout, phase)).collect();
    let found: Vec<(StageCalls, Arc<StageFound>, Option<HighEnd>)> = jobs
        .par_iter()
        .map(|&(phase, stage)| {
            memory.check()?;
            let by_stage = &by_stage[phase];
            let phase = &space.phases[phase];
            let task = tasks.task(phase, stage, by_stage, options);
            let found = memory.states(task.fingerprint(), || task.run());
            let high = at_highest_voltage(layout, phase, stage).map(|phase| {
                let task = source_power::task(layout, &phase, stage, (&task.calls, task.calls_key), options);
                (phase.voltage_v[stage].unwrap_or(0.0), memory.states(task.fingerprint(), || task.run()))
            });
            Ok((task.calls, found, high))
        })
        .collect::<Result<_, GivenUp>>()?;
    let mut states: Vec<StateInfo> = space
        .phases
        .iter()
        .map(|phase| StateInfo {
            kind: phase.kind,
            solved_sets: 0,
            options: phase.options.iter().filter(|option| !option.is_release()).count(),
            most_calls: phase.most_calls,
            releases: phase.options.iter().filter(|option| option.is_release()).count(),
            most_releases: phase.most_releases,
            complete: true,
        })
        .collect();
    for (&(phase, stage), (calls, found, high)) in jobs.iter().zip(&found) {
        let all = |set: &[usize]| -> Vec<usize> { set.iter().map(|option| calls.options[*option]).collect() };
        let stages = layout.with_stages_below(stage);
        let state = &mut states[phase];
        state.solved_sets += found.solved_sets;
        for (device, margin) in tasks.devices[stage].iter().zip(&found.devices) {
            state.complete &= margin.complete;
            devices[*device].margins.push(StateMargin {
                phase,
                set: all(&margin.set),
                voltage_v: margin.voltage_v,
                lowest_v: margin.lowest_v,
                limit_v: margin.limit_v,
                failing_stage: margin.failing_stage.map(|place| stages[place]),
                is_undecided: margin.is_undecided,
                complete: margin.complete,
            });
        }
        let mut keep = |worst: &mut Option<CurrentState>, current: &LocalCurrent| {
            state.complete &= current.complete;
            let ampere = |current_a: Option<f64>| current_a.unwrap_or(f64::INFINITY);
            let known = worst.as_ref().map_or(f64::NEG_INFINITY, |worst| ampere(worst.current_a));
            if ampere(current.current_a) > known {
                let (set, complete) = (all(&current.set), current.complete);
                *worst = Some(CurrentState { phase, set, current_a: current.current_a, complete });
            }
        };
        let starts = tasks.runs[stage].iter().zip(&found.currents[1..]);
        keep(&mut source_current[stage], &found.currents[0]);
        for (run, current) in starts.clone() {
            keep(&mut run_current[*run], current);
        }
        if found.currents[0].current_a.is_some() {
            keep(&mut source_current_held[stage], &found.currents[0]);
            for (run, current) in starts.filter(|(_, current)| current.current_a.is_some()) {
                keep(&mut run_current_held[*run], current);
            }
        }
        if space.phases[phase].kind == StateKind::PowerReturn {
            power_return_current_a[stage] = found.currents[0].current_a;
        }
        let power = |open_circuit_v: f64, current: &LocalCurrent| PowerState {
            phase,
            set: all(&current.set),
            open_circuit_v,
            power_w: current.current_a.map(|current| at_terminals(layout, stage, open_circuit_v, current)),
            complete: current.complete,
        };
        let low = space.phases[phase].voltage_v[stage].map(|own| power(own, &found.currents[0]));
        source_power[phase][stage] = match (low, high) {
            (Some(low), Some((highest, found))) => Some(low.larger(power(*highest, &found.currents[0]))),
            (low, _) => low,
        };
        if let Some(power) = &source_power[phase][stage] {
            states[phase].complete &= power.complete;
        }
    }
    devices.retain(|device| !device.margins.is_empty());
    for device in &mut devices {
        device.worst = (0..device.margins.len())
            .min_by(|a, b| device.margins[*a].margin_v().total_cmp(&device.margins[*b].margin_v()))
            .unwrap_or(0);
    }
    let standby_current_a = nominal_values(site, layout, space, &mut devices, memory)?;
    Ok(WorstStates {
        devices,
        source_current,
        source_current_held,
        power_return_current_a,
        source_power,
        standby_current_a,
        run_current,
        run_current_held,
        states,
    })
}

fn devices(site: &Site, layout: &Layout) -> Vec<DeviceStates> {
    let stations =
        layout.station.iter().enumerate().filter_map(|(index, at)| at.map(|at| (Device::Station(index), at)));
    let boxes = layout
        .box_input
        .iter()
        .enumerate()
        .filter(|(index, _)| site.box_model(&site.boxes[*index]).least_voltage.is_some())
        .filter_map(|(index, at)| at.map(|at| (Device::Box(index), at)));
    stations
        .chain(boxes)
        .map(|(device, at)| DeviceStates { device, at, margins: Vec::new(), worst: 0, nominal_v: None })
        .collect()
}

/// What to look for, stage by stage.
struct Tasks<'a> {
    site: &'a Site,
    layout: &'a Layout,
    all: Vec<(Device, NodeRef)>,
    /// Devices of each stage, as positions in `all`.
    devices: Vec<Vec<usize>>,
    /// Runs that start on each stage.
    runs: Vec<Vec<usize>>,
}

impl<'a> Tasks<'a> {
    fn new(site: &'a Site, layout: &'a Layout, devices: &[DeviceStates]) -> Self {
        let mut tasks = Tasks {
            site,
            layout,
            all: devices.iter().map(|device| (device.device, device.at)).collect(),
            devices: vec![Vec::new(); layout.stages.len()],
            runs: vec![Vec::new(); layout.stages.len()],
        };
        for (index, (_, at)) in tasks.all.iter().enumerate() {
            tasks.devices[at.stage].push(index);
        }
        for (run, at) in layout.run_start.iter().enumerate() {
            if let Some(at) = at {
                tasks.runs[at.stage].push(run);
            }
        }
        tasks
    }

    fn task<'b>(
        &'b self,
        phase: &'b Phase,
        stage: usize,
        by_stage: &[Vec<usize>],
        options: &SearchOptions,
    ) -> StageTask<'b> {
        let calls = StageCalls::among(self.layout, phase, stage, by_stage);
        let mut own: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (position, option) in calls.options.iter().enumerate() {
            for (station, _) in &phase.options[*option].busy {
                let list = own.entry(*station).or_default();
                // A station that takes part twice is listed once.
                if list.last() != Some(&position) {
                    list.push(position);
                }
            }
        }
        let devices = self.devices[stage]
            .iter()
            .map(|index| {
                let (device, at) = self.all[*index];
                let (in_use_v, standby_v) = self.limits(device);
                let (own, activity) = match device {
                    Device::Station(station) => {
                        (own.remove(&station).unwrap_or_default(), phase.base_activity[station])
                    }
                    Device::Box(_) => (Vec::new(), Activity::Standby),
                };
                let idle_v = if activity.is_in_use() { in_use_v } else { standby_v };
                DeviceTarget { node: at.node, own, in_use_v, idle_v }
            })
            .collect();
        let starts = self.runs[stage].iter().filter_map(|run| self.layout.run_start[*run]);
        let current_nodes = std::iter::once(0).chain(starts.map(|at| at.node)).collect();
        let layout = self.layout;
        let calls_key = key_of_calls(layout, phase, stage, &calls);
        StageTask { layout, phase, stage, calls, calls_key, devices, current_nodes, options: *options }
    }

    /// Limits in use and in standby.
    fn limits(&self, device: Device) -> (f64, f64) {
        match device {
            Device::Station(station) => {
                let model = self.site.station_model(&self.site.stations[station]);
                (model.least_voltage.value.as_volts(), model.least_standby_voltage.value.as_volts())
            }
            Device::Box(index) => {
                let model = self.site.box_model(&self.site.boxes[index]);
                let least = model.least_voltage.as_ref().map_or(0.0, |least| least.value.as_volts());
                (least, least)
            }
        }
    }
}
