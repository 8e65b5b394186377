//! The small language in which messages are written.
//!
//! `{name}` stands for an argument. `{names:or}` joins several with "or" (else "and"); `{count:dwelling|dwellings}`
//! puts the noun after a count; `{figure:down}` rounds a figure down; `{thing:a}` puts "a" or "an" before a word of ours in English. A part in `<...>` is left out when an argument in it is missing. No other signs are
//! special. A finding has four arguments beside its own: `element`, `value`, `limit` and `state`.

use crate::{figures, row};
use latchline_finding::{Both, ElementId, Figure, Language, Locale, Rounding, Unit, shown};

/// Most names that one sentence lists where lists are counted.
const MOST_NAMES: usize = 8;

/// How a sentence lists many names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Lists {
    /// The first of them, and how many more: where somebody reads on a screen.
    Counted,
    /// Every one: on paper, which nobody can ask for the rest.
    Whole,
}

/// Text from outside as it may be shown, so that a name cannot drive a terminal nor hide what is in it.
pub fn plain(text: &str) -> String {
    shown::prose(text).into_owned()
}

/// An argument of a sentence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Said<'a> {
    /// A name or a figure as it is to be shown.
    Text(&'a str),
    /// How many.
    Count(usize),
    /// A number with its unit.
    Figure(Figure),
    /// A word of ours, in English and in German.
    Row([&'static str; 2]),
    /// What is said in both languages.
    Both(&'a Both),
    /// Nothing: the part in which it stands is left out.
    Missing,
}

/// What can stand in a sentence.
pub trait Say {
    /// As an argument.
    fn said(&self) -> Said<'_>;
}

impl Say for &str {
    fn said(&self) -> Said<'_> {
        Said::Text(self)
    }
}

impl Say for String {
    fn said(&self) -> Said<'_> {
        Said::Text(self)
    }
}

impl Say for ElementId {
    fn said(&self) -> Said<'_> {
        Said::Text(self.as_str())
    }
}

impl Say for usize {
    fn said(&self) -> Said<'_> {
        Said::Count(*self)
    }
}

impl Say for Figure {
    fn said(&self) -> Said<'_> {
        Said::Figure(*self)
    }
}

impl Say for Both {
    fn said(&self) -> Said<'_> {
        Said::Both(self)
    }
}

impl<T: Say> Say for Option<T> {
    fn said(&self) -> Said<'_> {
        self.as_ref().map_or(Said::Missing, Say::said)
    }
}

impl<T: Say + ?Sized> Say for Box<T> {
    fn said(&self) -> Said<'_> {
        (**self).said()
    }
}

impl<T: Say + ?Sized> Say for &T {
    fn said(&self) -> Said<'_> {
        (*self).said()
    }
}

/// A piece of a template.
#[derive(Debug, PartialEq)]
pub(crate) enum Piece<'a> {
    Literal(&'a str),
    Argument { name: &'a str, form: &'a str },
    Optional(Vec<Piece<'a>>),
}

/// Says an argument by its name and form; `None` where it is missing.
pub(crate) type Arguments<'a> = dyn Fn(&str, &str) -> Option<String> + 'a;

/// Fills in a template with these arguments.
pub(crate) fn filled(template: &str, arguments: &[(&str, Said<'_>)], locale: Locale) -> String {
    let language = locale.language;
    let say = |name: &str, form: &str| {
        let (_, said) = arguments.iter().find(|(known, _)| *known == name)?;
        Some(match said {
            Said::Text(text) => String::from(*text),
            Said::Count(count) => counted(*count as f64, count.to_string(), form),
            Said::Figure(value) => figure(*value, form, locale),
            Said::Row(row) => with_article(row::of(*row, language), form, language),
            Said::Both(both) => with_article(both.of(language), form, language),
            Said::Missing => return None,
        })
    };
    render(&pieces(template), &say).unwrap_or_default()
}

/// Names of all arguments that a template uses, the finding's own fields included, and whether each stands in a part
/// that may be left out.
pub fn argument_names(template: &str) -> Vec<(String, bool)> {
    fn collect(pieces: &[Piece<'_>], optional: bool, names: &mut Vec<(String, bool)>) {
        for piece in pieces {
            match piece {
                Piece::Literal(_) => {}
                Piece::Argument { name, .. } => names.push(((*name).to_string(), optional)),
                Piece::Optional(inner) => collect(inner, true, names),
            }
        }
    }
    let mut names = Vec::new();
    collect(&pieces(template), false, &mut names);
    names
}

pub(crate) fn pieces(template: &str) -> Vec<Piece<'_>> {
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

pub(crate) fn render(pieces: &[Piece<'_>], arguments: &Arguments<'_>) -> Option<String> {
    let mut text = String::new();
    for piece in pieces {
        match piece {
            Piece::Literal(literal) => text.push_str(literal),
            Piece::Argument { name, form } => text.push_str(&arguments(name, form)?),
            Piece::Optional(inner) => text.push_str(&render(inner, arguments).unwrap_or_default()),
        }
    }
    Some(text)
}

pub(crate) fn figure(value: Figure, form: &str, locale: Locale) -> String {
    let number = match form {
        "down" => figures::shown(value, Rounding::Down, locale),
        _ => figures::sentence(value, locale),
    };
    if matches!(value.unit, Unit::Count | Unit::Ratio) { counted(value.value, number, form) } else { number }
}

/// A word with its article in English where the form asks for one: "an entrance", "a box".
pub(crate) fn with_article(word: &str, form: &str, language: Language) -> String {
    match (form, language) {
        ("a", Language::English) if word.starts_with(['a', 'e', 'i', 'o', 'u']) => format!("an {word}"),
        ("a", Language::English) => format!("a {word}"),
        _ => String::from(word),
    }
}

/// A number with the noun that fits it: "1 dwelling", "3 dwellings". A form with `#` has the number there ("the one device is|all # devices are"),
/// one that begins with `~` has none ("~is|~are").
fn counted(value: f64, number: String, form: &str) -> String {
    let Some((one, many)) = form.split_once('|') else { return number };
    let words = if value == 1.0 { one } else { many };
    match words.strip_prefix('~') {
        Some(words) => String::from(words),
        None if form.contains('#') => words.replace('#', &number),
        None => format!("{number} {words}"),
    }
}

/// Names one after the other, the last after "and"; of many the first, and how many more.
pub fn names(names: &[&str], language: Language) -> String {
    list(names.iter().copied(), "and", Lists::Counted, language)
}

/// The same with every one of them.
pub fn all_names(names: &[&str], language: Language) -> String {
    list(names.iter().copied(), "and", Lists::Whole, language)
}

pub(crate) fn list<'a>(
    names: impl ExactSizeIterator<Item = &'a str>,
    form: &str,
    lists: Lists,
    language: Language,
) -> String {
    let joint = match (form == "or", language) {
        (true, Language::English) => "or",
        (false, Language::English) => "and",
        (true, Language::German) => "oder",
        (false, Language::German) => "und",
    };
    let total = names.len();
    let is_counted = lists == Lists::Counted && total > MOST_NAMES + 1;
    let named = if is_counted { MOST_NAMES } else { total };
    let mut shown_names: Vec<String> = names.take(named).map(plain).collect();
    if total > named {
        let more = total - named;
        shown_names.push(match language {
            Language::English => format!("{more} more"),
            Language::German => format!("{more} weitere"),
        });
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
    use crate::of_finding::fill;
    use latchline_finding::Finding;
    use latchline_finding::{Code, ElementId, Origin, Severity};

    fn finding() -> Finding {
        Finding::new(Code("test"), Severity::Error, Origin::None)
            .about("A-1")
            .figures(35.0, 36.0, Unit::Volt)
            .with("nearest", vec![String::from("B1"), String::from("B2"), String::from("B3")])
            .with("dwellings", 1)
            .with("kind", Both::new("fire", "Brand"))
            .with("key", "a\u{1b}[31mb")
    }

    #[test]
    fn arguments_lists_plurals_and_optional_parts() {
        let fill = |template| fill(template, &finding(), Language::English);
        assert_eq!(fill("{element}: {value} of {limit}").as_deref(), Some("A-1: 35 V of 36 V"));
        assert_eq!(fill("did you mean {nearest:or}?").as_deref(), Some("did you mean B1, B2 or B3?"));
        assert_eq!(fill("{dwellings:dwelling|dwellings}").as_deref(), Some("1 dwelling"));
        assert_eq!(fill("a< by {missing}> b").as_deref(), Some("a b"));
        assert_eq!(fill("{missing}"), None);
        assert_eq!(fill("open {").as_deref(), Some("open {"));
        assert_eq!(fill("{kind}").as_deref(), Some("fire"));
        assert_eq!(fill("{kind:a}").as_deref(), Some("a fire"));
        assert_eq!(with_article("entrance", "a", Language::English), "an entrance");
        assert_eq!(with_article("Eingang", "a", Language::German), "Eingang");
    }

    #[test]
    fn words_and_joints_are_said_in_the_language_that_is_asked_for() {
        let fill = |template| fill(template, &finding(), Language::German);
        assert_eq!(fill("{nearest:or}, {kind}").as_deref(), Some("B1, B2 oder B3, Brand"));
    }

    #[test]
    fn control_characters_never_reach_the_terminal() {
        assert_eq!(fill("{key}", &finding(), Language::English).as_deref(), Some("a<U+001B>[31mb"));
    }

    #[test]
    fn long_lists_are_counted_not_cut() {
        let many: Vec<ElementId> = (0..20).map(|number| ElementId::from(format!("D{number}"))).collect();
        let finding = Finding::new(Code("test"), Severity::Error, Origin::None).with("all", many);
        let text = fill("{all}", &finding, Language::English).unwrap();
        assert!(text.starts_with("D0, D1,") && text.ends_with("D7 and 12 more"), "{text}");
        let whole =
            crate::of_finding::filled("{all}", &finding, Lists::Whole, Language::English.into()).unwrap();
        assert!(
            (0..20).all(|number| whole.contains(&format!("D{number}"))) && whole.ends_with("D18 and D19"),
            "{whole}"
        );
    }

    #[test]
    fn names_of_arguments_are_found_inside_optional_parts_too() {
        let names = [(String::from("a"), false), (String::from("b"), true)];
        assert_eq!(argument_names("{a}< {b:or}>"), names);
    }

    #[test]
    fn a_limit_without_a_figure_is_an_argument() {
        let found =
            Finding::new(Code("too-many-rows"), Severity::Error, Origin::None).with("limit", 20_000_usize);
        let said = |language| crate::codes::wording(&found, language).message;
        assert_eq!(said(Language::English), "more than 20000 rows");
        assert_eq!(said(Language::German), "Mehr als 20000 Zeilen");
    }
}
