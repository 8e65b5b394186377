//! Changes made on a TOML document, whose comments, order and layout stay as they are.

use super::error::{EditError, words};
use super::found;
use latchline_finding::{Change, EditStep};
use toml_edit::{Array, DocumentMut, InlineTable, Item, Key, Table, TableLike, Value};

/// A place in the document that a change can act on.
pub(super) enum Place<'d> {
    Table(&'d mut Table),
    Inline(&'d mut InlineTable),
    Array(&'d mut Array),
    Tables(&'d mut toml_edit::ArrayOfTables),
    Other,
}

fn place_of_item(item: &mut Item) -> Place<'_> {
    match item {
        Item::Value(value) => place_of_value(value),
        Item::Table(table) => Place::Table(table),
        Item::ArrayOfTables(tables) => Place::Tables(tables),
        Item::None => Place::Other,
    }
}

fn place_of_value(value: &mut Value) -> Place<'_> {
    match value {
        Value::InlineTable(table) => Place::Inline(table),
        Value::Array(array) => Place::Array(array),
        _ => Place::Other,
    }
}

pub(super) fn step<'d>(place: Place<'d>, to: &EditStep) -> Option<Place<'d>> {
    match (place, to) {
        (Place::Table(table), EditStep::Key(key)) => table.get_mut(key).map(place_of_item),
        (Place::Inline(table), EditStep::Key(key)) => table.get_mut(key).map(place_of_value),
        (Place::Array(array), EditStep::Index(index)) => array.get_mut(*index).map(place_of_value),
        (Place::Tables(tables), EditStep::Index(index)) => tables.get_mut(*index).map(Place::Table),
        _ => None,
    }
}

/// Makes one change.
pub(super) fn apply_one(
    document: &mut DocumentMut,
    path: &[EditStep],
    change: &Change,
) -> Result<(), EditError> {
    let Some((last, parents)) = path.split_last() else { return Err(EditError::EmptyPath) };
    match change {
        Change::Expect(expected) => found::check(document, path, expected.as_deref())?,
        Change::Lines { .. } => return Err(EditError::WrongPlace(words(path))),
        Change::Set(text) => {
            let value = read_value(text)?;
            match (descend(document, parents, true)?, last) {
                (Place::Table(table), EditStep::Key(key)) => set_key(table, key, value),
                (Place::Inline(table), EditStep::Key(key)) => set_inline_key(table, key, value),
                (Place::Array(array), EditStep::Index(index)) => {
                    let old = array.get_mut(*index).ok_or_else(|| EditError::NoSuchPlace(words(path)))?;
                    let decor = old.decor().clone();
                    *old = value;
                    *old.decor_mut() = decor;
                }
                _ => return Err(EditError::WrongPlace(words(path))),
            }
        }
        Change::Remove => match (descend(document, parents, false)?, last) {
            (Place::Table(table), EditStep::Key(key)) => {
                table.remove(key).ok_or_else(|| EditError::NoSuchPlace(words(path)))?;
            }
            (Place::Inline(table), EditStep::Key(key)) => {
                let removed = table.remove(key).ok_or_else(|| EditError::NoSuchPlace(words(path)))?;
                close_gap(removed, table.iter_mut().last().map(|(_, last)| last));
            }
            (Place::Array(array), EditStep::Index(index)) if *index < array.len() => {
                let removed = array.remove(*index);
                if *index == array.len() {
                    close_gap(removed, array.iter_mut().last());
                }
                // What was second keeps the space that followed the comma.
                if *index == 0
                    && let Some(first) = array.get_mut(0)
                    && first.decor().prefix().and_then(|prefix| prefix.as_str()) == Some(" ")
                {
                    first.decor_mut().set_prefix("");
                }
            }
            (Place::Tables(tables), EditStep::Index(index)) if *index < tables.len() => {
                tables.remove(*index);
            }
            (Place::Other, _) => return Err(EditError::WrongPlace(words(path))),
            _ => return Err(EditError::NoSuchPlace(words(path))),
        },
        Change::Insert(index, text) => {
            let value = read_value(text)?;
            match descend(document, path, false)? {
                Place::Array(array) if *index <= array.len() => insert(array, *index, value),
                Place::Array(_) => return Err(EditError::NoSuchPlace(format!("{}.[{index}]", words(path)))),
                _ => return Err(EditError::WrongPlace(words(path))),
            }
        }
        Change::AppendTable(body) => append_table(document, path, body)?,
        Change::Rename(name) => match (descend(document, parents, false)?, last) {
            (Place::Table(table), EditStep::Key(key)) => rename(table, key, name, path)?,
            (Place::Inline(table), EditStep::Key(key)) => rename(table, key, name, path)?,
            _ => return Err(EditError::WrongPlace(words(path))),
        },
    }
    Ok(())
}

/// Walks down a path. With `create`, missing tables on the way are made.
pub(super) fn descend<'d>(
    document: &'d mut DocumentMut,
    path: &[EditStep],
    create: bool,
) -> Result<Place<'d>, EditError> {
    let mut place = Place::Table(document.as_table_mut());
    for (depth, to) in path.iter().enumerate() {
        if create && let EditStep::Key(key) = to {
            match &mut place {
                Place::Table(table) if !table.contains_key(key) => {
                    // Tables at the top level get a header; deeper ones are written in line.
                    let fresh = if depth == 0 {
                        Item::Table(Table::new())
                    } else {
                        Item::Value(InlineTable::new().into())
                    };
                    table.insert(key, fresh);
                }
                Place::Inline(table) if !table.contains_key(key) => {
                    set_inline_key(table, key, InlineTable::new().into());
                }
                _ => {}
            }
        }
        place = step(place, to).ok_or_else(|| EditError::NoSuchPlace(words(&path[..=depth])))?;
    }
    Ok(place)
}

pub(super) fn read_value(text: &str) -> Result<Value, EditError> {
    let mut value: Value = text.parse().map_err(|_| EditError::BadValue(text.to_string()))?;
    value.decor_mut().clear();
    Ok(value)
}

/// Sets a key and keeps the spaces and comments around an old value.
fn set_key(table: &mut Table, key: &str, mut value: Value) {
    match table.get_mut(key) {
        Some(Item::Value(old)) => {
            *value.decor_mut() = old.decor().clone();
            *old = value;
        }
        Some(other) => *other = Item::Value(value),
        None => {
            table.insert(key, Item::Value(value));
        }
    }
}

/// Sets a key of an inline table; a new one goes to the end, before the closing space.
fn set_inline_key(table: &mut InlineTable, key: &str, mut value: Value) {
    if let Some(old) = table.get_mut(key) {
        *value.decor_mut() = old.decor().clone();
        *old = value;
        return;
    }
    if let Some((_, last)) = table.iter_mut().last() {
        let suffix = last.decor().suffix().cloned().unwrap_or_default();
        last.decor_mut().set_suffix("");
        value.decor_mut().set_prefix(" ");
        value.decor_mut().set_suffix(suffix);
    }
    table.insert(key, value);
}

/// The space before a closing bracket stays when the last value goes.
fn close_gap(removed: impl Into<Value>, last: Option<&mut Value>) {
    let removed: Value = removed.into();
    if let (Some(last), Some(suffix)) = (last, removed.decor().suffix().cloned())
        && last.decor().suffix().and_then(|suffix| suffix.as_str()).is_none_or(str::is_empty)
    {
        last.decor_mut().set_suffix(suffix);
    }
}

fn insert(array: &mut Array, index: usize, mut value: Value) {
    // Written like its neighbours: arrays with one item a line stay so.
    let neighbour = if index < array.len() { index } else { array.len().saturating_sub(1) };
    match array.get(neighbour) {
        Some(beside) if index > 0 && array.len() > 1 => {
            let beside = if neighbour == 0 { array.get(1).unwrap_or(beside) } else { beside };
            let prefix = beside.decor().prefix().cloned().unwrap_or_default();
            value.decor_mut().set_prefix(prefix);
        }
        Some(beside) if index == 0 => {
            let prefix = beside.decor().prefix().cloned().unwrap_or_default();
            value.decor_mut().set_prefix(prefix);
            if let Some(first) = array.get_mut(0)
                && first.decor().prefix().and_then(|prefix| prefix.as_str()).is_none_or(str::is_empty)
            {
                first.decor_mut().set_prefix(" ");
            }
        }
        Some(_) => value.decor_mut().set_prefix(" "),
        None => {}
    }
    if index == array.len()
        && let Some(last) = array.len().checked_sub(1).and_then(|last| array.get_mut(last))
    {
        // The space before the closing bracket belongs behind the new last item.
        let suffix = last.decor().suffix().cloned().unwrap_or_default();
        last.decor_mut().set_suffix("");
        value.decor_mut().set_suffix(suffix);
    }
    array.insert_formatted(index, value);
}

fn append_table(document: &mut DocumentMut, path: &[EditStep], body: &str) -> Result<(), EditError> {
    let parsed: DocumentMut = body.parse().map_err(|_| EditError::BadValue(body.to_string()))?;
    let mut table = parsed.as_table().clone();
    table.set_position(None);
    table.decor_mut().set_prefix("\n");
    let Some((EditStep::Key(key), parents)) = path.split_last() else {
        return Err(EditError::WrongPlace(words(path)));
    };
    let Place::Table(parent) = descend(document, parents, true)? else {
        return Err(EditError::WrongPlace(words(path)));
    };
    if !parent.contains_key(key) {
        parent.insert(key, Item::ArrayOfTables(toml_edit::ArrayOfTables::new()));
    }
    match parent.get_mut(key) {
        Some(Item::ArrayOfTables(tables)) => {
            tables.push(table);
            Ok(())
        }
        // An array of inline tables says the same.
        Some(Item::Value(Value::Array(array))) => {
            let index = array.len();
            insert(array, index, Value::InlineTable(table.into_inline_table()));
            Ok(())
        }
        _ => Err(EditError::WrongPlace(words(path))),
    }
}

fn rename(table: &mut dyn TableLike, key: &str, name: &str, path: &[EditStep]) -> Result<(), EditError> {
    if key == name && table.contains_key(key) {
        return Ok(());
    }
    if table.contains_key(name) {
        let mut taken = path.to_vec();
        taken.pop();
        taken.push(EditStep::Key(name.to_string()));
        return Err(EditError::NameTaken(words(&taken)));
    }
    if !table.contains_key(key) {
        return Err(EditError::NoSuchPlace(words(path)));
    }
    // Everything is taken out and put back in order, since a key cannot change in place.
    let keys: Vec<String> = table.iter().map(|(key, _)| key.to_string()).collect();
    for old in keys {
        let decor = table.key(&old).map(|key| (key.leaf_decor().clone(), key.dotted_decor().clone()));
        let Some(item) = table.remove(&old) else { continue };
        let new_name = if old == key { name } else { &old };
        let mut new_key = Key::new(new_name);
        if let Some((leaf, dotted)) = decor {
            *new_key.leaf_decor_mut() = leaf;
            *new_key.dotted_decor_mut() = dotted;
        }
        table.entry_format(&new_key).or_insert(item);
    }
    Ok(())
}
