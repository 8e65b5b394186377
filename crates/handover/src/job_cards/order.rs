//! The order of work: what holds for the whole site at length, and which cards are taken up when.

use super::assigned::{Assigned, AssignedStep, Spot};
use super::brief::in_general;
use super::places::JobCards;
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
            walks(subject, &rest[..count]).iter().for_each(|walk| table.row(on_cards(subject, &cards, walk)));
            rest = &rest[count..];
        }
    }
    table.heading(locale.word(Word::JobCardsTitle));
    for (index, card) in cards.cards.iter().enumerate() {
        let names: Vec<String> = card
            .items
            .iter()
            .filter(|item| subject.order.contains(item))
            .map(|item| subject.name(*item))
            .collect();
        let mut cells = vec![
            Cell::Empty,
            Cell::text(locale.say(&Sentence::CardNumber { card: index + 1 })),
            Cell::text(format!("{}: {}", card.title(subject), names.join(", "))),
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

/// What is done alike at several places, one after the other, in the order of the steps.
struct Walk<'s> {
    /// The steps.
    steps: Vec<&'s AssignedStep>,
    /// What is done at each place: the first step of each kind. A place may have fewer.
    kinds: Vec<&'s AssignedStep>,
}

/// Steps in their order, those at neighbouring places together where the same is done at each. Where the order is of no account, meter by
/// meter: who takes one up wants to know where.
fn walks<'s>(subject: &Subject<'_>, steps: &[&'s AssignedStep]) -> Vec<Walk<'s>> {
    let mut by_meter: Vec<Vec<&AssignedStep>> = Vec::new();
    let mut last = None;
    // Work without a meter divides the readings before it from those behind it: each stretch is sorted by itself.
    let mut first = 0;
    for step in steps {
        let with = step.step.instrument;
        // What is only told stands beside what it explains.
        let is_told = step.step.expected == Expected::Told;
        let is_bound = !matches!(step.stage, Word::StageBareEnds | Word::StageReadings);
        let turns = |same: &Vec<&AssignedStep>| same[0].step.instrument.is_some() != with.is_some();
        if !is_bound && !is_told && by_meter.last().is_some_and(turns) {
            first = by_meter.len();
        }
        let mut stretch =
            (first..by_meter.len()).filter(|index| is_bound || by_meter[*index][0].step.instrument == with);
        let index = match last.filter(|_| is_told).or_else(|| stretch.next()) {
            Some(index) => index,
            None => {
                by_meter.push(Vec::new());
                by_meter.len() - 1
            }
        };
        by_meter[index].push(step);
        last = Some(index);
    }
    by_meter.iter().flat_map(|same| in_order(subject, same)).collect()
}

fn in_order<'s>(subject: &Subject<'_>, steps: &[&'s AssignedStep]) -> Vec<Walk<'s>> {
    let mut walks: Vec<Walk<'s>> = Vec::new();
    for visit in steps.chunk_by(|one, next| one.spot == next.spot) {
        let mut kinds: Vec<&AssignedStep> = Vec::new();
        for step in visit.iter().filter(|step| step.step.expected != Expected::Told) {
            if !kinds.iter().any(|one| is_alike(subject, one, step)) {
                kinds.push(step);
            }
        }
        if kinds.is_empty() {
            kinds.extend(&visit[..1]);
        }
        // Where the order binds, each visit has a row of its own: who comes back to a card is told when, and to what.
        let is_free = !is_bound_to_order(visit[0].stage);
        let last = walks.last_mut().filter(|walk| {
            is_free && (is_part(subject, &kinds, &walk.kinds) || is_part(subject, &walk.kinds, &kinds))
        });
        match last {
            Some(walk) => {
                if kinds.len() > walk.kinds.len() {
                    walk.kinds = kinds;
                }
                walk.steps.extend(visit);
            }
            None => walks.push(Walk { steps: visit.to_vec(), kinds }),
        }
    }
    walks
}

/// Whether two steps are the same at different places.
fn is_alike(subject: &Subject<'_>, one: &AssignedStep, other: &AssignedStep) -> bool {
    one.step.instrument == other.step.instrument
        && one.step.expected.is_of_kind(&other.step.expected)
        && in_general(subject, one) == in_general(subject, other)
}

/// Whether some kinds are among others, in their order.
fn is_part(subject: &Subject<'_>, few: &[&AssignedStep], many: &[&AssignedStep]) -> bool {
    let mut rest = many.iter();
    few.iter().all(|one| rest.any(|other| is_alike(subject, one, other)))
}

/// Whether the steps of a stage depend on those before them, so that their cards are walked in that order: runs get power behind what
/// feeds them, what feeds a door is isolated before it, the weakest call is tried first, a door is done before the next one. In all
/// other stages a building is walked once.
fn is_bound_to_order(stage: Word) -> bool {
    matches!(stage, Word::StageIsolate | Word::StagePowerUp | Word::StageCalls | Word::StageDoors)
}

/// A walk from card to card: which cards, in which order, and at length what the cards say in few words.
fn on_cards(subject: &Subject<'_>, cards: &JobCards, walk: &Walk<'_>) -> Vec<Cell> {
    let locale = &subject.locale;
    let steps = &walk.steps;
    let mut numbers: Vec<usize> = Vec::new();
    for step in steps {
        let card = match step.spot {
            Some(Spot::Item(item)) => cards.card_of(item),
            Some(Spot::Run(run)) => cards.card_of_run(subject, run),
            None => None,
        };
        numbers.extend(card.map(|card| card + 1));
    }
    // Where the order binds, who comes back to a card comes back to it.
    if !is_bound_to_order(steps[0].stage) {
        numbers.sort_unstable();
    }
    numbers.dedup();
    let mut of_steps: Vec<usize> = steps.iter().map(|step| step.step.number).collect();
    of_steps.sort_unstable();
    let range = ranges(&of_steps, &steps[0].letter.to_string());
    let has_several = walk.kinds.iter().any(|one| one.step.instrument != walk.kinds[0].step.instrument);
    let words: Vec<String> = walk
        .kinds
        .iter()
        .map(|kind| {
            if is_bound_to_order(kind.stage) {
                let what = kind.step.what.as_str();
                return if has_several { what.trim_end_matches(['.', ':']) } else { what }.to_string();
            }
            let said = in_general(subject, kind).map_or_else(
                || locale.say(&Sentence::AsAtStep { step: &kind.number(), what: &kind.step.what }),
                str::to_string,
            );
            let with = kind.step.instrument.filter(|_| has_several);
            match with {
                Some(with) => format!("{} ({})", said.trim_end_matches(['.', ':']), locale.word(with)),
                None if has_several => said.trim_end_matches(['.', ':']).to_string(),
                None => said,
            }
        })
        .collect();
    // Which cables must not meet an insulation tester is said by name.
    let by_ohmmeter = steps.iter().filter(|step| step.step.instrument == Some(Word::OhmmeterOnly));
    let mut named: Vec<&str> = by_ohmmeter.map(|step| step.step.place.as_str()).collect();
    named.dedup();
    let whole = if has_several { words.join("; ") } else { words.join(" ") };
    let cards = ranges(&numbers, "");
    let mut what = locale.say(&match numbers.len() {
        1 => Sentence::OnOneCard { card: &cards, whole: &whole },
        _ => Sentence::OnCards { cards: &cards, whole: &whole },
    });
    if !named.is_empty() {
        what.push_str(&format!(" {}: {}", locale.word(Word::OhmmeterOnly), named.join(", ")));
    }
    let mut with: Vec<&str> = Vec::new();
    for instrument in walk.kinds.iter().filter_map(|kind| kind.step.instrument) {
        let word = locale.word(instrument);
        if !with.contains(&word) {
            with.push(word);
        }
    }
    let mut cells = vec![
        Cell::text(range),
        locale.cell(Word::OnJobCards),
        Cell::text(what.trim()),
        Cell::text(with.join(", ")),
    ];
    cells.resize(8, Cell::Empty);
    cells.push(Cell::Tick);
    cells
}

/// Numbers behind a letter in their order, those that follow one another as a range: "1–4, 7, 5".
fn ranges(numbers: &[usize], letter: &str) -> String {
    let mut parts: Vec<(usize, usize)> = Vec::new();
    for number in numbers {
        match parts.last_mut() {
            Some((_, last)) if *last + 1 == *number => *last = *number,
            _ => parts.push((*number, *number)),
        }
    }
    let words: Vec<String> = parts
        .into_iter()
        .map(|(first, last)| match first == last {
            true => format!("{letter}{first}"),
            false => format!("{letter}{first}–{letter}{last}"),
        })
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
        assert_eq!(ranges(&[1, 2, 3, 7, 5, 6], ""), "1–3, 7, 5–6");
        assert_eq!(ranges(&[98, 99, 101], "D"), "D98–D99, D101");
        assert_eq!(ranges(&[], ""), "");
    }
}
