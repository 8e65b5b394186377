//! What a supply takes from the mains, and its heat.

use super::stage_of_supply;
use crate::context::Context;
use crate::stage::WithVoltages;
use latchline_circuit::battery::{derated_power_w, heat_w, mains_current_a};
use latchline_finding::StateKind;
use latchline_words::missing::Missing;

/// What a supply takes from the mains, and its heat.
#[derive(Debug, Clone, PartialEq)]
pub struct MainsFigures {
    /// Largest power at its terminals in any of its states with mains, in watts.
    pub output_w: f64,
    /// The state.
    pub state: StateKind,
    /// Charging power on top, in watts: the greatest charging current at the battery's nominal voltage, and
    /// not more than the load leaves of the rated power, since the bus comes first (common practice, no
    /// source).
    pub charging_w: f64,
    /// Whether the load leaves less than the greatest charging current takes.
    pub charging_waits: bool,
    /// Mains current in amperes; `None` where efficiency, power factor or mains voltage is not stated.
    pub mains_current_a: Option<f64>,
    /// Heat in the cupboard in watts; `None` where the efficiency is not stated.
    pub heat_w: Option<f64>,
    /// Power that it may give at the temperature of its cupboard, in watts; `None` where that is not above the
    /// limit at rated load, or the model states no derating.
    pub derated_w: Option<f64>,
    /// What is not stated ("ostrel-ps-120 efficiency").
    pub missing: Vec<Missing>,
}

/// Mains and heat of a supply in its busiest state.
pub fn mains_figures(context: &WithVoltages<'_>, supply: usize) -> Option<MainsFigures> {
    let stage = stage_of_supply(context, supply)?;
    let model = context.site.supply_model(&context.site.supplies[supply]);
    // The battery's end never coincides with charging.
    let has_mains = |phase: usize| context.space.phases[phase].kind != StateKind::BatteryEnd;
    let power = context.worst.largest_power(stage, has_mains)?;
    let phase = &context.space.phases[power.phase];
    let output_w = power.power_w?;
    let greatest_w = model.battery.as_ref().map_or(0.0, |battery| {
        let current_a = battery.charge_current.as_ref().map_or(0.0, |current| current.value.as_amps());
        current_a * battery.voltage.value.as_volts()
    });
    let room_w = model
        .rated_power
        .as_ref()
        .map_or(f64::INFINITY, |rated| (rated.value.as_watts() - output_w).max(0.0));
    let charging_w = greatest_w.min(room_w);
    let name = &model.head.name;
    let mut missing = Vec::new();
    let mut need = |key: &'static str, is_missing: bool| {
        if is_missing {
            missing.push(Missing::key(name, key));
        }
    };
    need("efficiency", model.efficiency.is_none());
    need("power_factor", model.power_factor.is_none());
    need("mains_voltage", model.mains_voltage.is_none());
    let efficiency = model.efficiency.as_ref().map(|efficiency| efficiency.value.as_fraction());
    let all_w = output_w + charging_w;
    let mains_current_a = match (efficiency, &model.power_factor, &model.mains_voltage) {
        (Some(efficiency), Some(factor), Some(mains)) => {
            mains_current_a(all_w, efficiency, factor.value.as_fraction(), mains.value.as_volts()).ok()
        }
        _ => None,
    };
    Some(MainsFigures {
        output_w,
        state: phase.kind,
        charging_w,
        charging_waits: room_w < greatest_w,
        mains_current_a,
        derated_w: derated_w(context, supply),
        heat_w: efficiency.and_then(|efficiency| heat_w(all_w, efficiency).ok()),
        missing,
    })
}

/// Power that a supply may give in a cupboard hotter than its limit at rated load.
fn derated_w(context: &Context<'_>, supply: usize) -> Option<f64> {
    let supply = &context.site.supplies[supply];
    let model = context.site.supply_model(supply);
    let ambient_c = super::hottest_c(supply);
    let limit_c = model.ambient_limit.as_ref()?.value.as_celsius();
    let slope = model.derating_per_kelvin.as_ref()?.value.as_fraction();
    let rated_w = model.rated_power.as_ref()?.value.as_watts();
    (ambient_c > limit_c).then(|| derated_power_w(rated_w, limit_c, slope, ambient_c).ok())?
}
