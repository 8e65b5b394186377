//! Whole tests of the crate, in one binary: one file a subject.

mod filling;
mod random_sites;
