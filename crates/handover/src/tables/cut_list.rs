//! The cut list: drum by drum, what is cut from it.

use super::column::{column, measured};
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Table};
use latchline_cutting::{CableCuts, CuttingError, CuttingPlan};
use latchline_finding::Unit;

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let mut cut = measured(locale, Word::CutLength, Unit::Metre, 10);
    cut.is_summed = true;
    let columns = vec![
        column(locale, Word::CableType, 16).said_above(),
        column(locale, Word::Drum, 8),
        measured(locale, Word::DrumLength, Unit::Metre, 10),
        column(locale, Word::Cable, 18),
        cut,
        measured(locale, Word::LeftOnDrum, Unit::Metre, 10),
        column(locale, Word::Done, 6),
    ];
    let mut table = Table::new(Part::CutList, locale.word(Word::CutListTitle), columns);
    table.note(locale.say(&Sentence::CutAllowance {
        tolerance:
            &locale.in_words(subject.site.conditions.length_tolerance.value.as_fraction(), Unit::Percent),
        ends: &locale.in_words(subject.site.conditions.end_allowance.value.as_metres(), Unit::Metre),
        step: &locale.in_words(0.1, Unit::Metre),
    }));
    table.note(locale.word(Word::NeverCutInTwo));
    table.note(locale.word(Word::CutBoundMeaning));
    for cable in subject.cut_list {
        table.heading(heading(subject, cable));
        match &cable.plan {
            Ok(found) => {
                for (number, (drum, cuts)) in found.plan.drums.iter().zip(&found.assigned).enumerate() {
                    let mut left = drum.stock;
                    for cut in cuts {
                        left -= cable.cuts[*cut].length_dm;
                        row(subject, cable, *cut, Some((number + 1, drum.stock, left)), &mut table);
                    }
                }
            }
            Err(_) => (0..cable.cuts.len()).for_each(|cut| row(subject, cable, cut, None, &mut table)),
        }
    }
    table
}

fn row(
    subject: &Subject<'_>,
    cable: &CableCuts,
    cut: usize,
    drum: Option<(usize, u32, u32)>,
    table: &mut Table,
) {
    let locale = &subject.locale;
    let metres = |length_dm: u32| f64::from(length_dm) / 10.0;
    let cut = &cable.cuts[cut];
    let length = &subject.wiring.cables[cut.cable];
    let name = if length.laid.side_by_side > 1 {
        format!("{} #{}", length.designation, cut.piece)
    } else {
        length.designation.clone()
    };
    let is_too_long =
        matches!(&cable.plan, Err(CuttingError::TooLong { longest, .. }) if cut.length_dm > *longest);
    let (number, stock, left) = match drum {
        Some((number, stock, left)) => {
            (Cell::count(number), locale.length_sold(metres(stock)), locale.length_left(metres(left)))
        }
        None if is_too_long => (Cell::text(locale.word(Word::LongerThanAnyDrum)), Cell::Empty, Cell::Empty),
        None => (Cell::Empty, Cell::Empty, Cell::Empty),
    };
    let cells = vec![
        Cell::text(&cable.cable),
        number,
        stock,
        Cell::text(name),
        locale.length_cut(metres(cut.length_dm)),
        left,
        Cell::Tick,
    ];
    table.row(cells);
}

/// What is bought of a cable, and what is proved of it.
fn heading(subject: &Subject<'_>, cable: &CableCuts) -> String {
    let locale = &subject.locale;
    let in_words = |length: Cell| locale.cell_text(&length, None);
    let cut = |length_m: f64| in_words(locale.length_cut(length_m));
    let sold = |length_m: f64| in_words(locale.length_sold(length_m));
    let title = &subject.site.catalogue.cables[&cable.cable].head.title.of(locale.language);
    let name = format!("{}  {title}", cable.cable);
    let needed = cut(cable.needed_m());
    match &cable.plan {
        Ok(found) => {
            let plan = &found.plan;
            let bought = sold(cable.bought_m());
            let waste = in_words(locale.length_left(cable.waste_m()));
            let bound = sold(plan.bound as f64 / 10.0);
            let drums = drums_in_words(subject, plan);
            if plan.is_proved_least() {
                locale.say(&Sentence::CutProved {
                    name: &name,
                    drums: &drums,
                    needed: &needed,
                    bought: &bought,
                    waste: &waste,
                })
            } else {
                locale.say(&Sentence::CutWithBound {
                    name: &name,
                    drums: &drums,
                    needed: &needed,
                    bought: &bought,
                    waste: &waste,
                    bound: &bound,
                })
            }
        }
        Err(CuttingError::TooLong { piece, longest }) => locale.say(&Sentence::CutTooLong {
            name: &name,
            needed: &needed,
            piece: &cut(f64::from(*piece) / 10.0),
            longest: &sold(f64::from(*longest) / 10.0),
        }),
        Err(_) => locale.say(&Sentence::CutByTheMetre { name: &name, needed: &needed }),
    }
}

/// "2 x 100.0 m, 1 x 500.0 m".
fn drums_in_words(subject: &Subject<'_>, plan: &CuttingPlan) -> String {
    let mut by_length: std::collections::BTreeMap<u32, usize> = std::collections::BTreeMap::new();
    for drum in &plan.drums {
        *by_length.entry(drum.stock).or_default() += 1;
    }
    let words: Vec<String> = by_length
        .iter()
        .map(|(stock, count)| {
            format!("{count} × {}", subject.locale.in_words(f64::from(*stock) / 10.0, Unit::Metre))
        })
        .collect();
    words.join(", ")
}
