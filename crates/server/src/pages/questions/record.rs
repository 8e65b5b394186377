//! The record of questions: who asked, what was answered, on what it rests, when; found again by its words, deleted by one click.

use super::asked::{Answered, Kind, Question, answered, menu};
use super::battery::Battery;
use super::lock::Lock;
use super::mix::Mix;
use super::reach::Reach;
use super::switches::Switches;
use crate::archive::By;
use crate::engine::blocking;
use crate::locale::Reader;
use crate::office::Office;
use crate::pages::history::moment;
use crate::pages::shell::{Page, encoded};
use crate::refused::Refused;
use axum::Json;
use axum::extract::{Path, Query, State};
use axum::http::Uri;
use axum::response::Html;
use latchline_finding::Locale;
use latchline_store::{Answer, Number};
use latchline_words::office::{Label, OfficeRefusal, Told};
use maud::{Markup, html};
use serde::Deserialize;
use serde_json::{Value, json};
use std::sync::Arc;

/// Answers of one page of the list.
const MOST_LISTED: usize = 50;

/// What a page keeps: the answer is worked out again from its address, never taken from the page.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Keep {
    /// Made by the page, used once.
    id: String,
    /// Address of the answer.
    address: String,
    /// Who asked, as it was typed; may be empty.
    who: String,
}

async fn again<Q: Question>(
    office: &Office,
    uri: &Uri,
    locale: Locale,
) -> Result<(Answered, String), Refused> {
    let Query(asked) = Query::<Q>::try_from_uri(uri).map_err(|error| {
        Refused::Unfit(OfficeRefusal::AddressNotUnderstood { message: &error.to_string() }.both())
    })?;
    answered(office, asked, locale).await
}

/// Keeps an answer.
pub(crate) async fn keep(
    State(office): State<Arc<Office>>,
    Reader(locale): Reader,
    Json(keep): Json<Keep>,
) -> Result<Json<Value>, Refused> {
    let uri: Uri = keep.address.parse().map_err(|_| Refused::NotFound)?;
    let kind = Kind::of_path(uri.path()).filter(|_| uri.host().is_none()).ok_or(Refused::NotFound)?;
    let (answered, catalogue) = match kind {
        Kind::Reach => again::<Reach>(&office, &uri, locale).await,
        Kind::Lock => again::<Lock>(&office, &uri, locale).await,
        Kind::Battery => again::<Battery>(&office, &uri, locale).await,
        Kind::Mix => again::<Mix>(&office, &uri, locale).await,
        Kind::Switches => again::<Switches>(&office, &uri, locale).await,
    }?;
    let language = locale.language;
    let mut question = vec![kind.label().say(language).to_string()];
    question.extend(answered.question.iter().map(|(label, value)| format!("{label}: {value}")));
    question.push(keep.address);
    let mut lines = answered.lines.into_iter();
    let by = By { client: "questions", at_ms: (office.options.clock)() };
    let answer = Answer {
        id: keep.id,
        site: None,
        asked_by: keep.who.trim().to_string(),
        question: question.join("\n"),
        answer: lines.next().unwrap_or_default(),
        assumptions: lines.collect::<Vec<_>>().join("\n"),
        catalogue,
        signed: office.archive.signed(&by, ""),
    };
    let number = blocking(move || Ok(office.archive.store().keep_answer(&answer)?)).await?;
    let told = Told::KeptAs { number: usize::try_from(number.0).unwrap_or_default() }.say(language);
    Ok(Json(json!({ "number": number.0, "told": told, "record": format!("/questions/record/{}", number.0) })))
}

/// What is looked for.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub(crate) struct Sought {
    words: String,
    below: Option<i64>,
}

/// The list, the newest first.
pub(crate) async fn list(
    State(office): State<Arc<Office>>,
    Reader(locale): Reader,
    Query(sought): Query<Sought>,
) -> Result<Html<String>, Refused> {
    let language = locale.language;
    let say = |label: Label| label.say(language);
    let words = sought.words.trim().to_string();
    let found = blocking({
        let (office, words) = (Arc::clone(&office), words.clone());
        move || Ok(office.archive.store().find_answers(&words, sought.below.map(Number), MOST_LISTED)?)
    })
    .await?;
    let older = found.last().filter(|_| found.len() == MOST_LISTED).map(|(number, _)| number.0);
    let none = if words.is_empty() { Label::NothingKept } else { Label::NoAnswerFound };
    let here = format!("/questions/record?words={}", encoded(&words));
    let content = html! {
        div.ask {
            section.panel { (menu(None, language)) }
            section.panel {
                h1 { (say(Label::Record)) }
                @if !office.options.keeps_record { p.hint { (say(Label::RecordOfDemo)) } }
                p.notice #notice role="alert" tabindex="-1" hidden {}
                form.keep method="get" action="/questions/record" role="search" {
                    div.field { label for="words" { (say(Label::FindAnswer)) } input #words type="search" name="words" value=(words) maxlength="200" autocomplete="off"; }
                    button type="submit" { (say(Label::Search)) }
                }
                @if found.is_empty() { p.quiet { (say(none)) } }
                @else {
                    div.scroll tabindex="0" role="region" aria-label=(say(Label::Record)) {
                        table.list {
                            thead { tr { th scope="col" { (say(Label::When)) } th scope="col" { (say(Label::AskedBy)) } th scope="col" { (say(Label::AnswerGiven)) } th scope="col" { (say(Label::Delete)) } } }
                            tbody { @for (number, answer) in &found { (row(*number, answer, locale)) } }
                        }
                    }
                    @if let Some(older) = older {
                        p { a href={ "/questions/record?words=" (encoded(&words)) "&below=" (older) } { (say(Label::Older)) } }
                    }
                }
            }
        }
    };
    Ok(around(&office, say(Label::Record), &here, locale, &content))
}

/// Whether a line of a kept question is the address of its answer.
fn is_address(line: &str) -> bool {
    line.starts_with("/questions")
}

/// What was asked, line by line.
fn asked(answer: &Answer) -> Vec<&str> {
    answer.question.lines().filter(|line| !is_address(line)).collect()
}

fn row(number: Number, answer: &Answer, locale: Locale) -> Markup {
    let say = |label: Label| label.say(locale.language);
    html! {
        tr data-answer=(number.0) {
            td { (moment(answer.signed.at_ms, locale)) }
            td { (if answer.asked_by.is_empty() { "–" } else { &answer.asked_by }) }
            td { a href={ "/questions/record/" (number.0) } { (answer.answer) } br; span.quiet { (asked(answer).join(" · ")) } }
            td { button type="button" data-delete=(number.0) aria-label={ (say(Label::Delete)) " " (number.0) } { (say(Label::Delete)) } }
        }
    }
}

fn around(office: &Office, title: &str, here: &str, locale: Locale, content: &Markup) -> Html<String> {
    let page = Page { title, of: Label::Questions, class: "questions", script: "pages.js", here, locale };
    page.around(office, content)
}

/// One answer, for half a page of paper.
pub(crate) async fn one(
    State(office): State<Arc<Office>>,
    Path(number): Path<i64>,
    Reader(locale): Reader,
) -> Result<Html<String>, Refused> {
    let language = locale.language;
    let say = |label: Label| label.say(language);
    let answer = blocking({
        let office = Arc::clone(&office);
        move || Ok(office.archive.store().answer(Number(number))?)
    })
    .await?;
    let title = Told::AnswerNumber { number: usize::try_from(number).unwrap_or_default() }.say(language);
    let address = answer.question.lines().find(|line| is_address(line));
    let engine = Told::WithEngine { version: &answer.signed.engine }.say(language);
    let content = html! {
        div.ask {
            section.panel { (menu(None, language)) }
            section.panel.half {
                p.no-print { a href="/questions/record" { "← " (say(Label::Record)) } }
                p.notice #notice role="alert" tabindex="-1" hidden {}
                h1 { (title) }
                p.quiet {
                    (moment(answer.signed.at_ms, locale))
                    @if !answer.asked_by.is_empty() { " · " (say(Label::AskedBy)) " " strong { (answer.asked_by) } }
                }
                p.sentence { (answer.answer) }
                h2 { (say(Label::Question)) }
                p.lines { (asked(&answer).join("\n")) }
                @if !answer.assumptions.is_empty() { h2 { (say(Label::RestsOn)) } p.lines { (answer.assumptions) } }
                p.quiet.source { (say(Label::Catalogue)) ": " (answer.catalogue) "; " (engine) }
                p.quiet { (say(Label::Caution)) }
                div.buttons.no-print {
                    button type="button" data-print { (say(Label::Print)) }
                    @if let Some(address) = address { a.button href=(address) { (say(Label::AskAgain)) } }
                    button type="button" data-delete=(number) { (say(Label::Delete)) }
                }
            }
        }
    };
    Ok(around(&office, &title, &format!("/questions/record/{number}"), locale, &content))
}

/// Which answer.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Which {
    number: i64,
}

/// Deletes an answer.
pub(crate) async fn delete(
    State(office): State<Arc<Office>>,
    Json(which): Json<Which>,
) -> Result<Json<Value>, Refused> {
    blocking(move || Ok(office.archive.store().delete_answer(Number(which.number))?)).await?;
    Ok(Json(json!({ "deleted": which.number })))
}
