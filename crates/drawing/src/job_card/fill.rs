//! Where the blocks of a card stand, by their heights alone: many ways are tried before one is drawn.

#[cfg(test)]
mod tests;

use super::lines::{FOOT_MM, line_mm};
use latchline_scene::Area;
use std::ops::Range;

/// Between blocks.
pub(super) const GAP_MM: f64 = 1.2;
/// From the frame of a block to what is in it, above and below.
pub(super) const PAD_MM: f64 = 0.9;
/// Columns that what stands across takes.
pub(super) const ACROSS: usize = 2;
/// Pieces that stand together, its head among them, before a block is torn.
const LEAST_PIECES: usize = 2;
/// Orders that are tried besides those that one would choose.
const SHUFFLES: u64 = 40;
/// Another way is taken where it leaves less than this share of what stands behind the first sheet.
const LESS_BEHIND: f64 = 0.5;
/// How often the room for the columns of a single sheet is halved to level them.
const LEVELLINGS: usize = 7;

/// Where blocks may stand.
#[derive(Debug, Clone, Copy)]
pub(super) struct Room {
    /// Free on every sheet.
    pub(super) content: Area,
    /// Columns side by side.
    pub(super) columns: usize,
    /// How far right and down columns go on beside the title block.
    pub(super) beside: (f64, f64),
}

impl Room {
    /// Width of a column.
    pub(super) fn column_mm(self) -> f64 {
        (self.content.width - GAP_MM * (self.columns - 1) as f64) / self.columns as f64
    }

    /// Columns that what stands across takes here.
    pub(super) fn span(self) -> usize {
        ACROSS.min(self.columns)
    }

    /// Width of some columns side by side.
    pub(super) fn wide_mm(self, span: usize) -> f64 {
        span as f64 * (self.column_mm() + GAP_MM) - GAP_MM
    }

    /// The left edge of a column.
    pub(super) fn left(self, column: usize) -> f64 {
        self.content.x + column as f64 * (self.column_mm() + GAP_MM)
    }

    /// The lower end of some columns side by side.
    fn bottom(self, first: usize, span: usize) -> f64 {
        let right = self.left(first) + self.wide_mm(span);
        if right <= self.beside.0 + 1e-6 { self.beside.1 } else { self.content.bottom() }
    }

    /// The lower end of the longest column.
    fn lowest(self) -> f64 {
        self.bottom(0, 1).max(self.content.bottom())
    }
}

/// Height of what is placed.
pub(super) enum Extent {
    /// In a column.
    Column(Column),
    /// Across some columns.
    Across { height_mm: f64 },
}

/// A block in a column: heights of its pieces, and of what stands over a part of it that goes on.
pub(super) struct Column {
    pub(super) pieces_mm: Vec<f64>,
    pub(super) continued_mm: f64,
    pub(super) has_figures: bool,
}

impl Column {
    /// Height of some of its pieces in their frame.
    fn height_mm(&self, pieces: Range<usize>) -> f64 {
        let over = if pieces.start > 0 { self.continued_mm } else { 0.0 };
        over + self.pieces_mm[pieces].iter().sum::<f64>() + 2.0 * PAD_MM
    }

    /// How many pieces, from one on, stand in what is free.
    fn fitting(&self, from: usize, free_mm: f64) -> usize {
        let all = self.pieces_mm.len();
        (from + 1..=all).take_while(|to| self.height_mm(from..*to) <= free_mm).count()
    }

    fn rest(&self, from: usize) -> usize {
        self.pieces_mm.len() - from
    }
}

/// Room at the top of the first columns of a sheet for its notes: on the first sheet, and on the others.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct NotesRoom {
    pub(super) first_mm: f64,
    pub(super) others_mm: f64,
    /// Columns that they stand over.
    pub(super) span: usize,
}

/// A part, or some pieces of it, at its place.
pub(super) struct Spot {
    /// Which of the parts.
    pub(super) part: usize,
    pub(super) pieces: Range<usize>,
    pub(super) sheet: usize,
    pub(super) column: usize,
    pub(super) y: f64,
    /// Where the heads of figures stand over it.
    pub(super) heads_y: Option<f64>,
}

/// In which order parts are placed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Order {
    /// As they are given.
    Given,
    /// The highest first.
    Highest,
    /// Beginning with another than the first.
    From(usize),
    /// Some order, the same for the same number.
    Shuffled(u64),
}

/// When a block goes on in another column. One that no column holds always does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Tearing {
    Never,
    /// Where no column holds it whole.
    WhereNeeded,
    /// At the end of each column.
    Always,
}

/// A way to fill sheets.
#[derive(Debug, Clone, Copy)]
struct Way {
    order: Order,
    /// Column by column, as one reads; else where there is room, in the column that is least full.
    is_by_column: bool,
    tearing: Tearing,
}

/// Columns of a sheet in the making: where each goes on, and whether the heads of figures stand over it.
struct Sheet {
    y: Vec<f64>,
    is_headed: Vec<bool>,
    is_fresh: bool,
}

/// Sheets in the making.
struct Filling {
    room: Room,
    notes: NotesRoom,
    way: Way,
    /// No column goes below this.
    lowest: f64,
    sheets: Vec<Sheet>,
    /// The column in which the last block stands, where they follow one another.
    at: usize,
    spots: Vec<Spot>,
}

impl Filling {
    fn of(parts: &[Extent], room: Room, notes: NotesRoom, way: Way, lowest: f64) -> Filling {
        let mut filling = Filling { room, notes, way, lowest, sheets: Vec::new(), at: 0, spots: Vec::new() };
        filling.turn();
        for part in in_order(parts, way.order) {
            match &parts[part] {
                Extent::Column(column) => filling.column(part, column),
                Extent::Across { height_mm } => filling.across(part, *height_mm),
            }
        }
        filling
    }

    /// Begins another sheet.
    fn turn(&mut self) {
        let notes_mm = if self.sheets.is_empty() { self.notes.first_mm } else { self.notes.others_mm };
        let mut y = vec![self.room.content.y; self.room.columns];
        y.iter_mut().take(self.notes.span).for_each(|y| *y += notes_mm);
        self.sheets.push(Sheet { y, is_headed: vec![false; self.room.columns], is_fresh: true });
        self.at = 0;
    }

    fn bottom(&self, first: usize, span: usize) -> f64 {
        self.room.bottom(first, span).min(self.lowest) + 1e-6
    }

    /// What is free in a column below the heads of its figures.
    fn free_mm(&self, sheet: usize, column: usize, has_figures: bool) -> f64 {
        let is_headed = self.sheets[sheet].is_headed[column];
        let head_mm = if has_figures && !is_headed { line_mm(FOOT_MM) } else { 0.0 };
        self.bottom(column, 1) - self.sheets[sheet].y[column] - head_mm
    }

    /// A block, in as many columns as it takes.
    fn column(&mut self, part: usize, block: &Column) {
        let (mut from, mut first) = (0, if self.way.is_by_column { self.at } else { 0 });
        while block.rest(from) > 0 {
            let last = self.sheets.len() - 1;
            let (sheet, column, count) = match self.place_for(block, from, first) {
                Some(place) => place,
                None if self.sheets[last].is_fresh => {
                    // No column holds even this much: as much as there is room for, a piece at least.
                    (last, 0, block.fitting(from, self.free_mm(last, 0, block.has_figures)).max(1))
                }
                None => {
                    self.turn();
                    first = 0;
                    continue;
                }
            };
            self.put(part, block, from..from + count, (sheet, column));
            (from, first) = (from + count, column + 1);
        }
    }

    /// Sheet and column for the rest of a block, and how many of its pieces stand there.
    fn place_for(&self, block: &Column, from: usize, first: usize) -> Option<(usize, usize, usize)> {
        let (last, rest) = (self.sheets.len() - 1, block.rest(from));
        let free_mm = |sheet: usize, column: usize| self.free_mm(sheet, column, block.has_figures);
        let is_whole = |sheet, column| block.height_mm(from..from + rest) <= free_mm(sheet, column);
        let torn = |column: usize| {
            let count = block.fitting(from, free_mm(last, column));
            let least = if from > 0 { 1 } else { LEAST_PIECES };
            let is_torn = count >= least && rest > count;
            is_torn.then_some((last, column, count))
        };
        let columns = first..self.room.columns;
        if self.way.tearing == Tearing::Always {
            let here =
                |column| if is_whole(last, column) { Some((last, column, rest)) } else { torn(column) };
            return columns.clone().find_map(here);
        }
        let whole = match self.way.is_by_column || from > 0 {
            true => columns.clone().find(|column| is_whole(last, *column)).map(|column| (last, column)),
            false => (0..self.sheets.len()).find_map(|sheet| {
                let fitting = columns.clone().filter(|column| is_whole(sheet, *column));
                let y = |column: &usize| self.sheets[sheet].y[*column];
                fitting.min_by(|a, b| y(a).total_cmp(&y(b))).map(|column| (sheet, column))
            }),
        };
        let is_too_high =
            || block.height_mm(0..block.pieces_mm.len()) > self.room.lowest() - self.room.content.y;
        match whole {
            Some((sheet, column)) => Some((sheet, column, rest)),
            None if self.way.tearing == Tearing::WhereNeeded || is_too_high() => {
                columns.clone().find_map(torn)
            }
            None => None,
        }
    }

    fn put(&mut self, part: usize, block: &Column, pieces: Range<usize>, (sheet, column): (usize, usize)) {
        let columns = &mut self.sheets[sheet];
        let is_first = block.has_figures && !columns.is_headed[column];
        columns.is_headed[column] |= block.has_figures;
        let heads_y = is_first.then_some(columns.y[column]);
        let y = columns.y[column] + if is_first { line_mm(FOOT_MM) } else { 0.0 };
        columns.y[column] = y + block.height_mm(pieces.clone()) + GAP_MM;
        columns.is_fresh = false;
        if self.way.is_by_column {
            self.at = column;
        }
        self.spots.push(Spot { part, pieces, sheet, column, y, heads_y });
    }

    /// What stands across some columns: on the first sheet with room, as high up as there is.
    fn across(&mut self, part: usize, height_mm: f64) {
        let span = self.room.span();
        let top =
            |sheet: &Sheet, first: usize| sheet.y[first..first + span].iter().copied().fold(0.0, f64::max);
        let place = self.sheets.iter().enumerate().find_map(|(number, sheet)| {
            let firsts = (0..=self.room.columns - span)
                .filter(|first| top(sheet, *first) + height_mm <= self.bottom(*first, span));
            firsts.min_by(|a, b| top(sheet, *a).total_cmp(&top(sheet, *b))).map(|first| (number, first))
        });
        let (sheet, column) = place.unwrap_or_else(|| {
            self.turn();
            (self.sheets.len() - 1, 0)
        });
        let columns = &mut self.sheets[sheet];
        let y = top(columns, column);
        columns.y[column..column + span].fill(y + height_mm + GAP_MM);
        columns.is_fresh = false;
        self.spots.push(Spot { part, pieces: 0..0, sheet, column, y, heads_y: None });
    }

    /// Height of all columns behind the first sheet.
    fn behind_mm(&self) -> f64 {
        let of = |sheet: &Sheet| sheet.y.iter().map(|y| y - self.room.content.y).sum::<f64>();
        self.sheets.iter().skip(1).map(of).sum()
    }

    /// Whether it is better than another: fewer sheets, or much less behind the first.
    fn is_better_than(&self, other: &Filling) -> bool {
        let (own, others) = (self.sheets.len(), other.sheets.len());
        own < others || own == others && self.behind_mm() < LESS_BEHIND * other.behind_mm()
    }
}

/// The parts in an order: what stands across comes first in all.
fn in_order(parts: &[Extent], order: Order) -> Vec<usize> {
    let height_mm = |part: &usize| match &parts[*part] {
        Extent::Column(column) => column.pieces_mm.iter().sum(),
        Extent::Across { .. } => f64::INFINITY,
    };
    let (mut list, mut columns): (Vec<usize>, Vec<usize>) =
        (0..parts.len()).partition(|part| matches!(parts[*part], Extent::Across { .. }));
    match order {
        Order::Given => {}
        Order::Highest => columns.sort_by(|a, b| height_mm(b).total_cmp(&height_mm(a))),
        Order::From(first) => {
            let first = first.min(columns.len());
            columns.rotate_left(first);
        }
        Order::Shuffled(number) => shuffle(&mut columns, number),
    }
    list.extend(columns);
    list
}

/// An order that depends on nothing but its number (Fisher and Yates, with the generator of Knuth's MMIX).
fn shuffle(list: &mut [usize], number: u64) {
    let mut state = number;
    for last in (1..list.len()).rev() {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        list.swap(last, ((state >> 33) % (last as u64 + 1)) as usize);
    }
}

/// The ways in which sheets are filled, the best to read first.
fn ways(count: usize, may_tear: bool) -> impl Iterator<Item = Way> {
    use Tearing::{Always, Never, WhereNeeded};
    let way = |order, is_by_column, tearing| Way { order, is_by_column, tearing };
    let whole =
        [way(Order::Given, true, Never), way(Order::Given, false, Never), way(Order::Highest, false, Never)];
    let torn = [
        way(Order::Given, false, WhereNeeded),
        way(Order::Highest, false, WhereNeeded),
        way(Order::Given, true, Always),
    ];
    let orders = (1..count).map(Order::From).chain((1..=SHUFFLES).map(Order::Shuffled));
    let others = orders.flat_map(move |order| [way(order, true, Always), way(order, false, WhereNeeded)]);
    whole.into_iter().chain(torn.into_iter().chain(others).filter(move |_| may_tear))
}

/// The places of all parts, and how many sheets there are: one where some way does with one, its columns then level; else as few as
/// there are, the first of them full. No block is torn that fits into a column, unless that serves this and is allowed.
pub(super) fn fill(parts: &[Extent], room: Room, may_tear: bool, notes: NotesRoom) -> (Vec<Spot>, usize) {
    let lowest = room.lowest();
    let mut best: Option<Filling> = None;
    for way in ways(parts.len(), may_tear) {
        let other = Filling::of(parts, room, notes, way, lowest);
        if best.as_ref().is_none_or(|best| other.is_better_than(best)) {
            best = Some(other);
        }
        if best.as_ref().is_some_and(|best| best.sheets.len() == 1) {
            break;
        }
    }
    let Some(mut best) = best else { return (Vec::new(), 0) };
    if best.sheets.len() == 1 {
        let (mut too_high, mut holds) = (room.content.y, lowest);
        for _ in 0..LEVELLINGS {
            let between = (too_high + holds) / 2.0;
            let levelled = Filling::of(parts, room, notes, best.way, between);
            if levelled.sheets.len() == 1 {
                (best, holds) = (levelled, between);
            } else {
                too_high = between;
            }
        }
    }
    (best.spots, best.sheets.len())
}
