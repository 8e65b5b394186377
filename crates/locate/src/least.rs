//! The least that a station keeps in one state, every tolerance against it.

use crate::plant::Plant;
use latchline_network::readings::{Predictor, Reading, ReadingPlace};
use latchline_network::{BusState, StateSpace};

/// The least voltage at a place in exactly this state with every tolerance against it, in volts; `None` where there is no operating point or
/// the state cannot occur.
pub fn least_voltage_v(plant: &Plant<'_>, at: ReadingPlace, state: &BusState) -> Option<f64> {
    let space = StateSpace::new(plant.site, plant.layout);
    let predictor = Predictor { site: plant.site, layout: plant.layout, space: &space };
    let reading = Reading::Voltage { at, state: state.clone() };
    let found = predictor.predict([reading.clone()]).remove(&reading)?.ok()?;
    Some(found.lowest.value)
}
