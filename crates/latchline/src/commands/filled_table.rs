//! A table of a pack (CSV) into which people have written, as a sheet of a workbook.

use latchline_finding::Language;
use latchline_handover::Entry;
use latchline_handover::filled::{FilledRow, FilledSheet, tab_of_table};

/// What separates cells: as the pack writes them, or as a spreadsheet program saves them.
const SEPARATORS: [u8; 3] = [b',', b';', b'\t'];

/// Whether a file is a table by its name.
pub(super) fn is_table(name: &str) -> bool {
    name.rsplit('.').next().is_some_and(|ending| ending.eq_ignore_ascii_case("csv"))
}

/// A table as the sheet that it is in the workbook, once as an English one and once as a German one, the likelier first: the headings tell
/// which it is. Nothing where the name is that of no table of a pack, or no cell can be read.
pub(super) fn sheets(name: &str, bytes: &[u8]) -> Vec<Vec<FilledSheet>> {
    let text = decoded(bytes);
    let Some((separator, rows)) = SEPARATORS
        .into_iter()
        .map(|separator| (separator, rows(&text, separator)))
        .max_by_key(|(_, rows)| rows.iter().map(|row| row.cells.len()).max())
    else {
        return Vec::new();
    };
    let likelier = if separator == b';' { Language::German } else { Language::English };
    let other = if separator == b';' { Language::English } else { Language::German };
    let sheet = |language| {
        let name = tab_of_table(name, language)?.to_string();
        Some(vec![FilledSheet { name, rows: rows.clone() }])
    };
    [likelier, other].into_iter().filter_map(sheet).collect()
}

/// UTF-8 as the pack writes it, with its mark or without; what is none is taken for ISO 8859-1, as older programs save.
fn decoded(bytes: &[u8]) -> String {
    let bytes = bytes.strip_prefix("\u{feff}".as_bytes()).unwrap_or(bytes);
    match std::str::from_utf8(bytes) {
        Ok(text) => text.to_string(),
        Err(_) => bytes.iter().map(|byte| char::from(*byte)).collect(),
    }
}

fn rows(text: &str, separator: u8) -> Vec<FilledRow> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(separator)
        .from_reader(text.as_bytes());
    let mut rows = Vec::new();
    // A record that cannot be read ends the table: what stands before it is carried, and nothing is guessed.
    for (index, record) in reader.records().map_while(Result::ok).enumerate() {
        if record.get(0).is_some_and(|cell| cell.starts_with("# ")) {
            continue;
        }
        let number = u32::try_from(index + 1).unwrap_or(u32::MAX);
        rows.push(FilledRow { number, cells: record.iter().map(entry).collect() });
    }
    rows
}

/// A cell: nothing, a number with point or comma, or words without the guard against formulas.
fn entry(cell: &str) -> Option<Entry> {
    let cell = cell.trim();
    if cell.is_empty() {
        return None;
    }
    let is_plain = cell.chars().all(|sign| sign.is_ascii_digit() || ".,-".contains(sign));
    // A number that begins with a nought is one of a device or a part, and stays as it is written.
    let is_name =
        cell.len() > 1 && cell.starts_with('0') && !cell.starts_with("0.") && !cell.starts_with("0,");
    if let Some(number) = cell.replace(',', ".").parse().ok().filter(|_| is_plain && !is_name) {
        return Some(Entry::Number(number));
    }
    let words = match cell.strip_prefix('\'') {
        Some(guarded) if guarded.starts_with(['=', '+', '-', '@']) => guarded,
        _ => cell,
    };
    Some(Entry::Words(words.to_string()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_are_read_as_people_write_them() {
        assert_eq!(entry(" 12,5 "), Some(Entry::Number(12.5)));
        assert_eq!(entry("12.5"), Some(Entry::Number(12.5)));
        assert_eq!(entry("'+A+2 -A-12"), Some(Entry::Words(String::from("+A+2 -A-12"))));
        assert_eq!(entry("2026-03-02"), Some(Entry::Words(String::from("2026-03-02"))));
        assert_eq!(entry("007"), Some(Entry::Words(String::from("007"))));
        assert_eq!(entry("0,25"), Some(Entry::Number(0.25)));
        assert_eq!(entry("NaN"), Some(Entry::Words(String::from("NaN"))));
        assert_eq!(entry("  "), None);
    }

    /// ISO 8859-1: 0xE4 is ä.
    #[test]
    fn what_older_programs_save_is_read_too() {
        assert_eq!(decoded(b"L\xe4nge"), "Länge");
        assert_eq!(decoded("\u{feff}Länge".as_bytes()), "Länge");
        let sheets = sheets("tables/07-cables.new.csv", b"# x\r\nA\tB\tC\r\n1\t2\t3\r\n");
        assert_eq!(sheets.len(), 2);
        assert_eq!(sheets[0][0].rows[1].cells.len(), 3);
        assert!(super::sheets("tables/07-nothing.csv", b"a,b\n").is_empty());
    }
}
