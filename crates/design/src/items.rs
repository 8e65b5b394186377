//! What hangs on runs: dwellings with all their stations, door stations, desks; and who can call whom.

use crate::electric::StationLoad;
use crate::instance::Instance;
use crate::item::{Item, ItemLocks, Owner};
use crate::money::Amount;
use crate::obstacle::Obstacle;
use crate::parts::cost_of;
use crate::station_load::{LockLoad, load_of, lock_load, station};
use latchline_site::catalogue::{Environment, LoopThrough, StationKind, StationModel};
use latchline_survey::Survey;
use latchline_words::design::CountedPart;

impl Instance<'_> {
    pub(crate) fn items(&mut self, family: &str) -> Result<(), Obstacle> {
        let survey = self.survey;
        let settings = &survey.settings;
        let limit =
            |count: usize, limit: &Option<latchline_finding::Sourced<u32>>, part: CountedPart| match limit {
                Some(limit) if count > limit.value as usize => {
                    Err(Obstacle::Count { part, count, limit: limit.value as usize })
                }
                _ => Ok(()),
            };
        for (index, entrance) in survey.entrances.iter().enumerate() {
            let media = entrance.media.unwrap_or(settings.media);
            let called = called(survey, &entrance.calls);
            let wanted = entrance.station.as_ref().or(settings.door_station.as_ref());
            let wanted = wanted.map(|model| model.value.as_str());
            let model = station(survey, self.catalogue, family, StationKind::Door, media, called, wanted)?;
            let lock = lock_load(self.catalogue, entrance);
            let load = load_of(model, true, entrance.heater, lock);
            let place = entrance.place;
            self.add(Owner::Entrance(index), &entrance.name.value, place, entrance.drop_m, &[model], &[load]);
            if let Some(item) = self.items.last_mut() {
                item.environment = entrance.environment;
                // Its protector stands in its run alone.
                item.solo |= entrance.surge_protection_ohm.is_some();
            }
            let lock_cost = self.lock_cost(entrance);
            if let Some(item) = self.items.last_mut() {
                item.own_cost += lock_cost;
            }
        }
        for (index, desk) in survey.desks.iter().enumerate() {
            let wanted = desk.station.as_ref().map(|model| model.value.as_str());
            let media = settings.media;
            let model = station(survey, self.catalogue, family, StationKind::Management, media, 0, wanted)?;
            let load = load_of(model, true, false, LockLoad::None);
            self.add(Owner::Desk(index), &desk.name.value, desk.place, desk.drop_m, &[model], &[load]);
        }
        for (index, dwelling) in survey.dwellings.iter().enumerate() {
            let wanted = dwelling.station.as_ref().or(settings.indoor_station.as_ref());
            let wanted = wanted.map(|model| model.value.as_str());
            let media = settings.media;
            let main = station(survey, self.catalogue, family, StationKind::Indoor, media, 0, wanted)?;
            let mut models = vec![main];
            for extension in &dwelling.extensions {
                let wanted = if extension.is_empty() { main.head.name.as_str() } else { extension.as_str() };
                models.push(station(
                    survey,
                    self.catalogue,
                    family,
                    StationKind::Indoor,
                    media,
                    0,
                    Some(wanted),
                )?);
            }
            limit(models.len(), &self.family.stations_per_dwelling, CountedPart::StationsOfDwelling)?;
            let loads: Vec<StationLoad> =
                models.iter().map(|model| load_of(model, models.len() == 1, false, LockLoad::None)).collect();
            let place = dwelling.place;
            self.add(Owner::Dwelling(index), &dwelling.name.value, place, dwelling.drop_m, &models, &loads);
            if let Some(item) = self.items.last_mut() {
                let termination_m = 2.0 * settings.termination_m;
                let length_m = dwelling.extension_m * (1.0 + settings.slack) + termination_m;
                item.extension_dm = (length_m * 10.0 - 1e-6).ceil().max(1.0) as u32;
            }
        }
        Ok(())
    }

    /// Marks on every item who can call it.
    pub(crate) fn who_calls_whom(&mut self) {
        let survey = self.survey;
        for item in 0..self.items.len() {
            let words = match self.items[item].owner {
                Owner::Entrance(index) => &survey.entrances[index].calls,
                Owner::Desk(index) => &survey.desks[index].calls,
                Owner::Dwelling(_) => continue,
            };
            let number = self.callers.len();
            if number == 128 {
                break;
            }
            self.callers.push(item);
            let mut anyone = false;
            for other in &mut self.items {
                let Owner::Dwelling(index) = other.owner else { continue };
                if words.is_empty() || words.iter().any(|word| survey.means_dwelling(word, index)) {
                    other.called_by |= 1 << number;
                    anyone = true;
                }
            }
            self.calls_anyone.push(anyone);
            if anyone {
                self.items[item].called_by |= 1 << number;
            }
        }
    }

    /// How many of these items can be in a call at once, whichever they are: as many as callers reach all of
    /// them; else one, if somebody reaches the last.
    pub fn calls_among(&self, items: &[usize]) -> usize {
        let all = items.iter().fold(u128::MAX, |all, item| all & self.items[*item].called_by);
        let last = items.last().is_some_and(|item| self.items[*item].called_by != 0);
        (all.count_ones() as usize).max(usize::from(last)).min(self.calls)
    }

    fn add(
        &mut self,
        owner: Owner,
        name: &str,
        place: usize,
        drop_m: f64,
        models: &[&StationModel],
        loads: &[StationLoad],
    ) {
        let ends = models.iter().any(|model| model.loop_through.value == LoopThrough::End);
        let own_cost = models.iter().map(|model| cost_of(&model.head, self.survey).unwrap_or(0)).sum();
        self.items.push(Item {
            owner,
            name: name.to_string(),
            place,
            drop_mm: (drop_m * 1e3).round() as u64,
            extension_dm: 0,
            models: models.iter().map(|model| model.head.name.clone()).collect(),
            stops: std::iter::once(name.to_string())
                .chain((2..=models.len()).map(|ordinal| format!("{name}:{ordinal}")))
                .collect(),
            loads: loads.to_vec(),
            // Stations in one dwelling that cannot be looped are the site file's matter, not a chain's.
            solo: ends && models.len() > 1,
            ends,
            environment: Environment::Indoors,
            own_cost,
            locks: ItemLocks::default(),
            called_by: 0,
        });
    }

    fn lock_cost(&self, entrance: &latchline_survey::model::Entrance) -> Amount {
        let Some(lock) = &entrance.lock else { return 0 };
        let model = self.catalogue.locks.get(&lock.model.value);
        let own = model.map_or(0, |model| cost_of(&model.head, self.survey).unwrap_or(0));
        let cable = lock.cable.as_ref().and_then(|cable| self.catalogue.cables.get(&cable.value));
        own + cable.zip(lock.length_m).map_or(0, |(cable, length_m)| {
            let per_m = cost_of(&cable.head, self.survey).unwrap_or(0);
            (per_m as f64 * length_m).floor() as Amount
        })
    }
}

/// How many dwellings an entrance calls.
fn called(survey: &Survey, words: &[String]) -> usize {
    if words.is_empty() {
        return survey.dwellings.len();
    }
    let is_called = |at: &usize| words.iter().any(|word| survey.means_dwelling(word, *at));
    (0..survey.dwellings.len()).filter(is_called).count()
}
