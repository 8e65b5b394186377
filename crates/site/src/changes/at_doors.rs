//! The cables at doors.

use super::told::CableAtDoor;
use crate::cables::{CableOwner, DoorCable};
use crate::model::Site;
use latchline_finding::ElementId;
use std::collections::BTreeMap;

/// The cables at doors by entrance and by what they lead to.
pub(super) fn cables_at_doors(site: &Site) -> BTreeMap<(ElementId, DoorCable), CableAtDoor> {
    let lengths = site.cable_lengths().into_iter().filter_map(|laid| {
        let CableOwner::AtDoor(owner) = laid.owner else { return None };
        // The place of an entrance in its file says nothing of the cable.
        let (entrance, to) = match owner {
            DoorCable::Lock { entrance, lock } => (entrance, DoorCable::Lock { entrance: 0, lock }),
            DoorCable::LockPart { entrance, lock, part } => {
                (entrance, DoorCable::LockPart { entrance: 0, lock, part })
            }
            DoorCable::Light { entrance, light } => (entrance, DoorCable::Light { entrance: 0, light }),
            DoorCable::AlarmContact { entrance, input } => {
                (entrance, DoorCable::AlarmContact { entrance: 0, input })
            }
        };
        let one = CableAtDoor { cable: laid.cable, length_m: laid.length.as_metres(), pairs: laid.pairs };
        Some(((site.entrances[entrance].id.clone(), to), one))
    });
    lengths.collect()
}
