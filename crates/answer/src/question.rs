//! The question that can be asked before anybody takes a meter.

use crate::again::Asked;
use crate::reader::Reader;
use crate::said::Said;
use latchline_locate::{Answer as Answered, Question};
use latchline_words::locate::Answer;

/// Places of an answer that are named.
const MOST_PLACES: usize = 2;

/// The question, in a sentence.
pub fn asked(reader: &Reader<'_>, question: &Question) -> String {
    let station = &name(reader, question);
    let symptom = question.answers[1].told.say(reader.language);
    Answer::AskElsewhere { station, symptom }.say(reader.language)
}

/// The question, what each answer would mean, and how it is told.
pub fn whole_question(reader: &Reader<'_>, question: &Question, asked_as: Option<&Asked<'_>>) -> Said {
    let language = reader.language;
    let mut out = Said::default();
    out.paragraph(asked(reader, question));
    for Answered { told, probability, places } in &question.answers {
        let named = places.iter().filter_map(|place| {
            let share = reader.share(place.probability);
            Some(Answer::PlaceWithShare { place: &reader.place(place)?, share }.say(language))
        });
        let named: Vec<String> = named.take(MOST_PLACES).collect();
        let (told, share) = (told.say(language), reader.share(*probability));
        let words = Answer::IfTold { told, share, places: &named.join("; ") };
        out.item(words.say(language));
    }
    let likelier = usize::from(question.answers[1].probability > question.answers[0].probability);
    let item = format!("{}={}", name(reader, question), question.answers[likelier].told.name());
    if let Some(asked_as) = asked_as {
        let command = asked_as.with(&item);
        out.paragraph(Answer::ThenTell { command: &command }.say(language));
    }
    out
}

fn name(reader: &Reader<'_>, question: &Question) -> String {
    latchline_finding::shown::prose(reader.site.stations[question.station].id.as_str()).into_owned()
}
