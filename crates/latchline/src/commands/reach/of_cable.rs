//! What was found of one cable, and its figures in words.

use latchline_finding::Language;
use latchline_reach::Cell;
use latchline_words::commands::LimitWord;
use latchline_words::figures;

/// Answers for one cable.
pub struct OfCable {
    pub cable: String,
    pub cells: Vec<Cell>,
    /// Codes of what could not be judged for lack of values.
    pub not_judged: Vec<&'static str>,
}

/// A length in metres to a tenth.
pub fn trimmed(length_m: f64, language: Language) -> String {
    figures::decimals(figures::trimmed(length_m, 1), language)
}

/// A word for what limits.
pub fn limit_word(limit: latchline_reach::ReachLimit) -> LimitWord {
    use latchline_reach::ReachLimit;
    match limit {
        ReachLimit::Voltage => LimitWord::Voltage,
        ReachLimit::Collapse => LimitWord::Collapse,
        ReachLimit::PortCurrent => LimitWord::PortCurrent,
        ReachLimit::SupplyCurrent => LimitWord::SupplyCurrent,
        ReachLimit::Count => LimitWord::Count,
        ReachLimit::Length => LimitWord::Length,
        ReachLimit::Signal => LimitWord::Signal,
        ReachLimit::StartUp => LimitWord::StartUp,
        ReachLimit::ShortCircuit => LimitWord::ShortCircuit,
        ReachLimit::OtherRule => LimitWord::OtherRule,
        ReachLimit::Undecided => LimitWord::Undecided,
        ReachLimit::None => LimitWord::None,
    }
}
