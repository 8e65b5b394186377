//! The sheets of one entrance and of one supply, for a person at the door or the cupboard.
//!
//! Every figure is taken from the assessment; limits and what holds are said there.

mod door;
mod fittings;
mod supply;

pub use door::door;
pub use supply::supply;

use crate::paint::Look;
use crate::report::Report;
use crate::table::paragraph;
use crate::{template, wording};
use latchline_assess::CalculationLine;
use latchline_finding::{ElementId, Figure, Severity, Unit};
use latchline_words::codes;
use latchline_words::figures;
use latchline_words::report::{Label, SheetHead, SheetWords, severity};
use std::fmt::Write;

/// Columns of the labels at the left.
const LABEL: usize = 12;

/// A fact with its label, the text hanging beside it.
fn fact(label: Label, text: &str, look: &Look) -> String {
    labelled(label.say(look.language), text, look)
}

/// A further line of the fact before.
fn further(text: &str, look: &Look) -> String {
    labelled("", text, look)
}

fn labelled(label: &str, text: &str, look: &Look) -> String {
    let indent = LABEL + 2;
    let body = paragraph(&template::plain(text), indent, look.width);
    let head = format!("  {label:<LABEL$}");
    let rest = body.get(indent..).unwrap_or_default();
    // A label of another width than its place (none today) must not cut the text.
    if body.len() >= indent { format!("{}{rest}", look.faint(&head)) } else { format!("{head}{body}") }
}

/// Calculation lines: what, result against limit, formula, inputs with their sources.
fn calculation(lines: &[CalculationLine], look: &Look) -> String {
    let mut text = String::new();
    for line in lines {
        let name = wording::capital(line.quantity.say(look.language));
        // The sign that the formula gives to its result.
        let symbol = line.formula.say(look.language).split([' ', '<']).next().unwrap_or_default();
        let (result, verdict) = match line.limit {
            None => (figures::shown(line.result, line.rounding, look.language), String::new()),
            Some(limit) => {
                let holds_at_least = limit.is_least;
                let (result, shown) =
                    figures::pair(never_better(line.result, limit.is_least), limit.figure, look.language);
                let limit = &shown;
                let words = match holds_at_least {
                    true => SheetWords::NeedsAtLeast { limit },
                    false => SheetWords::MayBeAtMost { limit },
                };
                let ends = if line.holds() { SheetWords::Holds } else { SheetWords::DoesNotHold };
                (result, format!(", {}: {}", words.say(look.language), ends.say(look.language)))
            }
        };
        let head = format!("{name}: {symbol} = {result}{verdict}");
        let head = if line.holds() { look.bold(&head) } else { look.severity(Severity::Error, &head) };
        let _ = writeln!(text, "    {head}");
        text.push_str(&paragraph(
            &format!("{} ({})", line.formula.say(look.language), line.source.say(look.language)),
            6,
            look.width,
        ));
        let inputs: Vec<String> = line
            .inputs
            .iter()
            .map(|input| {
                let figure = figures::input(input.figure, input.rounding, look.language);
                let source = template::plain(&input.source.say(look.language));
                format!("{} {figure} ({source})", input.symbol.say(look.language))
            })
            .collect();
        text.push_str(&paragraph(&inputs.join("; "), 6, look.width));
    }
    text
}

/// The figure rounded against itself to the decimals in which it is shown.
fn never_better(figure: Figure, is_least: bool) -> Figure {
    let scale = if figure.unit == Unit::Hour { 10.0 } else { 100.0 };
    let scaled = figure.value * scale;
    let nearest = scaled.round();
    let whole = if (scaled - nearest).abs() < 1e-6 {
        nearest
    } else if is_least {
        scaled.floor()
    } else {
        scaled.ceil()
    };
    // Small figures (milliohms, milliamperes) are shown with more decimals than these.
    let value = if figure.value.abs() < 0.1 { figure.value } else { whole / scale };
    Figure { value, ..figure }
}

/// Findings and gaps about one element, worst first.
fn findings(report: &Report<'_>, element: &ElementId, look: &Look) -> String {
    let mut text = String::new();
    let about = |finding: &&&latchline_finding::Finding| finding.element.as_ref() == Some(element);
    for finding in report.standing.iter().filter(about) {
        let words = codes::wording(finding, look.language);
        let severity = severity(finding.severity, look.language);
        let line = format!("{severity}: {}: {}", finding.code, words.message);
        text.push_str(&paragraph(&line, 2, look.width));
        if let Some(hint) = words.hint {
            text.push_str(&paragraph(&hint, 4, look.width));
        }
    }
    let gaps = report.assessment.map_or(&[][..], |assessment| &assessment.not_judged);
    for gap in gaps.iter().filter(|gap| gap.elements.contains(element)) {
        let missing = &template::plain(&gap.missing.say(look.language));
        let line = SheetWords::NotJudgedFor { code: gap.code.as_str(), missing }.say(look.language);
        text.push_str(&paragraph(&line, 2, look.width));
    }
    if text.is_empty() {
        return String::new();
    }
    format!("{}\n{text}", look.bold(SheetHead::Findings.say(look.language)))
}

/// The last line of every sheet.
fn caution(look: &Look) -> String {
    look.faint(paragraph(&SheetWords::Caution.say(look.language), 0, look.width).trim_end()) + "\n"
}
