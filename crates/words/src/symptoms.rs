//! What people say when something does not work: what to measure first, and which findings it may come of.
//!
//! What is said is held against ways of saying it, word by word. A word counts the more the fewer symptoms have it, and one that is
//! denied ("no speech", "does not ring", "klingelt nicht") is another word than the same one affirmed.

mod search;
mod symptom;
mod table;

pub use search::{Meant, meant_by};
pub use symptom::Symptom;

/// Every symptom.
pub fn all() -> &'static [Symptom] {
    table::ALL
}

#[cfg(test)]
mod tests;
