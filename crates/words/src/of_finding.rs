//! The message of a finding: its template filled in with what it carries.

use crate::template::{Lists, figure, list, pieces, plain, render, with_article};
use crate::{bands, figures, states};
use latchline_finding::{Argument, Finding, Locale};

/// Fills in a template with the arguments of a finding; `None` if one that is not optional is missing.
pub fn fill(template: &str, finding: &Finding, locale: impl Into<Locale>) -> Option<String> {
    filled(template, finding, Lists::Counted, locale.into())
}

/// The same, with lists as asked for.
pub(crate) fn filled(template: &str, finding: &Finding, lists: Lists, locale: Locale) -> Option<String> {
    render(&pieces(template), &|name, form| of_finding(finding, (name, form), lists, locale))
}

fn of_finding(finding: &Finding, (name, form): (&str, &str), lists: Lists, locale: Locale) -> Option<String> {
    let language = locale.language;
    match name {
        "element" => finding.element.as_ref().map(|element| plain(element.as_str())),
        "state" => finding.state.as_ref().map(|state| states::in_words(state, language)),
        "value" => finding.value.map(|value| match finding.limit {
            Some(limit) if form.is_empty() => figures::pair(value, limit, locale).0,
            _ => figure(value, form, locale),
        }),
        // Bands of the built-in families have a name in each language.
        "band" => match finding.argument(name)? {
            Argument::Text(band) => Some(plain(bands::band(band, language))),
            other => words(other, form, lists, locale),
        },
        // A count that has a limit carries it as an argument.
        "limit" => match (finding.value, finding.limit) {
            (Some(value), Some(limit)) if form.is_empty() => Some(figures::pair(value, limit, locale).1),
            (_, Some(limit)) => Some(figure(limit, form, locale)),
            (_, None) => words(finding.argument(name)?, form, lists, locale),
        },
        _ => words(finding.argument(name)?, form, lists, locale),
    }
}

fn words(argument: &Argument, form: &str, lists: Lists, locale: Locale) -> Option<String> {
    let language = locale.language;
    Some(match argument {
        Argument::Text(text) => plain(text),
        Argument::Words(both) => plain(&with_article(both.of(language), form, language)),
        Argument::Element(element) => plain(element.as_str()),
        Argument::Texts(texts) if texts.is_empty() => return None,
        Argument::ManyWords(words) if words.is_empty() => return None,
        Argument::Elements(elements) if elements.is_empty() => return None,
        Argument::Texts(texts) => list(texts.iter().map(String::as_str), form, lists, language),
        Argument::ManyWords(words) => list(words.iter().map(|both| both.of(language)), form, lists, language),
        Argument::Elements(elements) => {
            list(elements.iter().map(|element| element.as_str()), form, lists, language)
        }
        Argument::Figure(value) => figure(*value, form, locale),
    })
}
