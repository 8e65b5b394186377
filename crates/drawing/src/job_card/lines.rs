//! Lettering of cards: sizes, and lines that never lose a letter.

use latchline_scene::font::{CAPITAL_EM, LADDER_MM, LEAST_MM, text_width_mm};
use latchline_scene::palette::Ink;
use latchline_scene::{Anchor, Group, Layer, Pen, Stroke, Text};

/// All that is read on a ladder: capitals of 2.5 mm.
pub(super) const TEXT_MM: f64 = LADDER_MM;
/// What it is found by: capitals of 2.75 mm.
pub(super) const MARK_MM: f64 = 4.0;
/// Head and foot of a sheet, which are not: capitals of 1.8 mm.
pub(super) const FOOT_MM: f64 = LEAST_MM;
/// Designations: capitals of 3.4 mm.
pub(super) const NAME_MM: f64 = 5.0;
/// From one baseline to the next, in sizes: as high as the box of a letter.
const LEADING: f64 = 1.12;
/// Edge of a box to tick.
pub(super) const TICK_MM: f64 = 4.0;

pub(super) fn thin() -> Stroke {
    Stroke::solid(Ink::Text, Pen::Thin)
}

pub(super) fn middle() -> Stroke {
    Stroke::solid(Ink::Text, Pen::Middle)
}

/// A part of a block that is not split: its height, and what is drawn with its left upper corner at the origin.
#[derive(Clone)]
pub(super) struct Piece {
    pub(super) height_mm: f64,
    pub(super) group: Group,
}

/// Height of a line of letters of this size.
pub(super) fn line_mm(size_mm: f64) -> f64 {
    size_mm * LEADING
}

/// From the top of a line to its baseline.
pub(super) fn baseline_mm(size_mm: f64) -> f64 {
    (line_mm(size_mm) + size_mm * CAPITAL_EM) / 2.0
}

/// Adds a line of text whose top is at `y`.
pub(super) fn letter(group: &mut Group, (x, y): (f64, f64), text: &str, size_mm: f64, bold: bool) {
    if text.trim().is_empty() {
        return;
    }
    let mut shown = Text::new((x, y + baseline_mm(size_mm)), text, size_mm);
    shown.bold = bold;
    group.text(Layer::Lettering, shown);
}

/// The same, ending at `x`.
pub(super) fn letter_to(group: &mut Group, (x, y): (f64, f64), text: &str, size_mm: f64, bold: bool) {
    if text.trim().is_empty() {
        return;
    }
    let mut shown = Text::new((x, y + baseline_mm(size_mm)), text, size_mm).anchored(Anchor::End);
    shown.bold = bold;
    group.text(Layer::Lettering, shown);
}

/// The largest size between two at which a text is no wider than the room; the least if it is wider even then.
pub(super) fn size_for(text: &str, bold: bool, (least_mm, most_mm): (f64, f64), room_mm: f64) -> f64 {
    let width = text_width_mm(text, most_mm, bold);
    if width <= room_mm { most_mm } else { (most_mm * room_mm / width).max(least_mm) }
}

/// Adds lines below one another; gives the height that they take.
pub(super) fn letter_lines(
    group: &mut Group,
    (x, y): (f64, f64),
    lines: &[String],
    size_mm: f64,
    bold: bool,
) -> f64 {
    for (number, line) in lines.iter().enumerate() {
        letter(group, (x, y + number as f64 * line_mm(size_mm)), line, size_mm, bold);
    }
    lines.len() as f64 * line_mm(size_mm)
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_scene::font::wrapped;

    #[test]
    fn lines_keep_every_letter() {
        let text = "Penthouse-with-a-very-long-designation and more";
        for room in [5.0, 20.0, 40.0, 200.0] {
            let lines = wrapped(text, TEXT_MM, false, room);
            let kept: String = lines.concat().chars().filter(|sign| *sign != ' ').collect();
            assert_eq!(kept, text.replace(' ', ""));
            assert!(lines.iter().all(|line| text_width_mm(line, TEXT_MM, false) <= room + 1e-6));
        }
    }

    /// ISO 3098-1: nominal sizes 1.8 and 2.5 are heights of capitals in millimetres.
    #[test]
    fn capitals_are_as_high_as_the_standard_asks() {
        const { assert!(FOOT_MM * CAPITAL_EM >= 1.8 && TEXT_MM * CAPITAL_EM >= 2.5) }
    }
}
