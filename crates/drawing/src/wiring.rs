//! Wiring pictures: of each lock what lies in series from the feed to it, what lies across the relay's contact,
//! and what across the lock; of each door the loops of its alarm inputs.
//!
//! Contacts are drawn as at rest: no power at the coil, no button pressed, door shut, no alarm. Make and break
//! contacts, push button, diode and varistor follow the ideas of IEC 60617 (sections 07-02, 05-03,
//! 04-01; from memory); lock, fire alarm and drive are plain boxes with words. Every part has its
//! name beside it, so nothing rests on a symbol alone.

mod inputs;
mod lock;
mod picture;
mod rails;
mod relay;
mod symbols;
#[cfg(test)]
mod tests;
mod words;

use crate::frame::Frame;
use crate::language::{Lettering, Phrase, Word};
use crate::sheet::{SheetOptions, SheetSize, TitleBlock};
use inputs::{MOST_INPUTS, inputs_picture};
use latchline_assess::Assessment;
use latchline_assess::door::sheet::DoorSheet;
use latchline_scene::{Area, Scene};
use latchline_site::model::Site;
pub(crate) use lock::lock_picture;
pub(crate) use picture::Picture;

const GAP_MM: f64 = 5.0;
/// How much a picture is enlarged where there is room.
const MOST_ENLARGED: f64 = 1.1;

/// The pictures of all doors in file order.
fn pictures(assessment: &Assessment, lettering: Lettering) -> Vec<Picture> {
    let mut list = Vec::new();
    for door in &assessment.doors {
        list.extend(door.locks.iter().map(|lock| lock_picture(door, lock, lettering)));
        list.extend(inputs_pictures(door, lettering));
    }
    list
}

/// The pictures of the alarm inputs of a door.
pub(crate) fn inputs_pictures(door: &DoorSheet, lettering: Lettering) -> Vec<Picture> {
    door.alarm_inputs.chunks(MOST_INPUTS).map(|inputs| inputs_picture(door, inputs, lettering)).collect()
}

/// A picture for each lock and for the alarm inputs of each entrance, several to a sheet.
pub fn wiring_sheets(site: &Site, assessment: &Assessment, options: &SheetOptions) -> Vec<Scene> {
    let lettering = options.lettering();
    let note = lettering.word(Word::WiringNote).to_string();
    let block = TitleBlock::of_site(site, lettering.word(Word::WiringSubject), note, options)
        .of_kind(Word::KindCircuit);
    let frame = Frame::new(options.sheet.unwrap_or(SheetSize::A4_UPRIGHT), &block, &[]);
    let content = frame.content;
    let sheets = arranged(pictures(assessment, lettering), content);
    let of = sheets.len();
    let mut scenes = Vec::with_capacity(of);
    for (number, placed) in sheets.into_iter().enumerate() {
        let what = lettering.word(Word::WiringWhat);
        let title = Phrase::SheetTitle { site: &block.site, what, sheet: number + 1, of };
        let words: Vec<&str> = placed.iter().map(|placed| placed.picture.words.as_str()).collect();
        let mut scene = frame.scene(lettering.say(&title), words.join("; "));
        scene.language = block.locale.language;
        for Placed { picture, factor, corner } in placed {
            let mut group = picture.group;
            group.transform(factor, corner);
            scene.root.group(group);
        }
        frame.draw(&mut scene.root, &block, &[], number + 1, of);
        scenes.push(scene);
    }
    scenes
}

/// A picture at its place on a sheet.
struct Placed {
    picture: Picture,
    factor: f64,
    corner: (f64, f64),
}

/// Pictures row by row in their order, sheet by sheet. Pictures wider than the sheet shrink; the others keep one
/// scale, so that letters are of one size.
fn arranged(pictures: Vec<Picture>, content: Area) -> Vec<Vec<Placed>> {
    let widths = || pictures.iter().map(|picture| picture.width_mm);
    let two_abreast = 2.0 * widths().fold(f64::INFINITY, f64::min) + GAP_MM <= content.width;
    // Where two stand side by side at their own size, they are not enlarged.
    let most = if two_abreast { 1.0 } else { MOST_ENLARGED };
    let scale = (content.width / widths().fold(1.0, f64::max)).clamp(1.0, most);
    let mut sheets: Vec<Vec<Placed>> = vec![Vec::new()];
    let (mut x, mut y, mut row_mm) = (content.x, content.y, 0.0_f64);
    for picture in pictures {
        let fits = (content.width / picture.width_mm).min(content.height / picture.height_mm);
        let factor = fits.min(scale);
        let (width_mm, height_mm) = (picture.width_mm * factor, picture.height_mm * factor);
        // A picture that was shrunk to the room fits despite rounding.
        if x > content.x && x + width_mm > content.right() + 1e-9 {
            (x, y, row_mm) = (content.x, y + row_mm + GAP_MM, 0.0);
        }
        if y > content.y && y + height_mm > content.bottom() + 1e-9 {
            (x, y, row_mm) = (content.x, content.y, 0.0);
            sheets.push(Vec::new());
        }
        let corner = (x, y);
        x += width_mm + GAP_MM;
        row_mm = row_mm.max(height_mm);
        if let Some(sheet) = sheets.last_mut() {
            sheet.push(Placed { picture, factor, corner });
        }
    }
    sheets
}
