//! Whole tests of the crate, in one binary: one file a subject.

mod boxes;
mod common;
mod door_and_supply;
mod given_up;
mod moved;
mod random_failing_sites;
mod rearranged;
mod signal;
mod supplies_and_ports;
mod without_trial;
