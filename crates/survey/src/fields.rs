//! One sheet by its columns: rows of fields, each read as what its column holds.

use crate::problem::{Problem, ProblemKind, Quoted};
use crate::sheets::{SheetForm, meant, nearest};
use crate::table::{Cell, Sheet, Value};
use latchline_finding::Both;
use latchline_finding::{Origin, Provenance, Sourced};
use latchline_words::reading::{Expected, Thing};
use std::collections::BTreeMap;

/// A sheet whose columns were found.
pub struct Form<'s> {
    /// Its form.
    pub form: &'static SheetForm,
    rows: Vec<&'s (u32, Vec<Cell>)>,
    /// For each column of the form, its place on the sheet and its heading.
    columns: Vec<Option<(usize, String)>>,
    /// Where the headings begin.
    headings: Origin,
    sheet: &'s Sheet,
}

/// Rows at the top among which the headings are looked for.
const HEADING_ROWS: usize = 12;

fn text_of(cell: &Cell) -> String {
    match &cell.value {
        Value::Text(text) => text.clone(),
        Value::Number(number) => number.to_string(),
        Value::Bool(value) => String::from(if *value { "yes" } else { "no" }),
        _ => String::new(),
    }
}

impl<'s> Form<'s> {
    /// Finds the columns of a sheet, whatever their order.
    pub fn new(sheet: &'s Sheet, form: &'static SheetForm, problems: &mut Vec<Problem>) -> Option<Self> {
        let known =
            form.columns.iter().enumerate().map(|(index, column)| (index, column.heading, column.also));
        let hits = |row: &(u32, Vec<Cell>)| {
            row.1.iter().filter(|cell| meant(&text_of(cell), known.clone()).is_some()).count()
        };
        let best = sheet
            .rows
            .iter()
            .take(HEADING_ROWS)
            .enumerate()
            .max_by_key(|(at, row)| (hits(row), std::cmp::Reverse(*at)));
        let (heading_at, heading) = best?;
        let mut columns: Vec<Option<(usize, String)>> = vec![None; form.columns.len()];
        let mut unknown: Vec<&Cell> = Vec::new();
        for (at, cell) in heading.1.iter().enumerate() {
            let text = text_of(cell);
            if text.is_empty() {
                continue;
            }
            match meant(&text, known.clone()) {
                Some(index) if columns[index].is_some() => {
                    let kind = ProblemKind::ColumnTwice(form.columns[index].heading);
                    problems.push(Problem::new(cell.origin.clone(), kind).under(&text));
                }
                Some(index) => columns[index] = Some((at, text)),
                None => unknown.push(cell),
            }
        }
        for cell in unknown {
            let heading = text_of(cell);
            let free = form.columns.iter().enumerate().filter(|(index, _)| columns[*index].is_none());
            let nearest = nearest(&heading, free.map(|(_, column)| column.heading));
            let kind = ProblemKind::ColumnUnknown { heading, nearest };
            problems.push(Problem::new(cell.origin.clone(), kind));
        }
        let mut complete = true;
        let headings = heading.1.first().map_or(Origin::None, |cell| cell.origin.clone());
        for (index, column) in form.columns.iter().enumerate() {
            if column.required && columns[index].is_none() {
                complete = false;
                let kind = ProblemKind::ColumnMissing { sheet: form.name, column: column.heading };
                problems.push(Problem::new(headings.clone(), kind));
            }
        }
        let rows = sheet.rows[heading_at + 1..]
            .iter()
            .filter(|(_, cells)| cells.iter().any(|cell| cell.value != Value::Empty))
            .collect();
        problems.extend(without_heading(sheet, &heading.1, &sheet.rows[heading_at + 1..]));
        complete.then_some(Form { form, rows, columns, headings, sheet })
    }

    /// Whether there is a column of drops, or none that would need one.
    pub fn tells_drops(&self) -> bool {
        let has_drops = self.form.columns.iter().position(|column| column.heading == "Drop");
        has_drops.is_none_or(|index| self.columns[index].is_some()) || self.rows.is_empty()
    }

    /// Where its headings begin.
    pub fn headings(&self) -> &Origin {
        &self.headings
    }

    /// The rows that have something in them.
    pub fn rows(&self) -> impl Iterator<Item = Row<'_, 's>> {
        self.rows.iter().map(move |row| Row { form: self, number: row.0, cells: &row.1 })
    }
}

/// Filled cells below no heading, which nothing reads: those of a list that the separator of its file took apart row by row, of others
/// the first of each column.
fn without_heading(sheet: &Sheet, heading: &[Cell], rows: &[(u32, Vec<Cell>)]) -> Vec<Problem> {
    let mut told = Vec::new();
    let mut by_column: BTreeMap<usize, (&Cell, usize)> = BTreeMap::new();
    let is_headed = |at: usize| heading.get(at).is_some_and(|cell| cell.value != Value::Empty);
    let is_filled = |cell: &Cell| cell.value != Value::Empty;
    for (_, cells) in rows {
        let stray = |at: &usize| !is_headed(*at) && is_filled(&cells[*at]);
        let Some(first) = (0..cells.len()).find(stray) else { continue };
        let before = first.checked_sub(1).filter(|at| is_filled(&cells[*at]));
        let (Some(separator), Some(before)) = (sheet.separator, before) else {
            let (_, count) = by_column.entry(first).or_insert((&cells[first], 0));
            *count += 1;
            continue;
        };
        // A list, or a number with a comma, whose parts went on into cells of their own.
        let end = (first..cells.len()).find(|at| !stray(at)).unwrap_or(cells.len());
        let texts = |range: std::ops::Range<usize>| -> String {
            cells[range].iter().map(text_of).collect::<Vec<_>>().join(&separator.to_string())
        };
        let written = format!("\"{}\"", texts(before..end));
        let kind = ProblemKind::NoHeading {
            found: texts(first..end),
            others: 0,
            quoted: Some(Quoted { separator, written }),
        };
        told.push(Problem::new(cells[first].origin.clone(), kind));
    }
    for (cell, count) in by_column.into_values() {
        let kind = ProblemKind::NoHeading { found: text_of(cell), others: count - 1, quoted: None };
        told.push(Problem::new(cell.origin.clone(), kind));
    }
    told
}

/// One row of a sheet.
pub struct Row<'f, 's> {
    form: &'f Form<'s>,
    /// Its number, from 1.
    pub number: u32,
    cells: &'s [Cell],
}

impl Row<'_, '_> {
    fn index(&self, heading: &str) -> usize {
        let found = self.form.form.columns.iter().position(|column| column.heading == heading);
        debug_assert!(found.is_some(), "the reader asks for a column {heading} that no form has");
        found.unwrap_or(0)
    }

    fn cell(&self, heading: &str) -> Option<(&Cell, &str)> {
        let (at, shown) = self.form.columns[self.index(heading)].as_ref()?;
        self.cells.get(*at).map(|cell| (cell, shown.as_str()))
    }

    /// Where a column's cell is, though the row may end before it; of a column that is not there, the row's first.
    pub fn origin(&self, heading: &str) -> Origin {
        let at = self.form.columns[self.index(heading)].as_ref().map_or(0, |(at, _)| *at);
        match self.cells.first().map(|cell| &cell.origin) {
            Some(Origin::Cell { file, row, column, .. }) => Origin::Cell {
                file: *file,
                sheet: self.form.sheet.name.clone(),
                row: *row,
                column: *column + at as u32,
            },
            _ => Origin::None,
        }
    }

    fn report(&self, heading: &str, kind: ProblemKind, problems: &mut Vec<Problem>) {
        let problem = Problem::new(self.origin(heading), kind);
        let column = self.form.columns[self.index(heading)].as_ref();
        problems.push(problem.under(column.map_or(heading, |(_, shown)| shown)));
    }

    /// Reports something about a column of this row.
    pub fn wrong(&self, heading: &str, kind: ProblemKind, problems: &mut Vec<Problem>) {
        self.report(heading, kind, problems);
    }

    /// Whether a column is there and its cell empty.
    pub fn is_blank(&self, heading: &str) -> bool {
        let there = self.form.columns[self.index(heading)].is_some();
        there && self.cell(heading).is_none_or(|(cell, _)| cell.value == Value::Empty)
    }

    /// The text of a column; whole numbers are read as they look.
    pub fn text(&self, heading: &str, problems: &mut Vec<Problem>) -> Option<Sourced<String>> {
        let (cell, _) = self.cell(heading)?;
        let text = match &cell.value {
            Value::Empty => return None,
            Value::Fault(fault) => {
                self.report(heading, ProblemKind::Fault(fault.clone()), problems);
                return None;
            }
            Value::Date(_) => {
                let kind = ProblemKind::NotA {
                    expected: Box::new(Expected::TextOrNumber.both()),
                    found: Box::new(Expected::ADate.both()),
                };
                self.report(heading, kind, problems);
                return None;
            }
            _ => text_of(cell),
        };
        Some(Sourced::new(text, cell.origin.clone(), Provenance::Stated))
    }

    /// The text of a column that must be there.
    pub fn need(&self, heading: &'static str, problems: &mut Vec<Problem>) -> Option<Sourced<String>> {
        let before = problems.len();
        let text = self.text(heading, problems);
        if text.is_none() && problems.len() == before {
            self.report(heading, ProblemKind::Empty(heading), problems);
        }
        text
    }

    /// Parts of a text with semicolons (or commas, where no semicolon is) between.
    pub fn list(&self, heading: &str, problems: &mut Vec<Problem>) -> Vec<String> {
        self.text(heading, problems).map_or_else(Vec::new, |text| split(&text.value))
    }

    /// A number in a range. A unit after it is passed over; comma or point divide decimals.
    pub fn number(
        &self,
        heading: &str,
        least: f64,
        most: f64,
        unit: &'static str,
        problems: &mut Vec<Problem>,
    ) -> Option<Sourced<f64>> {
        let (cell, _) = self.cell(heading)?;
        let value = match &cell.value {
            Value::Empty => return None,
            Value::Number(number) => Some(*number),
            Value::Text(text) => number_in(text, unit),
            Value::Fault(fault) => {
                self.report(heading, ProblemKind::Fault(fault.clone()), problems);
                return None;
            }
            Value::Bool(_) | Value::Date(_) => None,
        };
        let found = match &cell.value {
            Value::Date(_) => Box::new(Expected::ADate.both()),
            _ => Box::new(Both::same(text_of(cell))),
        };
        let Some(value) = value.filter(|value| value.is_finite()) else {
            let expected = match unit {
                "m" => Expected::LengthInMetres,
                "" => Expected::AnyNumber,
                unit => Expected::NumberInUnit { unit },
            };
            self.report(heading, ProblemKind::NotA { expected: Box::new(expected.both()), found }, problems);
            return None;
        };
        if !(least..=most).contains(&value) {
            self.report(
                heading,
                ProblemKind::OutOfRange { found, least, most, unit: Box::new(Both::same(unit)) },
                problems,
            );
            return None;
        }
        Some(Sourced::new(value, cell.origin.clone(), Provenance::Stated))
    }

    /// Yes or no.
    pub fn flag(&self, heading: &str, problems: &mut Vec<Problem>) -> Option<bool> {
        let text = self.text(heading, problems)?;
        match text.value.to_lowercase().as_str() {
            "yes" | "y" | "ja" | "j" | "true" | "x" | "1" => Some(true),
            "no" | "n" | "nein" | "false" | "0" | "-" => Some(false),
            _ => {
                let kind = ProblemKind::NotA {
                    expected: Box::new(Expected::YesOrNo.both()),
                    found: Box::new(Both::same(text.value)),
                };
                self.report(heading, kind, problems);
                None
            }
        }
    }

    /// A date, as 2026-03-02: a cell of the workbook that holds one, or text in that form.
    pub fn date(&self, heading: &str, problems: &mut Vec<Problem>) -> Option<String> {
        let (cell, _) = self.cell(heading)?;
        let written = match &cell.value {
            Value::Date(date) => date.clone(),
            _ => self.text(heading, problems)?.value,
        };
        if is_date(&written) {
            return Some(written);
        }
        let kind = ProblemKind::NotA {
            expected: Box::new(Expected::WrittenDate.both()),
            found: Box::new(Both::same(written)),
        };
        self.report(heading, kind, problems);
        None
    }

    /// One of the words of the column.
    pub fn choice(&self, heading: &str, problems: &mut Vec<Problem>) -> Option<&'static str> {
        let text = self.text(heading, problems)?;
        let wanted = crate::sheets::plain(&text.value);
        let choices = self.form.form.columns[self.index(heading)].choices;
        let found = choices.iter().find(|word| crate::sheets::plain(word) == wanted).copied();
        if found.is_none() {
            let kind = ProblemKind::UnknownName {
                kind: Thing::Choice,
                name: text.value.clone(),
                nearest: choices.iter().map(|word| (*word).to_string()).collect(),
            };
            self.report(heading, kind, problems);
        }
        found
    }
}

/// Whether a text is a day of the calendar, as 2026-03-02.
fn is_date(text: &str) -> bool {
    let parts: Vec<&str> = text.split('-').collect();
    let [year, month, day] = parts[..] else { return false };
    let all_digits = parts.iter().all(|part| part.bytes().all(|byte| byte.is_ascii_digit()));
    if !all_digits || (year.len(), month.len(), day.len()) != (4, 2, 2) {
        return false;
    }
    let number = |part: &str| part.parse::<u32>().unwrap_or(0);
    let (year, day) = (number(year), number(day));
    let is_leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let most = match number(month) {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 if is_leap => 29,
        2 => 28,
        _ => 0,
    };
    (1..=most).contains(&day)
}

/// A name as site files have it: what stands between its words becomes a hyphen.
pub fn site_name(written: &str) -> String {
    written.split_whitespace().collect::<Vec<_>>().join("-")
}

/// Parts of a text with semicolons (or commas, where there is no semicolon) between.
pub fn split(text: &str) -> Vec<String> {
    let sign = if text.contains(';') { ';' } else { ',' };
    text.split(sign).map(|part| part.trim().to_string()).filter(|part| !part.is_empty()).collect()
}

/// The number at the start of a text, followed by nothing or by its unit.
pub fn number_in(text: &str, unit: &str) -> Option<f64> {
    let text = text.trim();
    let end = text
        .find(|sign: char| !(sign.is_ascii_digit() || matches!(sign, '.' | ',' | '-' | '+')))
        .unwrap_or(text.len());
    let (digits, rest) = text.split_at(end);
    let rest = rest.trim().to_lowercase();
    let spelt: &[&str] = match unit {
        "m" => &["m", "metre", "metres", "meter", "meters"],
        "%" => &["%", "per cent", "percent"],
        "ohm" => &["ohm", "ohms", "Ω"],
        "°C" => &["°c", "c"],
        "h" => &["h", "hours", "hour"],
        "V" => &["v", "volts"],
        "s" => &["s", "seconds"],
        "nF" => &["nf"],
        "Mohm" => &["mohm", "mω"],
        _ => &[],
    };
    if !rest.is_empty() && !spelt.contains(&rest.as_str()) {
        return None;
    }
    // "1.234,5" and "1,234.5" would be guesses: at most one sign divides.
    if digits.matches([',', '.']).count() > 1 {
        return None;
    }
    digits.replace(',', ".").parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_have_commas_points_and_their_own_unit() {
        assert_eq!(number_in("12,5", "m"), Some(12.5));
        assert_eq!(number_in("12.5 m", "m"), Some(12.5));
        assert_eq!(number_in(" 7 ", "m"), Some(7.0));
        assert_eq!(number_in("1.234,5", "m"), None);
        assert_eq!(number_in("12 kg", "m"), None);
        assert_eq!(number_in("about 12", "m"), None);
        assert_eq!(number_in("", "m"), None);
    }
}
