//! The sheet of contents.

use super::head::{head, page};
use super::looks::Looks;
use super::texts::address_of;
use latchline_handover::language::Word;
use latchline_handover::subject::Subject;
use latchline_handover::tab::tab;
use latchline_handover::table::Table;
use latchline_handover::tables::cautions;
use rust_xlsxwriter::{Url, Worksheet, XlsxError};

/// The sheet of contents: what is in the workbook, where it is from, and the cautions.
pub(super) fn contents_sheet(
    subject: &Subject<'_>,
    tables: &[Table],
    sheet: &mut Worksheet,
    looks: &Looks,
) -> Result<(), XlsxError> {
    let locale = &subject.locale;
    sheet.set_name(locale.word(Word::TabContents))?;
    page(sheet, subject, &subject.site.title);
    let columns = [(Word::Sheet, 20), (Word::Title, 60), (Word::Rows, 10)];
    let widths = columns.map(|(_, width)| width);
    for (index, width) in widths.iter().enumerate() {
        sheet.set_column_width(index as u16, f64::from(*width))?;
    }
    let notes = cautions(locale);
    let title = format!("{}: {}", locale.word(Word::ContentsTitle), subject.site.title);
    let (heading_row, _) = head(sheet, subject, &title, &notes, &widths, None, looks)?;
    for (index, (title, _)) in columns.iter().enumerate() {
        sheet.write_string_with_format(heading_row, index as u16, locale.word(*title), &looks.heading)?;
    }
    sheet.set_freeze_panes(heading_row + 1, 0)?;
    let mut row = heading_row + 1;
    for table in tables {
        let name = tab(locale, table.part);
        sheet.write_url_with_format(row, 0, Url::new(address_of(name)).set_text(name), &looks.link)?;
        sheet.write_string_with_format(row, 1, &table.title, &looks.text)?;
        let count = table.body().count() as f64;
        sheet.write_number_with_format(row, 2, count, &Looks::number(&looks.text, 0, None))?;
        row += 1;
    }
    sheet.set_print_area(0, 0, row - 1, 2)?;
    Ok(())
}
