//! Edits of a site file as JSON, wherever they are listed.

use latchline_finding::{Change, Edit, EditStep};
use schemars::JsonSchema;
use serde::Serialize;

/// One change to a site file.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ChangeDocument {
    /// Keys, and places of arrays from 0.
    pub path: Vec<StepDocument>,
    /// "set", "remove", "insert", "append-table", "rename" or "lines".
    pub action: &'static str,
    /// TOML text, or the new name.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value: Option<String>,
    /// Place before which "insert" puts the value; line from 0 at which "lines" do.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub before: Option<usize>,
}

/// A step of a path.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(untagged)]
pub enum StepDocument {
    /// A key.
    Key(String),
    /// A place of an array, from 0.
    Index(usize),
}

/// The changes of an edit, in their order.
pub fn changes(edit: &Edit) -> Vec<ChangeDocument> {
    edit.changes.iter().filter_map(|(path, one)| change(path, one)).collect()
}

/// `None` for what only says what is expected.
fn change(path: &[EditStep], change: &Change) -> Option<ChangeDocument> {
    let (action, value, before) = match change {
        Change::Set(value) => ("set", Some(value.clone()), None),
        Change::Remove => ("remove", None, None),
        Change::Insert(before, value) => ("insert", Some(value.clone()), Some(*before)),
        Change::AppendTable(body) => ("append-table", Some(body.clone()), None),
        Change::Rename(name) => ("rename", Some(name.clone()), None),
        Change::Lines { line, becomes, .. } => ("lines", Some(becomes.clone()), Some(*line)),
        Change::Expect(_) => return None,
    };
    let path = path
        .iter()
        .map(|step| match step {
            EditStep::Key(key) => StepDocument::Key(key.clone()),
            EditStep::Index(index) => StepDocument::Index(*index),
        })
        .collect();
    Some(ChangeDocument { path, action, value, before })
}
