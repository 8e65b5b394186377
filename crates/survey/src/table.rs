//! Sheets as plain tables of cells; those of CSV files are read here.

use crate::problem::{Problem, ProblemKind};
use latchline_finding::{Both, FileId, Origin};
use latchline_words::reading::{SheetMistake, SurveyReason};
use std::sync::Arc;

/// Most rows of one sheet. A building has fewer; what has more is the wrong file.
pub const MOST_ROWS: usize = 20_000;
/// Most columns of one sheet that are looked at.
pub(crate) const MOST_COLUMNS: usize = 200;

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Nothing.
    Empty,
    /// Text, without blanks around it.
    Text(String),
    /// A number that the workbook holds as such.
    Number(f64),
    /// A truth value that the workbook holds as such.
    Bool(bool),
    /// A date, as 2026-03-02; empty where it is a time without one.
    Date(String),
    /// A formula that has no value ("#REF!").
    Fault(Both),
}

/// A cell with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// What stands in it.
    pub value: Value,
    /// Where it is.
    pub origin: Origin,
}

/// One sheet: rows of cells, as they stand.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Its name; of a CSV file the name without ending.
    pub name: Arc<str>,
    /// What divides its cells, if it is of a text file.
    pub separator: Option<char>,
    /// Its rows with something in them; every row knows its number, and ends with its last cell.
    pub rows: Vec<(u32, Vec<Cell>)>,
}

/// Reads one CSV file as one sheet. Comma, semicolon and tab are told apart by the first line.
pub fn from_csv(file: FileId, name: &str, bytes: &[u8], problems: &mut Vec<Problem>) -> Option<Sheet> {
    let shown: Arc<str> = Arc::from(name);
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let Ok(text) = std::str::from_utf8(bytes) else {
        let kind = ProblemKind::SheetUnreadable {
            sheet: name.to_string(),
            reason: Box::new(SurveyReason::NotUtf8.both()),
        };
        problems.push(Problem::new(Origin::None, kind));
        return None;
    };
    let text = format!("{}\n", text.replace("\r\n", "\n"));
    let first = text.lines().next().unwrap_or("");
    let delimiter = [b';', b'\t', b',']
        .into_iter()
        .max_by_key(|sign| first.bytes().filter(|byte| byte == sign).count())
        .unwrap_or(b',');
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter)
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    let mut rows = Vec::new();
    let mut beyond = None;
    let mut record = csv::StringRecord::new();
    loop {
        match reader.read_record(&mut record) {
            Ok(true) => {}
            Ok(false) => break,
            Err(_) => {
                let reason = Box::new(SheetMistake::NoTable.both());
                let kind = ProblemKind::SheetUnreadable { sheet: name.to_string(), reason };
                problems.push(Problem::new(Origin::None, kind));
                return None;
            }
        }
        // The reader passes over blank lines: the number follows from where it stands after the record.
        let inside = record.iter().map(|text| text.matches('\n').count() as u64).sum::<u64>();
        let row = reader.position().line().saturating_sub(1 + inside) as u32;
        if rows.len() >= MOST_ROWS {
            let origin = cell_origin(file, &shown, row.saturating_sub(1), 0);
            problems.push(Problem::new(origin, ProblemKind::TooManyRows { limit: MOST_ROWS }));
            return None;
        }
        let filled_beyond = || record.iter().skip(MOST_COLUMNS).position(|text| !text.trim().is_empty());
        if let (None, Some(at)) = (&beyond, filled_beyond()) {
            beyond = Some(too_far_right(file, &shown, row.saturating_sub(1), (MOST_COLUMNS + at) as u32));
        }
        let cells = record.iter().take(MOST_COLUMNS).enumerate().map(|(at, text)| Cell {
            value: text_value(text),
            origin: cell_origin(file, &shown, row.saturating_sub(1), at as u32),
        });
        rows.push((row, cells.collect()));
    }
    problems.extend(beyond);
    Some(Sheet { name: shown, separator: Some(char::from(delimiter)), rows })
}

pub(crate) fn cell_origin(file: FileId, sheet: &Arc<str>, row0: u32, column0: u32) -> Origin {
    Origin::Cell { file, sheet: sheet.clone(), row: row0 + 1, column: column0 + 1 }
}

/// That this cell, and what else stands so far to the right, is not read.
pub(crate) fn too_far_right(file: FileId, sheet: &Arc<str>, row0: u32, column0: u32) -> Problem {
    let origin = cell_origin(file, sheet, row0, column0);
    Problem::new(origin, ProblemKind::TooManyColumns { limit: MOST_COLUMNS })
}

pub(crate) fn text_value(text: &str) -> Value {
    let text = text.trim();
    if text.is_empty() { Value::Empty } else { Value::Text(text.to_string()) }
}
