//! What the office page says.

mod refusals;
mod sentences;
mod words;

pub use refusals::OfficeRefusal;
pub use sentences::Told;
pub use words::Label;
