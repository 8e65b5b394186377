//! The plainest state in which something told of a station could show.

use latchline_locate::{Plant, Quantity, planned_v};
use latchline_network::BusState;
use latchline_network::readings::ReadingPlace;

/// A state that one person can put, and what the station has in it.
pub struct Plain {
    /// Which state.
    pub state: BusState,
    /// The least there with every tolerance against it, in volts; `None` where the voltage collapses.
    pub least_v: Option<f64>,
    /// What it needs there, in volts.
    pub limit_v: f64,
}

impl Plain {
    /// Whether it has there what it needs.
    pub fn is_enough(&self) -> bool {
        self.least_v.is_some_and(|least_v| least_v >= self.limit_v)
    }
}

impl Plain {
    /// What a station has in a state that one person can put.
    pub fn of(plant: &Plant<'_>, station: usize, state: BusState) -> Plain {
        let at = ReadingPlace::Station(station);
        let model = plant.site.station_model(&plant.site.stations[station]);
        let limit = if state.calls.is_empty() { &model.least_standby_voltage } else { &model.least_voltage };
        let read = Quantity::Voltage { at, state: state.clone() };
        let least_v = planned_v(plant, &read).map(|(least_v, _)| least_v);
        Plain { least_v, limit_v: limit.value.as_volts(), state }
    }
}
