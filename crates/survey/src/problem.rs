//! What is wrong with a survey, each with its cell.

use latchline_finding::Origin;
use std::fmt;

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

/// What can be wrong.
#[derive(Debug, Clone, PartialEq)]
pub enum ProblemKind {
    /// The file is no workbook.
    NotAWorkbook(String),
    /// A sheet cannot be read.
    SheetUnreadable {
        /// Which.
        sheet: String,
        /// Why.
        reason: String,
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
        nearest: String,
    },
    /// A cell that must be filled is empty.
    Empty(&'static str),
    /// Not what the column holds.
    NotA {
        /// What was expected ("a length such as 12.5").
        expected: &'static str,
        /// What stands there.
        found: String,
    },
    /// A number out of its range.
    OutOfRange {
        /// What stands there.
        found: String,
        /// Least.
        least: f64,
        /// Most.
        most: f64,
        /// The unit of both.
        unit: &'static str,
    },
    /// A formula without value.
    Fault(String),
    /// A name that is used twice.
    NameTwice {
        /// The name.
        name: String,
        /// The row in which it was used first.
        first_row: u32,
    },
    /// A name that site files cannot hold.
    BadName(String),
    /// A name that is not there.
    UnknownName {
        /// What it should be ("place").
        kind: &'static str,
        /// The name.
        name: String,
        /// The nearest that is known.
        nearest: String,
    },
    /// A setting that does not exist.
    UnknownSetting {
        /// Its name.
        name: String,
        /// The nearest that is known.
        nearest: String,
    },
    /// A route that ends where it starts.
    RouteToItself(String),
    /// No way leads from the mains to this place.
    OffTheRoutes {
        /// What stands there.
        element: String,
        /// The place.
        place: String,
    },
    /// No place has mains.
    NoMains,
    /// No place may hold a box.
    NoBoxPlace,
    /// Nothing to design.
    NoDwellings,
    /// Two settings that cannot both be kept.
    Contradiction(&'static str),
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

    /// Whether the survey can be used in spite of it.
    pub fn is_harmless(&self) -> bool {
        matches!(self.kind, ProblemKind::ColumnUnknown { .. })
    }
}

/// A column as spreadsheets call it: 1 is A, 27 is AA.
pub fn column_letters(column: u32) -> String {
    let mut left = column;
    let mut letters = Vec::new();
    while left > 0 {
        let digit = (left - 1) % 26;
        letters.push(char::from(b'A' + digit as u8));
        left = (left - 1) / 26;
    }
    letters.iter().rev().collect()
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Origin::Cell { sheet, row, column, .. } = &self.origin {
            write!(f, "sheet \"{sheet}\", row {row}, column {}", column_letters(*column))?;
            if let Some(heading) = &self.heading {
                write!(f, " ({heading})")?;
            }
            f.write_str(": ")?;
        }
        write!(f, "{}", self.kind)
    }
}

impl fmt::Display for ProblemKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotAWorkbook(reason) => write!(f, "this is not an XLSX workbook: {reason}"),
            Self::SheetUnreadable { sheet, reason } => {
                write!(f, "the sheet \"{sheet}\" cannot be read: {reason}")
            }
            Self::SheetTwice(sheet) => write!(f, "two sheets are called \"{sheet}\"; keep one"),
            Self::SheetMissing(sheet) => {
                write!(
                    f,
                    "the sheet \"{sheet}\" is missing or has no rows; see the template of latchline new --survey"
                )
            }
            Self::TooManyRows { limit } => {
                write!(
                    f,
                    "more than {limit} rows; check that it is the right file, and that nothing is left far below the table"
                )
            }
            Self::TooManyCells { limit } => {
                write!(f, "more than {limit} cells; check that it is the right file")
            }
            Self::UnpacksTooLarge { megabytes } => {
                write!(f, "the workbook unpacks to more than {megabytes} MB; check that it is the right file")
            }
            Self::MergedCells => {
                f.write_str("merged cells; unmerge them and repeat the value in every row that it holds for")
            }
            Self::ColumnMissing { sheet, column } => {
                write!(f, "the sheet \"{sheet}\" has no column \"{column}\"")
            }
            Self::ColumnTwice(column) => write!(f, "a second column for \"{column}\"; keep one"),
            Self::ColumnUnknown { heading, nearest } => {
                write!(f, "the column \"{heading}\" is not used; did you mean \"{nearest}\"?")
            }
            Self::Empty(column) => write!(f, "\"{column}\" must be filled in"),
            Self::NotA { expected, found } => write!(f, "\"{found}\" is not {expected}"),
            Self::OutOfRange { found, least, most, unit } => {
                write!(f, "{found} is outside {least} to {most} {unit}")
            }
            Self::Fault(fault) => write!(f, "the formula has no value ({fault}); mend it or type the value"),
            Self::NameTwice { name, first_row } => {
                write!(f, "\"{name}\" is used already in row {first_row}; names must differ")
            }
            Self::BadName(name) => {
                write!(f, "\"{name}\" cannot be a name: use up to 60 letters, digits, '-' and '_'")
            }
            Self::UnknownName { kind, name, nearest } if nearest.is_empty() => {
                write!(f, "there is no {kind} \"{name}\"")
            }
            Self::UnknownName { kind, name, nearest } => {
                write!(f, "there is no {kind} \"{name}\"; did you mean \"{nearest}\"?")
            }
            Self::UnknownSetting { name, nearest } => {
                write!(f, "there is no setting \"{name}\"; did you mean \"{nearest}\"?")
            }
            Self::RouteToItself(place) => write!(f, "the route starts and ends at \"{place}\""),
            Self::OffTheRoutes { element, place } => {
                write!(
                    f,
                    "\"{element}\" stands at \"{place}\", to which no route leads from any place with mains"
                )
            }
            Self::NoMains => {
                f.write_str("no place has mains; write yes under \"Mains\" where a supply may stand")
            }
            Self::NoBoxPlace => {
                f.write_str("no place may hold a box; write yes under \"Boxes\" where one may hang")
            }
            Self::NoDwellings => f.write_str("there are no dwellings"),
            Self::Contradiction(text) => f.write_str(text),
        }
    }
}
