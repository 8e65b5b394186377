//! The readings that an installer takes, predicted.

use super::section_joint::SectionJoint;
use super::{NoPrediction, Path, Prediction, Predictions, Reading, ReadingPlace};
use crate::bus_state::BusState;
use crate::layout::StageSource;
use crate::worst::Device;
use latchline_finding::StateKind;
use std::collections::BTreeMap;

/// A run with the supply that its power comes from, directly or through boxes that make a voltage of their own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RunFeed {
    /// Index into [`Site::runs`](latchline_site::model::Site::runs).
    pub run: usize,
    /// Index into [`Site::supplies`](latchline_site::model::Site::supplies); `None` where no supply reaches it.
    pub supply: Option<usize>,
}

/// A device in its worst state.
#[derive(Debug, Clone, Copy)]
pub struct WorstOfDevice<'s> {
    /// Which device.
    pub device: Device,
    /// The state in which its margin is least.
    pub state: &'s BusState,
    /// The limit of its voltage in that state.
    pub limit_v: f64,
}

/// A call that loads a run while its drop is read.
#[derive(Debug, Clone, PartialEq)]
pub struct RunCall {
    /// The station that talks, the farthest beyond the run that someone calls, or, where none is called, that calls: index into [`Site::stations`](latchline_site::model::Site::stations).
    pub station: usize,
    /// The state: it talks, nobody else calls.
    pub state: BusState,
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
    /// By run the call under which its drop is read; `None` where nobody beyond it calls or is called.
    pub run_call: Vec<Option<RunCall>>,
    /// What a joint in each section of each run would do; empty where no device was given.
    pub joints: Vec<SectionJoint>,
    /// The ways to the devices that were asked for.
    pub paths: BTreeMap<Device, Result<Path, NoPrediction>>,
}

impl Readings {
    /// The drops over sections of a run: in standby, then under the run's call.
    pub fn drops(&self, run: usize, first: usize, last: usize) -> Vec<Reading> {
        let call = self.run_call.get(run).into_iter().flatten().map(|call| call.state.clone());
        std::iter::once(StateKind::StandbyDay.into())
            .chain(call)
            .map(|state| Reading::Drop { run, first, last, state })
            .collect()
    }

    /// What a joint in each section of a run would do.
    pub fn joints_of(&self, run: usize) -> impl Iterator<Item = &SectionJoint> {
        self.joints.iter().filter(move |joint| joint.run == run)
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
