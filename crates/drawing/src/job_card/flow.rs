//! Blocks onto sheets: two abreast, pictures of doors across, no device split that fits on a sheet.

use super::block::{continuation, pieces};
use super::data::{CardBlock, CardSet, DoorPicture};
use super::lines::Piece;
use crate::language::Lettering;
use crate::palette::Ink;
use crate::scene::{Area, Group, Layer, Pen, Role, Stroke};
use crate::wiring::{Picture, inputs_pictures, lock_picture};
use latchline_assess::Assessment;

/// Between blocks.
const GAP_MM: f64 = 3.0;
/// Between the frame of a block and what is in it.
const PAD_MM: f64 = 2.2;
/// Most that the picture of a door is enlarged.
const MOST_ENLARGED: f64 = 1.0;

/// Places blocks where they first fit: on the earliest sheet of their card, in the column that is less full.
struct Sheets {
    content: Area,
    sheets: Vec<Sheet>,
}

/// A sheet in the making, and where each of its columns goes on.
struct Sheet {
    group: Group,
    y: [f64; 2],
}

impl Sheets {
    fn new(content: Area) -> Self {
        let mut sheets = Sheets { content, sheets: Vec::new() };
        sheets.turn();
        sheets
    }

    fn column_mm(&self) -> f64 {
        (self.content.width - GAP_MM) / 2.0
    }

    /// Begins another sheet; gives its number.
    fn turn(&mut self) -> usize {
        self.sheets.push(Sheet { group: Group::new("job-card-sheet"), y: [self.content.y; 2] });
        self.sheets.len() - 1
    }

    /// The first sheet on which so much is free below `y`.
    fn with_room(&mut self, height: f64, y: impl Fn(&Sheet) -> f64) -> usize {
        let bottom = self.content.bottom() + 1e-6;
        let found = self.sheets.iter().position(|sheet| y(sheet) + height <= bottom);
        found.unwrap_or_else(|| self.turn())
    }

    /// A block in the column that is less full.
    fn place(&mut self, role: Role, list: Vec<Piece>) {
        let height = list.iter().map(|piece| piece.height_mm).sum::<f64>() + 2.0 * PAD_MM;
        let number = self.with_room(height, |sheet| sheet.y[0].min(sheet.y[1]));
        let width = self.column_mm();
        let left = self.content.x;
        let sheet = &mut self.sheets[number];
        let column = usize::from(sheet.y[1] + 1e-6 < sheet.y[0]);
        let area = Area::new(left + column as f64 * (width + GAP_MM), sheet.y[column], width, height);
        let mut group = Group { role, nodes: Vec::new() };
        group.rectangle(Layer::Frame, area, 0.0, Some(Stroke::solid(Ink::Text, Pen::Middle)), None);
        let mut y = area.y + PAD_MM;
        for mut piece in list {
            piece.group.transform(1.0, (area.x + PAD_MM, y));
            group.group(piece.group);
            y += piece.height_mm;
        }
        sheet.group.group(group);
        sheet.y[column] += height + GAP_MM;
    }

    /// A picture across the sheet.
    fn across(&mut self, pictures: Vec<Picture>) {
        for picture in pictures {
            let factor = (self.content.width / picture.width_mm)
                .min(self.content.height / picture.height_mm)
                .min(MOST_ENLARGED);
            let height = picture.height_mm * factor;
            let number = self.with_room(height, |sheet| sheet.y[0].max(sheet.y[1]));
            let left = self.content.x;
            let sheet = &mut self.sheets[number];
            let y = sheet.y[0].max(sheet.y[1]);
            let mut group = picture.group;
            group.transform(factor, (left, y));
            sheet.group.group(group);
            sheet.y = [y + height + GAP_MM; 2];
        }
    }
}

/// The sheets of one card.
pub(super) fn flow(
    blocks: &[CardBlock],
    set: &CardSet,
    content: Area,
    assessment: &Assessment,
    lettering: Lettering,
) -> Vec<Group> {
    let mut sheets = Sheets::new(content);
    for block in blocks {
        let width = sheets.column_mm() - 2.0 * PAD_MM;
        sheets.across(door_pictures(&block.pictures, assessment, lettering));
        let list = pieces(block, set, width, lettering.0);
        let whole = list.iter().map(|piece| piece.height_mm).sum::<f64>() + 2.0 * PAD_MM;
        let title = format!("{}: {}", block.designation, block.what);
        if whole <= content.height {
            sheets.place(Group::of_element("job-block", block.element.clone(), title).role, list);
            continue;
        }
        // Taller than a sheet: piece by piece, each part with the designation over it.
        let mut role = Group::of_element("job-block", block.element.clone(), title).role;
        let mut part: Vec<Piece> = Vec::new();
        let mut height = 2.0 * PAD_MM;
        for piece in list {
            if height + piece.height_mm > content.height && part.len() > 1 {
                sheets.place(role, std::mem::take(&mut part));
                role = Group::new("job-block").role;
                role.continues = Some(block.element.clone());
                part.push(continuation(block, set, width));
                height = 2.0 * PAD_MM + part[0].height_mm;
            }
            height += piece.height_mm;
            part.push(piece);
        }
        sheets.place(role, part);
    }
    sheets.sheets.into_iter().map(|sheet| sheet.group).collect()
}

fn door_pictures(list: &[DoorPicture], assessment: &Assessment, lettering: Lettering) -> Vec<Picture> {
    let mut pictures = Vec::new();
    for picture in list {
        match *picture {
            DoorPicture::Lock { door, lock } => {
                let found = assessment.doors.get(door).and_then(|door| Some((door, door.locks.get(lock)?)));
                pictures.extend(found.map(|(door, lock)| lock_picture(door, lock, lettering)));
            }
            DoorPicture::Inputs { door } => {
                let found = assessment.doors.get(door);
                pictures.extend(found.into_iter().flat_map(|door| inputs_pictures(door, lettering)));
            }
        }
    }
    pictures
}
