//! The cut into sheets: which columns stand side by side, and which rows below one another.

use super::arrange::{Arrangement, COLUMN_PAD_MM};
use super::flags::{ABOVE_MM, flags_mm};
use super::route::Routing;
use super::subject::Subject;
use std::ops::Range;

/// Gap between buildings.
pub(super) const BUILDING_GAP_MM: f64 = 9.0;

/// Which columns make a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Grouping {
    /// As many as the width of a sheet takes.
    Filled,
    /// Those of one building.
    ByBuilding,
    /// Each by itself.
    ByColumn,
}

/// How the rows of a part that is too high are shared out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Cut {
    /// In pieces of about the same height.
    Even,
    /// Each piece as high as a sheet, and what is left: it may stand beside something else.
    Full,
}

/// The room that flags need at the right of each column, were there a cut.
pub(super) fn flags_beside(subject: &Subject<'_>, arrangement: &Arrangement, routing: &Routing) -> Vec<f64> {
    let mut crossing = vec![Vec::new(); arrangement.columns.len()];
    for net in &routing.nets {
        let (from, to) = (arrangement.place[net.from.0].1, arrangement.place[net.to.0].1);
        crossing[from.min(to)..from.max(to)].iter_mut().for_each(|list| list.push(net));
    }
    crossing.iter().map(|nets| flags_mm(subject, nets)).collect()
}

/// As many columns on each sheet as its width takes with its flags; a building that fits on one sheet is not torn.
pub(super) fn cut_columns(
    arrangement: &Arrangement,
    (risers, flags): (&[f64], &[f64]),
    room: f64,
    grouping: Grouping,
) -> Vec<Range<usize>> {
    let columns = &arrangement.columns;
    let same = |number: usize| {
        columns[number].building.is_some() && columns[number - 1].building == columns[number].building
    };
    let width = |from: usize, to: usize| -> f64 {
        let before = from.checked_sub(1).map_or(0.0, |before| flags[before]);
        let after = if to < risers.len() { flags[to - 1] } else { 0.0 };
        let each = (from..to).map(|number| {
            let column = &columns[number];
            let before = match number > from && same(number) {
                true => 2.0,
                false => column.gutter + if number > from { BUILDING_GAP_MM } else { 0.0 },
            };
            before + risers[number] + column.content_width + COLUMN_PAD_MM
        });
        before + each.sum::<f64>() + after
    };
    let mut groups = Vec::new();
    let mut start = 0;
    let count = columns.len();
    while start < count {
        let mut end = start + 1;
        let joins = |end: usize| match grouping {
            Grouping::Filled => true,
            Grouping::ByBuilding => same(end),
            Grouping::ByColumn => false,
        };
        while end < count && joins(end) && width(start, end + 1) <= room {
            end += 1;
        }
        let torn = |end: usize| end < count && same(end);
        let mut whole = end;
        while whole > start + 1 && torn(whole) {
            whole -= 1;
        }
        if !torn(whole) {
            end = whole;
        }
        groups.push(start..end);
        start = end;
    }
    groups
}

/// As many rows on each sheet as its height takes with its flags, cut between floors where it can be. Rows without height at
/// either end are left out.
pub(super) fn cut_rows(
    arrangement: &Arrangement,
    (heights, flags): (&[f64], &[f64]),
    room: f64,
    cut: Cut,
) -> Vec<Range<usize>> {
    let Some(first) = heights.iter().position(|height| *height > 0.0) else { return Vec::new() };
    let count = heights.iter().rposition(|height| *height > 0.0).map_or(first, |last| last + 1);
    let fill = |most: f64| fill_rows(arrangement, (heights, flags), first..count, most);
    let fewest = fill(room);
    if cut == Cut::Full {
        return fewest;
    }
    // Sheets of about the same height look better than one that is nearly empty.
    let mut target = heights[first..count].iter().sum::<f64>() / fewest.len() as f64;
    while target < room {
        let groups = fill(target);
        if groups.len() <= fewest.len() {
            return groups;
        }
        target += 2.0;
    }
    fewest
}

fn fill_rows(
    arrangement: &Arrangement,
    (heights, flags): (&[f64], &[f64]),
    rows: Range<usize>,
    most: f64,
) -> Vec<Range<usize>> {
    let mut groups = Vec::new();
    let mut start = rows.start;
    while start < rows.end {
        let above = if start > rows.start { ABOVE_MM } else { 0.0 };
        let fits = |end: usize| {
            let below = if end < rows.end { flags[end - 1] } else { 0.0 };
            above + heights[start..end].iter().sum::<f64>() + below <= most
        };
        let is_between_floors = |end: usize| end == rows.end || arrangement.rows[end].first_of_level;
        // A cut further down may need less for its flags.
        let fitting = || (start + 1..=rows.end).rev().filter(|end| fits(*end));
        let end = fitting().find(|end| is_between_floors(*end)).or_else(|| fitting().next());
        let end = end.unwrap_or(start + 1);
        groups.push(start..end);
        start = end;
    }
    groups
}
