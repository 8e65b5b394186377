//! Numbers for people, in English.

pub use latchline_words::figures::{fixed, rounded_down, rounded_up, trimmed};

use latchline_finding::{Figure, Language, Rounding};
use latchline_words::figures;

/// A figure as it stands in a sentence: "36 V", "4.7 %", "3". Currents and loads are rounded up, here
/// as in every table.
pub fn sentence(figure: Figure) -> String {
    figures::sentence(figure, Language::English)
}

/// A figure as it stands in a sentence, rounded to this side.
pub fn shown(figure: Figure, rounding: Rounding) -> String {
    figures::shown(figure, rounding, Language::English)
}

/// A figure and its limit, rounded away from the limit.
pub fn pair(value: Figure, limit: Figure) -> (String, String) {
    figures::pair(value, limit, Language::English)
}
