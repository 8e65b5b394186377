//! Which steps of the commissioning sheets are done at which device or run.

use super::places::JobCards;
use crate::commissioning::{Stage, Step, Taken, sheets};
use crate::language::{Sentence, Word};
pub use crate::step::Spot;
use crate::step::{Expected, Sheet};
use crate::subject::Subject;
use latchline_assess::Reading;
use latchline_wiring::Item;

/// A step with where it stands on the commissioning sheets.
#[derive(Debug, Clone, PartialEq)]
pub struct AssignedStep {
    /// The stage.
    pub stage: Word,
    /// Letter of the stage.
    pub letter: char,
    /// Whether the power is on.
    pub is_live: bool,
    /// The step.
    pub step: Step,
    /// Where it is done; `None` for the whole site.
    pub spot: Option<Spot>,
}

impl AssignedStep {
    /// Letter and number: `C12`.
    pub fn number(&self) -> String {
        format!("{}{}", self.letter, self.step.number)
    }
}

/// Both sheets with every step at its place.
pub struct Assigned {
    /// The sheets, without steps.
    pub sheets: [Sheet; 2],
    /// Every step, in order.
    pub steps: Vec<AssignedStep>,
}

impl Assigned {
    /// Of a site, on these cards.
    pub fn new(subject: &Subject<'_>, cards: &JobCards) -> Assigned {
        let mut sheets = sheets(subject);
        let mut steps: Vec<AssignedStep> = Vec::new();
        for (index, sheet) in sheets.iter_mut().enumerate() {
            for stage in &mut sheet.stages {
                let Stage { word, letter, steps: of_stage, .. } = stage;
                let mut before: Option<(Spot, bool)> = None;
                for step in std::mem::take(of_stage) {
                    let is_drop = matches!(step.taken, Some(Taken::Predicted(Reading::Drop { .. })));
                    // What is said after a drop explains it, and stands beside it.
                    let explains = step.expected == Expected::Told && before.is_some_and(|(_, drop)| drop);
                    let spot = match before {
                        Some((spot, _)) if explains => Some(spot),
                        _ => step.spot,
                    };
                    let spot = spot.filter(|spot| is_on_a_card(subject, cards, *spot));
                    before = spot.map(|spot| (spot, is_drop || explains));
                    steps.push(AssignedStep {
                        stage: *word,
                        letter: *letter,
                        is_live: index == 1,
                        step,
                        spot,
                    });
                }
            }
        }
        say_where_isolated(subject, cards, &mut steps);
        Assigned { sheets, steps }
    }

    /// The steps at a device or run, in order.
    pub fn at(&self, spot: Spot) -> impl Iterator<Item = &AssignedStep> {
        self.steps.iter().filter(move |step| step.spot == Some(spot))
    }
}

/// Where something is dead only once a supply is isolated, its card says at which steps and on which card that is done.
fn say_where_isolated(subject: &Subject<'_>, cards: &JobCards, steps: &mut [AssignedStep]) {
    for (index, supply) in subject.site.supplies.iter().enumerate() {
        let item = Item::Supply(index);
        let isolating: Vec<String> = steps
            .iter()
            .filter(|step| step.stage == Word::StageIsolate && step.spot == Some(Spot::Item(item)))
            .map(AssignedStep::number)
            .collect();
        let ([first, ..], Some(last), Some(card)) =
            (isolating.as_slice(), isolating.last(), cards.card_of(item))
        else {
            continue;
        };
        let numbers = if first == last { first.clone() } else { format!("{first}–{last}") };
        let supply = supply.id.as_str();
        let said = subject.locale.say(&Sentence::DeadOnceIsolated { supply });
        let on_card = Sentence::DeadOnceIsolatedOnCard { supply, steps: &numbers, card: card + 1 };
        let on_card = subject.locale.say(&on_card);
        steps
            .iter_mut()
            .filter(|step| step.step.what == said)
            .for_each(|step| step.step.what = on_card.clone());
    }
}

fn is_on_a_card(subject: &Subject<'_>, cards: &JobCards, spot: Spot) -> bool {
    match spot {
        Spot::Item(item) => cards.card_of(item).is_some(),
        Spot::Run(run) => cards.card_of_run(subject, run).is_some(),
    }
}
