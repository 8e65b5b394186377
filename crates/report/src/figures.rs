//! Numbers for people.

pub use latchline_words::figures::{
    decimals, fixed, pair, rounded_down, rounded_up, sentence, shown, trimmed,
};
