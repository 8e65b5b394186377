//! How wide the columns of a sheet are made, so that it is one page wide in its own size.
//!
//! A sheet that is made smaller until it fits is soon too small to read on a ladder. So columns give way instead:
//! first down to their longest word, then to the longest word of their heading, last to what their numbers need, and
//! their texts take more lines.

use super::pages::{characters_of_page, column_points, least_characters, wrapped_lines};
use latchline_handover::locale::Locale;
use latchline_handover::options::Paper;
use latchline_handover::table::{Cell, Column, Entry, Table};

/// No column is narrower.
const NARROWEST: u8 = 4;
/// A number is broken nowhere: a column too narrow for one shows hashes. Beside it stands the width of a bracket.
const BESIDE_NUMBER: u8 = 2;

/// Width of each column in characters.
pub(super) fn widths(table: &Table, paper: Paper, locale: &Locale) -> Vec<u8> {
    let levels: Vec<[u8; 4]> = table
        .columns
        .iter()
        .enumerate()
        .map(|(index, column)| levels(table, index, column, locale))
        .collect();
    shared_out(&levels, characters_of_page(paper, table.columns.len()))
}

/// What a column cannot do without, what its heading wants, what its words want, and what it would have.
fn levels(table: &Table, index: usize, column: &Column, locale: &Locale) -> [u8; 4] {
    let mut numbers = NARROWEST;
    let mut words = NARROWEST;
    for cells in table.body() {
        let cell = &cells[index];
        match cell {
            Cell::Text(text) | Cell::Written { entry: Entry::Words(text), .. } => {
                words = words.max(least_characters(text, false));
            }
            Cell::Count(_)
            | Cell::Quantity { .. }
            | Cell::Money(_)
            | Cell::Product { .. }
            | Cell::Date(_)
            | Cell::Written { .. } => {
                let text = locale.cell_text(cell, Some(column)).replace(' ', "\u{a0}");
                numbers = numbers.max(least_characters(&text, false).saturating_add(BESIDE_NUMBER));
            }
            Cell::Empty | Cell::WriteIn | Cell::Choice(_) | Cell::Tick | Cell::Passed => {}
        }
    }
    if column.is_summed {
        let sum = locale.number(table.sum(index), usize::from(table.sum_decimals(index)));
        numbers = numbers.max(least_characters(&sum, true).saturating_add(BESIDE_NUMBER));
    }
    let heading = numbers.max(least_characters(&column.heading(), true));
    let words = heading.max(words);
    [numbers, heading, words, words.max(column.width)]
}

/// The widths between the two levels between which the page is filled.
fn shared_out(levels: &[[u8; 4]], room: u32) -> Vec<u8> {
    let sum = |level: usize| levels.iter().map(|widths| u32::from(widths[level])).sum::<u32>();
    let Some(level) = (0..4).rev().find(|level| sum(*level) <= room) else {
        return levels.iter().map(|widths| widths[0]).collect();
    };
    let mut widths: Vec<u8> = levels.iter().map(|widths| widths[level]).collect();
    let next = (level + 1).min(3);
    let (spare, wanted) = (room - sum(level), sum(next) - sum(level));
    if wanted == 0 {
        return widths;
    }
    let mut left = spare.min(wanted);
    for (width, levels) in widths.iter_mut().zip(levels) {
        let more = u32::from(levels[next] - levels[level]) * spare.min(wanted) / wanted;
        *width += more as u8;
        left -= more;
    }
    for (width, levels) in widths.iter_mut().zip(levels) {
        if left > 0 && *width < levels[next] {
            *width += 1;
            left -= 1;
        }
    }
    widths
}

/// Width of all columns in points, where programs make them narrowest.
pub(super) fn points(widths: &[u8]) -> f64 {
    widths.iter().map(|width| column_points(*width)).sum()
}

/// Lines that a cell takes.
pub(super) fn lines_of(cell: &Cell, width: u8) -> usize {
    match cell {
        Cell::Text(text) | Cell::Written { entry: Entry::Words(text), .. } => {
            wrapped_lines(text, column_points(width), false)
        }
        _ => 1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_give_way_level_by_level() {
        let levels = [[4, 6, 10, 30], [4, 8, 12, 12], [4, 4, 4, 24]];
        // What they would have is 66, their words are 26, their headings 18, their numbers 12 characters.
        assert_eq!(shared_out(&levels, 100), [30, 12, 24]);
        // 20 of the 40 characters between words and wishes: half of 20, of none and of 20.
        assert_eq!(shared_out(&levels, 46), [20, 12, 14]);
        assert_eq!(shared_out(&levels, 26), [10, 12, 4]);
        // 4 of the 8 between headings and words.
        assert_eq!(shared_out(&levels, 22), [8, 10, 4]);
        assert_eq!(shared_out(&levels, 13), [5, 4, 4]);
        // Too little for the numbers: then the page is made smaller.
        assert_eq!(shared_out(&levels, 5), [4, 4, 4]);
    }
}
