//! A workbook of a pack into which people have written: read, and carried over into the tables of a pack made now.

use super::filled_table::{self, is_table};
use crate::refusal::{Refused, Result};
use latchline_finding::Sources;
use latchline_handover::filled::{Carried, FilledRow, FilledSheet, carry, locale_of, transfer};
use latchline_handover::locale::Locale;
use latchline_handover::{Entry, Options, Pack, PackInput, Stamp};
use latchline_survey::problem::ProblemKind;
use latchline_survey::table::Value;
use latchline_survey::workbook::from_xlsx;
use latchline_words::refusals::ResultRefusal;

/// The sheets of a workbook or a table: every way in which it may be read, the likeliest first; nothing if it cannot be read whole.
pub(super) fn ways_to_read(name: &str, bytes: &[u8]) -> Vec<Vec<FilledSheet>> {
    if is_table(name) { filled_table::sheets(name, bytes) } else { sheets(name, bytes).into_iter().collect() }
}

fn sheets(name: &str, bytes: &[u8]) -> Option<Vec<FilledSheet>> {
    let mut problems = Vec::new();
    let file = Sources::new().add(name.to_string(), String::new());
    let sheets = from_xlsx(file, bytes, &mut problems);
    // Headings over rows are merged cells, which is as it should be.
    if problems.iter().any(|problem| !matches!(problem.kind, ProblemKind::MergedCells)) {
        return None;
    }
    let rows = |rows: Vec<(u32, Vec<latchline_survey::table::Cell>)>| {
        let row = |(number, cells): (u32, Vec<latchline_survey::table::Cell>)| FilledRow {
            number,
            cells: cells.into_iter().map(|cell| entry(cell.value)).collect(),
        };
        rows.into_iter().map(row).collect()
    };
    Some(
        sheets
            .into_iter()
            .map(|sheet| FilledSheet { name: sheet.name.to_string(), rows: rows(sheet.rows) })
            .collect(),
    )
}

fn entry(value: Value) -> Option<Entry> {
    match value {
        Value::Empty => None,
        Value::Text(text) => Some(Entry::Words(text)),
        Value::Fault(fault) => Some(Entry::Words(fault.name().to_string())),
        Value::Number(number) => Some(Entry::Number(number)),
        Value::Bool(is_true) => Some(Entry::Words(String::from(if is_true { "✓" } else { "✗" }))),
        Value::Date(date) => Some(Entry::Date(date)),
    }
}

/// Carries what was written in the first of these ways to read a file that is one of a pack's, and says which way that is.
///
/// # Errors
/// If the pack in the language of the file cannot be made.
pub(super) fn carry_first(
    pack: &mut Pack<'_>,
    ways: &[Vec<FilledSheet>],
    of: (&PackInput<'_>, &Options, &Stamp),
) -> Result<Option<(usize, Carried)>> {
    let mut nothing = None;
    for (way, sheets) in ways.iter().enumerate() {
        match carry_into(pack, sheets, of)? {
            Some(carried) if carried != Carried::default() => return Ok(Some((way, carried))),
            Some(carried) => nothing = nothing.or(Some((way, carried))),
            None => {}
        }
    }
    Ok(nothing)
}

/// Carries what was written into the tables of a pack, whatever language and units the workbook is in. `None` if it is none of a pack's.
///
/// # Errors
/// If the pack in the language of the workbook cannot be made.
pub(super) fn carry_into(
    pack: &mut Pack<'_>,
    sheets: &[FilledSheet],
    (input, options, stamp): (&PackInput<'_>, &Options, &Stamp),
) -> Result<Option<Carried>> {
    let Some(locale) = locale_of(sheets) else { return Ok(None) };
    if locale == options.locale {
        return Ok(Some(carry(sheets, &mut pack.tables, &Locale(locale))));
    }
    let options = Options { locale, ..options.clone() };
    let mut twin = latchline_pack::put_together(input, &options, stamp).refused(|| ResultRefusal::NoPack)?;
    let carried = carry(sheets, &mut twin.tables, &Locale(locale));
    transfer(&twin.tables, &mut pack.tables);
    Ok(Some(carried))
}
