//! How a card looks.

use super::card::{Card, CardKind, Trouble};
use super::route::{CardEnd, CardTerminal, EndPlace, terminal_x};
use crate::sheet::{double_strip, fitted};
use crate::symbols;
use latchline_assess::MarginStep as Step;
use latchline_finding::Severity;
use latchline_scene::font::{LEAST_MM, text_width_mm, wrapped};
use latchline_scene::palette::Ink;
use latchline_scene::{Anchor, Area, Attribute, Block, Group, Layer, Pen, Point, Stroke, Text};

/// From the left edge to the lettering: the gauge stands there.
const INDENT_MM: f64 = 4.6;
const RIGHT_PAD_MM: f64 = 1.4;
/// No card is narrower.
const LEAST_WIDTH_MM: f64 = 25.0;
const NAME_MM: f64 = 3.4;
const FIGURE_MM: f64 = 3.0;
const SMALL_MM: f64 = LEAST_MM;
/// Baselines, from the top of a card.
const NAME_AT_MM: f64 = 4.6;
const MODEL_AT_MM: f64 = 8.2;
const FIGURE_AT_MM: f64 = 12.2;
const RUN_AT_MM: f64 = 15.9;
/// Top of what is said of a trouble.
const TROUBLE_AT_MM: f64 = 17.0;
/// Height of the row with the marks of the terminals.
pub(super) const MARKS_MM: f64 = 4.0;
/// From the lower edge of a card up to a line between neighbours, and to the baseline of marks.
pub(super) const BESIDE_MM: f64 = 2.1;
const MARK_BASELINE_MM: f64 = 1.2;
const MARK_MM: f64 = 2.6;
/// From one line of a trouble to the next.
const TROUBLE_LINE_MM: f64 = 3.2;
/// Height of the strip that says that a number is double, and of its lettering.
const DOUBLE_STRIP_MM: f64 = 4.8;
const DOUBLE_MM: f64 = 3.4;

/// Height that a card of this width needs: its trouble may need several lines.
pub(super) fn height(card: &Card, width: f64) -> f64 {
    let trouble = match trouble_lines(card, width).len() {
        0 => 0.0,
        lines => 3.6 + (lines - 1) as f64 * TROUBLE_LINE_MM,
    };
    RUN_AT_MM + 0.7 + MARKS_MM + trouble + if card.double.is_some() { DOUBLE_STRIP_MM + 0.8 } else { 0.0 }
}

/// Width below which something on this card would have to be left out.
pub(super) fn least_width(card: &Card) -> f64 {
    let words = |text: &str, bold: bool| text_width_mm(text, LEAST_MM, bold);
    let name = words(&card.element, true) + symbols::SYMBOL_MM + 1.6;
    let margin = if card.margin.is_empty() { 0.0 } else { words(&card.margin, false) + 1.8 };
    let double = card.double.as_ref().map_or(0.0, |text| words(text, true) + RIGHT_PAD_MM - INDENT_MM);
    let lines = [
        name,
        words(&card.model_line(), false),
        words(&card.figure, false) + margin,
        words(&card.run, false),
    ];
    INDENT_MM + RIGHT_PAD_MM + lines.into_iter().fold(double, f64::max)
}

/// Width at which nothing on this card has to be made smaller.
pub(super) fn wanted_width(card: &Card) -> f64 {
    let trouble = card
        .trouble
        .as_ref()
        .map_or(0.0, |trouble| text_width_mm(&trouble.words, SMALL_MM, true) + MARK_MM + 0.8);
    let double = card
        .double
        .as_ref()
        .map_or(0.0, |words| text_width_mm(words, DOUBLE_MM, true) + RIGHT_PAD_MM - INDENT_MM);
    plain_width(card).max(INDENT_MM + RIGHT_PAD_MM + trouble.max(double))
}

/// The same without what is said of a trouble.
fn plain_width(card: &Card) -> f64 {
    let name = text_width_mm(&card.element, NAME_MM, true) + symbols::SYMBOL_MM + 1.6;
    let model = text_width_mm(&card.model_line(), SMALL_MM, false);
    let margin =
        if card.margin.is_empty() { 0.0 } else { text_width_mm(&card.margin, SMALL_MM, false) + 1.8 };
    let figure = text_width_mm(&card.figure, FIGURE_MM, false) + margin;
    let run = text_width_mm(&card.run, SMALL_MM, false);
    INDENT_MM + RIGHT_PAD_MM + name.max(model).max(figure).max(run)
}

/// Width of the usual card: most fit, a few very long designations are made smaller.
pub(super) fn usual_width(cards: &[Card]) -> f64 {
    let stations = cards.iter().filter(|card| card.kind != CardKind::Supply);
    // One with a trouble is as wide as that asks for itself.
    let mut widths: Vec<f64> = stations.map(plain_width).collect();
    widths.sort_by(f64::total_cmp);
    let most = widths.get(widths.len().saturating_sub(1) * 95 / 100).copied().unwrap_or(0.0);
    most.clamp(LEAST_WIDTH_MM, 38.0)
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
pub(super) fn draw(
    card: &Card,
    corner: Point,
    size: (f64, f64),
    terminals: &[CardTerminal],
    ends: &[CardEnd],
) -> Group {
    let (x, y) = corner;
    let (width, height) = size;
    let mut group = Group::of_element("device", card.element.clone(), card.title.clone());
    let outline = match &card.trouble {
        _ if card.double.is_some() => Stroke::solid(Ink::Trouble, Pen::Heavy),
        Some(Trouble { severity: Severity::Error, .. }) => Stroke::solid(Ink::Trouble, Pen::Heavy),
        Some(Trouble { severity: Severity::Warning, .. }) => Stroke::solid(Ink::Doubt, Pen::Thick),
        _ if card.step == Some(Step::Below) => Stroke::solid(Ink::Trouble, Pen::Thick),
        _ => Stroke::solid(Ink::Outline, Pen::Thin),
    };
    let heavy = matches!(card.kind, CardKind::Supply | CardKind::Distributor);
    let outline =
        if heavy && outline.ink == Ink::Outline { Stroke::solid(Ink::Wire, Pen::Thick) } else { outline };
    group.rectangle(Layer::Device, Area::new(x, y, width, height), 0.8, Some(outline), Some(Ink::Inside));
    if let Some(step) = card.step {
        let below = MARKS_MM + if card.double.is_some() { DOUBLE_STRIP_MM } else { 0.0 };
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
        attributes: attributes(card, group.nodes.len()),
    });
    let room = right - symbols::SYMBOL_MM - 1.0 - left;
    group.text(Layer::Lettering, fitted((left, y + NAME_AT_MM), &card.element, NAME_MM, true, room));
    let model =
        fitted((left, y + MODEL_AT_MM), &card.model_line(), SMALL_MM, false, x + width - RIGHT_PAD_MM - left);
    group.text(Layer::Lettering, model.ink(Ink::Quiet));
    let margin_width = text_width_mm(&card.margin, SMALL_MM, false);
    if !card.margin.is_empty() {
        let margin =
            Text::new((right, y + FIGURE_AT_MM), card.margin.clone(), SMALL_MM).anchored(Anchor::End);
        let failing = card.step == Some(Step::Below);
        group.text(Layer::Lettering, margin.ink(if failing { Ink::Trouble } else { Ink::Quiet }));
    }
    let gap = if card.margin.is_empty() { 0.0 } else { 1.0 };
    let room = right - left - margin_width - gap;
    group.text(Layer::Lettering, fitted((left, y + FIGURE_AT_MM), &card.figure, FIGURE_MM, false, room));
    // Without a figure, nothing stands in its line.
    let baseline = if card.figure.is_empty() { FIGURE_AT_MM } else { RUN_AT_MM };
    let run = fitted((left, y + baseline), &card.run, SMALL_MM, false, right - left);
    group.text(Layer::Lettering, run.ink(Ink::Quiet));
    if let Some(trouble) = &card.trouble {
        trouble_words(
            &mut group,
            trouble.severity,
            &trouble_lines(card, width),
            (left, y + TROUBLE_AT_MM),
            right,
        );
    }
    if let Some(double) = &card.double {
        let strip = Area::new(x + 0.6, y + height - MARKS_MM - DOUBLE_STRIP_MM, width - 1.2, DOUBLE_STRIP_MM);
        double_strip(&mut group, strip, double, DOUBLE_MM);
    }
    draw_ends(&mut group, corner, size, terminals, ends);
    group
}

/// The terminals of a card with what is printed beside them on the device.
pub(super) fn draw_ends(
    group: &mut Group,
    (x, y): Point,
    (width, height): (f64, f64),
    terminals: &[CardTerminal],
    ends: &[CardEnd],
) {
    let baseline = y + height - MARK_BASELINE_MM;
    for end in ends {
        let (dot, words, anchor) = match end.place {
            EndPlace::Below(terminal) => {
                let at = x + terminal_x(terminals, terminal, width);
                ((at, y + height), at, Anchor::Middle)
            }
            EndPlace::Left => ((x, y + height - BESIDE_MM), x + 0.9, Anchor::Start),
            EndPlace::Right => ((x + width, y + height - BESIDE_MM), x + width - 0.9, Anchor::End),
        };
        group.circle(Layer::Wiring, dot, 0.6, None, Some(Ink::Wire));
        let mark = Text::new((words, baseline), end.mark.clone(), LEAST_MM).anchored(anchor);
        group.text(Layer::Lettering, mark);
    }
}

/// What CAD reads of a device whose name is the node with this index, and whose model the next.
fn attributes(card: &Card, name: usize) -> Vec<Attribute> {
    [
        ("DESIGNATION", &card.element, Some(name)),
        ("MODEL", &card.model_line(), Some(name + 1)),
        ("ADDRESS", &card.address, None),
    ]
    .map(|(tag, value, node)| Attribute { tag, value: value.clone(), node })
    .to_vec()
}

fn trouble_words(group: &mut Group, severity: Severity, lines: &[String], (left, top): Point, right: f64) {
    mark(group, severity, (left, top), MARK_MM);
    let room = right - left - MARK_MM - 0.8;
    for (number, line) in lines.iter().enumerate() {
        let at = (left + MARK_MM + 0.8, top + 2.3 + number as f64 * TROUBLE_LINE_MM);
        let words = fitted(at, line, SMALL_MM, true, room);
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
        group.rectangle(Layer::Scale, area, 0.0, Some(Stroke::solid(ink, Pen::Thin)), Some(fill));
        if step == Step::Below && number == 0 {
            let line = Stroke::solid(Ink::Paper, Pen::Thin);
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
