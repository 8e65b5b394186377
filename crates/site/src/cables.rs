//! Every length of cable of a site, and what it belongs to.
//!
//! Schedules, the cut list and the bill count the same lengths; here they are listed once.

use crate::model::{LockPart, Run, Site};
use latchline_finding::Sourced;
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
    /// A cable to something fitted at a door.
    AtDoor(DoorCable),
}

/// A cable to something fitted at a door.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DoorCable {
    /// The cable of a lock.
    Lock {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its locks.
        lock: usize,
    },
    /// The cable to a part of a lock's circuit.
    LockPart {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its locks.
        lock: usize,
        /// The part.
        part: LockPart,
    },
    /// The cable to a light at a door.
    Light {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its lights.
        light: usize,
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

    /// Every length of cable: sections of runs in file order, then, entrance by entrance, the cables of locks with those of
    /// their parts, of lights and of contacts that have a cable and a length.
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
        for entrance in 0..self.entrances.len() {
            self.cables_at_door(entrance, &mut list);
        }
        list
    }

    fn cables_at_door(&self, entrance: usize, list: &mut Vec<CableLength>) {
        let entry = &self.entrances[entrance];
        let mut add = |owner, conductors: u32, cable: &Sourced<String>, length: &Sourced<Length>| {
            let pairs = conductors.div_ceil(2);
            let in_cable = self.catalogue.cables[&cable.value].pairs.value.max(1);
            list.push(CableLength {
                owner: CableOwner::AtDoor(owner),
                cable: cable.value.clone(),
                pairs,
                side_by_side: pairs.div_ceil(in_cable),
                length: length.value,
                is_existing: false,
            });
        };
        for (lock, used) in entry.locks.iter().enumerate() {
            if let (Some(cable), Some(length)) = (&used.cable, &used.length) {
                add(DoorCable::Lock { entrance, lock }, 2 * used.pairs.value.max(1), cable, length);
            }
            for to in &used.cables {
                let part = to.to.value;
                let owner = DoorCable::LockPart { entrance, lock, part };
                add(owner, used.conductors_to(part), &to.cable, &to.length);
            }
        }
        for (light, used) in entry.lights.iter().enumerate() {
            if let (Some(cable), Some(length)) = (&used.cable, &used.length) {
                add(DoorCable::Light { entrance, light }, 2, cable, length);
            }
        }
        for (input, used) in entry.alarm_inputs.iter().enumerate() {
            if let (Some(cable), Some(length)) = (&used.cable, &used.length) {
                add(DoorCable::AlarmContact { entrance, input }, 2, cable, length);
            }
        }
    }
}
