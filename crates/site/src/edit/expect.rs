//! What an edit expects to find.

use super::document::apply_one;
use super::error::{EditError, words};
use latchline_finding::{Change, Edit, EditStep};
use toml_edit::{DocumentMut, Item, Value};

/// The edit with what it finds on this text: it is then refused on a text where that is something else. The value that is set
/// or removed must be the same, or missing as it was; of an array, the row that the path leads through, and both neighbours of a row that is put
/// in.
///
/// # Errors
/// If the edit cannot be applied to this text.
pub fn expecting(text: &str, edit: &Edit) -> Result<Edit, EditError> {
    // Lines say themselves what they expect, so that an edit of lines need not fit in with a document.
    if edit.changes.iter().any(|(_, change)| matches!(change, Change::Lines { .. })) {
        return super::apply(text, edit).map(|_| edit.clone());
    }
    let mut document = read(text)?;
    let mut changes = Vec::new();
    for (path, change) in &edit.changes {
        let mut places: Vec<Vec<EditStep>> = Vec::new();
        let rows = (1..=path.len()).filter(|end| matches!(path[end - 1], EditStep::Index(_)));
        places.extend(rows.map(|end| path[..end].to_vec()));
        match change {
            Change::Set(_) | Change::Remove => places.push(path.clone()),
            Change::Insert(index, _) => {
                for beside in [index.checked_sub(1), Some(*index)].into_iter().flatten() {
                    places.push(path.iter().cloned().chain([EditStep::Index(beside)]).collect());
                }
            }
            Change::AppendTable(_) | Change::Rename(_) | Change::Expect(_) | Change::Lines { .. } => {}
        }
        places.dedup();
        for place in places {
            let found = found(&document, &place);
            changes.push((place, Change::Expect(found)));
        }
        apply_one(&mut document, path, change)?;
        changes.push((path.clone(), change.clone()));
    }
    Ok(Edit { changes })
}

/// A value that an edit expects, and that is not there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unmet {
    /// Its path in the user's words, as `runs.A-R1.length`.
    pub place: String,
    /// What is expected, as TOML text; `None`: nothing.
    pub expects: Option<String>,
    /// What is there; `None`: nothing.
    pub finds: Option<String>,
    /// What the edit would put there; `None`: nothing, or it only looks.
    pub puts: Option<String>,
}

/// Every value that an edit expects on this text and does not find. What stands in the way besides is not told.
///
/// # Errors
/// If the text is not TOML.
pub fn unmet(text: &str, edit: &Edit) -> Result<Vec<Unmet>, EditError> {
    let mut document = read(text)?;
    let mut found_unmet: Vec<Unmet> = Vec::new();
    for (path, change) in &edit.changes {
        match change {
            Change::Expect(expects) if check(&document, path, expects.as_deref()).is_err() => {
                let puts = edit.changes.iter().find_map(|(place, change)| match change {
                    Change::Set(value) if place == path => Some(value.clone()),
                    _ => None,
                });
                let finds = found(&document, path);
                let one = Unmet { place: words(path), expects: expects.clone(), finds, puts };
                if !found_unmet.contains(&one) {
                    found_unmet.push(one);
                }
            }
            Change::Expect(_) | Change::Lines { .. } => {}
            // What does not fit here is not there for what follows.
            _ => drop(apply_one(&mut document, path, change)),
        }
    }
    Ok(found_unmet)
}

pub(super) fn read(text: &str) -> Result<DocumentMut, EditError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    text.parse().map_err(|error: toml_edit::TomlError| EditError::Syntax(error.message().to_string()))
}

/// An error unless what is there is what is expected, however it is written.
pub(super) fn check(
    document: &DocumentMut,
    path: &[EditStep],
    expected: Option<&str>,
) -> Result<(), EditError> {
    let found = found(document, path);
    let is_same = match (&found, expected) {
        (None, None) => true,
        (Some(found), Some(expected)) => found == expected || meaning(found) == meaning(expected),
        _ => false,
    };
    if is_same { Ok(()) } else { Err(EditError::Changed(words(path))) }
}

/// What a value says, whatever its spaces, quotes and comments; `None` if it is no TOML value.
pub(super) fn meaning(text: &str) -> Option<toml::Value> {
    let mut table: toml::Table = format!("value = {text}").parse().ok()?;
    table.remove("value")
}

/// What is at a place, as TOML text on its own.
pub(super) fn found(document: &DocumentMut, path: &[EditStep]) -> Option<String> {
    let mut item: std::borrow::Cow<'_, Item> = std::borrow::Cow::Borrowed(document.as_item());
    for step in path {
        item = match (&item, step) {
            (std::borrow::Cow::Borrowed(item), step) => next(item, step)?,
            (std::borrow::Cow::Owned(item), step) => std::borrow::Cow::Owned(next(item, step)?.into_owned()),
        };
    }
    let mut value = match item.into_owned() {
        Item::Value(value) => value,
        Item::Table(table) => Value::InlineTable(table.into_inline_table()),
        Item::ArrayOfTables(tables) => Value::Array(tables.into_array()),
        Item::None => return None,
    };
    // Comments and spaces around it belong to the text that it stood in.
    value.decor_mut().clear();
    Some(value.to_string().trim().to_string())
}

fn next<'i>(item: &'i Item, step: &EditStep) -> Option<std::borrow::Cow<'i, Item>> {
    use std::borrow::Cow;
    match step {
        EditStep::Key(key) => item.as_table_like()?.get(key).map(Cow::Borrowed),
        EditStep::Index(index) => match item {
            Item::ArrayOfTables(tables) => {
                tables.get(*index).map(|table| Cow::Owned(Item::Table(table.clone())))
            }
            Item::Value(Value::Array(array)) => {
                array.get(*index).map(|value| Cow::Owned(Item::Value(value.clone())))
            }
            _ => None,
        },
    }
}
