//! A table on its sheet.

use super::cells::{totals, write_cell, write_reading};
use super::choices::Choices;
use super::head::{Link, head, merged, page};
use super::looks::Looks;
use super::readings::colour_readings;
use super::texts::address_of;
use crate::pages::{RowSize, column_points, lay_out, row_points, widest_column_points, wrapped_lines};
use crate::widths;
use latchline_handover::language::Word;
use latchline_handover::subject::Subject;
use latchline_handover::tab::tab;
use latchline_handover::table::{Cell, Column, Role, Row, Table};
use rust_xlsxwriter::{Worksheet, XlsxError};

/// Writes a table onto its sheet.
pub(super) fn table_sheet(
    subject: &Subject<'_>,
    table: &Table,
    sheet: &mut Worksheet,
    looks: &Looks,
) -> Result<(), XlsxError> {
    let locale = &subject.locale;
    sheet.set_name(tab(locale, table.part))?;
    page(sheet, subject, &format!("{}: {}", subject.site.title, table.title));
    let widths = widths::widths(table, subject.options.paper, locale);
    for (index, width) in widths.iter().enumerate() {
        sheet.set_column_width(index as u16, f64::from(*width))?;
    }
    let mut notes: Vec<&str> = table.notes.iter().map(String::as_str).collect();
    let short = [locale.word(Word::CautionIsolate), locale.word(Word::CautionNoCertificate)];
    notes.extend(short.into_iter().filter(|caution| !table.notes.iter().any(|note| note == caution)));
    if table.column_of(Role::Reading).is_some() {
        notes.push(locale.word(Word::ReadingColours));
    }
    let back =
        Link { address: address_of(locale.word(Word::TabContents)), text: locale.word(Word::BackToContents) };
    let (heading_row, head_points) = head(sheet, subject, &table.title, &notes, &widths, Some(back), looks)?;
    for (index, column) in table.columns.iter().enumerate() {
        sheet.write_string_with_format(heading_row, index as u16, column.heading(), &looks.heading)?;
    }
    let heading_lines =
        |(column, width): (&Column, &u8)| wrapped_lines(&column.heading(), column_points(*width), true);
    let heading_points = row_points(table.columns.iter().zip(&widths).map(heading_lines).max().unwrap_or(1));
    sheet.set_row_height(heading_row, heading_points)?;
    sheet.set_freeze_panes(heading_row + 1, 1)?;
    sheet.set_repeat_rows(heading_row, heading_row)?;
    let first = heading_row + 1;
    let last_column = table.columns.len().saturating_sub(1) as u16;
    let width = widths::points(&widths);
    let roles = [Role::Highest, Role::Lowest].map(|role| table.column_of(role));
    let reading = table.column_of(Role::Reading);
    let mut choices = Choices::default();
    let mut sizes: Vec<RowSize> = Vec::with_capacity(table.rows.len());
    let mut row = first;
    for entry in &table.rows {
        let points = match entry {
            Row::Heading(text) => row_points(wrapped_lines(text, width, true)) + 3.0,
            Row::Cells(cells) => {
                let lines = cells.iter().zip(&widths).map(|(cell, width)| widths::lines_of(cell, *width));
                row_points(lines.max().unwrap_or(1))
            }
        };
        sizes.push(RowSize { points, is_heading: matches!(entry, Row::Heading(_)) });
        sheet.set_row_height(row, points)?;
        match entry {
            Row::Heading(text) => merged(sheet, row, last_column, text, &looks.group)?,
            Row::Cells(cells) => {
                for (index, (cell, column)) in cells.iter().zip(&table.columns).enumerate() {
                    let at = (row, index as u16);
                    if Some(index) == reading && (cell.is_room() || matches!(cell, Cell::Written { .. })) {
                        let mut limits = roles.iter().flatten().map(|limit| &cells[*limit]);
                        let limit = limits.find(|limit| limit.number().is_some());
                        write_reading(sheet, at, (cell, column), limit, subject, looks)?;
                    } else {
                        write_cell(sheet, at, cell, column, subject, looks)?;
                    }
                    choices.add(at, cell);
                }
            }
        }
        row += 1;
    }
    if row > first {
        sheet.autofilter(heading_row, 0, row - 1, last_column)?;
        colour_readings(sheet, table, (first, row - 1), looks)?;
        choices.write(sheet, locale)?;
    }
    if table.has_sums() && row > first {
        totals(sheet, subject, table, (first, row), looks)?;
        sheet.set_row_height(row, row_points(1))?;
        sizes.push(RowSize { points: row_points(1), is_heading: false });
        row += 1;
    }
    let printed = widths.iter().map(|width| widest_column_points(*width)).sum();
    let pages = lay_out(subject.options.paper, printed, head_points, heading_points, &sizes);
    sheet.set_print_scale(pages.scale);
    let mut breaks: Vec<u32> = pages.breaks.iter().map(|index| first + *index as u32).collect();
    if table.has_page_per_heading {
        let headings = sizes.iter().enumerate().skip(1).filter(|(_, size)| size.is_heading);
        breaks.extend(headings.map(|(index, _)| first + index as u32));
        breaks.sort_unstable();
        breaks.dedup();
    }
    sheet.set_page_breaks(&breaks)?;
    sheet.set_print_area(0, 0, row.max(first + 1) - 1, last_column)?;
    Ok(())
}
