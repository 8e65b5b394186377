//! What every page has around it.

use crate::assets::address;
use crate::locale::{Reader, language_word, word};
use crate::office::Office;
use axum::extract::State;
use axum::http::{StatusCode, Uri};
use axum::response::{Html, IntoResponse, Response};
use latchline_finding::{Language, Locale, Units};
use latchline_words::office::Label;
use maud::{DOCTYPE, Markup, html};
use std::sync::Arc;

/// A page to be put into its frame.
pub(crate) struct Page<'a> {
    pub title: &'a str,
    /// Which entry of the menu it belongs to.
    pub of: Label,
    /// Class of the body.
    pub class: &'a str,
    /// Script of the page, beside that of all.
    pub script: &'a str,
    /// Address of the page, for the choice of language to come back to.
    pub here: &'a str,
    pub locale: Locale,
}

impl Page<'_> {
    /// The whole document.
    pub fn around(&self, office: &Office, content: &Markup) -> Html<String> {
        let language = self.locale.language;
        let say = |label: Label| label.say(language);
        let document = html! {
            (DOCTYPE)
            html lang=(language_word(language)) {
                head {
                    meta charset="utf-8";
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    meta name="color-scheme" content="light dark";
                    meta name="latchline-token" content=(office.options.token);
                    title { (self.title) " · Latchline" }
                    link rel="icon" href="data:,";
                    link rel="stylesheet" href=(address("latchline.css"));
                    @if self.class == "office" { link rel="stylesheet" href=(address("office.css")); }
                    script type="module" src=(address(self.script)) {}
                }
                body class=(self.class) {
                    a.skip href="#content" { (say(Label::Skip)) }
                    header.menu {
                        nav aria-label=(say(Label::Main)) {
                            @for (label, to) in [(Label::Questions, "/questions"), (Label::Sites, "/sites")] {
                                a href=(to) aria-current=[(label == self.of).then_some("page")] { (say(label)) }
                            }
                        }
                        (self.choice())
                    }
                    main #content tabindex="-1" { (content) }
                    footer.foot { (say(Label::Caution)) }
                }
            }
        };
        Html(document.into_string())
    }

    /// Language and units.
    fn choice(&self) -> Markup {
        let language = self.locale.language;
        let link = |name: &'static str, locale: Locale| {
            let to = format!("/locale?to={}&back={}", word(locale), encoded(self.here));
            let chosen = locale == self.locale;
            html! { a href=(to) aria-current=[chosen.then_some("true")] lang=(language_word(locale.language)) { (name) } }
        };
        let with = |language| Locale { language, ..self.locale };
        let units = |units| Locale { units, ..self.locale };
        html! {
            nav.choice aria-label=(Label::Language2.say(language)) {
                span { (link("English", with(Language::English))) (link("Deutsch", with(Language::German))) }
                span { (link(Label::Metric.say(language), units(Units::Metric))) (link(Label::Us.say(language), units(Units::Us))) }
            }
        }
    }
}

/// A text as part of an address.
pub(crate) fn encoded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for byte in text.bytes() {
        if byte.is_ascii_alphanumeric() || b"-_.~".contains(&byte) {
            out.push(byte as char);
        } else {
            out.push_str(&format!("%{byte:02X}"));
        }
    }
    out
}

/// The answer to an address that leads nowhere.
pub(crate) async fn not_found(
    State(office): State<Arc<Office>>,
    Reader(locale): Reader,
    uri: Uri,
) -> Response {
    let title = Label::NotFoundTitle.say(locale.language);
    let page = Page { title, of: Label::Sites, class: "plain", script: "pages.js", here: uri.path(), locale };
    let content = html! {
        section.sheet {
            h1 { (title) }
            p { a href="/sites" { (Label::Sites.say(locale.language)) } }
        }
    };
    (StatusCode::NOT_FOUND, page.around(&office, &content)).into_response()
}

/// The margin bar: four steps, of which so many are filled. The words beside it say the same.
pub(crate) fn bar(step: &str) -> Markup {
    html! {
        span class={ "bar " (if step.is_empty() { "" } else { "step-" }) (step) } aria-hidden="true" { i {} i {} i {} i {} }
    }
}
