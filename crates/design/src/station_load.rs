//! What stations draw, as planning takes it, and which station fits where.

use crate::draw::{draw, plus};
use crate::electric::{Draw, StationLoad};
use crate::obstacle::Obstacle;
use crate::parts::{cost_of, is_withdrawn};
use latchline_site::catalogue::{Catalogue, LoadValue, Media, PowerLoss, StationKind, StationModel};
use latchline_survey::Survey;
use latchline_words::design::{LackingPart, UnknownPart};

/// When a station energises a lock from the bus.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LockLoad {
    /// It has none, or one with power of its own.
    None,
    /// To release it.
    Released,
    /// All the time that the door is shut.
    Held,
}

/// When the station of an entrance energises its lock from the bus.
pub fn lock_load(catalogue: &Catalogue, entrance: &latchline_survey::model::Entrance) -> LockLoad {
    let Some(lock) = &entrance.lock else { return LockLoad::None };
    if !lock.feed.as_deref().is_none_or(|feed| matches!(feed, "station" | "bus")) {
        return LockLoad::None;
    }
    let opens = catalogue
        .locks
        .get(&lock.model.value)
        .is_some_and(|model| model.power_loss.value == PowerLoss::Opens);
    match lock.contact.as_deref() {
        Some("normally-closed") => LockLoad::Held,
        None if opens => LockLoad::Held,
        _ => LockLoad::Released,
    }
}

/// The load of a station. `alone`: it is the only one of its dwelling, so that talking counts too.
pub fn load_of(model: &StationModel, alone: bool, heater: bool, lock: LockLoad) -> StationLoad {
    let factor = 1.0 + model.load_tolerance.value.as_fraction();
    let drop_v = model.rectifier_drop.as_ref().map_or(0.0, |drop| drop.value.as_volts());
    let least_standby_v = model.least_standby_voltage.value.as_volts();
    let of = |value: LoadValue| draw(value, factor, least_standby_v);
    let mut night = model.night_extra.as_ref().map_or(Draw::default(), |extra| of(extra.value));
    if heater && let Some(extra) = &model.heater_extra {
        night = plus(night, of(extra.value));
    }
    let mut talking = of(model.talking.value);
    if let Some(extra) = &model.releasing_extra {
        match lock {
            LockLoad::None => {}
            LockLoad::Released => talking = plus(talking, of(extra.value)),
            // In every state, as the illumination at night.
            LockLoad::Held => night = plus(night, of(extra.value)),
        }
    }
    let ringing = of(model.ringing.value);
    let at_v = model.least_voltage.value.as_volts().max(drop_v + 1.0);
    let in_use = if alone && talking.at(at_v, drop_v) > ringing.at(at_v, drop_v) { talking } else { ringing };
    let boot = model.boot.as_ref().map_or(of(model.standby.value), |boot| of(boot.value));
    StationLoad {
        standby: plus(of(model.standby.value), night),
        ringing: plus(ringing, night),
        talking: plus(talking, night),
        in_use: plus(in_use, night),
        boot: plus(boot, night),
        drop_v,
        least_v: model.least_voltage.value.as_volts(),
        least_standby_v,
        share: model.most_per_supply.as_ref().map_or(0.0, |most| 1.0 / f64::from(most.value.max(1))),
    }
}

/// The wanted model; where none is wanted the cheapest of its kind and media that does, as for one that is withdrawn.
///
/// # Errors
/// If the wanted model is not there or of another family, or the family has none.
pub fn station<'c>(
    survey: &Survey,
    catalogue: &'c Catalogue,
    family: &str,
    kind: StationKind,
    media: Media,
    called: usize,
    wanted: Option<&str>,
) -> Result<&'c StationModel, Obstacle> {
    let mut media = media;
    if let Some(name) = wanted {
        match catalogue.stations.get(name) {
            Some(model)
                if model.family.value == family
                    && model.kind.value == kind
                    && !is_withdrawn(survey, name) =>
            {
                return Ok(model);
            }
            Some(model) if model.family.value != family => {
                return Err(Obstacle::OtherFamily {
                    family: family.to_string(),
                    station: name.to_string(),
                    of: model.family.value.clone(),
                });
            }
            Some(model) => media = model.media.value,
            None => return Err(Obstacle::UnknownPart { part: UnknownPart::Station, name: name.to_string() }),
        }
    }
    let suits = |model: &&StationModel| {
        model.family.value == family
            && model.kind.value == kind
            && (kind == StationKind::Management || model.media.value == media)
            && model.directory.as_ref().is_none_or(|directory| directory.value as usize >= called)
    };
    catalogue
        .stations
        .values()
        .filter(suits)
        .filter_map(|model| Some((cost_of(&model.head, survey)?, model)))
        .min_by(|a, b| a.0.cmp(&b.0).then(a.1.head.name.cmp(&b.1.head.name)))
        .map(|(_, model)| model)
        .ok_or_else(|| {
            let part = match (kind, media) {
                (StationKind::Management, _) => LackingPart::ManagementStation,
                (StationKind::Indoor, Media::Video) => LackingPart::VideoIndoor,
                (StationKind::Indoor, Media::Audio) => LackingPart::AudioIndoor,
                (StationKind::Door, Media::Video) => LackingPart::VideoDoor,
                (StationKind::Door, Media::Audio) => LackingPart::AudioDoor,
            };
            Obstacle::NoPart { family: family.to_string(), part }
        })
}
