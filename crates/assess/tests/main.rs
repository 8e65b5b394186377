//! Whole tests of the crate, in one binary: one file a subject.

mod assumed;
mod door;
mod given_up;
mod hints;
mod many_jobs;
mod overlapping_calls;
mod physics;
mod rules;
