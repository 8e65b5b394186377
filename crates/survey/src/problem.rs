//! What is wrong with a survey, each with its cell.

use crate::codes;
use latchline_finding::{Both, Code, Figure, Finding, Language, Origin, Severity, Unit};
use latchline_site::codes::{
    CATALOGUE_NOT_READ, FLOORS_UPSIDE_DOWN, LOOK_ALIKE_NAME, UNKNOWN_NAME, WRONG_KIND_OF_PART,
};
use latchline_words::reading::{SurveyReason, Thing};

/// One mistake.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// The cell; [`Origin::None`] where the whole file is meant.
    pub origin: Origin,
    /// The heading of its column, as the user wrote it.
    pub heading: Option<String>,
    /// What is wrong.
    pub kind: ProblemKind,
}

/// A cell that was taken apart by the separator of its file.
#[derive(Debug, Clone, PartialEq)]
pub struct Quoted {
    /// The separator.
    pub separator: char,
    /// The cell as it must be written, quotes included.
    pub written: String,
}

/// What can be wrong.
#[derive(Debug, Clone, PartialEq)]
pub enum ProblemKind {
    /// The file is no workbook.
    NotAWorkbook(Box<Both>),
    /// A sheet cannot be read.
    SheetUnreadable {
        /// Which.
        sheet: String,
        /// Why.
        reason: Box<Both>,
    },
    /// A sheet with this name occurs twice, or two names mean the same one.
    SheetTwice(&'static str),
    /// A sheet that must be there is missing or empty.
    SheetMissing(&'static str),
    /// More rows than a survey has.
    TooManyRows {
        /// The most.
        limit: usize,
    },
    /// More cells than a survey has, or more text in them.
    TooManyCells {
        /// The most cells.
        limit: usize,
    },
    /// A sheet with something beyond the last column that is read.
    TooManyColumns {
        /// The most.
        limit: usize,
    },
    /// A workbook that unpacks to more than a survey takes.
    UnpacksTooLarge {
        /// The most, in millions of bytes.
        megabytes: u64,
    },
    /// Cells that hang together over several rows or amid the data.
    MergedCells,
    /// A column that must be there has no heading.
    ColumnMissing {
        /// The sheet.
        sheet: &'static str,
        /// The column.
        column: &'static str,
    },
    /// Two headings mean the same column.
    ColumnTwice(&'static str),
    /// A heading that means nothing here; told once, not an error.
    ColumnUnknown {
        /// The heading.
        heading: String,
        /// The nearest that is known.
        nearest: Vec<String>,
    },
    /// A cell that must be filled is empty.
    Empty(&'static str),
    /// Not what the column holds.
    NotA {
        /// What was expected ("a length such as 12.5").
        expected: Box<Both>,
        /// What stands there.
        found: Box<Both>,
    },
    /// A number out of its range.
    OutOfRange {
        /// What stands there.
        found: Box<Both>,
        /// Least.
        least: f64,
        /// Most.
        most: f64,
        /// The unit of both.
        unit: Box<Both>,
    },
    /// A formula without value.
    Fault(Both),
    /// A name that is used twice.
    NameTwice {
        /// The name.
        name: String,
        /// The row in which it was used first.
        first_row: u32,
    },
    /// A name that site files cannot hold.
    BadName(String),
    /// A locked route that the sheet of routes does not have.
    NoSuchRoute {
        /// One end.
        from: String,
        /// The other end.
        to: String,
    },
    /// A cell that the row's decision has no use for.
    NothingTakesThis(String),
    /// Two locked decisions that no design keeps together.
    DecisionsContradict {
        /// One.
        one: String,
        /// The other.
        other: String,
    },
    /// A name that is not there.
    UnknownName {
        /// What it should be ("place").
        kind: Thing,
        /// The name.
        name: String,
        /// The nearest that is known.
        nearest: Vec<String>,
    },
    /// A setting that does not exist.
    UnknownSetting {
        /// Its name.
        name: String,
        /// The nearest that is known.
        nearest: Vec<String>,
    },
    /// A route that ends where it starts.
    RouteToItself(String),
    /// No way leads from the mains to this place.
    OffTheRoutes {
        /// What stands there.
        element: String,
        /// The place.
        place: String,
        /// How many others are cut off with it.
        others: usize,
    },
    /// No way leads from who calls to whom it calls.
    NoRouteToCalled {
        /// Who calls.
        caller: String,
        /// The first of those that it cannot reach.
        called: String,
        /// How many others it cannot reach.
        others: usize,
    },
    /// No place has mains.
    NoMains,
    /// No place may hold a box.
    NoBoxPlace,
    /// Nothing to design.
    NoDwellings,
    /// Two settings that cannot both be kept.
    Contradiction(SurveyReason),
    /// A sheet of things with drops, without the column of their lengths.
    NoColumnOfDrops(&'static str),
    /// A drop that is empty, of this element.
    DropEmpty(String),
    /// A name with spaces, which a site file has as one word; told once for all of them.
    NameMadeOneWord {
        /// As it was written.
        written: String,
        /// As the site file has it.
        name: String,
        /// How many there are besides.
        others: usize,
    },
    /// A sheet that means nothing here.
    SheetUnknown {
        /// Its name.
        sheet: String,
        /// The nearest that is known.
        nearest: Vec<String>,
    },
    /// A percentage below one, as it stands there.
    PercentageBelowOne(f64),
    /// A second route between two places.
    RouteTwice {
        /// One place.
        from: String,
        /// The other.
        to: String,
        /// The row of the first.
        first_row: u32,
    },
    /// A route of no length.
    RouteWithoutLength {
        /// One place.
        from: String,
        /// The other.
        to: String,
    },
    /// A way from floor to floor that is far longer or shorter than others of its building.
    RouteUnlikeOthers {
        /// One place and the other.
        ends: Box<[String; 2]>,
        /// Metres for a floor.
        floor_m: f64,
        /// What the middle one of the others has.
        usual_m: f64,
    },
    /// A way past a floor that is reached from its far end.
    FloorsOutOfOrder {
        /// Where it comes from, where it leads, and the place between them.
        places: Box<[String; 3]>,
    },
    /// Floors that seem to be written from the top down.
    FloorsUpsideDown {
        /// The building, the first that is written, and the last.
        names: Box<[String; 3]>,
    },
    /// A place with a building and no floor.
    PlaceWithoutFloor(String),
    /// A name that differs from another in leading zeros only.
    NumbersAlike {
        /// The name.
        name: String,
        /// The other.
        other: String,
        /// The row of the other.
        row: u32,
    },
    /// A name that can be taken for another, or has signs that are not what they seem.
    LooksAlike {
        /// The name.
        name: String,
        /// These signs.
        signs: Vec<String>,
        /// A name that it looks like.
        other: Option<String>,
    },
    /// A part that cannot do this job.
    WrongKind {
        /// Its name.
        name: String,
        /// What it is.
        found: Thing,
        /// What is needed.
        expected: Thing,
    },
    /// A part of another family than the survey is designed with.
    OtherFamily {
        /// Its name.
        name: String,
        /// Its family.
        family: String,
        /// The family of the survey.
        expected: String,
        /// Parts of that family that do the same.
        choices: Vec<String>,
    },
    /// A catalogue that could not be read.
    CatalogueNotRead {
        /// As the survey names it.
        path: String,
        /// Why, in a sentence without full stop.
        why: Box<Both>,
    },
    /// Cells of a row, or of one column of several rows, without a heading above them.
    NoHeading {
        /// What stands in them.
        found: String,
        /// In how many further rows the same column is filled.
        others: usize,
        /// How a cell is written that holds the separator of its file, where that may be meant.
        quoted: Option<Quoted>,
    },
    /// A withdrawn part that no catalogue has.
    WithdrawnUnknown {
        /// Its name.
        name: String,
        /// The nearest that is known.
        nearest: Vec<String>,
    },
    /// A measured loop far from that of its cable.
    LoopNotOfCable {
        /// What was measured, in ohms.
        loop_ohm: f64,
        /// The cable.
        cable: String,
        /// What so much of it has, in ohms.
        expected_ohm: f64,
    },
}

impl Problem {
    /// A problem in a cell.
    pub fn new(origin: Origin, kind: ProblemKind) -> Self {
        Problem { origin, heading: None, kind }
    }

    /// With the heading of the column.
    #[must_use]
    pub fn under(mut self, heading: &str) -> Self {
        self.heading = Some(heading.to_string());
        self
    }

    /// Whether no sheet could be read, so that of none it is known that it is missing.
    pub(crate) fn hides_all_sheets(&self) -> bool {
        matches!(self.kind, ProblemKind::NotAWorkbook(_) | ProblemKind::UnpacksTooLarge { .. })
    }

    /// Whether the survey can be used in spite of it.
    pub fn is_harmless(&self) -> bool {
        self.finding().severity < Severity::Error
    }
}

/// A number with its unit.
fn with_unit(number: f64, unit: &Both) -> Both {
    let said = |language| format!("{number} {}", unit.of(language)).trim_end().to_string();
    Both::new(said(Language::English), said(Language::German))
}

impl Problem {
    /// The mistake as a finding, like those of site files.
    pub fn finding(&self) -> Finding {
        let new = |code: Code| {
            let doc = codes::CODES.iter().find(|doc| doc.code == code);
            Finding::new(code, doc.map_or(Severity::Error, |doc| doc.severity), self.origin.clone())
        };
        let under = |finding: Finding| match &self.heading {
            Some(heading) => finding.with("column", heading.as_str()),
            None => finding,
        };
        let with_others = |finding: Finding, others: usize| match others {
            0 => finding,
            _ => finding.with("others", Figure::count(others)),
        };
        match &self.kind {
            ProblemKind::NotAWorkbook(reason) => {
                new(codes::NOT_A_WORKBOOK).with("reason", reason.as_ref().clone())
            }
            ProblemKind::SheetUnreadable { sheet, reason } => new(codes::SHEET_UNREADABLE)
                .with("sheet", sheet.as_str())
                .with("reason", reason.as_ref().clone()),
            ProblemKind::SheetTwice(sheet) => new(codes::SHEET_TWICE).with("sheet", *sheet),
            ProblemKind::SheetMissing(sheet) => new(codes::SHEET_MISSING).with("sheet", *sheet),
            ProblemKind::TooManyRows { limit } => new(codes::TOO_MANY_ROWS).with("limit", *limit),
            ProblemKind::TooManyCells { limit } => new(codes::TOO_MANY_CELLS).with("limit", *limit),
            ProblemKind::TooManyColumns { limit } => new(codes::TOO_MANY_COLUMNS).with("limit", *limit),
            ProblemKind::UnpacksTooLarge { megabytes } => {
                new(codes::UNPACKS_TOO_LARGE).with("megabytes", megabytes.to_string())
            }
            ProblemKind::MergedCells => new(codes::MERGED_CELLS),
            ProblemKind::ColumnMissing { sheet, column } => {
                new(codes::COLUMN_MISSING).with("sheet", *sheet).with("column", *column)
            }
            ProblemKind::ColumnTwice(column) => new(codes::COLUMN_TWICE).with("column", *column),
            ProblemKind::ColumnUnknown { heading, nearest: near } => {
                new(codes::COLUMN_UNKNOWN).with("column", heading.as_str()).with("nearest", near.clone())
            }
            ProblemKind::Empty(column) => new(codes::CELL_EMPTY).with("column", *column),
            ProblemKind::NotA { expected, found } => under(
                new(codes::CELL_NOT_UNDERSTOOD)
                    .with("found", found.as_ref().clone())
                    .with("expected", expected.as_ref().clone()),
            ),
            ProblemKind::OutOfRange { found, least, most, unit } => under(
                new(codes::CELL_OUT_OF_RANGE)
                    .with("found", found.as_ref().clone())
                    .with("least", least.to_string())
                    .with("most", with_unit(*most, unit)),
            ),
            ProblemKind::Fault(fault) => {
                under(new(codes::FORMULA_WITHOUT_VALUE).with("fault", fault.clone()))
            }
            ProblemKind::NameTwice { name, first_row } => under(
                new(codes::NAME_USED_TWICE)
                    .with("name", name.as_str())
                    .with("row", Figure::count(*first_row as usize)),
            ),
            ProblemKind::BadName(name) => under(new(codes::NAME_NOT_USABLE).with("name", name.as_str())),
            ProblemKind::UnknownName { kind, name, nearest: near } => new(UNKNOWN_NAME)
                .with("kind", kind.both())
                .with("name", name.as_str())
                .with("nearest", near.clone()),
            ProblemKind::UnknownSetting { name, nearest: near } => {
                new(codes::UNKNOWN_SETTING).with("name", name.as_str()).with("nearest", near.clone())
            }
            ProblemKind::RouteToItself(place) => new(codes::ROUTE_TO_ITSELF).with("place", place.as_str()),
            ProblemKind::OffTheRoutes { element, place, others } => with_others(
                new(codes::OFF_THE_ROUTES).about(element.as_str()).with("place", place.as_str()),
                *others,
            ),
            ProblemKind::NoRouteToCalled { caller, called, others } => with_others(
                new(codes::NO_ROUTE_TO_CALLED).about(caller.as_str()).with("called", called.as_str()),
                *others,
            ),
            ProblemKind::NoMains => new(codes::NO_PLACE_WITH_MAINS),
            ProblemKind::NoBoxPlace => new(codes::NO_PLACE_FOR_BOXES),
            ProblemKind::NoDwellings => new(codes::NO_DWELLINGS),
            ProblemKind::NoColumnOfDrops(sheet) => new(codes::DROP_COLUMN_MISSING).with("sheet", *sheet),
            ProblemKind::DropEmpty(element) => new(codes::DROP_NOT_STATED).about(element.as_str()),
            ProblemKind::NameMadeOneWord { written, name, others } => with_others(
                new(codes::NAMES_MADE_ONE_WORD).with("written", written.as_str()).with("name", name.as_str()),
                *others,
            ),
            ProblemKind::SheetUnknown { sheet, nearest: near } => {
                new(codes::SHEET_UNKNOWN).with("sheet", sheet.as_str()).with("nearest", near.clone())
            }
            ProblemKind::PercentageBelowOne(found) => {
                let found = Figure::new(*found, Unit::Count);
                under(new(codes::PERCENTAGE_BELOW_ONE).with("found", found))
            }
            ProblemKind::RouteTwice { from, to, first_row } => new(codes::ROUTE_TWICE)
                .with("from", from.as_str())
                .with("to", to.as_str())
                .with("row", Figure::count(*first_row as usize)),
            ProblemKind::RouteWithoutLength { from, to } => {
                new(codes::ROUTE_WITHOUT_LENGTH).with("from", from.as_str()).with("to", to.as_str())
            }
            ProblemKind::RouteUnlikeOthers { ends, floor_m, usual_m } => new(codes::ROUTE_UNLIKE_OTHERS)
                .with("from", ends[0].as_str())
                .with("to", ends[1].as_str())
                .with("length", Figure::new(*floor_m, Unit::Metre))
                .with("usual", Figure::new(*usual_m, Unit::Metre)),
            ProblemKind::FloorsOutOfOrder { places } => new(codes::FLOORS_OUT_OF_ORDER)
                .with("from", places[0].as_str())
                .with("to", places[1].as_str())
                .with("between", places[2].as_str()),
            ProblemKind::FloorsUpsideDown { names } => new(FLOORS_UPSIDE_DOWN)
                .about(names[0].as_str())
                .with("first", names[1].as_str())
                .with("last", names[2].as_str()),
            ProblemKind::PlaceWithoutFloor(place) => new(codes::PLACE_WITHOUT_FLOOR).about(place.as_str()),
            ProblemKind::NumbersAlike { name, other, row } => new(codes::NUMBERS_ALIKE)
                .with("name", name.as_str())
                .with("other", other.as_str())
                .with("row", Figure::count(*row as usize)),
            ProblemKind::LooksAlike { name, signs, other } => {
                let finding = Finding::new(LOOK_ALIKE_NAME, Severity::Warning, self.origin.clone())
                    .about(name.as_str())
                    .with("name", name.as_str())
                    .with("signs", signs.clone());
                match other {
                    Some(other) => finding.with("other", other.as_str()),
                    None => finding,
                }
            }
            ProblemKind::WrongKind { name, found, expected } => new(WRONG_KIND_OF_PART)
                .with("name", name.as_str())
                .with("found", found.both())
                .with("expected", expected.both()),
            ProblemKind::OtherFamily { name, family, expected, choices } => {
                new(codes::PART_OF_ANOTHER_FAMILY)
                    .with("name", name.as_str())
                    .with("family", family.as_str())
                    .with("expected", expected.as_str())
                    .with("choices", choices.clone())
            }
            ProblemKind::CatalogueNotRead { path, why } => {
                new(CATALOGUE_NOT_READ).with("path", path.as_str()).with("why", why.as_ref().clone())
            }
            ProblemKind::NoHeading { found, others, quoted } => {
                let finding = new(codes::CELL_WITHOUT_HEADING).with("found", found.as_str());
                let finding = with_others(finding, *others);
                match quoted {
                    Some(Quoted { separator, written }) => {
                        finding.with("separator", separator.to_string()).with("written", written.as_str())
                    }
                    None => finding,
                }
            }
            ProblemKind::WithdrawnUnknown { name, nearest: near } => {
                new(codes::WITHDRAWAL_WITHOUT_PART).with("name", name.as_str()).with("nearest", near.clone())
            }
            ProblemKind::LoopNotOfCable { loop_ohm, cable, expected_ohm } => new(codes::LOOP_NOT_OF_CABLE)
                .with("loop", Figure::new(*loop_ohm, Unit::Ohm))
                .with("cable", cable.as_str())
                .with("expected", Figure::new(*expected_ohm, Unit::Ohm)),
            ProblemKind::NoSuchRoute { from, to } => {
                new(codes::LOCKED_ROUTE_UNKNOWN).with("from", from.as_str()).with("to", to.as_str())
            }
            ProblemKind::NothingTakesThis(found) => {
                under(new(codes::CELL_WITHOUT_USE).with("found", found.as_str()))
            }
            ProblemKind::DecisionsContradict { one, other } => {
                new(codes::DECISIONS_CONTRADICT).with("one", one.as_str()).with("other", other.as_str())
            }
            ProblemKind::Contradiction(detail) => {
                new(codes::SETTINGS_CONTRADICT).with("detail", detail.both())
            }
        }
    }
}
