//! Edits to the text of a site file. Comments, order, layout and line ends stay as they are.

mod expect;
mod line_ends;
mod lines;
mod places;
pub(crate) mod tree;
mod values;

pub use expect::{Unmet, expecting, unmet};
pub use lines::difference;
pub use places::{Places, apply_at};
pub use values::{is_toml, merge_values, value_difference};

use latchline_finding::{Change, Edit, EditStep};
use std::borrow::Cow;
use std::fmt;
use toml_edit::{Array, DocumentMut, InlineTable, Item, Key, Table, TableLike, Value};

/// The byte order mark that some editors put before a text.
const MARK: &str = "\u{feff}";

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

/// Applies an edit to a text; all of it or, on an error, nothing.
///
/// # Errors
/// If the text is not TOML, if a place that the edit names does not exist or is of another kind,
/// if a new value is no TOML value, if a new name is taken, or if something is not there that the edit expects.
pub fn apply(text: &str, edit: &Edit) -> Result<String, EditError> {
    let mut text = Cow::Borrowed(text);
    for changes in edit.changes.chunk_by(|(_, a), (_, b)| !is_lines(a) && !is_lines(b)) {
        text = Cow::Owned(match changes {
            [(_, Change::Lines { line, expects, becomes })] => {
                lines::replace(&text, *line, expects, becomes)?
            }
            _ => apply_to_values(&text, changes)?,
        });
    }
    Ok(text.into_owned())
}

fn apply_to_values(text: &str, changes: &[(Vec<EditStep>, Change)]) -> Result<String, EditError> {
    let Editable { text, document } = Editable::new(text)?;
    changed(text, document, changes)
}

fn changed(
    text: &str,
    mut document: DocumentMut,
    changes: &[(Vec<EditStep>, Change)],
) -> Result<String, EditError> {
    for (path, change) in changes {
        apply_one(&mut document, path, change)?;
    }
    // The TOML library writes plain line ends only, and no byte order mark.
    let (mark, text) = without_mark(text);
    Ok(format!("{mark}{}", line_ends::kept(text, document.to_string())))
}

/// The byte order mark of a text, if it has one, and the rest.
fn without_mark(text: &str) -> (&str, &str) {
    match text.strip_prefix(MARK) {
        Some(rest) => (MARK, rest),
        None => ("", text),
    }
}

/// A text read once, for many edits of which each is made on it alone.
#[derive(Debug, Clone)]
pub struct Editable<'t> {
    text: &'t str,
    document: DocumentMut,
}

impl<'t> Editable<'t> {
    /// Reads a text.
    ///
    /// # Errors
    /// [`EditError::Syntax`] if it is not TOML.
    pub fn new(text: &'t str) -> Result<Self, EditError> {
        let syntax = |error: toml_edit::TomlError| EditError::Syntax(error.message().to_string());
        let document = without_mark(text).1.parse().map_err(syntax)?;
        Ok(Editable { text, document })
    }

    /// As [`apply`], without reading the text again.
    ///
    /// # Errors
    /// As [`apply`].
    pub fn apply(&self, edit: &Edit) -> Result<String, EditError> {
        if edit.changes.is_empty() || edit.changes.iter().any(|(_, change)| is_lines(change)) {
            return apply(self.text, edit);
        }
        changed(self.text, self.document.clone(), &edit.changes)
    }
}

fn is_lines(change: &Change) -> bool {
    matches!(change, Change::Lines { .. })
}

fn words(path: &[EditStep]) -> String {
    let steps = path.iter().map(|step| match step {
        EditStep::Key(key) => key.clone(),
        EditStep::Index(index) => format!("[{index}]"),
    });
    steps.collect::<Vec<_>>().join(".")
}

/// A place in the document that a change can act on.
enum Place<'d> {
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

fn step<'d>(place: Place<'d>, to: &EditStep) -> Option<Place<'d>> {
    match (place, to) {
        (Place::Table(table), EditStep::Key(key)) => table.get_mut(key).map(place_of_item),
        (Place::Inline(table), EditStep::Key(key)) => table.get_mut(key).map(place_of_value),
        (Place::Array(array), EditStep::Index(index)) => array.get_mut(*index).map(place_of_value),
        (Place::Tables(tables), EditStep::Index(index)) => tables.get_mut(*index).map(Place::Table),
        _ => None,
    }
}

fn apply_one(document: &mut DocumentMut, path: &[EditStep], change: &Change) -> Result<(), EditError> {
    let Some((last, parents)) = path.split_last() else { return Err(EditError::EmptyPath) };
    match change {
        Change::Expect(expected) => expect::check(document, path, expected.as_deref())?,
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
fn descend<'d>(
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

fn read_value(text: &str) -> Result<Value, EditError> {
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

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "# site\n[runs]\na = { from = \"D1.1\", to = [\"A-1\", \"A-2\"], spacing = \"5 m\" } # riser\nb = { from = \"D1.2\", length   =   \"9 m\" }\n";

    fn edited(text: &str, edit: Edit) -> String {
        apply(text, &edit).unwrap_or_else(|error| panic!("{error}"))
    }

    #[test]
    fn nothing_changes_nothing() {
        for text in [TEXT, "", "not = [ toml", "x = 1\r\n"] {
            assert_eq!(edited(text, Edit::default()), text);
        }
        assert_eq!(edited(TEXT, Edit::set(&["runs", "b", "length"], "\"9 m\"")), TEXT);
    }

    #[test]
    fn a_value_is_set_in_its_place() {
        assert_eq!(
            edited(TEXT, Edit::set(&["runs", "b", "length"], "\"11 m\"")),
            TEXT.replace("\"9 m\"", "\"11 m\"")
        );
        assert_eq!(
            edited(TEXT, Edit::set(&["runs", "a", "cable"], "\"flex-1.0\"")),
            TEXT.replace("spacing = \"5 m\" }", "spacing = \"5 m\", cable = \"flex-1.0\" }")
        );
    }

    #[test]
    fn line_ends_stay() {
        let text = TEXT.replace('\n', "\r\n");
        let after = edited(&text, Edit::set(&["runs", "b", "length"], "\"11 m\""));
        assert_eq!(after, text.replace("\"9 m\"", "\"11 m\""));
    }

    #[test]
    fn items_are_inserted_and_removed() {
        let insert = |at, value: &str| Edit::one(&["runs", "a", "to"], Change::Insert(at, value.into()));
        assert!(edited(TEXT, insert(2, "\"A-3\"")).contains("[\"A-1\", \"A-2\", \"A-3\"]"));
        assert!(edited(TEXT, insert(0, "\"A-0\"")).contains("[\"A-0\", \"A-1\", \"A-2\"]"));
        assert!(edited(TEXT, insert(1, "\"A-1b\"")).contains("[\"A-1\", \"A-1b\", \"A-2\"]"));
        let remove =
            Edit { changes: vec![(vec!["runs".into(), "a".into(), "to".into(), 0.into()], Change::Remove)] };
        assert!(edited(TEXT, remove).contains("[\"A-2\"]"));
        assert!(!edited(TEXT, Edit::remove(&["runs", "a"])).contains("riser"));
        assert_eq!(
            edited(TEXT, Edit::remove(&["runs", "a", "spacing"])),
            TEXT.replace(", spacing = \"5 m\"", "")
        );
        assert_eq!(edited(TEXT, Edit::remove(&["runs", "b", "from"])), TEXT.replace(" from = \"D1.2\",", ""));
        let lines = "to = [\n  \"a\",\n  \"b\",\n]\n";
        let after = edited(lines, Edit::one(&["to"], Change::Insert(2, "\"c\"".into())));
        assert_eq!(after, "to = [\n  \"a\",\n  \"b\",\n  \"c\",\n]\n");
    }

    #[test]
    fn tables_are_appended_and_made_on_the_way() {
        let accept = Change::AppendTable("code = \"silenced-group\"\nreason = \"agreed\"".into());
        let once = edited(TEXT, Edit::one(&["accept"], accept.clone()));
        assert_eq!(once, format!("{TEXT}\n[[accept]]\ncode = \"silenced-group\"\nreason = \"agreed\"\n"));
        let twice = edited(&once, Edit::one(&["accept"], accept));
        assert_eq!(twice.matches("[[accept]]").count(), 2);
        let policy = edited(TEXT, Edit::set(&["policy", "spare_ports"], "1"));
        assert!(policy.ends_with("[policy]\nspare_ports = 1\n"), "{policy}");
        let dwelling = edited(TEXT, Edit::set(&["dwellings", "A-9"], "{ place = \"A/1\" }"));
        assert!(dwelling.contains("[dwellings]\nA-9 = { place = \"A/1\" }\n"), "{dwelling}");
    }

    #[test]
    fn names_change_in_place() {
        let after = edited(TEXT, Edit::one(&["runs", "a"], Change::Rename("A riser".into())));
        assert_eq!(after, TEXT.replace("\na = ", "\n\"A riser\" = "));
        let taken = apply(TEXT, &Edit::one(&["runs", "a"], Change::Rename("b".into())));
        assert_eq!(taken, Err(EditError::NameTaken("runs.b".into())));
    }

    #[test]
    fn every_line_keeps_its_own_end() {
        let mixed = TEXT.split_inclusive('\n').enumerate().fold(String::new(), |text, (at, line)| {
            text + &if at % 3 == 0 { line.replace('\n', "\r\n") } else { line.to_string() }
        });
        let after = edited(&mixed, Edit::one(&["runs", "a"], Change::Rename("c".into())));
        let ends =
            |text: &str| text.split_inclusive('\n').map(|line| line.ends_with("\r\n")).collect::<Vec<_>>();
        assert_eq!(after.replace('\r', ""), TEXT.replace("\na = ", "\nc = "));
        assert_eq!(ends(&after), ends(&mixed));
        // A new line ends as the one before it, and what stood around it stays.
        let longer = edited(&mixed, Edit::set(&["policy", "spare_ports"], "1"));
        assert!(longer.starts_with(&mixed), "{longer:?}");
        assert!(longer.ends_with("[policy]\r\nspare_ports = 1\r\n"), "{longer:?}");
    }

    #[test]
    fn a_text_that_was_read_once_is_edited_as_if_it_were_read_each_time() {
        let edits = [
            Edit::set(&["runs", "b", "length"], "\"11 m\""),
            Edit::set(&["runs", "c"], "{ from = \"D1.3\", to = \"A-3\" }").then(Edit::remove(&["runs", "b"])),
            Edit::remove(&["runs", "none"]),
            Edit::default(),
            Edit::lines(0, "# site\n", "# house\n"),
        ];
        for text in [TEXT.to_string(), format!("\u{feff}{}", TEXT.replace('\n', "\r\n"))] {
            let read = Editable::new(&text).unwrap();
            for edit in &edits {
                assert_eq!(read.apply(edit), apply(&text, edit), "{edit:?}");
            }
        }
        assert!(matches!(Editable::new("x = ["), Err(EditError::Syntax(_))));
    }

    #[test]
    fn what_is_not_there_is_refused() {
        let refused = |path: &[&str], change: Change| apply(TEXT, &Edit::one(path, change)).unwrap_err();
        assert_eq!(refused(&["runs", "c"], Change::Remove), EditError::NoSuchPlace("runs.c".into()));
        assert_eq!(refused(&[], Change::Remove), EditError::EmptyPath);
        assert_eq!(
            refused(&["runs", "b", "length", "x"], Change::Set("1".into())),
            EditError::WrongPlace("runs.b.length.x".into())
        );
        assert_eq!(
            refused(&["runs", "a", "to"], Change::Insert(7, "1".into())),
            EditError::NoSuchPlace("runs.a.to.[7]".into())
        );
        assert_eq!(refused(&["runs", "a"], Change::Set("]".into())), EditError::BadValue("]".into()));
        assert!(matches!(apply("x = [", &Edit::remove(&["x"])), Err(EditError::Syntax(_))));
    }
}
