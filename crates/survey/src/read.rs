//! From sheets to a survey, with every mistake of all sheets.

use crate::fields::{Form, Row, number_in, split};
use crate::model::{
    Building, CLIP_OHM, Desk, Dwelling, Entrance, ExistingCable, Lock, Place, Settings, Survey, Wiring,
};
use crate::problem::{Problem, ProblemKind};
use crate::routes::{Route, RouteGraph};
use crate::scope::{self, Caller, Written};
use crate::sheets::{self, SETTINGS, SHEETS, meant, nearest, plain};
use crate::table::{Sheet, Value};
use latchline_finding::{Both, Money, Origin, Provenance, Sourced};
use latchline_site::catalogue::{Environment, Media, OwnPrice, OwnPrices};
use latchline_words::reading::{SurveyReason, SurveyUnit, Thing};
use std::collections::BTreeMap;

/// Longest length that a cell may hold, in metres.
const LONGEST_M: f64 = 5_000.0;

/// What reading gave.
#[derive(Debug, Clone, PartialEq)]
pub struct Read {
    /// The survey; `None` if a mistake stands in the way.
    pub survey: Option<Survey>,
    /// What could be read in spite of mistakes, in which [`unknown_parts`](crate::unknown_parts) are looked up with the rest.
    pub draft: Option<Survey>,
    /// Everything that is wrong or doubtful, in the order of the sheets.
    pub problems: Vec<Problem>,
}

/// Reads a survey from its sheets; `problems` are those met while the sheets were read.
pub fn read(tables: &[Sheet], mut problems: Vec<Problem>) -> Read {
    let mut reader = Reader { problems: &mut problems, calls: Vec::new() };
    let draft = reader.survey(tables);
    let usable = problems.iter().all(Problem::is_harmless);
    Read { survey: draft.clone().filter(|_| usable), draft, problems }
}

struct Reader<'p> {
    problems: &'p mut Vec<Problem>,
    /// Cells that say who calls whom, to be understood once everybody is known.
    calls: Vec<Written>,
}

/// Names with the row of their first use.
type Names = BTreeMap<String, (usize, u32)>;

impl Reader<'_> {
    fn survey(&mut self, tables: &[Sheet]) -> Option<Survey> {
        let mut chosen: Vec<Option<&Sheet>> = vec![None; SHEETS.len()];
        let known = SHEETS.iter().enumerate().map(|(index, form)| (index, form.name, form.also));
        for table in tables {
            let Some(index) = meant(&table.name, known.clone()) else {
                self.unknown_sheet(table);
                continue;
            };
            if chosen[index].is_some() {
                self.report(Origin::None, ProblemKind::SheetTwice(SHEETS[index].name));
            } else {
                chosen[index] = Some(table);
            }
        }
        let mut forms: Vec<Option<Form<'_>>> = Vec::new();
        for (form, table) in SHEETS.iter().zip(&chosen) {
            let table = table.filter(|table| !table.rows.is_empty());
            if table.is_none() && form.required {
                self.report(Origin::None, ProblemKind::SheetMissing(form.name));
            }
            let found = table.and_then(|table| Form::new(table, form, self.problems));
            if let Some(found) = found.as_ref().filter(|found| !found.tells_drops()) {
                self.report(found.headings().clone(), ProblemKind::NoColumnOfDrops(form.name));
            }
            forms.push(found);
        }
        let form = |name: &str| {
            let index = SHEETS.iter().position(|form| form.name == name)?;
            forms.get(index).and_then(Option::as_ref)
        };
        let settings = self.settings(form("Site"));
        let buildings = self.buildings(form("Buildings"));
        let (places, place_names) = self.places(form("Places"), &buildings);
        let routes = self.routes(form("Routes"), &place_names, places.len());
        let mut names = Names::new();
        let dwellings = self.dwellings(form("Dwellings"), &place_names, &mut names);
        let entrances = self.entrances(form("Entrances"), &place_names, &mut names);
        let desks = self.desks(form("Desks"), &place_names, &mut names);
        let existing = self.existing(form("Existing cables"), &place_names, &names);
        let prices = self.prices(form("Prices"));
        let mut survey =
            Survey { settings, buildings, places, routes, existing, dwellings, entrances, desks, prices };
        scope::settle(&mut survey, &self.calls, self.problems);
        self.whole(&survey);
        // Headings alone are no entrances; no dwellings and no place with mains are told as that.
        if form("Entrances").is_some_and(|form| form.rows().next().is_none()) {
            let index = SHEETS.iter().position(|form| form.name == "Entrances");
            let origin = index.and_then(|index| chosen[index]).and_then(first_cell).unwrap_or(Origin::None);
            self.report(origin, ProblemKind::SheetMissing("Entrances"));
        }
        Some(survey)
    }

    /// A sheet that no form means; one of instructions is nobody's mistake.
    fn unknown_sheet(&mut self, table: &Sheet) {
        if plain(&table.name) == "instructions" {
            return;
        }
        if let Some(origin) = first_cell(table) {
            let nearest = nearest(&table.name, SHEETS.iter().map(|form| form.name));
            self.report(origin, ProblemKind::SheetUnknown { sheet: table.name.to_string(), nearest });
        }
    }

    fn report(&mut self, origin: Origin, kind: ProblemKind) {
        self.problems.push(Problem::new(origin, kind));
    }

    fn settings(&mut self, form: Option<&Form<'_>>) -> Settings {
        let mut settings = Settings {
            title: String::from("Untitled site"),
            country: None,
            family: None,
            catalogues: Vec::new(),
            media: Media::Video,
            indoor_station: None,
            door_station: None,
            labour_per_hour: Money::from_units(45.0),
            slack: 0.05,
            termination_m: 0.3,
            hottest_c: 40.0,
            coldest_c: 0.0,
            usual_c: 20.0,
            length_tolerance: 0.05,
            wiring: Sourced::assumed(Wiring::Chains),
            largest_group: None,
            spare_ports: None,
            growth: 0,
            standby_hours: None,
            thin_margin_v: None,
            surge_protection_ohm: None,
            cables: Vec::new(),
            withdrawn: Vec::new(),
        };
        let Some(form) = form else { return settings };
        let no_others: &[&str] = &[];
        let known = SETTINGS.iter().enumerate().map(|(index, (name, ..))| (index, *name, no_others));
        for row in form.rows() {
            let Some(name) = row.need("Setting", self.problems) else { continue };
            let Some(index) = meant(&name.value, known.clone()) else {
                let nearest = nearest(&name.value, SETTINGS.iter().map(|(name, ..)| *name));
                row.wrong(
                    "Setting",
                    ProblemKind::UnknownSetting { name: name.value, nearest },
                    self.problems,
                );
                continue;
            };
            self.setting(SETTINGS[index].0, SETTINGS[index].1, &row, &mut settings);
        }
        settings
    }

    fn setting(&mut self, name: &str, choices: &[&str], row: &Row<'_, '_>, settings: &mut Settings) {
        let Some(text) = row.text("Value", self.problems) else { return };
        let at = |value: f64| Sourced::new(value, text.origin.clone(), Provenance::Stated);
        let mut number = |least: f64, most: f64, unit: &'static str| {
            let value = row.number("Value", least, most, unit, self.problems)?.value;
            if unit == "%" && value > 0.0 && value < 1.0 {
                row.wrong("Value", ProblemKind::PercentageBelowOne(value), self.problems);
            }
            Some(value)
        };
        let whole = |value: f64| value.round() as u32;
        match name {
            "Title" => settings.title = text.value,
            "Country" => settings.country = Some(text.value.to_uppercase()),
            "Family" => settings.family = Some(text),
            "Catalogues" => settings.catalogues = split(&text.value),
            "Indoor station" => settings.indoor_station = Some(text),
            "Door station" => settings.door_station = Some(text),
            "Labour per hour" => {
                if let Some(value) = number(0.0, 10_000.0, "") {
                    settings.labour_per_hour = Money::from_units(value);
                }
            }
            "Slack" => {
                if let Some(value) = number(0.0, 100.0, "%") {
                    settings.slack = value / 100.0;
                }
            }
            "Termination" => {
                if let Some(value) = number(0.0, 10.0, "m") {
                    settings.termination_m = value;
                }
            }
            "Hottest temperature" => {
                if let Some(value) = number(-60.0, 150.0, "°C") {
                    settings.hottest_c = value;
                }
            }
            "Coldest temperature" => {
                if let Some(value) = number(-60.0, 150.0, "°C") {
                    settings.coldest_c = value;
                }
            }
            "Usual temperature" => {
                if let Some(value) = number(-60.0, 150.0, "°C") {
                    settings.usual_c = value;
                }
            }
            "Length tolerance" => {
                if let Some(value) = number(0.0, 90.0, "%") {
                    settings.length_tolerance = value / 100.0;
                }
            }
            "Largest silenced group" => {
                settings.largest_group = number(1.0, 10_000.0, "").map(|value| at(value).map(whole));
            }
            "Spare ports" => {
                settings.spare_ports = number(0.0, 1_000.0, "").map(|value| at(value).map(whole));
            }
            "Growth" => settings.growth = number(0.0, 1_000.0, "").map_or(0, whole),
            "Standby hours" => settings.standby_hours = number(0.0, 1_000.0, "h").map(at),
            "Thin margin" => settings.thin_margin_v = number(0.0, 10.0, "V"),
            "Surge protection" => settings.surge_protection_ohm = number(0.0, 1_000.0, "ohm"),
            "Cables" => settings.cables = names(&text),
            "Withdrawn parts" => settings.withdrawn = names(&text),
            _ => {
                let wanted = plain(&text.value);
                if !choices.contains(&wanted.as_str()) {
                    let kind = ProblemKind::UnknownName {
                        kind: Thing::Choice,
                        name: text.value,
                        nearest: choices.join("\", \""),
                    };
                    row.wrong("Value", kind, self.problems);
                } else if name == "Media" {
                    settings.media = if wanted == "audio" { Media::Audio } else { Media::Video };
                } else {
                    let wiring = match wanted.as_str() {
                        "stars" => Wiring::Stars,
                        "corridors" => Wiring::Corridors,
                        _ => Wiring::Chains,
                    };
                    settings.wiring = Sourced::new(wiring, text.origin, Provenance::Stated);
                }
            }
        }
    }

    /// A name that is new among `names` and fit for a site file.
    fn name(
        &mut self,
        row: &Row<'_, '_>,
        heading: &'static str,
        names: &mut Names,
    ) -> Option<Sourced<String>> {
        let name = row.need(heading, self.problems)?;
        let fit = |sign: char| sign.is_alphanumeric() || matches!(sign, '-' | '_');
        // What people write in lists ("Flat 12") becomes one word.
        let name = name.map(|name| name.split_whitespace().collect::<Vec<_>>().join("-"));
        if name.value.chars().count() > 60 || !name.value.chars().all(fit) {
            row.wrong(heading, ProblemKind::BadName(name.value), self.problems);
            return None;
        }
        if let Some((_, first_row)) = names.get(&name.value) {
            let first_row = *first_row;
            row.wrong(heading, ProblemKind::NameTwice { name: name.value, first_row }, self.problems);
            return None;
        }
        names.insert(name.value.clone(), (names.len(), row.number));
        Some(name)
    }

    fn buildings(&mut self, form: Option<&Form<'_>>) -> Vec<Building> {
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
            if let Some(name) = name {
                buildings.push(Building { name, title, floors, cores, floor_height_m });
            }
        }
        buildings
    }

    fn places(&mut self, form: Option<&Form<'_>>, buildings: &[Building]) -> (Vec<Place>, Names) {
        let mut names = Names::new();
        let mut places = Vec::new();
        for row in form.iter().flat_map(|form| form.rows()) {
            let Some(name) = self.name(&row, "Place", &mut names) else { continue };
            let building = row.text("Building", self.problems).and_then(|wanted| {
                let found = buildings.iter().position(|building| building.name.value == wanted.value);
                if found.is_none() {
                    let nearest =
                        nearest(&wanted.value, buildings.iter().map(|building| building.name.value.as_str()));
                    let kind =
                        ProblemKind::UnknownName { kind: Thing::Building, name: wanted.value, nearest };
                    row.wrong("Building", kind, self.problems);
                }
                found
            });
            let mut part = |heading: &'static str, kind: Thing, known: &[String]| {
                let wanted = row.text(heading, self.problems)?;
                if building.is_some() && !known.contains(&wanted.value) {
                    let nearest = nearest(&wanted.value, known.iter().map(String::as_str));
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
            });
        }
        (places, names)
    }

    fn place(&mut self, row: &Row<'_, '_>, heading: &'static str, names: &Names) -> Option<usize> {
        let wanted = row.need(heading, self.problems)?;
        let wanted = wanted.map(|name| name.split_whitespace().collect::<Vec<_>>().join("-"));
        let found = names.get(&wanted.value).map(|(index, _)| *index);
        if found.is_none() {
            let nearest = nearest(&wanted.value, names.keys().map(String::as_str));
            let kind = ProblemKind::UnknownName { kind: Thing::Place, name: wanted.value, nearest };
            row.wrong(heading, kind, self.problems);
        }
        found
    }

    fn routes(&mut self, form: Option<&Form<'_>>, places: &Names, count: usize) -> RouteGraph {
        let mut routes = Vec::new();
        let mut first_rows: BTreeMap<(usize, usize), u32> = BTreeMap::new();
        let named = |index: usize| {
            let found = places.iter().find(|(_, place)| place.0 == index);
            found.map_or_else(String::new, |(name, _)| name.clone())
        };
        for row in form.iter().flat_map(|form| form.rows()) {
            let from = self.place(&row, "From", places);
            let to = self.place(&row, "To", places);
            let environment = self.environment(&row);
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
            routes.push(Route { from, to, length_mm, environment, beside_mains });
        }
        RouteGraph::new(count, routes)
    }

    fn environment(&mut self, row: &Row<'_, '_>) -> Environment {
        match row.choice("Environment", self.problems) {
            Some("outdoors") => Environment::Outdoors,
            Some("buried") => Environment::Buried,
            _ => Environment::Indoors,
        }
    }

    fn metres(&mut self, row: &Row<'_, '_>, heading: &str) -> Option<f64> {
        row.number(heading, 0.0, LONGEST_M, "m", self.problems).map(|length| length.value)
    }

    /// The drop of an element; an empty one counts as nothing and is told.
    fn drop_m(&mut self, row: &Row<'_, '_>, name: Option<&Sourced<String>>) -> f64 {
        if let Some(name) = name.filter(|_| row.is_blank("Drop")) {
            row.wrong("Drop", ProblemKind::DropEmpty(name.value.clone()), self.problems);
        }
        self.metres(row, "Drop").unwrap_or(0.0)
    }

    /// Two names that differ in leading zeros only.
    fn alike(&mut self, row: &Row<'_, '_>, name: &str, known: &mut BTreeMap<String, (String, u32)>) {
        match known.get(&without_leading_zeros(name)) {
            Some((other, first_row)) => {
                let kind = ProblemKind::NumbersAlike {
                    name: name.to_string(),
                    other: other.clone(),
                    row: *first_row,
                };
                row.wrong("Dwelling", kind, self.problems);
            }
            None => {
                known.insert(without_leading_zeros(name), (name.to_string(), row.number));
            }
        }
    }

    fn dwellings(&mut self, form: Option<&Form<'_>>, places: &Names, names: &mut Names) -> Vec<Dwelling> {
        let mut dwellings = Vec::new();
        let mut numbers = BTreeMap::new();
        for row in form.iter().flat_map(|form| form.rows()) {
            let name = self.name(&row, "Dwelling", names);
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
            dwellings.push(Dwelling { name, place, drop_m, station, extensions, extension_m, label });
        }
        dwellings
    }

    fn extensions(&mut self, row: &Row<'_, '_>) -> Vec<String> {
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

    fn entrances(&mut self, form: Option<&Form<'_>>, places: &Names, names: &mut Names) -> Vec<Entrance> {
        let mut entrances = Vec::new();
        let rows = form.map_or(0, |form| form.rows().count());
        for row in form.iter().flat_map(|form| form.rows()) {
            let name = self.name(&row, "Entrance", names);
            let place = self.place(&row, "Place", places);
            let drop_m = self.drop_m(&row, name.as_ref());
            let main = row.choice("Role", self.problems).map_or(rows == 1, |role| role == "main");
            let media = row.choice("Media", self.problems);
            let lock = self.lock(&row);
            let environment = self.environment(&row);
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

    fn lock(&mut self, row: &Row<'_, '_>) -> Option<Lock> {
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

    fn desks(&mut self, form: Option<&Form<'_>>, places: &Names, names: &mut Names) -> Vec<Desk> {
        let mut desks = Vec::new();
        for row in form.iter().flat_map(|form| form.rows()) {
            let name = self.name(&row, "Desk", names);
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

    fn existing(&mut self, form: Option<&Form<'_>>, places: &Names, names: &Names) -> Vec<ExistingCable> {
        let mut cables = Vec::new();
        for row in form.iter().flat_map(|form| form.rows()) {
            let mut end = |heading: &'static str| {
                let wanted = row.need(heading, self.problems)?;
                let wanted = wanted.map(|name| name.split_whitespace().collect::<Vec<_>>().join("-"));
                // B-45:2 is a further station of dwelling B-45.
                let name = match wanted.value.rsplit_once(':') {
                    Some((name, ordinal)) if ordinal.parse::<u32>().is_ok() => name,
                    _ => wanted.value.as_str(),
                };
                if !places.contains_key(name) && !names.contains_key(name) {
                    let known = places.keys().chain(names.keys()).map(String::as_str);
                    let nearest = nearest(&wanted.value, known);
                    let kind = ProblemKind::UnknownName {
                        kind: Thing::PlaceOrDwelling,
                        name: wanted.value,
                        nearest,
                    };
                    row.wrong(heading, kind, self.problems);
                    return None;
                }
                Some(wanted)
            };
            let (from, to) = (end("From"), end("To"));
            let cable = row.need("Cable", self.problems);
            let length = row.number("Length", 0.01, LONGEST_M, "m", self.problems);
            let loop_ohm = row.number("Loop", 1e-3, 1e6, "ohm", self.problems).map(|value| value.value);
            let capacitance_nf =
                row.number("Capacitance", 1e-3, 1e6, "nF", self.problems).map(|value| value.value);
            let insulation_mohm =
                row.number("Insulation", 1e-6, 1e6, "Mohm", self.problems).map(|value| value.value);
            let is_written = |heading: &str| row.text(heading, &mut Vec::new()).is_some();
            if !is_written("Length") && !is_written("Loop") {
                row.wrong("Length", ProblemKind::Empty("Length"), self.problems);
            }
            let (Some(from), Some(to), Some(cable)) = (from, to, cable) else { continue };
            let stated_m = length.map(|length| length.value);
            match loop_ohm.filter(|_| stated_m.is_none()) {
                // What the clips of the meter have leaves nothing for a cable.
                Some(ohm) if ohm <= 4.0 * CLIP_OHM => {
                    let kind = ProblemKind::OutOfRange {
                        found: Box::new(Both::same(ohm.to_string())),
                        least: 4.0 * CLIP_OHM,
                        most: 1e6,
                        unit: Box::new(Both::same("ohm")),
                    };
                    row.wrong("Loop", kind, self.problems);
                    continue;
                }
                None if stated_m.is_none() => continue,
                _ => {}
            }
            cables.push(ExistingCable {
                from,
                to,
                cable,
                stated_m,
                loop_ohm,
                capacitance_nf,
                insulation_mohm,
            });
        }
        cables
    }

    fn prices(&mut self, form: Option<&Form<'_>>) -> OwnPrices {
        let mut names = Names::new();
        let mut prices = OwnPrices::new();
        for row in form.iter().flat_map(|form| form.rows()) {
            let price = row.number("Price", 0.0, 1e6, "", self.problems);
            let labour_minutes = row.number("Minutes", 0.0, 1e6, "", self.problems);
            let Some(part) = row.need("Part", self.problems) else { continue };
            if let Some((_, first_row)) = names.get(&part.value) {
                let kind = ProblemKind::NameTwice { name: part.value, first_row: *first_row };
                row.wrong("Part", kind, self.problems);
                continue;
            }
            names.insert(part.value.clone(), (0, row.number));
            let price = price.map(|price| price.map(Money::from_units));
            prices.insert(part.value, OwnPrice { origin: part.origin, price, labour_minutes });
        }
        prices
    }

    /// What no single row shows.
    fn whole(&mut self, survey: &Survey) {
        if self.problems.iter().any(|problem| !problem.is_harmless()) {
            return;
        }
        if survey.dwellings.is_empty() {
            self.report(Origin::None, ProblemKind::NoDwellings);
        }
        if !survey.places.iter().any(|place| place.mains) {
            self.report(Origin::None, ProblemKind::NoMains);
            return;
        }
        if !survey.places.iter().any(|place| place.boxes) {
            self.report(Origin::None, ProblemKind::NoBoxPlace);
        }
        let settings = &survey.settings;
        if settings.coldest_c > settings.usual_c || settings.usual_c > settings.hottest_c {
            self.report(Origin::None, ProblemKind::Contradiction(SurveyReason::Temperatures));
        }
        scope::off_the_routes(survey, self.problems);
    }
}

/// The form of a sheet by name.
pub fn form(name: &str) -> Option<&'static sheets::SheetForm> {
    SHEETS.iter().find(|form| form.name == name)
}

/// The first cell of a sheet that has something in it.
fn first_cell(table: &Sheet) -> Option<Origin> {
    let cells = table.rows.iter().flat_map(|(_, cells)| cells);
    cells.into_iter().find(|cell| cell.value != Value::Empty).map(|cell| cell.origin.clone())
}

/// A name with every number in it without the zeros before it.
fn without_leading_zeros(name: &str) -> String {
    let mut out = String::new();
    let mut in_number = false;
    let mut signs = name.chars().peekable();
    while let Some(sign) = signs.next() {
        let leads = sign == '0' && !in_number && signs.peek().is_some_and(char::is_ascii_digit);
        in_number = sign.is_ascii_digit() && !leads;
        if !leads {
            out.push(sign);
        }
    }
    out
}

/// The names of a list, each with the list's cell.
fn names(text: &Sourced<String>) -> Vec<Sourced<String>> {
    split(&text.value).into_iter().map(|name| text.clone().map(|_| name)).collect()
}
