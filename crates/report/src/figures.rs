//! Numbers for people.

pub use latchline_words::figures::{
    amperes, battery_hours, decibels, decimals, fixed, pair, rounded_down, rounded_up, sentence,
    short_circuit_amperes, shown, trimmed, volts, volts_short, watts,
};
