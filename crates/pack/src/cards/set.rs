//! All cards, ready to be drawn.

use super::block::{of_item, of_run, pictures, protects};
use super::terminals::legend;
use latchline_drawing::job_card::{CardBlock, CardSet, JobCardPicture};
use latchline_handover::job_cards::assigned::{Assigned, AssignedStep, Spot};
use latchline_handover::job_cards::places::{CardKind, JobCard, JobCards, start_item};
use latchline_handover::language::{Sentence, Word};
use latchline_handover::subject::Subject;
use latchline_handover::tables::door_lines;
use latchline_wiring::Item;
use std::collections::BTreeSet;

/// Every card of a site.
pub fn card_set(subject: &Subject<'_>) -> CardSet {
    let locale = &subject.locale;
    let word = |word: Word| locale.word(word).to_string();
    let cards = JobCards::new(subject);
    let assigned = Assigned::new(subject, &cards);
    let of = cards.cards.len();
    let title = |index: usize| cards.cards[index].title(subject);
    let list = cards.cards.iter().enumerate().map(|(index, card)| {
        let mut neighbours = Vec::new();
        if index > 0 {
            neighbours.push(locale.say(&Sentence::CardBefore { card: index, title: &title(index - 1) }));
        }
        if index + 1 < of {
            neighbours.push(locale.say(&Sentence::CardAfter { card: index + 2, title: &title(index + 1) }));
        }
        JobCardPicture {
            kind: card.kind_word(subject).to_string(),
            place: card.place_words(subject),
            number: locale.say(&Sentence::CardOf { card: index + 1, of }),
            neighbours,
            power: power(subject, &cards, &assigned, index),
            blocks: blocks(subject, &cards, &assigned, card),
        }
    });
    CardSet {
        cards: list.collect(),
        legend: legend(subject),
        heads: [Word::ExpectedValue, Word::Lowest, Word::Highest, Word::Reading].map(word),
        continued: word(Word::CardContinued),
        power: [Word::CardPowerOff, Word::CardPowerOn].map(word),
        caution: word(Word::CautionIsolate),
    }
}

/// Which power state is wanted: the stages that are done here without power, and those with it.
fn power(subject: &Subject<'_>, cards: &JobCards, assigned: &Assigned, card: usize) -> String {
    let is_here = |step: &&AssignedStep| match step.spot {
        Some(Spot::Item(item)) => cards.card_of(item) == Some(card),
        Some(Spot::Run(run)) => cards.card_of_run(subject, run) == Some(card),
        None => false,
    };
    let letters = |is_live: bool| {
        let here = assigned.steps.iter().filter(|step| step.is_live == is_live).filter(is_here);
        let letters: BTreeSet<String> = here.map(|step| step.letter.to_string()).collect();
        letters.into_iter().collect::<Vec<_>>().join(" ")
    };
    let (off, on) = (letters(false), letters(true));
    let locale = &subject.locale;
    match (off.is_empty(), on.is_empty()) {
        (false, false) => locale.say(&Sentence::PowerOffThenOn { off: &off, on: &on }),
        (false, true) => locale.say(&Sentence::PowerOffHere { off: &off }),
        (true, false) => locale.say(&Sentence::PowerOnHere { on: &on }),
        (true, true) => locale.word(Word::CautionIsolate).to_string(),
    }
}

/// The circuits of a door, its times and its cautions.
fn of_door(subject: &Subject<'_>, entrance: usize) -> CardBlock {
    let name = &subject.site.entrances[entrance].id;
    let words = subject.locale.word(Word::DoorAndLocks);
    CardBlock {
        element: format!("{words} {name}"),
        designation: words.to_string(),
        lines: door_lines(subject, entrance),
        pictures: pictures(subject, entrance),
        ..CardBlock::default()
    }
}

/// The blocks of a card: each item, and behind it the runs that start at it with their protectors.
fn blocks(subject: &Subject<'_>, cards: &JobCards, assigned: &Assigned, card: &JobCard) -> Vec<CardBlock> {
    let mut blocks = Vec::new();
    let is_before_a_run = |item: Item| card.runs.iter().any(|run| protects(item, *run));
    for item in card.items.iter().copied().filter(|item| !is_before_a_run(*item)) {
        if let (CardKind::Door(entrance), true) = (card.kind, blocks.is_empty()) {
            blocks.push(of_door(subject, entrance));
        }
        blocks.push(of_item(subject, assigned, item));
        for run in card.runs.iter().copied() {
            if start_item(subject.site.runs[run].from) != item {
                continue;
            }
            let protectors = card.items.iter().copied().filter(|item| protects(*item, run));
            blocks.extend(protectors.map(|item| of_item(subject, assigned, item)));
            blocks.push(of_run(subject, cards, assigned, run));
        }
    }
    blocks
}
