//! The building as the place of work: title block, jobs, drawing, table, text, details.

use super::shell::{Page, bar, encoded};
use crate::engine::{blocking, opened};
use crate::locale::Reader;
use crate::office::Office;
use crate::printed::{self, PageState};
use crate::refused::Refused;
use crate::work::State as SiteState;
use axum::extract::{Path, Query, State};
use axum::response::{Html, IntoResponse, Response};
use latchline_drawing::elevation::{ScreenElevation, screen_elevation};
use latchline_finding::Locale;
use latchline_words::office::Label;
use maud::{Markup, PreEscaped, html};
use serde::Deserialize;
use std::sync::Arc;

/// Width of rows of cards, in millimetres of the drawing, on a desk.
const ACROSS_MM: f64 = 190.0;

/// How wide a drawing is wanted.
#[derive(Debug, Deserialize)]
pub(crate) struct Wanted {
    across: Option<f64>,
}

fn drawn(state: &SiteState, locale: Locale, across_mm: f64) -> Option<ScreenElevation> {
    let (site, results) = (state.view.site()?, state.results.as_ref()?);
    Some(screen_elevation(site, results, &state.findings, locale, across_mm))
}

/// The page.
pub(crate) async fn page(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
) -> Result<Html<String>, Refused> {
    let (work, state) = opened(&office, &name).await?;
    let title = state.view.site().map_or_else(|| work.name.clone(), |site| site.title.clone());
    let content = blocking({
        let (office, title) = (Arc::clone(&office), title.clone());
        move || {
            let files = office.archive.files(&name);
            let now = printed::print(&state, (false, false), &files, locale);
            Ok(content(&name, &title, &state, &now, locale))
        }
    })
    .await?;
    let here = format!("/sites/{}", encoded(&work.name));
    let page =
        Page { title: &title, of: Label::Sites, class: "office", script: "office.js", here: &here, locale };
    Ok(page.around(&office, &content))
}

/// The drawing alone, after the wiring has changed.
pub(crate) async fn drawing(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
    Query(wanted): Query<Wanted>,
) -> Result<Response, Refused> {
    let (_, state) = opened(&office, &name).await?;
    let across = wanted.across.filter(|mm| mm.is_finite()).unwrap_or(ACROSS_MM).clamp(60.0, 2_000.0);
    let drawn = blocking(move || Ok(drawn(&state, locale, across))).await?;
    Ok(Html(drawing_markup(drawn.as_ref()).into_string()).into_response())
}

fn drawing_markup(drawn: Option<&ScreenElevation>) -> Markup {
    html! {
        @if let Some(drawn) = drawn {
            div.elevation data-width=(drawn.width_mm) data-height=(drawn.height_mm) data-structure=(drawn.structure.to_string()) {
                (PreEscaped(&drawn.svg))
            }
        }
    }
}

/// The title block: the page belongs to the paper.
fn title_block(name: &str, title: &str, state: &SiteState, now: &PageState, locale: Locale) -> Markup {
    let say = |label: Label| label.say(locale.language);
    let currency = match state.currency() {
        "" if now.price.is_empty() => "",
        "" => say(Label::NoCurrency),
        currency => currency,
    };
    let verdict = &now.verdict;
    html! {
        section.title-block aria-label=(title) {
            div.cell.site { span.label { (say(Label::Site)) } h1 { (title) } }
            div #verdict class={ "cell verdict tone-" (verdict.tone.word()) } {
                (bar(verdict.step))
                div {
                    span.label #pending { (if now.pending.is_empty() { say(Label::Verdict) } else { &now.pending }) }
                    p { strong #verdict-text { (verdict.text) } " " span #verdict-detail { (verdict.detail) } }
                }
            }
            div.cell { span.label { (say(Label::Price)) } p { strong #price { (now.price) } " " span { (currency) } " " span.quiet #price-change { (now.price_change) } } }
            div.cell { span.label { (say(Label::Revision)) } p { a #revision href={ "/sites/" (encoded(name)) "/history" } { (now.number) } " " span #files class=(files_class(now)) { (now.files) } } }
            div.cell.buttons {
                button type="button" #undo disabled[!now.turns.0] { (say(Label::Undo)) }
                button type="button" #redo disabled[!now.turns.1] { (say(Label::Redo)) }
                a.button href={ "/sites/" (encoded(name)) "/fault" } { (say(Label::FindFault)) }
                a.button.main href={ "/sites/" (encoded(name)) "/documents" } { (say(Label::Pack)) }
            }
        }
    }
}

/// What is wrong with the file stands out.
fn files_class(now: &PageState) -> &'static str {
    if now.files_trouble { "trouble" } else { "quiet" }
}

fn content(name: &str, title: &str, state: &SiteState, now: &PageState, locale: Locale) -> Markup {
    let say = |label: Label| label.say(locale.language);
    let drawn = drawn(state, locale, ACROSS_MM);
    html! {
        div #site data-name=(name) data-revision=(now.number)
            data-conflict=(say(Label::ConnectionLost)) data-nothing=(say(Label::NothingFound))
            data-cancel=(say(Label::Cancel)) data-apply=(say(Label::Apply)) data-reason=(say(Label::Reason))
            data-accept=(say(Label::Accept)) data-preview=(say(Label::Preview)) data-pending=(say(Label::Pending))
            data-verdict=(say(Label::Verdict)) data-label-name=(say(Label::Name)) data-label-place=(say(Label::Place)) data-label-length=(say(Label::Length)) {
            (title_block(name, title, state, now, locale))
            p.notice #notice role="alert" hidden {}
            p.visually-hidden #announcement aria-live="polite" {}
            div.desk {
                section.panel.jobs-panel aria-labelledby="jobs-head" {
                    h2 #jobs-head { (say(Label::Jobs)) }
                    div #jobs { (PreEscaped(&now.jobs)) }
                    div #changed { (PreEscaped(&now.changed)) }
                }
                section.panel.work aria-label=(say(Label::View)) {
                    div.tools {
                        div.find {
                            label.visually-hidden for="find" { (say(Label::Find)) }
                            input #find type="search" list="elements" placeholder=(say(Label::Find)) autocomplete="off" spellcheck="false";
                            datalist #elements { @for row in &now.rows { option value=(row.element) {} } }
                        }
                        div.tabs role="tablist" aria-label=(say(Label::View)) {
                            @for (at, (id, label)) in [("drawing", Label::Drawing), ("table", Label::Table), ("text", Label::Text)].into_iter().enumerate() {
                                button type="button" role="tab" id={ "tab-" (id) } aria-controls={ "view-" (id) }
                                    aria-selected=(if at == 0 { "true" } else { "false" }) tabindex=(if at == 0 { "0" } else { "-1" }) { (say(label)) }
                            }
                        }
                    }
                    div.view #view-drawing role="tabpanel" aria-labelledby="tab-drawing" {
                        p.visually-hidden #drawing-keys { (say(Label::DrawingKeys)) }
                        div.scroll #drawing tabindex="0" role="application" aria-roledescription=(say(Label::Drawing))
                            aria-label=(say(Label::Drawing)) aria-describedby="drawing-keys picked" { (drawing_markup(drawn.as_ref())) }
                        p.visually-hidden #picked aria-live="polite" {}
                    }
                    div.view #view-table role="tabpanel" aria-labelledby="tab-table" hidden {}
                    div.view #view-text role="tabpanel" aria-labelledby="tab-text" hidden {}
                }
                section.panel.details-panel #details aria-label=(say(Label::Details)) tabindex="-1" {
                    p.quiet { (say(Label::PickSomething)) }
                }
            }
            dialog #dialog aria-labelledby="dialog-head" {
                form method="dialog" {
                    h2 #dialog-head {}
                    div #dialog-body {}
                    div.buttons {
                        button type="submit" value="cancel" formnovalidate { (say(Label::Cancel)) }
                        button.main type="submit" value="apply" #dialog-apply { (say(Label::Apply)) }
                    }
                }
            }
        }
    }
}
