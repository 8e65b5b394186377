//! Blocks onto sheets: columns side by side, pictures of doors across two, no device split that fits on a sheet.

use super::block::{CARD_SIDE_MM, Notes, across, continuation, pieces};
use super::data::{CardBlock, CardSet, DoorPicture};
use super::lines::{FOOT_MM, Piece, line_mm};
use super::steps::heads;
use crate::language::Lettering;
use crate::wiring::{Picture, lock_picture};
use latchline_assess::Assessment;
use latchline_scene::palette::Ink;
use latchline_scene::{Area, Group, Layer, Pen, Role, Stroke};

/// Between blocks.
const GAP_MM: f64 = 1.4;
/// From the frame of a block to what is in it, above and below.
const PAD_MM: f64 = 1.1;
/// Most that the picture of a door is enlarged.
const MOST_ENLARGED: f64 = 1.0;
/// Pieces of a block that stand together where it is torn.
const LEAST_PIECES: usize = 2;
/// Columns that what stands across takes.
const ACROSS: usize = 2;

/// In which column the next block stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Filling {
    /// Column by column, as one reads.
    InOrder,
    /// On the earliest sheet with room, in the column that is least full.
    LeastFull,
    /// The same, the highest block first.
    HighestFirst,
    /// Column by column to their ends: a block goes on in the next, with its designation over it.
    Torn,
    /// The highest block first: where no column holds it, it goes on from column to column; all others where there is room.
    HighestTorn,
}

impl Filling {
    /// Whether a block may go on in another column though one holds it.
    fn tears(self) -> bool {
        matches!(self, Filling::Torn | Filling::HighestTorn)
    }

    /// Whether blocks are placed by their height.
    fn is_by_height(self) -> bool {
        matches!(self, Filling::HighestFirst | Filling::HighestTorn)
    }
}

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
    fn column_mm(self) -> f64 {
        (self.content.width - GAP_MM * (self.columns - 1) as f64) / self.columns as f64
    }

    fn left(self, column: usize) -> f64 {
        self.content.x + column as f64 * (self.column_mm() + GAP_MM)
    }

    /// The lower end of some columns side by side.
    fn bottom(self, first: usize, span: usize) -> f64 {
        let right = self.left(first + span - 1) + self.column_mm();
        if right <= self.beside.0 + 1e-6 { self.beside.1 } else { self.content.bottom() }
    }
}

/// What is placed.
enum Part {
    /// In a column: pieces below one another.
    Column { role: Role, pieces: Vec<Piece>, has_figures: bool, continued: Piece },
    /// Across two columns.
    Across { group: Group, height_mm: f64 },
}

impl Part {
    /// Height by which parts are placed: what stands across comes before the columns.
    fn order_mm(&self) -> f64 {
        match self {
            Part::Column { pieces, .. } => pieces.iter().map(|piece| piece.height_mm).sum(),
            Part::Across { .. } => f64::INFINITY,
        }
    }
}

/// Sheets in the making.
struct Sheets<'s> {
    room: Room,
    filling: Filling,
    heads: &'s [String; 4],
    sheets: Vec<Sheet>,
    /// The column in which the last block stands, where they follow one another.
    at: usize,
}

/// A sheet in the making, where each of its columns goes on, and whether the heads of figures stand over it.
struct Sheet {
    group: Group,
    y: Vec<f64>,
    is_headed: Vec<bool>,
}

impl<'s> Sheets<'s> {
    fn new(room: Room, filling: Filling, heads: &'s [String; 4]) -> Self {
        let mut sheets = Sheets { room, filling, heads, sheets: Vec::new(), at: 0 };
        sheets.turn();
        sheets
    }

    /// Height of all columns behind the first sheet.
    fn behind_mm(&self) -> f64 {
        let of = |sheet: &Sheet| sheet.y.iter().map(|y| y - self.room.content.y).sum::<f64>();
        self.sheets.iter().skip(1).map(of).sum()
    }

    /// Begins another sheet; gives its number.
    fn turn(&mut self) -> usize {
        let (y, is_headed) = (vec![self.room.content.y; self.room.columns], vec![false; self.room.columns]);
        self.sheets.push(Sheet { group: Group::new("job-card-sheet"), y, is_headed });
        self.at = 0;
        self.sheets.len() - 1
    }

    /// What is free in a column below the heads of its figures.
    fn free_mm(&self, sheet: &Sheet, column: usize, has_figures: bool) -> f64 {
        let head_mm = if has_figures && !sheet.is_headed[column] { line_mm(FOOT_MM) } else { 0.0 };
        self.room.bottom(column, 1) - sheet.y[column] - head_mm + 1e-6
    }

    /// Sheet and column for a block of this height; over the first figures of a column stand their heads.
    fn place_for(&mut self, height: f64, has_figures: bool) -> (usize, usize) {
        let columns = self.room.columns;
        let fits = |sheet: &Sheet, column: usize| height <= self.free_mm(sheet, column, has_figures);
        match self.filling {
            Filling::InOrder | Filling::Torn => {
                let last = self.sheets.len() - 1;
                let found = (self.at..columns).find(|column| fits(&self.sheets[last], *column));
                let place = found.map_or_else(|| (self.turn(), 0), |column| (last, column));
                self.at = place.1;
                place
            }
            Filling::LeastFull | Filling::HighestFirst | Filling::HighestTorn => {
                for (number, sheet) in self.sheets.iter().enumerate() {
                    let columns = (0..columns).filter(|column| fits(sheet, *column));
                    if let Some(column) = columns.min_by(|a, b| sheet.y[*a].total_cmp(&sheet.y[*b])) {
                        return (number, column);
                    }
                }
                (self.turn(), 0)
            }
        }
    }

    fn place(&mut self, part: Part) {
        match part {
            Part::Column { role, pieces, has_figures, continued } => match self.filling {
                Filling::Torn => self.torn(role, pieces, has_figures, &continued),
                Filling::HighestTorn => self.torn_where_needed(role, pieces, has_figures, &continued),
                _ => self.column(role, pieces, has_figures),
            },
            Part::Across { group, height_mm } => self.across(group, height_mm),
        }
    }

    /// A block that goes on in the next column where its own ends, unless little of it would stand at either place.
    fn torn(&mut self, mut role: Role, mut list: Vec<Piece>, has_figures: bool, continued: &Piece) {
        loop {
            let Some(sheet) = self.sheets.last() else { return };
            let Some(fitting) = torn_at(&list, self.free_mm(sheet, self.at, has_figures)) else {
                self.column(role, list, has_figures);
                return;
            };
            let rest = list.split_off(fitting);
            let next = continuing(&role);
            self.column(role, list, has_figures);
            (role, list) = (next, std::iter::once(continued.clone()).chain(rest).collect());
            if self.at + 1 < self.room.columns {
                self.at += 1;
            } else {
                self.turn();
            }
        }
    }

    /// A block in one column of the last sheet; where none holds it, from the left in as many as it takes.
    fn torn_where_needed(
        &mut self,
        mut role: Role,
        mut list: Vec<Piece>,
        has_figures: bool,
        continued: &Piece,
    ) {
        let mut first = 0;
        loop {
            let number = self.sheets.len() - 1;
            let free: Vec<f64> = (0..self.room.columns)
                .map(|column| self.free_mm(&self.sheets[number], column, has_figures))
                .collect();
            let behind = || first..self.room.columns;
            if let Some(column) = behind().find(|column| height_mm(&list) <= free[*column]) {
                self.put((number, column), role, list, has_figures);
                return;
            }
            let torn = behind().find_map(|column| Some((column, torn_at(&list, free[column])?)));
            let Some((column, fitting)) = torn else {
                if first == 0 && self.sheets[number].y.iter().all(|y| *y <= self.room.content.y) {
                    // No sheet holds it.
                    self.put((number, 0), role, list, has_figures);
                    return;
                }
                self.turn();
                first = 0;
                continue;
            };
            let rest = list.split_off(fitting);
            let next = continuing(&role);
            self.put((number, column), role, list, has_figures);
            (role, list) = (next, std::iter::once(continued.clone()).chain(rest).collect());
            first = column + 1;
        }
    }

    /// A block in the column that the filling says.
    fn column(&mut self, role: Role, list: Vec<Piece>, has_figures: bool) {
        let place = self.place_for(height_mm(&list), has_figures);
        self.put(place, role, list, has_figures);
    }

    /// A block in a column of a sheet.
    fn put(&mut self, (number, column): (usize, usize), role: Role, list: Vec<Piece>, has_figures: bool) {
        let height = height_mm(&list);
        let (width, left) = (self.room.column_mm(), self.room.left(column));
        let sheet = &mut self.sheets[number];
        if has_figures && !std::mem::replace(&mut sheet.is_headed[column], true) {
            let mut over = heads(self.heads, width - 2.0 * CARD_SIDE_MM);
            over.transform(1.0, (left + CARD_SIDE_MM, sheet.y[column]));
            sheet.group.group(over);
            sheet.y[column] += line_mm(FOOT_MM);
        }
        let area = Area::new(left, sheet.y[column], width, height);
        let mut group = Group { role, nodes: Vec::new() };
        group.rectangle(Layer::Frame, area, 0.0, Some(Stroke::solid(Ink::Text, Pen::Middle)), None);
        let mut y = area.y + PAD_MM;
        for mut piece in list {
            piece.group.transform(1.0, (area.x + CARD_SIDE_MM, y));
            group.group(piece.group);
            y += piece.height_mm;
        }
        sheet.group.group(group);
        sheet.y[column] += height + GAP_MM;
    }

    /// What stands across two columns: on the first sheet with room, as high up as there is.
    fn across(&mut self, mut group: Group, height: f64) {
        let (room, span) = (self.room, ACROSS.min(self.room.columns));
        let top =
            |sheet: &Sheet, first: usize| sheet.y[first..first + span].iter().copied().fold(0.0, f64::max);
        let mut found = None;
        for (number, sheet) in self.sheets.iter().enumerate() {
            let firsts = (0..=room.columns - span)
                .filter(|first| top(sheet, *first) + height <= room.bottom(*first, span) + 1e-6);
            found = firsts
                .map(|first| (number, first))
                .min_by(|a, b| top(sheet, a.1).total_cmp(&top(sheet, b.1)));
            if found.is_some() {
                break;
            }
        }
        let (number, first) = found.unwrap_or_else(|| (self.turn(), 0));
        let left = room.left(first);
        let sheet = &mut self.sheets[number];
        let y = top(sheet, first);
        group.transform(1.0, (left, y));
        sheet.group.group(group);
        sheet.y[first..first + span].fill(y + height + GAP_MM);
    }
}

/// Height of a block of these pieces with its frame.
fn height_mm(list: &[Piece]) -> f64 {
    list.iter().map(|piece| piece.height_mm).sum::<f64>() + 2.0 * PAD_MM
}

/// After how many of its pieces a block is torn in what is free; `None` where it fits, or little of it would stand at either place.
fn torn_at(list: &[Piece], free_mm: f64) -> Option<usize> {
    let fitting = (1..=list.len()).take_while(|count| height_mm(&list[..*count]) <= free_mm).count();
    let is_torn = fitting < list.len() && fitting >= LEAST_PIECES && list.len() - fitting >= LEAST_PIECES;
    is_torn.then_some(fitting)
}

/// What a part of a block is that goes on.
fn continuing(role: &Role) -> Role {
    let mut next = Group::new("job-block").role;
    next.continues = role.element.clone().or_else(|| role.continues.clone());
    next
}

/// Another order of blocks is taken where it leaves less than this share of what stands behind the first sheet.
const LESS_BEHIND: f64 = 0.5;

/// The sheets of one card: column by column where that does with one sheet, else as few as there are, the first of them full. No block
/// is torn that fits into a column, unless that serves this and is allowed.
pub(super) fn flow(
    blocks: &[CardBlock],
    set: &CardSet,
    (room, may_tear): (Room, bool),
    assessment: &Assessment,
    lettering: Lettering,
) -> Vec<Group> {
    let fill = |filling: Filling| {
        let mut sheets = Sheets::new(room, filling, &set.heads);
        let mut parts = parts(blocks, set, room, assessment, lettering);
        if filling.is_by_height() {
            parts.sort_by(|a, b| b.order_mm().total_cmp(&a.order_mm()));
        }
        parts.into_iter().for_each(|part| sheets.place(part));
        sheets
    };
    let mut best = fill(Filling::InOrder);
    for filling in [Filling::LeastFull, Filling::HighestFirst, Filling::Torn, Filling::HighestTorn] {
        if best.sheets.len() == 1 || (filling.tears() && !may_tear) {
            break;
        }
        let other = fill(filling);
        let is_as_few = other.sheets.len() == best.sheets.len();
        if other.sheets.len() < best.sheets.len()
            || is_as_few && other.behind_mm() < LESS_BEHIND * best.behind_mm()
        {
            best = other;
        }
    }
    best.sheets.into_iter().map(|sheet| sheet.group).collect()
}

/// What is placed, in order: what stands across first, then the blocks.
fn parts(
    blocks: &[CardBlock],
    set: &CardSet,
    room: Room,
    assessment: &Assessment,
    lettering: Lettering,
) -> Vec<Part> {
    // The longest column there is.
    let highest = room.bottom(0, 1).max(room.content.bottom()) - room.content.y;
    let width = room.column_mm() - 2.0 * CARD_SIDE_MM;
    let span = ACROSS.min(room.columns) as f64;
    let across_mm = span * room.column_mm() + (span - 1.0) * GAP_MM;
    let notes = Notes::of(blocks);
    let mut parts = Vec::new();
    parts.extend(notes.drawn(across_mm).map(|(group, height_mm)| Part::Across { group, height_mm }));
    for block in blocks {
        if !block.pictures.is_empty() {
            let (group, height_mm) = across(block, across_mm);
            parts.push(Part::Across { group, height_mm });
        }
        for picture in door_pictures(&block.pictures, assessment, lettering) {
            let fits = (across_mm / picture.width_mm).min(room.content.height / picture.height_mm);
            let factor = fits.min(MOST_ENLARGED);
            let mut group = picture.group;
            group.transform(factor, (0.0, 0.0));
            parts.push(Part::Across { group, height_mm: picture.height_mm * factor });
        }
    }
    for block in blocks.iter().filter(|block| block.pictures.is_empty()) {
        let list = pieces(block, set, width, &notes, lettering.0);
        let has_figures = block.steps.iter().any(|step| step.writes);
        let head_mm = if has_figures { line_mm(FOOT_MM) } else { 0.0 };
        let whole = height_mm(&list) + head_mm;
        let title = format!("{}: {}", block.designation, block.what);
        let mut role = Group::of_element("job-block", block.element.clone(), title).role;
        let continued = continuation(block, set, width);
        if whole <= highest {
            parts.push(Part::Column { role, pieces: list, has_figures, continued });
            continue;
        }
        // Taller than a sheet: piece by piece, each part with the designation over it.
        let mut part: Vec<Piece> = Vec::new();
        let mut height = 2.0 * PAD_MM + head_mm;
        for piece in list {
            if height + piece.height_mm > highest && part.len() > 1 {
                let pieces = std::mem::take(&mut part);
                parts.push(Part::Column { role, pieces, has_figures, continued: continued.clone() });
                role = Group::new("job-block").role;
                role.continues = Some(block.element.clone());
                part.push(continued.clone());
                height = 2.0 * PAD_MM + head_mm + part[0].height_mm;
            }
            height += piece.height_mm;
            part.push(piece);
        }
        parts.push(Part::Column { role, pieces: part, has_figures, continued });
    }
    parts
}

/// The circuits of a door's locks. The loops of its alarm inputs have two wires each, which the terminals show.
fn door_pictures(list: &[DoorPicture], assessment: &Assessment, lettering: Lettering) -> Vec<Picture> {
    let drawn = |picture: &DoorPicture| {
        let sheet = assessment.doors.get(picture.door)?;
        Some(lock_picture(sheet, sheet.locks.get(picture.lock)?, lettering))
    };
    list.iter().filter_map(drawn).collect()
}
