//! Whole tests of the crate, in one binary: one file a subject.

mod against_check;
mod battery_house;
mod closed_form;
mod doors_hold;
mod headroom;
