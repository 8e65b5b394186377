//! A finding with the lines it points at. The only file that knows `annotate-snippets`.

use crate::paint::Look;
use crate::place::Places;
use crate::wording as said;
use crate::wrap::wrap;
use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{Annotation, AnnotationKind, Element, Level, Renderer, Snippet};
use latchline_finding::{DataGrade, Finding, Language, Severity, Span, shown};
use latchline_words::codes::Wording;
use latchline_words::report::{Mark, role, severity};
use latchline_words::states;
use std::ops::Range;

/// Lines longer than this are shown as a window around the place.
const LONGEST_LINE: usize = 2000;

/// One line of a file with what is to be pointed at in it.
struct Pointed<'a> {
    span: Span,
    line: usize,
    window: Range<usize>,
    marks: Vec<(AnnotationKind, Range<usize>, Option<String>)>,
    file: &'a latchline_finding::SourceFile,
}

/// The finding in full: message, lines with carets, hint, remedies, grade of its data.
pub fn in_full(
    places: &Places<'_>,
    finding: &Finding,
    wording: &Wording,
    currency: Option<&str>,
    look: &Look,
) -> String {
    let language = look.language;
    let pointed = pointed_lines(places, finding, wording, language);
    let level = match finding.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
        Severity::Advice => Level::INFO,
    };
    let level = level.with_name(severity(finding.severity, language));
    let note = |mark: Mark| Level::NOTE.with_name(mark.say(language));
    let help = |mark: Mark| Level::HELP.with_name(mark.say(language));
    // The line numbers and "= remedy: " stand before every message.
    let room = look.width.saturating_sub(18).max(30);
    let folded = |text: &str| wrap(text, room).join("\n");
    let mut elements: Vec<Element<'_>> = pointed.iter().map(|line| snippet(line).into()).collect();
    if pointed.is_empty()
        && let Some(place) = places.short(&finding.origin, language)
    {
        elements.push(note(Mark::At).message(folded(&place)).into());
    }
    if let Some(calls) = finding.state.as_ref().and_then(|state| states::calls_in_words(state, language)) {
        elements.push(note(Mark::Calls).message(folded(&calls)).into());
    }
    if let Some(hint) = &wording.hint {
        elements.push(help(Mark::Help).message(folded(hint)).into());
    }
    for remedy in &finding.remedies {
        elements.push(help(Mark::Remedy).message(folded(&said::remedy(remedy, currency, language))).into());
    }
    if let DataGrade::Assumed(values) = &finding.grade {
        elements.push(note(Mark::Note).message(folded(&said::rests_on(values, language))).into());
    }
    let lead = severity(finding.severity, language).len() + finding.code.as_str().len() + 4;
    let title = wrap(&wording.message, look.width.saturating_sub(lead).max(30)).join("\n");
    let group = level.primary_title(title).id(finding.code.as_str()).elements(elements);
    let renderer = if look.colour { Renderer::styled() } else { Renderer::plain() };
    renderer.decor_style(DecorStyle::Ascii).term_width(look.width.max(40)).render(&[group])
}

/// The lines to show, the finding's own first; places on one line share it.
fn pointed_lines<'a>(
    places: &Places<'a>,
    finding: &Finding,
    wording: &Wording,
    language: Language,
) -> Vec<Pointed<'a>> {
    let own = finding.origin.span().map(|span| (span, AnnotationKind::Primary, wording.label.clone()));
    let others = finding.related.iter().filter_map(|related| {
        let words = role(related.role, language);
        related.origin.span().map(|span| (span, AnnotationKind::Context, Some(words)))
    });
    let mut lines: Vec<Pointed<'a>> = Vec::new();
    for (span, kind, label) in own.into_iter().chain(others) {
        let (Some(file), Some((line, whole))) = (places.file(span.file), places.line_around(span)) else {
            continue;
        };
        let known = lines.iter_mut().find(|known| known.span.file == span.file && known.line == line);
        let target = match known {
            Some(known) => known,
            None => {
                let window = window(&file.text, whole, span);
                lines.push(Pointed { span, line, window, marks: Vec::new(), file });
                let last = lines.len() - 1;
                &mut lines[last]
            }
        };
        let mark = mark(&file.text, &target.window, span);
        target.marks.push((kind, mark, label));
    }
    lines
}

/// The whole line, or the part around the span if the line is very long.
fn window(text: &str, line: Range<usize>, span: Span) -> Range<usize> {
    if line.len() <= LONGEST_LINE {
        return line;
    }
    let centre = (span.start as usize).clamp(line.start, line.end);
    let start = floor_boundary(text, centre.saturating_sub(LONGEST_LINE / 4).max(line.start));
    let end = floor_boundary(text, (centre + LONGEST_LINE / 2).min(line.end));
    start..end.max(start)
}

/// The span within its line window, clipped to it.
fn mark(text: &str, window: &Range<usize>, span: Span) -> Range<usize> {
    let start = floor_boundary(text, (span.start as usize).clamp(window.start, window.end));
    let end = floor_boundary(text, (span.end as usize).clamp(start, window.end));
    (start - window.start)..(end - window.start)
}

fn floor_boundary(text: &str, mut offset: usize) -> usize {
    offset = offset.min(text.len());
    while !text.is_char_boundary(offset) {
        offset -= 1;
    }
    offset
}

fn snippet<'a>(line: &'a Pointed<'_>) -> Snippet<'a, Annotation<'a>> {
    let source = &line.file.text[line.window.clone()];
    // What is hidden is shown and takes more room: the marks move with it.
    let shown = |text: &'a str| shown::whole(text, &['\t']);
    let at = |offset: usize| shown(&source[..offset]).len();
    Snippet::source(shown(source))
        .line_start(line.line + 1)
        .path(shown::whole(&line.file.name, &[]))
        .annotations(line.marks.iter().map(|(kind, range, label)| {
            kind.span(at(range.start)..at(range.end)).label(label.as_deref().map(str::to_string))
        }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_finding::{Code, FileId, Origin, Sources};

    fn render(text: &str, range: Range<usize>, width: usize) -> String {
        let mut sources = Sources::new();
        let file = sources.add("site.toml", text);
        let finding = Finding::new(Code("test"), Severity::Error, Span::new(file, range));
        let wording =
            Wording { message: "wrong".into(), label: Some("here".into()), hint: Some("write it".into()) };
        in_full(&Places::new(&sources), &finding, &wording, None, &Look { width, ..Look::default() })
    }

    #[test]
    fn the_caret_stands_under_the_place() {
        assert_eq!(
            render("a = 1\nbb = 2\n", 11..12, 100),
            "error[test]: wrong\n --> site.toml:2:6\n  |\n2 | bb = 2\n  |      ^ here\n  |\n  = help: write it"
        );
    }

    #[test]
    fn what_is_hidden_in_a_line_is_shown_and_the_caret_stands_under_it() {
        let shown = render("a\u{200b} = \u{9b}1\n", 7..9, 100);
        assert!(shown.contains("1 | a<U+200B> = <U+009B>1"), "{shown}");
        assert!(shown.contains("  |             ^^^^^^^^ here"), "{shown}");
    }

    #[test]
    fn no_span_however_odd_breaks_it() {
        for text in ["", "\n", "\r\n", "ä\tµ\u{0}\r\nx", "a = [", &"x".repeat(100_000)] {
            for start in [0, 1, 2, 3, 7, 99_999, 100_000, 200_000] {
                for length in [0, 1, 5, 100_000] {
                    let shown = render(text, start..start + length, 80);
                    assert!(shown.contains("error[test]: wrong"), "{shown}");
                    assert!(shown.len() < 4_000, "a long line is cut to a window");
                }
            }
        }
    }

    #[test]
    fn places_on_one_line_share_it_and_others_follow() {
        let mut sources = Sources::new();
        let file = sources.add("site.toml", "a = 1\na = 2\n");
        let finding = Finding::new(Code("twice"), Severity::Error, Span::new(file, 6..7))
            .also_at("first-defined-here", Span::new(file, 0..1))
            .also_at("limit-from", Span::new(FileId(9), 0..1))
            .also_at("value", Span::new(file, 10..11))
            .also_at("limit-from", Origin::None);
        let wording = Wording { message: "twice".into(), label: None, hint: None };
        let shown = in_full(&Places::new(&sources), &finding, &wording, None, &Look::default());
        assert!(shown.contains("1 | a = 1") && shown.contains("first defined here"), "{shown}");
        assert_eq!(shown.matches("a = 2").count(), 1, "{shown}");
    }
}
