//! What goes to site: the pack as PDF and workbook, and the file itself. A pack waits until everything is known.

use super::shell::{Page, encoded};
use crate::engine::{blocking, opened};
use crate::locale::Reader;
use crate::office::Office;
use crate::refused::Refused;
use axum::extract::{Path, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_SECURITY_POLICY, CONTENT_TYPE, HeaderValue};
use axum::response::{Html, IntoResponse, Response};
use latchline_finding::Locale;
use latchline_handover::{Options, Pack, PackFile, PackInput, Part, Stamp};
use latchline_locate::FaultTable;
use latchline_session::View;
use latchline_words::office::{Label, OfficeRefusal};
use maud::html;
use std::sync::Arc;

/// The page.
pub(crate) async fn documents(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
) -> Result<Html<String>, Refused> {
    let (_, state) = opened(&office, &name).await?;
    let verdict = crate::printed::verdict(&state, locale.language);
    let say = |label: Label| label.say(locale.language);
    let site = format!("/sites/{}", encoded(&name));
    let title = format!("{name}: {}", say(Label::Documents));
    let here = format!("{site}/documents");
    let page =
        Page { title: &title, of: Label::Sites, class: "plain", script: "pages.js", here: &here, locale };
    let content = html! {
        section.sheet {
            p { a href=(site) { "← " (name) } }
            h1 { (say(Label::Documents)) }
            p class={ "tone-" (verdict.tone.word()) } { strong { (verdict.text) } " " (verdict.detail) }
            ul.documents {
                @for (file, label) in [("pack.pdf", Label::WholePack), ("workbook.xlsx", Label::Workbook), ("phone.html", Label::PhonePage), ("site.toml", Label::SiteFile)] {
                    li { a href={ (site) "/documents/" (file) } { (say(label)) } }
                }
                li { a href={ (site) "/phone" } { (say(Label::PhoneHere)) } }
            }
        }
    };
    Ok(page.around(&office, &content))
}

/// One file.
pub(crate) async fn file(
    State(office): State<Arc<Office>>,
    Path((name, file)): Path<(String, String)>,
    Reader(locale): Reader,
) -> Result<Response, Refused> {
    let (work, state) = opened(&office, &name).await?;
    if file == "site.toml" {
        let text = state.view.text().to_string();
        return Ok(download("application/toml; charset=utf-8", "site.toml", false, text.into_bytes()));
    }
    let number = state.number;
    let thinking = Arc::clone(&office.thinking);
    let permit = thinking.acquire_owned().await.map_err(|_| Refused::Broken(OfficeRefusal::Stopping))?;
    let made = blocking(move || {
        let _permit = permit;
        let (_, view) = work.view();
        match file.as_str() {
            "pack.pdf" => {
                whole_pdf(&view, number, locale).map(|bytes| ("application/pdf", "pack.pdf", true, bytes))
            }
            "workbook.xlsx" => workbook(&view, number, locale).map(|bytes| {
                (
                    "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
                    "workbook.xlsx",
                    false,
                    bytes,
                )
            }),
            "phone.html" => phone_page(&view, number, locale)
                .map(|page| ("text/html; charset=utf-8", "phone.html", false, page.into_bytes())),
            _ => Err(Refused::NotFound),
        }
    });
    let (kind, name, inline, bytes) = made.await?;
    Ok(download(kind, name, inline, bytes))
}

/// The page for the phone at an address of its own; devices by their number behind `#d=`.
pub(crate) async fn phone(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
) -> Result<Response, Refused> {
    let (work, state) = opened(&office, &name).await?;
    let number = state.number;
    let thinking = Arc::clone(&office.thinking);
    let permit = thinking.acquire_owned().await.map_err(|_| Refused::Broken(OfficeRefusal::Stopping))?;
    let page = blocking(move || {
        let _permit = permit;
        phone_page(&work.view().1, number, locale)
    });
    // The page carries its own style and script; the policy names them by their hashes.
    let policy = format!("{}; frame-ancestors 'none'", latchline_phone::policy());
    let policy = HeaderValue::from_str(&policy).map_err(|_| Refused::Broken(OfficeRefusal::NoPhonePage))?;
    Ok(([(CONTENT_SECURITY_POLICY, policy)], Html(page.await?)).into_response())
}

fn phone_page(view: &View, number: i64, locale: Locale) -> Result<String, Refused> {
    let options = Options { locale, only: vec![Part::Handover, Part::Faults], ..Options::default() };
    with_pack(view, number, &options, |pack| {
        let plan = latchline_phone::WorkPlan::new(&pack.subject);
        latchline_phone::html(&plan).map_err(|_| Refused::Broken(OfficeRefusal::NoPhonePage))
    })
}

fn download(kind: &'static str, name: &str, inline: bool, bytes: Vec<u8>) -> Response {
    let how = if inline { "inline" } else { "attachment" };
    let disposition = HeaderValue::from_str(&format!("{how}; filename=\"{name}\""));
    let disposition = disposition.unwrap_or(HeaderValue::from_static("attachment"));
    ([(CONTENT_TYPE, HeaderValue::from_static(kind)), (CONTENT_DISPOSITION, disposition)], bytes)
        .into_response()
}

/// Makes a pack and takes from it what is wanted. The assessment is whole: a stage that is still missing is worked out first.
fn with_pack<T>(
    view: &View,
    number: i64,
    options: &Options,
    take: impl FnOnce(&Pack<'_>) -> Result<T, Refused>,
) -> Result<T, Refused> {
    let overtaken = |_| Refused::Conflict(OfficeRefusal::ChangedMeanwhile.both());
    let unusable = || Refused::Unfit(OfficeRefusal::TextNotUsable.both());
    let site = view.site().ok_or_else(unusable)?;
    let assessment = view.assessment().map_err(overtaken)?.ok_or_else(unusable)?;
    let files = std::iter::once(view.site_file()).chain(view.catalogues().iter().copied());
    let texts = files.map(|file| &*view.sources().file(file).text);
    let revision = site.current_revision().map_or_else(|| number.to_string(), String::from);
    let stamp = Stamp::of_texts(texts, Some(revision), None);
    let readings = view.readings().map_err(overtaken)?.ok_or_else(unusable)?;
    // Who asks for other parts only does not wait for it.
    let is_wanted = options.wants(Part::Faults);
    let faults = is_wanted.then(|| FaultTable::of_site(site, &readings));
    let input = PackInput {
        site,
        assessment,
        readings: &readings,
        cut_list: &latchline_cutting::cut_list(site),
        reading_findings: &assessment.read,
        faults: faults.as_ref(),
    };
    let pack = latchline_pack::put_together(&input, options, &stamp)
        .map_err(|error| Refused::Unfit(error.both()))?;
    take(&pack)
}

fn whole_pdf(view: &View, number: i64, locale: Locale) -> Result<Vec<u8>, Refused> {
    // With its parts named, no file for a single reader is set.
    let options = Options { locale, only: Part::ALL.to_vec(), ..Options::default() };
    with_pack(view, number, &options, |pack| {
        let files = latchline_typeset::pdfs(pack, None).map_err(|error| Refused::Unfit(error.both()))?;
        let whole: Option<PackFile> = files.into_iter().next();
        whole.map(|file| file.bytes).ok_or(Refused::NotFound)
    })
}

fn workbook(view: &View, number: i64, locale: Locale) -> Result<Vec<u8>, Refused> {
    let options = Options { locale, only: Part::ALL.to_vec(), ..Options::default() };
    with_pack(view, number, &options, |pack| {
        let files = latchline_pack::files(pack).map_err(|error| Refused::Unfit(error.both()))?;
        files
            .into_iter()
            .find(|file| file.name == "workbook.xlsx")
            .map(|file| file.bytes)
            .ok_or(Refused::NotFound)
    })
}
