//! Site file and catalogue: parse, resolve, edit, number.
//!
//! * [`resolve()`]: the texts of a site file and its catalogues to a [`model::Site`], with every
//!   mistake of all files as a finding;
//! * [`bill`]: what must be bought and pulled, and what it costs;
//! * [`codes`]: the manual pages of those findings.

pub mod addresses;
pub mod bill;
mod builtin;
pub mod catalogue;
pub mod codes;
pub mod edit;
pub mod keys;
pub mod model;
pub mod parse;
mod resolve;
pub mod schema;

pub use builtin::builtin_catalogue;
pub use resolve::{Resolved, catalogue_paths, resolve};
