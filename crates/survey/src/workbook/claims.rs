//! What the parts of a workbook say of themselves before a cell of them is read: the library that reads cells makes room for as many
//! texts as are announced, and reckons with references as they stand.

use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};
use std::io::BufRead;

/// Rows and columns of a sheet (ECMA-376 part 1, 18.3.1.73 and 18.3.1.13).
const SHEET_ROWS: u32 = 1_048_576;
const SHEET_COLUMNS: u32 = 16_384;

/// Whether all that a part claims can be: no more texts than these, and references within a sheet. A part that is no XML
/// claims nothing; what is broken in it is told by who needs it.
pub(super) fn can_be(part: impl BufRead, most_texts: usize) -> bool {
    let mut reader = Reader::from_reader(part);
    let config = reader.config_mut();
    // As the library that reads the cells has them.
    config.check_end_names = false;
    config.check_comments = false;
    let mut buffer = Vec::new();
    loop {
        buffer.clear();
        match reader.read_event_into(&mut buffer) {
            Ok(Event::Start(element) | Event::Empty(element)) if !element_can_be(&element, most_texts) => {
                return false;
            }
            Ok(Event::Eof) | Err(_) => return true,
            Ok(_) => {}
        }
    }
}

fn element_can_be(element: &BytesStart<'_>, most_texts: usize) -> bool {
    let is_number_of_texts = |text: &str| text.trim().parse::<usize>().is_ok_and(|count| count <= most_texts);
    let (key, holds): (&str, &dyn Fn(&str) -> bool) = match element.local_name().as_ref() {
        "sst" => ("uniqueCount", &is_number_of_texts),
        "row" => ("r", &is_row),
        "c" => ("r", &is_area),
        "dimension" | "mergeCell" | "f" => ("ref", &is_area),
        _ => return true,
    };
    let mut attributes = element.attributes();
    let mut claims =
        attributes.with_checks(false).flatten().filter(|attribute| attribute.key.as_ref() == key);
    claims.all(|claim| holds(&claim.value))
}

fn is_row(text: &str) -> bool {
    text.parse().is_ok_and(|row: u32| (1..=SHEET_ROWS).contains(&row))
}

/// Whether it names a cell, or an area by its first and its last cell.
fn is_area(text: &str) -> bool {
    let (first, last) = text.split_once(':').unwrap_or((text, text));
    let (Some(first), Some(last)) = (cell(first), cell(last)) else { return false };
    first.0 <= last.0 && first.1 <= last.1
}

/// Row and column from 1; `None` for what is on no sheet.
fn cell(text: &str) -> Option<(u32, u32)> {
    let (letters, digits) = text.split_at(text.find(|sign: char| !sign.is_ascii_alphabetic())?);
    if letters.is_empty() || letters.len() > 3 || !is_row(digits) {
        return None;
    }
    let place = |column: u32, letter: u8| column * 26 + u32::from(letter.to_ascii_uppercase() - b'A') + 1;
    let column = letters.bytes().fold(0, place);
    (column <= SHEET_COLUMNS).then_some((digits.parse().ok()?, column))
}
