//! What to read next, and what it would mean.

use crate::reader::Reader;
use crate::said::Said;
use latchline_locate::{Kind, Located, NextReading, Options, Quantity};
use latchline_words::locate::Answer;

/// Outcomes of a reading that are told.
const MOST_MEANINGS: usize = 5;
/// Kinds that are named where nothing is known.
const MOST_KINDS: usize = 6;

/// What to ask, how often what is met, and what to read if nobody can be asked.
pub(crate) fn nothing_known(reader: &Reader<'_>, located: &Located, how_to_tell: bool) -> Said {
    let language = reader.language;
    let mut out = Said::default();
    out.paragraph(Answer::AskFirst.say(language));
    if let Some(station) = reader.site.stations.last().filter(|_| how_to_tell) {
        let name = latchline_finding::shown::prose(station.id.as_str());
        let command = format!("latchline locate SITE {name}=restarts");
        out.paragraph(Answer::HowToTell { command: &command }.say(language));
    }
    out.paragraph(Answer::BeforeAnything.say(language));
    let mut kinds: Vec<(Kind, f64)> = Vec::new();
    for one in &located.hypotheses {
        match kinds.iter_mut().find(|(kind, _)| *kind == one.cause.kind) {
            Some((_, sum)) => *sum += one.prior,
            None => kinds.push((one.cause.kind, one.prior)),
        }
    }
    kinds.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    for (kind, prior) in kinds.iter().take(MOST_KINDS) {
        let cause = kind.say(language);
        let words = Answer::Cause { share: reader.share(*prior), cause, element: None, size: None };
        out.item(words.say(language));
    }
    if let Some(next) = &located.next {
        out.gap();
        out.paragraph(Answer::FirstReading.say(language));
        out.append(proposed(reader, located, next, None));
    }
    out.gap();
    out.paragraph(Answer::Caution.say(language));
    out
}

/// The reading that is proposed, or why there is none.
pub(crate) fn next(
    reader: &Reader<'_>,
    located: &Located,
    options: &Options,
    first_read: Option<&Quantity>,
) -> Said {
    let language = reader.language;
    let Some(next) = &located.next else {
        // What is left in one place may be nothing that a meter sees: a coil, a door that binds.
        let only_by_eye = located.classes.first().is_some_and(|class| {
            class.members.len() > 1 && class.members.iter().all(|place| !located.is_seen(*place))
        });
        let words = if located.is_sure && !only_by_eye {
            Answer::SureEnough { share: reader.share(options.confidence) }
        } else {
            Answer::NoReadingTells
        };
        let mut out = Said::default();
        out.paragraph(words.say(language));
        return out;
    };
    proposed(reader, located, next, first_read)
}

/// The reading that is proposed, and what its outcomes would mean.
fn proposed(
    reader: &Reader<'_>,
    located: &Located,
    next: &NextReading,
    first_read: Option<&Quantity>,
) -> Said {
    let language = reader.language;
    let reading = reader.reading(&next.quantity);
    let minutes = next.minutes.round() as usize;
    // One reading is the first: that which decides at the place of which is told, if it is not this one.
    let is_second = first_read.is_some_and(|first| *first != next.quantity);
    let words = match is_second {
        true => Answer::NextElsewhere { reading: &reading, minutes },
        false => Answer::Next { reading: &reading, minutes },
    };
    let mut out = Said::default();
    out.paragraph(words.say(language));
    let mut meanings: Vec<_> = next.meanings.iter().collect();
    meanings.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    for meaning in meanings.into_iter().take(MOST_MEANINGS) {
        let named = |(place, share): (&usize, &f64)| {
            let cause = located.cause(*place).0.cause;
            let share = reader.share(*share);
            if located.is_seen(*place) {
                Answer::ThenOne { cause: &reader.cause(cause), share }.say(language)
            } else {
                Answer::ThenSound { share }.say(language)
            }
        };
        let causes: Vec<String> = meaning.causes.iter().zip(&meaning.shares).take(2).map(named).collect();
        let mut causes = match causes.is_empty() {
            true => Answer::ThenMany.say(language),
            false => causes.join("; "),
        };
        if meaning.causes.len() > 2 {
            causes.push_str("; …");
        }
        let words = Answer::Meaning {
            low: reader.figure(&next.quantity, meaning.low),
            high: reader.figure(&next.quantity, meaning.high),
            share: reader.share(meaning.probability),
            causes: &causes,
        };
        out.item(words.say(language));
    }
    out
}
