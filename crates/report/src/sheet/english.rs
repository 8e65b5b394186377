//! Figures and states as the sheets say them.

use latchline_finding::{Figure, Language, OperatingState, Rounding};
use latchline_words::{figures, states};

pub(super) fn sentence(figure: Figure) -> String {
    figures::sentence(figure, Language::English)
}

pub(super) fn shown(figure: Figure, rounding: Rounding) -> String {
    figures::shown(figure, rounding, Language::English)
}

pub(super) fn pair(value: Figure, limit: Figure) -> (String, String) {
    figures::pair(value, limit, Language::English)
}

pub(super) fn in_words(state: &OperatingState) -> String {
    states::in_words(state, Language::English)
}

pub(super) fn few_words(state: &OperatingState) -> String {
    states::few_words(state, Language::English)
}
