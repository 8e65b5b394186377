//! What is known of the worst states: margins of devices, currents and powers of sources and runs.

use crate::layout::NodeRef;
use crate::margin::margin_v;
use crate::source_power::PowerState;
use latchline_finding::{ElementId, StateKind};
use latchline_site::model::Site;

/// A device that has a least voltage.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Device {
    /// A station: index into [`Site::stations`].
    Station(usize),
    /// The input of a box: index into [`Site::boxes`].
    Box(usize),
}

impl Device {
    /// Its name.
    pub fn id(self, site: &Site) -> &ElementId {
        match self {
            Device::Station(index) => &site.stations[index].id,
            Device::Box(index) => &site.boxes[index].id,
        }
    }
}

/// A device's worst margin in one state.
#[derive(Debug, Clone, PartialEq)]
pub struct StateMargin {
    /// Index into [`crate::StateSpace::phases`].
    pub phase: usize,
    /// Call options that stand (indices into the phase's).
    pub set: Vec<usize>,
    /// Voltage in the adverse corner, less the search's tolerance and the width of the solver's enclosure, so
    /// that no admissible set gives less; `None` without operating point.
    pub voltage_v: Option<f64>,
    /// The lowest voltage in the state, in the same way: not above `voltage_v`, and below it where the device stands lower while it needs
    /// less.
    pub lowest_v: Option<f64>,
    /// The limit that holds.
    pub limit_v: f64,
    /// The stage that has no operating point, or that could not be decided, if there is one.
    pub failing_stage: Option<usize>,
    /// Whether that stage was too close to collapse to be decided, rather than proved to have none.
    pub is_undecided: bool,
    /// Whether no set can be worse by more than the search's tolerance.
    pub complete: bool,
}

impl StateMargin {
    /// Voltage minus limit; minus infinity without operating point.
    pub fn margin_v(&self) -> f64 {
        margin_v(self.voltage_v, self.limit_v)
    }
}

/// A device with its margins.
#[derive(Debug, Clone, PartialEq)]
pub struct DeviceStates {
    /// Which device.
    pub device: Device,
    /// Where it is.
    pub at: NodeRef,
    /// Its worst margin in each state in which it has power, by phase.
    pub margins: Vec<StateMargin>,
    /// Index of the least margin.
    pub worst: usize,
    /// Voltage with nominal values in the worst state; `None` without operating point.
    pub nominal_v: Option<f64>,
}

impl DeviceStates {
    /// The state in which the margin is least.
    pub fn worst(&self) -> &StateMargin {
        &self.margins[self.worst]
    }

    /// The state in which the margin is least among those that have an operating point: a collapse in one state says nothing of the others.
    pub fn worst_held(&self) -> Option<&StateMargin> {
        let held = self.margins.iter().filter(|margin| margin.voltage_v.is_some());
        held.min_by(|a, b| a.margin_v().total_cmp(&b.margin_v()))
    }
}

/// The largest current through a segment.
#[derive(Debug, Clone, PartialEq)]
pub struct CurrentState {
    /// Index into [`crate::StateSpace::phases`].
    pub phase: usize,
    /// Call options that stand.
    pub set: Vec<usize>,
    /// The current in amperes; `None` without operating point.
    pub current_a: Option<f64>,
    /// Whether no set can be worse by more than the search's tolerance.
    pub complete: bool,
}

/// What is limited.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Limited {
    /// The voltage of a device, from below.
    Voltage(Device),
    /// The current of the source.
    SourceCurrent,
    /// The power at the terminals of the source.
    SourcePower,
    /// The current of the port from which a run starts.
    PortCurrent {
        /// The run.
        run: usize,
    },
    /// The current of the conductors of a run.
    CableCurrent {
        /// The run.
        run: usize,
    },
}

/// The first limit that is met as all loads of a stage grow together.
#[derive(Debug, Clone, PartialEq)]
pub struct FirstLimit {
    /// The factor at which it is met, below 1 where it is passed today.
    pub factor: f64,
    /// What is limited.
    pub limited: Limited,
    /// The limit, in volts, amperes or watts.
    pub limit: f64,
    /// Index into [`crate::StateSpace::phases`].
    pub phase: usize,
    /// Call options that stand.
    pub set: Vec<usize>,
}

/// How a state was dealt with.
#[derive(Debug, Clone, PartialEq)]
pub struct StateInfo {
    /// Which state.
    pub kind: StateKind,
    /// Sets of calls that were solved.
    pub solved_sets: u64,
    /// Call options.
    pub options: usize,
    /// Calls at once.
    pub most_calls: usize,
    /// Doors that may be released outside of calls.
    pub releases: usize,
    /// Of these at once.
    pub most_releases: usize,
    /// Whether every search in it was completed.
    pub complete: bool,
}

/// The worst of everything.
#[derive(Debug, Clone, PartialEq)]
pub struct WorstStates {
    /// Devices: stations in the site's order, then boxes with a least voltage.
    pub devices: Vec<DeviceStates>,
    /// Largest source current of every stage.
    pub source_current: Vec<Option<CurrentState>>,
    /// The same among the states that have an operating point: a collapse in one state says nothing of the others.
    pub source_current_held: Vec<Option<CurrentState>>,
    /// Current out of every stage's source when power returns and every device boots; `None` without operating point.
    pub power_return_current_a: Vec<Option<f64>>,
    /// Largest power at the terminals of every stage's source, by phase; `None` where it has no power.
    pub source_power: Vec<Vec<Option<PowerState>>>,
    /// Nominal source current of every stage in standby by day.
    pub standby_current_a: Vec<Option<f64>>,
    /// Largest current at the start of every run.
    pub run_current: Vec<Option<CurrentState>>,
    /// The same among the states that have an operating point.
    pub run_current_held: Vec<Option<CurrentState>>,
    /// How each state was dealt with.
    pub states: Vec<StateInfo>,
}

impl WorstStates {
    /// Largest power at the terminals of a stage's source among the states that have an operating point.
    pub fn largest_power_held(&self, stage: usize) -> Option<&PowerState> {
        let is_held = |phase: usize| {
            self.source_power[phase][stage].as_ref().is_some_and(|power| power.power_w.is_some())
        };
        self.largest_power(stage, is_held)
    }

    /// Largest power at the terminals of a stage's source among the states that a filter lets through.
    pub fn largest_power(&self, stage: usize, is_asked: impl Fn(usize) -> bool) -> Option<&PowerState> {
        let size = |one: &PowerState| one.power_w.unwrap_or(f64::INFINITY);
        let mut largest: Option<&PowerState> = None;
        for power in self.source_power.iter().filter_map(|of_phase| of_phase[stage].as_ref()) {
            if is_asked(power.phase) && largest.is_none_or(|known| size(power) > size(known)) {
                largest = Some(power);
            }
        }
        largest
    }
}
