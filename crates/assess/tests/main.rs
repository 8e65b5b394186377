//! Whole tests of the crate, in one binary: one file a subject.

mod door;
mod physics;
mod rules;
