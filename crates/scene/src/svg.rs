//! A scene as SVG.
//!
//! The text stands alone as a file and can also be put into a page as it is. Every shape carries
//! its colours as presentation attributes, so any program shows it, and a class for its ink
//! (`ink-wire`, `fill-band`), so a page can restyle it. Numbers are
//! rounded to a hundredth of a millimetre; the same scene gives the same bytes.

use crate::palette::{Ink, Palette};
use crate::{Anchor, Group, Item, Node, Point, Scene, Shape, Stroke, Text};
use latchline_finding::Language;
use std::fmt::Write as _;

/// Fonts that have the widths that text was measured with, then whatever there is.
const FONTS: &str = "Arial, Helvetica, 'Liberation Sans', Arimo, sans-serif";

/// The scene as a complete SVG document.
pub fn svg(scene: &Scene, palette: Palette) -> String {
    let mut out = String::with_capacity(64 * 1024);
    let (width, height) = (number(scene.width_mm), number(scene.height_mm));
    // English is what a reader takes for granted here.
    let language = match scene.language {
        Language::English => "",
        Language::German => " xml:lang=\"de\"",
    };
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"latchline-drawing\" width=\"{width}mm\" \
         height=\"{height}mm\"{language} viewBox=\"0 0 {width} {height}\" role=\"img\" font-family=\"{FONTS}\">\n<title>{}</title>\n<desc>{}</desc>\n\
         <rect class=\"fill-paper\" width=\"{width}\" height=\"{height}\" fill=\"{}\"/>\n",
        xml_text(&scene.title),
        xml_text(&scene.description),
        palette.hex(Ink::Paper)
    );
    group(&mut out, &scene.root, palette);
    out.push_str("</svg>\n");
    out
}

fn group(out: &mut String, part: &Group, palette: Palette) {
    out.push_str("<g");
    if !part.role.kind.is_empty() {
        let _ = write!(out, " class=\"{}\"", part.role.kind);
    }
    if let Some(element) = &part.role.element {
        let _ = write!(out, " data-element=\"{}\"", xml_text(element));
    }
    if let Some(element) = &part.role.continues {
        let _ = write!(out, " data-continues=\"{}\"", xml_text(element));
    }
    out.push('>');
    if let Some(title) = &part.role.title {
        let _ = write!(out, "<title>{}</title>", xml_text(title));
    }
    out.push('\n');
    for node in &part.nodes {
        match node {
            Node::Group(inner) => group(out, inner, palette),
            Node::Text(line, _) => text(out, line, palette),
            Node::Item(shape) => item(out, shape, palette),
        }
    }
    out.push_str("</g>\n");
}

fn item(out: &mut String, item: &Item, palette: Palette) {
    match &item.shape {
        Shape::Path { points, closed } => {
            out.push_str("<path d=\"");
            for (index, point) in points.iter().enumerate() {
                let _ = write!(
                    out,
                    "{}{} {}",
                    if index == 0 { 'M' } else { 'L' },
                    number(point.0),
                    number(point.1)
                );
            }
            out.push_str(if *closed { "Z\"" } else { "\"" });
        }
        Shape::Areas(areas) => {
            // Without crisp edges a viewer shows seams between the squares.
            out.push_str("<path shape-rendering=\"crispEdges\" d=\"");
            for area in areas {
                let (left, right) = (number(area.x), number(area.right()));
                let _ = write!(out, "M{left} {}H{right}V{}H{left}Z", number(area.y), number(area.bottom()));
            }
            out.push('"');
        }
        Shape::Rectangle { area, radius } => {
            let _ = write!(
                out,
                "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"",
                number(area.x),
                number(area.y),
                number(area.width),
                number(area.height)
            );
            if *radius > 0.0 {
                let _ = write!(out, " rx=\"{}\"", number(*radius));
            }
        }
        Shape::Circle { centre, radius } => {
            let (x, y) = (number(centre.0), number(centre.1));
            let _ = write!(out, "<circle cx=\"{x}\" cy=\"{y}\" r=\"{}\"", number(*radius));
        }
        Shape::Arc { centre, radius, from_degrees, to_degrees } => {
            let at = |degrees: f64| on_circle(*centre, *radius, degrees);
            let (from, to) = (at(*from_degrees), at(*to_degrees));
            let large = u8::from((to_degrees - from_degrees).rem_euclid(360.0) > 180.0);
            let _ = write!(
                out,
                "<path d=\"M{} {}A{r} {r} 0 {large} 0 {} {}\"",
                number(from.0),
                number(from.1),
                number(to.0),
                number(to.1),
                r = number(*radius)
            );
        }
    }
    let mut classes = Vec::new();
    if let Some(fill) = item.fill {
        classes.push(format!("fill-{}", fill.name()));
        let _ = write!(out, " fill=\"{}\"", palette.hex(fill));
    } else {
        out.push_str(" fill=\"none\"");
    }
    if let Some(stroke) = item.stroke {
        classes.push(format!("ink-{}", stroke.ink.name()));
        stroke_attributes(out, stroke, palette);
    }
    let _ = writeln!(out, " class=\"{} layer-{}\"/>", classes.join(" "), item.layer.name());
}

fn stroke_attributes(out: &mut String, stroke: Stroke, palette: Palette) {
    let width = stroke.pen.width_mm();
    let _ = write!(out, " stroke=\"{}\" stroke-width=\"{}\"", palette.hex(stroke.ink), number(width));
    let dashes = stroke.dash.lengths_mm();
    if !dashes.is_empty() {
        let list: Vec<String> = dashes.iter().map(|length| number(*length)).collect();
        let _ = write!(out, " stroke-dasharray=\"{}\"", list.join(" "));
    }
    out.push_str(" stroke-linejoin=\"round\"");
}

fn text(out: &mut String, text: &Text, palette: Palette) {
    if text.text.trim().is_empty() {
        return;
    }
    let (x, y) = (number(text.at.0), number(text.at.1));
    let _ = write!(out, "<text x=\"{x}\" y=\"{y}\" font-size=\"{}\"", number(text.size_mm));
    match text.anchor {
        Anchor::Start => {}
        Anchor::Middle => out.push_str(" text-anchor=\"middle\""),
        Anchor::End => out.push_str(" text-anchor=\"end\""),
    }
    if text.bold {
        out.push_str(" font-weight=\"700\"");
    }
    if text.upward {
        let _ = write!(out, " transform=\"rotate(-90 {x} {y})\"");
    }
    let _ = writeln!(
        out,
        " fill=\"{}\" class=\"fill-{}\" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\">{}</text>",
        palette.hex(text.ink),
        text.ink.name(),
        number(text.width_mm()),
        xml_text(&text.text)
    );
}

/// The point of a circle at an angle in degrees, anticlockwise as seen.
pub fn on_circle(centre: Point, radius: f64, degrees: f64) -> Point {
    let angle = degrees.to_radians();
    (centre.0 + radius * angle.cos(), centre.1 - radius * angle.sin())
}

/// A number with at most two decimals; not finite becomes 0.
fn number(value: f64) -> String {
    if !value.is_finite() {
        return String::from("0");
    }
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    String::from(if text == "-0" { "0" } else { text })
}

/// Text as XML takes it; characters that XML forbids become a space.
pub fn xml_text(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\u{fffe}' | '\u{ffff}' => out.push(' '),
            other if other.is_control() => out.push(' '),
            other => out.push(other),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Area, Layer};

    #[test]
    fn numbers_are_short_and_have_no_negative_zero() {
        assert_eq!(
            [number(1.0), number(-0.001), number(2.345), number(f64::NAN), number(100.0)],
            ["1", "0", "2.35", "0", "100"]
        );
    }

    #[test]
    fn texts_are_escaped_wherever_they_stand() {
        let mut root = Group::of_element("station", "A<\"1&\"", "t>\u{1}");
        root.text(Layer::Lettering, Text::new((0.0, 0.0), "a<b&c", 3.0));
        root.rectangle(Layer::Device, Area::new(0.0, 0.0, 1.0, 1.0), 0.0, None, Some(Ink::Band));
        let scene = Scene {
            width_mm: 10.0,
            height_mm: 10.0,
            title: "<&>".into(),
            description: String::new(),
            language: Language::German,
            root,
        };
        let out = svg(&scene, Palette::Light);
        assert!(out.contains("data-element=\"A&lt;&quot;1&amp;&quot;\""), "{out}");
        assert!(out.contains(">a&lt;b&amp;c</text>") && out.contains("<title>&lt;&amp;&gt;</title>"));
        assert!(out.starts_with("<svg ") && out.contains(" xml:lang=\"de\" "));
        assert!(!out.contains('\u{1}'));
    }
}
