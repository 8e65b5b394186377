//! The way from a source to one device, segment by segment, in the adverse corner.

use super::{NoPrediction, Predictor, live};
use crate::bus_state::BusState;
use crate::corner::Corner;
use crate::evaluate::Solver;
use crate::layout::{NodeRef, Segment, StageSource};
use crate::resistance::conductor_ohm_per_m;
use crate::worst::Device;

/// One segment of the way.
#[derive(Debug, Clone, PartialEq)]
pub struct PathSegment {
    /// What it is.
    pub segment: Segment,
    /// Loop resistance in ohms.
    pub resistance_ohm: f64,
    /// Current through it in amperes.
    pub current_a: f64,
    /// Voltage lost in it.
    pub drop_v: f64,
    /// Of a section: resistance of a metre of one conductor at the hottest temperature, in ohms, without tolerance.
    pub conductor_ohm_per_m: Option<f64>,
}

/// The way to a device.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// The device.
    pub device: Device,
    /// In which state.
    pub state: BusState,
    /// What feeds it.
    pub source: StageSource,
    /// The source's nominal voltage.
    pub nominal_source_v: f64,
    /// The source's open-circuit voltage in this state and corner.
    pub source_v: f64,
    /// Segments in the order of the current.
    pub segments: Vec<PathSegment>,
    /// Voltage lost in all of them.
    pub drop_v: f64,
    /// Voltage at the device.
    pub voltage_v: f64,
}

impl Path {
    /// Volts by which a bound of the voltage at the device lies below source less drops: what the search for the worst state left open.
    pub fn left_open_v(&self, bound_v: f64) -> f64 {
        self.source_v - self.drop_v - bound_v
    }
}

impl Predictor<'_> {
    /// The node of a device.
    pub fn device_node(&self, device: Device) -> Option<NodeRef> {
        match device {
            Device::Station(index) => self.layout.station.get(index).copied().flatten(),
            Device::Box(index) => self.layout.box_input.get(index).copied().flatten(),
        }
    }

    /// The way to a device in a state, in the adverse corner.
    ///
    /// # Errors
    /// [`NoPrediction`] where the state has no operating point there, or cannot occur.
    pub fn path(&self, device: Device, state: &BusState) -> Result<Path, NoPrediction> {
        let at = self.device_node(device).ok_or(NoPrediction::NotFed)?;
        let phase = self.phase(state.kind, Corner::Adverse).ok_or(NoPrediction::NoSuchState)?;
        let mut solver = Solver::of_stage(self.layout, &phase, at.stage);
        live::solve(&mut solver, &phase, at.stage, state)?;
        let currents = solver.branch_currents(at.stage).ok_or(NoPrediction::Undecided)?;
        let source_v = phase.voltage_v[at.stage].ok_or(NoPrediction::NoPower)?;
        let stage = self.layout.stage(at);
        let resistance_ohm = &stage.resistance_ohm[Corner::Adverse.index()];
        let mut segments = Vec::new();
        let mut node = at.node;
        loop {
            let (resistance_ohm, current_a) = (resistance_ohm[node], currents.branch_a[node]);
            segments.push(PathSegment {
                segment: stage.segment[node],
                resistance_ohm,
                current_a,
                drop_v: resistance_ohm * current_a,
                conductor_ohm_per_m: self.conductor_of(stage.segment[node]),
            });
            if node == 0 {
                break;
            }
            node = stage.parent[node] as usize;
        }
        segments.reverse();
        Ok(Path {
            device,
            state: state.clone(),
            source: stage.source,
            nominal_source_v: stage.voltage_v[Corner::Nominal.index()],
            source_v,
            drop_v: segments.iter().map(|segment| segment.drop_v).sum(),
            segments,
            voltage_v: solver.solution(at.stage).voltage_v[at.node],
        })
    }

    fn conductor_of(&self, segment: Segment) -> Option<f64> {
        let Segment::Cable { run, .. } = segment else { return None };
        let hot_c = self.site.conditions.hottest_temperature.value.as_celsius();
        Some(conductor_ohm_per_m(self.site.cable(&self.site.runs[run]), hot_c))
    }
}
