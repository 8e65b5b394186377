//! Why an edit could not be applied.

use latchline_finding::EditStep;
use std::fmt;

/// Why an edit could not be applied. The path is in the user's words, as `runs.A-R1.length`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum EditError {
    /// The text is not valid TOML, so that nothing can be edited in it.
    Syntax(String),
    /// Nothing is there.
    NoSuchPlace(String),
    /// What is there is not a table, or not an array, as the edit needs.
    WrongPlace(String),
    /// The new value is not a TOML value.
    BadValue(String),
    /// What is there is not what the edit expects: the text has changed since the edit was made.
    Changed(String),
    /// The new name is taken.
    NameTaken(String),
    /// The path is empty.
    EmptyPath,
}

impl fmt::Display for EditError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            EditError::Syntax(detail) => write!(f, "the text is not valid TOML: {detail}"),
            EditError::NoSuchPlace(path) => write!(f, "there is no '{path}' to edit"),
            EditError::WrongPlace(path) => write!(f, "'{path}' is not of the kind that this edit needs"),
            EditError::BadValue(value) => write!(f, "'{value}' is not a TOML value"),
            EditError::Changed(path) => {
                write!(f, "'{path}' has changed since, so that the edit no longer fits")
            }
            EditError::NameTaken(path) => write!(f, "'{path}' exists already"),
            EditError::EmptyPath => f.write_str("the path of the edit is empty"),
        }
    }
}

impl std::error::Error for EditError {}

/// A path in the user's words.
pub(super) fn words(path: &[EditStep]) -> String {
    let steps = path.iter().map(|step| match step {
        EditStep::Key(key) => key.clone(),
        EditStep::Index(index) => format!("[{index}]"),
    });
    steps.collect::<Vec<_>>().join(".")
}
