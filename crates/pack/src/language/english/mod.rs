//! The pack in English.

mod sentences;
mod words;

pub(crate) use sentences::sentence;
pub(crate) use words::word;
