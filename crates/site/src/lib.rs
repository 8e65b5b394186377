//! Site file and catalogue: parse, resolve, edit.

pub mod catalogue;
pub mod model;

/// Placeholder until parsing lands.
pub fn resolve() {}
