//! One line of a calculation sheet: formula, inputs with their sources, result, limit, source of the formula.

pub use latchline_finding::Rounding;
use latchline_finding::{Figure, Unit};
pub use latchline_words::calculation::{Formula, FormulaSource, InputSource, Quantity, Symbol};

/// An input of a formula.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// Its symbol in the formula.
    pub symbol: Symbol,
    /// Its value.
    pub figure: Figure,
    /// Where it is from.
    pub source: InputSource,
    /// How it is rounded where it is shown: as in the line that it results from.
    pub rounding: Rounding,
}

impl Input {
    /// An input.
    pub fn new(symbol: Symbol, value: f64, unit: Unit, source: InputSource) -> Self {
        Input { symbol, figure: Figure::new(value, unit), source, rounding: Rounding::Nearest }
    }

    /// An input that a key of a part states, or one of the site's conditions or policy.
    pub fn of_key(symbol: Symbol, value: f64, unit: Unit, part: &str, key: &'static str) -> Self {
        let key = key.into();
        let source = match part {
            "conditions" => InputSource::Conditions { key },
            "policy" => InputSource::Policy { key },
            _ => match part.strip_suffix(" battery") {
                Some(supply) => InputSource::BatteryKey { part: supply.to_string(), key },
                None => InputSource::Key { part: part.to_string(), key },
            },
        };
        Self::new(symbol, value, unit, source)
    }

    /// The same, rounded to this side.
    #[must_use]
    pub fn rounded(self, rounding: Rounding) -> Self {
        Input { rounding, ..self }
    }
}

/// What a result is held against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// The limit.
    pub figure: Figure,
    /// Whether the result must not be below it; else it must not be above.
    pub is_least: bool,
}

impl Limit {
    /// The result must not be below this.
    pub fn least(value: f64, unit: Unit) -> Self {
        Limit { figure: Figure::new(value, unit), is_least: true }
    }

    /// The result must not be above this.
    pub fn most(value: f64, unit: Unit) -> Self {
        Limit { figure: Figure::new(value, unit), is_least: false }
    }

    /// Whether a result holds it.
    pub fn holds(&self, value: f64) -> bool {
        if self.is_least { value >= self.figure.value } else { value <= self.figure.value }
    }
}

/// One line of a calculation.
#[derive(Debug, Clone, PartialEq)]
pub struct CalculationLine {
    /// What is calculated.
    pub quantity: Quantity,
    /// The formula with its symbols.
    pub formula: Formula,
    /// Its inputs in the order of the formula.
    pub inputs: Vec<Input>,
    /// The result.
    pub result: Figure,
    /// How the result is rounded where it is shown.
    pub rounding: Rounding,
    /// What it is held against, if anything.
    pub limit: Option<Limit>,
    /// Where the formula is from, or what the figure is for.
    pub source: FormulaSource,
}

impl CalculationLine {
    /// Whether the result holds its limit; true without one.
    pub fn holds(&self) -> bool {
        self.limit.is_none_or(|limit| limit.holds(self.result.value))
    }
}
