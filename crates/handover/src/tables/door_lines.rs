//! What must be known at a door before anything is wired there, in a few lines: the facts of its door sheet.

use super::doors::{caution_word, facts_of};
use crate::language::Word;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{MISSING, Table};
use latchline_assess::door::Caution;

/// The facts of a door sheet that are lines on a job card.
const SHOWN: [Word; 8] = [
    Word::EscapeRoute,
    Word::FireInterlock,
    Word::WithoutPower,
    Word::HoldTime,
    Word::Energised,
    Word::DelayedEgress,
    Word::AlarmInput,
    Word::EarthBar,
];

/// Escape, times, what happens without power, and cautions.
pub fn door_lines(subject: &Subject<'_>, entrance: usize) -> Vec<String> {
    let locale = &subject.locale;
    let Some(sheet) = subject.assessment.doors.iter().find(|sheet| sheet.index == entrance) else {
        return Vec::new();
    };
    let mut table = Table::new(Part::Doors, "", Vec::new());
    table.columns = (0..5).map(|_| super::column::column(locale, Word::Item, 1)).collect();
    facts_of(subject, sheet, &mut table);
    let (mut of_door, mut lines) = (Vec::new(), Vec::new());
    for cells in table.body() {
        let [_, about, item, value, remark] = cells else { continue };
        if !SHOWN.iter().any(|word| locale.word(*word) == item.words()) {
            continue;
        }
        let value = locale.cell_text(value, None);
        let value = if value.is_empty() { MISSING } else { &value };
        let remark = if remark.words().is_empty() { String::new() } else { format!(" ({})", remark.words()) };
        let fact = format!("{}: {value}{remark}", item.words());
        // What the card is about is not said again; facts of one word stand on one line.
        match (about.words() == locale.word(Word::Door), remark.is_empty()) {
            (true, true) => of_door.push(fact),
            (true, false) => lines.push(fact),
            (false, _) => lines.push(format!("{} · {fact}", about.words())),
        }
    }
    if !of_door.is_empty() {
        lines.insert(0, of_door.join(" · "));
    }
    let mut cautions: Vec<Caution> = Vec::new();
    for caution in sheet.locks.iter().flat_map(|lock| &lock.cautions) {
        // The first stands on every card.
        if *caution != Caution::IsolateAndProveDead && !cautions.contains(caution) {
            cautions.push(*caution);
        }
    }
    lines.extend(cautions.into_iter().map(|caution| format!("! {}", locale.word(caution_word(caution)))));
    lines
}
