//! One line of a calculation.

use crate::json_findings::{figure, unit};
use crate::json_values::finite;
use latchline_assess::{CalculationLine, Rounding};
use latchline_finding::Language;
use schemars::JsonSchema;
use serde::Serialize;

/// One line of a calculation.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct LineDocument {
    /// What is calculated, in kebab case.
    quantity: String,
    /// The formula.
    formula: &'static str,
    /// Its inputs.
    inputs: Vec<InputDocument>,
    /// The result in `unit`.
    #[serde(skip_serializing_if = "Option::is_none")]
    result: Option<f64>,
    /// What it is held against, in `unit`.
    #[serde(skip_serializing_if = "Option::is_none")]
    limit: Option<f64>,
    /// "least" or "most".
    #[serde(skip_serializing_if = "Option::is_none")]
    limit_is: Option<&'static str>,
    /// Unit of result and limit.
    unit: &'static str,
    /// Side to which it is rounded where it is shown: "nearest", "down" or "up".
    rounded: &'static str,
    /// Whether it holds its limit; true without one.
    holds: bool,
    /// Where the formula is from.
    source: &'static str,
}

/// An input of a formula.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct InputDocument {
    /// Its symbol in the formula.
    symbol: &'static str,
    /// Its value in `unit`.
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<f64>,
    /// Unit.
    unit: &'static str,
    /// Where it is from.
    source: String,
}

pub(super) fn line(line: &CalculationLine) -> LineDocument {
    let inputs = line.inputs.iter().map(|input| {
        let shown = figure(&input.figure);
        InputDocument {
            symbol: input.symbol.say(Language::English),
            value: shown.value,
            unit: shown.unit,
            source: input.source.say(Language::English),
        }
    });
    LineDocument {
        quantity: line.quantity.name(),
        formula: line.formula.say(Language::English),
        inputs: inputs.collect(),
        result: finite(line.result.value),
        limit: line.limit.and_then(|limit| finite(limit.figure.value)),
        limit_is: line.limit.map(|limit| if limit.is_least { "least" } else { "most" }),
        unit: unit(line.result.unit),
        rounded: match line.rounding {
            Rounding::Nearest => "nearest",
            Rounding::Down => "down",
            Rounding::Up => "up",
        },
        holds: line.holds(),
        source: line.source.say(Language::English),
    }
}
