//! What the office page says.

mod sentences;
mod words;

pub use sentences::Told;
pub use words::Label;
