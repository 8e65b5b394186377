//! The tables as one workbook: a sheet each, after a sheet of contents.
//!
//! Each sheet links to the contents and back, has filters at its headings, lists where one of a few words is
//! written, and readings that colour themselves outside the limits of their row.
//! Headings are frozen and repeated on every printed page, print areas are set, sums and products are
//! formulas that carry their values. Document properties hold a fixed date, so the same tables give the
//! same bytes.

mod cells;
mod choices;
mod contents;
mod head;
mod looks;
mod readings;
mod sheet;
mod texts;

use contents::contents_sheet;
use latchline_handover::language::Word;
use latchline_handover::subject::Subject;
use latchline_handover::table::Table;
use latchline_handover::tables::origin_line;
use looks::Looks;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, Workbook, XlsxError};
use sheet::table_sheet;
use std::fmt;
use texts::shortened;

/// Why the workbook could not be written, in the words of the library that writes it.
#[derive(Debug)]
pub struct WorkbookError(XlsxError);

impl fmt::Display for WorkbookError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl std::error::Error for WorkbookError {}

impl From<XlsxError> for WorkbookError {
    fn from(error: XlsxError) -> Self {
        WorkbookError(error)
    }
}

/// The workbook.
///
/// # Errors
/// If the library refuses what is written (a table larger than a sheet, say).
pub fn workbook(subject: &Subject<'_>, tables: &[Table]) -> Result<Vec<u8>, WorkbookError> {
    let mut workbook = Workbook::new();
    // Widths of columns are counted in digits of this font, seven pixels wide; without it a program that lacks the
    // usual one takes another, and tables no longer fit their pages.
    workbook.set_default_format(&Format::new().set_font_name("Arial").set_font_size(10), 17, 64)?;
    let made = ExcelDateTime::from_ymd(2000, 1, 1)?;
    workbook.set_properties(
        &DocProperties::new()
            .set_title(shortened(&subject.site.title, 200))
            .set_subject(subject.locale.word(Word::ContentsTitle))
            .set_comment(origin_line(subject))
            .set_creation_datetime(&made),
    );
    let looks = Looks::new();
    contents_sheet(subject, tables, workbook.add_worksheet(), &looks)?;
    for table in tables {
        table_sheet(subject, table, workbook.add_worksheet(), &looks)?;
    }
    Ok(workbook.save_to_buffer()?)
}
