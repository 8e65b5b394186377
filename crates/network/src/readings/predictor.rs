//! What predictions are made from, and where readings are in it.

use super::prediction::{Basis, NoPrediction, Prediction};
use super::reading::ReadingPlace;
use crate::layout::{Layout, NodeRef, Segment, Stage, StageNode, StageSource};
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
            ReadingPlace::BoxLink(index) => terminal(StageNode::BoxLink(index)),
            ReadingPlace::Port { box_index, port } => terminal(StageNode::Port { box_index, port }),
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

    pub(super) fn open_circuit(&self, source: StageSource) -> Result<Prediction, NoPrediction> {
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
