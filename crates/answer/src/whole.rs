//! The answer: what is most likely, what else it may be, what to read next, how to mend it.

use crate::again::Again;
use crate::next::{next, nothing_known};
use crate::reader::Reader;
use crate::said::{Piece, Said};
use latchline_finding::{Figure, Unit};
use latchline_locate::{Class, Evidence, Located, Options, PlaceShare};
use latchline_words::locate::Answer;

/// Causes that the first class lists.
const MOST_LISTED: usize = 6;
/// Least probability of a cause after the first that is listed by itself: what is less rounds to 0 %.
const LEAST_LISTED: f64 = 0.005;
/// A place is named beside the likeliest cause in it if it has at least so much more.
const LEAST_MORE: f64 = 0.02;
/// Where the readings leave more causes than this, a place is named to look at first only from this probability.
const MANY_CAUSES: usize = 50;
const LEAST_OF_MANY: f64 = 0.25;
/// Causes that are listed in all.
const MOST_LINES: usize = 10;
/// Causes that are listed between two readings.
const MOST_BRIEF: usize = 3;

/// The whole answer.
pub fn whole(
    reader: &Reader<'_>,
    evidence: &Evidence,
    located: &Located,
    options: &Options,
    notes: &[String],
    again: Option<&Again<'_>>,
) -> Said {
    let language = reader.language;
    let mut out = Said::default();
    for note in notes {
        out.paragraph(note);
    }
    if evidence.is_empty() {
        let has_command = again.is_none_or(|again| again.asked.is_some());
        out.append(nothing_known(reader, located, has_command));
        return out;
    }
    let list = |out: &mut Said, places: &[usize]| {
        for place in places {
            let (hypothesis, posterior) = located.cause(*place);
            let line = reader.line(hypothesis, posterior.probability, posterior.size.as_ref());
            out.item(line);
        }
    };
    let (classes, unrelated) = classes(located);
    let mut classes = classes.into_iter();
    let mut listed = 0;
    // What rounds to nothing is told together: beside each other such causes would add up to more than they are.
    let shown = |place: &&usize| located.ranking.causes[**place].probability >= LEAST_LISTED;
    if let Some(first) = classes.next() {
        listed = first.members.iter().take_while(shown).count().clamp(1, MOST_LISTED);
        out.paragraph(headline(reader, evidence, located, options));
        if first.members.len() > 1 {
            let share = reader.share(first.probability);
            let words = Answer::NotToldApart { causes: first.members.len(), share };
            out.paragraph(words.say(language));
        }
        list(&mut out, &first.members[..listed]);
        if first.members.len() > listed {
            let rest = &first.members[listed..];
            let sum: f64 = rest.iter().map(|place| located.ranking.causes[*place].probability).sum();
            let more = Answer::AndMore { causes: rest.len(), share: reader.share(sum) };
            out.item(more.say(language));
        }
    }
    let mut others: Vec<usize> = classes.flat_map(|class| class.members).collect();
    others.sort_by(|a, b| {
        let probability = |place: usize| located.ranking.causes[place].probability;
        probability(*b).total_cmp(&probability(*a)).then(a.cmp(b))
    });
    if !others.is_empty() {
        out.paragraph(Answer::Others.say(language).as_str());
        let listed = others.iter().take_while(shown).count().min(MOST_LINES - listed);
        list(&mut out, &others[..listed]);
        if others.len() > listed {
            let rest = &others[listed..];
            let sum: f64 = rest.iter().map(|place| located.ranking.causes[*place].probability).sum();
            let more = Answer::AndMore { causes: rest.len(), share: reader.share(sum) };
            out.item(more.say(language));
        }
    }
    if let Some(first) = unrelated.first() {
        let sum: f64 = unrelated.iter().map(|place| located.ranking.causes[*place].probability).sum();
        let cause = located.cause(*first).0.cause;
        let (causes, share, element) = (unrelated.len(), reader.share(sum), reader.element(cause.element));
        let (cause, element) = (cause.kind.say(language), element.as_deref());
        let words = Answer::PointedAtByNothing { causes, share, cause, element };
        out.item(words.say(language));
    }
    let none = Answer::NoneOfThese { share: reader.share(located.ranking.none_of_these) };
    out.item(none.say(language));
    if located.nothing_fits {
        out.paragraph(Answer::NothingFits.say(language));
    }
    for pair in located.pairs.iter().take(1) {
        let said = pair.causes.map(|(place, size)| {
            let cause = located.hypotheses[place].cause;
            let size = size.map(|size| format!(", {}", reader.size(cause.kind, &size)));
            format!("{}{}", reader.cause(cause), size.unwrap_or_default())
        });
        let share = reader.share(pair.share);
        out.paragraph(Answer::Pair { share, first: &said[0], second: &said[1] }.say(language));
    }
    for place in &located.doubtful {
        let measured = &evidence.measured[*place];
        let (reading, value) =
            (reader.reading(&measured.quantity), reader.value(&measured.quantity, measured.value));
        let words = Answer::Doubtful {
            reading: &reading,
            value: &value,
            share: reader.share(located.ranking.wrong[*place]),
        };
        out.paragraph(words.say(language));
    }
    out.gap();
    let first_read = again.and_then(|again| again.first_read);
    out.append(next(reader, located, options, first_read));
    let command = again.zip(located.next.as_ref()).and_then(|(again, next)| again.with(reader, next));
    command.into_iter().for_each(|command| out.paragraph(command));
    if let Some((hypothesis, _)) = first_shown(located).map(|class| located.cause(class.members[0])) {
        out.paragraph(hypothesis.cause.kind.mend().say(language));
    }
    if let Some(proof) = &located.proof {
        let reading = reader.reading(&proof.quantity);
        let words = Answer::Proof {
            reading: &reading,
            low: reader.figure(&proof.quantity, proof.low),
            high: reader.figure(&proof.quantity, proof.high),
        };
        out.paragraph(words.say(language));
    }
    out.gap();
    out.paragraph(Answer::Caution.say(language));
    let calls = evidence.measured.iter().filter_map(|one| one.quantity.state());
    if calls.into_iter().any(|state| !state.calls.is_empty()) {
        out.paragraph(Answer::CallsByNight.say(language));
    }
    out
}

/// The classes to list, each without the causes that nothing which was told points to, and these causes: any fault of a door is as likely
/// as ever when a screen restarts, and would fill a page. Where nothing points to anything, all are listed.
fn classes(located: &Located) -> (Vec<Class>, Vec<usize>) {
    let cause = |place: &usize| &located.ranking.causes[*place];
    if !located.ranking.causes.iter().any(|cause| cause.is_pointed_to) {
        return (located.classes.clone(), Vec::new());
    }
    let mut unrelated = Vec::new();
    let pointed = located.classes.iter().filter_map(|class| {
        let (members, rest): (Vec<usize>, Vec<usize>) =
            class.members.iter().partition(|place| cause(place).is_pointed_to);
        let probability = members.iter().map(|place| cause(place).probability).sum();
        unrelated.extend(rest);
        (!members.is_empty()).then_some(Class { members, probability })
    });
    let mut pointed: Vec<Class> = pointed.collect();
    // The likeliest cause stands first: causes are numbered from it on.
    pointed.sort_by_key(|class| class.members[0]);
    (pointed, unrelated)
}

fn first_shown(located: &Located) -> Option<Class> {
    classes(located).0.into_iter().next()
}

/// What is most likely, in a sentence. It says decided of one cause, or of one place, only what reached the confidence that was asked for.
fn headline(reader: &Reader<'_>, evidence: &Evidence, located: &Located, options: &Options) -> String {
    let Some(first) = first_shown(located) else { return String::new() };
    let language = reader.language;
    let (hypothesis, posterior) = located.cause(first.members[0]);
    let element = reader.element(hypothesis.cause.element);
    let (cause, element) = (hypothesis.cause.kind.say(language), element.as_deref());
    let own = reader.share(posterior.probability);
    let no_fault = no_fault_shows(reader, evidence, located).filter(|_| !located.is_sure);
    if let Some(no_fault) = no_fault {
        let possible = Answer::StillPossible { cause, element, own };
        return format!("{no_fault} {}", possible.say(language));
    }
    let first_place = located.places.first();
    let named = first_place.and_then(|place| reader.place(place));
    let own_element = located.places.iter().find(|place| place.members.contains(&first.members[0]));
    // The place has more in it than the likeliest cause, or is another one.
    let adds = |place: &&PlaceShare| {
        place.probability > posterior.probability + LEAST_MORE || !place.members.contains(&first.members[0])
    };
    // Where so many causes are left, a place that has little more than others is no place to begin.
    let is_worth_it =
        |place: &&PlaceShare| first.members.len() <= MANY_CAUSES || place.probability >= LEAST_OF_MANY;
    let look = first_place.filter(adds).filter(is_worth_it).zip(named.as_deref()).map(|(place, name)| {
        Answer::LookFirst { place: name, share: reader.share(place.probability) }.say(language)
    });
    let with_place = |text: String| match &look {
        Some(look) => format!("{text} {look}"),
        None => text,
    };
    let run_of = |place: &usize| located.cause(*place).0.cause.element.run();
    let run =
        run_of(&first.members[0]).filter(|run| first.members.iter().all(|one| run_of(one) == Some(*run)));
    let within =
        run.map(|run| latchline_finding::shown::prose(reader.site.runs[run].id.as_str()).into_owned());
    let within = within.as_deref();
    if posterior.probability >= options.confidence {
        return Answer::Told { cause, element, share: own }.say(language);
    }
    if let Some((place, name)) = own_element.zip(named.as_deref())
        && Some(place) == first_place
        && place.probability >= options.confidence
    {
        let share = reader.share(place.probability);
        return Answer::ToldOfPlace { place: name, share, cause, own }.say(language);
    }
    match first.members.len() {
        1 => with_place(Answer::Told { cause, element, share: own }.say(language)),
        causes => {
            let share = reader.share(first.probability);
            with_place(Answer::ToldOfClass { causes, within, cause, element, own, share }.say(language))
        }
    }
}

/// That what was read needs no fault, where it needs none.
fn no_fault_shows(reader: &Reader<'_>, evidence: &Evidence, located: &Located) -> Option<String> {
    let is_told = evidence.symptoms.iter().any(|symptom| symptom.kind.is_bad());
    if located.is_as_predicted {
        let words = if is_told { Answer::AsPredictedOnlyTold } else { Answer::AsPredicted };
        return Some(words.say(reader.language));
    }
    let planned = located.within_plan?;
    let measured = &evidence.measured[planned.reading];
    let value = &reader.value(&measured.quantity, measured.value);
    let figure = |value| Figure::new(value, Unit::Volt);
    let (low, high) = (figure(planned.low_v), figure(planned.high_v));
    Some(match is_told {
        true => Answer::WithinPlanButTold { value, low, high }.say(reader.language),
        false => Answer::WithinPlan { value, low, high }.say(reader.language),
    })
}

/// The headline, the best causes and the next reading: what somebody on a ladder reads between two readings.
pub fn brief(reader: &Reader<'_>, evidence: &Evidence, located: &Located, options: &Options) -> Said {
    let mut out = Said::default();
    out.paragraph(headline(reader, evidence, located, options));
    if located.nothing_fits {
        out.paragraph(Answer::NothingFits.say(reader.language));
    }
    if let Some(first) = first_shown(located).filter(|first| first.members.len() > 1) {
        for place in first.members.iter().take(MOST_BRIEF) {
            let (hypothesis, posterior) = located.cause(*place);
            let line = reader.line(hypothesis, posterior.probability, posterior.size.as_ref());
            out.item(line);
        }
    }
    out.append(next(reader, located, options, None));
    out
}

/// What can be said on the telephone: the most likely, the next reading.
pub fn short(
    reader: &Reader<'_>,
    evidence: &Evidence,
    located: &Located,
    options: &Options,
    notes: &[String],
) -> Vec<String> {
    let mut lines: Vec<String> = notes.to_vec();
    if !evidence.is_empty() {
        lines.push(headline(reader, evidence, located, options));
    }
    if located.nothing_fits {
        lines.push(Answer::NothingFits.say(reader.language));
    }
    let first = next(reader, located, options, None).0.into_iter().next();
    lines.extend(first.into_iter().filter_map(|piece| match piece {
        Piece::Paragraph(words) | Piece::Item(words) => Some(words),
        Piece::Gap => None,
    }));
    lines
}
