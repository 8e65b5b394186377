//! The question that can be asked before anybody takes a meter, in words and in JSON.

use super::again::asked_again;
use super::reader::Reader;
use latchline_locate::{Answer as Answered, PlaceShare, Question};
use latchline_report::table::{hanging, paragraph};
use latchline_site::model::Site;
use latchline_words::locate::Answer;
use schemars::JsonSchema;
use serde::Serialize;
use std::path::Path;

/// Places of an answer that are named.
const MOST_PLACES: usize = 2;

/// Places below this probability are left out.
const LEAST_PLACE: f64 = 1e-3;

/// The question, in a sentence.
pub(super) fn asked(reader: &Reader<'_>, question: &Question) -> String {
    let station = &name(reader, question);
    let symptom = question.answers[1].told.say(reader.language);
    Answer::AskElsewhere { station, symptom }.say(reader.language)
}

/// The question, what each answer would mean, and how it is told.
pub(super) fn text(
    reader: &Reader<'_>,
    question: &Question,
    site_file: &Path,
    given: &[String],
    width: usize,
) -> String {
    let language = reader.language;
    let mut out = paragraph(&asked(reader, question), 0, width);
    for Answered { told, probability, places } in &question.answers {
        let named = places.iter().filter_map(|place| {
            let share = reader.share(place.probability);
            Some(Answer::PlaceWithShare { place: &reader.place(place)?, share }.say(language))
        });
        let named: Vec<String> = named.take(MOST_PLACES).collect();
        let (told, share) = (told.say(language), reader.share(*probability));
        let words = Answer::IfTold { told, share, places: &named.join("; ") };
        out.push_str(&hanging("  ", &words.say(language), width));
    }
    let likelier = usize::from(question.answers[1].probability > question.answers[0].probability);
    let item = format!("{}={}", name(reader, question), question.answers[likelier].told.name());
    let command = asked_again(site_file, given, &item);
    out.push_str(&paragraph(&Answer::ThenTell { command: &command }.say(language), 0, width));
    out
}

fn name(reader: &Reader<'_>, question: &Question) -> String {
    latchline_finding::shown::prose(reader.site.stations[question.station].id.as_str()).into_owned()
}

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
