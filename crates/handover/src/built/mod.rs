//! What the as-built columns say against the plan: length and type of cables, addresses, places.
//!
//! Where the site file has one key that says it, the edit that takes it over. What has none stays in the workbook and is counted.

mod cables;
mod devices;
mod difference;
mod read;

pub use difference::{Built, Difference, Takes};
pub use read::read;
