//! One device or run as pieces below one another.

use super::data::{CardBlock, CardSet};
use super::lines::{MARK_MM, NAME_MM, Piece, TEXT_MM, baseline_mm, letter, letter_lines, line_mm, size_for};
use super::steps::{blanks, steps};
use super::strip::strip;
use crate::font::wrapped;
use crate::palette::Ink;
use crate::scene::{Area, Group, Layer, Shape, Text};
use crate::switches::{PICTURE_HEIGHT_MM, picture_width_mm, switch_picture};
use latchline_finding::Locale;

/// Edge of a code.
const CODE_MM: f64 = 15.0;
/// Between the edge of a filled strip and its letters.
const STRIP_SIDE_MM: f64 = 1.0;
/// Between pictures of switches.
const GAP_MM: f64 = 4.0;

/// The pieces of a block that is `width_mm` wide inside.
pub(super) fn pieces(block: &CardBlock, set: &CardSet, width_mm: f64, locale: Locale) -> Vec<Piece> {
    let mut pieces = vec![head(block, width_mm)];
    pieces.extend(strip(&block.strip, width_mm));
    pieces.extend(switches(block, width_mm, locale));
    pieces.extend(steps(&block.steps, &set.heads, [&set.power[0], &set.power[1]], width_mm));
    pieces.extend(blanks(&block.blanks, width_mm));
    pieces
}

fn head(block: &CardBlock, width_mm: f64) -> Piece {
    let mut group = Group::new("block-head");
    let room = width_mm - if block.code.is_some() { CODE_MM + 1.0 } else { 0.0 };
    let size = size_for(&block.designation, true, (MARK_MM, NAME_MM), room);
    let mut y =
        letter_lines(&mut group, (0.0, 0.0), &wrapped(&block.designation, size, true, room), size, true);
    for line in std::iter::once(&block.what).chain(&block.lines) {
        y += letter_lines(&mut group, (0.0, y), &wrapped(line, TEXT_MM, false, room), TEXT_MM, false);
    }
    if let Some(warning) = &block.warning {
        let lines = wrapped(warning, MARK_MM, true, room - 2.0 * STRIP_SIDE_MM);
        let strip = Area::new(0.0, y + 0.6, room, lines.len() as f64 * line_mm(MARK_MM) + 1.0);
        group.rectangle(Layer::Trouble, strip, 0.0, None, Some(Ink::Text));
        for (row, line) in lines.into_iter().enumerate() {
            let baseline = strip.y + 0.5 + row as f64 * line_mm(MARK_MM) + baseline_mm(MARK_MM);
            let words = Text::new((STRIP_SIDE_MM, baseline), line, MARK_MM).bold();
            group.text(Layer::Trouble, words.ink(Ink::Paper));
        }
        y = strip.bottom() + 0.8;
    }
    if let Some(code) = &block.code {
        let mut squares = Group::new("code");
        squares.shape(Layer::Device, Shape::Areas(code.areas.clone()), None, Some(Ink::Text));
        // The quiet zone may reach over the edge of the text, not over letters.
        squares.transform(CODE_MM / code.edge.max(1) as f64, (width_mm - CODE_MM + 1.0, -1.0));
        group.group(squares);
        y = y.max(CODE_MM - 1.5);
    }
    Piece { height_mm: y + 1.2, group }
}

/// Pictures of switches at true scale, row by row.
fn switches(block: &CardBlock, width_mm: f64, locale: Locale) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::new();
    let mut x = f64::INFINITY;
    for (label, setting) in &block.switches {
        let own = picture_width_mm(label, setting);
        if x + own > width_mm + 1e-6 {
            pieces.push(Piece { height_mm: PICTURE_HEIGHT_MM - 1.0, group: Group::new("switches") });
            x = 0.0;
        }
        if let Some(piece) = pieces.last_mut() {
            piece.group.group(switch_picture(label, setting, (x, 1.2), locale));
        }
        x += own + GAP_MM;
    }
    pieces
}

/// What a block says that goes on from another column or sheet.
pub(super) fn continuation(block: &CardBlock, set: &CardSet, width_mm: f64) -> Piece {
    let mut group = Group::new("block-head");
    let size = size_for(&block.designation, true, (MARK_MM, NAME_MM), width_mm);
    let lines = wrapped(&block.designation, size, true, width_mm);
    let y = letter_lines(&mut group, (0.0, 0.0), &lines, size, true);
    letter(&mut group, (0.0, y), &set.continued, TEXT_MM, false);
    Piece { height_mm: y + line_mm(TEXT_MM) + 1.0, group }
}
