//! Questions that come by telephone: no site is needed, the sentence to say stands on top, every answer has an address and can be kept.

pub(crate) mod asked;
mod battery;
mod chart;
mod fields;
mod lock;
mod mix;
mod reach;
pub(crate) mod record;
mod ruler;
mod switches;

pub(crate) use battery::Battery;
pub(crate) use lock::Lock;
pub(crate) use mix::Mix;
pub(crate) use reach::Reach;
pub(crate) use switches::Switches;
