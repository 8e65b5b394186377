//! Edits to the text of a site file. Comments, order, layout and line ends stay as they are.

mod document;
mod error;
mod expect;
mod found;
mod line_ends;
mod lines;
mod places;
mod quoted;
pub(crate) mod tree;
mod values;

pub use error::EditError;
pub use expect::{Unmet, expecting, unmet};
pub use lines::difference;
pub use places::{Places, apply_at};
pub use quoted::quoted;
pub use values::{is_toml, merge_values, value_difference};

use document::apply_one;
use latchline_finding::{Change, Edit, EditStep};
use std::borrow::Cow;
use toml_edit::DocumentMut;

/// The byte order mark that some editors put before a text.
const MARK: &str = "\u{feff}";

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
    /// What stands at a path, as TOML text on its own; `None` if nothing does.
    pub fn value_at(&self, path: &[EditStep]) -> Option<String> {
        found::found(&self.document, path)
    }

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
