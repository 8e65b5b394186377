//! What all questions have in common: a form, the sentence to say, what it rests on, and a page around them.

use crate::blank;
use crate::engine::blocking;
use crate::locale::Reader;
use crate::office::Office;
use crate::pages::shell::Page;
use crate::refused::Refused;
use axum::extract::{Query, RawQuery, State};
use axum::response::Html;
use latchline_finding::{Language, Locale, Sources};
use latchline_site::{LoadedCatalogues, builtin_catalogue};
use latchline_store::of_text;
use latchline_words::office::{Label, OfficeRefusal, Told};
use maud::{Markup, html};
use serde::de::DeserializeOwned;
use std::sync::Arc;

/// Which question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    Reach,
    Lock,
    Battery,
    Mix,
    Switches,
}

impl Kind {
    const ALL: [Kind; 5] = [Kind::Reach, Kind::Lock, Kind::Battery, Kind::Mix, Kind::Switches];

    /// What is asked.
    pub fn label(self) -> Label {
        match self {
            Kind::Reach => Label::HowMany,
            Kind::Lock => Label::WhichCable,
            Kind::Battery => Label::HowLong,
            Kind::Mix => Label::MayMix,
            Kind::Switches => Label::WhichSwitches,
        }
    }

    /// Address of its page.
    pub fn path(self) -> &'static str {
        match self {
            Kind::Reach => "/questions",
            Kind::Lock => "/questions/lock",
            Kind::Battery => "/questions/battery",
            Kind::Mix => "/questions/mix",
            Kind::Switches => "/questions/switches",
        }
    }

    /// The question whose page has this address.
    pub fn of_path(path: &str) -> Option<Kind> {
        Kind::ALL.into_iter().find(|kind| kind.path() == path)
    }
}

/// The catalogue that answers rest on.
pub(crate) struct Book {
    pub sources: Sources,
    pub loaded: LoadedCatalogues,
    name: String,
    hash: String,
}

impl Book {
    /// The built-in one.
    pub fn builtin() -> Self {
        let mut sources = Sources::new();
        let (name, text) = builtin_catalogue();
        sources.add(name, text);
        Book { sources, loaded: blank::catalogue(), name: name.to_string(), hash: of_text(text) }
    }

    /// Its name and the hash of its text.
    pub fn told(&self, language: Language) -> String {
        Told::CatalogueHash { name: &self.name, hash: &self.hash }.say(language)
    }
}

/// A question answered.
pub(crate) struct Answered {
    /// What was asked, field by field: label and value.
    pub question: Vec<(&'static str, String)>,
    /// The sentence to say, then what it rests on.
    pub lines: Vec<String>,
    /// Whether what was asked for works.
    pub works: bool,
    /// The fields of its form.
    pub form: Markup,
    /// Charts and tables.
    pub more: Markup,
}

/// A question as an address asks it.
pub(crate) trait Question: Default + DeserializeOwned + Send + 'static {
    const KIND: Kind;

    /// Its answer: the words of the command line.
    fn answered(&self, book: &Book, locale: Locale) -> Result<Answered, Refused>;
}

/// Answers off the threads that answer requests, so many at once as the office allows.
pub(crate) async fn answered<Q: Question>(
    office: &Office,
    asked: Q,
    locale: Locale,
) -> Result<(Answered, String), Refused> {
    let permit = Arc::clone(&office.thinking)
        .acquire_owned()
        .await
        .map_err(|_| Refused::Broken(OfficeRefusal::Stopping))?;
    blocking(move || {
        let _permit = permit;
        let book = Book::builtin();
        Ok((asked.answered(&book, locale)?, book.told(locale.language)))
    })
    .await
}

/// The page of a question.
pub(crate) async fn page<Q: Question>(
    State(office): State<Arc<Office>>,
    Reader(locale): Reader,
    RawQuery(query): RawQuery,
    Query(asked): Query<Q>,
) -> Result<Html<String>, Refused> {
    let (answered, catalogue) = answered(&office, asked, locale).await?;
    let kind = Q::KIND;
    let here = query.map_or_else(|| kind.path().to_string(), |query| format!("{}?{query}", kind.path()));
    let page = Page {
        title: kind.label().say(locale.language),
        of: Label::Questions,
        class: "questions",
        script: "pages.js",
        here: &here,
        locale,
    };
    Ok(page
        .around(&office, &content(kind, &answered, &catalogue, office.options.keeps_record, locale.language)))
}

/// The questions, and the record of those that were asked.
pub(crate) fn menu(asked: Option<Kind>, language: Language) -> Markup {
    html! {
        nav.asked aria-label=(Label::Questions.say(language)) {
            @for kind in Kind::ALL {
                a href=(kind.path()) aria-current=[(Some(kind) == asked).then_some("page")] { (kind.label().say(language)) }
            }
            a.apart href="/questions/record" aria-current=[asked.is_none().then_some("page")] { (Label::Record.say(language)) }
        }
    }
}

fn content(kind: Kind, answered: &Answered, catalogue: &str, keeps: bool, language: Language) -> Markup {
    let say = |label: Label| label.say(language);
    html! {
        div.ask {
            section.panel {
                (menu(Some(kind), language))
                form method="get" action=(kind.path()) data-follow {
                    (answered.form)
                    div.buttons { button.main type="submit" { (say(Label::Answer)) } }
                }
            }
            section.panel.answer {
                div #answer aria-live="polite" {
                    (said(answered, language))
                    p.quiet.source { (catalogue) }
                }
                div.buttons.no-print {
                    button type="button" data-copy-link { (say(Label::CopyLink)) }
                    button type="button" data-print { (say(Label::Print)) }
                }
                form.keep.no-print data-keep {
                    div.field { label for="who" { (say(Label::WhoAsked)) } input #who name="who" maxlength="100" autocomplete="off"; }
                    button type="submit" { (say(Label::KeepAnswer)) }
                    p.quiet role="status" {}
                    @if !keeps { p.hint { (say(Label::RecordOfDemo)) } }
                }
                div #more { (answered.more) }
            }
        }
    }
}

/// The sentence to say, and under it what it rests on.
fn said(answered: &Answered, language: Language) -> Markup {
    html! {
        @if let Some((first, rest)) = answered.lines.split_first() {
            h1.sentence.is-error[!answered.works] { (first) }
            @for line in rest { p.quiet { (line) } }
        }
        p.quiet { (Label::Caution.say(language)) }
    }
}
