//! The sheets of buildings, places and ways.

use super::risers::Written;
use super::{LONGEST_M, Names, Reader};
use crate::fields::Form;
use crate::model::{Building, Place};
use crate::problem::ProblemKind;
use crate::routes::{Route, RouteGraph};
use crate::sheets::nearest_or_few;
use latchline_site::floors::are_upside_down;
use latchline_words::reading::Thing;
use std::collections::BTreeMap;

impl Reader<'_> {
    pub(super) fn buildings(&mut self, form: Option<&Form<'_>>) -> Vec<Building> {
        let mut names = Names::new();
        let mut buildings = Vec::new();
        for row in form.iter().flat_map(|form| form.rows()) {
            let name = self.name(&row, "Building", &mut names);
            let title = row.text("Title", self.problems).map(|title| title.value);
            let cores = row.list("Cores", self.problems);
            let floor_height_m =
                row.number("Floor height", 0.1, 20.0, "m", self.problems).map(|height| height.value);
            if row.need("Floors", self.problems).is_none() {
                continue;
            }
            let floors = row.list("Floors", self.problems);
            if let (Some(name), Some(first), Some(last)) = (&name, floors.first(), floors.last())
                && are_upside_down(floors.iter().map(String::as_str))
            {
                let names = Box::new([name.value.clone(), first.clone(), last.clone()]);
                row.wrong("Floors", ProblemKind::FloorsUpsideDown { names }, self.problems);
            }
            if let Some(name) = name {
                buildings.push(Building { name, title, floors, cores, floor_height_m });
            }
        }
        buildings
    }

    pub(super) fn places(&mut self, form: Option<&Form<'_>>, buildings: &[Building]) -> (Vec<Place>, Names) {
        let mut names = Names::new();
        let mut places = Vec::new();
        for row in form.iter().flat_map(|form| form.rows()) {
            let Some(name) = self.name(&row, "Place", &mut names) else { continue };
            let building = row.text("Building", self.problems).and_then(|wanted| {
                let found = buildings.iter().position(|building| building.name.value == wanted.value);
                if found.is_none() {
                    let nearest = nearest_or_few(
                        &wanted.value,
                        buildings.iter().map(|building| building.name.value.as_str()),
                    );
                    let kind =
                        ProblemKind::UnknownName { kind: Thing::Building, name: wanted.value, nearest };
                    row.wrong("Building", kind, self.problems);
                }
                found
            });
            let mut part = |heading: &'static str, kind: Thing, known: &[String]| {
                let wanted = row.text(heading, self.problems)?;
                if building.is_some() && !known.contains(&wanted.value) {
                    let nearest = nearest_or_few(&wanted.value, known.iter().map(String::as_str));
                    let problem = ProblemKind::UnknownName { kind, name: wanted.value, nearest };
                    row.wrong(heading, problem, self.problems);
                    return None;
                }
                Some(wanted.value)
            };
            let none: &[String] = &[];
            let floor = part("Floor", Thing::Floor, building.map_or(none, |at| &buildings[at].floors));
            let core = part("Core", Thing::Core, building.map_or(none, |at| &buildings[at].cores));
            if building.is_some() && floor.is_none() && row.text("Floor", &mut Vec::new()).is_none() {
                row.wrong("Floor", ProblemKind::PlaceWithoutFloor(name.value.clone()), self.problems);
            }
            places.push(Place {
                name,
                building,
                core,
                floor,
                mains: row.flag("Mains", self.problems).unwrap_or(false),
                boxes: row.flag("Boxes", self.problems).unwrap_or(false),
                outdoors: row.flag("Outdoors", self.problems).unwrap_or(false),
                in_dwelling: row.flag("In a dwelling", self.problems).unwrap_or(false),
            });
        }
        (places, names)
    }

    pub(super) fn routes(
        &mut self,
        form: Option<&Form<'_>>,
        places: &Names,
        all: &[Place],
        buildings: &[Building],
    ) -> RouteGraph {
        let mut routes = Vec::new();
        let mut written = Vec::new();
        let mut first_rows: BTreeMap<(usize, usize), u32> = BTreeMap::new();
        let named = |index: usize| {
            let found = places.iter().find(|(_, place)| place.0 == index);
            found.map_or_else(String::new, |(name, _)| name.clone())
        };
        for row in form.iter().flat_map(|form| form.rows()) {
            let from = self.place(&row, "From", places);
            let to = self.place(&row, "To", places);
            let is_outdoors = |place: &usize| all.get(*place).is_some_and(|place| place.outdoors);
            let environment = self.environment(&row, from.iter().chain(&to).any(is_outdoors));
            let beside_mains = row.flag("Beside mains", self.problems).unwrap_or(false);
            if row.need("Length", self.problems).is_none() {
                continue;
            }
            let length = row.number("Length", 0.0, LONGEST_M, "m", self.problems);
            let (Some(from), Some(to), Some(length)) = (from, to, length) else { continue };
            if from == to {
                row.wrong("To", ProblemKind::RouteToItself(named(from)), self.problems);
                continue;
            }
            let (one, other) = (named(from), named(to));
            if length.value < 1e-3 {
                let kind = ProblemKind::RouteWithoutLength { from: one.clone(), to: other.clone() };
                row.wrong("Length", kind, self.problems);
            }
            match first_rows.get(&(from.min(to), from.max(to))) {
                Some(first_row) => {
                    let kind = ProblemKind::RouteTwice { from: one, to: other, first_row: *first_row };
                    row.wrong("Length", kind, self.problems);
                }
                None => {
                    first_rows.insert((from.min(to), from.max(to)), row.number);
                }
            }
            let length_mm = (length.value * 1e3).round() as u64;
            routes.push(Route { from, to, length_mm, environment, beside_mains, is_locked: false });
            written.push(Written { row, from, to, length_m: length.value });
        }
        self.risers(&written, all, buildings);
        RouteGraph::new(all.len(), routes)
    }
}
