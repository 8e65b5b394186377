//! Shapes and lettering as entities, in model space, in a block or on paper.

use super::layers::{self, Layers};
use super::pairs::Pairs;
use super::texts::encoded;
use crate::font::CAPITAL_EM;
use crate::palette::Ink;
use crate::{Anchor, Area, Dash, Item, Layer, Node, Pen, Point, Shape, Text};
use std::collections::BTreeMap;

/// Handle of the block record of model space, which owns what is drawn there.
pub(super) const MODEL_RECORD: u32 = 0x20;
/// The same of paper space.
pub(super) const PAPER_RECORD: u32 = 0x21;
/// Handles below are those of the structure.
const FIRST_HANDLE: u32 = 0x100;

/// A block that has been defined: its record and what lies in it.
pub(super) struct Definition {
    pub(super) record: u32,
    pub(super) begin: u32,
    pub(super) end: u32,
    pub(super) entities: String,
}

/// Where entities go, and how coordinates get there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Target {
    pub(super) owner: u32,
    pub(super) is_paper: bool,
    /// What lies at the origin, in coordinates of the scene.
    pub(super) origin: Point,
    /// How much smaller it is drawn than in the scene.
    pub(super) scale: f64,
}

/// A drawing in the making.
pub(super) struct Drawing {
    pub(super) out: Pairs,
    pub(super) layers: Layers,
    pub(super) blocks: BTreeMap<&'static str, Definition>,
    pub(super) target: Target,
    height: f64,
    next_handle: u32,
}

impl Drawing {
    pub(super) fn new(height: f64) -> Self {
        let target = Target { owner: MODEL_RECORD, is_paper: false, origin: (0.0, height), scale: 1.0 };
        Self {
            out: Pairs::default(),
            layers: Layers::new(),
            blocks: BTreeMap::new(),
            target,
            height,
            next_handle: FIRST_HANDLE,
        }
    }

    /// What follows goes onto the layout.
    pub(super) fn go_on_paper(&mut self) {
        self.target = Target { owner: PAPER_RECORD, is_paper: true, origin: (0.0, self.height), scale: 1.0 };
    }

    pub(super) fn new_handle(&mut self) -> u32 {
        self.next_handle += 1;
        self.next_handle - 1
    }

    /// A handle above all that were given.
    pub(super) fn handle_seed(&self) -> u32 {
        self.next_handle
    }

    /// Begins an entity and gives its handle.
    pub(super) fn entity(&mut self, kind: &str, layer: &str, class: &str) -> u32 {
        let handle = self.new_handle();
        self.entity_of(kind, layer, class, handle, self.target.owner);
        handle
    }

    pub(super) fn entity_of(&mut self, kind: &str, layer: &str, class: &str, handle: u32, owner: u32) {
        self.out.pair(0, kind);
        self.out.handle(5, handle);
        self.out.handle(330, owner);
        self.out.pair(100, "AcDbEntity");
        if self.target.is_paper {
            self.out.pair(67, "1");
        }
        self.out.pair(8, layer);
        if !class.is_empty() {
            self.out.pair(100, class);
        }
    }

    /// Coordinates in the target.
    pub(super) fn place(&self, point: Point) -> Point {
        let Target { origin, scale, .. } = self.target;
        ((point.0 - origin.0) / scale, (origin.1 - point.1) / scale)
    }

    fn point(&mut self, code: u16, point: Point) {
        let (x, y) = self.place(point);
        self.out.point(code, x, y);
    }

    /// A length in the target.
    fn length(&self, length: f64) -> f64 {
        length / self.target.scale
    }

    pub(super) fn node(&mut self, node: &Node) {
        match node {
            Node::Item(item) => self.item(item),
            Node::Text(text, layer) => self.text(text, *layer),
            Node::Group(_) => {}
        }
    }

    fn item(&mut self, item: &Item) {
        if let Some(fill) = item.fill {
            self.fill(item, fill);
        }
        let Some(stroke) = item.stroke else { return };
        let line = |drawing: &mut Self, kind: &str, class: &str| {
            let layer =
                layers::of_lines(&mut drawing.layers, item.layer, stroke.ink, stroke.dash, stroke.pen);
            drawing.entity(kind, &layer, class);
        };
        let mut polyline = |points: &[Point], closed| {
            self.polyline(item.layer, points, closed, stroke.ink, stroke.dash, stroke.pen)
        };
        match &item.shape {
            Shape::Path { points, closed: false } if points.len() == 2 => {
                line(self, "LINE", "AcDbLine");
                self.point(10, points[0]);
                self.point(11, points[1]);
            }
            Shape::Path { points, closed } => polyline(points, *closed),
            Shape::Areas(areas) => areas.iter().for_each(|area| polyline(&corners(*area), true)),
            Shape::Rectangle { area, .. } => polyline(&corners(*area), true),
            Shape::Circle { centre, radius } => {
                line(self, "CIRCLE", "AcDbCircle");
                self.point(10, *centre);
                self.out.number(40, self.length(*radius));
            }
            Shape::Arc { centre, radius, from_degrees, to_degrees } => {
                line(self, "ARC", "AcDbCircle");
                self.point(10, *centre);
                self.out.number(40, self.length(*radius));
                self.out.pair(100, "AcDbArc");
                self.out.number(50, from_degrees.rem_euclid(360.0));
                self.out.number(51, to_degrees.rem_euclid(360.0));
            }
        }
    }

    /// Filled parts that mean something; grounds and the inside of symbols stay empty in CAD.
    fn fill(&mut self, item: &Item, ink: Ink) {
        if matches!(ink, Ink::Paper | Ink::Band | Ink::Inside) {
            return;
        }
        match &item.shape {
            Shape::Areas(areas) => {
                areas.iter().for_each(|area| self.solid(item.layer, &corners(*area), ink));
            }
            Shape::Rectangle { area, .. } => self.solid(item.layer, &corners(*area), ink),
            Shape::Path { points, closed: true } => {
                // A fan of triangles; the filled shapes drawn here are convex.
                for pair in points.windows(2).skip(1) {
                    self.solid(item.layer, &[points[0], pair[0], pair[1]], ink);
                }
            }
            Shape::Circle { centre, radius } => {
                // Two half circles of a line as thick as the radius: the usual filled dot.
                let half = radius / 2.0;
                let layer = layers::of_fills(&mut self.layers, item.layer, ink);
                self.entity("LWPOLYLINE", &layer, "AcDbPolyline");
                self.out.pairs(&[(90, "2"), (70, "1")]);
                self.out.number(43, self.length(*radius));
                for x in [centre.0 - half, centre.0 + half] {
                    let (x, y) = self.place((x, centre.1));
                    self.out.flat(10, x, y);
                    self.out.number(42, 1.0);
                }
            }
            Shape::Path { .. } | Shape::Arc { .. } => {}
        }
    }

    /// A filled triangle or quadrangle; SOLID takes its third and fourth corner crosswise.
    fn solid(&mut self, layer: Layer, points: &[Point], ink: Ink) {
        let [first, second, third] = [points[0], points[1], points[2]];
        let fourth = points.get(3).copied();
        let layer = layers::of_fills(&mut self.layers, layer, ink);
        self.entity("SOLID", &layer, "AcDbTrace");
        self.point(10, first);
        self.point(11, second);
        self.point(12, fourth.unwrap_or(third));
        self.point(13, third);
    }

    pub(super) fn polyline(
        &mut self,
        layer: Layer,
        points: &[Point],
        closed: bool,
        ink: Ink,
        dash: Dash,
        pen: Pen,
    ) {
        let layer = layers::of_lines(&mut self.layers, layer, ink, dash, pen);
        self.entity("LWPOLYLINE", &layer, "AcDbPolyline");
        self.out.whole(90, points.len() as i64);
        // Patterns go on around corners (128): short pieces would else be unbroken.
        self.out.whole(70, i64::from(closed) + if dash == Dash::Solid { 0 } else { 128 });
        for point in points {
            let (x, y) = self.place(*point);
            self.out.flat(10, x, y);
        }
    }

    fn text(&mut self, text: &Text, layer: Layer) {
        if text.text.trim().is_empty() {
            return;
        }
        let layer = layers::of_fills(&mut self.layers, layer, text.ink);
        self.entity("TEXT", &layer, "AcDbText");
        self.lettering(text, &text.text);
        self.out.pair(100, "AcDbText");
    }

    /// Position, height, words and alignment of a text.
    pub(super) fn lettering(&mut self, text: &Text, words: &str) {
        self.point(10, text.at);
        self.out.number(40, self.length(text.size_mm * CAPITAL_EM));
        self.out.pair(1, &encoded(words));
        if text.upward {
            self.out.number(50, 90.0);
        }
        if text.bold {
            self.out.pair(7, "BOLD");
        }
        let alignment = match text.anchor {
            Anchor::Start => return,
            Anchor::Middle => "1",
            Anchor::End => "2",
        };
        self.out.pair(72, alignment);
        self.point(11, text.at);
    }
}

/// The corners of an area in turn.
pub(super) fn corners(area: Area) -> [Point; 4] {
    [(area.x, area.y), (area.right(), area.y), (area.right(), area.bottom()), (area.x, area.bottom())]
}
