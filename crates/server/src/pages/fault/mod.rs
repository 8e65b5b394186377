//! Where a fault is: what is told and read goes into the address, the answer is the command line's, with its pictures.

mod asked;
mod content;

use self::asked::{Asked, Known};
use self::content::{Found, content};
use super::shell::{Page, encoded};
use crate::engine::{blocking, opened};
use crate::locale::Reader;
use crate::office::Office;
use crate::refused::Refused;
use axum::extract::{Path, Query, State};
use axum::response::Html;
use latchline_answer::{AsDrawnOf, Pictures, design_errors};
use latchline_drawing::SheetOptions;
use latchline_finding::{Locale, Severity};
use latchline_handover::Stamp;
use latchline_locate::{Options, Plant, Rates, locate, question};
use latchline_session::View;
use latchline_words::office::{Label, OfficeRefusal};
use maud::Markup;
use std::sync::Arc;

/// The page.
pub(crate) async fn page(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
    Query(asked): Query<Asked>,
) -> Result<Html<String>, Refused> {
    let (work, state) = opened(&office, &name).await?;
    let number = state.number;
    let permit = Arc::clone(&office.thinking)
        .acquire_owned()
        .await
        .map_err(|_| Refused::Broken(OfficeRefusal::Stopping))?;
    let site = format!("/sites/{}", encoded(&name));
    let (content, here) = blocking({
        let (name, site) = (name.clone(), site.clone());
        move || {
            let _permit = permit;
            answered(&work.view().1, number, (&name, &site), &asked, locale)
        }
    })
    .await?;
    let title = format!("{name}: {}", Label::FindFault.say(locale.language));
    let page =
        Page { title: &title, of: Label::Sites, class: "questions", script: "pages.js", here: &here, locale };
    Ok(page.around(&office, &content))
}

/// The content of the page, and the address of all that is known.
fn answered(
    view: &View,
    number: i64,
    (name, address): (&str, &str),
    asked: &Asked,
    locale: Locale,
) -> Result<(Markup, String), Refused> {
    let unusable = || Refused::Unfit(OfficeRefusal::TextNotUsable.both());
    let overtaken = |_| Refused::Conflict(OfficeRefusal::ChangedMeanwhile.both());
    let site = view.site().ok_or_else(unusable)?;
    let assessment = view.assessment().map_err(overtaken)?.ok_or_else(unusable)?;
    Ok(Plant::of_site(site, |plant| {
        let known = Known::of(plant, asked, locale.language);
        let drawn = AsDrawnOf::told(plant, assessment, &known.evidence);
        let options = Options {
            age: asked.age(),
            design_errors: design_errors(assessment, &drawn),
            ..Options::default()
        };
        let rates = Rates::built_in();
        let located = locate(plant, &known.evidence, &rates, &options);
        let question = question(plant, &known.evidence, &rates, &options, &located);
        let reader = latchline_answer::Reader { site, language: locale.language };
        let files = std::iter::once(view.site_file()).chain(view.catalogues().iter().copied());
        let texts = files.map(|file| &*view.sources().file(file).text);
        let revision = site.current_revision().map_or_else(|| number.to_string(), String::from);
        let stamp = Stamp::of_texts(texts, Some(revision), None);
        let pictures = Pictures {
            plant,
            assessment,
            reader: &reader,
            evidence: &known.evidence,
            rates: &rates,
            options: &options,
            located: &located,
            sheets: SheetOptions {
                input: Some(stamp.short_input()),
                revision: Some(stamp.revision),
                locale,
                ..SheetOptions::default()
            },
        };
        let errors = assessment.findings.iter().filter(|one| one.severity == Severity::Error).count();
        let found = Found {
            plant,
            reader: &reader,
            known: &known,
            drawn: &drawn,
            question: question.as_ref(),
            located: &located,
            options: &options,
            // Before anything is known there is nothing to draw.
            pictures: (!known.evidence.is_empty()).then(|| pictures.draw()),
            errors,
        };
        let here = known.address(address, asked);
        (content(&found, name, address, asked, locale), here)
    }))
}
