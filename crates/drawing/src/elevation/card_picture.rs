//! How a card looks.

use super::card::{Card, CardKind, Trouble};
use super::route::{CardTerminal, terminal_x};
use crate::font::{text_width_mm, wrapped};
use crate::palette::Ink;
use crate::scene::{Anchor, Area, Attribute, Block, Group, Layer, Point, Stroke, Text};
use crate::sheet::{double_strip, fitted};
use crate::symbols;
use latchline_assess::MarginStep as Step;
use latchline_finding::Severity;

/// Least distance of two terminals.
pub(super) const TERMINAL_MM: f64 = 4.2;
/// From the left edge to the lettering: the gauge stands there.
const INDENT_MM: f64 = 4.6;
const RIGHT_PAD_MM: f64 = 1.4;
const NAME_MM: f64 = 3.4;
const FIGURE_MM: f64 = 3.0;
const SMALL_MM: f64 = 2.5;
const LEAST_MM: f64 = 2.2;
const MARK_MM: f64 = 2.6;
/// From one line of a trouble to the next.
const TROUBLE_LINE_MM: f64 = 3.0;
/// Height of the strip that says that a number is double, and of its lettering.
const DOUBLE_STRIP_MM: f64 = 4.8;
const DOUBLE_MM: f64 = 3.4;

/// Height of every card: the trouble of one may need several lines.
pub(super) fn height(trouble_lines: usize, doubled: bool) -> f64 {
    let trouble = match trouble_lines {
        0 => 0.0,
        lines => 4.6 + (lines - 1) as f64 * TROUBLE_LINE_MM,
    };
    15.8 + trouble + if doubled { DOUBLE_STRIP_MM + 0.8 } else { 0.0 }
}

/// Width at which nothing on this card has to be made smaller.
pub(super) fn wanted_width(card: &Card) -> f64 {
    let name = text_width_mm(&card.element, NAME_MM, true) + symbols::SYMBOL_MM + 1.6;
    let margin =
        if card.margin.is_empty() { 0.0 } else { text_width_mm(&card.margin, SMALL_MM, false) + 1.8 };
    let figure = text_width_mm(&card.figure, FIGURE_MM, false) + margin;
    let run = text_width_mm(&card.run, SMALL_MM, false);
    let trouble = card
        .trouble
        .as_ref()
        .map_or(0.0, |trouble| text_width_mm(&trouble.words, SMALL_MM, true) + MARK_MM + 0.8);
    let double = card
        .double
        .as_ref()
        .map_or(0.0, |words| text_width_mm(words, DOUBLE_MM, true) + RIGHT_PAD_MM - INDENT_MM);
    INDENT_MM + RIGHT_PAD_MM + name.max(figure).max(run).max(trouble).max(double)
}

/// Width of the usual card: most fit, a few very long designations are made smaller.
pub(super) fn usual_width(cards: &[Card], troubled: bool) -> f64 {
    let stations = cards.iter().filter(|card| card.kind != CardKind::Supply);
    let mut widths: Vec<f64> = stations.map(wanted_width).collect();
    widths.sort_by(f64::total_cmp);
    let most = widths.get(widths.len().saturating_sub(1) * 95 / 100).copied().unwrap_or(0.0);
    most.clamp(if troubled { 29.0 } else { 25.0 }, 38.0)
}

/// The words of a card's trouble in lines, where the card is so wide: one where they fit, a little smaller if need be.
pub(super) fn trouble_lines(card: &Card, width: f64) -> Vec<String> {
    let Some(trouble) = &card.trouble else { return Vec::new() };
    let room = width - left_of(card) - RIGHT_PAD_MM - MARK_MM - 0.8;
    if text_width_mm(&trouble.words, LEAST_MM, true) <= room {
        return vec![trouble.words.clone()];
    }
    wrapped(&trouble.words, SMALL_MM, true, room)
}

/// Where the lettering of a card begins.
fn left_of(card: &Card) -> f64 {
    if card.step.is_some() { INDENT_MM } else { 2.0 }
}

/// Draws a card with its left upper corner at `corner`.
pub(super) fn draw(card: &Card, corner: Point, size: (f64, f64), terminals: &[CardTerminal]) -> Group {
    let (x, y) = corner;
    let (width, height) = size;
    let mut group = Group::of_element("device", card.element.clone(), card.title.clone());
    let outline = match &card.trouble {
        _ if card.double.is_some() => Stroke::solid(Ink::Trouble, 0.7),
        Some(Trouble { severity: Severity::Error, .. }) => Stroke::solid(Ink::Trouble, 0.7),
        Some(Trouble { severity: Severity::Warning, .. }) => Stroke::solid(Ink::Doubt, 0.5),
        _ if card.step == Some(Step::Below) => Stroke::solid(Ink::Trouble, 0.5),
        _ => Stroke::solid(Ink::Outline, 0.3),
    };
    let heavy = matches!(card.kind, CardKind::Supply | CardKind::Distributor);
    let outline = if heavy && outline.ink == Ink::Outline { Stroke::solid(Ink::Wire, 0.5) } else { outline };
    group.rectangle(Layer::Device, Area::new(x, y, width, height), 0.8, Some(outline), Some(Ink::Inside));
    if let Some(step) = card.step {
        // Boxes print the numbers of their ports in the lowest row.
        let printed = terminals.iter().any(|terminal| terminal_word(*terminal).is_some());
        let below = if printed { 4.4 } else { 1.4 };
        let below = below + if card.double.is_some() { DOUBLE_STRIP_MM } else { 0.0 };
        gauge(&mut group, (x + 1.3, y + 1.4), height - 1.4 - below, step);
    }
    let left = x + left_of(card);
    let right = x + width - RIGHT_PAD_MM;
    let at = (right - symbols::SYMBOL_MM, y + 1.3);
    let first = group.nodes.len();
    symbol(&mut group, card.kind, at);
    group.role.block = Some(Block {
        name: card.kind.block(),
        at,
        scale: 1.0,
        nodes: first..group.nodes.len(),
        attributes: attributes(card),
    });
    let room = right - symbols::SYMBOL_MM - 1.0 - left;
    group.text(Layer::Lettering, fitted((left, y + 4.4), &card.element, NAME_MM, LEAST_MM, true, room));
    let margin_width = text_width_mm(&card.margin, SMALL_MM, false);
    if !card.margin.is_empty() {
        let margin = Text::new((right, y + 8.6), card.margin.clone(), SMALL_MM).anchored(Anchor::End);
        let failing = card.step == Some(Step::Below);
        group.text(Layer::Lettering, margin.ink(if failing { Ink::Trouble } else { Ink::Quiet }));
    }
    let gap = if card.margin.is_empty() { 0.0 } else { 1.0 };
    let room = right - left - margin_width - gap;
    group.text(Layer::Lettering, fitted((left, y + 8.6), &card.figure, FIGURE_MM, LEAST_MM, false, room));
    // Without a figure, nothing stands in the second line.
    let baseline = if card.figure.is_empty() { 8.6 } else { 12.2 };
    let run = fitted((left, y + baseline), &card.run, SMALL_MM, LEAST_MM, false, right - left);
    group.text(Layer::Lettering, run.ink(Ink::Quiet));
    if let Some(trouble) = &card.trouble {
        trouble_words(&mut group, trouble.severity, &trouble_lines(card, width), (left, y + 13.4), right);
    }
    if let Some(double) = &card.double {
        let strip = Area::new(x + 0.6, y + height - DOUBLE_STRIP_MM - 0.6, width - 1.2, DOUBLE_STRIP_MM);
        double_strip(&mut group, strip, double, DOUBLE_MM);
    }
    for terminal in terminals {
        let at = x + terminal_x(terminals, *terminal, width);
        group.circle(Layer::Wiring, (at, y + height), 0.6, None, Some(Ink::Wire));
        if let Some(word) = terminal_word(*terminal) {
            let word = Text::new((at, y + height - 1.2), word, 2.0).anchored(Anchor::Middle);
            group.text(Layer::Lettering, word.ink(Ink::Quiet));
        }
    }
    group
}

/// What CAD reads of a device.
fn attributes(card: &Card) -> Vec<Attribute> {
    [("DESIGNATION", &card.element), ("MODEL", &card.model), ("ADDRESS", &card.address)]
        .map(|(tag, value)| Attribute { tag, value: value.clone() })
        .to_vec()
}

fn trouble_words(group: &mut Group, severity: Severity, lines: &[String], (left, top): Point, right: f64) {
    mark(group, severity, (left, top), MARK_MM);
    let room = right - left - MARK_MM - 0.8;
    for (number, line) in lines.iter().enumerate() {
        let at = (left + MARK_MM + 0.8, top + 2.3 + number as f64 * TROUBLE_LINE_MM);
        let words = fitted(at, line, SMALL_MM, LEAST_MM, true, room);
        group.text(Layer::Trouble, words.ink(ink_of(severity)));
    }
}

/// The mark of a severity.
pub(super) fn mark(group: &mut Group, severity: Severity, corner: Point, size: f64) {
    match severity {
        Severity::Error => symbols::error_mark(group, corner, size),
        Severity::Warning => symbols::warning_mark(group, corner, size),
        Severity::Advice => symbols::advice_mark(group, corner, size),
    }
}

/// The lettering colour of a severity.
pub(super) fn ink_of(severity: Severity) -> Ink {
    match severity {
        Severity::Error => Ink::Trouble,
        Severity::Warning => Ink::Doubt,
        Severity::Advice => Ink::Quiet,
    }
}

/// A gauge of four cells: the more are filled, the more voltage is in hand. Below the limit the one
/// cell that is filled is crossed out.
pub(super) fn gauge(group: &mut Group, corner: Point, height: f64, step: Step) {
    const WIDTH_MM: f64 = 1.9;
    const GAP_MM: f64 = 0.45;
    let cell = (height - 3.0 * GAP_MM) / 4.0;
    let (ink, filled) = match step {
        Step::Below => (Ink::ScaleBelow, 1),
        Step::Thin => (Ink::ScaleThin, 2),
        Step::Fair => (Ink::ScaleFair, 3),
        Step::Ample => (Ink::ScaleAmple, 4),
    };
    for number in 0..4 {
        let top = corner.1 + (3 - number) as f64 * (cell + GAP_MM);
        let area = Area::new(corner.0, top, WIDTH_MM, cell);
        let fill = if number < filled { ink } else { Ink::Inside };
        group.rectangle(Layer::Scale, area, 0.0, Some(Stroke::solid(ink, 0.2)), Some(fill));
        if step == Step::Below && number == 0 {
            let line = Stroke::solid(Ink::Paper, 0.3);
            group.line(Layer::Scale, (area.x, area.y), (area.right(), area.bottom()), line);
            group.line(Layer::Scale, (area.right(), area.y), (area.x, area.bottom()), line);
        }
    }
}

/// The symbol of a kind of device.
pub(super) fn symbol(group: &mut Group, kind: CardKind, corner: Point) {
    match kind {
        CardKind::Supply => symbols::supply(group, corner),
        CardKind::Distributor => symbols::distributor(group, corner),
        CardKind::BranchBox => symbols::branch_box(group, corner),
        CardKind::Door => symbols::door(group, corner),
        CardKind::Management => symbols::management(group, corner),
        CardKind::VideoStation => symbols::video(group, corner),
        CardKind::AudioStation => symbols::audio(group, corner),
    }
}

/// The designation of a terminal, if it has one: the same in every language, as in schedules and on labels.
pub(super) fn terminal_word(terminal: CardTerminal) -> Option<String> {
    match terminal {
        CardTerminal::Input => Some(String::from("in")),
        CardTerminal::Link => Some(String::from("link")),
        CardTerminal::Port(port) => Some(port.to_string()),
        CardTerminal::Loose(_) => None,
    }
}
