//! From TOML text to records: one level of checks that both kinds of file share.
//!
//! The text is parsed with recovery, so that one run shows every mistake, and then read through
//! the tables of keys in [`crate::keys`]. What comes out are [`Record`]s whose values have the
//! right type and lie in their accepted range; whatever was wrong is a finding with its exact
//! place.

mod document;
mod findings;
mod nearest;
mod quantity;
mod reader;
mod record;

pub use document::{Document, LARGEST_FILE_BYTES, parse};
pub use findings::{Findings, LARGEST_FINDING_COUNT};
pub use nearest::{NameBudget, clip};
pub use quantity::{
    Bounds, Dimension, QuantityError, UNITS, UnitSymbol, read_number_and_unit, read_quantity,
};
pub use reader::Reader;
pub use record::{AssumedKey, Entry, Field, Record, Value};
