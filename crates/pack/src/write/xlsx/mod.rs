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
mod tab;
mod texts;

use crate::language::Word;
use crate::subject::Subject;
use crate::table::Table;
use crate::tables::origin_line;
use contents::contents_sheet;
use looks::Looks;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, Workbook, XlsxError};
use sheet::table_sheet;
pub use tab::tab;
use texts::shortened;

/// The workbook.
///
/// # Errors
/// If the library refuses what is written (a table larger than a sheet, say).
pub fn workbook(subject: &Subject<'_>, tables: &[Table]) -> Result<Vec<u8>, XlsxError> {
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
    workbook.save_to_buffer()
}
