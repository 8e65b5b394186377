//! The cupboard: what a supply takes from the mains and gives off as heat, and how long its battery lasts.
//!
//! Rules and sheets ask the same functions.

pub mod at_rest;
pub mod battery;
mod lines;
pub mod mains;
pub mod sheet;

pub use battery::{BatteryFigures, BatteryLoad, CallShare, battery_figures};
pub use mains::{MainsFigures, mains_figures};
pub use sheet::{SupplySheet, supply_sheets};

use crate::context::Context;
use latchline_network::StageSource;
use latchline_site::model::Supply;

/// Hottest air taken where it is not stated, in °C (assumed).
pub const USUAL_HOTTEST_C: f64 = 40.0;

/// The hottest air around a supply in °C, assumed where it is not stated.
pub fn hottest_c(supply: &Supply) -> f64 {
    supply.ambient.as_ref().map_or(USUAL_HOTTEST_C, |ambient| ambient.value.as_celsius())
}

/// The stage that a supply feeds itself.
pub fn stage_of_supply(context: &Context<'_>, supply: usize) -> Option<usize> {
    context.layout.stages.iter().position(|stage| stage.source == StageSource::Supply(supply))
}
