//! A picture in the making, and what every picture has.

use crate::palette::Ink;
use crate::scene::{Anchor, Area, Group, Layer, Stroke};
use crate::sheet::fitted;

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
    Stroke::solid(Ink::Wire, 0.35)
}

pub(super) fn thin() -> Stroke {
    Stroke::solid(Ink::Text, 0.3)
}

/// Frame and head of a picture: its name, what is drawn, and a line about it.
pub(super) fn head(group: &mut Group, area: Area, name: &str, title: &str, line: &str) {
    group.rectangle(Layer::Frame, area, 1.0, Some(Stroke::solid(Ink::Outline, 0.3)), None);
    let room = area.width - 6.0;
    group.text(Layer::Lettering, fitted((3.0, 5.6), name, 4.2, 2.6, true, room));
    group.text(Layer::Lettering, fitted((3.0, 9.8), title, 2.6, 2.0, false, room).ink(Ink::Quiet));
    group.text(Layer::Lettering, fitted((3.0, 13.4), line, 2.6, 2.0, false, room).ink(Ink::Quiet));
}

/// What gives power or reads, as a box at the left with up to three lines of words.
pub(super) fn source_box(group: &mut Group, area: Area, lines: &[String]) {
    group.rectangle(Layer::Device, area, 0.0, Some(thin()), Some(Ink::Inside));
    let first = area.y + area.height / 2.0 + 1.0 - 3.4 * (lines.len().saturating_sub(1)) as f64 / 2.0;
    for (index, line) in lines.iter().enumerate() {
        let at = (area.x + area.width / 2.0, first + 3.4 * index as f64);
        let text = fitted(at, line, 2.4, 1.8, false, area.width - 2.0);
        group.text(Layer::Lettering, text.anchored(Anchor::Middle));
    }
}
