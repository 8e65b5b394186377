//! One device or run as pieces below one another.

use super::data::{CardBlock, CardSet};
use super::lines::{
    MARK_MM, NAME_MM, Piece, TEXT_MM, baseline_mm, letter, letter_lines, line_mm, size_for, thin,
};
pub(super) use super::notes::Notes;
use super::small_switch::{LINE_HEIGHT_MM, small_switch};
use super::steps::{blanks, steps};
use super::strip::strip;
use crate::language::Lettering;
use latchline_finding::Locale;
use latchline_scene::font::{text_width_mm, wrapped};
use latchline_scene::palette::Ink;
use latchline_scene::{Area, Group, Layer, Shape, Text};

/// From the frame of a block to what is in it, at either side.
pub(super) const CARD_SIDE_MM: f64 = 1.8;
/// Edge of a code.
const CODE_MM: f64 = 15.0;
/// Between the edge of a filled strip and its letters.
const STRIP_SIDE_MM: f64 = 1.0;
/// Between switches of a line.
const GAP_MM: f64 = 2.0;

/// The pieces of a block that is `width_mm` wide inside.
pub(super) fn pieces(
    block: &CardBlock,
    set: &CardSet,
    width_mm: f64,
    notes: &Notes,
    locale: Locale,
) -> Vec<Piece> {
    let mut pieces = vec![head(block, width_mm, notes)];
    pieces.extend(strip(&block.strip, &block.element, width_mm, notes));
    pieces.extend(switches(block, width_mm, locale));
    pieces.extend(steps(&block.steps, [&set.power[0], &set.power[1]], width_mm, notes));
    pieces.extend(blanks(&block.blanks, width_mm));
    pieces
}

fn head(block: &CardBlock, width_mm: f64, notes: &Notes) -> Piece {
    let mut group = Group::new("block-head");
    let room = width_mm - if block.code.is_some() { CODE_MM + 1.0 } else { 0.0 };
    let most = if block.code.is_some() { NAME_MM } else { MARK_MM };
    let size = size_for(&block.designation, true, (MARK_MM, most), room);
    let named = wrapped(&block.designation, size, true, room);
    let beside = text_width_mm(&block.designation, size, true) + 2.0;
    let mut y = letter_lines(&mut group, (0.0, 0.0), &named, size, true);
    // The numbers of notes stand behind what it is.
    let (marks, lines): (Vec<String>, Vec<String>) =
        block.lines.iter().map(|line| notes.short(line)).partition(|line| line.starts_with('['));
    let what = std::iter::once(notes.short(&block.what)).chain(marks).collect::<Vec<_>>().join(" ");
    // What a part without a code is stands behind its name, where there is room.
    let is_beside =
        block.code.is_none() && named.len() == 1 && beside + text_width_mm(&what, TEXT_MM, false) <= room;
    if is_beside {
        let top = baseline_mm(size) - baseline_mm(TEXT_MM);
        letter(&mut group, (beside, top), &what, TEXT_MM, false);
    }
    for line in (!is_beside).then_some(what).into_iter().chain(lines) {
        y += letter_lines(&mut group, (0.0, y), &wrapped(&line, TEXT_MM, false, room), TEXT_MM, false);
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
    Piece { height_mm: y + 0.6, group }
}

/// Switches, line by line.
fn switches(block: &CardBlock, width_mm: f64, locale: Locale) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::new();
    let mut x = f64::INFINITY;
    for (label, setting) in &block.switches {
        let (mut group, own) = small_switch(label, setting, Lettering(locale));
        if x + own > width_mm + 1e-6 {
            pieces.push(Piece { height_mm: LINE_HEIGHT_MM, group: Group::new("switches") });
            x = 0.0;
        }
        if let Some(piece) = pieces.last_mut() {
            group.transform(1.0, (x, 0.5));
            piece.group.group(group);
        }
        x += own + GAP_MM;
    }
    pieces
}

/// What must be known before anything is done, across the card in two columns; and its height.
pub(super) fn across(block: &CardBlock, width_mm: f64) -> (Group, f64) {
    const MIDDLE_MM: f64 = 4.0;
    let title = block.designation.clone();
    let mut group = Group::of_element("job-block", block.element.clone(), title);
    let room = (width_mm - 2.0 * CARD_SIDE_MM - MIDDLE_MM) / 2.0;
    let lines: Vec<Vec<String>> =
        block.lines.iter().map(|line| wrapped(line, TEXT_MM, false, room)).collect();
    let all: usize = lines.iter().map(Vec::len).sum();
    letter(&mut group, (CARD_SIDE_MM, 1.0), &block.designation, MARK_MM, true);
    let top = 1.0 + line_mm(MARK_MM);
    let (mut column, mut y, mut lowest) = (0.0, top, top);
    let mut before = 0;
    for line in lines {
        // The second column begins behind the first half.
        if column == 0.0 && before > 0 && before + line.len() > all.div_ceil(2) {
            (column, y) = (1.0, top);
        }
        before += line.len();
        let x = CARD_SIDE_MM + column * (room + MIDDLE_MM);
        y += letter_lines(&mut group, (x, y), &line, TEXT_MM, false);
        lowest = y.max(lowest);
    }
    let height = lowest + 1.0;
    group.rectangle(Layer::Frame, Area::new(0.0, 0.0, width_mm, height), 0.0, Some(thin()), None);
    (group, height)
}

/// What a block says that goes on from another column or sheet.
pub(super) fn continuation(block: &CardBlock, set: &CardSet, width_mm: f64) -> Piece {
    let mut group = Group::new("block-head");
    let size = size_for(&block.designation, true, (MARK_MM, NAME_MM), width_mm);
    let lines = wrapped(&block.designation, size, true, width_mm);
    let mut y = letter_lines(&mut group, (0.0, 0.0), &lines, size, true);
    let beside = text_width_mm(&block.designation, size, true) + 2.0;
    if lines.len() == 1 && beside + text_width_mm(&set.continued, TEXT_MM, false) <= width_mm {
        let top = baseline_mm(size) - baseline_mm(TEXT_MM);
        letter(&mut group, (beside, top), &set.continued, TEXT_MM, false);
    } else {
        letter(&mut group, (0.0, y), &set.continued, TEXT_MM, false);
        y += line_mm(TEXT_MM);
    }
    Piece { height_mm: y + 0.6, group }
}
