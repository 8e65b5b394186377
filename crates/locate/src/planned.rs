//! What a voltage may be as planned: the range that the assessment and its papers print for it.

use crate::evidence::good_reading;
use crate::plant::Plant;
use crate::quantity::Quantity;
use latchline_network::StateSpace;
use latchline_network::readings::{Predictor, Reading};

/// A reading and between what it lies without any fault: to two deviations, or as planned where [`read_as_planned`] says so.
#[derive(Debug, Clone, PartialEq)]
pub struct Proof {
    /// What is read.
    pub quantity: Quantity,
    /// Lowest.
    pub low: f64,
    /// Highest.
    pub high: f64,
}

/// The least and the most of a voltage with every tolerance against it and for it, in volts; `None` where there is no operating point, the
/// state cannot occur, or it is no voltage.
pub fn planned_v(plant: &Plant<'_>, quantity: &Quantity) -> Option<(f64, f64)> {
    let Quantity::Voltage { at, state } = quantity else { return None };
    let space = StateSpace::new(plant.site, plant.layout);
    let predictor = Predictor { site: plant.site, layout: plant.layout, space: &space };
    let reading = Reading::Voltage { at: *at, state: state.clone() };
    let found = predictor.predict([reading.clone()]).remove(&reading)?.ok()?;
    Some((found.lowest.value, found.highest.value))
}

/// What a good meter may show of a voltage that is as planned: the planned range, and the meter's error to both sides. A voltage within it is no
/// fault. `None` as for [`planned_v`].
pub fn read_as_planned(plant: &Plant<'_>, quantity: &Quantity) -> Option<Proof> {
    let (low_v, high_v) = planned_v(plant, quantity)?;
    let error_v = |value_v: f64| good_reading(quantity.clone(), value_v).limit();
    Some(Proof { quantity: quantity.clone(), low: low_v - error_v(low_v), high: high_v + error_v(high_v) })
}
