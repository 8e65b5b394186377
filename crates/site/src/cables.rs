//! Every length of cable of a site, and what it belongs to.
//!
//! Schedules, the cut list and the bill count the same lengths; here they are listed once.

use crate::model::{Run, Site};
use latchline_finding::quantity::Length;

/// What a length of cable belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CableOwner {
    /// A section of a run.
    Section {
        /// Index into [`Site::runs`].
        run: usize,
        /// Section of that run.
        section: usize,
    },
    /// The cable of a lock.
    Lock {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its locks.
        lock: usize,
    },
    /// The cable to a contact at an alarm input.
    AlarmContact {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its alarm inputs.
        input: usize,
    },
}

/// A length of cable between two pairs of terminals.
#[derive(Debug, Clone, PartialEq)]
pub struct CableLength {
    /// What it belongs to.
    pub owner: CableOwner,
    /// Cable in the catalogue.
    pub cable: String,
    /// Pairs in parallel.
    pub pairs: u32,
    /// Cables side by side: more than one where the pairs need it.
    pub side_by_side: u32,
    /// Length along the route.
    pub length: Length,
    /// Whether it is in the walls already.
    pub is_existing: bool,
}

impl Site {
    /// Cables that a run needs side by side for its pairs.
    pub fn cables_side_by_side(&self, run: &Run) -> u32 {
        run.pairs.value.max(1).div_ceil(self.cable(run).pairs.value.max(1))
    }

    /// Every length of cable: sections of runs in file order, then, entrance by entrance, the cables of locks and of
    /// contacts that have a cable and a length.
    pub fn cable_lengths(&self) -> Vec<CableLength> {
        let mut list = Vec::new();
        for (index, run) in self.runs.iter().enumerate() {
            for (section, of_run) in run.sections.iter().enumerate() {
                list.push(CableLength {
                    owner: CableOwner::Section { run: index, section },
                    cable: run.cable.value.clone(),
                    pairs: run.pairs.value.max(1),
                    side_by_side: self.cables_side_by_side(run),
                    length: of_run.length.value,
                    is_existing: run.existing.value,
                });
            }
        }
        for (entrance, entry) in self.entrances.iter().enumerate() {
            let locks = entry.locks.iter().enumerate();
            let locks =
                locks.map(|(lock, used)| (CableOwner::Lock { entrance, lock }, &used.cable, &used.length));
            let inputs = entry.alarm_inputs.iter().enumerate().map(|(input, used)| {
                (CableOwner::AlarmContact { entrance, input }, &used.cable, &used.length)
            });
            for (owner, cable, length) in locks.chain(inputs) {
                let (Some(cable), Some(length)) = (cable, length) else { continue };
                list.push(CableLength {
                    owner,
                    cable: cable.value.clone(),
                    pairs: 1,
                    side_by_side: 1,
                    length: length.value,
                    is_existing: false,
                });
            }
        }
        list
    }
}
