//! One neutral picture on a sheet, in millimetres from its upper left corner, y downward.
//!
//! Everything that shows a picture makes a [`Scene`]; the formats ([`svg`](mod@svg),
//! [`dxf`](mod@dxf)) turn it into a file. A scene holds no engineering quantity, only shapes, text
//! and the names of the elements that they stand for.

mod area;
pub mod dxf;
pub mod font;
mod font_widths;
pub mod palette;
pub mod svg;
mod text;

pub use area::{Area, Point};
pub use palette::Palette;
pub use text::{Anchor, Text};

use latchline_finding::Language;
use palette::Ink;
use std::ops::Range;

/// What a layer is called in CAD and which class its shapes have in SVG.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// Edge of the sheet.
    Sheet,
    /// Frame, title block and legend.
    Frame,
    /// Buildings and floors.
    Building,
    /// Runs.
    Wiring,
    /// Supplies, boxes and stations.
    Device,
    /// Designations and figures.
    Lettering,
    /// The voltage scale.
    Scale,
    /// Everything that marks trouble.
    Trouble,
    /// Axes and grids of charts.
    Axis,
    /// Curves of charts.
    Curve,
}

impl Layer {
    /// Every layer in the order of declaration.
    pub const ALL: [Layer; 10] = [
        Layer::Sheet,
        Layer::Frame,
        Layer::Building,
        Layer::Wiring,
        Layer::Device,
        Layer::Lettering,
        Layer::Scale,
        Layer::Trouble,
        Layer::Axis,
        Layer::Curve,
    ];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Layer::Sheet => "sheet",
            Layer::Frame => "frame",
            Layer::Building => "building",
            Layer::Wiring => "wiring",
            Layer::Device => "device",
            Layer::Lettering => "lettering",
            Layer::Scale => "scale",
            Layer::Trouble => "trouble",
            Layer::Axis => "axis",
            Layer::Curve => "curve",
        }
    }
}

/// Widths of lines on paper: those of ISO 128-2 (series 0.25, 0.35, 0.5, 0.7 mm; from memory). A pen is no part of a picture: one that is
/// enlarged keeps it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pen {
    /// 0.25 mm.
    Thin,
    /// 0.35 mm.
    Middle,
    /// 0.5 mm.
    Thick,
    /// 0.7 mm.
    Heavy,
    /// 2 mm: a pale band under a line that is marked.
    Broad,
    /// Not seen, and on no paper: a broad line on a screen, for fingers and mice.
    Catch,
}

impl Pen {
    /// Width in millimetres.
    pub fn width_mm(self) -> f64 {
        f64::from(self.hundredths()) / 100.0
    }

    /// Width in hundredths of a millimetre.
    pub fn hundredths(self) -> u16 {
        match self {
            Pen::Thin => 25,
            Pen::Middle => 35,
            Pen::Thick => 50,
            Pen::Heavy => 70,
            Pen::Broad => 200,
            Pen::Catch => 320,
        }
    }
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    /// Colour.
    pub ink: Ink,
    /// Its width.
    pub pen: Pen,
    /// Line type.
    pub dash: Dash,
}

impl Stroke {
    /// A solid line.
    pub fn solid(ink: Ink, pen: Pen) -> Self {
        Self { ink, pen, dash: Dash::Solid }
    }

    /// The same line with another line type.
    #[must_use]
    pub fn dashed(self, dash: Dash) -> Self {
        Self { dash, ..self }
    }
}

/// Line types.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Dash {
    /// Unbroken.
    Solid,
    /// Dashes.
    Dashed,
    /// Dots.
    Dotted,
    /// Dash and dot in turn, for match lines.
    DashDot,
}

impl Dash {
    /// Lengths of line and gap in turn, in millimetres; nothing for an unbroken line.
    pub fn lengths_mm(self) -> &'static [f64] {
        match self {
            Dash::Solid => &[],
            Dash::Dashed => &[1.8, 1.0],
            Dash::Dotted => &[0.4, 0.9],
            Dash::DashDot => &[4.0, 1.0, 0.6, 1.0],
        }
    }
}

/// A shape.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// Straight pieces from point to point, closed to an area or not.
    Path {
        /// The corners.
        points: Vec<Point>,
        /// Whether the last joins the first.
        closed: bool,
    },
    /// Several rectangles that are filled as one, without seams: the squares of a code.
    Areas(Vec<Area>),
    /// A rectangle, with rounded corners if the radius is not zero.
    Rectangle {
        /// Where.
        area: Area,
        /// Radius of its corners.
        radius: f64,
    },
    /// A circle.
    Circle {
        /// Centre.
        centre: Point,
        /// Radius.
        radius: f64,
    },
    /// Part of a circle, anticlockwise as seen, in degrees from the positive x axis.
    Arc {
        /// Centre.
        centre: Point,
        /// Radius.
        radius: f64,
        /// Where it starts.
        from_degrees: f64,
        /// Where it ends.
        to_degrees: f64,
    },
}

/// A shape with its looks.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// The shape.
    pub shape: Shape,
    /// Its outline.
    pub stroke: Option<Stroke>,
    /// Its inside.
    pub fill: Option<Ink>,
    /// Its layer.
    pub layer: Layer,
}

/// A part of a scene.
#[derive(Debug, Clone, PartialEq)]
pub enum Node {
    /// A shape.
    Item(Item),
    /// A text with its layer.
    Text(Text, Layer),
    /// Parts that belong together.
    Group(Group),
}

/// What is read of a device, or of a sheet, in CAD.
#[derive(Debug, Clone, PartialEq)]
pub struct Attribute {
    /// Its tag.
    pub tag: &'static str,
    /// Its value; empty where there is none.
    pub value: String,
    /// The text of the group that shows it, by its index there; kept without being shown where there is none.
    pub node: Option<usize>,
}

/// The symbol of a device, or the title block of a sheet, which CAD places as a block with attributes.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// Name of the block: the same for all that look alike.
    pub name: &'static str,
    /// Where its origin lies.
    pub at: Point,
    /// How many times larger it is drawn than it is defined.
    pub scale: f64,
    /// Which nodes of the group are the block.
    pub nodes: Range<usize>,
    /// What is read of it.
    pub attributes: Vec<Attribute>,
}

/// What a group stands for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Role {
    /// One word for what it is ("station", "run", "legend"); becomes its class.
    pub kind: &'static str,
    /// The designation of the element that it shows, each element in one group of one sheet only.
    pub element: Option<String>,
    /// The designation of an element that it shows a further part of.
    pub continues: Option<String>,
    /// Title for those who cannot see it, or point at it.
    pub title: Option<String>,
    /// The device that it shows, as CAD places it.
    pub block: Option<Block>,
}

/// Parts that belong together.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Group {
    /// What they stand for.
    pub role: Role,
    /// The parts, drawn in order.
    pub nodes: Vec<Node>,
}

impl Group {
    /// An empty group of this kind.
    pub fn new(kind: &'static str) -> Self {
        Self { role: Role { kind, ..Role::default() }, nodes: Vec::new() }
    }

    /// An empty group that shows this element.
    pub fn of_element(kind: &'static str, element: impl Into<String>, title: impl Into<String>) -> Self {
        let role = Role { kind, element: Some(element.into()), title: Some(title.into()), ..Role::default() };
        Self { role, nodes: Vec::new() }
    }

    /// Adds a shape.
    pub fn shape(&mut self, layer: Layer, shape: Shape, stroke: Option<Stroke>, fill: Option<Ink>) {
        self.nodes.push(Node::Item(Item { shape, stroke, fill, layer }));
    }

    /// Adds an open path.
    pub fn path(&mut self, layer: Layer, points: Vec<Point>, stroke: Stroke) {
        self.shape(layer, Shape::Path { points, closed: false }, Some(stroke), None);
    }

    /// Adds one straight line.
    pub fn line(&mut self, layer: Layer, from: Point, to: Point, stroke: Stroke) {
        self.path(layer, vec![from, to], stroke);
    }

    /// Adds a filled polygon.
    pub fn polygon(&mut self, layer: Layer, points: Vec<Point>, fill: Ink) {
        self.shape(layer, Shape::Path { points, closed: true }, None, Some(fill));
    }

    /// Adds a rectangle.
    pub fn rectangle(
        &mut self,
        layer: Layer,
        area: Area,
        radius: f64,
        stroke: Option<Stroke>,
        fill: Option<Ink>,
    ) {
        self.shape(layer, Shape::Rectangle { area, radius }, stroke, fill);
    }

    /// Adds a circle.
    pub fn circle(
        &mut self,
        layer: Layer,
        centre: Point,
        radius: f64,
        stroke: Option<Stroke>,
        fill: Option<Ink>,
    ) {
        self.shape(layer, Shape::Circle { centre, radius }, stroke, fill);
    }

    /// Adds a text.
    pub fn text(&mut self, layer: Layer, text: Text) {
        self.nodes.push(Node::Text(text, layer));
    }

    /// Adds a group.
    pub fn group(&mut self, group: Group) {
        self.nodes.push(Node::Group(group));
    }

    /// Enlarges by `factor` about the origin, then moves. Pens keep their width.
    pub fn transform(&mut self, factor: f64, shift: Point) {
        let point = |p: Point| (p.0 * factor + shift.0, p.1 * factor + shift.1);
        let scale = |area: &mut Area| {
            let corner = point((area.x, area.y));
            *area = Area::new(corner.0, corner.1, area.width * factor, area.height * factor);
        };
        if let Some(block) = &mut self.role.block {
            block.at = point(block.at);
            block.scale *= factor;
        }
        for node in &mut self.nodes {
            match node {
                Node::Group(group) => group.transform(factor, shift),
                Node::Text(text, _) => {
                    text.at = point(text.at);
                    text.size_mm *= factor;
                }
                Node::Item(item) => match &mut item.shape {
                    Shape::Path { points, .. } => points.iter_mut().for_each(|p| *p = point(*p)),
                    Shape::Areas(areas) => areas.iter_mut().for_each(scale),
                    Shape::Rectangle { area, radius } => {
                        scale(area);
                        *radius *= factor;
                    }
                    Shape::Circle { centre, radius } | Shape::Arc { centre, radius, .. } => {
                        *centre = point(*centre);
                        *radius *= factor;
                    }
                },
            }
        }
    }

    /// Calls `visit` for every shape and text, in drawing order.
    pub fn visit<'a>(&'a self, visit: &mut dyn FnMut(&'a Node)) {
        for node in &self.nodes {
            match node {
                Node::Group(group) => group.visit(visit),
                other => visit(other),
            }
        }
    }

    /// The designations of the elements that are shown here, in drawing order.
    pub fn elements(&self) -> Vec<&str> {
        let mut found: Vec<&str> = self.role.element.as_deref().into_iter().collect();
        for node in &self.nodes {
            if let Node::Group(group) = node {
                found.extend(group.elements());
            }
        }
        found
    }
}

/// One sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// Width of the sheet in millimetres.
    pub width_mm: f64,
    /// Height of the sheet in millimetres.
    pub height_mm: f64,
    /// Title.
    pub title: String,
    /// What can be seen, in a few sentences, for those who cannot.
    pub description: String,
    /// Language of title, description and lettering.
    pub language: Language,
    /// The picture.
    pub root: Group,
}

impl Scene {
    /// Everything that is lettered on it, in the order in which it is drawn.
    pub fn lettering(&self) -> Vec<&str> {
        let mut all = Vec::new();
        self.root.visit(&mut |node| {
            if let Node::Text(text, _) = node {
                all.push(text.text.as_str());
            }
        });
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_box_of_an_upward_text_is_turned() {
        let text = Text::new((10.0, 20.0), "AAAA", 3.0);
        let flat = text.area();
        let turned = text.clone().upward().area();
        assert!((flat.width - turned.height).abs() < 1e-9 && (flat.height - turned.width).abs() < 1e-9);
        assert!((turned.bottom() - 20.0).abs() < 1e-9, "starts at its anchor and rises");
        assert!(turned.x < 10.0 && turned.right() > 10.0);
    }

    #[test]
    fn transforming_moves_and_scales_everything() {
        let mut group = Group::new("test");
        group.rectangle(Layer::Device, Area::new(1.0, 2.0, 3.0, 4.0), 1.0, None, Some(Ink::Paper));
        group.text(Layer::Lettering, Text::new((1.0, 1.0), "a", 2.0));
        group.transform(2.0, (10.0, 20.0));
        let Node::Item(Item { shape: Shape::Rectangle { area, radius }, .. }) = &group.nodes[0] else {
            panic!()
        };
        assert_eq!((*area, *radius), (Area::new(12.0, 24.0, 6.0, 8.0), 2.0));
        let Node::Text(text, _) = &group.nodes[1] else { panic!() };
        assert_eq!((text.at, text.size_mm), ((12.0, 22.0), 4.0));
    }
}
