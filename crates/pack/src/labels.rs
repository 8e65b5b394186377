//! Label sheets: one label with a QR code for each device, two small ones for each length of cable.
//!
//! The grids are those of common label stock (common practice, from memory): A4 with 3 x 8 labels of
//! 70 mm x 37 mm and 5 x 13 of 38.1 mm x 21.2 mm; letter with 3 x 10 of 66.7 mm x 25.4 mm and 4 x 20 of
//! 44.5 mm x 12.7 mm. Print without scaling.

use crate::error::PackError;
use crate::qr::{Code, MOST_BYTES, QUIET_ZONE};
use latchline_handover::Drawing;
use latchline_handover::PackFile;
use latchline_handover::device_code::code_data;
use latchline_handover::options::{Paper, Part};
use latchline_handover::subject::Subject;
use latchline_handover::tables::{
    cautions, double_words, error_line, label_facts, label_foot, origin_line, piece_names,
};
use latchline_scene::Palette;
use latchline_scene::font::{CAPITAL_EM, LADDER_MM, LEADING, LEAST_MM, shortened, text_width_mm};
use latchline_scene::palette::Ink;
use latchline_scene::svg::svg;
use latchline_scene::{Area, Group, Layer, Scene, Shape, Text};
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
    let errors = error_line(subject);
    if let Some(errors) = &errors {
        about = format!("{errors} {about}");
    }
    // Stock has no room beside its labels: of a failing site the first one of every sheet says so, and is stuck nowhere.
    let kept = usize::from(errors.is_some());
    for caution in cautions(&subject.locale) {
        about = format!("{about} {caution}");
    }
    let mut sheets: Vec<Scene> = Vec::with_capacity(labels.len().div_ceil(grid.on_sheet() - kept));
    for (number, mut label) in labels.into_iter().enumerate() {
        let place = number % (grid.on_sheet() - kept) + kept;
        if place == kept {
            let (width_mm, height_mm) = grid.sheet;
            sheets.push(Scene {
                width_mm,
                height_mm,
                title: format!("{} {}", subject.site.title, sheets.len() + 1),
                description: about.clone(),
                language: subject.locale.language,
                root: Group::new("labels"),
            });
            if let (Some(errors), Some(sheet)) = (&errors, sheets.last_mut()) {
                let mut warning = warning_label(errors, grid);
                warning.transform(1.0, grid.place(0));
                sheet.root.group(warning);
            }
        }
        label.transform(1.0, grid.place(place));
        if let Some(sheet) = sheets.last_mut() {
            sheet.root.group(label);
        }
    }
    Drawing { part: Part::Labels, name, sheets }
}

/// What stands on the first label of every sheet of a failing site: as large as it fits.
fn warning_label(errors: &str, grid: &Grid) -> Group {
    let (width, height) = grid.size;
    let above = above_mm(height);
    let (room, high) = (width - 2.0 * SIDE_MM - 2.0, height - 2.0 * above - 1.0);
    let lines_at = |size: f64| broken(errors, size, true, room);
    let fits = |size: &f64| lines_at(*size).len() as f64 * *size * LEADING <= high;
    let size = (0..=12)
        .map(|step| LADDER_MM * 1.5 - 0.1 * f64::from(step) * LEAST_MM)
        .filter(|size| *size > LEAST_MM)
        .find(fits);
    let size = size.unwrap_or(LEAST_MM);
    let mut label = Group::new("label");
    let strip = Area::new(SIDE_MM, above, width - 2.0 * SIDE_MM, height - 2.0 * above);
    label.rectangle(Layer::Trouble, strip, 0.0, None, Some(Ink::Text));
    for (row, words) in lines_at(size).into_iter().enumerate() {
        let baseline = strip.y + 0.5 + (row as f64 + 0.85) * size * LEADING;
        let words = Text::new((strip.x + 1.0, baseline), words, size).bold();
        label.text(Layer::Trouble, words.ink(Ink::Paper));
    }
    label
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
    // Designation and address are read on a ladder, where the stock is high enough.
    let reading = if height < LOW_MM { LEAST_MM } else { LADDER_MM };
    let above = above_mm(height);
    let mut y = place(&mut label, &facts.name, (SIDE_MM, above), 5.2, true, room);
    match &double {
        // In place of what it is: that can be seen.
        Some(double) => {
            let lines = broken(double, LADDER_MM, true, room - 1.0);
            let strip = Area::new(SIDE_MM, y + 0.2, room, lines.len() as f64 * LADDER_MM * LEADING + 0.8);
            label.rectangle(Layer::Trouble, strip, 0.0, None, Some(Ink::Text));
            for (row, words) in lines.into_iter().enumerate() {
                let baseline = strip.y + 0.5 + (row as f64 + 0.85) * LADDER_MM * LEADING;
                let words = Text::new((SIDE_MM + 0.5, baseline), words, LADDER_MM).bold();
                label.text(Layer::Trouble, words.ink(Ink::Paper));
            }
            y = strip.bottom() + 0.5;
        }
        None => y = place(&mut label, &facts.what, (SIDE_MM, y), LEAST_MM, false, room),
    }
    y = place(&mut label, &facts.place, (SIDE_MM, y), LEAST_MM, false, room);
    place(&mut label, &facts.address, (SIDE_MM, y), reading, true, room);
    // Letters reach below their line.
    line(&mut label, &facts.foot, (SIDE_MM, height - above - 0.4), LEAST_MM, false, room);
    Ok(label)
}

fn cable_label(subject: &Subject<'_>, lines: &[String; 3], grid: &Grid) -> Group {
    let (width, height) = grid.size;
    let room = width - 2.0 * SIDE_MM;
    let mut label = Group::new("label");
    let foot = label_foot(subject);
    let foot_mm = text_width_mm(&foot, LEAST_MM, false);
    let above = above_mm(height);
    // Low labels have no line for the foot: it stands beside the designation.
    let is_low = height < 5.0 * LADDER_MM;
    let size = if is_low { LEAST_MM } else { LADDER_MM };
    let mut y = above;
    for (index, text) in lines.iter().enumerate() {
        let own = if is_low && index == 0 { room - foot_mm - 2.0 } else { room };
        y = place(&mut label, text, (SIDE_MM, y), size, index == 0, own);
    }
    let at = match is_low {
        true => (width - SIDE_MM - foot_mm, above + LEAST_MM * CAPITAL_EM + 0.3),
        false => (SIDE_MM, height - above),
    };
    line(&mut label, &foot, at, LEAST_MM, false, room);
    label
}

/// A text below `y`: as large as its room allows, at its least size in as many lines as it takes. Gives where the next begins.
fn place(label: &mut Group, text: &str, (x, y): (f64, f64), size_mm: f64, bold: bool, room_mm: f64) -> f64 {
    let width = text_width_mm(text, size_mm, bold);
    let size = if width > room_mm { (size_mm * room_mm / width).max(LEAST_MM) } else { size_mm };
    let mut baseline = y;
    for part in broken(text, size, bold, room_mm) {
        baseline += size * CAPITAL_EM + 0.3;
        line(label, &part, (x, baseline), size, bold, room_mm);
        baseline += size * 0.25;
    }
    baseline + 0.3
}

/// Text broken at spaces, and after the signs of a designation that divide it; within a word only where it must be.
fn broken(text: &str, size_mm: f64, bold: bool, room_mm: f64) -> Vec<String> {
    let fits = |line: &str| text_width_mm(line.trim_end(), size_mm, bold) <= room_mm + 1e-6;
    let mut lines = vec![String::new()];
    for part in text.split_inclusive([' ', ':', '/', '-']) {
        let longer = format!("{}{part}", lines[lines.len() - 1]);
        let last = lines.len() - 1;
        if fits(&longer) {
            lines[last] = longer;
            continue;
        }
        if !lines[last].is_empty() {
            lines.push(String::new());
        }
        for sign in part.chars() {
            let last = lines.len() - 1;
            if !lines[last].is_empty() && !fits(&format!("{}{sign}", lines[last])) {
                lines.push(String::new());
            }
            let last = lines.len() - 1;
            lines[last].push(sign);
        }
    }
    lines.into_iter().map(|line| line.trim().to_string()).filter(|line| !line.is_empty()).collect()
}

/// One line of text, made smaller and then shortened until it fits.
fn line(label: &mut Group, text: &str, at: (f64, f64), size_mm: f64, bold: bool, room_mm: f64) {
    if text.trim().is_empty() {
        return;
    }
    let width = text_width_mm(text, size_mm, bold);
    let size = if width > room_mm { (size_mm * room_mm / width).max(LEAST_MM) } else { size_mm };
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
