//! A table as CSV (RFC 4180), UTF-8 with a byte order mark so that spreadsheets read it as such.
//!
//! Separator and decimal sign follow the language: comma and point in English, semicolon and comma in
//! German. Lines before the headings begin with `#` and say where the file is from. A cell that a
//! spreadsheet would take for a formula (it begins with `=`, `+`, `-`, `@`, a tab or a carriage return, and
//! is no number) gets an apostrophe before it.

use latchline_handover::language::Word;
use latchline_handover::locale::Locale;
use latchline_handover::subject::Subject;
use latchline_handover::table::{Cell, Table};
use latchline_handover::tables::{cautions, error_line, origin_line};

/// The table.
pub fn table(subject: &Subject<'_>, table: &Table) -> String {
    let locale = &subject.locale;
    let separator = if locale.decimal_sign() == ',' { ';' } else { ',' };
    let mut out = String::from("\u{feff}");
    let mut line = |cells: &mut dyn Iterator<Item = String>| {
        for (index, cell) in cells.enumerate() {
            if index > 0 {
                out.push(separator);
            }
            out.push_str(&quoted(&cell, separator));
        }
        out.push_str("\r\n");
    };
    let mut remark = |text: &str| line(&mut std::iter::once(format!("# {text}")));
    remark(&table.title);
    remark(&origin_line(subject));
    if let Some(errors) = error_line(subject) {
        remark(&errors);
    }
    table.notes.iter().for_each(|note| remark(note));
    for caution in
        cautions(locale).into_iter().filter(|caution| !table.notes.iter().any(|note| note == caution))
    {
        remark(caution);
    }
    // A sum among the rows would be added to them by whoever reads the file.
    for (index, column) in table.columns.iter().enumerate().filter(|(_, column)| column.is_summed) {
        let sum = locale.number(table.sum(index), usize::from(table.sum_decimals(index)));
        remark(&format!("{}: {} {sum}", locale.word(Word::Total), column.heading()));
    }
    line(&mut table.columns.iter().map(|column| guarded(&column.heading())));
    // What a heading says of its rows stands in their first columns too.
    for cells in table.body() {
        let shown = cells.iter().zip(&table.columns);
        line(&mut shown.map(|(cell, column)| cell_text(locale, cell, column)));
    }
    out
}

fn cell_text(locale: &Locale, cell: &Cell, column: &latchline_handover::table::Column) -> String {
    let text = locale.cell_text(cell, Some(column));
    match cell {
        Cell::Text(_) => guarded(&text),
        _ => text,
    }
}

/// Text that no spreadsheet takes for a formula.
fn guarded(text: &str) -> String {
    let is_number = text.replace(',', ".").parse::<f64>().is_ok();
    // A sign alone is no formula.
    if text.len() > 1 && text.starts_with(['=', '+', '-', '@', '\t', '\r']) && !is_number {
        format!("'{text}")
    } else {
        text.to_string()
    }
}

fn quoted(text: &str, separator: char) -> String {
    if text.contains(['"', '\n', '\r', separator]) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formulas_are_guarded_and_numbers_are_not() {
        assert_eq!(guarded("=1+1"), "'=1+1");
        assert_eq!(guarded("@SUM(A1)"), "'@SUM(A1)");
        assert_eq!(guarded("+A+2 -A-12"), "'+A+2 -A-12");
        assert_eq!(guarded("-12.5"), "-12.5");
        assert_eq!(guarded("-12,5"), "-12,5");
        assert_eq!(guarded("A-12"), "A-12");
    }

    /// RFC 4180, section 2, rules 6 and 7.
    #[test]
    fn quotes_are_doubled() {
        assert_eq!(quoted("a \"b\", c", ','), "\"a \"\"b\"\", c\"");
        assert_eq!(quoted("a; b", ','), "a; b");
        assert_eq!(quoted("a; b", ';'), "\"a; b\"");
    }
}
