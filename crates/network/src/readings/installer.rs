//! The readings that an installer takes, and in which order runs are put under power.

use super::joints::of_sections;
use super::predicted::{Readings, RunCall, RunFeed, WorstOfDevice};
use super::{Predictor, Reading, ReadingPlace};
use crate::bus_state::BusState;
use crate::layout::{Layout, Segment, StageNode, StageSource};
use crate::worst::Device;
use latchline_finding::{CallMoment, StateKind};
use latchline_site::model::{Site, StationOwner};

impl Readings {
    /// Predicts what an installer reads, the ways to these devices in these states, and what a joint would do to the
    /// devices that are given in their worst states.
    pub fn new<'s>(
        from: &Predictor<'_>,
        paths: impl IntoIterator<Item = (Device, &'s BusState)>,
        worst: &[WorstOfDevice<'s>],
    ) -> Self {
        let talking = talking(from);
        let run_call = run_calls(from, &talking);
        let power_order = power_order(from.site, from.layout);
        let paths = paths.into_iter().map(|(device, state)| (device, from.path(device, state))).collect();
        let predictions = from.predict(taken(from, &talking, &run_call));
        let mut readings =
            Readings { predictions, power_order, talking, run_call, joints: Vec::new(), paths };
        readings.joints = if worst.is_empty() { Vec::new() } else { of_sections(from, &readings, worst) };
        readings
    }
}

/// Standby by day is the one state that an installer can hold still on a ladder.
fn taken(from: &Predictor<'_>, talking: &[Option<BusState>], run_call: &[Option<RunCall>]) -> Vec<Reading> {
    let standby = || BusState::from(StateKind::StandbyDay);
    let mut readings = Vec::new();
    for stage in &from.layout.stages {
        let at = stage.source.into();
        readings.push(Reading::OpenCircuitVoltage { source: stage.source });
        readings.push(Reading::Current { at, state: standby() });
        let places = stage.terminal.iter().map(|terminal| match *terminal {
            StageNode::Source => at,
            StageNode::BoxInput(index) => ReadingPlace::BoxInput(index),
            StageNode::Port { box_index, port } => ReadingPlace::Port { box_index, port },
            StageNode::BoxLink(index) => ReadingPlace::BoxLink(index),
            StageNode::Station(index) => ReadingPlace::Station(index),
        });
        readings.extend(places.map(|at| Reading::Voltage { at, state: standby() }));
    }
    for (run, site_run) in from.site.runs.iter().enumerate() {
        readings.push(Reading::Current { at: ReadingPlace::Run(run), state: standby() });
        readings.extend([Reading::LoopResistance { run }, Reading::Capacitance { run }]);
        let last = site_run.sections.len().saturating_sub(1);
        let each = (0..=last).map(|section| (section, section)).chain((last > 0).then_some((0, last)));
        for (first, last) in each {
            let states = run_call[run].iter().map(|call| call.state.clone()).chain([standby()]);
            readings.extend(states.map(|state| Reading::Drop { run, first, last, state }));
        }
    }
    for (station, state) in talking.iter().enumerate() {
        if let Some(state) = state {
            readings.push(Reading::Voltage { at: ReadingPlace::Station(station), state: state.clone() });
        }
    }
    readings
}

/// By run the call of the farthest station beyond it that is called; where none is, that of the farthest that calls.
fn run_calls(from: &Predictor<'_>, talking: &[Option<BusState>]) -> Vec<Option<RunCall>> {
    let (layout, calling) = (from.layout, calling(from));
    let farthest = |run: usize, states: &[Option<BusState>]| {
        let at = layout.run_start[run]?;
        let stage = layout.stage(at);
        let beyond = at.node..stage.subtree_end[at.node] as usize;
        let loaded = beyond.filter_map(|node| match stage.terminal[node] {
            StageNode::Station(station) => Some((stage.distance_m[node], station, states[station].clone()?)),
            _ => None,
        });
        let farthest = loaded.reduce(|known, next| if next.0 > known.0 { next } else { known });
        farthest.map(|(_, station, state)| RunCall { station, state })
    };
    let runs = 0..from.site.runs.len();
    runs.map(|run| farthest(run, talking).or_else(|| farthest(run, &calling))).collect()
}

/// By station the state in which it talks with the first station that it can call, and nobody else calls.
fn calling(from: &Predictor<'_>) -> Vec<Option<BusState>> {
    let mut states = vec![None; from.site.stations.len()];
    let Some(phase) = from.space.phases.iter().find(|phase| phase.kind == StateKind::Call) else {
        return states;
    };
    for (option, call) in phase.options.iter().enumerate() {
        // A door that is released outside of a call talks with nobody.
        let talks = call.moment != CallMoment::Ringing && !call.is_release();
        if talks && states[call.caller].is_none() {
            states[call.caller] = Some(BusState::of(phase, &[option]));
        }
    }
    states
}

fn talking(from: &Predictor<'_>) -> Vec<Option<BusState>> {
    let mut states = vec![None; from.site.stations.len()];
    let Some(phase) = from.space.phases.iter().find(|phase| phase.kind == StateKind::Call) else {
        return states;
    };
    for (option, call) in phase.options.iter().enumerate() {
        let is_talk = call.moment != CallMoment::Ringing;
        let is_door = matches!(from.site.stations[call.caller].owner, StationOwner::Entrance(_));
        if is_talk && is_door && states[call.answering].is_none() {
            states[call.answering] = Some(BusState::of(phase, &[option]));
        }
    }
    states
}

fn power_order(site: &Site, layout: &Layout) -> Vec<RunFeed> {
    // A stage comes after the one that it draws from.
    let mut supply_of: Vec<Option<usize>> = vec![None; layout.stages.len()];
    let mut order = Vec::with_capacity(site.runs.len());
    let mut is_fed = vec![false; site.runs.len()];
    for (index, stage) in layout.stages.iter().enumerate() {
        if let StageSource::Supply(supply) = stage.source {
            supply_of[index] = Some(supply);
        }
        for converter in &stage.converters {
            supply_of[converter.stage] = supply_of[index];
        }
        for segment in &stage.segment {
            if let Segment::Cable { run, section: 0 } = *segment {
                order.push(RunFeed { run, supply: supply_of[index] });
                is_fed[run] = true;
            }
        }
    }
    let unfed = (0..site.runs.len()).filter(|run| !is_fed[*run]);
    order.extend(unfed.map(|run| RunFeed { run, supply: None }));
    order
}
