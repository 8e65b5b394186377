//! Pure numerics of a two-wire bus: conductors, flow, start-up, signal, locks, batteries.
//!
//! Bare arrays and plain `f64` with the unit in the name; nothing here knows of files, sites or
//! devices. Every module opens with its mathematics and names what it claims.
pub mod signal;

pub mod battery;
pub mod conductor;
pub mod flow;
pub mod lock;
mod range;
pub mod short_circuit;
pub mod startup;

pub use range::RangeError;
