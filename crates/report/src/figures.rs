//! Numbers for people.

pub use latchline_words::figures::{fixed, pair, rounded_down, rounded_up, sentence, shown, trimmed};
