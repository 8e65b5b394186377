//! How a site came about: every revision, seen, compared, brought back.

use super::edits::differing_lines;
use super::shell::{Page, encoded};
use crate::engine::blocking;
use crate::files::Files;
use crate::locale::Reader;
use crate::office::Office;
use crate::refused::Refused;
use axum::extract::{Path, Query, State};
use axum::response::Html;
use latchline_finding::{Language, Locale};
use latchline_store::{Kind, Revision};
use latchline_words::office::{Label, Told};
use maud::html;
use serde::Deserialize;
use std::sync::Arc;

/// A moment as the reader is used to it, in UTC.
pub(crate) fn moment(at_ms: i64, locale: Locale) -> String {
    let minutes = at_ms.div_euclid(60_000);
    let (day, minute) = (minutes.div_euclid(1_440), minutes.rem_euclid(1_440));
    let (year, month, day) = civil(day);
    let date = locale.date(&format!("{year:04}-{month:02}-{day:02}"));
    format!("{date}, {:02}:{:02} UTC", minute / 60, minute % 60)
}

/// Year, month and day of a number of days since 1970-01-01, by Howard Hinnant's algorithm `civil_from_days`.
fn civil(days: i64) -> (i64, i64, i64) {
    let shifted = days + 719_468;
    let era = shifted.div_euclid(146_097);
    let of_era = shifted.rem_euclid(146_097);
    let year_of_era = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let shifted_month = (5 * of_year + 2) / 153;
    let day = of_year - (153 * shifted_month + 2) / 5 + 1;
    let month = if shifted_month < 10 { shifted_month + 3 } else { shifted_month - 9 };
    (year_of_era + era * 400 + i64::from(month <= 2), month, day)
}

/// The list.
pub(crate) async fn history(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
) -> Result<Html<String>, Refused> {
    let revisions = blocking({
        let (office, name) = (Arc::clone(&office), name.clone());
        move || office.archive.history(&name)
    })
    .await?;
    // A revision aside is none that the site follows.
    let newest = revisions.iter().find(|revision| revision.kind != Kind::Aside);
    let newest = newest.ok_or(Refused::NotFound)?.number;
    let files = office.archive.files(&name);
    let say = |label: Label| label.say(locale.language);
    let site = format!("/sites/{}", encoded(&name));
    let title = format!("{name}: {}", say(Label::History));
    let here = format!("{site}/history");
    let page =
        Page { title: &title, of: Label::Sites, class: "plain", script: "pages.js", here: &here, locale };
    let content = html! {
        section.sheet {
            p { a href=(site) { "← " (name) } }
            h1 { (say(Label::History)) }
            p.notice #notice role="alert" tabindex="-1" hidden {}
            @if let Files::Conflict { aside, .. } = &files {
                div.notice {
                    p { (files.say(locale.language)) }
                    p { a href={ (site) "/compare?from=" (newest.0) "&to=" (aside) } { (say(Label::Compare)) } }
                    div.buttons {
                        button type="button" data-pass-over=(aside) data-site=(name) { (say(Label::KeepWhatIsHere)) }
                        button type="button" data-bring-back=(aside) data-site=(name) data-base=(newest.0) { (say(Label::TakeTheFile)) }
                    }
                }
            } @else if files.is_trouble() {
                p.notice { (files.say(locale.language)) }
            }
            div.scroll tabindex="0" role="region" aria-label=(say(Label::History)) {
            table.list {
                thead { tr { th.number scope="col" { (say(Label::Revision)) } th scope="col" { (say(Label::What)) } th scope="col" { (say(Label::When)) } th scope="col" { (say(Label::Compare)) } th scope="col" { (say(Label::BringBack)) } } }
                tbody {
                    @for revision in &revisions {
                        tr {
                            th.number scope="row" { (revision.number.0) }
                            td { (what(revision, locale.language)) }
                            td { (moment(revision.signed.at_ms, locale)) }
                            td { @if revision.number != newest { a href={ (site) "/compare?from=" (revision.number.0) "&to=" (newest.0) } { (say(Label::CompareWithNow)) } } }
                            td { @if revision.number != newest { button type="button" data-bring-back=(revision.number.0) data-site=(name) data-base=(newest.0) { (say(Label::BringBack)) " " (revision.number.0) } } }
                        }
                    }
                }
            }
            }
        }
    };
    Ok(page.around(&office, &content))
}

/// What a revision is about.
fn what(revision: &Revision, language: Language) -> String {
    match revision.kind {
        Kind::Outside => Told::FileTakenIn.say(language),
        Kind::Aside => Told::FileAside.say(language),
        _ if revision.signed.note.is_empty() => Told::FirstRevision.say(language),
        _ => revision.signed.note.clone(),
    }
}

/// Which two.
#[derive(Debug, Deserialize)]
pub(crate) struct Two {
    from: i64,
    to: i64,
}

/// Two revisions side by side.
pub(crate) async fn compare(
    State(office): State<Arc<Office>>,
    Path(name): Path<String>,
    Reader(locale): Reader,
    Query(two): Query<Two>,
) -> Result<Html<String>, Refused> {
    let (before, after) = blocking({
        let (office, name) = (Arc::clone(&office), name.clone());
        move || {
            let (from, to) = (office.archive.state(&name, two.from)?, office.archive.state(&name, two.to)?);
            Ok(differing_lines(from.texts.site_text(), to.texts.site_text()))
        }
    })
    .await?;
    let language: Language = locale.language;
    let site = format!("/sites/{}", encoded(&name));
    let title = format!("{name}: {} → {}", two.from, two.to);
    let here = format!("{site}/history");
    let page =
        Page { title: &title, of: Label::Sites, class: "plain", script: "pages.js", here: &here, locale };
    let lines = before.len().max(after.len());
    let content = html! {
        section.sheet {
            p { a href={ (site) "/history" } { "← " (Label::History.say(language)) } }
            h1 { (title) }
            p { (if lines == 0 { Told::Same.say(language) } else { Told::Difference { lines }.say(language) }) }
            div.two {
                @for (number, lines, class) in [(two.from, &before, "gone"), (two.to, &after, "come")] {
                    section {
                        h2 { (Label::Revision.say(language)) " " (number) }
                        pre tabindex="0" { @for line in lines { code class=(class) { (line) "\n" } } }
                    }
                }
            }
        }
    };
    Ok(page.around(&office, &content))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_dates() {
        // The beginning of Unix time (POSIX), a leap day, and the last day of a century.
        assert_eq!(civil(0), (1970, 1, 1));
        assert_eq!(civil(11_016), (2000, 2, 29));
        assert_eq!(civil(47_481), (2099, 12, 31));
        assert_eq!(civil(-1), (1969, 12, 31));
    }
}
