//! The text of the site file, with what was found in its margin.

use crate::engine::{blocking, opened};
use crate::locale::Reader;
use crate::office::Office;
use crate::refused::Refused;
use crate::work::State as SiteState;
use axum::extract::{Path, State};
use axum::response::Html;
use latchline_finding::{Finding, Locale};
use latchline_words::codes;
use latchline_words::office::Label;
use maud::{Markup, html};
use std::collections::BTreeMap;
use std::sync::Arc;

/// The text alone.
pub(crate) async fn text(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
) -> Result<Html<String>, Refused> {
    let (_, state) = opened(&office, &name).await?;
    let markup = blocking(move || Ok(whole(&state, locale))).await?;
    Ok(Html(markup.into_string()))
}

fn whole(state: &SiteState, locale: Locale) -> Markup {
    let view = &state.view;
    let mut by_line: BTreeMap<usize, Vec<&Finding>> = BTreeMap::new();
    for finding in state.findings.iter().filter(|finding| finding.accepted.is_none()) {
        if let Some(span) = finding.origin.span()
            && span.file == view.site_file()
        {
            let (line, _) = view.sources().line_and_column(span.file, span.start as usize);
            by_line.entry(line).or_default().push(finding);
        }
    }
    let language = locale.language;
    html! {
        form #text-form {
            div.text-editor {
                label.visually-hidden for="text" { (Label::TextLabel.say(language)) }
                textarea #text name="text" spellcheck="false" autocomplete="off" autocapitalize="off"
                    rows=(view.text().lines().count() + 2) { "\n" (view.text()) }
                ol.margin aria-label=(Label::Findings.say(language)) {
                    @for (line, findings) in &by_line {
                        li {
                            button.link type="button" data-line=(line) { (line) } " "
                            @for finding in findings {
                                span class={ "is-" (finding.severity.word()) } { (codes::sentence(finding, language)) ". " }
                            }
                        }
                    }
                }
            }
            div.buttons { button.main type="submit" { (Label::SaveText.say(language)) } }
        }
    }
}
