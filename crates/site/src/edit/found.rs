//! What a document says at a path.

use super::error::{EditError, words};
use latchline_finding::EditStep;
use toml_edit::{DocumentMut, Item, Value};

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

pub(super) fn next<'i>(item: &'i Item, step: &EditStep) -> Option<std::borrow::Cow<'i, Item>> {
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
