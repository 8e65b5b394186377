//! Readings as people write them: on a command line, as TOML, as CSV.
//!
//! All three give rows of the same kind, which are then checked against the site. What cannot be used is told at its line and left
//! out; nothing is guessed.

mod check;
mod files;
mod row;

pub use check::{Checked, check};
pub use files::{read_csv, read_toml};
pub(crate) use row::FOUND;
pub use row::{Row, RowProblem};

use latchline_words::locate::Problem;

/// Reads one item of a command line: `A-12=33V`, `A-12@ringing:A-15=33V`, `loop:A-R1=2.7ohm`, `A-11..A-12=3V`, `A-12=restarts`,
/// `A-45@ringing:A-45/gate+ringing:A-44/lodge=33V` with two calls at once, `found=A-11 A-12` for the list of devices. Behind a comma how it was read off, with what, and where the other lead was: `A-12=33V,least-held,plain`.
///
/// # Errors
/// If there is no `=` with something on both sides.
pub fn read_item(text: &str, number: usize) -> Result<Row, RowProblem> {
    let broken = || RowProblem::new(number, Problem::NotAnItem { text });
    let (left, value) = text.split_once('=').ok_or_else(broken)?;
    let (place, state) = match left.split_once('@') {
        Some((place, state)) => (place, Some(state.trim().to_string())),
        None => (left, None),
    };
    let (quantity, place) = match place.split_once(':') {
        Some((quantity, rest)) if check::QUANTITIES.contains(&quantity.trim()) => {
            (Some(quantity.trim().to_string()), rest)
        }
        _ => (None, place),
    };
    let (at, to) = match place.split_once("..") {
        Some((from, to)) => (from, Some(to.trim().to_string())),
        None => (place, None),
    };
    let mut row = Row { line: number, at: at.trim().to_string(), to, quantity, state, ..Row::default() };
    // What begins with a figure is the part of a number behind a decimal comma, which is told as that.
    let (value, how) = match value.split_once(',') {
        Some((value, how))
            if row.at != FOUND && !how.trim_start().starts_with(|sign: char| sign.is_ascii_digit()) =>
        {
            (value, Some(how))
        }
        _ => (value, None),
    };
    let value = value.trim();
    row.is_sure = value.ends_with('!');
    row.value = value.strip_suffix('!').unwrap_or(value).trim().to_string();
    for word in how.iter().flat_map(|how| how.split(',')).map(str::trim).filter(|word| !word.is_empty()) {
        let place = if check::is_taken(word) {
            &mut row.taken
        } else if check::is_lead(word) {
            &mut row.lead
        } else {
            &mut row.instrument
        };
        *place = Some(word.to_string());
    }
    if let (true, Some(state), false) = (row.at.is_empty(), &row.state, row.value.is_empty()) {
        return Err(RowProblem::new(number, Problem::StateForPlace { state, value: &row.value }));
    }
    if row.at.is_empty() || row.value.is_empty() {
        return Err(broken());
    }
    Ok(row)
}
