//! Whole tests of the crate, in one binary: one file a subject.

mod addresses;
mod changes;
mod codes;
mod common;
mod currency;
mod edit;
mod effort;
mod hostile;
mod pages;
mod resolve;
mod schema;
