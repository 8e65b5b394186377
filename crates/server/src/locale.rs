//! How the reader of a page is used to words and units: a cookie, else what the browser asks for.

use axum::extract::FromRequestParts;
use axum::http::HeaderMap;
use axum::http::header::{ACCEPT_LANGUAGE, COOKIE};
use axum::http::request::Parts;
use latchline_finding::{Language, Locale, Units};
use std::convert::Infallible;

/// Name of the cookie: "en-metric", "de-us", ...
pub(crate) const COOKIE_NAME: &str = "latchline-locale";

/// The reader's locale.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Reader(pub Locale);

/// The value of the cookie for a locale.
pub(crate) fn word(locale: Locale) -> String {
    let language = language_word(locale.language);
    let units = match locale.units {
        Units::Metric => "metric",
        Units::Us => "us",
    };
    format!("{language}-{units}")
}

/// As the attribute `lang` has it.
pub(crate) fn language_word(language: Language) -> &'static str {
    match language {
        Language::English => "en",
        Language::German => "de",
    }
}

/// The locale of a word as in the cookie.
pub(crate) fn of_word(text: &str) -> Option<Locale> {
    let (language, units) = text.split_once('-')?;
    let language = match language {
        "en" => Language::English,
        "de" => Language::German,
        _ => return None,
    };
    let units = match units {
        "metric" => Units::Metric,
        "us" => Units::Us,
        _ => return None,
    };
    Some(Locale { language, units })
}

/// The locale that the headers of a request ask for.
pub(crate) fn locale_of(headers: &HeaderMap) -> Locale {
    let header = |name| headers.get(name).and_then(|value| value.to_str().ok()).unwrap_or("");
    let chosen = header(COOKIE).split(';').find_map(|one| {
        let (name, value) = one.trim().split_once('=')?;
        (name == COOKIE_NAME).then(|| of_word(value))?
    });
    let wanted = || {
        let wanted = header(ACCEPT_LANGUAGE);
        let language = if wanted.starts_with("de") { Language::German } else { Language::English };
        let units = if wanted.starts_with("en-US") { Units::Us } else { Units::Metric };
        Locale { language, units }
    };
    chosen.unwrap_or_else(wanted)
}

impl<S: Sync> FromRequestParts<S> for Reader {
    type Rejection = Infallible;

    async fn from_request_parts(parts: &mut Parts, _state: &S) -> Result<Self, Infallible> {
        Ok(Reader(locale_of(&parts.headers)))
    }
}
