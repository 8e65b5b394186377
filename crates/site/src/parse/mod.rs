//! From TOML text to records: one level of checks that both kinds of file share.
//!
//! The text is parsed with recovery, so that one run shows every mistake, and then read through
//! the tables of keys in [`crate::keys`]. What comes out are [`Record`]s whose values have the
//! right type and lie in their accepted range; whatever was wrong is a finding with its exact
//! place.

#[cfg(test)]
pub(crate) mod asked;
mod document;
mod findings;
mod mistake;
mod nearest;
mod pieces;
mod reader;
mod record;
mod rows;
mod typed;

pub use document::{Document, LARGEST_FILE_BYTES, parse, parse_with};
pub use findings::{Findings, LARGEST_FINDING_COUNT};
pub use mistake::toml_mistake;
pub use nearest::{NameBudget, clip};
pub use reader::Reader;
pub use record::{AssumedKey, Entry, Field, Record, Value};
pub use rows::Rows;
pub(crate) use typed::plain;
pub use typed::{FromValue, Readable};
