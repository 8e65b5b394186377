//! The pack in German.

pub(super) mod foreign;
mod sentences;
mod words;

pub(crate) use sentences::sentence;
pub(crate) use words::word;
