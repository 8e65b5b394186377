//! A scene as DXF, release 12, in ASCII.
//!
//! R12 is the one release that every CAD program reads. It knows lines, polylines, circles, arcs,
//! filled quadrangles (SOLID) and single-line text, layers and line types, and index colours only.
//! Characters beyond ASCII are written as `\U+XXXX`, which readers of R12 files resolve. y grows upward, so
//! the picture is mirrored at the lower edge of the sheet; units are millimetres.

use crate::font::CAPITAL_EM;
use crate::palette::Ink;
use crate::scene::{Anchor, Area, Dash, Item, Layer, Node, Point, Scene, Shape, Text};
use std::fmt::Write as _;

/// The scene as a complete DXF file.
pub fn dxf(scene: &Scene) -> String {
    let mut file = Writer { out: String::with_capacity(64 * 1024), height: scene.height_mm };
    // A comment: by it a later run knows its own.
    file.pair(999, "latchline");
    file.header(scene);
    file.tables();
    file.pair(0, "SECTION");
    file.pair(2, "ENTITIES");
    let edge = Area::new(0.0, 0.0, scene.width_mm, scene.height_mm);
    file.polyline(Layer::Sheet, &corners(edge), true, Ink::Outline, Dash::Solid);
    scene.root.visit(&mut |node| match node {
        Node::Item(item) => file.item(item),
        Node::Text(text, layer) => file.text(text, *layer),
        Node::Group(_) => {}
    });
    file.pair(0, "ENDSEC");
    file.pair(0, "EOF");
    file.out
}

struct Writer {
    out: String,
    height: f64,
}

impl Writer {
    fn pair(&mut self, code: u16, value: &str) {
        let _ = write!(self.out, "{code}\n{value}\n");
    }

    fn number(&mut self, code: u16, value: f64) {
        let value = if value.is_finite() { value } else { 0.0 };
        let text = format!("{value:.4}");
        self.pair(code, if text == "-0.0000" { "0.0000" } else { &text });
    }

    /// A point under the codes `code` and `code + 10`.
    fn point(&mut self, code: u16, point: Point) {
        self.number(code, point.0);
        self.number(code + 10, self.height - point.1);
    }

    fn header(&mut self, scene: &Scene) {
        self.pair(0, "SECTION");
        self.pair(2, "HEADER");
        self.pair(9, "$ACADVER");
        self.pair(1, "AC1009");
        self.pair(9, "$DWGCODEPAGE");
        self.pair(3, "ANSI_1252");
        for (name, x, y) in [("$EXTMIN", 0.0, 0.0), ("$EXTMAX", scene.width_mm, scene.height_mm)] {
            self.pair(9, name);
            self.number(10, x);
            self.number(20, y);
            self.number(30, 0.0);
        }
        for (name, x, y) in [("$LIMMIN", 0.0, 0.0), ("$LIMMAX", scene.width_mm, scene.height_mm)] {
            self.pair(9, name);
            self.number(10, x);
            self.number(20, y);
        }
        self.pair(0, "ENDSEC");
    }

    fn tables(&mut self) {
        self.pair(0, "SECTION");
        self.pair(2, "TABLES");
        self.pair(0, "TABLE");
        self.pair(2, "LTYPE");
        self.pair(70, "4");
        let types: [(&str, &str, &[f64]); 4] = [
            ("CONTINUOUS", "Solid", &[]),
            ("DASHED", "Dashed", &[1.8, -1.0]),
            ("DOTTED", "Dotted", &[0.4, -0.9]),
            ("DASHDOT", "Dash dot", &[4.0, -1.0, 0.6, -1.0]),
        ];
        for (name, title, pattern) in types {
            self.pair(0, "LTYPE");
            self.pair(2, name);
            self.pair(70, "0");
            self.pair(3, title);
            self.pair(72, "65");
            self.pair(73, &pattern.len().to_string());
            self.number(40, pattern.iter().map(|length: &f64| length.abs()).sum());
            for length in pattern {
                self.number(49, *length);
            }
        }
        self.pair(0, "ENDTAB");
        self.pair(0, "TABLE");
        self.pair(2, "LAYER");
        self.pair(70, &(Layer::ALL.len() + 1).to_string());
        for name in ["0"].into_iter().chain(Layer::ALL.map(Layer::name)) {
            self.pair(0, "LAYER");
            self.pair(2, &name.to_ascii_uppercase());
            self.pair(70, "0");
            self.pair(62, "7");
            self.pair(6, "CONTINUOUS");
        }
        self.pair(0, "ENDTAB");
        self.pair(0, "TABLE");
        self.pair(2, "STYLE");
        self.pair(70, "2");
        for (name, font) in [("STANDARD", "arial.ttf"), ("BOLD", "arialbd.ttf")] {
            self.pair(0, "STYLE");
            self.pair(2, name);
            self.pair(70, "0");
            self.number(40, 0.0);
            self.number(41, 1.0);
            self.number(50, 0.0);
            self.pair(71, "0");
            self.number(42, 2.5);
            self.pair(3, font);
            self.pair(4, "");
        }
        self.pair(0, "ENDTAB");
        self.pair(0, "ENDSEC");
    }

    fn entity(&mut self, kind: &str, layer: Layer, ink: Ink, dash: Dash) {
        self.pair(0, kind);
        self.pair(8, &layer.name().to_ascii_uppercase());
        self.pair(62, &ink.aci().to_string());
        let line_type = match dash {
            Dash::Solid => return,
            Dash::Dashed => "DASHED",
            Dash::Dotted => "DOTTED",
            Dash::DashDot => "DASHDOT",
        };
        self.pair(6, line_type);
    }

    fn item(&mut self, item: &Item) {
        if let Some(fill) = item.fill {
            self.fill(item, fill);
        }
        let Some(stroke) = item.stroke else { return };
        match &item.shape {
            Shape::Path { points, closed: false } if points.len() == 2 => {
                self.entity("LINE", item.layer, stroke.ink, stroke.dash);
                self.point(10, points[0]);
                self.point(11, points[1]);
            }
            Shape::Path { points, closed } => {
                self.polyline(item.layer, points, *closed, stroke.ink, stroke.dash);
            }
            Shape::Areas(areas) => {
                for area in areas {
                    self.polyline(item.layer, &corners(*area), true, stroke.ink, stroke.dash);
                }
            }
            Shape::Rectangle { area, .. } => {
                self.polyline(item.layer, &corners(*area), true, stroke.ink, stroke.dash);
            }
            Shape::Circle { centre, radius } => {
                self.entity("CIRCLE", item.layer, stroke.ink, stroke.dash);
                self.point(10, *centre);
                self.number(40, *radius);
            }
            Shape::Arc { centre, radius, from_degrees, to_degrees } => {
                self.entity("ARC", item.layer, stroke.ink, stroke.dash);
                self.point(10, *centre);
                self.number(40, *radius);
                self.number(50, from_degrees.rem_euclid(360.0));
                self.number(51, to_degrees.rem_euclid(360.0));
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
                // Two half circles of a thick line: the usual filled dot of R12.
                let half = radius / 2.0;
                self.entity("POLYLINE", item.layer, ink, Dash::Solid);
                self.pair(66, "1");
                self.number(10, 0.0);
                self.number(20, 0.0);
                self.number(30, 0.0);
                self.pair(70, "1");
                self.number(40, *radius);
                self.number(41, *radius);
                for x in [centre.0 - half, centre.0 + half] {
                    self.entity("VERTEX", item.layer, ink, Dash::Solid);
                    self.point(10, (x, centre.1));
                    self.number(42, 1.0);
                }
                self.pair(0, "SEQEND");
            }
            Shape::Path { .. } | Shape::Arc { .. } => {}
        }
    }

    /// A filled triangle or quadrangle; SOLID takes its third and fourth corner crosswise.
    fn solid(&mut self, layer: Layer, points: &[Point], ink: Ink) {
        let [first, second, third] = [points[0], points[1], points[2]];
        let fourth = points.get(3).copied();
        self.entity("SOLID", layer, ink, Dash::Solid);
        self.point(10, first);
        self.point(11, second);
        self.point(12, fourth.unwrap_or(third));
        self.point(13, third);
    }

    fn polyline(&mut self, layer: Layer, points: &[Point], closed: bool, ink: Ink, dash: Dash) {
        self.entity("POLYLINE", layer, ink, dash);
        self.pair(66, "1");
        self.number(10, 0.0);
        self.number(20, 0.0);
        self.number(30, 0.0);
        self.pair(70, if closed { "1" } else { "0" });
        for point in points {
            self.entity("VERTEX", layer, ink, dash);
            self.point(10, *point);
        }
        self.pair(0, "SEQEND");
    }

    fn text(&mut self, text: &Text, layer: Layer) {
        if text.text.trim().is_empty() {
            return;
        }
        self.entity("TEXT", layer, text.ink, Dash::Solid);
        self.point(10, text.at);
        self.number(40, text.size_mm * CAPITAL_EM);
        self.pair(1, &encoded(&text.text));
        if text.upward {
            self.number(50, 90.0);
        }
        if text.bold {
            self.pair(7, "BOLD");
        }
        let alignment = match text.anchor {
            Anchor::Start => return,
            Anchor::Middle => "1",
            Anchor::End => "2",
        };
        self.pair(72, alignment);
        self.point(11, text.at);
    }
}

fn corners(area: Area) -> [Point; 4] {
    [(area.x, area.y), (area.right(), area.y), (area.right(), area.bottom()), (area.x, area.bottom())]
}

/// Text as R12 takes it: ASCII, with the signs that would start a code written as codes.
fn encoded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            // `%%` starts a code, `%%%` is a per cent sign.
            '%' => out.push_str("%%%"),
            // A caret starts a control character; caret and space are a caret.
            '^' => out.push_str("^ "),
            // A backslash before U+ or M+ would start a code.
            '\\' => out.push_str("\\U+005C"),
            ' '..='~' => out.push(character),
            other if other.is_control() => out.push(' '),
            other => {
                let mut units = [0; 2];
                for unit in other.encode_utf16(&mut units) {
                    let _ = write!(out, "\\U+{unit:04X}");
                }
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_ascii_and_codes_are_not_started_by_accident() {
        assert_eq!(encoded("1.0 mm²"), "1.0 mm\\U+00B2");
        assert_eq!(encoded("100%%d ^J\n\\U+0041"), "100%%%%%%d ^ J \\U+005CU+0041");
        assert_eq!(encoded("𝄞"), "\\U+D834\\U+DD1E");
    }
}
