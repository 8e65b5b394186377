//! The terminals of an item as a card draws them: the rows of the wiring schedule.

use latchline_drawing::job_card::{CardWire, StripSet, StripTerminal, WireColour};
use latchline_handover::language::{Sentence, Word};
use latchline_handover::subject::Subject;
use latchline_handover::table::Cell;
use latchline_handover::tables::{Length, earth_size, rows_of_item};
use latchline_wiring::colours::is_stated;
use latchline_wiring::{By, Item, Terminal, TerminalSet};

/// The terminals of an item, set by set.
pub(super) fn strip(subject: &Subject<'_>, item: Item) -> Vec<StripSet> {
    let mut sets: Vec<StripSet> = Vec::new();
    let (mut before, language) = (None, subject.locale.language);
    let mut rows = rows_of_item(subject, item, Length::Brief).into_iter();
    for (terminal, landings) in subject.wiring.of_item(item) {
        if before != Some(terminal.set) {
            let mark =
                if terminal.set == TerminalSet::Ways { String::new() } else { terminal.set.mark(language) };
            sets.push(StripSet { mark, terminals: Vec::new() });
            before = Some(terminal.set);
        }
        // The schedule has a row for each landing, and one for a free terminal or a screen.
        let is_screen = subject.wiring.screens.contains_key(&terminal);
        let count = if is_screen { 1 } else { landings.len().max(1) };
        let of_terminal: Vec<Vec<Cell>> = rows.by_ref().take(count).collect();
        if let Some(set) = sets.last_mut() {
            set.terminals.push(strip_terminal(subject, terminal, &of_terminal, is_screen));
        }
    }
    sets
}

fn strip_terminal(
    subject: &Subject<'_>,
    terminal: Terminal,
    rows: &[Vec<Cell>],
    is_screen: bool,
) -> StripTerminal {
    let landings = subject.wiring.terminals.get(&terminal).map_or(&[][..], Vec::as_slice);
    let mut shown = StripTerminal { pole: terminal.pole.mark().to_string(), ..StripTerminal::default() };
    let mut remarks: Vec<String> = Vec::new();
    for (number, row) in rows.iter().enumerate() {
        let [_, _, _, cable, _, pair, colour, other, remark, ..] = &row[..] else { continue };
        let remark = remark.words().to_string();
        if !remark.is_empty() && !remarks.contains(&remark) {
            remarks.push(remark);
        }
        if cable.words().is_empty() {
            continue;
        }
        let by = landings.get(number).map(|landing| &landing.by);
        let is_conductor =
            matches!(by, Some(By::Conductor { .. } | By::Unstated { .. } | By::EarthConductor)) && !is_screen;
        let colour = match colour {
            Cell::Choice(_) | Cell::WriteIn => WireColour::ToWrite(String::new()),
            usual if usual.words().starts_with('(') => WireColour::ToWrite(usual.words().to_string()),
            colour if is_conductor && !colour.words().is_empty() => {
                WireColour::Code(colour.words().to_string())
            }
            _ => WireColour::None,
        };
        shown.wires.push(CardWire {
            colour,
            cable: with_pair(subject, terminal.item, by, cable.words(), pair),
            other: other.words().to_string(),
        });
    }
    shown.remark = remarks.join("; ");
    shown
}

/// A cable, with the pair where it has several.
fn with_pair(subject: &Subject<'_>, item: Item, by: Option<&By>, cable: &str, pair: &Cell) -> String {
    // What it is made of is its own, and is said where it is fitted.
    if let Some(By::EarthConductor) = by {
        return format!("{cable} {}", earth_size(subject, item));
    }
    let has_several = match by {
        Some(By::Conductor { cable, .. }) => {
            let laid = &subject.wiring.cables[*cable].laid;
            subject.site.catalogue.cables[&laid.cable].pairs.value > 1
        }
        _ => false,
    };
    match pair {
        Cell::Count(number) if has_several => {
            subject.locale.say(&Sentence::CableAndPair { cable, pair: *number as usize })
        }
        _ => cable.to_string(),
    }
}

/// Notes that hold for every strip.
pub(super) fn legend(subject: &Subject<'_>) -> String {
    let new = subject.wiring.cables.iter().filter(|cable| !cable.laid.is_existing);
    let named = new.map(|cable| is_stated(&subject.site.catalogue.cables[&cable.laid.cable]));
    let named: Vec<bool> = named.collect();
    let word = match (named.contains(&true), named.contains(&false)) {
        (true, false) => Word::CardLegendOfCatalogue,
        (true, true) => Word::CardLegendMixed,
        (false, _) => Word::CardLegend,
    };
    subject.locale.word(word).to_string()
}
