//! What somebody has written into the workbook of an earlier pack, carried over into the tables of this one.
//!
//! A sheet is known by its tab, a column by its heading, a row by what its naming columns say ([`Role::Names`]): that row
//! of the new table takes what was written, wherever it now stands. What finds no row is told, never dropped.

use crate::locale::Locale;
use crate::options::Part;
use crate::tab::tab;
use crate::table::{Cell, Entry, Role, Row, Table};
use latchline_finding::{Language, METRES_PER_FOOT, Units};
use std::collections::{BTreeMap, BTreeSet};

/// A row as it stands in a workbook.
#[derive(Debug, Clone, PartialEq)]
pub struct FilledRow {
    /// Its number in the sheet, from 1.
    pub number: u32,
    /// Its cells from the first column on; `None` where nothing stands.
    pub cells: Vec<Option<Entry>>,
}

/// A sheet of a workbook.
#[derive(Debug, Clone, PartialEq)]
pub struct FilledSheet {
    /// What its tab says.
    pub name: String,
    /// The rows with something in them.
    pub rows: Vec<FilledRow>,
}

/// What was written and finds no place.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Lost {
    /// The sheet.
    pub sheet: String,
    /// The row there, from 1.
    pub row: u32,
    /// Heading of the column.
    pub column: String,
    /// What was written.
    pub written: String,
}

/// What came of carrying a workbook over.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Carried {
    /// Cells that were taken over.
    pub entries: usize,
    /// How many of them say something else than a workbook that was carried over before: the later one holds.
    pub differing: usize,
    /// What found no place.
    pub lost: Vec<Lost>,
}

impl FilledSheet {
    /// In which row the headings of a table stand, and which column of the table each column of the sheet is.
    fn heading(&self, table: &Table) -> Option<(usize, BTreeMap<usize, usize>)> {
        let titles: BTreeMap<String, usize> =
            table.columns.iter().enumerate().map(|(at, column)| (column.heading(), at)).collect();
        let columns = |row: &FilledRow| -> BTreeMap<usize, usize> {
            let known = row.cells.iter().enumerate().filter_map(|(at, cell)| match cell {
                Some(Entry::Words(words)) => Some((*titles.get(words)?, at)),
                _ => None,
            });
            known.collect()
        };
        let all = self.rows.iter().enumerate().map(|(at, row)| (at, columns(row)));
        let best = all.rev().max_by_key(|(_, columns)| columns.len())?;
        // A pack of another version may have a column more or less.
        (best.1.len() * 2 > table.columns.len()).then_some(best)
    }
}

/// What the tab of a table is called that a pack writes into a file of this name: `tables/07-cables.csv`, `07-cables.new.csv`.
pub fn tab_of_table(file: &str, language: Language) -> Option<&'static str> {
    let name = file.rsplit(['/', '\\']).next()?.split('.').next()?;
    let (_, name) = name.split_once('-')?;
    let part = Part::ALL.iter().find(|part| part.name() == name)?;
    Some(tab(&Locale(latchline_finding::Locale { language, units: Units::Metric }), *part))
}

/// Language and units in which a workbook is, by its tabs and headings; `None` if it is none of a pack's.
pub fn locale_of(sheets: &[FilledSheet]) -> Option<latchline_finding::Locale> {
    let is_in = |language| {
        let locale = Locale(latchline_finding::Locale { language, units: Units::Metric });
        let tabs: BTreeSet<&str> = Part::ALL.iter().map(|part| tab(&locale, *part)).collect();
        sheets.iter().filter(|sheet| tabs.contains(sheet.name.as_str())).count()
    };
    let (english, german) = (is_in(Language::English), is_in(Language::German));
    let language = match (english, german) {
        (0, 0) => return None,
        (english, german) if german > english => Language::German,
        _ => Language::English,
    };
    let in_feet = ", ft";
    let is_heading =
        |cell: &Option<Entry>| matches!(cell, Some(Entry::Words(words)) if words.ends_with(in_feet));
    let is_us = sheets.iter().flat_map(|sheet| &sheet.rows).any(|row| row.cells.iter().any(is_heading));
    Some(latchline_finding::Locale { language, units: if is_us { Units::Us } else { Units::Metric } })
}

/// What names a row: its heading where it counts, and the words of its naming columns. Where a naming cell is itself written
/// into, nothing.
type Name = (Option<String>, Vec<(usize, String)>);

/// A row of the sheet, with the heading above it.
struct Old<'s> {
    heading: String,
    row: &'s FilledRow,
}

/// Carries what was written in these sheets into the tables, which are in the same language and units.
pub fn carry(sheets: &[FilledSheet], tables: &mut [Table], locale: &Locale) -> Carried {
    let mut carried = Carried::default();
    for table in tables {
        let wanted = tab(locale, table.part);
        let Some(sheet) = sheets.iter().find(|sheet| sheet.name == wanted) else { continue };
        if let Some((heading, columns)) = sheet.heading(table) {
            carry_sheet((sheet, heading, &columns), table, locale, &mut carried);
        }
    }
    carried
}

fn carry_sheet(
    (sheet, heading_row, columns): (&FilledSheet, usize, &BTreeMap<usize, usize>),
    table: &mut Table,
    locale: &Locale,
    carried: &mut Carried,
) {
    let naming: Vec<usize> = table
        .columns
        .iter()
        .enumerate()
        .filter(|(at, column)| column.role == Role::Names && columns.contains_key(at))
        .map(|(at, _)| at)
        .collect();
    let own = own_columns(table);
    let cell_of = |row: &FilledRow, column: usize| -> Option<Entry> {
        row.cells.get(*columns.get(&column)?).cloned().flatten()
    };
    let mut heading = String::new();
    let mut old: Vec<Option<Old<'_>>> = Vec::new();
    for row in &sheet.rows[heading_row + 1..] {
        match row.cells.as_slice() {
            [Some(Entry::Words(words)), rest @ ..]
                if rest.iter().all(Option::is_none) && table_has_headings(table) =>
            {
                heading.clone_from(words);
            }
            _ => old.push(Some(Old { heading: heading.clone(), row })),
        }
    }
    // The new rows by what names them, the best named first: what is left for rows without a name are those rows alone.
    let mut fresh: BTreeMap<(std::cmp::Reverse<usize>, Name), Vec<usize>> = BTreeMap::new();
    let mut above = String::new();
    for (at, row) in table.rows.iter().enumerate() {
        match row {
            Row::Heading(words) => above.clone_from(words),
            Row::Cells(cells) if cells.iter().any(is_open) => {
                let named = naming.iter().filter(|column| !is_open(&cells[**column]));
                let words: Vec<(usize, String)> =
                    named.map(|column| (*column, locale.cell_text(&cells[*column], None))).collect();
                let name = (Some(above.clone()), words);
                fresh.entry((std::cmp::Reverse(name.1.len()), name)).or_default().push(at);
            }
            Row::Cells(_) => {}
        }
    }
    let words_of = |row: &FilledRow, column: usize| {
        cell_of(row, column).map_or(String::new(), |entry| locale.entry(&entry))
    };
    let is_named = |one: &Old<'_>, (above, words): &Name, with_heading: bool| {
        (!with_heading || above.as_ref().is_none_or(|above| *above == one.heading))
            && words.iter().all(|(column, words)| words_of(one.row, *column) == words.trim())
    };
    // First under its heading, then wherever it moved to, if no other has its name.
    for with_heading in [true, false] {
        for ((_, name), rows) in &mut fresh {
            if rows.is_empty() || (!with_heading && name.1.iter().all(|(_, words)| words.is_empty())) {
                continue;
            }
            let found: Vec<usize> = old
                .iter()
                .enumerate()
                .filter(|(_, one)| one.as_ref().is_some_and(|one| is_named(one, name, with_heading)))
                .map(|(at, _)| at)
                .collect();
            let is_nameless = name.1.is_empty();
            // Of several with one name nobody knows which is which, once one was added or went away.
            if !is_nameless && found.len() != rows.len() {
                continue;
            }
            let taken = found.len().min(rows.len());
            for (at, row) in found.iter().zip(rows.drain(..taken)) {
                let Some(one) = old[*at].take() else { continue };
                let Row::Cells(cells) = &mut table.rows[row] else { continue };
                for (column, cell) in cells.iter_mut().enumerate() {
                    let takes = is_open(cell) || (own.contains(&column) && *cell == Cell::Empty);
                    if let Some(entry) = cell_of(one.row, column).filter(|_| takes) {
                        carried.entries += 1;
                        carried.differing += usize::from(write(cell, entry));
                    }
                }
            }
        }
    }
    for one in old.into_iter().flatten() {
        for column in &own {
            if let Some(entry) = cell_of(one.row, *column) {
                carried.lost.push(Lost {
                    sheet: sheet.name.clone(),
                    row: one.row.number,
                    column: table.columns[*column].heading(),
                    written: locale.entry(&entry),
                });
            }
        }
    }
}

/// Writes into a cell; whether something else had been carried there before, from another workbook.
fn write(cell: &mut Cell, entry: Entry) -> bool {
    let (room, is_other) = match std::mem::replace(cell, Cell::Empty) {
        Cell::Written { entry: before, room } => (room, before != entry),
        room => (Box::new(room), false),
    };
    *cell = Cell::Written { entry, room };
    is_other
}

fn table_has_headings(table: &Table) -> bool {
    table.rows.iter().any(|row| matches!(row, Row::Heading(_)))
}

/// Whether a cell is there to be written into, or was.
fn is_open(cell: &Cell) -> bool {
    cell.is_room() || matches!(cell, Cell::Written { .. })
}

/// The columns in which nothing is ever printed: whatever stands there was written by somebody.
fn own_columns(table: &Table) -> Vec<usize> {
    let is_own = |column: &usize| {
        let mut cells = table.body().map(|cells| &cells[*column]);
        let is_written = table.body().any(|cells| is_open(&cells[*column]));
        is_written && cells.all(|cell| is_open(cell) || *cell == Cell::Empty)
    };
    (0..table.columns.len()).filter(is_own).collect()
}

/// Puts what was carried into tables of one language and units into the same tables in another: both have the same rows.
/// A length that was written is converted.
pub fn transfer(from: &[Table], to: &mut [Table]) {
    for (from, to) in from.iter().zip(to) {
        let factors: Vec<f64> = from
            .columns
            .iter()
            .zip(&to.columns)
            .map(|(from, to)| match (from.unit, to.unit) {
                (Some("ft"), Some("m")) => METRES_PER_FOOT,
                (Some("m"), Some("ft")) => 1.0 / METRES_PER_FOOT,
                _ => 1.0,
            })
            .collect();
        let bodies = from.body().zip(to.body_mut());
        for (from, to) in bodies {
            for (column, cell) in from.iter().enumerate() {
                let (Cell::Written { entry, .. }, Some(place)) = (cell, to.get_mut(column)) else { continue };
                let entry = match entry {
                    // To the hundredth: nobody lays cable to the millimetre.
                    Entry::Number(number) if factors[column] != 1.0 => {
                        Entry::Number((number * factors[column] * 100.0).round() / 100.0)
                    }
                    other => other.clone(),
                };
                write(place, entry);
            }
        }
    }
}
