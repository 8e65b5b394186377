//! Terminals drawn, with what lands on each.

use super::data::{CardWire, StripSet, StripTerminal, WireColour};
use super::lines::{MARK_MM, Piece, TEXT_MM, letter, letter_lines, line_mm, middle, size_for, thin};
use crate::font::wrapped;
use crate::palette::{Ink, Insulation};
use crate::scene::{Area, Group, Layer};

/// Least height of a terminal.
const ROW_MM: f64 = 5.2;
/// Room for the marks of sets.
const SET_MM: f64 = 17.0;
/// Width of a terminal.
const TERMINAL_MM: f64 = 11.5;
/// Least room for a remark beside terminals that stand side by side.
const LEAST_REMARK_MM: f64 = 20.0;
/// From a terminal to the swatch, and the size of the swatch.
const WIRE_MM: f64 = 2.5;
const SWATCH_MM: (f64, f64) = (6.0, 2.6);
/// Room for a code of colours.
const CODE_MM: f64 = 9.5;

/// The terminals of these sets, one piece each.
pub(super) fn strip(sets: &[StripSet], width_mm: f64) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for set in sets {
        let mut of_set = match free_row(set, width_mm) {
            Some(piece) => vec![piece],
            None => set
                .terminals
                .iter()
                .enumerate()
                .map(|(number, terminal)| {
                    // What holds for several terminals is said once, at the last of them.
                    let next = set.terminals.get(number + 1);
                    let is_said_below = next.is_some_and(|next| next.remark == terminal.remark);
                    let remark = if is_said_below { "" } else { terminal.remark.as_str() };
                    terminal_piece(terminal, remark, width_mm)
                })
                .collect(),
        };
        if let Some(first) = of_set.first_mut() {
            let size = size_for(&set.mark, true, (TEXT_MM, MARK_MM), SET_MM - 1.0);
            let top = (ROW_MM - line_mm(size)) / 2.0;
            let lines = wrapped(&set.mark, size, true, SET_MM - 0.5);
            let mut head = Group::new("terminal-set");
            let height = letter_lines(&mut head, (0.0, top), &lines, size, true);
            first.group.group(head);
            first.height_mm = first.height_mm.max(top + height);
        }
        // A set is never torn: its mark stands at the first terminal only.
        let mut whole = Piece { height_mm: 0.0, group: Group::new("terminals") };
        for mut piece in of_set {
            piece.group.transform(1.0, (0.0, whole.height_mm));
            whole.group.group(piece.group);
            whole.height_mm += piece.height_mm;
        }
        pieces.push(whole);
    }
    pieces
}

/// Terminals on which nothing lands and of which the same is said stand side by side, with one remark.
fn free_row(set: &StripSet, width_mm: f64) -> Option<Piece> {
    let first = set.terminals.first()?;
    let is_alike = |terminal: &StripTerminal| terminal.wires.is_empty() && terminal.remark == first.remark;
    let count = set.terminals.len();
    let x = SET_MM + count as f64 * TERMINAL_MM + 2.0;
    if count < 2 || !set.terminals.iter().all(is_alike) || width_mm - x < LEAST_REMARK_MM {
        return None;
    }
    let mut group = Group::new("free-terminals");
    let lines = wrapped(&first.remark, TEXT_MM, false, width_mm - x);
    let inset = (ROW_MM - line_mm(TEXT_MM)) / 2.0;
    let height = letter_lines(&mut group, (x, inset), &lines, TEXT_MM, false) + 2.0 * inset;
    let height_mm = height.max(ROW_MM);
    for (number, terminal) in set.terminals.iter().enumerate() {
        let mut body = Group::new("terminal");
        terminal_body(&mut body, SET_MM + number as f64 * TERMINAL_MM, &terminal.pole, height_mm);
        group.group(body);
    }
    Some(Piece { height_mm, group })
}

fn terminal_piece(terminal: &StripTerminal, remark: &str, width_mm: f64) -> Piece {
    let mut group = Group::new("terminal");
    let left = SET_MM + TERMINAL_MM;
    let mut y = 0.0;
    for wire in &terminal.wires {
        y += draw_wire(&mut group, (left, y), wire, width_mm);
    }
    if !remark.is_empty() {
        let x = if terminal.wires.is_empty() { left + 2.0 } else { left + WIRE_MM + SWATCH_MM.0 + 1.0 };
        let lines = wrapped(remark, TEXT_MM, false, width_mm - x);
        let inset = if terminal.wires.is_empty() { (ROW_MM - line_mm(TEXT_MM)) / 2.0 } else { 0.0 };
        y += inset + letter_lines(&mut group, (x, y + inset), &lines, TEXT_MM, false) + inset;
    }
    let height_mm = y.max(ROW_MM);
    terminal_body(&mut group, SET_MM, &terminal.pole, height_mm);
    Piece { height_mm, group }
}

/// A terminal with its screw and its pole.
fn terminal_body(group: &mut Group, left: f64, pole: &str, height_mm: f64) {
    let body = Area::new(left, 0.0, TERMINAL_MM, height_mm);
    group.rectangle(Layer::Device, body, 0.0, Some(middle()), Some(Ink::Inside));
    // The screw: a circle with a slot.
    let centre = (left + 2.6, ROW_MM / 2.0);
    group.circle(Layer::Device, centre, 1.4, Some(thin()), None);
    group.line(Layer::Device, (centre.0 - 0.8, centre.1 + 0.8), (centre.0 + 0.8, centre.1 - 0.8), thin());
    let size = size_for(pole, true, (TEXT_MM, MARK_MM), TERMINAL_MM - 5.2);
    letter(group, (left + 5.0, (ROW_MM - line_mm(size)) / 2.0), pole, size, true);
}

/// One conductor from its terminal to the right; gives the height that it takes.
fn draw_wire(group: &mut Group, (left, y): (f64, f64), wire: &CardWire, width_mm: f64) -> f64 {
    let middle_y = y + ROW_MM / 2.0;
    let swatch = Area::new(left + WIRE_MM, middle_y - SWATCH_MM.1 / 2.0, SWATCH_MM.0, SWATCH_MM.1);
    let text_x = match &wire.colour {
        WireColour::None => {
            group.line(Layer::Wiring, (left, middle_y), (left + WIRE_MM, middle_y), middle());
            left + WIRE_MM + 1.0
        }
        WireColour::Code(code) => {
            group.line(Layer::Wiring, (left, middle_y), (swatch.x, middle_y), middle());
            draw_swatch(group, swatch, code);
            let size = size_for(code, true, (TEXT_MM, MARK_MM), CODE_MM - 1.0);
            letter(group, (swatch.right() + 1.0, middle_y - line_mm(size) / 2.0), code, size, true);
            // A code of two colours is wider than the room for one.
            let code_mm = crate::font::text_width_mm(code, size, true) + 2.0;
            swatch.right() + code_mm.max(CODE_MM) + 0.5
        }
        WireColour::ToWrite => {
            group.line(Layer::Wiring, (left, middle_y), (swatch.x, middle_y), middle());
            // Room to write the code that was found.
            let room = Area::new(swatch.x, y + 0.5, SWATCH_MM.0 + CODE_MM - 0.5, ROW_MM - 1.0);
            group.rectangle(Layer::Device, room, 0.0, Some(thin()), None);
            swatch.right() + CODE_MM + 0.5
        }
    };
    let room = width_mm - text_x;
    let other = if wire.other.is_empty() { String::new() } else { format!("→ {}", wire.other) };
    let whole = format!("{}  {other}", wire.cable);
    let top = (ROW_MM - line_mm(TEXT_MM)) / 2.0;
    let mut lines = vec![whole.trim().to_string()];
    if crate::font::text_width_mm(&lines[0], TEXT_MM, false) > room {
        lines = wrapped(&wire.cable, TEXT_MM, false, room);
        lines.extend(wrapped(&other, TEXT_MM, false, room));
    }
    let height = letter_lines(group, (text_x, y + top), &lines, TEXT_MM, false);
    (height + 2.0 * top).max(ROW_MM)
}

/// A swatch: of two colours, one above the other.
fn draw_swatch(group: &mut Group, area: Area, code: &str) {
    let colours: Vec<Insulation> = code
        .as_bytes()
        .chunks(2)
        .filter_map(|two| std::str::from_utf8(two).ok().and_then(Insulation::of_code))
        .collect();
    let each = area.height / colours.len().max(1) as f64;
    for (number, colour) in colours.into_iter().enumerate() {
        let part = Area::new(area.x, area.y + number as f64 * each, area.width, each);
        group.rectangle(Layer::Wiring, part, 0.0, None, Some(Ink::Conductor(colour)));
    }
    group.rectangle(Layer::Wiring, area, 0.0, Some(thin()), None);
}
