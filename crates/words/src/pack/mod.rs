//! What the pack says.

mod sentences;
mod words;

pub use sentences::Sentence;
pub use words::Word;
