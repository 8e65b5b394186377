//! What is asked.

use crate::door_lock::{DoorLock, usual_lock};
use latchline_site::catalogue::{BoxKind, BoxRole, Catalogue, Media, StationKind};

/// The longest chain that is asked for.
pub const MOST_STATIONS: usize = 40;

/// A family, a station, and what feeds it.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// The family.
    pub family: String,
    /// Model of every station of the chain.
    pub station: String,
    /// Model of the door stations.
    pub door: String,
    /// Model of the supply.
    pub supply: String,
    /// Model of the distributor.
    pub distributor: String,
    /// The lock at every door; `None` where no door feeds one.
    pub lock: Option<DoorLock>,
}

/// The question with the heaviest station, the largest supply, the plainest distributor of a
/// family and the usual lock of its door; `None` if the family lacks one of them.
pub fn default_question(catalogue: &Catalogue, family: &str) -> Option<Question> {
    let of_family = |name: &str| name == family;
    let heaviest = |kind: StationKind| {
        catalogue
            .stations
            .values()
            .filter(|model| of_family(&model.family.value) && model.kind.value == kind)
            .min_by_key(|model| {
                // Without a count, video is heavier than audio.
                let most = model.most_per_supply.as_ref().map_or(u32::MAX, |most| most.value);
                (most, model.media.value == Media::Audio, model.head.name.clone())
            })
            .map(|model| model.head.name.clone())
    };
    let supply =
        catalogue.supplies.values().filter(|model| of_family(&model.family.value)).max_by(|a, b| {
            let current =
                |model: &&latchline_site::catalogue::SupplyModel| model.rated_current.value.as_amps();
            current(a).total_cmp(&current(b)).then(b.head.name.cmp(&a.head.name))
        })?;
    // A distributor that passes or limits the power is the plainest; a converter comes after.
    let distributor = catalogue
        .boxes
        .values()
        .filter(|model| of_family(&model.family.value) && model.role.value == BoxRole::Distributor)
        .filter(|model| model.kind.value != BoxKind::Isolating)
        .min_by_key(|model| {
            (model.kind.value == BoxKind::Transparent, model.kind.value, model.head.name.clone())
        })?;
    let door = heaviest(StationKind::Door)?;
    Some(Question {
        family: family.to_string(),
        station: heaviest(StationKind::Indoor)?,
        lock: usual_lock(catalogue, &door),
        door,
        supply: supply.head.name.clone(),
        distributor: distributor.head.name.clone(),
    })
}
