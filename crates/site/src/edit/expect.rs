//! What an edit expects to find.

use super::document::apply_one;
use super::error::{EditError, words};
use super::found::{check, found, read};
use latchline_finding::{Change, Edit, EditStep};

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
