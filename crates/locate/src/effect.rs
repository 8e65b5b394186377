//! What a fault does to the network.

use latchline_network::{Layout, NodeRef, Segment};

/// One physical change against the drawn site. A fault is a list of them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Effect {
    /// Loop resistance in series with the segment that leads to a node, in ohms.
    Series {
        /// The node.
        at: NodeRef,
        /// Ohms of the loop.
        ohm: f64,
    },
    /// The segment that leads to a node is broken.
    Open {
        /// The node.
        at: NodeRef,
    },
    /// A resistance between the two conductors of the segment that leads to a node.
    Across {
        /// The node.
        at: NodeRef,
        /// Where along the segment: 0 at its near end, 1 at the node.
        position: f64,
        /// Its conductance in siemens.
        siemens: f64,
    },
    /// Power drawn at a node beyond what is drawn in the plan, in watts.
    Extra {
        /// The node.
        at: NodeRef,
        /// Watts.
        watt: f64,
    },
    /// The device at a node draws nothing.
    NoLoad {
        /// The node.
        at: NodeRef,
    },
    /// The open-circuit voltage of a stage times this factor.
    SourceVoltage {
        /// Index of the stage.
        stage: usize,
        /// The factor.
        factor: f64,
    },
    /// Resistance behind a source beyond its own, in ohms.
    SourceResistance {
        /// Index of the stage.
        stage: usize,
        /// Ohms.
        ohm: f64,
    },
    /// A source gives nothing.
    Dead {
        /// Index of the stage.
        stage: usize,
    },
    /// The conductors of a whole run have this many times their resistance.
    Conductors {
        /// Index of the run.
        run: usize,
        /// The factor.
        factor: f64,
    },
    /// One section is this many times as long: its resistance and its capacitance.
    Longer {
        /// The node at its far end.
        at: NodeRef,
        /// The factor.
        factor: f64,
    },
    /// The two conductors are exchanged in the segment that leads to a node.
    Reversed {
        /// The node.
        at: NodeRef,
    },
    /// Capacitance across a run beyond its own, in farads.
    Capacitance {
        /// Index of the run.
        run: usize,
        /// Farads.
        farad: f64,
    },
    /// A resistance from a conductor of a run to earth, as conductance in siemens.
    Earth {
        /// Index of the run.
        run: usize,
        /// Its conductance.
        siemens: f64,
    },
}

impl Effect {
    /// The run of which it changes what a meter shows of it alone, if it changes one.
    pub(crate) fn run(self, layout: &Layout) -> Option<usize> {
        match self {
            Effect::Series { at, .. }
            | Effect::Open { at }
            | Effect::Across { at, .. }
            | Effect::Longer { at, .. }
            | Effect::Reversed { at } => match layout.stages[at.stage].segment[at.node] {
                Segment::Cable { run, .. } => Some(run),
                _ => None,
            },
            Effect::Conductors { run, .. } | Effect::Capacitance { run, .. } | Effect::Earth { run, .. } => {
                Some(run)
            }
            _ => None,
        }
    }

    /// The stage whose flow it changes, if it changes one.
    pub(crate) fn touches(self, stage: usize, runs: &[Option<usize>]) -> bool {
        match self {
            Effect::Series { at, .. }
            | Effect::Open { at }
            | Effect::Across { at, .. }
            | Effect::Extra { at, .. }
            | Effect::NoLoad { at }
            | Effect::Longer { at, .. }
            | Effect::Reversed { at } => at.stage == stage,
            Effect::SourceVoltage { stage: of, .. }
            | Effect::SourceResistance { stage: of, .. }
            | Effect::Dead { stage: of } => of == stage,
            Effect::Conductors { run, .. } => runs.get(run).copied().flatten() == Some(stage),
            Effect::Capacitance { .. } | Effect::Earth { .. } => false,
        }
    }
}
