//! Label sheets: one label with a QR code for each device, two small ones for each length of cable.
//!
//! The grids are those of common label stock (common practice, from memory): A4 with 3 x 8 labels of
//! 70 mm x 37 mm and 5 x 13 of 38.1 mm x 21.2 mm; letter with 3 x 10 of 66.7 mm x 25.4 mm and 4 x 20 of
//! 44.5 mm x 12.7 mm. Print without scaling.

use crate::device_code::code_data;
use crate::file::{PackError, PackFile};
use crate::options::{Paper, Part};
use crate::pictures::Drawing;
use crate::qr::{Code, MOST_BYTES, QUIET_ZONE};
use crate::subject::Subject;
use crate::tables::{cautions, double_words, error_line, label_facts, label_foot, origin_line, piece_names};
use latchline_drawing::Palette;
use latchline_drawing::font::{CAPITAL_EM, shortened, text_width_mm};
use latchline_drawing::palette::Ink;
use latchline_drawing::scene::{Area, Group, Layer, Scene, Shape, Text};
use latchline_drawing::svg::svg;
use latchline_wiring::Item;

/// A grid of label stock, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grid {
    /// Sheet: width, height.
    pub sheet: (f64, f64),
    /// Labels across and down.
    pub labels: (usize, usize),
    /// Size of a label.
    pub size: (f64, f64),
    /// Left upper corner of the first.
    pub corner: (f64, f64),
    /// From one label to the next.
    pub pitch: (f64, f64),
}

impl Grid {
    /// Labels for devices.
    pub fn devices(paper: Paper) -> Grid {
        match paper {
            Paper::A4 => Grid {
                sheet: (210.0, 297.0),
                labels: (3, 8),
                size: (70.0, 37.0),
                corner: (0.0, 0.5),
                pitch: (70.0, 37.0),
            },
            Paper::Letter => Grid {
                sheet: (215.9, 279.4),
                labels: (3, 10),
                size: (66.675, 25.4),
                corner: (4.7625, 12.7),
                pitch: (69.85, 25.4),
            },
        }
    }

    /// Labels for the ends of cables.
    pub fn cable_ends(paper: Paper) -> Grid {
        match paper {
            Paper::A4 => Grid {
                sheet: (210.0, 297.0),
                labels: (5, 13),
                size: (38.1, 21.2),
                corner: (4.65, 10.7),
                pitch: (40.65, 21.2),
            },
            Paper::Letter => Grid {
                sheet: (215.9, 279.4),
                labels: (4, 20),
                size: (44.45, 12.7),
                corner: (7.9375, 12.7),
                pitch: (51.85, 12.7),
            },
        }
    }

    fn on_sheet(&self) -> usize {
        self.labels.0 * self.labels.1
    }

    /// Left upper corner of the label with this number on its sheet.
    fn place(&self, number: usize) -> (f64, f64) {
        let (column, row) = (number % self.labels.0, number / self.labels.0);
        (self.corner.0 + column as f64 * self.pitch.0, self.corner.1 + row as f64 * self.pitch.1)
    }
}

/// All label sheets: those of devices, then those of cable ends.
///
/// # Errors
/// If the text of a code is too long.
pub fn sheets(subject: &Subject<'_>) -> Result<Vec<Drawing>, PackError> {
    let grid = Grid::devices(subject.options.paper);
    let mut devices = Vec::with_capacity(subject.order.len());
    for (place, device) in subject.order.iter().enumerate() {
        devices.push(device_label(subject, *device, place + 1, &grid)?);
    }
    let devices = on_sheets(subject, &grid, devices, "devices");
    let grid = Grid::cable_ends(subject.options.paper);
    let mut ends = Vec::with_capacity(2 * subject.wiring.cables.len());
    for cable in &subject.wiring.cables {
        for name in piece_names(cable) {
            for (here, there) in [(cable.from, cable.to), (cable.to, cable.from)] {
                let lines =
                    [name.clone(), subject.end_words(here), format!("> {}", subject.end_words(there))];
                ends.push(cable_label(subject, &lines, &grid));
            }
        }
    }
    Ok(vec![devices, on_sheets(subject, &grid, ends, "cable-ends")])
}

/// The files of these sheets.
pub fn files(sheets: &[Drawing]) -> Vec<PackFile> {
    let mut files = Vec::new();
    for drawing in sheets {
        for (index, scene) in drawing.sheets.iter().enumerate() {
            let name = format!("labels/{}-{}.svg", drawing.name, index + 1);
            files.push(PackFile { name, bytes: svg(scene, Palette::Light).into_bytes() });
        }
    }
    files
}

fn on_sheets(subject: &Subject<'_>, grid: &Grid, labels: Vec<Group>, name: &'static str) -> Drawing {
    let mut about = origin_line(subject);
    if let Some(errors) = error_line(subject) {
        about = format!("{errors} {about}");
    }
    for caution in cautions(&subject.locale) {
        about = format!("{about} {caution}");
    }
    let mut sheets: Vec<Scene> = Vec::with_capacity(labels.len().div_ceil(grid.on_sheet()));
    for (number, mut label) in labels.into_iter().enumerate() {
        let place = number % grid.on_sheet();
        if place == 0 {
            let (width_mm, height_mm) = grid.sheet;
            sheets.push(Scene {
                width_mm,
                height_mm,
                title: format!("{} {}", subject.site.title, sheets.len() + 1),
                description: about.clone(),
                language: subject.locale.language,
                root: Group::new("labels"),
            });
        }
        label.transform(1.0, grid.place(place));
        if let Some(sheet) = sheets.last_mut() {
            sheet.root.group(label);
        }
    }
    Drawing { part: Part::Labels, name, sheets }
}

/// Room between the left and right edge of a label and what is printed: office printers print nothing nearer to the edge
/// of the paper, where labels of A4 stock begin, and feed the sheet a little aside (common practice, no source).
const SIDE_MM: f64 = 4.0;
/// The same above and below; low labels, whose stock begins further from the edge of the paper, have less.
const ABOVE_MM: f64 = 4.0;
const ABOVE_LOW_MM: f64 = 2.2;
/// Labels lower than this are low.
const LOW_MM: f64 = 30.0;
/// The largest edge of a code, without its quiet zone.
const LARGEST_CODE_MM: f64 = 27.4;

fn above_mm(height: f64) -> f64 {
    if height < LOW_MM { ABOVE_LOW_MM } else { ABOVE_MM }
}

fn device_label(subject: &Subject<'_>, device: Item, number: usize, grid: &Grid) -> Result<Group, PackError> {
    let facts = label_facts(subject, device);
    let data = code_data(subject, &facts.name, number).unwrap_or_else(|| facts.code_text());
    let too_long =
        || PackError::CodeTooLong { device: facts.name.clone(), bytes: data.len(), most: MOST_BYTES };
    if data.len() > MOST_BYTES {
        return Err(too_long());
    }
    let code = Code::new(&data).map_err(|_| too_long())?;
    let (width, height) = grid.size;
    // The quiet zone is part of the picture and is not printed: it may reach into the margin.
    let black = (height - 7.0).min(LARGEST_CODE_MM);
    let scale = black / code.size as f64;
    let quiet = scale * QUIET_ZONE as f64;
    let left = width - SIDE_MM - black - quiet;
    let mut label = Group::new("label");
    let mut squares = Group::new("code");
    squares.shape(Layer::Device, Shape::Areas(code.areas()), None, Some(Ink::Text));
    squares.transform(scale, (left, (height - black) / 2.0 - quiet));
    label.group(squares);
    let room = left - SIDE_MM;
    let double = double_words(subject, device);
    let lines = [
        (&facts.name, 5.2, true),
        (&facts.what, 2.7, false),
        (&facts.place, 2.7, false),
        (&facts.address, 2.7, true),
    ];
    let spread = height / 37.0;
    let above = above_mm(height);
    let mut y = above + CAPITAL_EM * lines[0].1 * spread.max(0.8);
    for (index, (text, size, bold)) in lines.into_iter().enumerate() {
        let size = size * spread.max(0.8);
        if index == 0 {
            line(&mut label, text, (SIDE_MM, y), size, bold, room);
            y += 5.0 * spread;
        } else if let (1, Some(double)) = (index, &double) {
            // In place of what it is: that can be seen.
            let strip = Area::new(SIDE_MM, y - size, room, size * 1.35);
            label.rectangle(Layer::Trouble, strip, 0.0, None, Some(Ink::Text));
            let size = size * 1.15;
            let fitting = size * ((room - 1.0) / text_width_mm(double, size, true)).min(1.0);
            let words = Text::new((SIDE_MM + 0.5, y), double.as_str(), fitting).bold();
            label.text(Layer::Trouble, words.ink(Ink::Paper));
            y += 4.4 * spread;
        } else {
            for part in wrapped(text, size, bold, room, 2) {
                line(&mut label, &part, (SIDE_MM, y), size, bold, room);
                y += 3.6 * spread;
            }
        }
    }
    // Letters reach below their line.
    line(&mut label, &facts.foot, (SIDE_MM, height - above - 0.4), 1.9, false, room);
    Ok(label)
}

fn cable_label(subject: &Subject<'_>, lines: &[String; 3], grid: &Grid) -> Group {
    let (width, height) = grid.size;
    let room = width - 2.0 * SIDE_MM;
    let step = (height - 3.0) / 4.2;
    let mut label = Group::new("label");
    for (index, text) in lines.iter().enumerate() {
        let size = if index == 0 { step * 0.86 } else { step * 0.68 };
        let y = 1.2 + step * (index as f64 + 1.0);
        line(&mut label, text, (SIDE_MM, y), size.min(3.6), index == 0, room);
    }
    line(&mut label, &label_foot(subject), (SIDE_MM, height - 1.5), step.min(1.7), false, room);
    label
}

/// Text broken at spaces into at most so many lines; the last is shortened when it is drawn.
fn wrapped(text: &str, size_mm: f64, bold: bool, room_mm: f64, most: usize) -> Vec<String> {
    let mut lines_left = most;
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let is_full =
            lines.last().is_none_or(|last| text_width_mm(&format!("{last} {word}"), size_mm, bold) > room_mm);
        match lines.last_mut() {
            Some(last) if !is_full || lines_left == 0 => {
                last.push(' ');
                last.push_str(word);
            }
            _ => {
                lines.push(word.to_string());
                lines_left = lines_left.saturating_sub(1);
            }
        }
    }
    lines
}

/// One line of text, made smaller and then shortened until it fits.
fn line(label: &mut Group, text: &str, at: (f64, f64), size_mm: f64, bold: bool, room_mm: f64) {
    if text.trim().is_empty() {
        return;
    }
    let width = text_width_mm(text, size_mm, bold);
    let size = if width > room_mm { (size_mm * room_mm / width).max(size_mm * 0.6) } else { size_mm };
    let mut shown = Text::new(at, shortened(text, size, bold, room_mm), size);
    shown.bold = bold;
    label.text(Layer::Lettering, shown);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_grid_fits_its_sheet() {
        for paper in [Paper::A4, Paper::Letter] {
            for grid in [Grid::devices(paper), Grid::cable_ends(paper)] {
                let (x, y) = grid.place(grid.on_sheet() - 1);
                assert!(
                    x + grid.size.0 <= grid.sheet.0 + 1e-6 && y + grid.size.1 <= grid.sheet.1 + 1e-6,
                    "{grid:?}"
                );
                assert!(grid.pitch.0 >= grid.size.0 && grid.pitch.1 >= grid.size.1);
            }
        }
    }
}
