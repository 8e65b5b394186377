//! What a reading should be, and what that rests on.

use super::Reading;
use crate::corner::Corner;
use std::collections::BTreeMap;

/// A figure with the corner of the tolerances that it comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// In the SI unit of the reading.
    pub value: f64,
    /// Which corner.
    pub corner: Corner,
    /// Whether it is a bound of the corner rather than the corner itself: some load's current rises with voltage.
    pub is_bound: bool,
}

/// What the figures of a prediction follow from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Basis {
    /// The operating state, solved; every voltage within [`crate::evaluate::ENCLOSURE_V`].
    Solved,
    /// The source's stated voltage and its tolerance.
    Source,
    /// The cable's figures and the stated lengths, joints and protectors with their tolerances.
    Cable,
    /// The same, of a cable whose figure nobody has stated: the range is as wide as such a guess.
    AssumedCable,
    /// What was measured of the run on site, with [`crate::resistance::MEASUREMENT_TOLERANCE`].
    Measured,
}

/// A predicted reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prediction {
    /// With nominal values.
    pub nominal: Estimate,
    /// Lowest of the corners.
    pub lowest: Estimate,
    /// Highest of the corners.
    pub highest: Estimate,
    /// What all three follow from.
    pub basis: Basis,
}

impl Prediction {
    /// From the figures of the corners, in the order of [`Corner::ALL`], each with whether it is a bound.
    pub(super) fn of_corners(figures: [(f64, bool); 3], basis: Basis) -> Self {
        let estimates = Corner::ALL.map(|corner| {
            let (value, is_bound) = figures[corner.index()];
            Estimate { value, corner, is_bound }
        });
        let [nominal, adverse, light] = estimates;
        let lower = |a: Estimate, b: Estimate| if b.value < a.value { b } else { a };
        let higher = |a: Estimate, b: Estimate| if b.value > a.value { b } else { a };
        Prediction {
            nominal,
            lowest: lower(lower(nominal, adverse), light),
            highest: higher(higher(nominal, adverse), light),
            basis,
        }
    }
}

/// Why a reading cannot be predicted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum NoPrediction {
    /// No supply reaches the place, or the site has no such place.
    NotFed,
    /// The state, or one of its calls, cannot occur on the site.
    NoSuchState,
    /// What feeds the place has no power in this state.
    NoPower,
    /// It is proved that there is no operating point in some corner.
    NoOperatingPoint,
    /// Too close to collapse in some corner to be decided.
    Undecided,
    /// The cable's capacitance is not known.
    CapacitanceUnknown,
}

/// Readings with what they should be.
pub type Predictions = BTreeMap<Reading, Result<Prediction, NoPrediction>>;
