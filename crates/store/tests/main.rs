//! The store held against what it promises.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    missing_docs,
    reason = "tests may fail, and look at files"
)]

mod clients;
mod common;
mod durability;
mod live;
mod refused;
mod revisions;
mod submissions;
mod telephone;
