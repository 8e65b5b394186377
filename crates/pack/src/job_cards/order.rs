//! The order of work: what holds for the whole site at length, and which cards are taken up when.

use super::assigned::{Assigned, AssignedStep, Spot};
use super::brief::at_length;
use super::places::JobCards;
use super::set::card_title;
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::step::Expected;
use crate::subject::Subject;
use crate::table::{Cell, Table};
use crate::tables::{FIRST_LIVE, step_columns, written};

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let cards = JobCards::new(subject);
    let assigned = Assigned::new(subject, &cards);
    let title = locale.word(Word::OrderOfWorkTitle);
    let mut table = Table::new(Part::OrderOfWork, title, step_columns(locale));
    table.note(locale.word(Word::OrderOfWorkNote));
    // That nothing is under power holds for one of the two sheets: here it stands at the stages.
    let of_one_sheet = locale.word(Word::BeforePowerNote);
    for sheet in &assigned.sheets {
        sheet.notes.iter().filter(|note| *note != of_one_sheet).for_each(|note| {
            if !table.notes.contains(note) {
                table.note(note);
            }
        });
    }
    let stages = assigned.sheets.iter().flat_map(|sheet| &sheet.stages);
    for stage in stages {
        let power = match stage.letter {
            _ if stage.word == Word::StageWho => String::new(),
            letter if letter < FIRST_LIVE => format!(" · {}", locale.word(Word::CardPowerOff)),
            _ => format!(" · {}", locale.word(Word::CardPowerOn)),
        };
        table.heading(format!("{}. {}{power}", stage.letter, stage.title));
        let of_stage: Vec<&AssignedStep> =
            assigned.steps.iter().filter(|step| step.letter == stage.letter).collect();
        let mut rest = &of_stage[..];
        while let Some(first) = rest.first() {
            if first.spot.is_none() {
                table.row(row(subject, first));
                rest = &rest[1..];
                continue;
            }
            let count = rest.iter().take_while(|step| step.spot.is_some()).count();
            by_instrument(&rest[..count]).iter().for_each(|same| table.row(on_cards(subject, &cards, same)));
            rest = &rest[count..];
        }
    }
    table.heading(locale.word(Word::JobCardsTitle));
    for (index, card) in cards.cards.iter().enumerate() {
        let names: Vec<String> = card
            .items
            .iter()
            .filter(|item| subject.order.contains(item))
            .map(|item| item.name(subject.site))
            .collect();
        let mut cells = vec![
            Cell::Empty,
            Cell::text(locale.say(&Sentence::CardNumber { card: index + 1 })),
            Cell::text(format!("{}: {}", card_title(subject, card), names.join(", "))),
        ];
        cells.resize(8, Cell::Empty);
        cells.push(Cell::Tick);
        table.row(cells);
    }
    table
}

/// A step that holds for the whole site, or for what is on no card.
fn row(subject: &Subject<'_>, at: &AssignedStep) -> Vec<Cell> {
    let locale = &subject.locale;
    let step = &at.step;
    let with = step.instrument.map_or(Cell::Empty, |word| locale.cell(word));
    let mut cells = vec![Cell::text(at.number()), Cell::text(&step.place), Cell::text(&step.what), with];
    cells.extend(step.expected.cells(locale));
    cells.extend(written(step));
    cells
}

/// Steps by what they are done with, in the order in which each comes up: who takes up a meter wants to know where. What is only
/// told stands beside what it explains.
fn by_instrument<'s>(steps: &[&'s AssignedStep]) -> Vec<Vec<&'s AssignedStep>> {
    let mut groups: Vec<Vec<&AssignedStep>> = Vec::new();
    for step in steps {
        let with = step.step.instrument;
        let is_told = step.step.expected == Expected::Told;
        match groups.iter_mut().find(|group| is_told || group[0].step.instrument == with) {
            Some(group) => group.push(step),
            None => groups.push(vec![step]),
        }
    }
    groups
}

/// Whether the steps of a stage depend on those before them, so that their cards are walked in that order: runs get power behind what
/// feeds them, the weakest call is tried first. In all other stages a building is walked once.
fn is_bound_to_order(stage: Word) -> bool {
    matches!(stage, Word::StagePowerUp | Word::StageCalls)
}

/// Steps that stand on cards: which cards, in which order, and at length what the cards say in few words.
fn on_cards(subject: &Subject<'_>, cards: &JobCards, steps: &[&AssignedStep]) -> Vec<Cell> {
    let locale = &subject.locale;
    let mut numbers: Vec<usize> = Vec::new();
    let mut whole: Vec<&str> = Vec::new();
    for step in steps {
        let card = match step.spot {
            Some(Spot::Item(item)) => cards.card_of(item),
            Some(Spot::Run(run)) => cards.card_of_run(subject, run),
            None => None,
        };
        if let Some(card) = card.filter(|card| !numbers.contains(&(card + 1))) {
            numbers.push(card + 1);
        }
        if let Some(words) = at_length(subject, step).filter(|words| !whole.contains(words)) {
            whole.push(words);
        }
    }
    if !is_bound_to_order(steps[0].stage) {
        numbers.sort_unstable();
    }
    let (first, last) = (steps[0].number(), steps[steps.len() - 1].number());
    let range = if first == last { first } else { format!("{first}–{last}") };
    let with = steps.iter().find_map(|step| step.step.instrument);
    // Which cables must not meet an insulation tester is said by name.
    let mut named: Vec<&str> = Vec::new();
    if with == Some(Word::OhmmeterOnly) {
        named.extend(steps.iter().map(|step| step.step.place.as_str()));
    }
    let mut what = locale.say(&Sentence::OnCards { cards: &ranges(&numbers), whole: &whole.join(" ") });
    if !named.is_empty() {
        what.push_str(&format!(" {}", named.join(", ")));
    }
    let mut cells = vec![
        Cell::text(range),
        locale.cell(Word::OnJobCards),
        Cell::text(what.trim()),
        with.map_or(Cell::Empty, |word| locale.cell(word)),
    ];
    cells.resize(8, Cell::Empty);
    cells.push(Cell::Tick);
    cells
}

/// Numbers in their order, those that follow one another as a range: "1–4, 7, 5".
fn ranges(numbers: &[usize]) -> String {
    let mut parts: Vec<(usize, usize)> = Vec::new();
    for number in numbers {
        match parts.last_mut() {
            Some((_, last)) if *last + 1 == *number => *last = *number,
            _ => parts.push((*number, *number)),
        }
    }
    let words: Vec<String> = parts
        .into_iter()
        .map(|(first, last)| if first == last { first.to_string() } else { format!("{first}–{last}") })
        .collect();
    words.join(", ")
}

#[cfg(test)]
mod tests {
    use super::{Word, is_bound_to_order, ranges};

    #[test]
    fn only_power_and_the_weakest_call_are_bound_to_an_order() {
        assert!(is_bound_to_order(Word::StagePowerUp) && is_bound_to_order(Word::StageCalls));
        assert!(!is_bound_to_order(Word::StagePull) && !is_bound_to_order(Word::StageReadings));
    }

    #[test]
    fn numbers_that_follow_one_another_are_a_range() {
        assert_eq!(ranges(&[1, 2, 3, 7, 5, 6]), "1–3, 7, 5–6");
        assert_eq!(ranges(&[]), "");
    }
}
