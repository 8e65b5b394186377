//! Buildings, and the places that name them.

use super::resolver::{Resolver, STATED};
use crate::codes;
use crate::floors::are_upside_down;
use crate::model::{Building, Place};
use crate::parse::{Record, clip};
use latchline_finding::{ElementId, Finding, Origin, Severity, Sourced};
use latchline_words::reading::{BadName, Thing};
use std::collections::BTreeMap;

/// Buildings with their floors and cores by name.
#[derive(Debug, Default)]
pub(super) struct PlaceIndex {
    buildings: BTreeMap<String, usize>,
    floors: Vec<BTreeMap<String, usize>>,
    cores: Vec<BTreeMap<String, usize>>,
    /// Whether floors or cores are written that could not be read, which is told there.
    unread: Vec<bool>,
}

/// Part of a site: a building, or a core or floor of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Part {
    pub(super) building: usize,
    pub(super) core: Option<usize>,
    pub(super) floor: Option<usize>,
}

impl PlaceIndex {
    /// The building, floor or core that `text` names, if it names one.
    pub(super) fn part(&self, text: &str) -> Option<Part> {
        let mut parts = text.split('/').map(str::trim);
        let building = *self.buildings.get(parts.next()?)?;
        let (second, third) = (parts.next(), parts.next());
        if parts.next().is_some() {
            return None;
        }
        let floor = |name: &str| self.floors[building].get(name).copied();
        let core = |name: &str| self.cores[building].get(name).copied();
        match (second, third) {
            (None, _) => Some(Part { building, core: None, floor: None }),
            // A floor wins where a core has the same name.
            (Some(name), None) => match (floor(name), core(name)) {
                (Some(floor), _) => Some(Part { building, core: None, floor: Some(floor) }),
                (None, Some(core)) => Some(Part { building, core: Some(core), floor: None }),
                (None, None) => None,
            },
            (Some(core_name), Some(floor_name)) => {
                Some(Part { building, core: Some(core(core_name)?), floor: Some(floor(floor_name)?) })
            }
        }
    }

    pub(super) fn building_names(&self) -> impl Iterator<Item = &str> {
        self.buildings.keys().map(String::as_str)
    }
}

impl Resolver<'_> {
    pub(super) fn buildings(&mut self, file: &Record<'_>) -> (Vec<Building>, PlaceIndex) {
        let mut index = PlaceIndex::default();
        let mut buildings = Vec::new();
        for entry in file.named("buildings") {
            let record = &entry.record;
            self.refuse_slash(entry.name, record.at(&entry.span));
            let mut list = |key: &str| {
                let mut names = Vec::new();
                let mut places = BTreeMap::new();
                for name in record.items::<String>(key, STATED) {
                    self.refuse_slash(&name.value, name.origin.clone());
                    if let Some(first) = places.insert(name.value.clone(), names.len()) {
                        let earlier: &Sourced<String> = &names[first];
                        let finding = self
                            .report(codes::DUPLICATE_KEY, name.origin.clone())
                            .about(entry.name)
                            .with("key", clip(&name.value))
                            .also_at("first-defined-here", earlier.origin.clone());
                        self.findings.push(finding);
                    }
                    names.push(name);
                }
                (names, places)
            };
            let (floors, floor_index) = list("floors");
            let (cores, core_index) = list("cores");
            if let (Some(first), Some(last)) = (floors.first(), floors.last())
                && are_upside_down(floors.iter().map(|floor| floor.value.as_str()))
            {
                let found = Finding::new(codes::FLOORS_UPSIDE_DOWN, Severity::Warning, first.origin.clone())
                    .about(entry.name)
                    .with("first", clip(&first.value))
                    .with("last", clip(&last.value));
                self.findings.push(found);
            }
            index.buildings.insert(entry.name.to_string(), buildings.len());
            let is_unread = |key: &str| record.is_written(key) && record.field(key).is_none();
            index.unread.push(is_unread("floors") || is_unread("cores"));
            index.floors.push(floor_index);
            index.cores.push(core_index);
            let cores = if cores.is_empty() { vec![Sourced::assumed(String::new())] } else { cores };
            let id = ElementId::new(entry.name);
            buildings.push(Building::read(record, STATED, id, record.at(&entry.span), floors, cores));
        }
        (buildings, index)
    }

    fn refuse_slash(&mut self, name: &str, origin: Origin) {
        if name.contains('/') || name.trim().is_empty() {
            let reason = if name.contains('/') { BadName::Slash } else { BadName::Empty };
            let finding =
                self.report(codes::BAD_NAME, origin).with("name", clip(name)).with("reason", reason.both());
            self.findings.push(finding);
        }
    }

    /// The place of an element, from its `place` and `outdoors`.
    pub(super) fn place(&mut self, record: &Record<'_>, element: &str, index: &PlaceIndex) -> Place {
        let Some(text) = record.text("place") else { return Place::default() };
        if text == "outdoors" {
            return Place { outdoors: true, ..Place::default() };
        }
        match index.part(text) {
            Some(part) => {
                Place { building: Some(part.building), core: part.core, floor: part.floor, outdoors: false }
            }
            None => {
                self.bad_place(text, record.origin("place"), element, index);
                Place::default()
            }
        }
    }

    /// Says which part of a place is wrong.
    fn bad_place(&mut self, text: &str, origin: Origin, element: &str, index: &PlaceIndex) {
        let parts: Vec<&str> = text.split('/').map(str::trim).collect();
        // No building at all is one mistake, told at the head that is not known, or else at the first place.
        if index.buildings.is_empty()
            && (self.findings.lacks_table() || std::mem::replace(&mut self.no_building_told, true))
        {
            return;
        }
        let Some(&building) = index.buildings.get(parts[0]) else {
            let known =
                self.gather(|_| index.buildings.keys().cloned().chain([String::from("outdoors")]).collect());
            return self.unknown_name(Thing::Building, parts[0], origin, Some(element), &known);
        };
        if index.unread[building] {
            return;
        }
        match parts[..] {
            [_, core, _] if !index.cores[building].contains_key(core) => {
                let known = self.gather(|_| index.cores[building].keys().cloned().collect());
                self.unknown_name(Thing::Core, core, origin, Some(element), &known);
            }
            [_, floor] | [_, _, floor] => {
                let cores = index.cores[building].keys().filter(|_| parts.len() == 2);
                let known = self.gather(|_| index.floors[building].keys().chain(cores).cloned().collect());
                self.unknown_name(Thing::Floor, floor, origin, Some(element), &known);
            }
            _ => {
                let finding = self
                    .report(codes::PLACE_WITHOUT_BUILDING, origin)
                    .about(clip(element).as_str())
                    .with("written", clip(text));
                self.findings.push(finding);
            }
        }
    }
}
