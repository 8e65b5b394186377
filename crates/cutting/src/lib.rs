//! Cable onto drums.
//!
//! * [`stock`]: cutting stock over whole numbers, with a proved bound on what must be bought;
//! * [`cut_list`](mod@cut_list): the cables of a site as such problems, one for each kind of cable.

pub mod cut_list;
pub mod stock;

pub use cut_list::{CableCuts, Cut, CutPlan, cut_list};
pub use stock::{CuttingError, CuttingPlan};
