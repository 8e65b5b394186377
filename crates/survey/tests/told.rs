//! Mistakes of a survey as lines to look for words in.

use latchline_finding::{Argument, Finding, Origin};
use latchline_survey::Problem;

/// One line a finding: sheet, row and column, code, element, arguments.
pub fn lines(problems: &[Problem]) -> String {
    problems.iter().map(|problem| line(&problem.finding())).collect::<Vec<_>>().join("\n")
}

fn line(finding: &Finding) -> String {
    let place = match &finding.origin {
        Origin::Cell { sheet, row, column, .. } => format!("{sheet} {row}:{column}"),
        _ => String::from("-"),
    };
    let mut line = format!("{place} {}", finding.code);
    if let Some(element) = &finding.element {
        line += &format!(" of {element}");
    }
    for (name, argument) in &finding.arguments {
        line += &match argument {
            Argument::Text(text) => format!(", {name} {text}"),
            Argument::Words(words) => format!(", {name} {}", words.name()),
            Argument::Texts(texts) => format!(", {name} {}", texts.join("/")),
            Argument::Figure(figure) => format!(", {name} {}", figure.value),
            other => format!(", {name} {other:?}"),
        };
    }
    line
}
