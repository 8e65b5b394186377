//! Short circuits: how much current flows, what acts, what else goes dark, how warm the cable gets.
//!
//! # Prospective current
//!
//! A short of resistance `R_f` across the pair at node `f` of a rooted tree. With every other load
//! a constant current, superposition gives
//!
//! ```text
//! I_f = (V0 - D_f) / (R_s + R_f_path + R_f),   D_f = sum over the path of r_k L_k  (+ R_s L_0)
//! ```
//!
//! with `L_k` the load current beyond segment `k`; all nodes together cost O(n), because path sums
//! go down the tree and load sums up. A limiter in the path with limit `I_j` caps the fault current
//! at `I_j - L_j`. The supply's own limiter is solved against its line; with foldback, the branch
//! taken is the one that the fault reaches from normal operation: the upper one if the limiter is
//! not touched there, otherwise the lower one.
//!
//! # Loads neglected or kept
//!
//! At the *supply*, neglecting the loads is conservative for detection: with constant-current loads
//! kept, the supply current is larger by `L_0 - (path mean of L)`, which is not negative since no
//! `L_k` exceeds `L_0`. At a *port* further out the loads upstream pull the voltage down and the
//! sign is open: judge both and keep the worse ([`prospective_worst`]). Real loads between constant
//! current and switched off lie between the two in this model only; loads of constant power draw
//! more as the voltage sinks, until they drop out.
//!
//! # What acts
//!
//! A trip acts for certain from its *largest* trip current upwards. A limiter never trips: it holds its
//! current and the voltage collapses. Time to trip is not modelled.
//!
//! Use conductor resistances at the highest conductor temperature: hot conductors give the smallest
//! fault current.

mod heating;
mod network;
mod standing;

pub use heating::{HeatError, steady_temperature_c};
pub use network::{
    Acts, PortProtection, Prospective, Protection, Protector, ShortCircuitError, ShortCircuitNetwork,
    TripBand, Verdict, prospective, prospective_worst,
};
pub use standing::{FaultLoad, StandingFault, standing_fault};
