//! Locks: the voltage that reaches them, how fast their coil lets go, how long they are held.
//!
//! * [`voltage`]: voltage at the lock over its cable and joints, in the adverse and the light
//!   corner, for direct and alternating current; required supply, longest cable;
//! * [`release`]: decay of the coil's current with each kind of suppression, release time, and the
//!   voltage spike at the contact;
//! * [`hold`]: which of two release times wins, and whether the lock may be energised that long.

pub mod hold;
pub mod release;
pub mod voltage;

pub use hold::{Energised, HoldTime, HoldWinner, duty_s, hold_time};
pub use release::{Coil, Suppressor, Varistor, current_after_a, release_time_s, spike_voltage_v};
pub use voltage::{
    LockCable, LockSupply, ac_voltage_v, highest_voltage_v, least_supply_v, least_voltage_v,
    loop_resistance_ohm, most_loop_resistance_ohm,
};
