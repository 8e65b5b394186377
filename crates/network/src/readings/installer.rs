//! The readings that an installer takes, and in which order runs are put under power.

use super::{NoPrediction, Path, Prediction, Predictions, Predictor, Reading, ReadingPlace};
use crate::bus_state::BusState;
use crate::layout::{Layout, Segment, StageNode, StageSource};
use crate::worst::Device;
use latchline_finding::{CallMoment, StateKind};
use latchline_site::model::{Site, StationOwner};
use std::collections::BTreeMap;

/// A run with the supply that its power comes from, directly or through boxes that make a voltage of their own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RunFeed {
    /// Index into [`Site::runs`].
    pub run: usize,
    /// Index into [`Site::supplies`]; `None` where no supply reaches it.
    pub supply: Option<usize>,
}

/// Predicted readings of a site.
#[derive(Debug, Clone, PartialEq)]
pub struct Readings {
    /// Every reading that an installer takes.
    pub predictions: Predictions,
    /// Runs in the order in which they are put under power: from each supply outward, each run before what hangs on it;
    /// those that no supply reaches last.
    pub power_order: Vec<RunFeed>,
    /// By station the state in which the first entrance that can call it talks with it and nobody else calls.
    pub talking: Vec<Option<BusState>>,
    /// The ways to the devices that were asked for.
    pub paths: BTreeMap<Device, Result<Path, NoPrediction>>,
}

impl Readings {
    /// Predicts what an installer reads, and the ways to these devices in these states.
    pub fn new<'s>(from: &Predictor<'_>, paths: impl IntoIterator<Item = (Device, &'s BusState)>) -> Self {
        let talking = talking(from);
        let power_order = power_order(from.site, from.layout);
        let paths = paths.into_iter().map(|(device, state)| (device, from.path(device, state))).collect();
        let predictions = from.predict(taken(from, &talking));
        Readings { predictions, power_order, talking, paths }
    }

    /// Any of the readings that were predicted.
    pub fn get(&self, reading: &Reading) -> Option<&Prediction> {
        self.predictions.get(reading)?.as_ref().ok()
    }

    /// Voltage in standby by day.
    pub fn standby_voltage(&self, at: ReadingPlace) -> Option<&Prediction> {
        self.get(&Reading::Voltage { at, state: StateKind::StandbyDay.into() })
    }

    /// Current in standby by day.
    pub fn standby_current(&self, at: ReadingPlace) -> Option<&Prediction> {
        self.get(&Reading::Current { at, state: StateKind::StandbyDay.into() })
    }

    /// Voltage of a source with nothing connected.
    pub fn open_circuit_voltage(&self, source: StageSource) -> Option<&Prediction> {
        self.get(&Reading::OpenCircuitVoltage { source })
    }

    /// Voltage at a station while it talks with the first entrance that can call it.
    pub fn talking_voltage(&self, station: usize) -> Option<&Prediction> {
        let state = self.talking.get(station)?.clone()?;
        self.get(&Reading::Voltage { at: ReadingPlace::Station(station), state })
    }

    /// Loop resistance of a run alone.
    pub fn loop_resistance(&self, run: usize) -> Option<&Prediction> {
        self.get(&Reading::LoopResistance { run })
    }

    /// Open-end capacitance of a run alone.
    pub fn capacitance(&self, run: usize) -> Option<&Prediction> {
        self.get(&Reading::Capacitance { run })
    }
}

/// Standby by day is the one state that an installer can hold still on a ladder.
fn taken(from: &Predictor<'_>, talking: &[Option<BusState>]) -> Vec<Reading> {
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
    for run in 0..from.site.runs.len() {
        readings.push(Reading::Current { at: ReadingPlace::Run(run), state: standby() });
        readings.extend([Reading::LoopResistance { run }, Reading::Capacitance { run }]);
    }
    for (station, state) in talking.iter().enumerate() {
        if let Some(state) = state {
            readings.push(Reading::Voltage { at: ReadingPlace::Station(station), state: state.clone() });
        }
    }
    readings
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
