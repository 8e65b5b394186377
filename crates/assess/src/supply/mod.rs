//! The cupboard: what a supply takes from the mains and gives off as heat, and how long its battery lasts.
//!
//! Rules and sheets ask the same functions.

pub mod battery;
pub mod sheet;

pub use battery::{BatteryFigures, BatteryLoad, battery_figures};
pub use sheet::{MainsFigures, SupplySheet, mains_figures, supply_sheets};

use crate::context::Context;
use latchline_network::StageSource;

/// The stage that a supply feeds itself.
pub fn stage_of_supply(context: &Context<'_>, supply: usize) -> Option<usize> {
    context.layout.stages.iter().position(|stage| stage.source == StageSource::Supply(supply))
}
