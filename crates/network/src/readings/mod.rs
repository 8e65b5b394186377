//! What meters should read.
//!
//! A [`Reading`] says what is read, where and in which state; its [`Prediction`] says what it should be: nominal,
//! lowest and highest, each with the corner of the tolerances that it comes from, and what it rests on. What cannot
//! be predicted says why ([`NoPrediction`]).
//!
//! * [`Predictor`] predicts any readings of a site; `live` solves the operating states, `dead` adds up cables;
//! * [`Readings`] holds those that an installer takes: the standby voltage at every terminal and current into every
//!   run, the voltage of every station while it talks, loop and open-end capacitance of every run;
//! * [`SectionJoint`]: the smallest joint in a section that these readings reveal, and the smallest with which the site fails;
//! * [`Path`]: the way from a source to a device, segment by segment.
//!
//! Live readings are solved in three corners with every required device on ([`crate::phase`]). Where no load's
//! current rises with voltage, the voltages of the adverse corner are the lowest that the tolerances allow, those of the light
//! corner the highest; elsewhere the figure is marked as a bound ([`Estimate::is_bound`]).

mod dead;
mod installer;
mod joints;
mod live;
mod path;
mod prediction;
mod reading;

pub use dead::capacitance_f_per_m;
pub use installer::{Readings, RunCall, RunFeed, WorstOfDevice};
pub use joints::{DROP_METER_V, JointThatFails, SectionJoint};
pub use path::{Path, PathSegment};
pub use prediction::{Basis, Estimate, NoPrediction, Prediction, Predictions};
pub use reading::{Reading, ReadingPlace};

use crate::layout::{Layout, NodeRef, Segment, Stage, StageSource};
use crate::state_space::StateSpace;
use latchline_site::model::Site;

/// What predictions are made from.
#[derive(Clone, Copy)]
pub struct Predictor<'a> {
    /// The site.
    pub site: &'a Site,
    /// Its trees.
    pub layout: &'a Layout,
    /// Its operating states.
    pub space: &'a StateSpace,
}

impl Predictor<'_> {
    /// Predicts these readings.
    pub fn predict(&self, readings: impl IntoIterator<Item = Reading>) -> Predictions {
        let mut predictions = Predictions::new();
        let mut live = Vec::new();
        for reading in readings {
            let found = match &reading {
                Reading::OpenCircuitVoltage { source } => self.open_circuit(*source),
                Reading::LoopResistance { run } => Ok(dead::loop_resistance(self, *run)),
                Reading::Capacitance { run } => dead::capacitance(self.site, *run),
                Reading::Drop { run, last, .. } => match self.section_node(*run, *last) {
                    Some(node) => {
                        live.push((reading, node));
                        continue;
                    }
                    None => Err(NoPrediction::NotFed),
                },
                Reading::Voltage { at, .. } | Reading::Current { at, .. } => match self.node(*at) {
                    Some(node) => {
                        live.push((reading, node));
                        continue;
                    }
                    None => Err(NoPrediction::NotFed),
                },
            };
            predictions.insert(reading, found);
        }
        predictions.extend(live::predict(self, live));
        predictions
    }

    /// The node of a place: of a run the end of its first section. `None` where no supply reaches it.
    pub fn node(&self, place: ReadingPlace) -> Option<NodeRef> {
        let root = |source| {
            let stage = self.layout.stages.iter().position(|stage| stage.source == source)?;
            Some(NodeRef { stage, node: 0 })
        };
        let terminal = |wanted| {
            let mut stages = self.layout.stages.iter().enumerate();
            stages.find_map(|(stage, laid)| {
                let node = laid.terminal.iter().position(|terminal| *terminal == wanted)?;
                Some(NodeRef { stage, node })
            })
        };
        match place {
            ReadingPlace::Supply(index) => root(StageSource::Supply(index)),
            ReadingPlace::BoxOutput(index) => root(StageSource::Regenerator(index)),
            ReadingPlace::BoxInput(index) => self.layout.box_input.get(index).copied().flatten(),
            ReadingPlace::BoxLink(index) => terminal(crate::StageNode::BoxLink(index)),
            ReadingPlace::Port { box_index, port } => terminal(crate::StageNode::Port { box_index, port }),
            ReadingPlace::Station(index) => self.layout.station.get(index).copied().flatten(),
            ReadingPlace::Run(index) => self.layout.run_start.get(index).copied().flatten(),
        }
    }

    /// The node at the end of a section. `None` where no supply reaches it.
    pub fn section_node(&self, run: usize, section: usize) -> Option<NodeRef> {
        let end = self.layout.run_end.get(run).copied().flatten()?;
        let stage = self.layout.stage(end);
        let mut node = end.node;
        while stage.segment[node] != (Segment::Cable { run, section }) {
            node = within_run(stage, run, node)?;
        }
        Some(NodeRef { stage: end.stage, node })
    }

    fn open_circuit(&self, source: StageSource) -> Result<Prediction, NoPrediction> {
        let stage = self.layout.stages.iter().find(|stage| stage.source == source);
        let voltage_v = stage.ok_or(NoPrediction::NotFed)?.voltage_v;
        Ok(Prediction::of_corners(voltage_v.map(|value| (value, false)), Basis::Source))
    }
}

/// The node before this one on the same run; `None` before its first section.
fn within_run(stage: &Stage, run: usize, node: usize) -> Option<usize> {
    let above = stage.parent[node] as usize;
    let is_same = matches!(stage.segment[above], Segment::Cable { run: of, .. } if of == run);
    (node > 0 && is_same).then_some(above)
}
