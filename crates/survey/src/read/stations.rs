//! The sheets of dwellings, entrances and desks.

use super::{Names, Reader};
use crate::fields::{Form, Row, number_in, split};
use crate::model::{Desk, Dwelling, Entrance, Lock, Place};
use crate::problem::ProblemKind;
use crate::scope::Caller;
use latchline_finding::{Both, Sourced};
use latchline_site::catalogue::Media;
use latchline_words::reading::SurveyUnit;
use std::collections::BTreeMap;

impl Reader<'_> {
    pub(super) fn dwellings(
        &mut self,
        form: Option<&Form<'_>>,
        places: &Names,
        names: &mut Names,
    ) -> Vec<Dwelling> {
        let mut dwellings = Vec::new();
        let mut numbers = BTreeMap::new();
        for row in form.iter().flat_map(|form| form.rows()) {
            let name = self.name_kept(&row, "Dwelling", names);
            if let Some(name) = &name {
                self.alike(&row, &name.value, &mut numbers);
            }
            let place = self.place(&row, "Place", places);
            let drop_m = self.drop_m(&row, name.as_ref());
            let station = row.text("Station", self.problems);
            let extension_m = self.metres(&row, "Extension spacing").unwrap_or(5.0);
            let label = row.text("Label", self.problems).map(|label| label.value);
            let extensions = self.extensions(&row);
            let (Some(name), Some(place)) = (name, place) else { continue };
            dwellings.push(Dwelling {
                name,
                place,
                drop_m,
                station,
                extensions,
                extension_m,
                label,
                numbered_in: None,
            });
        }
        dwellings
    }

    pub(super) fn extensions(&mut self, row: &Row<'_, '_>) -> Vec<String> {
        let Some(text) = row.text("Extensions", self.problems) else { return Vec::new() };
        match number_in(&text.value, "") {
            Some(count) if count.fract() == 0.0 && (0.0..=20.0).contains(&count) => {
                vec![String::new(); count as usize]
            }
            Some(_) => {
                let kind = ProblemKind::OutOfRange {
                    found: Box::new(Both::same(text.value)),
                    least: 0.0,
                    most: 20.0,
                    unit: Box::new(SurveyUnit::Stations.both()),
                };
                row.wrong("Extensions", kind, self.problems);
                Vec::new()
            }
            None => split(&text.value),
        }
    }

    pub(super) fn entrances(
        &mut self,
        form: Option<&Form<'_>>,
        (places, all): (&Names, &[Place]),
        names: &mut Names,
    ) -> Vec<Entrance> {
        let mut entrances = Vec::new();
        let rows = form.map_or(0, |form| form.rows().count());
        for row in form.iter().flat_map(|form| form.rows()) {
            let name = self.name_kept(&row, "Entrance", names);
            let place = self.place(&row, "Place", places);
            let drop_m = self.drop_m(&row, name.as_ref());
            let main = row.choice("Role", self.problems).map_or(rows == 1, |role| role == "main");
            let media = row.choice("Media", self.problems);
            let lock = self.lock(&row);
            let is_outdoors = place.and_then(|place| all.get(place)).is_some_and(|place| place.outdoors);
            let environment = self.environment(&row, is_outdoors);
            let entrance = Entrance {
                name: name.clone().unwrap_or(Sourced::assumed(String::new())),
                place: place.unwrap_or(0),
                drop_m,
                main,
                outdoors: row.flag("Outdoors", self.problems).unwrap_or(false),
                calls: Vec::new(),
                station: row.text("Station", self.problems),
                media: media.map(|media| if media == "audio" { Media::Audio } else { Media::Video }),
                environment,
                lock,
                escape_route: row.flag("Escape route", self.problems),
                escape_decided_by: row.text("Escape decided by", self.problems).map(|who| who.value),
                escape_decided_on: row.date("Escape decided on", self.problems),
                fire_interlock: row.flag("Fire interlock", self.problems).unwrap_or(false),
                heater: row.flag("Heater", self.problems).unwrap_or(false),
                control_height_m: row
                    .number("Control height", 0.1, 20.0, "m", self.problems)
                    .map(|height| height.value),
                surge_protection_ohm: row
                    .number("Surge protection", 0.0, 1_000.0, "ohm", self.problems)
                    .map(|ohm| ohm.value),
            };
            let calls = row.text("Calls", self.problems);
            if name.is_some() && place.is_some() {
                self.calls.extend(calls.map(|cell| (Caller::Entrance(entrances.len()), cell)));
                entrances.push(entrance);
            }
        }
        entrances
    }

    pub(super) fn lock(&mut self, row: &Row<'_, '_>) -> Option<Lock> {
        let model = row.text("Lock", self.problems);
        let word = |word: Option<&'static str>| word.map(String::from);
        let lock = Lock {
            feed: word(row.choice("Lock feed", self.problems)),
            contact: word(row.choice("Contact", self.problems)),
            cable: row.text("Lock cable", self.problems),
            length_m: self.metres(row, "Lock length").filter(|length| *length >= 0.01),
            hold_s: row.number("Hold time", 0.001, 86_400.0, "s", self.problems).map(|hold| hold.value),
            suppression: word(row.choice("Suppression", self.problems)),
            exit_button: row.flag("Exit button", self.problems).unwrap_or(false),
            mechanical_escape: row.flag("Mechanical escape", self.problems).unwrap_or(false),
            model: model?,
        };
        Some(lock)
    }

    pub(super) fn desks(&mut self, form: Option<&Form<'_>>, places: &Names, names: &mut Names) -> Vec<Desk> {
        let mut desks = Vec::new();
        for row in form.iter().flat_map(|form| form.rows()) {
            let name = self.name_kept(&row, "Desk", names);
            let place = self.place(&row, "Place", places);
            let drop_m = self.drop_m(&row, name.as_ref());
            let calls = row.text("Calls", self.problems);
            let station = row.text("Station", self.problems);
            let (Some(name), Some(place)) = (name, place) else { continue };
            self.calls.extend(calls.map(|cell| (Caller::Desk(desks.len()), cell)));
            desks.push(Desk { name, place, drop_m, calls: Vec::new(), station });
        }
        desks
    }
}
