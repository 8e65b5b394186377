//! What the pack says.

mod built;
mod glossary;
mod sentences;
mod words;

pub use built::BuiltWords;
pub use glossary::{TERMS, Term};
pub use sentences::Sentence;
pub use words::Word;
