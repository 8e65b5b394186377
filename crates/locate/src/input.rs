//! Readings as people write them: on a command line, as TOML, as CSV.
//!
//! All three give rows of the same kind, which are then checked against the site. What cannot be used is told at its line and left
//! out; nothing is guessed.

mod check;
mod files;

pub use check::{Checked, check};
pub use files::{read_csv, read_toml};

use latchline_finding::Both;
use latchline_words::locate::Problem;

/// One reading or symptom as it was written.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Row {
    /// Line of the file, or number of the item.
    pub line: usize,
    /// Where the meter was held, or what is told of.
    pub at: String,
    /// Where the other lead was, for a drop.
    pub to: Option<String>,
    /// What was read, where the unit does not say it.
    pub quantity: Option<String>,
    /// In which state: `ringing`, `ringing:A-12`.
    pub state: Option<String>,
    /// The figure with its unit, `open`, or a symptom.
    pub value: String,
    /// How it was read off.
    pub taken: Option<String>,
    /// With what.
    pub instrument: Option<String>,
    /// Whether the figure is meant as it stands, however unlikely.
    pub is_sure: bool,
}

/// What is wrong with a row.
#[derive(Debug, Clone, PartialEq)]
pub struct RowProblem {
    /// Line of the file, or number of the item; 0 for all of it.
    pub line: usize,
    /// In both languages.
    pub message: Both,
}

impl RowProblem {
    fn new(line: usize, problem: Problem<'_>) -> Self {
        RowProblem { line, message: problem.both() }
    }
}

/// Reads one item of a command line: `A-12=33V`, `A-12@ringing:A-15=33V`, `loop:A-R1=2.7ohm`, `A-11..A-12=3V`, `A-12=restarts`.
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
    let (value, is_sure) = match value.trim().strip_suffix('!') {
        Some(value) => (value.trim(), true),
        None => (value.trim(), false),
    };
    if at.trim().is_empty() || value.is_empty() {
        return Err(broken());
    }
    Ok(Row {
        line: number,
        at: at.trim().to_string(),
        to,
        quantity,
        state,
        value: value.to_string(),
        is_sure,
        ..Row::default()
    })
}
