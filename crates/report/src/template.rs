//! The small language in which messages are written.
//!
//! `{name}` stands for an argument of the finding; `element`, `value`, `limit` and `state` are the
//! finding's own fields. `{names:or}` joins several with "or" (else "and"), `{names:or words}` also
//! writes kebab-case words apart;
//! `{count:dwelling|dwellings}` puts the noun after a count. A part in `<...>` is left out when an
//! argument in it is missing. No other signs are special.

use crate::figures;
use crate::state_words;
use latchline_finding::{Argument, Figure, Finding, OperatingState, Unit};

/// Most names that one sentence lists; the rest is counted.
const MOST_NAMES: usize = 8;

/// Text from outside without control characters, so that a name cannot drive a terminal.
pub fn plain(text: &str) -> String {
    text.chars()
        .map(|sign| match sign {
            '\n' | '\t' | '\r' => ' ',
            '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => '\u{fffd}',
            sign if sign.is_control() => '\u{fffd}',
            sign => sign,
        })
        .collect()
}

/// A piece of a template.
#[derive(Debug, PartialEq)]
enum Piece<'a> {
    Literal(&'a str),
    Argument { name: &'a str, form: &'a str },
    Optional(Vec<Piece<'a>>),
}

/// How a language says what stands in a template. The defaults are English.
pub trait Speaker {
    /// A figure in a sentence.
    fn figure(&self, figure: Figure) -> String {
        figures::sentence(figure)
    }

    /// A figure and its limit, never equal unless they are.
    fn pair(&self, value: Figure, limit: Figure) -> (String, String) {
        figures::pair(value, limit)
    }

    /// An operating state in words.
    fn state(&self, state: &OperatingState) -> String {
        state_words::in_words(state)
    }

    /// A text of the assessment; names of parts and elements stay as they are.
    fn text(&self, text: &str) -> String {
        text.to_string()
    }

    /// The word between the last two of a list: "or", else "and".
    fn joint(&self, or: bool) -> &'static str {
        if or { "or" } else { "and" }
    }

    /// How many names of a list are not shown.
    fn more(&self, count: usize) -> String {
        format!("{count} more")
    }
}

/// English.
pub struct English;

impl Speaker for English {}

/// Fills in a template in English; `None` if an argument that is not optional is missing.
pub fn fill(template: &str, finding: &Finding) -> Option<String> {
    fill_as(template, finding, &English)
}

/// Fills in a template as a language says it; `None` if an argument that is not optional is missing.
pub fn fill_as(template: &str, finding: &Finding, speaker: &dyn Speaker) -> Option<String> {
    render(&pieces(template), finding, speaker)
}

/// Names of all arguments that a template uses, the finding's own fields included.
pub fn argument_names(template: &str) -> Vec<String> {
    fn collect(pieces: &[Piece<'_>], names: &mut Vec<String>) {
        for piece in pieces {
            match piece {
                Piece::Literal(_) => {}
                Piece::Argument { name, .. } => names.push((*name).to_string()),
                Piece::Optional(inner) => collect(inner, names),
            }
        }
    }
    let mut names = Vec::new();
    collect(&pieces(template), &mut names);
    names
}

fn pieces(template: &str) -> Vec<Piece<'_>> {
    let mut found = Vec::new();
    let mut rest = template;
    while let Some(start) = rest.find(['{', '<']) {
        if start > 0 {
            found.push(Piece::Literal(&rest[..start]));
        }
        let optional = rest.as_bytes()[start] == b'<';
        let close = if optional { '>' } else { '}' };
        let inner_start = start + 1;
        let Some(length) = rest[inner_start..].find(close) else {
            found.push(Piece::Literal(&rest[start..]));
            return found;
        };
        let inner = &rest[inner_start..inner_start + length];
        found.push(if optional {
            Piece::Optional(pieces(inner))
        } else {
            let (name, form) = inner.split_once(':').unwrap_or((inner, ""));
            Piece::Argument { name, form }
        });
        rest = &rest[inner_start + length + 1..];
    }
    if !rest.is_empty() {
        found.push(Piece::Literal(rest));
    }
    found
}

fn render(pieces: &[Piece<'_>], finding: &Finding, speaker: &dyn Speaker) -> Option<String> {
    let mut text = String::new();
    for piece in pieces {
        match piece {
            Piece::Literal(literal) => text.push_str(literal),
            Piece::Argument { name, form } => text.push_str(&argument(finding, name, form, speaker)?),
            Piece::Optional(inner) => text.push_str(&render(inner, finding, speaker).unwrap_or_default()),
        }
    }
    Some(text)
}

fn argument(finding: &Finding, name: &str, form: &str, speaker: &dyn Speaker) -> Option<String> {
    match name {
        "element" => finding.element.as_ref().map(|element| plain(element.as_str())),
        "state" => finding.state.as_ref().map(|state| speaker.state(state)),
        "value" => finding.value.map(|value| match finding.limit {
            Some(limit) if form.is_empty() => speaker.pair(value, limit).0,
            _ => figure(value, form, speaker),
        }),
        "limit" => finding.limit.map(|limit| match finding.value {
            Some(value) if form.is_empty() => speaker.pair(value, limit).1,
            _ => figure(limit, form, speaker),
        }),
        _ => words(finding.argument(name)?, form, speaker),
    }
}

fn words(argument: &Argument, form: &str, speaker: &dyn Speaker) -> Option<String> {
    Some(match argument {
        Argument::Text(text) => plain(&speaker.text(text)),
        Argument::Element(element) => plain(element.as_str()),
        Argument::Texts(texts) if texts.is_empty() => return None,
        Argument::Elements(elements) if elements.is_empty() => return None,
        Argument::Texts(texts) => {
            let said: Vec<String> = texts.iter().map(|text| speaker.text(text)).collect();
            list(said.iter().map(String::as_str), form, speaker)
        }
        Argument::Elements(elements) => list(elements.iter().map(|element| element.as_str()), form, speaker),
        Argument::Figure(value) => figure(*value, form, speaker),
    })
}

fn figure(value: Figure, form: &str, speaker: &dyn Speaker) -> String {
    let number = speaker.figure(value);
    match form.split_once('|') {
        Some((one, many)) if matches!(value.unit, Unit::Count | Unit::Ratio) => {
            format!("{number} {}", if value.value == 1.0 { one } else { many })
        }
        _ => number,
    }
}

fn list<'a>(names: impl ExactSizeIterator<Item = &'a str>, form: &str, speaker: &dyn Speaker) -> String {
    let joint = speaker.joint(form.starts_with("or"));
    let written = |name: &str| {
        if form.ends_with("words") { plain(&name.replace('-', " ")) } else { plain(name) }
    };
    let total = names.len();
    let shown = if total > MOST_NAMES + 1 { MOST_NAMES } else { total };
    let mut shown_names: Vec<String> = names.take(shown).map(written).collect();
    if total > shown {
        shown_names.push(speaker.more(total - shown));
    }
    match shown_names.split_last() {
        None => String::new(),
        Some((only, [])) => only.clone(),
        Some((last, others)) => format!("{} {joint} {last}", others.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_finding::{Code, ElementId, Origin, Severity};

    fn finding() -> Finding {
        Finding::new(Code("test"), Severity::Error, Origin::None)
            .about("A-1")
            .figures(35.0, 36.0, Unit::Volt)
            .with("nearest", vec![String::from("B1"), String::from("B2"), String::from("B3")])
            .with("dwellings", 1)
            .with("key", "a\u{1b}[31mb")
    }

    #[test]
    fn arguments_lists_plurals_and_optional_parts() {
        let fill = |template| fill(template, &finding());
        assert_eq!(fill("{element}: {value} of {limit}").as_deref(), Some("A-1: 35 V of 36 V"));
        assert_eq!(fill("did you mean {nearest:or}?").as_deref(), Some("did you mean B1, B2 or B3?"));
        assert_eq!(fill("{dwellings:dwelling|dwellings}").as_deref(), Some("1 dwelling"));
        assert_eq!(fill("a< by {missing}> b").as_deref(), Some("a b"));
        assert_eq!(fill("{missing}"), None);
        assert_eq!(fill("open {").as_deref(), Some("open {"));
    }

    #[test]
    fn control_characters_never_reach_the_terminal() {
        assert_eq!(fill("{key}", &finding()).as_deref(), Some("a\u{fffd}[31mb"));
    }

    #[test]
    fn long_lists_are_counted_not_cut() {
        let many: Vec<ElementId> = (0..20).map(|number| ElementId::from(format!("D{number}"))).collect();
        let finding = Finding::new(Code("test"), Severity::Error, Origin::None).with("all", many);
        let text = fill("{all}", &finding).unwrap();
        assert!(text.starts_with("D0, D1,") && text.ends_with("D7 and 12 more"), "{text}");
    }

    #[test]
    fn names_of_arguments_are_found_inside_optional_parts_too() {
        assert_eq!(argument_names("{a}< {b:or}>"), ["a", "b"]);
    }
}
