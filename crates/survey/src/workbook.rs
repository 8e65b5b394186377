//! Sheets from an XLSX workbook, with a bound on everything before room is made for it.
//!
//! A workbook is a ZIP archive whose parts may unpack to a thousand times their size, and a sheet may name a
//! cell in its last row and column. So the parts are unpacked once only to be counted, and cells are read one by one.

mod claims;

use crate::problem::{Problem, ProblemKind};
use crate::sheet_mistake::{of_archive, of_workbook};
use crate::table::{Cell, MOST_COLUMNS, MOST_ROWS, Sheet, Value, cell_origin, text_value, too_far_right};
use calamine::{DataRef, Reader, Xlsx, XlsxError};
use latchline_finding::{Both, FileId, Origin};
use latchline_words::reading::SheetMistake;
use std::collections::BTreeMap;
use std::io::{BufReader, Cursor, Read, sink};
use std::sync::Arc;
use zip::ZipArchive;

/// Most bytes that a workbook may unpack to, and that its texts may take.
pub const MOST_BYTES: u64 = 100_000_000;
/// Most parts of a workbook.
const MOST_PARTS: usize = 10_000;
/// Most cells of a workbook, empty ones before the last of a row included.
pub const MOST_CELLS: usize = 1_000_000;

/// What a workbook may still use up.
struct Budget {
    cells: usize,
    text_bytes: u64,
}

/// Why the cells of a sheet cannot be had.
enum Refused {
    Unreadable(XlsxError),
    TooMany(Box<Problem>),
}

/// Names of the sheets of an XLSX workbook; none where it cannot be read.
pub fn sheet_names(bytes: &[u8]) -> Vec<String> {
    if !matches!(bounds(bytes), Ok(Bounds::Kept)) {
        return Vec::new();
    }
    Xlsx::new(Cursor::new(bytes))
        .map_or_else(|_: XlsxError| Vec::new(), |workbook: Xlsx<_>| workbook.sheet_names())
}

/// Reads all sheets of an XLSX workbook.
pub fn from_xlsx(file: FileId, bytes: &[u8], problems: &mut Vec<Problem>) -> Vec<Sheet> {
    let mut whole = |kind| problems.push(Problem::new(Origin::None, kind));
    match bounds(bytes) {
        Ok(Bounds::Kept) => {}
        Ok(Bounds::FalseClaim) => {
            whole(ProblemKind::NotAWorkbook(Box::new(SheetMistake::PartDamaged.both())));
            return Vec::new();
        }
        Ok(Bounds::TooLarge) => {
            whole(ProblemKind::UnpacksTooLarge { megabytes: MOST_BYTES / 1_000_000 });
            return Vec::new();
        }
        Err(reason) => {
            whole(ProblemKind::NotAWorkbook(Box::new(reason.both())));
            return Vec::new();
        }
    }
    let mut workbook: Xlsx<_> = match Xlsx::new(Cursor::new(bytes)) {
        Ok(workbook) => workbook,
        Err(error) => {
            whole(ProblemKind::NotAWorkbook(Box::new(of_workbook(&error).both())));
            return Vec::new();
        }
    };
    let mut budget = Budget { cells: MOST_CELLS, text_bytes: MOST_BYTES };
    let mut sheets = Vec::new();
    for name in workbook.sheet_names() {
        let shown: Arc<str> = Arc::from(name.as_str());
        let cells = match cells(&mut workbook, file, &shown, &mut budget) {
            Ok((cells, beyond)) => {
                problems.extend(beyond);
                cells
            }
            Err(Refused::Unreadable(error)) => {
                let reason = Box::new(of_workbook(&error).both());
                let kind = ProblemKind::SheetUnreadable { sheet: name, reason };
                problems.push(Problem::new(Origin::None, kind));
                continue;
            }
            Err(Refused::TooMany(problem)) => {
                problems.push(*problem);
                continue;
            }
        };
        let first_row = cells.keys().next().map_or(0, |(row, _)| *row);
        for area in workbook.merge_cells_by_sheet_name(&name).unwrap_or_default() {
            // A title across the page does no harm; two rows in one cell do.
            if area.start.0 != area.end.0 || area.start.0 > first_row {
                let origin = cell_origin(file, &shown, area.start.0, area.start.1);
                problems.push(Problem::new(origin, ProblemKind::MergedCells));
            }
        }
        match rows(file, &shown, cells, &mut budget) {
            Ok(rows) => sheets.push(Sheet { name: shown, separator: None, rows }),
            Err(problem) => problems.push(*problem),
        }
    }
    sheets
}

/// What is wrong with an archive before anything of it is kept.
enum Bounds {
    /// Nothing.
    Kept,
    /// It unpacks to more than it may.
    TooLarge,
    /// A part claims what cannot be.
    FalseClaim,
}

/// Unpacks every part once, to count it, since what the archive says of its sizes may be wrong, and to hold what it claims against what can be.
fn bounds(bytes: &[u8]) -> Result<Bounds, SheetMistake> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(|error| of_archive(&error))?;
    let mut left = MOST_BYTES;
    if archive.len() > MOST_PARTS {
        return Ok(Bounds::TooLarge);
    }
    for part in 0..archive.len() {
        // What is encrypted or broken is told by who needs it.
        let Ok(part) = archive.by_index(part) else { continue };
        // Bytes before a break count as well; nothing is kept of them.
        let mut counted = Counted { inner: part, bytes: 0 };
        let mut bounded = BufReader::new((&mut counted).take(left + 1));
        let can_be = claims::can_be(&mut bounded, MOST_CELLS);
        let _ = std::io::copy(&mut bounded, &mut sink());
        if counted.bytes > left {
            return Ok(Bounds::TooLarge);
        }
        if !can_be {
            return Ok(Bounds::FalseClaim);
        }
        left -= counted.bytes;
    }
    Ok(Bounds::Kept)
}

/// A reader that counts.
struct Counted<R> {
    inner: R,
    bytes: u64,
}

impl<R: Read> Read for Counted<R> {
    fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
        let read = self.inner.read(buffer)?;
        self.bytes += read as u64;
        Ok(read)
    }
}

/// Cells by row and column from 0.
type Cells = BTreeMap<(u32, u32), Value>;

/// Every cell of a sheet that has something in it, and the first that stands too far to the right.
fn cells(
    workbook: &mut Xlsx<Cursor<&[u8]>>,
    file: FileId,
    sheet: &Arc<str>,
    budget: &mut Budget,
) -> Result<(Cells, Option<Problem>), Refused> {
    let mut reader = workbook.worksheet_cells_reader(sheet).map_err(Refused::Unreadable)?;
    let mut cells = BTreeMap::new();
    let mut beyond = None;
    while let Some(cell) = reader.next_cell_with_formula_metadata().map_err(Refused::Unreadable)? {
        let (row, column) = cell.pos;
        let value = match value_of(&cell.value) {
            // Read as empty it would be a value left out.
            Value::Empty if cell.formula.is_some() => Value::Fault(SheetMistake::NeverComputed.both()),
            Value::Empty => continue,
            value => value,
        };
        let refused =
            |kind| Refused::TooMany(Box::new(Problem::new(cell_origin(file, sheet, row, column), kind)));
        if row as usize >= MOST_ROWS {
            return Err(refused(ProblemKind::TooManyRows { limit: MOST_ROWS }));
        }
        if column as usize >= MOST_COLUMNS {
            beyond.get_or_insert_with(|| too_far_right(file, sheet, row, column));
            continue;
        }
        let text_bytes = match &value {
            Value::Text(text) => text.len() as u64,
            Value::Fault(fault) => fault.name().len() as u64,
            _ => 0,
        };
        match (budget.cells.checked_sub(1), budget.text_bytes.checked_sub(text_bytes)) {
            (Some(cells_left), Some(bytes_left)) => {
                *budget = Budget { cells: cells_left, text_bytes: bytes_left };
            }
            _ => return Err(refused(ProblemKind::TooManyCells { limit: MOST_CELLS })),
        }
        cells.insert((row, column), value);
    }
    Ok((cells, beyond))
}

/// The rows that have something in them, each up to its last cell.
fn rows(
    file: FileId,
    sheet: &Arc<str>,
    cells: Cells,
    budget: &mut Budget,
) -> Result<Vec<(u32, Vec<Cell>)>, Box<Problem>> {
    let first_column = cells.keys().map(|(_, column)| *column).min().unwrap_or(0);
    let mut rows: Vec<(u32, Vec<Cell>)> = Vec::new();
    for ((row, column), value) in cells {
        if rows.last().is_none_or(|(last, _)| *last != row + 1) {
            rows.push((row + 1, Vec::new()));
        }
        let Some((_, cells)) = rows.last_mut() else { continue };
        for empty in first_column + cells.len() as u32..column {
            let origin = cell_origin(file, sheet, row, empty);
            let Some(left) = budget.cells.checked_sub(1) else {
                let kind = ProblemKind::TooManyCells { limit: MOST_CELLS };
                return Err(Box::new(Problem::new(origin, kind)));
            };
            budget.cells = left;
            cells.push(Cell { value: Value::Empty, origin });
        }
        cells.push(Cell { value, origin: cell_origin(file, sheet, row, column) });
    }
    Ok(rows)
}

/// Letters of a date in the form 2026-03-02.
const ISO_DATE_LENGTH: usize = 10;

fn value_of(data: &DataRef<'_>) -> Value {
    match data {
        DataRef::Empty => Value::Empty,
        DataRef::String(text) => text_value(text),
        DataRef::SharedString(text) => text_value(text),
        DataRef::Int(number) => Value::Number(*number as f64),
        DataRef::Float(number) => Value::Number(*number),
        DataRef::Bool(value) => Value::Bool(*value),
        DataRef::DateTime(date) if !date.is_duration() => {
            let (year, month, day, ..) = date.to_ymd_hms_milli();
            Value::Date(format!("{year:04}-{month:02}-{day:02}"))
        }
        DataRef::DateTimeIso(text) => Value::Date(text.chars().take(ISO_DATE_LENGTH).collect()),
        DataRef::DateTime(_) | DataRef::DurationIso(_) => Value::Date(String::new()),
        DataRef::Error(error) => Value::Fault(Both::same(error.to_string())),
    }
}
