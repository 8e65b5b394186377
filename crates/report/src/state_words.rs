//! Operating states in words, in English.

use latchline_finding::{Language, OperatingState};
use latchline_words::states;

/// A few words for a table: "2 calls", "power return".
pub fn few_words(state: &OperatingState) -> String {
    states::few_words(state, Language::English)
}

/// Words for a sentence: "with 2 calls at once", "in standby by night".
pub fn in_words(state: &OperatingState) -> String {
    states::in_words(state, Language::English)
}

/// The calls that stand in a state: "front-A rings A-401; gate talks with A-402, lock released".
pub fn calls_in_words(state: &OperatingState) -> Option<String> {
    states::calls_in_words(state, Language::English)
}
