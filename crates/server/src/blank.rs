//! A new site from one form or a survey, wired by `design`.

use latchline_design::{Effort, Texts, design};
use latchline_finding::{Language, Origin, Severity, Sources};
use latchline_site::{LoadedCatalogues, builtin_catalogue};
use latchline_survey::Problem;
use latchline_survey::sheets::SHEETS;
use latchline_survey::template;
use latchline_words::office::{Label, Told};
use serde::Deserialize;

/// Most floors, flats a floor and stairs of the form.
const MOST: usize = 40;

/// The form.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Blank {
    /// Title of the site, and its name.
    pub title: String,
    family: String,
    floors: String,
    flats: String,
    stairs: String,
    cable: String,
    floor_to_floor: String,
    to_first: String,
    spacing: String,
    to_door: String,
    lock: String,
    #[serde(default)]
    guessed: String,
}

/// The built-in catalogue, read.
pub(crate) fn catalogue() -> LoadedCatalogues {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let file = sources.add(name, text);
    LoadedCatalogues::new(&sources, &[file])
}

/// A row of a sheet from its cells by heading.
fn row(sheet: &str, cells: &[(&str, &str)]) -> Vec<String> {
    let columns = SHEETS.iter().find(|form| form.name == sheet).map_or(&[][..], |form| form.columns);
    let cell = |heading: &str| cells.iter().find(|(name, _)| *name == heading).map_or("", |(_, text)| text);
    columns.iter().map(|column| cell(column.heading).to_string()).collect()
}

impl Blank {
    /// The site file that `design` makes of it.
    pub fn site(&self, language: Language) -> Result<String, String> {
        let workbook = self.workbook(language)?;
        from_workbook(&workbook, language)
    }

    fn length(&self, text: &str, label: Label, language: Language) -> Result<String, String> {
        let number = text.trim().replace(',', ".").parse::<f64>().ok();
        let fits = number.filter(|metres| (0.1..=500.0).contains(metres));
        let told = Told::OutOfRange { what: label.say(language), low: "0.1", high: "500 m" };
        fits.map(|metres| metres.to_string()).ok_or_else(|| told.say(language))
    }

    fn count(text: &str, label: Label, language: Language) -> Result<usize, String> {
        let number = text.trim().parse::<usize>().ok().filter(|count| (1..=MOST).contains(count));
        let told = Told::OutOfRange { what: label.say(language), low: "1", high: &MOST.to_string() };
        number.ok_or_else(|| told.say(language))
    }

    fn workbook(&self, language: Language) -> Result<Vec<u8>, String> {
        let floors: Vec<&str> =
            self.floors.split([' ', ',', ';']).filter(|floor| !floor.is_empty()).collect();
        let told = Told::OutOfRange { what: Label::Floors.say(language), low: "1", high: &MOST.to_string() };
        if floors.is_empty() || floors.len() > MOST {
            return Err(told.say(language));
        }
        let flats = Self::count(&self.flats, Label::FlatsPerFloor, language)?;
        let stairs = Self::count(&self.stairs, Label::Stairs, language)?.min(26);
        let between = self.length(&self.floor_to_floor, Label::FloorToFloor, language)?;
        let to_first = self.length(&self.to_first, Label::RiserToFlat, language)?;
        let spacing = self.length(&self.spacing, Label::Spacing, language)?;
        let to_door = self.length(&self.to_door, Label::CupboardToDoor, language)?;
        let tolerance = if self.guessed.is_empty() { "5" } else { "20" };
        let cables = format!("{}; flex-1.0; flex-1.5; outdoor-0.8", self.cable);
        let settings = [
            ("Title", self.title.as_str()),
            ("Family", self.family.as_str()),
            ("Length tolerance", tolerance),
            ("Cables", cables.as_str()),
        ];
        let site = settings
            .iter()
            .map(|(name, value)| row("Site", &[("Setting", name), ("Value", value)]))
            .collect();
        let mut sheets = Sheets { between, to_first, spacing, ..Sheets::default() };
        for stair in 0..stairs {
            let building = char::from(b'A' + u8::try_from(stair).unwrap_or(0)).to_string();
            sheets.building(&building, &floors, flats);
            let role = "main";
            let landing = format!("{building} {}", floors[0]);
            let cells = [
                ("Entrance", format!("front-{building}")),
                ("Place", landing),
                ("Drop", to_door.clone()),
                ("Role", role.to_string()),
                ("Outdoors", String::from("yes")),
                ("Calls", building.clone()),
                ("Lock", self.lock.clone()),
                ("Lock feed", String::from("station")),
                ("Contact", String::from("normally-open")),
                ("Lock cable", String::from("flex-1.0")),
                ("Lock length", String::from("5")),
                ("Hold time", String::from("5")),
                ("Suppression", String::from("diode")),
                ("Exit button", String::from("yes")),
                ("Mechanical escape", String::from("yes")),
            ];
            let cells: Vec<(&str, &str)> = cells.iter().map(|(name, text)| (*name, text.as_str())).collect();
            sheets.entrances.push(row("Entrances", &cells));
        }
        let filling = [
            ("Site", site),
            ("Buildings", sheets.buildings),
            ("Places", sheets.places),
            ("Routes", sheets.routes),
            ("Dwellings", sheets.dwellings),
            ("Entrances", sheets.entrances),
        ];
        template::filled(&filling, language).map_err(|error| error.to_string())
    }
}

#[derive(Default)]
struct Sheets {
    between: String,
    to_first: String,
    spacing: String,
    buildings: Vec<Vec<String>>,
    places: Vec<Vec<String>>,
    routes: Vec<Vec<String>>,
    dwellings: Vec<Vec<String>>,
    entrances: Vec<Vec<String>>,
}

impl Sheets {
    fn place(&mut self, place: &str, building: &str, floor: &str, mains: bool, boxes: bool) {
        let word = |yes: bool| if yes { "yes" } else { "no" };
        let cells = [
            ("Place", place),
            ("Building", building),
            ("Floor", floor),
            ("Mains", word(mains)),
            ("Boxes", word(boxes)),
        ];
        self.places.push(row("Places", &cells));
    }

    fn way(&mut self, from: &str, to: &str, length: &str) {
        self.routes.push(row("Routes", &[("From", from), ("To", to), ("Length", length)]));
    }

    /// A stair: a landing a floor, along each a flat every so far.
    fn building(&mut self, building: &str, floors: &[&str], flats: usize) {
        let (between, to_first, spacing) =
            (self.between.clone(), self.to_first.clone(), self.spacing.clone());
        let all = floors.join("; ");
        self.buildings.push(row(
            "Buildings",
            &[("Building", building), ("Title", building), ("Floors", &all), ("Floor height", &between)],
        ));
        let mut below: Option<String> = None;
        for (level, floor) in floors.iter().enumerate() {
            let landing = format!("{building} {floor}");
            self.place(&landing, building, floor, level == 0, true);
            match &below {
                Some(below) => self.way(below, &landing, &between),
                // Stairs of one house are joined in the basement or the roof space.
                None if building != "A" => self.way(&format!("A {floor}"), &landing, "15"),
                None => {}
            }
            let mut before = landing.clone();
            for flat in 1..=flats {
                let name = format!("{building}-{level}{flat:0width$}", width = if flats > 9 { 2 } else { 1 });
                let at = format!("{name} door");
                self.place(&at, building, floor, false, false);
                self.way(&before, &at, if flat == 1 { &to_first } else { &spacing });
                self.dwellings.push(row("Dwellings", &[("Dwelling", &name), ("Place", &at), ("Drop", "1")]));
                before = at;
            }
            below = Some(landing);
        }
    }
}

/// The cheapest design of a survey.
pub(crate) fn from_workbook(bytes: &[u8], language: Language) -> Result<String, String> {
    let mut sources = Sources::new();
    let file = sources.add("survey", "");
    let mut problems = Vec::new();
    let sheets = latchline_survey::workbook::from_xlsx(file, bytes, &mut problems);
    let read = latchline_survey::read(&sheets, problems);
    let Some(draft) = read.draft else { return Err(mistakes(&read.problems, language)) };
    let (name, text) = builtin_catalogue();
    let files = [sources.add(name, text)];
    let catalogues = LoadedCatalogues::with_prices(&sources, &files, draft.prices.clone());
    let problems = [read.problems, latchline_survey::unknown_parts(&draft, catalogues.catalogue())].concat();
    if catalogues.checked().iter().any(|finding| finding.severity == Severity::Error) {
        return Err(mistakes(&problems, language));
    }
    let Some(survey) = read.survey.filter(|_| problems.iter().all(Problem::is_harmless)) else {
        return Err(mistakes(&problems, language));
    };
    let texts = Texts { sources: &sources, catalogues: &catalogues, language };
    let settled = survey.settings.family.as_ref().map(|family| family.value.clone());
    let families = settled
        .map_or_else(|| catalogues.catalogue().families.keys().cloned().collect(), |family| vec![family]);
    let mut best: Option<latchline_design::Design> = None;
    let mut why = String::new();
    for family in families {
        match design(&survey, &family, texts, Effort::default(), &mut |_, _, _| true) {
            Ok(design) if best.as_ref().is_none_or(|best| design.cost < best.cost) => best = Some(design),
            Ok(_) => {}
            Err(obstacle) => why = format!("{family}: {}", obstacle.say(language)),
        }
    }
    best.map(|design| design.text).ok_or(why)
}

/// How many mistakes a survey has, and each with its cell.
fn mistakes(problems: &[Problem], language: Language) -> String {
    let mut lines = vec![
        Told::SurveyMistakes { mistakes: problems.iter().filter(|problem| !problem.is_harmless()).count() }
            .say(language),
    ];
    for problem in problems.iter().filter(|problem| !problem.is_harmless()).take(40) {
        let finding = problem.finding();
        let words = latchline_words::codes::wording(&finding, language).message;
        lines.push(match cell_words(&finding.origin) {
            Some(place) => format!("{place}: {words}"),
            None => words,
        });
    }
    lines.join("\n")
}

/// Where a finding is, as a spreadsheet shows it.
fn cell_words(origin: &Origin) -> Option<String> {
    match origin {
        Origin::Cell { sheet, row, column, .. } => Some(format!("{sheet} {}{row}", letters(*column))),
        _ => None,
    }
}

/// A column as a spreadsheet shows it: A, B, ... Z, AA.
fn letters(mut column: u32) -> String {
    let mut out = String::new();
    while column > 0 {
        let digit = (column - 1) % 26;
        out.insert(0, char::from(b'A' + u8::try_from(digit).unwrap_or(0)));
        column = (column - 1) / 26;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_have_letters() {
        assert_eq!([1, 26, 27, 52, 703].map(letters), ["A", "Z", "AA", "AZ", "AAA"]);
    }
}
