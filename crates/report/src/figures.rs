//! Numbers for people.

pub use latchline_words::figures::{
    amperes, battery_hours, cost, decibels, decimals, fixed, limit_amperes, metres, money, pair, rounded,
    rounded_down, rounded_up, sentence, short_circuit_amperes, shown, trimmed, volts, volts_short, watts,
};
