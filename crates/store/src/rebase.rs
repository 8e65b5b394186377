//! Bringing a change from the texts that it was made on to the texts of now.

use crate::StoreError;
use crate::merge::{Meeting, merge};
use crate::submission::{Clash, FileChange};
use crate::texts::Texts;
use latchline_finding::Edit;
use latchline_site::edit::{self, EditError};
use std::collections::BTreeSet;

/// A change that does not go together with what is there now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Refused {
    /// Where the two meet.
    pub clashes: Vec<Clash>,
    /// What the change makes of its base.
    pub wanted: Option<Texts>,
}

impl Refused {
    /// The head is no longer the one that was seen.
    pub fn moved(wanted: &Texts) -> Self {
        let reason = "the site has changed since; look at it as it is now, and bring the old state back then";
        let clash = Clash {
            path: wanted.site_path().to_string(),
            place: String::new(),
            was: None,
            is: None,
            wanted: None,
            reason: reason.to_string(),
        };
        Refused { clashes: vec![clash], wanted: Some(wanted.clone()) }
    }
}

/// The head with changes of files that were made on the base.
pub(crate) fn bring_files(
    base: &Texts,
    head: &Texts,
    files: &[(String, FileChange)],
) -> Result<Result<Texts, Refused>, StoreError> {
    let made = applied(base, base, files)?;
    if base == head {
        return Ok(made.map_err(|clashes| Refused { clashes, wanted: None }));
    }
    // What does not fit its own base is no change of it, wherever it would fit by chance.
    let wanted = match made {
        Ok(wanted) => wanted,
        Err(clashes) => return Ok(Err(Refused { clashes, wanted: None })),
    };
    Ok(applied(base, head, files)?.map_err(|clashes| Refused { clashes, wanted: Some(wanted) }))
}

fn applied(
    base: &Texts,
    head: &Texts,
    files: &[(String, FileChange)],
) -> Result<Result<Texts, Vec<Clash>>, StoreError> {
    let mut base = base.clone();
    let mut texts = head.clone();
    let mut clashes = Vec::new();
    for (path, change) in files {
        let was = base.get(path).cloned();
        let is = texts.get(path).cloned();
        match change {
            FileChange::Edit(change) => {
                match edited(path, was.as_deref(), is.as_deref(), change) {
                    Ok(text) => texts.put(path, text)?,
                    Err(found) => clashes.extend(found),
                }
                // What follows in the same submission was made on what this made of the base.
                if let Some(text) = was.as_deref().and_then(|was| edit::apply(was, change).ok()) {
                    base.put(path, text)?;
                }
            }
            FileChange::Write(text) => {
                match merged(path, was.as_deref(), is.as_deref(), Some(text)) {
                    Ok(Some(merged)) => texts.put(path, merged)?,
                    Ok(None) => texts.take_out(path)?,
                    Err(found) => clashes.extend(found),
                }
                base.put(path, text.as_str())?;
            }
            FileChange::Remove => {
                match merged(path, was.as_deref(), is.as_deref(), None) {
                    Ok(Some(merged)) => texts.put(path, merged)?,
                    Ok(None) => texts.take_out(path)?,
                    Err(found) => clashes.extend(found),
                }
                base.take_out(path)?;
            }
        }
    }
    Ok(if clashes.is_empty() { Ok(texts) } else { Err(clashes) })
}

/// Takes back what made `after` of `before`, and keeps what else is in the head.
pub(crate) fn take_back(
    after: &Texts,
    before: &Texts,
    head: &Texts,
) -> Result<Result<Texts, Refused>, StoreError> {
    Ok(merge_all(after, head, before)?.map_err(|clashes| Refused { clashes, wanted: Some(before.clone()) }))
}

/// Two sides of a base, file by file; files of `ours` keep their places.
pub(crate) fn merge_all(
    base: &Texts,
    ours: &Texts,
    theirs: &Texts,
) -> Result<Result<Texts, Vec<Clash>>, StoreError> {
    let mut texts = ours.clone();
    let mut clashes = Vec::new();
    let paths: BTreeSet<&str> = base.files().chain(theirs.files()).map(|(path, _)| path).collect();
    for path in paths {
        let text = |texts: &Texts| texts.get(path).cloned();
        let (was, is, wanted) = (text(base), text(ours), text(theirs));
        match merged(path, was.as_deref(), is.as_deref(), wanted.as_deref()) {
            Ok(Some(merged)) => texts.put(path, merged)?,
            Ok(None) => texts.take_out(path)?,
            Err(found) => clashes.extend(found),
        }
    }
    Ok(if clashes.is_empty() { Ok(texts) } else { Err(clashes) })
}

/// An edit of one file.
fn edited(path: &str, was: Option<&str>, is: Option<&str>, change: &Edit) -> Result<String, Vec<Clash>> {
    let whole = |reason: &str| {
        vec![Clash {
            path: path.to_string(),
            place: String::new(),
            was: None,
            is: None,
            wanted: None,
            reason: reason.to_string(),
        }]
    };
    let (Some(was), Some(is)) = (was, is) else { return Err(whole("the file is not there")) };
    let made = edit::expecting(was, change).and_then(|expecting| {
        edit::apply(is, &expecting)
            .map_err(|error| (expecting, error))
            .map_or_else(|(expecting, error)| Ok(Err((expecting, error))), |text| Ok(Ok(text)))
    });
    match made {
        Ok(Ok(text)) => Ok(text),
        Ok(Err((expecting, error))) => Err(clashes_of(path, is, &expecting, &error)),
        Err(error) => Err(clashes_of(path, was, change, &error)),
    }
}

fn clashes_of(path: &str, text: &str, change: &Edit, error: &EditError) -> Vec<Clash> {
    let reason = error.to_string();
    let unmet = edit::unmet(text, change).unwrap_or_default();
    let clashes: Vec<Clash> = unmet
        .into_iter()
        .map(|one| Clash {
            path: path.to_string(),
            place: one.place,
            was: one.expects,
            is: one.finds,
            wanted: one.puts,
            reason: reason.clone(),
        })
        .collect();
    if !clashes.is_empty() {
        return clashes;
    }
    let place = match error {
        EditError::NoSuchPlace(place)
        | EditError::WrongPlace(place)
        | EditError::Changed(place)
        | EditError::NameTaken(place) => place.clone(),
        EditError::Syntax(_) | EditError::BadValue(_) | EditError::EmptyPath => String::new(),
    };
    vec![Clash { path: path.to_string(), place, was: None, is: None, wanted: None, reason }]
}

/// Two sides of one file; no text: the file is not there.
fn merged(
    path: &str,
    was: Option<&str>,
    is: Option<&str>,
    wanted: Option<&str>,
) -> Result<Option<String>, Vec<Clash>> {
    let owned = |text: Option<&str>| text.map(String::from);
    if wanted == was || wanted == is {
        return Ok(owned(is));
    }
    if was == is {
        return Ok(owned(wanted));
    }
    let clash = |meeting: Option<Meeting>, reason: &str| Clash {
        path: path.to_string(),
        place: meeting.as_ref().map_or_else(String::new, |meeting| format!("line {}", meeting.line + 1)),
        was: meeting.as_ref().map_or_else(|| owned(was), |meeting| Some(meeting.base.clone())),
        is: meeting.as_ref().map_or_else(|| owned(is), |meeting| Some(meeting.ours.clone())),
        wanted: meeting.map_or_else(|| owned(wanted), |meeting| Some(meeting.theirs)),
        reason: reason.to_string(),
    };
    match (was, is, wanted) {
        (Some(was), Some(is), Some(wanted)) => merge(was, is, wanted).map(Some).map_err(|meetings| {
            let reason = "both changed the same lines";
            meetings.into_iter().map(|meeting| clash(Some(meeting), reason)).collect()
        }),
        (None, ..) => Err(vec![clash(None, "both added the file, with another text")]),
        (Some(_), None, _) => Err(vec![clash(None, "the file was removed meanwhile")]),
        (Some(_), Some(_), None) => Err(vec![clash(None, "the file was changed meanwhile")]),
    }
}
