//! Instruments that readings are taken with.

use crate::figure::Unit;

/// Class of an instrument: what its maker states, in the form "so many per cent of the reading and so much more"
/// (common practice, no source).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Instrument {
    /// A bench instrument: 0.1 %.
    Precise,
    /// A good hand-held multimeter: 0.5 %.
    #[default]
    Good,
    /// A plain hand-held multimeter: 1.5 %.
    Plain,
    /// A clamp meter, or a figure that a unit shows of itself: 3 %.
    Display,
}

/// What a reading may be off by: a share of it, and a part that is always the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Accuracy {
    /// Share of the reading.
    pub share: f64,
    /// In the SI unit of the reading.
    pub always: f64,
}

impl Accuracy {
    /// The limit of error of a reading, in its unit.
    pub fn off_by(self, reading: f64) -> f64 {
        self.share * reading.abs() + self.always
    }
}

impl Instrument {
    /// Every class.
    pub const ALL: [Instrument; 4] =
        [Instrument::Precise, Instrument::Good, Instrument::Plain, Instrument::Display];

    /// The stable name used in files.
    pub fn name(self) -> &'static str {
        match self {
            Instrument::Precise => "precise",
            Instrument::Good => "good",
            Instrument::Plain => "plain",
            Instrument::Display => "display",
        }
    }

    /// The limit of error that is stated for readings in V, A, ohm (leads subtracted) and F; `None` for other units.
    pub fn accuracy(self, unit: Unit) -> Option<Accuracy> {
        let (share, volts, amperes, ohms, farads) = match self {
            Instrument::Precise => (0.001, 0.005, 0.000_2, 0.02, 2e-12),
            Instrument::Good => (0.005, 0.03, 0.002, 0.1, 10e-12),
            Instrument::Plain => (0.015, 0.1, 0.005, 0.3, 50e-12),
            Instrument::Display => (0.03, 0.3, 0.02, 1.0, 200e-12),
        };
        let always = match unit {
            Unit::Volt => volts,
            Unit::Ampere => amperes,
            Unit::Ohm => ohms,
            Unit::Farad => farads,
            _ => return None,
        };
        Some(Accuracy { share, always })
    }
}
