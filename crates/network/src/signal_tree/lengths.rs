//! How long the cables are taken to be.

use crate::resistance::MEASUREMENT_TOLERANCE;
use latchline_site::catalogue::{Cable, conductor_ohm_per_m};
use latchline_site::model::{Conditions, Run};
use latchline_words::terms::Term;

/// Lengths and resistances of all cables of a site at once. Signals are judged at each; more cable loses more, but reflections and taps
/// may be worse on less.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CableLengths {
    /// As the site file states them; resistance at the hottest temperature and upper tolerance.
    AsStated,
    /// All at the upper end of the length tolerance; resistance as before.
    Longest,
    /// All at the lower end of the length tolerance; resistance at the coldest temperature and lower tolerance, since
    /// what loses least reflects most.
    Shortest,
}

impl CableLengths {
    /// Those that are tried.
    pub const ALL: [CableLengths; 3] =
        [CableLengths::AsStated, CableLengths::Longest, CableLengths::Shortest];

    /// The stable word for it in documents of programs.
    pub fn word(self) -> &'static str {
        match self {
            CableLengths::AsStated => "as-stated",
            CableLengths::Longest => "longest",
            CableLengths::Shortest => "shortest",
        }
    }

    /// The same in words.
    pub fn term(self) -> Term {
        match self {
            CableLengths::AsStated => Term::CablesAsStated,
            CableLengths::Longest => Term::CablesLongest,
            CableLengths::Shortest => Term::CablesShortest,
        }
    }

    /// What a stated length is multiplied by.
    pub fn factor(self, conditions: &Conditions) -> f64 {
        let tolerance = conditions.length_tolerance.value.as_fraction();
        match self {
            CableLengths::AsStated => 1.0,
            CableLengths::Longest => 1.0 + tolerance,
            CableLengths::Shortest => (1.0 - tolerance).max(0.0),
        }
    }

    /// What a figure measured on the whole of a run is multiplied by.
    fn measured_factor(self) -> f64 {
        match self {
            CableLengths::AsStated => 1.0,
            CableLengths::Longest => 1.0 + MEASUREMENT_TOLERANCE,
            CableLengths::Shortest => 1.0 - MEASUREMENT_TOLERANCE,
        }
    }

    /// Resistance of the loop of one pair of a run in ohm a metre of this length.
    pub(super) fn one_pair_ohm_per_m(self, conditions: &Conditions, cable: &Cable, run: &Run) -> f64 {
        let (temperature, sign) = match self {
            CableLengths::AsStated | CableLengths::Longest => (&conditions.hottest_temperature, 1.0),
            CableLengths::Shortest => (&conditions.coldest_temperature, -1.0),
        };
        let ohm_per_m = conductor_ohm_per_m(cable, temperature.value.as_celsius());
        let length_m = run.length().as_metres() * self.factor(conditions);
        match &run.measured.loop_resistance {
            Some(measured) if length_m > 0.0 => {
                let usual = conductor_ohm_per_m(cable, conditions.usual_temperature.value.as_celsius());
                let pairs = run.pairs_in_parallel();
                measured.value.as_ohms() * self.measured_factor() * pairs / length_m * (ohm_per_m / usual)
            }
            _ => {
                let tolerance = cable.resistance_tolerance.value.as_fraction();
                2.0 * ohm_per_m * (1.0 + sign * tolerance).max(0.0)
            }
        }
    }

    /// Capacitance of one pair of a run in farad a metre of this length, from that of its cable.
    pub(super) fn one_pair_f_per_m(self, conditions: &Conditions, cable_f_per_m: f64, run: &Run) -> f64 {
        let length_m = run.length().as_metres() * self.factor(conditions);
        let measured_f = run.measured.capacitance.as_ref().filter(|_| length_m > 0.0);
        measured_f.map_or(cable_f_per_m, |measured| {
            let pairs = run.pairs_in_parallel();
            measured.value.as_farads() * self.measured_factor() / (length_m * pairs)
        })
    }
}
