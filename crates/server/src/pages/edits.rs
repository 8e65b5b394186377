//! Edits as they come from a page, and what they would do.

use crate::change::{Asked, Ground, Meant};
use crate::locale::Reader;
use crate::office::Office;
use crate::refused::Refused;
use crate::routes::{blocking, opened};
use crate::work::{self, State as SiteState, Step, Work};
use axum::Json;
use axum::extract::{Path, State};
use latchline_finding::{Finding, Language, Locale};
use latchline_report::wording;
use latchline_session::View;
use latchline_site::edit;
use latchline_words::codes;
use latchline_words::office::Told;
use serde::Deserialize;
use serde_json::{Value, json};
use std::sync::Arc;

/// An edit as a page sends it.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Sent {
    /// Made by the page, used once.
    id: String,
    /// The revision that the page showed.
    base: i64,
    /// What is asked for.
    change: Asked,
}

/// Longest id.
const LONGEST_ID: usize = 100;

/// Makes an edit: a revision, or why not.
pub(crate) async fn edit(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
    Json(sent): Json<Sent>,
) -> Result<Json<Value>, Refused> {
    if sent.id.is_empty() || sent.id.len() > LONGEST_ID || sent.id.chars().any(char::is_control) {
        return Err(Refused::Unfit(String::from("The id of the edit cannot be used.")));
    }
    let (work, state) = opened(&office, &name).await?;
    if let Some(number) = office.archive.answered(&name, &sent.id) {
        return Ok(Json(json!({ "revision": number })));
    }
    let number = blocking(move || {
        let (text, note) = applied(&office, &work, &state, &sent, locale.language)?;
        work::append(&office, &work, &Step { id: &sent.id, text, note: &note })
    })
    .await?;
    Ok(Json(json!({ "revision": number })))
}

/// The text that an edit leads to, and what it changes in words.
fn applied(
    office: &Office,
    work: &Work,
    state: &SiteState,
    sent: &Sent,
    language: Language,
) -> Result<(String, String), Refused> {
    let (_, newest) = work.view();
    let base = work.view_of(sent.base).unwrap_or_else(|| newest.clone());
    match &sent.change {
        Asked::Text { text } => {
            let change = edit::difference(base.text(), text);
            let text = edit::apply(newest.text(), &change).map_err(|error| conflict(&error, language))?;
            Ok((text, Told::TextEdited.say(language)))
        }
        Asked::BringBack { number } => {
            let revision = office.archive.revision(&work.name, *number).ok_or(Refused::NotFound)?;
            let told = Told::BroughtBack { number: usize::try_from(*number).unwrap_or_default() };
            Ok((revision.text.to_string(), told.say(language)))
        }
        asked => {
            let meant = meant(&base, state, asked, language)?;
            let change = edit::expecting(base.text(), &meant.edit).map_err(|error| conflict(&error, language))?;
            let text = edit::apply(newest.text(), &change).map_err(|error| conflict(&error, language))?;
            Ok((text, meant.note))
        }
    }
}

fn conflict(error: &edit::EditError, language: Language) -> Refused {
    match error {
        edit::EditError::Changed(place) => Refused::Conflict(Told::Conflict { place }.say(language)),
        edit::EditError::NameTaken(name) => Refused::Unfit(Told::NameTaken { name }.say(language)),
        other => Refused::Unfit(other.to_string()),
    }
}

fn meant(base: &View, state: &SiteState, asked: &Asked, language: Language) -> Result<Meant, Refused> {
    if let Asked::Remedy { code, element, remedy } = asked {
        let finding = finding(state, code, element).ok_or(Refused::NotFound)?;
        let found = finding.remedies.get(*remedy).ok_or(Refused::NotFound)?;
        let note = Told::Remedied { element }.say(language);
        return Ok(Meant { edit: found.edit.clone(), note });
    }
    let site = base.site().ok_or(Refused::Unfit(String::from("The text cannot be used as it is.")))?;
    let values: toml::Table = toml::from_str(base.text()).map_err(|error| Refused::Unfit(error.to_string()))?;
    let ground = Ground { site, values: &values, language };
    ground.meant(asked).map_err(Refused::Unfit)
}

fn finding<'s>(state: &'s SiteState, code: &str, element: &str) -> Option<&'s Finding> {
    let is_it = |finding: &&Finding| {
        finding.code.as_str() == code
            && finding.element.as_ref().map_or("", |found| found.as_str()) == element
            && !finding.remedies.is_empty()
    };
    state.findings.iter().find(is_it)
}

/// What an edit would change: words, and the lines before and after.
pub(crate) async fn preview(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
    Json(sent): Json<Sent>,
) -> Result<Json<Value>, Refused> {
    let (work, state) = opened(&office, &name).await?;
    let told = blocking(move || {
        let (text, note) = applied(&office, &work, &state, &sent, locale.language)?;
        let (before, after) = differing_lines(state.view.text(), &text);
        let (head, says) = match &sent.change {
            Asked::Remedy { code, element, remedy } => of_remedy(&state, code, element, *remedy, locale),
            _ => (note, String::new()),
        };
        Ok(json!({ "head": head, "says": says, "before": before, "after": after }))
    })
    .await?;
    Ok(Json(told))
}

fn of_remedy(state: &SiteState, code: &str, element: &str, number: usize, locale: Locale) -> (String, String) {
    let language = locale.language;
    let Some(finding) = finding(state, code, element) else { return Default::default() };
    let Some(remedy) = finding.remedies.get(number) else { return Default::default() };
    let head = wording::capital(&codes::wording(finding, language).message);
    let says = wording::capital(&wording::remedy(remedy, language));
    (head, format!("{says}. {}", Told::CheckFirst.say(language)))
}

/// The lines that differ, without what is the same before and after them.
pub(crate) fn differing_lines(before: &str, after: &str) -> (Vec<String>, Vec<String>) {
    let (old, new): (Vec<&str>, Vec<&str>) = (before.lines().collect(), after.lines().collect());
    let mut out = (Vec::new(), Vec::new());
    // A change touches few lines: those of one text that the other has not, in order.
    let in_new: std::collections::BTreeSet<&str> = new.iter().copied().collect();
    let in_old: std::collections::BTreeSet<&str> = old.iter().copied().collect();
    out.0.extend(old.iter().filter(|line| !in_new.contains(*line)).map(|line| (*line).to_string()));
    out.1.extend(new.iter().filter(|line| !in_old.contains(*line)).map(|line| (*line).to_string()));
    out
}

/// Takes the last change back.
pub(crate) async fn undo(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
) -> Result<Json<Value>, Refused> {
    turn(office, name, true, locale.language).await
}

/// Makes it again.
pub(crate) async fn redo(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
) -> Result<Json<Value>, Refused> {
    turn(office, name, false, locale.language).await
}

async fn turn(office: Arc<Office>, name: String, back: bool, language: Language) -> Result<Json<Value>, Refused> {
    let (work, _) = opened(&office, &name).await?;
    let number = blocking(move || {
        let say = |what: &str| if back { Told::Undone { what } } else { Told::Redone { what } }.say(language);
        let now = (office.options.clock)();
        let revision = office.archive.turn(&work.name, back, say, now).ok_or(Refused::NotFound)?;
        work::arrive(&office, &work, &revision)
    })
    .await?;
    Ok(Json(json!({ "revision": number })))
}
