//! Supplies, boxes, entrances, dwellings and management stations.

use super::names::NameIndex;
use super::places::PlaceIndex;
use super::resolver::{PartKind, Resolver, STATED, WrongKind};
use super::scope::{Asked, ScopeCost};
use crate::catalogue::{BoxRole, StationKind};
use crate::codes;
use crate::model::{
    DistributionBox, Dwelling, Entrance, EntranceRole, Management, Place, Scope, Site, SiteHead, Station,
    StationOwner, Supply,
};
use crate::parse::{Entry, Record, clip};
use crate::ranges;
use latchline_finding::{Both, ElementId, Sourced};
use latchline_words::reading::{BadRange, Expected, Thing};
use std::collections::{BTreeMap, BTreeSet};

/// The model that `[site]` names for the stations that name none.
struct DefaultModel<'s> {
    /// The key.
    key: &'static str,
    model: Option<&'s Sourced<String>>,
    /// Whether it was written and refused.
    is_refused: bool,
}

impl<'s> DefaultModel<'s> {
    fn new(file: &Record<'_>, key: &'static str, model: Option<&'s Sourced<String>>) -> Self {
        let is_written = file.table("site").is_some_and(|site| site.is_written(key));
        DefaultModel { key, model, is_refused: model.is_none() && is_written }
    }
}

/// A dwelling of the file.
struct Listed<'e, 'd> {
    /// Its own line, or that of its range.
    entry: &'e Entry<'d>,
    /// The range that it belongs to.
    range: Option<&'e Entry<'d>>,
    name: String,
    /// Its place in the range, from 0.
    at: usize,
}

/// Whether a dwelling of a range has a line of its own that says where it is.
fn entry_places_itself(entry: &Entry<'_>, range: &Entry<'_>) -> bool {
    !std::ptr::eq(entry, range) && entry.record.is_written("place")
}

impl Resolver<'_> {
    /// Fills in everything but the catalogue.
    pub(super) fn elements(&mut self, file: &Record<'_>, head: &SiteHead, site: &mut Site) {
        let (buildings, places) = self.buildings(file);
        site.buildings = buildings;
        self.supplies(file, &places, site);
        self.boxes(file, "distributors", BoxRole::Distributor, &places, site);
        self.boxes(file, "branch-boxes", BoxRole::BranchBox, &places, site);
        self.dwellings(file, head, &places, site);
        self.entrances(file, head, &places, site);
        self.management(file, head, &places, site);
        let names = self.index_names(site);
        self.scopes(file, &names, &places, site);
        self.runs(file, head, &names, site);
        self.report_look_alikes(site.runs.iter().map(|run| (run.id.as_str(), &run.origin)));
    }

    fn supplies(&mut self, file: &Record<'_>, places: &PlaceIndex, site: &mut Site) {
        for entry in file.named("supplies") {
            let record = &entry.record;
            let model = self.model(record, "model", PartKind::Supply, entry.name);
            let place = self.place(record, entry.name, places);
            let id = ElementId::new(entry.name);
            let supply = Supply::read(record, STATED, id, record.at(&entry.span), model, place);
            if let (Some(coldest), Some(hottest)) = (&supply.coldest_ambient, &supply.ambient)
                && coldest.value.as_celsius() > hottest.value.as_celsius()
            {
                let finding = self
                    .report(codes::VALUES_OUT_OF_ORDER, coldest.origin.clone())
                    .about(supply.id.clone())
                    .with("key", "coldest_ambient")
                    .with("other_key", "ambient");
                self.findings.push(finding);
            }
            site.supplies.push(supply);
        }
    }

    fn boxes(&mut self, file: &Record<'_>, key: &str, role: BoxRole, places: &PlaceIndex, site: &mut Site) {
        for entry in file.named(key) {
            let record = &entry.record;
            let model = self.model(record, "model", PartKind::Box, entry.name);
            let found = self.loader.catalogue.boxes.get(&model.value).map(|part| part.role.value);
            if let Some(found) = found.filter(|found| *found != role) {
                self.wrong_kind(&model, box_role_word(found), box_role_word(role), entry.name);
            }
            let place = self.place(record, entry.name, places);
            let id = ElementId::new(entry.name);
            site.boxes.push(DistributionBox::read(record, STATED, id, record.at(&entry.span), model, place));
        }
    }

    /// A model that must be there; reports it if it is not in the catalogue.
    pub(super) fn model(
        &mut self,
        record: &Record<'_>,
        key: &str,
        kind: PartKind,
        element: &str,
    ) -> Sourced<String> {
        match record.read::<Sourced<String>>(key, STATED) {
            Some(model) => {
                self.check_part(kind, &model, Some(element));
                model
            }
            None => Sourced::assumed(String::new()),
        }
    }

    /// A station's model: its own, or the default of `[site]`.
    fn station_model(
        &mut self,
        own: Option<Sourced<String>>,
        default: &DefaultModel<'_>,
        wanted: StationKind,
        entry: &Entry<'_>,
        key: &'static str,
    ) -> Sourced<String> {
        let Some(model) = own.or_else(|| default.model.cloned()) else {
            if !entry.record.is_written(key) && !default.is_refused {
                let finding = self
                    .report(codes::MISSING_KEY, entry.record.at(&entry.span))
                    .about(entry.name)
                    .with("key", key)
                    .with("table", entry.record.spec.name.both())
                    .with("expected", Expected::StationHereOrUnderSite { key: default.key }.both());
                self.findings.push(finding);
            }
            return Sourced::assumed(String::new());
        };
        if self.check_part(PartKind::Station, &model, Some(entry.name)) {
            let found = self.loader.catalogue.stations.get(&model.value).map(|part| part.kind.value);
            if let Some(found) = found.filter(|found| *found != wanted) {
                self.wrong_kind(&model, station_kind_word(found), station_kind_word(wanted), entry.name);
            }
        }
        model
    }

    fn wrong_kind(&mut self, part: &Sourced<String>, found: Thing, expected: Thing, element: &str) {
        if !self.reported.insert(part.origin.clone()) {
            return;
        }
        let same = |one: &&mut WrongKind| {
            one.part.value == part.value && (one.found, one.expected) == (found, expected)
        };
        match self.wrong_kinds.iter_mut().find(same) {
            Some(known) => known.elements.push(element.to_string()),
            None => {
                let (part, elements) = (part.clone(), vec![element.to_string()]);
                self.wrong_kinds.push(WrongKind { part, found, expected, elements });
            }
        }
    }

    fn dwellings(&mut self, file: &Record<'_>, head: &SiteHead, places: &PlaceIndex, site: &mut Site) {
        let default = DefaultModel::new(file, "indoor_station", head.indoor_station.as_ref());
        for listed in self.listed(file.named("dwellings")) {
            let Listed { entry, range, ref name, at } = listed;
            let index = site.dwellings.len();
            let record = &entry.record;
            let origin = record.at(&entry.span);
            let id = ElementId::new(name);
            // What its own line does not say, the range says.
            let said = |key: &str| match range {
                Some(range) if !record.is_written(key) => range,
                _ => entry,
            };
            let own = said("station").record.read("station", STATED);
            let main = self.station_model(own, &default, StationKind::Indoor, said("station"), "station");
            let mut stations = vec![site.stations.len()];
            let owner = |ordinal| StationOwner::Dwelling { dwelling: index, ordinal };
            site.stations.push(Station {
                id: id.clone(),
                model: main,
                owner: owner(0),
                origin: origin.clone(),
            });
            let further = said("extensions");
            for (at, own) in further.record.items::<String>("extensions", STATED).into_iter().enumerate() {
                let origin = own.origin.clone();
                let model =
                    self.station_model(Some(own), &default, StationKind::Indoor, further, "extensions");
                stations.push(site.stations.len());
                site.stations.push(Station {
                    id: ElementId::from(format!("{id}:{}", at + 2)),
                    model,
                    owner: owner(at + 1),
                    origin,
                });
            }
            let mut place = self.place(&said("place").record, name, places);
            if let Some(range) = range.filter(|range| !entry_places_itself(entry, range)) {
                self.floor_in_range(range, name, at, &mut place, site);
            }
            let mut dwelling = Dwelling::read(record, STATED, id, origin, place, stations);
            if let Some(range) = range
                && dwelling.number.is_none()
            {
                let first: Option<Sourced<u32>> = range.record.read("number", STATED);
                let number =
                    |first: &Sourced<u32>| first.value.saturating_add(u32::try_from(at).unwrap_or(u32::MAX));
                dwelling.number = first.map(|first| Sourced { value: number(&first), ..first });
            } else if range.is_some_and(|range| std::ptr::eq(range, entry)) {
                let plus = u32::try_from(at).unwrap_or(u32::MAX);
                dwelling.number =
                    dwelling.number.map(|first| Sourced { value: first.value.saturating_add(plus), ..first });
            }
            site.dwellings.push(dwelling);
        }
    }

    /// The dwellings of the file one by one: those of a range in its place, with their own lines if they have any.
    fn listed<'e, 'd>(&mut self, entries: &'e [Entry<'d>]) -> Vec<Listed<'e, 'd>> {
        let mut ranges: Vec<(&Entry<'d>, Vec<String>)> = Vec::new();
        let mut names: BTreeMap<String, &str> = BTreeMap::new();
        for entry in entries {
            match ranges::names(entry.name) {
                None if ranges::dashed(entry.name).is_none() => {}
                Some(Ok(list)) => {
                    if let Some(other) = list.iter().find_map(|name| names.get(name).copied()) {
                        let is_shared = |name: &&String| names.get(*name).copied() == Some(other);
                        let shared: Vec<&str> = list.iter().filter(is_shared).map(String::as_str).collect();
                        let told = match shared[..] {
                            [first, .., last] => format!("{first}..{last}"),
                            _ => shared.concat(),
                        };
                        let overlap = BadRange::Overlap { other, shared: shared.len() };
                        self.bad_range(entry, &told, overlap.both());
                    }
                    names.extend(list.iter().map(|name| (name.clone(), entry.name)));
                    ranges.push((entry, list));
                }
                None | Some(Err(_)) => {
                    self.bad_range(entry, entry.name, ranges::what_does_not_fit(entry.name));
                    // What is meant stands, so that nothing else is missing because of it.
                    if let Some(list) = ranges::meant(entry.name) {
                        names.extend(list.iter().map(|name| (name.clone(), entry.name)));
                        ranges.push((entry, list));
                    }
                }
            }
        }
        let own: BTreeMap<&str, &'e Entry<'d>> = entries.iter().map(|entry| (entry.name, entry)).collect();
        let mut listed = Vec::with_capacity(entries.len());
        let mut taken: BTreeSet<String> = BTreeSet::new();
        for entry in entries {
            if let Some((_, list)) = ranges.iter().find(|(range, _)| std::ptr::eq(*range, entry)) {
                for (at, name) in list.iter().enumerate().filter(|(_, name)| !taken.contains(*name)) {
                    let line = own.get(name.as_str()).copied().unwrap_or(entry);
                    listed.push(Listed { entry: line, range: Some(entry), name: name.clone(), at });
                }
                taken.extend(list.iter().cloned());
            } else if !names.contains_key(entry.name) && ranges::names(entry.name).is_none() {
                listed.push(Listed { entry, range: None, name: entry.name.to_string(), at: 0 });
            }
        }
        listed
    }

    fn bad_range(&mut self, entry: &Entry<'_>, name: &str, reason: Both) {
        let finding = self
            .report(codes::BAD_NAME, entry.record.at(&entry.span))
            .with("name", clip(name))
            .with("reason", reason);
        self.findings.push(finding);
    }

    /// The floor of a dwelling of a range that is so many on a floor.
    fn floor_in_range(&mut self, range: &Entry<'_>, name: &str, at: usize, place: &mut Place, site: &Site) {
        let Some(per_floor) = range.record.read::<u32>("per_floor", STATED) else { return };
        let Some(building) = place.building else { return };
        let first = place.floor.unwrap_or(0);
        let floor = first + at / per_floor.max(1) as usize;
        let floors = &site.buildings[building].floors;
        if floor < floors.len() {
            place.floor = Some(floor);
        } else {
            // One cause, told at the first dwelling that has no floor.
            let at_range = range.record.at(&range.span);
            if self.reported.insert(at_range) {
                let dwellings = ranges::names(range.name).and_then(Result::ok).map_or(0, |all| all.len());
                let (per_floor, has) = (per_floor.max(1) as usize, floors.len() - first);
                let reason = BadRange::Floors {
                    dwellings,
                    per_floor,
                    needs: dwellings.div_ceil(per_floor),
                    first: &floors[first].value,
                    has,
                    most: has * per_floor,
                    wanted: dwellings.div_ceil(has.max(1)),
                };
                self.bad_range(range, name, reason.both());
            }
        }
    }

    fn entrances(&mut self, file: &Record<'_>, head: &SiteHead, places: &PlaceIndex, site: &mut Site) {
        let default = DefaultModel::new(file, "door_station", head.door_station.as_ref());
        let entries = file.named("entrances");
        for (index, entry) in entries.iter().enumerate() {
            let record = &entry.record;
            let origin = record.at(&entry.span);
            let id = ElementId::new(entry.name);
            let own = record.read("station", STATED);
            let model = self.station_model(own, &default, StationKind::Door, entry, "station");
            let mut place = self.place(record, entry.name, places);
            place.outdoors |= record.read("outdoors", STATED).unwrap_or(false);
            let usual_role = if entries.len() == 1 { EntranceRole::Main } else { EntranceRole::Secondary };
            let accessories = self.accessories(record, entry.name);
            let mut locks = self.locks(entry);
            let lights = self.lights(record, entry.name);
            let mut alarm_inputs = self.alarm_inputs(record, entry.name);
            self.door_contact_cable(entry.name, &mut locks, &mut alarm_inputs);
            let station = site.stations.len();
            site.stations.push(Station {
                id: id.clone(),
                model,
                owner: StationOwner::Entrance(index),
                origin: origin.clone(),
            });
            let entrance = Entrance::read(
                record,
                STATED,
                id,
                origin,
                usual_role,
                place,
                station,
                locks,
                accessories,
                lights,
                alarm_inputs,
            );
            self.cables_to_no_part(&entrance);
            site.entrances.push(entrance);
        }
    }

    fn management(&mut self, file: &Record<'_>, head: &SiteHead, places: &PlaceIndex, site: &mut Site) {
        let default = DefaultModel::new(file, "management_station", head.management_station.as_ref());
        for (index, entry) in file.named("management").iter().enumerate() {
            let record = &entry.record;
            let origin = record.at(&entry.span);
            let id = ElementId::new(entry.name);
            let own = record.read("model", STATED);
            let model = self.station_model(own, &default, StationKind::Management, entry, "model");
            let station = site.stations.len();
            site.stations.push(Station {
                id: id.clone(),
                model,
                owner: StationOwner::Management(index),
                origin: origin.clone(),
            });
            let place = self.place(record, entry.name, places);
            site.management.push(Management::read(record, STATED, id, origin, place, station));
        }
    }

    fn scopes(&mut self, file: &Record<'_>, names: &NameIndex, places: &PlaceIndex, site: &mut Site) {
        let mut cost = ScopeCost::default();
        for (index, entry) in file.named("entrances").iter().enumerate() {
            let asked = Asked { element: entry.name, own: None, site, names, places };
            let calls = self.scope(&entry.record, "calls", &asked, &mut cost);
            let tells: Vec<Scope> = entry
                .record
                .tables("alarm_inputs")
                .map(|input| self.scope(input, "tells", &asked, &mut cost))
                .collect();
            let entrance = &mut site.entrances[index];
            entrance.calls = calls;
            for (input, tells) in entrance.alarm_inputs.iter_mut().zip(tells) {
                input.tells = tells;
            }
        }
        for (index, entry) in file.named("management").iter().enumerate() {
            let asked = Asked { element: entry.name, own: Some(index), site, names, places };
            let calls = self.scope(&entry.record, "calls", &asked, &mut cost);
            site.management[index].calls = calls;
        }
    }
}

fn box_role_word(role: BoxRole) -> Thing {
    match role {
        BoxRole::Distributor => Thing::Distributor,
        BoxRole::BranchBox => Thing::BranchBox,
    }
}

fn station_kind_word(kind: StationKind) -> Thing {
    match kind {
        StationKind::Door => Thing::DoorStation,
        StationKind::Indoor => Thing::IndoorStation,
        StationKind::Management => Thing::ManagementStation,
    }
}
