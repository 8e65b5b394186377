//! Blocks onto sheets: columns side by side, pictures of doors across two, notes on every sheet on which they are needed.

use super::block::{CARD_SIDE_MM, Notes, across, continuation, pieces};
use super::data::{CardBlock, CardSet, DoorPicture};
use super::fill::{ACROSS, Column, Extent, NotesRoom, PAD_MM, Room, Spot, fill};
use super::lines::Piece;
use super::steps::heads;
use crate::language::Lettering;
use crate::wiring::{Picture, lock_picture};
use latchline_assess::Assessment;
use latchline_scene::palette::Ink;
use latchline_scene::{Area, Group, Layer, Pen, Role, Stroke};

/// Most that the picture of a door is enlarged.
const MOST_ENLARGED: f64 = 1.0;
/// Between a picture and the notes beside it, and the least room for these.
const BESIDE_MM: f64 = 2.5;
const LEAST_NOTES_MM: f64 = 38.0;

/// What is placed.
enum Part {
    /// In a column: pieces below one another, and what stands over a part that goes on.
    Column { role: Role, pieces: Vec<Piece>, has_figures: bool, continued: Piece },
    /// Across some columns.
    Across { group: Group, height_mm: f64 },
}

impl Part {
    fn extent(&self) -> Extent {
        match self {
            Part::Column { pieces, has_figures, continued, .. } => Extent::Column(Column {
                pieces_mm: pieces.iter().map(|piece| piece.height_mm).collect(),
                continued_mm: continued.height_mm,
                has_figures: *has_figures,
            }),
            Part::Across { height_mm, .. } => Extent::Across { height_mm: *height_mm },
        }
    }
}

/// The sheets of one card.
pub(super) fn flow(
    blocks: &[CardBlock],
    set: &CardSet,
    (room, may_tear): (Room, bool),
    assessment: &Assessment,
    lettering: Lettering,
) -> Vec<Group> {
    let notes = Notes::of(blocks);
    let mut parts = across_columns(blocks, room, assessment, lettering);
    let is_beside = parts.1.first_mut().is_some_and(|picture| has_notes_beside(picture, &notes, room));
    let mut parts: Vec<Part> = parts.0.into_iter().chain(parts.1.into_iter().map(Part::from)).collect();
    // Where all columns lie below what stands across, notes do as well.
    let span = if room.columns <= ACROSS && !parts.is_empty() { room.span() } else { 1 };
    let (noted, notes_mm) = notes.drawn(room.wide_mm(span)).unwrap_or((Group::new("job-notes"), 0.0));
    let first_mm = if is_beside { 0.0 } else { notes_mm };
    parts.extend(in_columns(blocks, set, room, &notes, lettering));
    let extents: Vec<Extent> = parts.iter().map(Part::extent).collect();
    let (spots, count) = fill(&extents, room, may_tear, NotesRoom { first_mm, others_mm: notes_mm, span });
    let mut sheets: Vec<Group> = (0..count).map(|_| Group::new("job-card-sheet")).collect();
    for sheet in sheets.iter_mut().skip(usize::from(is_beside)).filter(|_| notes_mm > 0.0) {
        let mut noted = noted.clone();
        noted.transform(1.0, (room.content.x, room.content.y));
        sheet.group(noted);
    }
    for spot in spots {
        draw(&mut sheets[spot.sheet], &parts[spot.part], &spot, room, &set.heads);
    }
    sheets
}

/// A part, or some pieces of it, at its place.
fn draw(sheet: &mut Group, part: &Part, spot: &Spot, room: Room, words: &[String; 4]) {
    let left = room.left(spot.column);
    match part {
        Part::Across { group, .. } => {
            let mut group = group.clone();
            group.transform(1.0, (left, spot.y));
            sheet.group(group);
        }
        Part::Column { role, pieces, continued, .. } => {
            let width = room.column_mm();
            if let Some(y) = spot.heads_y {
                let mut over = heads(words, width - 2.0 * CARD_SIDE_MM);
                over.transform(1.0, (left + CARD_SIDE_MM, y));
                sheet.group(over);
            }
            let goes_on = spot.pieces.start > 0;
            let role = if goes_on { continuing(role) } else { role.clone() };
            let mut block = Group { role, nodes: Vec::new() };
            let list: Vec<&Piece> =
                goes_on.then_some(continued).into_iter().chain(&pieces[spot.pieces.clone()]).collect();
            let height = list.iter().map(|piece| piece.height_mm).sum::<f64>() + 2.0 * PAD_MM;
            let area = Area::new(left, spot.y, width, height);
            block.rectangle(Layer::Frame, area, 0.0, Some(Stroke::solid(Ink::Text, Pen::Middle)), None);
            let mut y = area.y + PAD_MM;
            for piece in list {
                let mut group = piece.group.clone();
                group.transform(1.0, (area.x + CARD_SIDE_MM, y));
                block.group(group);
                y += piece.height_mm;
            }
            sheet.group(block);
        }
    }
}

/// What a part of a block is that goes on.
fn continuing(role: &Role) -> Role {
    let mut next = Group::new("job-block").role;
    next.continues = role.element.clone();
    next
}

/// What stands across columns: what must be known of a door, and its pictures as wide as they are drawn.
fn across_columns(
    blocks: &[CardBlock],
    room: Room,
    assessment: &Assessment,
    lettering: Lettering,
) -> (Vec<Part>, Vec<Picture>) {
    let across_mm = room.wide_mm(room.span());
    let (mut facts, mut pictures) = (Vec::new(), Vec::new());
    for block in blocks.iter().filter(|block| !block.pictures.is_empty()) {
        let (group, height_mm) = across(block, across_mm);
        facts.push(Part::Across { group, height_mm });
        for mut picture in door_pictures(&block.pictures, assessment, lettering) {
            let fits = (across_mm / picture.width_mm).min(room.content.height / picture.height_mm);
            let factor = fits.min(MOST_ENLARGED);
            picture.group.transform(factor, (0.0, 0.0));
            (picture.width_mm, picture.height_mm) = (picture.width_mm * factor, picture.height_mm * factor);
            pictures.push(picture);
        }
    }
    (facts, pictures)
}

impl From<Picture> for Part {
    fn from(picture: Picture) -> Part {
        Part::Across { group: picture.group, height_mm: picture.height_mm }
    }
}

/// Draws the notes beside a picture, where they have room there.
fn has_notes_beside(picture: &mut Picture, notes: &Notes, room: Room) -> bool {
    let left = picture.width_mm + BESIDE_MM;
    let width = room.wide_mm(room.span()) - left;
    match notes.drawn(width.max(1.0)) {
        Some((mut group, height_mm)) if width >= LEAST_NOTES_MM && height_mm <= picture.height_mm => {
            group.transform(1.0, (left, 0.0));
            let drawn = std::mem::replace(&mut picture.group, Group::new("picture-with-notes"));
            picture.group.group(drawn);
            picture.group.group(group);
            true
        }
        _ => false,
    }
}

/// The blocks of a card, in order.
fn in_columns(
    blocks: &[CardBlock],
    set: &CardSet,
    room: Room,
    notes: &Notes,
    lettering: Lettering,
) -> Vec<Part> {
    let width = room.column_mm() - 2.0 * CARD_SIDE_MM;
    let part = |block: &CardBlock| {
        let title = format!("{}: {}", block.designation, block.what);
        Part::Column {
            role: Group::of_element("job-block", block.element.clone(), title).role,
            pieces: pieces(block, set, width, notes, lettering.0),
            has_figures: block.steps.iter().any(|step| step.writes),
            continued: continuation(block, set, width),
        }
    };
    blocks.iter().filter(|block| block.pictures.is_empty()).map(part).collect()
}

/// The circuits of a door's locks. The loops of its alarm inputs have two wires each, which the terminals show.
fn door_pictures(list: &[DoorPicture], assessment: &Assessment, lettering: Lettering) -> Vec<Picture> {
    let drawn = |picture: &DoorPicture| {
        let sheet = assessment.doors.get(picture.door)?;
        Some(lock_picture(sheet, sheet.locks.get(picture.lock)?, lettering))
    };
    list.iter().filter_map(drawn).collect()
}
