//! Rows from files.

use super::{FOUND, Row, RowProblem};
use crate::text_line::line_of;
use latchline_site::parse::toml_mistake;
use latchline_words::locate::{Problem, RowWord};
use toml::de::{DeTable, DeValue};

/// Most rows that a file may have: more is no list of readings.
const MOST_ROWS: usize = 2000;

/// Reads a TOML file: `[[reading]]` with `at`, `value` and, where needed, `to`, `quantity`, `state`, `taken`, `instrument`, `lead`, `sure`;
/// `[[symptom]]` with `at` and `told`; `instrument` and `taken` for all, `found` for the list of devices.
pub fn read_toml(text: &str) -> (Vec<Row>, Vec<RowProblem>) {
    let mut rows = Vec::new();
    let mut problems = Vec::new();
    let (root, errors) = DeTable::parse_recoverable(text);
    for error in errors.iter().take(20) {
        let line = line_of(text, error.span().map_or(0, |span| span.start));
        problems.push(RowProblem::new(line, Problem::Unreadable { reason: &toml_mistake(error.message()) }));
    }
    let root = root.into_inner();
    let mut instrument = None;
    let mut taken = None;
    let string = |value: &DeValue<'_>| match value {
        DeValue::String(text) => Some(text.to_string()),
        _ => None,
    };
    for (key, value) in &root {
        let line = line_of(text, key.span().start);
        match (key.get_ref().as_ref(), value.get_ref()) {
            ("instrument", found) => instrument = string(found),
            ("taken", found) => taken = string(found),
            (FOUND, DeValue::Array(list)) => {
                let names: Option<Vec<String>> = list.iter().map(|one| string(one.get_ref())).collect();
                match names {
                    Some(names) => {
                        rows.push(Row { line, at: FOUND.into(), value: names.join(" "), ..Row::default() });
                    }
                    None => problems.push(RowProblem::new(line, Problem::NotText { key: FOUND })),
                }
            }
            ("reading" | "symptom", DeValue::Array(list)) => {
                let value_key = if key.get_ref().as_ref() == "reading" { "value" } else { "told" };
                for one in list.iter().take(MOST_ROWS) {
                    let line = line_of(text, one.span().start);
                    match one.get_ref() {
                        DeValue::Table(table) => row(text, line, table, value_key, &mut rows, &mut problems),
                        _ => problems.push(unknown(line, RowWord::Key, key.get_ref(), "reading, symptom")),
                    }
                }
            }
            (other, _) => problems.push(unknown(
                line,
                RowWord::Key,
                other,
                "instrument, taken, found, reading, symptom",
            )),
        }
    }
    for row in &mut rows {
        row.instrument = row.instrument.take().or_else(|| instrument.clone());
        row.taken = row.taken.take().or_else(|| taken.clone());
    }
    rows.sort_by_key(|row| row.line);
    (rows, problems)
}

fn unknown(line: usize, what: RowWord, text: &str, known: &str) -> RowProblem {
    RowProblem::new(line, Problem::UnknownWord { what, text, known })
}

fn row(
    text: &str,
    line: usize,
    table: &DeTable<'_>,
    value_key: &str,
    rows: &mut Vec<Row>,
    problems: &mut Vec<RowProblem>,
) {
    let keys = match value_key {
        "told" => "at, told",
        _ => "at, value, to, quantity, state, taken, instrument, lead, sure",
    };
    let mut made = Row { line, ..Row::default() };
    for (key, value) in table {
        let at = line_of(text, key.span().start);
        let name: &str = key.get_ref();
        let found = match value.get_ref() {
            DeValue::String(text) => text.to_string(),
            DeValue::Boolean(sure) if name == "sure" => {
                made.is_sure = *sure;
                continue;
            }
            _ => {
                problems.push(RowProblem::new(at, Problem::NotText { key: name }));
                continue;
            }
        };
        match name {
            "at" => made.at = found,
            "to" => made.to = Some(found),
            "quantity" => made.quantity = Some(found),
            "state" => made.state = Some(found),
            "taken" => made.taken = Some(found),
            "instrument" => made.instrument = Some(found),
            "lead" => made.lead = Some(found),
            _ if name == value_key => made.value = found,
            _ => problems.push(unknown(at, RowWord::Key, name, keys)),
        }
    }
    if made.at.is_empty() || made.value.is_empty() {
        problems.push(RowProblem::new(line, Problem::NotAnItem { text: &made.at }));
    } else {
        rows.push(made);
    }
}

/// Reads CSV with a head: `at` and `value`, and where needed the other keys of a reading. Commas, semicolons or tabs.
pub fn read_csv(text: &str) -> (Vec<Row>, Vec<RowProblem>) {
    let mut rows = Vec::new();
    let mut problems = Vec::new();
    let text = text.trim_start_matches('\u{feff}');
    let mut lines = text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty());
    let Some((_, head)) = lines.next() else { return (rows, problems) };
    let separator = [';', '\t', ','].into_iter().find(|sign| head.contains(*sign)).unwrap_or(',');
    let columns: Vec<String> = cells(head, separator).into_iter().map(|cell| cell.to_lowercase()).collect();
    const KNOWN: [&str; 9] =
        ["at", "value", "to", "quantity", "state", "taken", "instrument", "lead", "sure"];
    for column in columns.iter().filter(|column| !KNOWN.contains(&column.as_str())) {
        problems.push(unknown(1, RowWord::Column, column, &KNOWN.join(", ")));
    }
    for (number, line) in lines.take(MOST_ROWS) {
        let mut made = Row { line: number + 1, ..Row::default() };
        for (column, cell) in columns.iter().zip(cells(line, separator)) {
            if cell.is_empty() {
                continue;
            }
            match column.as_str() {
                "at" => made.at = cell,
                "value" => made.value = cell,
                "to" => made.to = Some(cell),
                "quantity" => made.quantity = Some(cell),
                "state" => made.state = Some(cell),
                "taken" => made.taken = Some(cell),
                "instrument" => made.instrument = Some(cell),
                "lead" => made.lead = Some(cell),
                "sure" => made.is_sure = matches!(cell.to_lowercase().as_str(), "yes" | "true" | "1" | "ja"),
                _ => {}
            }
        }
        if made.at.is_empty() || made.value.is_empty() {
            problems.push(RowProblem::new(number + 1, Problem::NotAnItem { text: line.trim() }));
        } else {
            rows.push(made);
        }
    }
    (rows, problems)
}

/// The cells of a line; a cell in double quotes may hold the separator, and two of them stand for one.
fn cells(line: &str, separator: char) -> Vec<String> {
    let mut list = vec![String::new()];
    let mut quoted = false;
    let mut signs = line.trim_end_matches('\r').chars().peekable();
    while let Some(sign) = signs.next() {
        match sign {
            '"' if quoted && signs.peek() == Some(&'"') => {
                signs.next();
                push(&mut list, '"');
            }
            '"' => quoted = !quoted,
            sign if sign == separator && !quoted => list.push(String::new()),
            sign => push(&mut list, sign),
        }
    }
    list.into_iter().map(|cell| cell.trim().to_string()).collect()
}

fn push(list: &mut [String], sign: char) {
    if let Some(last) = list.last_mut() {
        last.push(sign);
    }
}
