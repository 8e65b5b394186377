//! The pack in German.

pub(super) mod findings;
pub(super) mod foreign;
mod sentences;
pub(super) mod titles;
mod words;

pub(crate) use sentences::sentence;
pub(crate) use words::word;
