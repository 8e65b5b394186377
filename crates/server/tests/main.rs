//! Whole tests of the crate, in one binary: one file a subject.

mod catalogues;
mod common;
mod fault;
mod hostile;
mod joined_job;
mod one_rounding;
mod turns;
