//! What is read, where, and in which state.

use crate::bus_state::BusState;
use crate::layout::StageSource;
use latchline_finding::Unit;
use latchline_site::model::{RunStart, RunStop};

/// Where a meter is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ReadingPlace {
    /// The output of a supply: index into `Site::supplies`.
    Supply(usize),
    /// What a regenerating box feeds its ports from: index into `Site::boxes`.
    BoxOutput(usize),
    /// The input of a box: index into `Site::boxes`.
    BoxInput(usize),
    /// The signal link of an isolating box: index into `Site::boxes`.
    BoxLink(usize),
    /// A port of a box.
    Port {
        /// Index into `Site::boxes`.
        box_index: usize,
        /// Port number from 1.
        port: u32,
    },
    /// The terminals of a station: index into `Site::stations`.
    Station(usize),
    /// Where a run starts, in its own conductors: index into `Site::runs`.
    Run(usize),
}

impl From<RunStart> for ReadingPlace {
    fn from(start: RunStart) -> Self {
        match start {
            RunStart::Supply(index) => ReadingPlace::Supply(index),
            RunStart::Port { box_index, port } => ReadingPlace::Port { box_index, port },
            RunStart::Station(index) => ReadingPlace::Station(index),
        }
    }
}

impl From<RunStop> for ReadingPlace {
    fn from(stop: RunStop) -> Self {
        match stop {
            RunStop::Station(index) => ReadingPlace::Station(index),
            RunStop::BoxInput(index) => ReadingPlace::BoxInput(index),
            RunStop::BoxLink(index) => ReadingPlace::BoxLink(index),
        }
    }
}

impl From<StageSource> for ReadingPlace {
    fn from(source: StageSource) -> Self {
        match source {
            StageSource::Supply(index) => ReadingPlace::Supply(index),
            StageSource::Regenerator(index) => ReadingPlace::BoxOutput(index),
        }
    }
}

/// One reading that can be taken.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reading {
    /// The voltage between the legs, everything connected.
    Voltage {
        /// Where; at the start of a run that of the terminals it starts from.
        at: ReadingPlace,
        /// In which state.
        state: BusState,
    },
    /// The current in one leg, everything connected: out of a source, into everything else.
    Current {
        /// Where.
        at: ReadingPlace,
        /// In which state.
        state: BusState,
    },
    /// The voltage lost in sections of a run: at its start less at its end, both read within a minute with one meter on
    /// one range, so that neither the supply's setting nor the meter's gain is in the difference.
    Drop {
        /// Index into `Site::runs`.
        run: usize,
        /// The first section.
        first: usize,
        /// The last section.
        last: usize,
        /// In which state.
        state: BusState,
    },
    /// The voltage of a source with nothing connected to it.
    OpenCircuitVoltage {
        /// The source.
        source: StageSource,
    },
    /// The loop resistance of a run without power, disconnected from everything, its far end short-circuited.
    LoopResistance {
        /// Index into `Site::runs`.
        run: usize,
    },
    /// The capacitance between the legs of a run without power, disconnected from everything, its far end open.
    Capacitance {
        /// Index into `Site::runs`.
        run: usize,
    },
}

impl Reading {
    /// What the meter shows.
    pub fn unit(&self) -> Unit {
        match self {
            Reading::Voltage { .. } | Reading::Drop { .. } | Reading::OpenCircuitVoltage { .. } => Unit::Volt,
            Reading::Current { .. } => Unit::Ampere,
            Reading::LoopResistance { .. } => Unit::Ohm,
            Reading::Capacitance { .. } => Unit::Farad,
        }
    }

    /// Where the meter is held; for a drop its run.
    pub fn place(&self) -> ReadingPlace {
        match self {
            Reading::Voltage { at, .. } | Reading::Current { at, .. } => *at,
            Reading::OpenCircuitVoltage { source } => (*source).into(),
            Reading::Drop { run, .. } | Reading::LoopResistance { run } | Reading::Capacitance { run } => {
                ReadingPlace::Run(*run)
            }
        }
    }

    /// The operating state; `None` where the bus is dead or taken off.
    pub fn state(&self) -> Option<&BusState> {
        match self {
            Reading::Voltage { state, .. } | Reading::Current { state, .. } | Reading::Drop { state, .. } => {
                Some(state)
            }
            Reading::OpenCircuitVoltage { .. }
            | Reading::LoopResistance { .. }
            | Reading::Capacitance { .. } => None,
        }
    }
}
