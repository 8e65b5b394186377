//! Contacts, buttons, coils and suppressors.

use super::picture::{thin, wire};
use latchline_scene::font::LADDER_MM;
use latchline_scene::palette::Ink;
use latchline_scene::svg::on_circle;
use latchline_scene::{Anchor, Area, Dash, Group, Layer, Pen, Point, Shape, Stroke, Text};
use latchline_site::model::Suppression;

/// Half the distance between the two terminals of a contact.
pub(super) const HALF_MM: f64 = 4.0;

fn bold() -> Stroke {
    Stroke::solid(Ink::Text, Pen::Thick)
}

fn linkage() -> Stroke {
    thin().dashed(Dash::Dashed)
}

/// A contact about `centre`; the middle of its blade, for what moves it.
pub(super) fn contact(group: &mut Group, (x, y): Point, is_closed: bool) -> Point {
    let (from, to) = (x - HALF_MM, x + HALF_MM);
    let tip = if is_closed {
        // A break contact: the blade rests on a stop at the fixed side.
        group.line(Layer::Device, (to, y), (to, y - 2.6), thin());
        (to + 1.0, y - 2.6)
    } else {
        (to - 0.6, y - 3.6)
    };
    group.line(Layer::Device, (from, y), tip, bold());
    for end in [from, to] {
        group.circle(Layer::Device, (end, y), 0.5, Some(thin()), Some(Ink::Paper));
    }
    (x, (y + tip.1) / 2.0)
}

/// Marks of the terminals of a relay's contact: common and the far one.
pub(super) fn terminals(group: &mut Group, (x, y): Point, far: &str) {
    let common = Text::new((x - HALF_MM - 1.2, y - 1.2), "C", LADDER_MM).bold();
    group.text(Layer::Lettering, common.anchored(Anchor::End));
    group.text(Layer::Lettering, Text::new((x + HALF_MM + 1.9, y - 1.2), far, LADDER_MM).bold());
}

/// A push button's stem and head above a blade.
pub(super) fn button(group: &mut Group, (x, y): Point) {
    let head = y - 6.0;
    group.line(Layer::Device, (x, y), (x, head), linkage());
    let head = vec![(x - 1.8, head + 1.4), (x - 1.8, head), (x + 1.8, head), (x + 1.8, head + 1.4)];
    group.path(Layer::Device, head, bold());
}

/// An emergency release: a mushroom head.
pub(super) fn mushroom(group: &mut Group, (x, y): Point) {
    let head = y - 6.0;
    group.line(Layer::Device, (x, y), (x, head), linkage());
    let arc: Vec<Point> = (0..=12).map(|step| on_circle((x, head), 2.6, 15.0 * f64::from(step))).collect();
    group.polygon(Layer::Device, arc, Ink::Text);
}

/// The coil that moves a blade.
pub(super) fn coil(group: &mut Group, (x, y): Point) {
    let area = Area::new(x - 3.0, y - 9.7, 6.0, 3.6);
    group.line(Layer::Device, (x, area.bottom()), (x, y), linkage());
    group.rectangle(Layer::Device, area, 0.0, Some(thin()), Some(Ink::Inside));
    group.line(Layer::Device, (area.x, area.bottom()), (area.x + 2.0, area.y), thin());
}

/// What moves a blade from elsewhere, as a box with a word.
pub(super) fn driver(group: &mut Group, (x, y): Point, word: &str) {
    let area = Area::new(x - 8.0, y - 12.2, 16.0, 5.5);
    group.line(Layer::Device, (x, area.bottom()), (x, y), linkage());
    group.rectangle(Layer::Device, area, 0.0, Some(thin()), Some(Ink::Inside));
    let text = Text::new((x, area.y + 4.0), word, LADDER_MM).bold();
    group.text(Layer::Lettering, text.anchored(Anchor::Middle));
}

/// A joint of wires.
pub(super) fn joint(group: &mut Group, at: Point) {
    group.circle(Layer::Wiring, at, 0.6, None, Some(Ink::Wire));
}

/// A diode, clamp or varistor between two rails; the cathode is at the upper one.
pub(super) fn suppressor(group: &mut Group, fitted: Suppression, x: f64, rails: [f64; 2]) {
    let middle = (rails[0] + rails[1]) / 2.0;
    let (top, bottom) = (middle - 3.0, middle + 3.0);
    group.line(Layer::Wiring, (x, rails[0]), (x, top), wire());
    group.line(Layer::Wiring, (x, bottom), (x, rails[1]), wire());
    for rail in rails {
        joint(group, (x, rail));
    }
    match fitted {
        Suppression::None => {}
        Suppression::Diode => {
            triangle(group, (x, middle), 3.0);
            group.line(Layer::Device, (x - 2.4, top), (x + 2.4, top), Stroke::solid(Ink::Text, Pen::Thick));
        }
        Suppression::Clamp => {
            triangle(group, (x, middle), 3.0);
            let bent = vec![(x - 2.4, top + 1.2), (x - 2.4, top), (x + 2.4, top), (x + 2.4, top - 1.2)];
            group.path(Layer::Device, bent, Stroke::solid(Ink::Text, Pen::Thick));
        }
        Suppression::Varistor => {
            resistor(group, (x, middle));
            group.path(Layer::Device, vec![(x - 3.4, bottom), (x - 2.0, bottom), (x + 2.6, top)], thin());
        }
    }
}

/// A resistor, upright.
pub(super) fn resistor(group: &mut Group, (x, y): Point) {
    let area = Area::new(x - 1.3, y - 3.0, 2.6, 6.0);
    group.rectangle(Layer::Device, area, 0.0, Some(thin()), Some(Ink::Inside));
}

/// A filled triangle that points up.
fn triangle(group: &mut Group, (x, y): Point, half: f64) {
    let points = vec![(x, y - half), (x - 2.4, y + half), (x + 2.4, y + half)];
    group.shape(Layer::Device, Shape::Path { points, closed: true }, Some(thin()), Some(Ink::Text));
}
