//! Job cards, ready to be drawn: everything that is done at one place, on one card, in walking order.
//!
//! * `block`: a device as a card shows it; `terminals`: its strip; `set`: all cards.
//!
//! Which step is on which card is said by [`latchline_handover::job_cards`]; terminals are those of the wiring schedule,
//! steps and figures those of the commissioning sheets: nothing is made twice.

mod block;
mod set;
mod terminals;

pub use set::card_set;
