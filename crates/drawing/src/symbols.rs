//! Symbols of devices, in a square of four millimetres.
//!
//! Supply, junction and push button follow the ideas of IEC 60617 (a converter is a square with a
//! diagonal, alternating on one side and direct on the other; a push button is a circle in a
//! circle); the others are plain pictures of our own, explained in the legend.

use latchline_scene::palette::Ink;
use latchline_scene::{Area, Group, Layer, Pen, Point, Shape, Stroke};

/// Edge of the square that a symbol takes.
pub(crate) const SYMBOL_MM: f64 = 4.0;

fn stroke() -> Stroke {
    Stroke::solid(Ink::Text, Pen::Thin)
}

/// A supply: converter from alternating to direct current.
pub(crate) fn supply(group: &mut Group, (x, y): Point) {
    group.rectangle(Layer::Device, Area::new(x, y, 4.0, 4.0), 0.0, Some(stroke()), Some(Ink::Inside));
    group.line(Layer::Device, (x, y + 4.0), (x + 4.0, y), stroke());
    for (centre, from, to) in [(x + 0.9, 0.0, 180.0), (x + 1.7, 180.0, 360.0)] {
        let shape = Shape::Arc { centre: (centre, y + 1.1), radius: 0.4, from_degrees: from, to_degrees: to };
        group.shape(Layer::Device, shape, Some(stroke()), None);
    }
    for line in [2.8, 3.3] {
        group.line(Layer::Device, (x + 2.2, y + line), (x + 3.6, y + line), stroke());
    }
}

/// A distributor: one in, several out.
pub(crate) fn distributor(group: &mut Group, (x, y): Point) {
    group.rectangle(Layer::Device, Area::new(x, y, 4.0, 4.0), 0.0, Some(stroke()), Some(Ink::Inside));
    group.line(Layer::Device, (x + 2.0, y), (x + 2.0, y + 1.6), stroke());
    group.line(Layer::Device, (x + 0.8, y + 1.6), (x + 3.2, y + 1.6), stroke());
    for out in [0.8, 2.0, 3.2] {
        group.line(Layer::Device, (x + out, y + 1.6), (x + out, y + 4.0), stroke());
    }
}

/// A branch box: a junction box with a branch.
pub(crate) fn branch_box(group: &mut Group, (x, y): Point) {
    group.circle(Layer::Device, (x + 2.0, y + 2.0), 1.9, Some(stroke()), Some(Ink::Inside));
    group.line(Layer::Device, (x + 0.1, y + 2.0), (x + 3.9, y + 2.0), stroke());
    group.line(Layer::Device, (x + 2.0, y + 2.0), (x + 2.0, y + 3.9), stroke());
    group.circle(Layer::Device, (x + 2.0, y + 2.0), 0.45, None, Some(Ink::Text));
}

/// A door station: a push button.
pub(crate) fn door(group: &mut Group, (x, y): Point) {
    group.circle(Layer::Device, (x + 2.0, y + 2.0), 1.9, Some(stroke()), Some(Ink::Inside));
    group.circle(Layer::Device, (x + 2.0, y + 2.0), 0.9, Some(stroke()), None);
}

/// A management station: a desk set with keys.
pub(crate) fn management(group: &mut Group, (x, y): Point) {
    group.rectangle(Layer::Device, Area::new(x, y + 0.6, 4.0, 3.0), 0.3, Some(stroke()), Some(Ink::Inside));
    for column in [1.0, 2.0, 3.0] {
        for row in [1.6, 2.6] {
            group.circle(Layer::Device, (x + column, y + row), 0.25, None, Some(Ink::Text));
        }
    }
}

/// A video station: a screen with its foot line.
pub(crate) fn video(group: &mut Group, (x, y): Point) {
    group.rectangle(Layer::Device, Area::new(x, y + 0.4, 4.0, 3.2), 0.4, Some(stroke()), Some(Ink::Inside));
    group.rectangle(Layer::Device, Area::new(x + 0.6, y + 1.0, 2.8, 1.6), 0.0, Some(stroke()), None);
    group.line(Layer::Device, (x + 1.4, y + 3.1), (x + 2.6, y + 3.1), stroke());
}

/// An audio station: an upright set with the slots of its loudspeaker.
pub(crate) fn audio(group: &mut Group, (x, y): Point) {
    group.rectangle(Layer::Device, Area::new(x + 0.7, y, 2.6, 4.0), 0.4, Some(stroke()), Some(Ink::Inside));
    for slot in [0.9, 1.5, 2.1] {
        group.line(Layer::Device, (x + 1.3, y + slot), (x + 2.7, y + slot), stroke());
    }
    group.circle(Layer::Device, (x + 2.0, y + 3.1), 0.3, None, Some(Ink::Text));
}

/// An error: a filled triangle with an exclamation mark.
pub(crate) fn error_mark(group: &mut Group, (x, y): Point, size: f64) {
    let corners = vec![(x, y + size * 0.93), (x + size / 2.0, y), (x + size, y + size * 0.93)];
    group.polygon(Layer::Trouble, corners, Ink::Trouble);
    let stem = Stroke::solid(Ink::Paper, Pen::Thin);
    let middle = x + size / 2.0;
    group.line(Layer::Trouble, (middle, y + size * 0.34), (middle, y + size * 0.62), stem);
    group.circle(Layer::Trouble, (middle, y + size * 0.77), size * 0.07, None, Some(Ink::Paper));
}

/// A warning: an open diamond with a bar.
pub(crate) fn warning_mark(group: &mut Group, (x, y): Point, size: f64) {
    let half = size / 2.0;
    let points = vec![(x + half, y), (x + size, y + half), (x + half, y + size), (x, y + half)];
    let line = Stroke::solid(Ink::Doubt, Pen::Thin);
    group.shape(Layer::Trouble, Shape::Path { points, closed: true }, Some(line), Some(Ink::Inside));
    group.line(Layer::Trouble, (x + half, y + size * 0.28), (x + half, y + size * 0.72), line);
}

/// Advice: an open circle with a dot.
pub(crate) fn advice_mark(group: &mut Group, (x, y): Point, size: f64) {
    let centre = (x + size / 2.0, y + size / 2.0);
    let line = Stroke::solid(Ink::Quiet, Pen::Thin);
    group.circle(Layer::Trouble, centre, size * 0.45, Some(line), Some(Ink::Inside));
    group.circle(Layer::Trouble, centre, size * 0.13, None, Some(Ink::Quiet));
}
