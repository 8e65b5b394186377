//! Whole tests of the crate, in one binary: one file a subject.
#![allow(clippy::unwrap_used, reason = "a case that cannot be built is a failed test")]

mod catalogues;
mod common;
mod in_order;
mod one_slip;
mod revisions;
mod staged;
