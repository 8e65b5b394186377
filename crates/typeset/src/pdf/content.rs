//! The operators of a page (ISO 32000-1, annex A), from millimetres with y downward.

use super::file::{number, string};
use crate::font::{MM_PER_POINT, Set};
use latchline_scene::Area;
use std::fmt::Write as _;

/// A colour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Colour {
    /// From 0, black, to 255, white.
    Grey(u8),
    /// Red, green, blue.
    Rgb([u8; 3]),
}

impl Colour {
    /// Black.
    pub(crate) const BLACK: Colour = Colour::Grey(0);
}

/// A line's colour, width in millimetres and dashes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pen {
    pub(crate) colour: Colour,
    pub(crate) width_mm: f64,
    pub(crate) dashes_mm: &'static [f64],
}

impl Pen {
    /// An unbroken black line.
    pub(crate) fn black(width_mm: f64) -> Pen {
        Pen { colour: Colour::BLACK, width_mm, dashes_mm: &[] }
    }
}

/// A page's operators.
pub(crate) struct Content {
    height_mm: f64,
    out: String,
    fill: Option<Colour>,
    pen: Option<Pen>,
    marked: usize,
}

impl Content {
    /// Nothing yet, on a page of this height.
    pub(crate) fn new(height_mm: f64) -> Content {
        // Round joins, as everywhere in the drawings.
        Content { height_mm, out: String::from("1 j\n"), fill: None, pen: None, marked: 0 }
    }

    /// The operators, and how many pieces of marked content there are.
    pub(crate) fn finish(self) -> (String, usize) {
        (self.out, self.marked)
    }

    /// Begins content with a place in the tree; gives its number.
    pub(crate) fn begin_marked(&mut self) -> usize {
        let number = self.marked;
        self.marked += 1;
        let _ = writeln!(self.out, "/P<</MCID {number}>>BDC");
        number
    }

    /// Begins what is no content: rules, repeated heads, the foot of a page.
    pub(crate) fn begin_artifact(&mut self, is_foot: bool) {
        self.out.push_str(if is_foot {
            "/Artifact<</Type/Pagination/Subtype/Footer>>BDC\n"
        } else {
            "/Artifact<</Type/Layout>>BDC\n"
        });
    }

    /// Ends what was begun last.
    pub(crate) fn end(&mut self) {
        self.out.push_str("EMC\n");
    }

    fn point(&self, (x, y): (f64, f64)) -> String {
        format!("{} {}", number(x / MM_PER_POINT, 3), number((self.height_mm - y) / MM_PER_POINT, 3))
    }

    fn filled_with(&mut self, colour: Colour) {
        if self.fill == Some(colour) {
            return;
        }
        self.fill = Some(colour);
        let _ = match colour {
            Colour::Grey(grey) => writeln!(self.out, "{} g", share(grey)),
            Colour::Rgb([r, g, b]) => writeln!(self.out, "{} {} {} rg", share(r), share(g), share(b)),
        };
    }

    fn drawn_with(&mut self, pen: Pen) {
        if self.pen == Some(pen) {
            return;
        }
        self.pen = Some(pen);
        let _ = match pen.colour {
            Colour::Grey(grey) => write!(self.out, "{} G ", share(grey)),
            Colour::Rgb([r, g, b]) => write!(self.out, "{} {} {} RG ", share(r), share(g), share(b)),
        };
        let dashes: Vec<String> = pen.dashes_mm.iter().map(|mm| number(mm / MM_PER_POINT, 2)).collect();
        let _ = writeln!(self.out, "{} w [{}] 0 d", number(pen.width_mm / MM_PER_POINT, 3), dashes.join(" "));
    }

    /// Fills and draws a path that `make` builds.
    fn path(&mut self, fill: Option<Colour>, pen: Option<Pen>, make: impl FnOnce(&mut Self)) {
        let end = match (fill, pen) {
            (Some(_), Some(_)) => "B\n",
            (Some(_), None) => "f\n",
            (None, Some(_)) => "S\n",
            (None, None) => return,
        };
        if let Some(colour) = fill {
            self.filled_with(colour);
        }
        if let Some(pen) = pen {
            self.drawn_with(pen);
        }
        make(self);
        self.out.push_str(end);
    }

    fn corner(&mut self, at: (f64, f64), is_first: bool) {
        let point = self.point(at);
        let _ = write!(self.out, "{point} {} ", if is_first { 'm' } else { 'l' });
    }

    fn cubic(&mut self, first: (f64, f64), second: (f64, f64), end: (f64, f64)) {
        let (first, second, end) = (self.point(first), self.point(second), self.point(end));
        let _ = write!(self.out, "{first} {second} {end} c ");
    }

    /// Straight pieces.
    pub(crate) fn polygon(
        &mut self,
        corners: &[(f64, f64)],
        closed: bool,
        fill: Option<Colour>,
        pen: Option<Pen>,
    ) {
        if corners.is_empty() {
            return;
        }
        self.path(fill, pen, |content| {
            for (index, corner) in corners.iter().enumerate() {
                content.corner(*corner, index == 0);
            }
            if closed {
                content.out.push_str("h ");
            }
        });
    }

    /// Several rectangles as one.
    pub(crate) fn areas(&mut self, areas: &[Area], fill: Option<Colour>, pen: Option<Pen>) {
        self.path(fill, pen, |content| {
            for area in areas {
                content.add_rectangle((area.x, area.y, area.width, area.height));
            }
        });
    }

    /// A rectangle.
    pub(crate) fn rectangle(&mut self, area: (f64, f64, f64, f64), fill: Option<Colour>, pen: Option<Pen>) {
        self.path(fill, pen, |content| content.add_rectangle(area));
    }

    fn add_rectangle(&mut self, (x, y, width, height): (f64, f64, f64, f64)) {
        let corner = self.point((x, y + height));
        let (width, height) = (number(width / MM_PER_POINT, 3), number(height / MM_PER_POINT, 3));
        let _ = write!(self.out, "{corner} {width} {height} re ");
    }

    /// A rectangle with rounded corners.
    pub(crate) fn rounded(
        &mut self,
        (x, y, width, height): (f64, f64, f64, f64),
        radius: f64,
        fill: Option<Colour>,
        pen: Option<Pen>,
    ) {
        let radius = radius.min(width / 2.0).min(height / 2.0);
        let (right, bottom) = (x + width, y + height);
        self.path(fill, pen, |content| {
            content.corner((x + radius, y), true);
            let centres = [
                ((right - radius, y + radius), 90.0_f64),
                ((right - radius, bottom - radius), 0.0),
                ((x + radius, bottom - radius), -90.0),
                ((x + radius, y + radius), -180.0),
            ];
            for (centre, from) in centres {
                let start = on_circle(centre, radius, from);
                content.corner(start, false);
                content.quarter(centre, radius, from.to_radians(), (-90.0_f64).to_radians());
            }
            content.out.push_str("h ");
        });
    }

    /// Part of a circle, anticlockwise as seen, in degrees from the positive x axis; all of it is closed.
    pub(crate) fn arc(
        &mut self,
        centre: (f64, f64),
        radius: f64,
        (from, to): (f64, f64),
        fill: Option<Colour>,
        pen: Option<Pen>,
    ) {
        self.path(fill, pen, |content| {
            content.corner(on_circle(centre, radius, from), true);
            let pieces = ((to - from) / 90.0 - 1e-9).ceil().max(1.0);
            let step = ((to - from) / pieces).to_radians();
            for piece in 0..pieces as usize {
                content.quarter(centre, radius, from.to_radians() + step * piece as f64, step);
            }
            if to - from >= 360.0 {
                content.out.push_str("h ");
            }
        });
    }

    /// At most a quarter of a circle from where the path is, by `step` radians.
    fn quarter(&mut self, centre: (f64, f64), radius: f64, from: f64, step: f64) {
        let handle = 4.0 / 3.0 * libm::tan(step / 4.0) * radius;
        // y runs downward, angles against the clock.
        let on = |angle: f64| (centre.0 + radius * libm::cos(angle), centre.1 - radius * libm::sin(angle));
        let along = |angle: f64| (-libm::sin(angle) * handle, -libm::cos(angle) * handle);
        let (a, b, out, back) = (on(from), on(from + step), along(from), along(from + step));
        self.cubic((a.0 + out.0, a.1 + out.1), (b.0 - back.0, b.1 - back.1), b);
    }

    /// A text from the left end of its baseline, level or reading upward. Characters without a glyph are shown as
    /// another, and what they are stands beside.
    pub(crate) fn text(
        &mut self,
        at: (f64, f64),
        set: &Set<'_>,
        size_mm: f64,
        is_upward: bool,
        colour: Colour,
    ) {
        if set.runs.is_empty() {
            return;
        }
        self.filled_with(colour);
        let point = self.point(at);
        let font = if set.bold { "/F2" } else { "/F1" };
        let size = number(size_mm / MM_PER_POINT, 3);
        let _ = if is_upward {
            write!(self.out, "BT {font} {size} Tf 0 1 -1 0 {point} Tm ")
        } else {
            write!(self.out, "BT {font} {size} Tf {point} Td ")
        };
        for run in &set.runs {
            if let Some(missing) = run.missing {
                let _ = write!(self.out, "/Span<</ActualText{}>>BDC ", string(missing));
            }
            self.out.push('[');
            if run.before != 0.0 {
                // Adjustments are in thousandths of an em, against the direction of writing.
                let _ = write!(self.out, "{}", number(-run.before * 1000.0, 2));
            }
            self.out.push('<');
            for glyph in &run.glyphs {
                let _ = write!(self.out, "{glyph:04x}");
            }
            self.out.push('>');
            if run.after != 0.0 {
                let _ = write!(self.out, "{}", number(-run.after * 1000.0, 2));
            }
            self.out.push_str("]TJ ");
            if run.missing.is_some() {
                self.out.push_str("EMC ");
            }
        }
        self.out.push_str("ET\n");
    }
}

/// A part of 255 as a part of one.
fn share(value: u8) -> String {
    number(f64::from(value) / 255.0, 3)
}

fn on_circle(centre: (f64, f64), radius: f64, degrees: f64) -> (f64, f64) {
    let angle = degrees.to_radians();
    (centre.0 + radius * libm::cos(angle), centre.1 - radius * libm::sin(angle))
}
