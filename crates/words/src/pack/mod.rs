//! What the pack says.

mod glossary;
mod sentences;
mod words;

pub use glossary::{TERMS, Term};
pub use sentences::Sentence;
pub use words::Word;
