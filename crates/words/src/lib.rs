//! Every message once, in every language.
//!
//! A message is a row: its name, its English and its German side by side (see [`row`]). The enum of a family of
//! messages, what each says in a language and the list of all come from its rows. What stands in a message are typed
//! arguments; counts choose the noun that fits them, figures get the decimal sign and the units of the language.
//!
//! * [`codes`]: what findings say, one file a code, with its manual page;
//! * [`template`]: the small language of messages with arguments;
//! * [`figures`]: numbers for people; [`states`]: operating states and calls;
//! * [`office`]: what the office page says; [`phone`]: what the page for the site says;
//! * [`locate`]: causes, symptoms, what to measure next;
//! * [`pack`], [`drawing`], [`typeset`]: what the pack, drawings and the printed pack say; [`candidates`]: what findings say of readings.

pub mod alternatives;
mod bands;
pub mod calculation;
pub mod candidates;
pub mod codes;
pub mod commands;
pub mod design;
pub mod door;
pub mod drawing;
pub mod figures;
pub mod key_names;
pub mod locate;
pub mod missing;
mod of_finding;
pub mod office;
pub mod pack;
pub mod phone;
pub mod publications;
pub mod reading;
pub mod refusals;
pub mod report;
pub mod row;
pub mod states;
pub mod survey;
pub mod symptoms;
pub mod template;
pub mod terminals;
pub mod terms;
pub mod tolerance;
pub mod typeset;

pub use bands::band;

#[cfg(test)]
mod tests;
