//! From a few readings and symptoms to the fault.
//!
//! * [`Plant`]: the site as drawn, with everything about it that is uncertain;
//! * [`Evidence`]: readings and symptoms; [`input`] reads them from files and from the command line;
//! * [`Hypothesis`]: a cause, with what it does to the network; [`Rates`]: how often each is met;
//! * [`locate()`]: the [`Located`]: causes with probability and size, in classes that the readings cannot tell apart, and the
//!   reading that tells most; [`question()`]: what can be asked before anybody takes a meter;
//! * [`courses()`]: the voltage along the ways concerned; [`moves()`]: how the probabilities moved reading by reading;
//! * [`FaultTable`]: the faults of a site as a table that is carried along, ranked without solving ([`Dictionary`]), and printed ([`FaultSheet`]).

mod alone;
mod apart;
mod complaint;
mod course;
#[cfg(test)]
mod derivatives;
mod dictionary;
mod effect;
mod evidence;
mod gauss;
mod hypothesis;
mod inference;
pub mod input;
mod integral;
mod kept;
mod kind;
mod located;
mod model;
mod moves;
mod next;
mod pairs;
mod pieces;
mod place;
mod planned;
mod plant;
mod posterior;
pub mod practise;
mod predict;
mod quantity;
mod question;
mod rates;
mod screen;
mod size;
mod spread;
mod stage;
mod text_line;
mod told;
mod unlisted;
#[cfg(test)]
mod whole_and_reduced;

pub use course::{Course, CourseStop, courses};
pub use dictionary::{
    Damaged, Dictionary, FaultSheet, FaultTable, Read, Share, SheetPlace, SheetReading, SheetRow, SheetValue,
    Shown, reads,
};
pub use effect::Effect;
pub use evidence::{Evidence, Measured, Symptom, Taken, good_reading};
pub use hypothesis::{Hypothesis, hypotheses};
pub use kind::{Cause, Element, Kind, SymptomKind, section_ends};
pub use latchline_finding::Instrument;
pub use located::{Class, Located, Options, Planned, expected, locate};
pub use moves::{Moved, moves};
pub use next::{Meaning, NextReading};
pub use pairs::Pair;
pub use place::{Place, PlaceShare};
pub use planned::{Proof, planned_v, read_as_planned};
pub use plant::Plant;
pub use posterior::{Posterior, Ranking};
pub use predict::State;
pub use quantity::{
    Legs, MOST_INSULATION_OHM, OPEN_OHM, Quantity, exact_state_name, place_name, places, state_name, written,
};
pub use question::{Answer, Question, question};
pub use rates::{Age, BUILT_IN, KindRate, Rates, RatesError};
pub use size::Size;
