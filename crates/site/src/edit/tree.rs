//! Edits to a TOML tree that was read, for whoever needs no text of it.

use latchline_finding::{Change, Edit, EditStep};
use toml::Spanned;
use toml::de::{DeString, DeTable, DeValue};

/// A tree with an edit made on it. What is new in it has no place in the text. `None` for an edit that must be made on the text, and
/// for one that cannot be made.
pub(crate) fn changed<'e>(root: &DeTable<'e>, edit: &'e Edit) -> Option<DeTable<'e>> {
    let is_known = |(path, change): &(Vec<EditStep>, Change)| {
        matches!(
            (path.last(), change),
            (Some(EditStep::Key(_)), Change::Set(_) | Change::Remove)
                | (Some(EditStep::Index(_)), Change::Set(_))
        )
    };
    if !edit.changes.iter().all(is_known) {
        return None;
    }
    let mut root = root.clone();
    for (path, change) in &edit.changes {
        change_one(&mut root, path, change)?;
    }
    Some(root)
}

fn change_one<'e>(root: &mut DeTable<'e>, path: &'e [EditStep], change: &'e Change) -> Option<()> {
    let (last, parents) = path.split_last()?;
    if parents.is_empty() {
        return change_key(root, last, change);
    }
    let (first, further) = parents.split_first()?;
    let mut place = child_of_table(root, first, change)?;
    for step in further {
        place = match (place, step) {
            (DeValue::Table(table), step) => child_of_table(table, step, change)?,
            (DeValue::Array(rows), EditStep::Index(index)) => rows.get_mut(*index)?.get_mut(),
            _ => return None,
        };
    }
    match (place, last, change) {
        (DeValue::Table(table), ..) => change_key(table, last, change),
        (DeValue::Array(rows), EditStep::Index(index), Change::Set(text)) => {
            *rows.get_mut(*index)? = value(text)?;
            Some(())
        }
        _ => None,
    }
}

/// The value of a key; a table on the way to a value that is set is made.
fn child_of_table<'d, 'e>(
    table: &'d mut DeTable<'e>,
    step: &'e EditStep,
    change: &Change,
) -> Option<&'d mut DeValue<'e>> {
    let EditStep::Key(key) = step else { return None };
    if matches!(change, Change::Set(_)) && table.get(key.as_str()).is_none() {
        table.insert(named(key), Spanned::new(0..0, DeValue::Table(DeTable::new())));
    }
    Some(table.get_mut(key.as_str())?.get_mut())
}

fn change_key<'e>(table: &mut DeTable<'e>, step: &'e EditStep, change: &'e Change) -> Option<()> {
    let EditStep::Key(key) = step else { return None };
    match change {
        Change::Set(text) => {
            let value = value(text)?;
            match table.get_mut(key.as_str()) {
                Some(known) => *known = value,
                None => drop(table.insert(named(key), value)),
            }
        }
        Change::Remove => drop(table.remove(key.as_str())?),
        _ => return None,
    }
    Some(())
}

/// Whether two trees hold the same values by the same keys in the same order, wherever they stand in their texts.
pub(crate) fn is_same(one: &DeTable<'_>, other: &DeTable<'_>) -> bool {
    let mut rows = one.iter().zip(other.iter());
    one.len() == other.len()
        && rows.all(|((key, value), (other_key, other))| {
            key.get_ref() == other_key.get_ref() && is_same_value(value.get_ref(), other.get_ref())
        })
}

fn is_same_value(one: &DeValue<'_>, other: &DeValue<'_>) -> bool {
    match (one, other) {
        (DeValue::String(one), DeValue::String(other)) => one == other,
        (DeValue::Integer(one), DeValue::Integer(other)) => {
            (one.as_str(), one.radix()) == (other.as_str(), other.radix())
        }
        (DeValue::Float(one), DeValue::Float(other)) => one.as_str() == other.as_str(),
        (DeValue::Boolean(one), DeValue::Boolean(other)) => one == other,
        (DeValue::Datetime(one), DeValue::Datetime(other)) => one == other,
        (DeValue::Array(one), DeValue::Array(other)) => {
            let mut rows = one.iter().zip(other.iter());
            one.len() == other.len() && rows.all(|(one, other)| is_same_value(one.get_ref(), other.get_ref()))
        }
        (DeValue::Table(one), DeValue::Table(other)) => is_same(one, other),
        _ => false,
    }
}

fn named(key: &str) -> Spanned<DeString<'_>> {
    Spanned::new(0..0, key.into())
}

fn value(text: &str) -> Option<Spanned<DeValue<'_>>> {
    Some(Spanned::new(0..0, DeValue::parse(text).ok()?.into_inner()))
}
