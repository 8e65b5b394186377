//! A picture in the making, and what every picture has.

use latchline_scene::font::{LADDER_MM, LEADING, wrapped};
use latchline_scene::palette::Ink;
use latchline_scene::{Anchor, Area, Group, Layer, Pen, Point, Stroke, Text};

/// A picture with its size, its left upper corner at the origin.
#[derive(Debug)]
pub(crate) struct Picture {
    /// What is drawn.
    pub(crate) group: Group,
    /// Width in millimetres.
    pub(crate) width_mm: f64,
    /// Height in millimetres.
    pub(crate) height_mm: f64,
    /// The same in words.
    pub(crate) words: String,
}

pub(super) fn wire() -> Stroke {
    Stroke::solid(Ink::Wire, Pen::Middle)
}

pub(super) fn thin() -> Stroke {
    Stroke::solid(Ink::Text, Pen::Thin)
}

/// Size of the name of a picture.
const NAME_MM: f64 = 4.6;
/// Height of a line of words.
pub(super) const LINE_MM: f64 = LADDER_MM * LEADING;
/// Words of a picture: all are read on a ladder.
#[derive(Clone, Copy)]
pub(super) struct Words {
    /// Where the first line begins, ends or has its middle.
    pub(super) at: Point,
    /// Which of these it is.
    pub(super) anchor: Anchor,
    /// Room for a line.
    pub(super) room_mm: f64,
    /// Bold weight.
    pub(super) bold: bool,
    /// Colour.
    pub(super) ink: Ink,
}

impl Words {
    /// From a left end.
    pub(super) fn from(at: Point, room_mm: f64) -> Self {
        Words { at, anchor: Anchor::Start, room_mm, bold: false, ink: Ink::Text }
    }

    /// About a middle.
    pub(super) fn about(at: Point, room_mm: f64) -> Self {
        Words { anchor: Anchor::Middle, ..Words::from(at, room_mm) }
    }

    /// To a right end.
    pub(super) fn to(at: Point, room_mm: f64) -> Self {
        Words { anchor: Anchor::End, ..Words::from(at, room_mm) }
    }

    /// In bold.
    pub(super) fn bold(self) -> Self {
        Words { bold: true, ..self }
    }

    /// In the quiet colour.
    pub(super) fn quiet(self) -> Self {
        Words { ink: Ink::Quiet, ..self }
    }

    /// Draws them in as many lines as they take; gives where words below them stand.
    pub(super) fn draw(self, group: &mut Group, words: &str) -> Words {
        let mut next = self;
        for line in wrapped(words, LADDER_MM, self.bold, self.room_mm) {
            let mut text = Text::new(next.at, line, LADDER_MM).anchored(self.anchor).ink(self.ink);
            text.bold = self.bold;
            group.text(Layer::Lettering, text);
            next.at.1 += LINE_MM;
        }
        next
    }
}

/// Height of the head of a picture of this width.
pub(super) fn head_mm(width_mm: f64, name: &str, title: &str, line: &str) -> f64 {
    head(&mut Group::new("head"), Area::new(0.0, 0.0, width_mm, 0.0), name, title, line)
}

/// Frame and head of a picture: its name, what is drawn, and a line about it. Gives the height of the head.
pub(super) fn head(group: &mut Group, area: Area, name: &str, title: &str, line: &str) -> f64 {
    group.rectangle(Layer::Frame, area, 1.0, Some(Stroke::solid(Ink::Outline, Pen::Thin)), None);
    let room = area.width - 6.0;
    let mut y = 5.6;
    for line in wrapped(name, NAME_MM, true, room) {
        group.text(Layer::Lettering, Text::new((3.0, y), line, NAME_MM).bold());
        y += NAME_MM * LEADING;
    }
    let title = Words::from((3.0, y), room).quiet().draw(group, title);
    title.draw(group, line).at.1 - LINE_MM + 3.0
}

/// What gives power or reads, as a box at the left with lines of words.
pub(super) fn source_box(group: &mut Group, area: Area, lines: &[String]) {
    group.rectangle(Layer::Device, area, 0.0, Some(thin()), Some(Ink::Inside));
    let room = area.width - 1.6;
    let count: usize = lines.iter().map(|line| wrapped(line, LADDER_MM, false, room).len()).sum();
    let first = area.y + area.height / 2.0 + 1.2 - LINE_MM * (count.saturating_sub(1)) as f64 / 2.0;
    let mut words = Words::about((area.x + area.width / 2.0, first), room);
    for line in lines {
        words = words.draw(group, line);
    }
}
