//! What the pack says of states, findings and figures; its words are rows of `latchline_words::pack`.

mod states;

pub use latchline_words::pack::{BuiltWords, Sentence, TERMS, Word};
