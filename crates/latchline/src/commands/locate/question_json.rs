//! The question that can be asked before anybody takes a meter, and places, in JSON.

use latchline_answer::Reader;
use latchline_locate::{Answer as Answered, PlaceShare, Question};
use latchline_site::model::Site;
use schemars::JsonSchema;
use serde::Serialize;

/// Places below this probability are left out.
const LEAST_PLACE: f64 = 1e-3;

/// What can be asked before anybody takes a meter.
#[derive(Serialize, JsonSchema)]
pub(super) struct QuestionOut {
    /// The station of which it is asked.
    element: String,
    /// Bits that the answer is expected to tell about the place to look at.
    bits: f64,
    /// That it works, and that it is the same there.
    answers: Vec<AnswerOut>,
}

/// An answer, as it is written for a symptom, with what it leaves.
#[derive(Serialize, JsonSchema)]
struct AnswerOut {
    /// What is told of the station then.
    told: String,
    /// How probable this answer is.
    probability: f64,
    /// Places to look at then, the most probable first; those of less than a thousandth are left out.
    places: Vec<PlaceOut>,
}

impl QuestionOut {
    pub(super) fn of(reader: &Reader<'_>, question: &Question) -> QuestionOut {
        let answer = |one: &Answered| AnswerOut {
            told: one.told.name(),
            probability: one.probability,
            places: places_out(reader.site, &one.places),
        };
        QuestionOut {
            element: reader.site.stations[question.station].id.to_string(),
            bits: question.bits,
            answers: question.answers.iter().map(answer).collect(),
        }
    }
}

/// One place to look at: a section with its terminals, its port and what it leads to, or else an element.
#[derive(Serialize, JsonSchema)]
pub(super) struct PlaceOut {
    /// The section or the element.
    element: String,
    /// The probability of all causes there.
    probability: f64,
}

/// Places to look at, those that are too improbable left out.
pub(super) fn places_out(site: &Site, places: &[PlaceShare]) -> Vec<PlaceOut> {
    let shown = places.iter().filter(|place| place.probability >= LEAST_PLACE);
    shown
        .map(|place| PlaceOut { element: place.place.element().name(site), probability: place.probability })
        .collect()
}
