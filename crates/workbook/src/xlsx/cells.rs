//! The cells of a table.

use super::looks::Looks;
use super::texts::{MOST_CHARACTERS, column_letters, plain, shortened};
use latchline_handover::language::Word;
use latchline_handover::subject::Subject;
use latchline_handover::table::{Cell, Column, Entry, MISSING, Table};
use rust_xlsxwriter::{Format, Formula, Worksheet, XlsxError};

/// The row of sums below the rows from `first` up to, without, `row`.
pub(super) fn totals(
    sheet: &mut Worksheet,
    subject: &Subject<'_>,
    table: &Table,
    (first, row): (u32, u32),
    looks: &Looks,
) -> Result<(), XlsxError> {
    for (index, column) in table.columns.iter().enumerate() {
        let at = index as u16;
        if column.is_summed {
            let letter = column_letters(at);
            let sum = table.sum(index);
            let formula = Formula::new(format!("=SUM({letter}{}:{letter}{row})", first + 1));
            let look = Looks::number(&looks.total, table.sum_decimals(index), None);
            sheet.write_formula_with_format(row, at, formula.set_result(plain(sum)), &look)?;
        } else {
            let text = if index == 0 { subject.locale.word(Word::Total) } else { "" };
            sheet.write_string_with_format(row, at, text, &looks.total)?;
        }
    }
    Ok(())
}

/// Writes one cell.
pub(super) fn write_cell(
    sheet: &mut Worksheet,
    (row, at): (u32, u16),
    cell: &Cell,
    column: &Column,
    subject: &Subject<'_>,
    looks: &Looks,
) -> Result<(), XlsxError> {
    match cell {
        Cell::Empty => sheet.write_blank(row, at, &looks.text)?,
        Cell::WriteIn | Cell::Choice(_) | Cell::Tick | Cell::Passed => {
            sheet.write_blank(row, at, &looks.write_in)?
        }
        Cell::Written { entry, .. } => write_entry(sheet, (row, at), entry, subject, &looks.write_in)?,
        Cell::Text(text) if text == MISSING => {
            sheet.write_string_with_format(row, at, text, &looks.missing)?
        }
        Cell::Text(text) => {
            sheet.write_string_with_format(row, at, shortened(text, MOST_CHARACTERS), &looks.text)?
        }
        Cell::Count(count) => {
            sheet.write_number_with_format(row, at, *count as f64, &Looks::number(&looks.text, 0, None))?
        }
        Cell::Quantity { value, decimals, unit } => {
            let unit = if column.unit.is_some() { None } else { Some(*unit) };
            sheet.write_number_with_format(row, at, *value, &Looks::number(&looks.text, *decimals, unit))?
        }
        Cell::Money(value) => {
            sheet.write_number_with_format(row, at, value.as_units(), &Looks::number(&looks.text, 2, None))?
        }
        Cell::Product { columns: (a, b), value } => {
            let (a, b) = (column_letters(*a as u16), column_letters(*b as u16));
            let formula =
                Formula::new(format!("={a}{n}*{b}{n}", n = row + 1)).set_result(plain(value.as_units()));
            sheet.write_formula_with_format(row, at, formula, &Looks::number(&looks.text, 2, None))?
        }
        Cell::Date(date) => {
            sheet.write_string_with_format(row, at, subject.locale.date(date), &looks.text)?
        }
    };
    Ok(())
}

/// What was written into an earlier pack: a number stays one.
fn write_entry<'s>(
    sheet: &'s mut Worksheet,
    (row, at): (u32, u16),
    entry: &Entry,
    subject: &Subject<'_>,
    look: &Format,
) -> Result<&'s mut Worksheet, XlsxError> {
    match entry {
        Entry::Number(number) => sheet.write_number_with_format(row, at, *number, look),
        Entry::Words(words) => {
            sheet.write_string_with_format(row, at, shortened(words, MOST_CHARACTERS), look)
        }
        Entry::Date(date) => sheet.write_string_with_format(row, at, subject.locale.date(date), look),
    }
}

/// Room for a reading, or the reading that was carried over: a number in the unit of the row's limits.
pub(super) fn write_reading(
    sheet: &mut Worksheet,
    (row, at): (u32, u16),
    (cell, column): (&Cell, &Column),
    limit: Option<&Cell>,
    subject: &Subject<'_>,
    looks: &Looks,
) -> Result<(), XlsxError> {
    let look = match limit {
        Some(Cell::Quantity { decimals, unit, .. }) => {
            Looks::number(&looks.write_in, *decimals, column.unit.is_none().then_some(*unit))
        }
        _ => looks.write_in.clone(),
    };
    match cell {
        Cell::Written { entry, .. } => write_entry(sheet, (row, at), entry, subject, &look)?,
        _ => sheet.write_blank(row, at, &look)?,
    };
    Ok(())
}
