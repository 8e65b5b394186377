//! Edits of single values: what one text says otherwise than another, wherever it stands.

use super::error::{EditError, words};
use super::found::{found, meaning, read};
use latchline_finding::{Change, Edit, EditStep};
use toml_edit::{DocumentMut, Item, TableLike};

/// Whether a text can be read as TOML.
pub fn is_toml(text: &str) -> bool {
    read(text).is_ok()
}

/// The edit that makes `from` say what `to` says, value by value, each with what it expects to find. Unlike [`difference`](super::difference)
/// it does not mind what else stands on a line; comments, order and layout are left as they are.
///
/// # Errors
/// If one of them is not TOML, or rows in the middle of an array of tables differ.
pub fn value_difference(from: &str, to: &str) -> Result<Edit, EditError> {
    let (from, to) = (read(from)?, read(to)?);
    let mut edit = Edit::default();
    let mut walk = Walk { from: &from, to: &to, path: Vec::new(), edit: &mut edit };
    walk.tables(from.as_table(), to.as_table())?;
    Ok(edit)
}

/// What `theirs` says otherwise than `base`, in `ours`, value by value; what `ours` says already is left.
///
/// # Errors
/// As [`value_difference`], or if `ours` has a value of which both made something else.
pub fn merge_values(base: &str, ours: &str, theirs: &str) -> Result<String, EditError> {
    let wanted = read(theirs)?;
    let there = read(ours)?;
    let mut edit = value_difference(base, theirs)?;
    edit.changes.retain(|(path, change)| match change {
        Change::AppendTable(body) => {
            let row = |table: &toml_edit::Table| table.to_string().trim() == body.as_str();
            let rows = there.get(&key(path)).and_then(Item::as_array_of_tables);
            !rows.is_some_and(|rows| path.len() == 1 && rows.iter().any(row))
        }
        _ => {
            let (is, becomes) = (found(&there, path), found(&wanted, path));
            !same(is.as_deref(), becomes.as_deref())
        }
    });
    super::apply(ours, &edit)
}

/// The last key of a path; empty if that is no key.
fn key(path: &[EditStep]) -> String {
    match path.last() {
        Some(EditStep::Key(key)) => key.clone(),
        _ => String::new(),
    }
}

/// Whether two values say the same, however they are written.
fn same(one: Option<&str>, other: Option<&str>) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => one == other || meaning(one) == meaning(other),
        (None, None) => true,
        _ => false,
    }
}

struct Walk<'w> {
    from: &'w DocumentMut,
    to: &'w DocumentMut,
    path: Vec<EditStep>,
    edit: &'w mut Edit,
}

impl Walk<'_> {
    fn tables(&mut self, from: &dyn TableLike, to: &dyn TableLike) -> Result<(), EditError> {
        for (key, old) in from.iter() {
            self.path.push(key.into());
            match to.get(key) {
                None => self.change(Change::Remove),
                Some(new) => self.items(old, new)?,
            }
            self.path.pop();
        }
        for (key, new) in to.iter().filter(|(key, _)| !from.contains_key(key)) {
            self.path.push(key.into());
            self.added(new)?;
            self.path.pop();
        }
        Ok(())
    }

    fn items(&mut self, old: &Item, new: &Item) -> Result<(), EditError> {
        if let (Some(old), Some(new)) = (old.as_table_like(), new.as_table_like()) {
            return self.tables(old, new);
        }
        let (was, becomes) = (self.found(self.from), self.found(self.to));
        if same(was.as_deref(), becomes.as_deref()) {
            return Ok(());
        }
        match (old, new) {
            (Item::ArrayOfTables(old), Item::ArrayOfTables(new)) => {
                let text = |table: &toml_edit::Table| table.to_string().trim().to_string();
                let (old, new): (Vec<_>, Vec<_>) =
                    (old.iter().map(text).collect(), new.iter().map(text).collect());
                let Some(further) = new.strip_prefix(old.as_slice()) else { return Err(self.refused()) };
                for body in further {
                    self.edit.changes.push((self.path.clone(), Change::AppendTable(body.clone())));
                }
            }
            (Item::Value(_), Item::Value(_)) => self.change(Change::Set(becomes.unwrap_or_default())),
            _ => return Err(self.refused()),
        }
        Ok(())
    }

    fn added(&mut self, new: &Item) -> Result<(), EditError> {
        match new {
            // A table with a header is made by its keys.
            Item::Table(table) if !table.is_empty() => {
                for (key, item) in table.iter() {
                    self.path.push(key.into());
                    self.added(item)?;
                    self.path.pop();
                }
            }
            Item::ArrayOfTables(tables) => {
                for table in tables.iter() {
                    let body = table.to_string().trim().to_string();
                    self.edit.changes.push((self.path.clone(), Change::AppendTable(body)));
                }
            }
            Item::Value(_) => {
                let value = self.found(self.to).unwrap_or_default();
                self.change(Change::Set(value));
            }
            _ => return Err(self.refused()),
        }
        Ok(())
    }

    /// Changes what is at the path, if it is still as it was.
    fn change(&mut self, change: Change) {
        let was = self.found(self.from);
        self.edit.changes.push((self.path.clone(), Change::Expect(was)));
        self.edit.changes.push((self.path.clone(), change));
    }

    fn found(&self, document: &DocumentMut) -> Option<String> {
        found(document, &self.path)
    }

    fn refused(&self) -> EditError {
        EditError::WrongPlace(words(&self.path))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::edit::apply;

    fn meaning(text: &str) -> toml::Table {
        text.parse().unwrap()
    }

    #[test]
    fn the_difference_makes_one_text_say_what_the_other_says() {
        let texts = [
            "",
            "a = 1\n",
            "a = 2 # two\n[runs]\nx = { from = \"D1\", to = [\"A\", \"B\"] }\n",
            "a = 2\n[runs]\nx = { from = \"D1\", to = [\"A\"], length = \"5 m\" }\ny = { from = \"D2\" }\n",
            "[runs]\ny = { from = \"D2\" }\n[[accept]]\ncode = \"c\"\n",
            "[runs]\ny = { from = \"D2\" }\n[[accept]]\ncode = \"c\"\n[[accept]]\ncode = \"d\"\nreason = \"r\"\n",
            "\u{feff}[policy]\r\nspare = 1\r\n",
        ];
        for from in texts {
            for to in texts {
                match value_difference(from, to) {
                    Ok(edit) => {
                        let made = apply(from, &edit).unwrap();
                        let without = |text: &str| {
                            let mut table = meaning(text.trim_start_matches('\u{feff}'));
                            table.retain(|_, value| value.as_table().is_none_or(|table| !table.is_empty()));
                            table
                        };
                        assert_eq!(without(&made), without(to), "{from:?} to {to:?}: {edit:?}");
                    }
                    // A row of an array of tables went.
                    Err(error) => assert!(matches!(error, EditError::WrongPlace(_)), "{from:?} to {to:?}"),
                }
            }
        }
    }

    #[test]
    fn what_changed_since_is_not_laid_over() {
        let edit = value_difference("a = 1\nb = 1\n", "a = 2\nb = 1\n").unwrap();
        assert_eq!(apply("a = 1 # one\nb = 9\n", &edit).as_deref(), Ok("a = 2 # one\nb = 9\n"));
        assert!(matches!(apply("a = 3\nb = 1\n", &edit), Err(EditError::Changed(_))));
        assert!(value_difference("a = [", "a = 1").is_err());
    }
}
