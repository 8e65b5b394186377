//! Edits as they come from a page, and what they would do.

use crate::archive::{By, conflict};
use crate::change::{Asked, Ground, Meant};
use crate::engine::{arrive, blocking, opened};
use crate::locale::Reader;
use crate::office::Office;
use crate::refused::Refused;
use crate::work::{State as SiteState, Work};
use axum::Json;
use axum::extract::{Path, State};
use latchline_finding::{Finding, Language, Locale, Remedy};
use latchline_report::wording;
use latchline_session::View;
use latchline_site::edit;
use latchline_store::{FileChange, Number, Outcome, Proposal};
use latchline_words::codes;
use latchline_words::office::{OfficeRefusal, Told};
use serde::Deserialize;
use serde_json::{Value, json};
use std::sync::Arc;

/// An edit as a page sends it.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Sent {
    /// Made by the page, used once.
    id: String,
    /// The page: what it did it can take back.
    client: String,
    /// The revision that the page showed.
    base: i64,
    /// What is asked for.
    change: Asked,
}

/// Works on a site, off the threads that answer, and says which revision came of it.
async fn revised(
    office: Arc<Office>,
    name: &str,
    make: impl FnOnce(&Arc<Office>, &Arc<Work>, &SiteState) -> Result<i64, Refused> + Send + 'static,
) -> Result<Json<Value>, Refused> {
    let (work, state) = opened(&office, name).await?;
    let number = blocking(move || make(&office, &work, &state)).await?;
    Ok(Json(json!({ "revision": number })))
}

/// Makes an edit: a revision, or why not.
pub(crate) async fn edit(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
    Json(sent): Json<Sent>,
) -> Result<Json<Value>, Refused> {
    let language = locale.language;
    revised(office, &name, move |office, work, state| {
        let by = By { client: &sent.client, at_ms: (office.options.clock)() };
        let (archive, name) = (&office.archive, &work.name);
        let outcome = match &sent.change {
            Asked::Text { text } => {
                let note = Told::TextEdited.say(language);
                let change = FileChange::Write(text.clone());
                archive.change(name, &sent.id, sent.base, change, &note, &by)?
            }
            Asked::BringBack { number } => {
                let note =
                    Told::BroughtBack { number: usize::try_from(*number).unwrap_or_default() }.say(language);
                let proposal = Proposal::BringBack { base: Number(sent.base), revision: Number(*number) };
                archive.submit(name, &sent.id, proposal, &note, &by)?
            }
            asked => {
                let meant = meant(&base_view(work, sent.base), state, asked, language)?;
                let change = FileChange::Edit(meant.edit);
                archive.change(name, &sent.id, sent.base, change, &meant.note, &by)?
            }
        };
        done(office, work, outcome)
    })
    .await
}

/// Goes to what came of a submission.
fn done(office: &Arc<Office>, work: &Arc<Work>, outcome: Outcome) -> Result<i64, Refused> {
    match outcome {
        Outcome::Accepted(revision) | Outcome::Unchanged(revision) => {
            // What is accepted is in the store; how the file stands is told beside it.
            office.archive.settle(&work.name, (office.options.clock)())?;
            arrive(office, work)?;
            Ok(revision.number.0)
        }
        Outcome::Conflict(met) => Err(conflict(&met)),
    }
}

/// The view that a page made its edit on; the newest if it is too old to be known, and the store then says what no longer fits.
fn base_view(work: &Work, base: i64) -> View {
    work.view_of(base).unwrap_or_else(|| work.view().1)
}

fn meant(base: &View, state: &SiteState, asked: &Asked, language: Language) -> Result<Meant, Refused> {
    if let Asked::Remedy { element, .. } | Asked::Job { element, .. } = asked {
        let (_, remedy) = remedy(state, asked).ok_or(Refused::NotFound)?;
        let note = Told::Remedied { element }.say(language);
        return Ok(Meant { edit: remedy.edit.clone(), note });
    }
    let site = base.site().ok_or(Refused::Unfit(OfficeRefusal::TextNotUsable.both()))?;
    let values: toml::Table =
        toml::from_str(base.text()).map_err(|_| Refused::Unfit(OfficeRefusal::TextNotUsable.both()))?;
    let ground = Ground { site, values: &values, language };
    ground.meant(asked).map_err(Refused::Unfit)
}

/// The remedy that is asked for: of a finding, or of a job.
fn remedy<'s>(state: &'s SiteState, asked: &Asked) -> Option<(&'s Finding, &'s Remedy)> {
    let is = |finding: &Finding, code: &str, element: &str| {
        finding.code.as_str() == code
            && finding.element.as_ref().map_or("", |found| found.as_str()) == element
    };
    match asked {
        Asked::Remedy { code, element, remedy } => {
            let mut all = state.findings.iter();
            let finding = all.find(|one| is(one, code, element) && !one.remedies.is_empty())?;
            Some((finding, finding.remedies.get(*remedy)?))
        }
        Asked::Job { code, element } => {
            let (jobs, assessment) = (state.jobs.as_ref()?, state.assessment.as_ref()?);
            jobs.jobs.iter().find_map(|job| {
                let first = &assessment.findings[*jobs.causes[*job.causes.first()?].findings.first()?];
                Some((first, &job.change.as_ref().filter(|_| is(first, code, element))?.remedy))
            })
        }
        _ => None,
    }
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
        let meant = meant(&base_view(&work, sent.base), &state, &sent.change, locale.language)?;
        let text =
            edit::apply(state.view.text(), &meant.edit).map_err(|error| Refused::Unfit(error.both()))?;
        let note = meant.note;
        let (before, after) = differing_lines(state.view.text(), &text);
        let (head, says) = match &sent.change {
            Asked::Remedy { .. } | Asked::Job { .. } => of_remedy(&state, &sent.change, locale),
            _ => (note, String::new()),
        };
        Ok(json!({ "head": head, "says": says, "before": before, "after": after }))
    })
    .await?;
    Ok(Json(told))
}

fn of_remedy(state: &SiteState, asked: &Asked, locale: Locale) -> (String, String) {
    let language = locale.language;
    let Some((finding, remedy)) = remedy(state, asked) else { return Default::default() };
    let head = codes::sentence(finding, language);
    let currency =
        state.view.site().map(|site| site.catalogue.currency.as_str()).filter(|word| !word.is_empty());
    let says = wording::capital(&wording::remedy(remedy, currency, language));
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

/// Which page turns back or forth.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Turn {
    id: String,
    client: String,
}

/// Takes the page's last change back.
pub(crate) async fn undo(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
    Json(turn): Json<Turn>,
) -> Result<Json<Value>, Refused> {
    turned(office, &name, turn, Proposal::Undo, locale.language).await
}

/// Makes it again.
pub(crate) async fn redo(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
    Json(turn): Json<Turn>,
) -> Result<Json<Value>, Refused> {
    turned(office, &name, turn, Proposal::Redo, locale.language).await
}

async fn turned(
    office: Arc<Office>,
    name: &str,
    turn: Turn,
    proposal: Proposal,
    language: Language,
) -> Result<Json<Value>, Refused> {
    revised(office, name, move |office, work, _| {
        let by = By { client: &turn.client, at_ms: (office.options.clock)() };
        let is_back = proposal == Proposal::Undo;
        let what = office.archive.note_of_turn(&work.name, &turn.client, is_back)?;
        let told = if is_back { Told::Undone { what: &what } } else { Told::Redone { what: &what } };
        let outcome = office.archive.submit(&work.name, &turn.id, proposal, &told.say(language), &by)?;
        done(office, work, outcome)
    })
    .await
}

/// Which change of another program is passed over.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Passed {
    aside: i64,
}

/// Keeps what was changed here where another program changed the file too, and writes it over the file.
pub(crate) async fn pass_over(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Json(passed): Json<Passed>,
) -> Result<Json<Value>, Refused> {
    revised(office, &name, move |office, work, _| {
        office.archive.pass_over(&work.name, passed.aside)?;
        office.archive.settle(&work.name, (office.options.clock)())?;
        arrive(office, work)?;
        work.nudge();
        Ok(office.archive.head(&work.name)?.revision.number.0)
    })
    .await
}
