//! The sites: list, and new ones from the demo, a form, a survey or a file.

use super::history::moment;
use super::shell::{Page, bar, encoded};
use crate::archive::By;
use crate::blank::Blank;
use crate::engine::blocking;
use crate::locale::{self, Reader};
use crate::office::Office;
use crate::printed;
use crate::refused::Refused;
use axum::Json;
use axum::body::Bytes;
use axum::extract::{Query, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE, LOCATION, SET_COOKIE};
use axum::http::{HeaderMap, HeaderValue, StatusCode};
use axum::response::{Html, IntoResponse, Redirect, Response};
use latchline_finding::Language;
use latchline_words::office::{Label, OfficeRefusal};
use maud::{Markup, html};
use serde::Deserialize;
use serde_json::{Value, json};
use std::sync::Arc;

/// The first page: the only site, or the list.
pub(crate) async fn first(State(office): State<Arc<Office>>) -> Result<Redirect, Refused> {
    let sites = blocking(move || office.archive.list()).await?;
    Ok(match sites.as_slice() {
        [site] => Redirect::to(&format!("/sites/{}", encoded(&site.name))),
        _ => Redirect::to("/sites"),
    })
}

/// The list.
pub(crate) async fn list(
    State(office): State<Arc<Office>>,
    Reader(locale): Reader,
) -> Result<Html<String>, Refused> {
    let language = locale.language;
    let say = |label: Label| label.say(language);
    let sites = blocking({
        let office = Arc::clone(&office);
        move || office.archive.list()
    })
    .await?;
    let page = Page {
        title: say(Label::Sites),
        of: Label::Sites,
        class: "plain",
        script: "pages.js",
        here: "/sites",
        locale,
    };
    let content = html! {
        section.sheet {
            h1 { (say(Label::Sites)) }
            @if !sites.is_empty() {
                div.scroll tabindex="0" role="region" aria-label=(say(Label::Sites)) {
                table.list {
                    thead { tr { th scope="col" { (say(Label::Site)) } th scope="col" { (say(Label::Verdict)) } th.number scope="col" { (say(Label::Revision)) } th scope="col" { (say(Label::LastChange)) } th scope="col" { (say(Label::Pack)) } } }
                    tbody {
                        @for site in &sites {
                            @let (name, head) = (&site.name, &site.head);
                            tr {
                                th scope="row" { a href={ "/sites/" (encoded(name)) } { (name) } }
                                td { (verdict(&office, name, language)) }
                                td.number { a href={ "/sites/" (encoded(name)) "/history" } { (head.number.0) } }
                                td { (moment(head.signed.at_ms, locale)) }
                                td { a href={ "/sites/" (encoded(name)) "/documents" } { (say(Label::Documents)) } }
                            }
                        }
                    }
                }
                }
            }
        }
        (new_sites(language))
    };
    Ok(page.around(&office, &content))
}

/// What is known of a site that is open; nothing is worked out for the list.
fn verdict(office: &Office, name: &str, language: Language) -> Markup {
    let Some(state) = office.opened(name).and_then(|work| work.now()) else {
        return html! { span.quiet { "–" } };
    };
    let verdict = printed::verdict(&state, language);
    html! {
        span class={ "verdict-cell tone-" (verdict.tone.word()) } { (bar(verdict.step)) " " strong { (verdict.text) } }
        @if !verdict.detail.is_empty() { br; span.quiet { (verdict.detail) } }
    }
}

fn new_sites(language: Language) -> Markup {
    let say = |label: Label| label.say(language);
    let catalogue = crate::blank::catalogue();
    let catalogue = catalogue.catalogue();
    let cables = |chosen: &'static str| {
        html! {
            @for cable in catalogue.cables.values() {
                option value=(cable.head.name) selected[cable.head.name == chosen] { (cable.head.name) " · " (cable.head.title.of(language)) }
            }
        }
    };
    let field = |name: &'static str, label: Label, value: &'static str, suffix: &'static str| {
        html! {
            div.field {
                label for={ "n-" (name) } { (say(label)) }
                span.suffixed { input id={ "n-" (name) } name=(name) value=(value) autocomplete="off" required; @if !suffix.is_empty() { span { (suffix) } } }
            }
        }
    };
    html! {
        section.sheet {
            h2 { (say(Label::NewSite)) }
            p.notice #notice role="alert" tabindex="-1" hidden {}
            div.new-sites {
                form.new data-new="blank" {
                    h3 { (say(Label::BlankSite)) }
                    div.fields {
                        (field("title", Label::Title, "Linden Court", ""))
                        div.field { label for="n-family" { (say(Label::Family)) } select #n-family name="family" { @for family in catalogue.families.values() { option value=(family.head.name) selected[family.head.name == "ostrel-48"] { (family.head.title.of(language)) } } } }
                        (field("floors", Label::Floors, "G 1 2", ""))
                        (field("flats", Label::FlatsPerFloor, "4", ""))
                        (field("stairs", Label::Stairs, "1", ""))
                        div.field { label for="n-cable" { (say(Label::FlatCable)) } select #n-cable name="cable" { (cables("pair-0.8")) } }
                        (field("floor_to_floor", Label::FloorToFloor, "3", "m"))
                        (field("to_first", Label::RiserToFlat, "5", "m"))
                        (field("spacing", Label::Spacing, "6", "m"))
                        (field("to_door", Label::CupboardToDoor, "9", "m"))
                        div.field { label for="n-lock" { (say(Label::Lock)) } select #n-lock name="lock" { @for lock in catalogue.locks.values() { option value=(lock.head.name) selected[lock.head.name == "strike-12"] { (lock.head.title.of(language)) } } } }
                        div.field.check { input #n-guessed type="checkbox" name="guessed" value="yes" checked; label for="n-guessed" { (say(Label::Lengths)) ": " (say(Label::Guessed)) " (± 20 %)" } }
                    }
                    div.preview #preview aria-live="polite" {}
                    div.buttons { button.main type="submit" { (say(Label::WireIt)) } }
                }
                div.others {
                    form.new data-new="demo" { h3 { (say(Label::Demo)) } div.buttons { button type="submit" { (say(Label::OpenDemo)) } } }
                    form.new data-new="file" {
                        h3 { (say(Label::FromFile)) }
                        div.field { label for="n-file" { (say(Label::ChooseFile)) " (.toml)" } input #n-file type="file" name="file" accept=".toml" required; }
                        div.buttons { button type="submit" { (say(Label::Open)) } }
                    }
                    form.new data-new="survey" {
                        h3 { (say(Label::FromSurvey)) }
                        div.field { label for="n-survey" { (say(Label::ChooseFile)) " (.xlsx)" } input #n-survey type="file" name="file" accept=".xlsx" required; }
                        p { a href="/survey.xlsx" { (say(Label::SurveyTemplate)) } }
                        div.buttons { button type="submit" { (say(Label::WireIt)) } }
                    }
                }
            }
        }
    }
}

/// What kind of site, and its name.
#[derive(Debug, Deserialize)]
pub(crate) struct New {
    kind: String,
    #[serde(default)]
    name: String,
}

/// Makes a site.
pub(crate) async fn create(
    State(office): State<Arc<Office>>,
    Reader(locale): Reader,
    Query(new): Query<New>,
    body: Bytes,
) -> Result<Json<Value>, Refused> {
    let language = locale.language;
    let permit = Arc::clone(&office.thinking).acquire_owned().await;
    let permit = permit.map_err(|_| Refused::Broken(OfficeRefusal::Stopping))?;
    let name = blocking(move || {
        let _permit = permit;
        let (name, text) = match new.kind.as_str() {
            "demo" => (String::from("demo"), office.options.demo.to_string()),
            "file" => {
                let text = String::from_utf8(body.to_vec())
                    .map_err(|_| Refused::Unfit(OfficeRefusal::NoText.both()))?;
                (new.name, text)
            }
            "survey" => (new.name, crate::blank::from_workbook(&body, language).map_err(Refused::Said)?),
            "blank" => {
                let blank: Blank = serde_json::from_slice(&body).map_err(|error| {
                    Refused::Unfit(OfficeRefusal::NotUnderstood { message: &error.to_string() }.both())
                })?;
                let text = blank.site(language).map_err(Refused::Said)?;
                (blank.title, text)
            }
            _ => return Err(Refused::NotFound),
        };
        let by = By { client: "new", at_ms: (office.options.clock)() };
        let name = usable(&name);
        let files = vec![(office.archive.free_file(&name)?, text)];
        let name = office.archive.create(&name, &files, &by)?;
        office.archive.settle(&name, by.at_ms)?;
        Ok(name)
    })
    .await?;
    Ok(Json(json!({ "site": format!("/sites/{}", encoded(&name)) })))
}

/// A name of a site: what was given without signs that are not seen, and not too long.
fn usable(name: &str) -> String {
    let name = name.trim().trim_end_matches(".toml").trim_end_matches(".xlsx");
    let name: String =
        name.chars().filter(|sign| !sign.is_control() && !"/\\?#%".contains(*sign)).take(60).collect();
    if name.trim().is_empty() { String::from("site") } else { name.trim().to_string() }
}

/// The workbook of a survey, empty.
pub(crate) async fn survey_template(Reader(locale): Reader) -> Result<Response, Refused> {
    let bytes = blocking(move || {
        let made = latchline_survey::template::empty(locale.language);
        made.map_err(|_| Refused::Broken(OfficeRefusal::NoWorkbook))
    })
    .await?;
    let kind = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
    Ok(([(CONTENT_TYPE, kind), (CONTENT_DISPOSITION, "attachment; filename=\"survey.xlsx\"")], bytes)
        .into_response())
}

/// Which language and units, and where to go then.
#[derive(Debug, Deserialize)]
pub(crate) struct Choice {
    to: String,
    #[serde(default)]
    back: String,
}

/// Sets language and units, and goes back to a page of ours.
pub(crate) async fn locale(Query(choice): Query<Choice>) -> Result<Response, Refused> {
    let locale = locale::of_word(&choice.to).ok_or(Refused::NotFound)?;
    let ours = choice.back.starts_with('/')
        && !choice.back.starts_with("//")
        && !choice.back.contains(['\\', '\r', '\n']);
    let back = if ours { choice.back } else { String::from("/sites") };
    let cookie = format!(
        "{}={}; Path=/; Max-Age=31536000; SameSite=Strict; HttpOnly",
        locale::COOKIE_NAME,
        locale::word(locale)
    );
    let mut headers = HeaderMap::new();
    let value = |text: &str| HeaderValue::from_str(text).map_err(|_| Refused::NotFound);
    headers.insert(SET_COOKIE, value(&cookie)?);
    headers.insert(LOCATION, value(&back)?);
    Ok((StatusCode::SEE_OTHER, headers).into_response())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_lose_what_leads_elsewhere() {
        assert_eq!(usable("../../etc/passwd"), "....etcpasswd");
        assert_eq!(usable(" \u{7}\n"), "site");
        assert_eq!(usable("Linden <b>.toml"), "Linden <b>");
    }
}
