//! The sheets of one entrance and of one supply, for a person at the door or the cupboard.
//!
//! Every figure is taken from the assessment; limits and what holds are said there.

mod door;
mod english;
mod fittings;
mod supply;
pub(crate) mod words;

pub use door::door;
pub use supply::supply;

use crate::paint::Look;
use crate::report::Report;
use crate::table::paragraph;
use crate::{template, wording};
use latchline_assess::CalculationLine;
use latchline_finding::{ElementId, Figure, Severity, Unit};
use latchline_words::codes;
use latchline_words::report::severity;
use std::fmt::Write;

pub(crate) const CAUTION: &str = "A calculation and advice, not a certificate. Local codes and the responsible \
                       person prevail.";

/// Columns of the labels at the left.
const LABEL: usize = 12;

/// A fact with its label, the text hanging beside it.
fn fact(label: &str, text: &str, look: &Look) -> String {
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
        let name = wording::capital(&line.quantity.replace('-', " "));
        // The sign that the formula gives to its result.
        let symbol = line.formula.split([' ', '<']).next().unwrap_or_default();
        let (result, verdict) = match line.limit {
            None => (english::shown(line.result, line.rounding), String::new()),
            Some(limit) => {
                let (result, shown) = english::pair(never_better(line.result, limit.is_least), limit.figure);
                let word = if limit.is_least { "needs at least" } else { "may be at most" };
                let ends = if line.holds() { "holds" } else { "does not hold" };
                (result, format!(", {word} {shown}: {ends}"))
            }
        };
        let head = format!("{name}: {symbol} = {result}{verdict}");
        let head = if line.holds() { look.bold(&head) } else { look.severity(Severity::Error, &head) };
        let _ = writeln!(text, "    {head}");
        text.push_str(&paragraph(&format!("{} ({})", line.formula, line.source), 6, look.width));
        let inputs: Vec<String> = line
            .inputs
            .iter()
            .map(|input| {
                let figure = english::shown(input.figure, input.rounding);
                format!("{} {figure} ({})", input.symbol, template::plain(&input.source))
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
        let line = format!("not judged: {}: needs {}", gap.code, template::plain(&gap.missing));
        text.push_str(&paragraph(&line, 2, look.width));
    }
    if text.is_empty() {
        return String::new();
    }
    format!("{}\n{text}", look.bold("Findings"))
}

/// The last line of every sheet.
fn caution(look: &Look) -> String {
    look.faint(paragraph(CAUTION, 0, look.width).trim_end()) + "\n"
}
