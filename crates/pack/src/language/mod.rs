//! Every word and sentence of the pack as a typed message; one module per language says them.
//!
//! A language is complete when it compiles: each module matches every message.

pub(crate) mod english;
pub(crate) mod german;
mod sentence;
mod states;
mod word;

pub use sentence::Sentence;
pub use word::Word;
