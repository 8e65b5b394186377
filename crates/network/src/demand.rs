//! What a device draws, by what it is doing.

use crate::layout::Corner;
use latchline_finding::Sourced;
use latchline_site::catalogue::{LoadValue, StationModel};
use latchline_site::model::{Site, Station, StationOwner};

/// What a station is doing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Activity {
    /// Nothing.
    Standby,
    /// It rings, or (door, management) calls.
    Ringing,
    /// Speech, and picture if any, are on.
    Talking,
    /// Talking, with a lock held released.
    Releasing,
    /// Starting up.
    Booting,
}

impl Activity {
    /// Whether the limit for use holds (else the one for standby).
    pub fn is_in_use(self) -> bool {
        matches!(self, Activity::Ringing | Activity::Talking | Activity::Releasing)
    }
}

/// A load as the flow takes it: power, current and conductance side by side.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Demand {
    /// Constant power in watts.
    pub power_w: f64,
    /// Constant current in amperes.
    pub current_a: f64,
    /// Conductance in siemens.
    pub conductance_s: f64,
}

impl Demand {
    /// The demand of one datasheet value.
    pub fn of(value: LoadValue) -> Self {
        let mut demand = Demand::default();
        match value {
            LoadValue::Power(power) => demand.power_w = power.as_watts(),
            LoadValue::Current(current) => demand.current_a = current.as_amps(),
            LoadValue::Resistance(resistance) => demand.conductance_s = 1.0 / resistance.as_ohms(),
        }
        demand
    }

    fn of_optional(value: &Option<Sourced<LoadValue>>) -> Self {
        value.as_ref().map_or(Demand::default(), |value| Demand::of(value.value))
    }

    /// The sum of two.
    #[must_use]
    pub fn plus(self, other: Demand) -> Self {
        Demand {
            power_w: self.power_w + other.power_w,
            current_a: self.current_a + other.current_a,
            conductance_s: self.conductance_s + other.conductance_s,
        }
    }

    /// The difference of two; its parts may be negative.
    #[must_use]
    pub fn minus(self, other: Demand) -> Self {
        self.plus(other.times(-1.0))
    }

    /// All parts times a factor.
    #[must_use]
    pub fn times(self, factor: f64) -> Self {
        Demand {
            power_w: self.power_w * factor,
            current_a: self.current_a * factor,
            conductance_s: self.conductance_s * factor,
        }
    }

    /// Current at a voltage, in amperes, the power drawn behind a rectifier drop.
    pub fn current_at(&self, voltage_v: f64, drop_v: f64) -> f64 {
        let by_power = if self.power_w == 0.0 { 0.0 } else { self.power_w / (voltage_v - drop_v) };
        by_power + self.current_a + self.conductance_s * voltage_v
    }
}

/// The tolerance factor of a model's loads in a corner.
pub(crate) fn load_factor(tolerance: f64, corner: Corner) -> f64 {
    match corner {
        Corner::Nominal => 1.0,
        Corner::Adverse => 1.0 + tolerance,
        Corner::Light => (1.0 - tolerance).max(0.0),
    }
}

/// What a station draws.
pub fn station_demand(
    site: &Site,
    station: &Station,
    activity: Activity,
    night: bool,
    corner: Corner,
) -> Demand {
    let model = site.station_model(station);
    let mut demand = activity_demand(model, activity);
    if night {
        demand = demand.plus(Demand::of_optional(&model.night_extra));
    }
    if let StationOwner::Entrance(entrance) = station.owner {
        let entrance = &site.entrances[entrance];
        if night && entrance.heater.value {
            demand = demand.plus(Demand::of_optional(&model.heater_extra));
        }
        for name in &entrance.accessories {
            let accessory = site.accessory(name);
            demand.current_a += accessory.current.value.as_amps();
            if let (true, Some(extra)) = (night, &accessory.night_current) {
                demand.current_a += extra.value.as_amps();
            }
        }
    }
    demand.times(load_factor(model.load_tolerance.value.as_fraction(), corner))
}

fn activity_demand(model: &StationModel, activity: Activity) -> Demand {
    match activity {
        Activity::Standby => Demand::of(model.standby.value),
        Activity::Ringing => Demand::of(model.ringing.value),
        Activity::Talking => Demand::of(model.talking.value),
        Activity::Releasing => {
            Demand::of(model.talking.value).plus(Demand::of_optional(&model.releasing_extra))
        }
        Activity::Booting => {
            model.boot.as_ref().map_or(Demand::of(model.standby.value), |boot| Demand::of(boot.value))
        }
    }
}
