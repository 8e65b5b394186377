//! Whole tests of the crate, in one binary: one file a subject.

mod hostile;
mod reading;
mod told;
