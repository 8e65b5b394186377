//! Whole tests of the crate, in one binary: one file a subject.

mod cable_current;
mod cable_losses;
mod calls_are_complete;
mod conductors_outside_the_table;
mod memory;
mod own_consumption_of_boxes;
mod power_of_a_source;
mod protectors_where_they_sit;
mod random_site;
mod readings_of_a_site;
mod reduced_calls;
mod refused_figures;
mod releases_at_once;
mod short_circuit_of_a_site;
mod signal_of_a_site;
mod small_site;
mod start_up_of_a_site;
mod tolerance_of_a_site;
mod witness;
mod worst_set_against_enumeration;
