//! What drawings say.

mod phrases;
mod words;

pub use phrases::Phrase;
pub use words::Word;
