//! Readings and symptoms with how far each can be relied on.

use crate::kind::SymptomKind;
use crate::quantity::Quantity;
use latchline_finding::{Instrument, Unit};

/// How a figure was read off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Taken {
    /// It stood still.
    #[default]
    Settled,
    /// It jumped about; what was seen.
    Displayed,
    /// The least that the meter held.
    Least,
}

impl Taken {
    /// Every one.
    pub const ALL: [Taken; 3] = [Taken::Settled, Taken::Displayed, Taken::Least];

    /// The stable name used in files.
    pub fn name(self) -> &'static str {
        match self {
            Taken::Settled => "settled",
            Taken::Displayed => "displayed",
            Taken::Least => "least-held",
        }
    }

    fn factor(self) -> f64 {
        match self {
            Taken::Settled => 1.0,
            Taken::Displayed => 4.0,
            Taken::Least => 2.0,
        }
    }
}

/// A reading.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// What was read, where, in which state.
    pub quantity: Quantity,
    /// The figure in the SI unit; infinite for a loop that reads open.
    pub value: f64,
    /// With what.
    pub instrument: Instrument,
    /// How.
    pub taken: Taken,
}

/// A reading as a good meter gives it.
pub fn good_reading(quantity: Quantity, value: f64) -> Measured {
    Measured { quantity, value, instrument: Instrument::Good, taken: Taken::Settled }
}

impl Measured {
    /// The value on the scale on which it is compared.
    pub(crate) fn scaled(&self) -> f64 {
        self.quantity.scale(self.value)
    }

    /// Standard deviation of the reading on that scale: a rectangular distribution within the limit of its error.
    pub(crate) fn deviation(&self) -> f64 {
        self.limit() / 3.0_f64.sqrt()
    }

    /// The limit of its error on that scale: what the maker states, and more for a figure that did not stand still.
    pub(crate) fn limit(&self) -> f64 {
        let limit = match self.quantity {
            // A tester of insulation is good for a tenth of a decade.
            Quantity::Insulation { .. } | Quantity::Earth { .. } => 0.15,
            Quantity::Loop { .. } if self.value >= crate::quantity::OPEN_OHM => {
                0.3 * crate::quantity::OPEN_OHM
            }
            _ => {
                let accuracy = self.instrument.accuracy(self.quantity.unit());
                accuracy.map_or(0.0, |accuracy| accuracy.off_by(self.value))
            }
        };
        limit * self.taken.factor()
    }

    /// Density of a wrong reading on that scale: anything that the meter can show.
    pub(crate) fn outside(&self, source_v: f64) -> f64 {
        match self.quantity.unit() {
            Unit::Volt => 1.0 / (1.2 * source_v),
            Unit::Ampere => 1.0 / 5.0,
            Unit::Ohm => match self.quantity {
                Quantity::Loop { .. } => 1.0 / (4.0 * (self.value.min(1e6) + 10.0)),
                _ => 1.0 / 9.0,
            },
            _ => 1.0 / (4.0 * self.value.abs() + 1e-9),
        }
    }
}

/// What somebody tells of a station.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Symptom {
    /// What.
    pub kind: SymptomKind,
    /// Of which station: index into `Site::stations`.
    pub station: usize,
}

/// All that is known.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Evidence {
    /// Readings.
    pub measured: Vec<Measured>,
    /// Symptoms.
    pub symptoms: Vec<Symptom>,
    /// What cannot be read there: it is not proposed.
    pub out_of_reach: Vec<Quantity>,
}

impl Evidence {
    /// Whether the list of devices that the system found is in it.
    pub(crate) fn is_of_list(&self) -> bool {
        self.symptoms.iter().any(|symptom| symptom.kind == SymptomKind::Found)
    }

    /// Whether nothing is known.
    pub fn is_empty(&self) -> bool {
        self.measured.is_empty() && self.symptoms.is_empty()
    }
}
