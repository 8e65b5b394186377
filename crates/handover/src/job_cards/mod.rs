//! Job cards: everything that is done at one place, on one card, in walking order.
//!
//! * [`places`]: which card each device, run and fitting is on, and what the card is called;
//! * [`assigned`]: which steps of the commissioning sheets are done where;
//! * [`brief`](mod@brief): the few words that a card has for a step;
//! * [`order`]: the order of work, which leads from card to card.
//!
//! Terminals are those of the wiring schedule, steps and figures those of the commissioning sheets: nothing is made twice.

pub mod assigned;
pub mod brief;
pub mod order;
pub mod places;

pub use assigned::{Assigned, AssignedStep, Spot};
pub use places::{CardKind, JobCard, JobCards};
