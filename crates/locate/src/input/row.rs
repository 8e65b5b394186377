//! One reading or symptom as it was written, and what is wrong with it.

use latchline_finding::Both;
use latchline_words::locate::Problem;

/// What stands in the place of a station before the list of devices that the system found.
pub(crate) const FOUND: &str = "found";

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
    /// Where the meter's other lead was: `other-leg`, `same-leg`, `earth`.
    pub lead: Option<String>,
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
    pub(crate) fn new(line: usize, problem: Problem<'_>) -> Self {
        RowProblem { line, message: problem.both() }
    }
}
