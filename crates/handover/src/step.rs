//! A step of the commissioning sheets: what to do where, and what is expected.

use crate::language::{Sentence, Word};
use crate::locale::{Locale, Rounding};
use crate::options::Part;
use crate::table::Cell;
use latchline_assess::{Prediction, Reading, ReadingPlace};
use latchline_finding::{Accuracy, Instrument, StateKind, Unit};
use latchline_wiring::Item;

/// A reading between two values, with its nominal one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// What is to be expected.
    pub nominal: f64,
    /// With every tolerance against it.
    pub lowest: f64,
    /// With every tolerance for it.
    pub highest: f64,
}

impl From<&Prediction> for Span {
    fn from(prediction: &Prediction) -> Self {
        Span {
            nominal: prediction.nominal.value,
            lowest: prediction.lowest.value,
            highest: prediction.highest.value,
        }
    }
}

/// What is expected of a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Expected {
    /// Something to do or to see: a box to tick.
    Done,
    /// To see which way round two conductors are: a box to tick, and room for the word.
    Polarity,
    /// A reading between two values.
    Between(Span, Unit),
    /// An insulation, read in megohm.
    AtLeastMegohm {
        /// What it must not lie below, in ohms.
        least_ohm: f64,
        /// What was measured of it before, in ohms.
        measured_ohm: Option<f64>,
    },
    /// Something to write.
    Written,
    /// Something to know: nothing to write, nothing to tick.
    Told,
    /// A reading without a prediction.
    Unknown(Unit),
    /// A reading without a nominal value, within limits.
    Within {
        /// The least.
        lowest: f64,
        /// The most.
        highest: f64,
        /// Of what.
        unit: Unit,
    },
}

impl Expected {
    /// A predicted reading, or one without a prediction.
    pub fn predicted(prediction: Option<&Prediction>, unit: Unit) -> Self {
        prediction.map_or(Expected::Unknown(unit), |prediction| Expected::metered(prediction.into(), unit))
    }

    /// A reading between two values, wider by what the meter may be off by.
    pub fn metered(span: Span, unit: Unit) -> Self {
        let Some(meter) = meter_accuracy(unit) else { return Expected::Between(span, unit) };
        let lowest = (span.lowest - meter.off_by(span.lowest)).max(0.0);
        let highest = span.highest + meter.off_by(span.highest);
        Expected::Between(Span { lowest, highest, ..span }, unit)
    }

    /// Whether another reading is expected in the same way, and in the same unit.
    pub fn is_of_kind(&self, other: &Expected) -> bool {
        let unit = |expected: &Expected| match *expected {
            Expected::Between(_, unit) | Expected::Unknown(unit) | Expected::Within { unit, .. } => {
                Some(unit)
            }
            _ => None,
        };
        std::mem::discriminant(self) == std::mem::discriminant(other) && unit(self) == unit(other)
    }

    /// The expected, the lowest and the highest value as they are printed: the limits rounded outward.
    pub fn cells(&self, locale: &Locale) -> [Cell; 3] {
        // Ohms side by side have the decimals that a multimeter shows.
        let rounded = |value: f64, unit, rounding| match unit {
            Unit::Ohm => locale.quantity_with(value, unit, 2, rounding),
            _ => locale.quantity(value, unit, rounding),
        };
        let near = |value: f64, unit| rounded(value, unit, Rounding::Nearest);
        let least = |value: f64, unit| rounded(value, unit, Rounding::Down);
        let most = |value: f64, unit| rounded(value, unit, Rounding::Up);
        match *self {
            Expected::Done | Expected::Polarity | Expected::Written | Expected::Told => {
                [Cell::Empty, Cell::Empty, Cell::Empty]
            }
            // No meter on site tells such values apart: what is read is small, or it is not.
            Expected::Between(span, unit) if least_read(unit).is_some_and(|least| span.highest < least) => {
                let least = least_read(unit).unwrap_or(span.highest);
                let value = locale.in_words(least, unit);
                [
                    Cell::text(locale.say(&Sentence::LessThan { value: &value })),
                    Cell::Empty,
                    most(least, unit),
                ]
            }
            Expected::Between(span, unit) => {
                [near(span.nominal, unit), least(span.lowest, unit), most(span.highest, unit)]
            }
            Expected::AtLeastMegohm { least_ohm, measured_ohm } => {
                let measured = measured_ohm.map_or(Cell::Empty, |ohm| locale.megohm(ohm));
                [measured, locale.megohm(least_ohm), Cell::Empty]
            }
            Expected::Unknown(_) => [locale.cell(Word::NotPredicted), Cell::Empty, Cell::Empty],
            Expected::Within { lowest, highest, unit } => {
                [Cell::Empty, least(lowest, unit), most(highest, unit)]
            }
        }
    }
}

/// How far a reading on site is right: the ranges are those of a plain hand-held multimeter, so that they hold with whatever meter is at hand.
/// Ranges in other units than ohms and amperes are those of the system alone.
pub fn meter_accuracy(unit: Unit) -> Option<Accuracy> {
    matches!(unit, Unit::Ohm | Unit::Ampere).then(|| Instrument::Plain.accuracy(unit)).flatten()
}

/// The least that a multimeter on site reads with any sense (common practice, no source): 0.1 ohm, that of its leads, and 2 mA.
fn least_read(unit: Unit) -> Option<f64> {
    match unit {
        Unit::Ohm => Some(0.1),
        Unit::Ampere => Some(0.002),
        _ => None,
    }
}

/// Which reading a step takes.
#[derive(Debug, Clone, PartialEq)]
pub enum Taken {
    /// One that is predicted.
    Predicted(Reading),
    /// The insulation of a run alone: index into `Site::runs`.
    Insulation {
        /// The run.
        run: usize,
    },
}

impl Taken {
    /// A voltage in standby by day.
    pub fn standby_voltage(at: ReadingPlace) -> Taken {
        Taken::Predicted(Reading::Voltage { at, state: StateKind::StandbyDay.into() })
    }

    /// A current in standby by day.
    pub fn standby_current(at: ReadingPlace) -> Taken {
        Taken::Predicted(Reading::Current { at, state: StateKind::StandbyDay.into() })
    }
}

/// Where a step is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Spot {
    /// At an item.
    Item(Item),
    /// At the start of a run: index into `Site::runs`.
    Run(usize),
}

/// One step.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Its number on the sheet.
    pub number: usize,
    /// Where it is done; `None` for the whole site. A name would not do: a run and a door may have the same.
    pub spot: Option<Spot>,
    /// At what, as it is printed: a device, a run, a cable; empty for the whole site.
    pub place: String,
    /// The same in words that are the same in every language: what was noted under it is found again from a pack in another.
    pub key: String,
    /// What to do.
    pub what: String,
    /// With what.
    pub instrument: Option<Word>,
    /// What is expected.
    pub expected: Expected,
    /// Which reading it is, if it has one.
    pub taken: Option<Taken>,
    /// Whether its words name nothing of its place: the same step stands at others.
    pub is_general: bool,
    /// What a card says of it, where its own words are long.
    pub in_brief: Option<Word>,
    /// What the order of work says of it, where its own words name one place.
    pub in_general: Option<Word>,
}

/// Steps that belong together.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    /// Which stage.
    pub word: Word,
    /// Its letter.
    pub letter: char,
    /// Its title.
    pub title: String,
    /// Its steps, in order.
    pub steps: Vec<Step>,
}

/// One sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Which part of the pack it is.
    pub part: Part,
    /// Title.
    pub title: String,
    /// What must be known before.
    pub notes: Vec<String>,
    /// Its stages, in order.
    pub stages: Vec<Stage>,
}
