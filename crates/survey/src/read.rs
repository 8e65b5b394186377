//! From sheets to a survey, with every mistake of all sheets.

mod existing;
mod locked;
mod risers;
mod settings;
mod stations;
mod ways;

use crate::fields::{Form, Row, site_name, split};
use crate::model::Survey;
use crate::problem::{Problem, ProblemKind};
use crate::scope::{self, Written};
use crate::sheets::{self, SHEETS, meant, nearest, nearest_or_few, plain};
use crate::table::{Sheet, Value};
use latchline_finding::{Origin, Sourced};
use latchline_site::catalogue::Environment;
use latchline_site::look_alikes;
use latchline_words::reading::{SurveyReason, Thing};
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
    // Of what no sheet could be read of, it is not known which sheets it lacks.
    if tables.is_empty() && problems.iter().any(Problem::hides_all_sheets) {
        return Read { survey: None, draft: None, problems };
    }
    let mut reader = Reader { problems: &mut problems, calls: Vec::new(), joined: None };
    let draft = reader.survey(tables);
    let usable = problems.iter().all(Problem::is_harmless);
    Read { survey: draft.clone().filter(|_| usable), draft, problems }
}

struct Reader<'p> {
    problems: &'p mut Vec<Problem>,
    /// Cells that say who calls whom, to be understood once everybody is known.
    calls: Vec<Written>,
    /// Which problem tells of a name that lost its spaces.
    joined: Option<usize>,
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
        let routes = self.routes(form("Routes"), &place_names, &places, &buildings);
        let mut names = Names::new();
        let dwellings = self.dwellings(form("Dwellings"), &place_names, &mut names);
        let entrances = self.entrances(form("Entrances"), (&place_names, &places), &mut names);
        let desks = self.desks(form("Desks"), &place_names, &mut names);
        let existing = self.existing(form("Existing cables"), &place_names, &names);
        let prices = self.prices(form("Prices"));
        let mut survey = Survey {
            settings,
            buildings,
            places,
            routes,
            existing,
            dwellings,
            entrances,
            desks,
            prices,
            locked: Vec::new(),
        };
        scope::settle(&mut survey, &self.calls, self.problems);
        self.locked(form("Locked decisions"), &place_names, &mut survey);
        self.whole(&survey);
        self.look_alikes(&survey);
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
        let name = name.map(|name| site_name(&name));
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

    /// As [`Reader::name`], of what bears this name in the site file too.
    fn name_kept(
        &mut self,
        row: &Row<'_, '_>,
        heading: &'static str,
        names: &mut Names,
    ) -> Option<Sourced<String>> {
        let name = self.name(row, heading, names)?;
        let written = row.text(heading, &mut Vec::new()).map(|text| text.value.trim().to_string());
        if let Some(written) = written.filter(|written| *written != name.value) {
            self.made_one_word(row, heading, written, &name.value);
        }
        Some(name)
    }

    /// A name that lost its spaces: the first is told at its cell, the others are counted there.
    fn made_one_word(&mut self, row: &Row<'_, '_>, heading: &str, written: String, name: &str) {
        match self.joined.and_then(|first| self.problems.get_mut(first)).map(|problem| &mut problem.kind) {
            Some(ProblemKind::NameMadeOneWord { others, .. }) => *others += 1,
            _ => {
                self.joined = Some(self.problems.len());
                let kind = ProblemKind::NameMadeOneWord { written, name: name.to_string(), others: 0 };
                row.wrong(heading, kind, self.problems);
            }
        }
    }

    fn place(&mut self, row: &Row<'_, '_>, heading: &'static str, names: &Names) -> Option<usize> {
        let wanted = row.need(heading, self.problems)?;
        let wanted = wanted.map(|name| site_name(&name));
        let found = names.get(&wanted.value).map(|(index, _)| *index);
        if found.is_none() {
            let nearest = nearest_or_few(&wanted.value, names.keys().map(String::as_str));
            let kind = ProblemKind::UnknownName { kind: Thing::Place, name: wanted.value, nearest };
            row.wrong(heading, kind, self.problems);
        }
        found
    }

    /// Where a cable runs; one that leads to a place in the open runs there where nothing is said.
    fn environment(&mut self, row: &Row<'_, '_>, is_end_outdoors: bool) -> Environment {
        match row.choice("Environment", self.problems) {
            Some("outdoors") => Environment::Outdoors,
            Some("buried") => Environment::Buried,
            None if is_end_outdoors => Environment::Outdoors,
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

    /// Names of dwellings, doors and desks that can be taken for others.
    fn look_alikes(&mut self, survey: &Survey) {
        let named: BTreeMap<&str, &Origin> = (survey.dwellings.iter().map(|one| &one.name))
            .chain(survey.entrances.iter().map(|one| &one.name))
            .chain(survey.desks.iter().map(|one| &one.name))
            .map(|name| (name.value.as_str(), &name.origin))
            .collect();
        for one in look_alikes(named.keys().copied()) {
            let origin = named.get(one.name).map_or(Origin::None, |origin| (*origin).clone());
            let (name, other) = (one.name.to_string(), one.other.map(String::from));
            self.report(origin, ProblemKind::LooksAlike { name, signs: one.signs, other });
        }
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
        if !(0..survey.places.len()).any(|place| survey.may_hang(place)) {
            self.report(Origin::None, ProblemKind::NoBoxPlace);
        }
        let settings = &survey.settings;
        if settings.coldest_c.value > settings.usual_c.value
            || settings.usual_c.value > settings.hottest_c.value
        {
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
