//! The battery behind a supply, its charger, and what the supply takes from the mains and gives off as heat.
//!
//! * [`capacity`]: ageing and temperature, Peukert's law in its rated-time form, hours of a load;
//! * [`sizing`]: required capacity by the two patterns in use for alarm systems;
//! * [`charger`]: recharge time and the charging current it takes;
//! * [`mains`]: mains input current, heat, derating with ambient temperature.

pub mod capacity;
pub mod charger;
pub mod mains;
pub mod sizing;

pub use capacity::{
    AGEING_FACTOR, BatteryRating, battery_current_a, effective_capacity_ah, equivalent_current_a, hours,
    rated_time_hours, temperature_factor,
};
pub use charger::{charging_current_a, recharge_hours};
pub use mains::{derated_power_w, heat_w, mains_current_a};
pub use sizing::{DischargeFactor, bs_5839_annex, margin_on_sum_ah};
