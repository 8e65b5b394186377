//! Whole tests of the crate, in one binary: one file a subject.

mod battery;
mod conductor_published;
mod flow_properties;
mod flow_published;
mod lock;
mod short_circuit;
mod signal_lines;
mod signal_response;
mod startup;
