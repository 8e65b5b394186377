//! Marks and drawings as the operators of a page.

use crate::font::{Fonts, Used};
use crate::page::Mark;
use crate::pdf::content::{Colour, Content, Pen};
use latchline_scene::Palette;
use latchline_scene::palette::Ink;
use latchline_scene::{Anchor, Group, Item, Node, Scene, Shape, Text};

/// Draws one page.
pub(crate) struct Painter<'p> {
    pub(crate) content: Content,
    fonts: &'p Fonts,
    used: &'p mut Used,
}

impl<'p> Painter<'p> {
    pub(crate) fn new(height_mm: f64, fonts: &'p Fonts, used: &'p mut Used) -> Self {
        Painter { content: Content::new(height_mm), fonts, used }
    }

    /// Draws marks in order.
    pub(crate) fn marks(&mut self, marks: &[Mark]) {
        for mark in marks {
            match mark {
                Mark::Text { at, text, size_mm, bold, is_white } => {
                    let colour = Colour::Grey(if *is_white { 255 } else { 0 });
                    self.text(*at, text, (*size_mm, *bold), false, colour);
                }
                Mark::Line { from, to, width_mm } => {
                    self.content.polygon(&[*from, *to], false, None, Some(Pen::black(*width_mm)));
                }
                Mark::Rectangle { area, fill, outline_mm } => {
                    self.content.rectangle(*area, fill.map(Colour::Grey), outline_mm.map(Pen::black));
                }
            }
        }
    }

    /// A text from the left end of its baseline.
    pub(crate) fn text(
        &mut self,
        at: (f64, f64),
        text: &str,
        (size_mm, bold): (f64, bool),
        is_upward: bool,
        colour: Colour,
    ) {
        let set = self.fonts.set(text, bold, self.used);
        self.content.text(at, &set, size_mm, is_upward, colour);
    }

    /// Draws a drawing over the whole page.
    pub(crate) fn scene(&mut self, scene: &Scene) {
        self.group(&scene.root);
    }

    fn group(&mut self, group: &Group) {
        for node in &group.nodes {
            match node {
                Node::Group(inner) => self.group(inner),
                Node::Text(text, _) => self.scene_text(text),
                Node::Item(item) => self.item(item),
            }
        }
    }

    fn scene_text(&mut self, text: &Text) {
        let width = self.fonts.width_mm(&text.text, text.size_mm, text.bold);
        let back = match text.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => width / 2.0,
            Anchor::End => width,
        };
        let (x, y) = text.at;
        let at = if text.upward { (x, y + back) } else { (x - back, y) };
        self.text(at, &text.text, (text.size_mm, text.bold), text.upward, colour(text.ink));
    }

    fn item(&mut self, item: &Item) {
        let fill = item.fill.map(colour);
        let pen = item.stroke.map(|stroke| Pen {
            colour: colour(stroke.ink),
            width_mm: stroke.pen.width_mm(),
            dashes_mm: stroke.dash.lengths_mm(),
        });
        match &item.shape {
            Shape::Path { points, closed } => self.content.polygon(points, *closed, fill, pen),
            Shape::Areas(areas) => self.content.areas(areas, fill, pen),
            Shape::Rectangle { area, radius } => {
                let area = (area.x, area.y, area.width, area.height);
                if *radius > 0.0 {
                    self.content.rounded(area, *radius, fill, pen);
                } else {
                    self.content.rectangle(area, fill, pen);
                }
            }
            Shape::Circle { centre, radius } => self.content.arc(*centre, *radius, (0.0, 360.0), fill, pen),
            Shape::Arc { centre, radius, from_degrees, to_degrees } => {
                let sweep = (to_degrees - from_degrees).rem_euclid(360.0);
                self.content.arc(*centre, *radius, (*from_degrees, from_degrees + sweep), fill, pen);
            }
        }
    }
}

/// The colour of an ink on paper; those without hue as greys, and what is read or followed in black.
fn colour(ink: Ink) -> Colour {
    let [red, green, blue] = Palette::Light.rgb(ink);
    match ink {
        Ink::Text | Ink::Wire => Colour::BLACK,
        _ if red == green && green == blue => Colour::Grey(red),
        _ => Colour::Rgb([red, green, blue]),
    }
}
