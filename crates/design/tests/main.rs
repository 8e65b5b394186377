//! Whole tests of the crate, in one binary: one file a subject.

mod bound;
mod buses;
mod choice;
mod common;
mod corridors;
