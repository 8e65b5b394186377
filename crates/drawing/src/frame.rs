//! The frame of a sheet with its zones, its legend and its title block.
//!
//! Sheets from A4 and letter size on have the frame of ISO 5457 (20 mm for filing on the left, 10 mm on the other
//! sides, zones of 50 mm counted from the middle, centring marks) and the title block of ISO 7200, 180 mm wide at the
//! lower right: legal owner, creator, approval, kind of document, identification number, title, revision, date of issue and
//! number of the sheet. Fields that only people can fill stay empty. Smaller sheets, for screens, have a plain block.

use crate::language::{Phrase, Word};
use crate::sheet::{LegendEntry, SheetSize, TitleBlock, fitted};
use latchline_finding::Language;
use latchline_scene::font::{LEAST_MM, shortened, text_width_mm};
use latchline_scene::palette::Ink;
use latchline_scene::{Anchor, Area, Attribute, Block, Group, Layer, Pen, Scene, Stroke, Text};

const LEGEND_ROW_MM: f64 = 5.4;
const LEGEND_TEXT_MM: f64 = LEAST_MM;
/// Lettering of labels in the title block.
const LABEL_MM: f64 = LEAST_MM;
/// Margin for filing, and the other three.
const FILING_MM: f64 = 20.0;
const MARGIN_MM: f64 = 10.0;
/// Between the frame and the drawing.
const INSET_MM: f64 = 2.5;
/// Strip with the names of the zones, outside the frame.
const ZONE_STRIP_MM: f64 = 5.0;
/// Length of a zone.
const ZONE_MM: f64 = 50.0;
/// Width and height of the title block.
const BLOCK_MM: (f64, f64) = (180.0, 21.5);
/// The same on small sheets.
const SMALL_BLOCK_HEIGHT_MM: f64 = 21.0;
/// The legend stands beside the title block where there is so much room.
const LEAST_BESIDE_MM: f64 = 100.0;
/// Height of what is said across the sheet.
const WARNING_MM: f64 = 9.0;

/// Where things go on a sheet.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Frame {
    size: SheetSize,
    /// Within the margins.
    border: Area,
    has_zones: bool,
    /// Free for the drawing.
    pub(crate) content: Area,
    legend: Area,
    title: Area,
    warning: Option<Area>,
}

impl Frame {
    /// The frame of a sheet with this title block, whose legend takes these entries.
    pub(crate) fn new(size: SheetSize, block: &TitleBlock, entries: &[LegendEntry]) -> Self {
        // The width of A4 and letter, less the margins, holds the block of ISO 7200.
        let has_zones = size.width_mm >= FILING_MM + MARGIN_MM + BLOCK_MM.0 && size.height_mm >= 200.0;
        let (left, margin, inset) = match has_zones {
            true => (FILING_MM, MARGIN_MM, INSET_MM),
            false if size.width_mm < 150.0 => (4.0, 4.0, 0.0),
            false => (MARGIN_MM, MARGIN_MM, 0.0),
        };
        let border = Area::new(left, margin, size.width_mm - left - margin, size.height_mm - 2.0 * margin);
        let (width, height) = if has_zones { BLOCK_MM } else { (112.0, SMALL_BLOCK_HEIGHT_MM) };
        let beside = border.width - width;
        let (legend_width, title_width, is_stacked) = if beside > LEAST_BESIDE_MM {
            (beside - 4.0 - 2.0 * inset, width, false)
        } else {
            (border.width - 2.0 * inset, if has_zones { width } else { border.width }, true)
        };
        let rows = flow(entries, legend_width).last().map_or(0, |(row, _)| row + 1);
        let legend_height = if rows == 0 { 0.0 } else { rows as f64 * LEGEND_ROW_MM + 1.0 };
        let strip =
            if is_stacked { legend_height + height + 2.0 } else { (legend_height + inset).max(height) };
        let legend_top = border.bottom() - strip;
        let warned = if block.warning.is_some() { WARNING_MM + 2.0 } else { 0.0 };
        let top = border.y + inset;
        Self {
            size,
            border,
            has_zones,
            content: Area::new(
                border.x + inset,
                top + warned,
                border.width - 2.0 * inset,
                (legend_top - 3.0 - top - warned).max(10.0),
            ),
            legend: Area::new(border.x + inset, legend_top, legend_width, legend_height),
            title: Area::new(border.right() - title_width, border.bottom() - height, title_width, height),
            warning: block
                .warning
                .is_some()
                .then(|| Area::new(border.x + inset, top, border.width - 2.0 * inset, WARNING_MM)),
        }
    }

    /// Draws frame, warning, legend and title block.
    pub(crate) fn draw(
        &self,
        root: &mut Group,
        block: &TitleBlock,
        entries: &[LegendEntry],
        sheet: usize,
        of: usize,
    ) {
        if self.has_zones {
            root.group(self.zones());
        }
        if let (Some(area), Some(words)) = (self.warning, &block.warning) {
            let mut group = Group::new("warning");
            group.rectangle(Layer::Trouble, area, 0.0, None, Some(Ink::Text));
            let at = (area.x + 3.0, area.y + 6.4);
            group.text(Layer::Trouble, fitted(at, words, 5.0, true, area.width - 6.0).ink(Ink::Paper));
            root.group(group);
        }
        let mut legend = Group::new("legend");
        for ((row, x), entry) in flow(entries, self.legend.width).into_iter().zip(entries) {
            let corner = (self.legend.x + x, self.legend.y + row as f64 * LEGEND_ROW_MM);
            (entry.picture)(&mut legend, corner);
            let at = (corner.0 + entry.picture_width + picture_gap(entry), corner.1 + 2.9);
            legend.text(Layer::Frame, Text::new(at, entry.text.clone(), LEGEND_TEXT_MM).ink(Ink::Quiet));
        }
        root.group(legend);
        root.group(if self.has_zones {
            self.title_block(block, sheet, of)
        } else {
            self.small_title_block(block, sheet, of)
        });
    }

    /// Frame, zones, centring marks, and fold marks on A3 and tabloid.
    fn zones(&self) -> Group {
        let mut group = Group::new("frame");
        let border = self.border;
        let outer = border.grown(ZONE_STRIP_MM);
        let line = |pen| Stroke::solid(Ink::Text, pen);
        group.rectangle(Layer::Frame, border, 0.0, Some(line(Pen::Heavy)), None);
        group.rectangle(Layer::Frame, outer, 0.0, Some(line(Pen::Thin)), None);
        let (middle_x, middle_y) = (border.x + border.width / 2.0, border.y + border.height / 2.0);
        for (from, to) in [
            ((middle_x, outer.y), (middle_x, border.y + 1.5)),
            ((middle_x, outer.bottom()), (middle_x, border.bottom() - 1.5)),
            ((outer.x, middle_y), (border.x + 1.5, middle_y)),
            ((outer.right(), middle_y), (border.right() - 1.5, middle_y)),
        ] {
            group.line(Layer::Frame, from, to, line(Pen::Heavy));
        }
        // A4 and letter have their zones above and on the right only.
        let is_small = self.size.width_mm.min(self.size.height_mm) < 250.0;
        let name = |group: &mut Group, at: (f64, f64), name: String| {
            group.text(Layer::Frame, Text::new((at.0, at.1 + 1.2), name, 3.4).anchored(Anchor::Middle));
        };
        for (number, (from, to)) in zones(border.x, border.right()).into_iter().enumerate() {
            for (edge, frame) in [(outer.y, border.y), (outer.bottom(), border.bottom())] {
                if is_small && edge > border.y {
                    continue;
                }
                name(&mut group, ((from + to) / 2.0, (edge + frame) / 2.0), (number + 1).to_string());
                if number > 0 {
                    group.line(Layer::Frame, (from, edge), (from, frame), line(Pen::Middle));
                }
            }
        }
        for (number, (from, to)) in zones(border.y, border.bottom()).into_iter().enumerate() {
            for (edge, frame) in [(outer.x, border.x), (outer.right(), border.right())] {
                if is_small && edge < border.x {
                    continue;
                }
                let letter = zone_letter(number);
                name(&mut group, ((edge + frame) / 2.0, (from + to) / 2.0), letter.to_string());
                if number > 0 {
                    group.line(Layer::Frame, (edge, from), (frame, from), line(Pen::Middle));
                }
            }
        }
        for x in self.folds() {
            for (edge, end) in [(0.0, outer.y - 0.5), (self.size.height_mm, outer.bottom() + 0.5)] {
                group.line(Layer::Frame, (x, edge), (x, end), line(Pen::Thin));
            }
        }
        group
    }

    /// Where the free place beside the title block ends, to the right and below; without one, the left edge of the drawing.
    pub(crate) fn beside_title(&self) -> (f64, f64) {
        let is_free = self.legend.height == 0.0 && self.title.x - self.border.x > LEAST_BESIDE_MM;
        let right = if is_free { self.title.x - INSET_MM } else { self.content.x };
        (right, self.border.bottom() - INSET_MM)
    }

    /// The zone of a point within the frame: row and column, as "B4" (ISO 5457).
    pub(crate) fn zone(&self, (x, y): (f64, f64)) -> Option<String> {
        if !self.has_zones {
            return None;
        }
        let within = |list: Vec<(f64, f64)>, value: f64| {
            let last = list.len().saturating_sub(1);
            list.iter().position(|(_, to)| value <= *to).unwrap_or(last)
        };
        let row = within(zones(self.border.y, self.border.bottom()), y);
        let column = within(zones(self.border.x, self.border.right()), x);
        Some(format!("{}{}", zone_letter(row), column + 1))
    }

    /// Where the sheet is folded to A4 with its filing margin free (in the manner of DIN 824, from memory), tabloid
    /// in the middle.
    fn folds(&self) -> Vec<f64> {
        let is = |width: f64, height: f64| {
            (self.size.width_mm - width).abs() < 0.5 && (self.size.height_mm - height).abs() < 0.5
        };
        if is(420.0, 297.0) {
            vec![125.0, 230.0]
        } else if is(431.8, 279.4) {
            vec![215.9]
        } else {
            Vec::new()
        }
    }

    /// The block of ISO 7200: owner, makers, kind; title; number, revision, date, input, sheet.
    fn title_block(&self, block: &TitleBlock, sheet: usize, of: usize) -> Group {
        let mut group = Group::new("title-block");
        let area = self.title;
        let lettering = block.lettering();
        let line = |pen| Stroke::solid(Ink::Text, pen);
        group.rectangle(Layer::Frame, area, 0.0, Some(line(Pen::Heavy)), Some(Ink::Paper));
        let not_stated = lettering.word(Word::NotStated);
        let or_not = |value: &Option<String>| value.clone().unwrap_or_else(|| not_stated.to_string());
        let number =
            block.number.as_ref().map_or_else(|| not_stated.to_string(), |name| format!("{name}-{sheet}"));
        let sheet = lettering.say(&Phrase::SheetOf { sheet, of });
        let kind = block.kind.map_or_else(String::new, |kind| String::from(lettering.word(kind)));
        // Left, top, width and height within the block; label; tag in CAD and value.
        let (first, half) = (8.5, 6.5);
        let above = [
            ((0.0, 48.0), Word::Owner, "OWNER", String::new()),
            ((48.0, 32.0), Word::DrawnBy, "DRAWN_BY", String::new()),
            ((80.0, 32.0), Word::ApprovedBy, "APPROVED_BY", String::new()),
            ((112.0, 34.0), Word::DocumentKind, "DOCUMENT_KIND", kind),
            ((146.0, 34.0), Word::DrawingNumber, "NUMBER", number),
        ];
        let beside = [
            ((94.0, first, 34.0), Word::Revision, "REVISION", or_not(&block.revision)),
            ((128.0, first, 52.0), Word::InputHash, "INPUT", or_not(&block.input)),
            ((94.0, first + half, 34.0), Word::Date, "DATE", or_not(&block.date)),
            ((128.0, first + half, 52.0), Word::Sheet, "SHEET", sheet),
        ];
        let mut values: Vec<(&'static str, Text)> = Vec::new();
        let field = |group: &mut Group, (x, y, width, height): (f64, f64, f64, f64), label: Word| {
            let field = Area::new(area.x + x, area.y + y, width, height);
            group.rectangle(Layer::Frame, field, 0.0, Some(line(Pen::Middle)), None);
            let label = shortened(lettering.word(label), LABEL_MM, false, width - 3.0);
            let width_mm = text_width_mm(&label, LABEL_MM, false);
            let at = (field.x + 1.5, field.y + if height > half { 2.9 } else { 4.4 });
            group.text(Layer::Frame, Text::new(at, label, LABEL_MM).ink(Ink::Quiet));
            (field, width_mm)
        };
        // Labels stand above their values in the first row, before them in the others.
        for ((x, width), label, tag, value) in above {
            let (field, _) = field(&mut group, (x, 0.0, width, first), label);
            values.push((tag, fitted((field.x + 1.5, field.y + 6.8), &value, 3.4, true, width - 3.0)));
        }
        for ((x, y, width), label, tag, value) in beside {
            let (field, label_mm) = field(&mut group, (x, y, width, half), label);
            let at = (field.x + 1.5 + label_mm + 1.6, field.y + 4.5);
            values.push((tag, fitted(at, &value, 3.0, true, width - label_mm - 4.6)));
        }
        let room = 94.0 - 3.0;
        let at = |down: f64| (area.x + 1.5, area.y + first + down);
        values.push(("TITLE", fitted(at(4.6), &block.site, 4.2, true, room)));
        values.push(("SUBJECT", fitted(at(8.4), &block.subject, 3.2, false, room)));
        values.push(("NOTE", fitted(at(11.8), &block.note, LABEL_MM, false, room).ink(Ink::Quiet)));
        let lines = group.nodes.len();
        let attribute = |(row, (tag, text)): (usize, &(&'static str, Text))| Attribute {
            tag,
            value: text.text.clone(),
            node: Some(lines + row),
        };
        group.role.block = Some(Block {
            name: "TITLE_BLOCK",
            at: (area.x, area.y),
            scale: 1.0,
            nodes: 0..lines,
            attributes: values.iter().enumerate().map(attribute).collect(),
        });
        for (_, text) in values {
            group.text(Layer::Frame, text);
        }
        group
    }

    /// The block of a small sheet.
    fn small_title_block(&self, block: &TitleBlock, sheet: usize, of: usize) -> Group {
        let mut group = Group::new("title-block");
        let area = self.title;
        let line = Stroke::solid(Ink::Outline, Pen::Thin);
        group.rectangle(Layer::Frame, area, 0.0, Some(Stroke::solid(Ink::Outline, Pen::Thick)), None);
        let mut put = |x: f64, y: f64, text: &str, size: f64, bold: bool, ink: Ink, room: f64| {
            let mut text =
                Text::new((area.x + x, area.y + y), shortened(text, size, bold, room), size).ink(ink);
            text.bold = bold;
            group.text(Layer::Frame, text);
        };
        let room = area.width - 4.0;
        put(2.0, 5.6, &block.site, 4.2, true, Ink::Text, room);
        put(2.0, 9.6, &block.subject, 3.0, false, Ink::Text, room);
        put(2.0, 13.2, &block.note, LABEL_MM, false, Ink::Quiet, room);
        let third = area.width / 3.0;
        let lettering = block.lettering();
        let not_stated = lettering.word(Word::NotStated);
        let revision = block.revision.as_deref().unwrap_or(not_stated);
        let date = block.date.as_deref().unwrap_or(not_stated);
        let sheet = lettering.say(&Phrase::SheetOf { sheet, of });
        let columns = [(Word::Revision, revision), (Word::Date, date), (Word::Sheet, &sheet)];
        for (column, (label, value)) in columns.into_iter().enumerate() {
            let label = lettering.word(label);
            let x = 2.0 + column as f64 * third;
            put(x, 19.3, label, LABEL_MM, false, Ink::Quiet, third);
            let label_width = text_width_mm(label, LABEL_MM, false) + 1.6;
            put(x + label_width, 19.3, value, 2.8, true, Ink::Text, third - label_width - 3.0);
        }
        let rule = area.y + 15.6;
        group.line(Layer::Frame, (area.x, rule), (area.right(), rule), line);
        for column in 1..3 {
            let x = area.x + f64::from(column) * third;
            group.line(Layer::Frame, (x, rule), (x, area.bottom()), line);
        }
        group
    }

    /// A scene for each group: the sheets of one drawing, numbered; `what` it shows stands in their titles.
    pub(crate) fn sheets(
        &self,
        groups: Vec<Group>,
        block: &TitleBlock,
        entries: &[LegendEntry],
        what: &str,
        description: &str,
    ) -> Vec<Scene> {
        let of = groups.len();
        let finish = |(number, group): (usize, Group)| {
            let sheet = number + 1;
            let title = Phrase::SheetTitle { site: &block.site, what, sheet, of };
            let title = block.lettering().say(&title);
            let mut scene = self.scene(title, description.to_string());
            scene.language = block.locale.language;
            scene.root.group(group);
            self.draw(&mut scene.root, block, entries, sheet, of);
            scene
        };
        groups.into_iter().enumerate().map(finish).collect()
    }

    /// A scene of this size with nothing on it.
    pub(crate) fn scene(&self, title: String, description: String) -> Scene {
        Scene {
            width_mm: self.size.width_mm,
            height_mm: self.size.height_mm,
            title,
            description,
            language: Language::English,
            root: Group::new("sheet"),
        }
    }
}

fn picture_gap(entry: &LegendEntry) -> f64 {
    if entry.picture_width > 0.0 { 1.4 } else { 0.0 }
}

/// Row and x of each entry of a legend of this width. An entry wider than the legend is cut by its
/// caller's wording, so it gets a row of its own.
fn flow(entries: &[LegendEntry], width: f64) -> Vec<(usize, f64)> {
    let (mut row, mut x) = (0, 0.0);
    let mut places = Vec::with_capacity(entries.len());
    for entry in entries {
        let own =
            entry.picture_width + picture_gap(entry) + text_width_mm(&entry.text, LEGEND_TEXT_MM, false);
        if x > 0.0 && x + own > width {
            row += 1;
            x = 0.0;
        }
        places.push((row, x));
        x += own + 5.0;
    }
    places
}

/// The letter of a row of zones. I and O are left out: they are taken for digits.
fn zone_letter(number: usize) -> char {
    "ABCDEFGHJKLMNPQRSTUVWXYZ".chars().cycle().nth(number).unwrap_or('A')
}

/// The zones between two edges: 50 mm each, counted from the middle; what is left at the ends joins the last.
fn zones(from: f64, to: f64) -> Vec<(f64, f64)> {
    let middle = (from + to) / 2.0;
    let each_side = ((to - middle) / ZONE_MM).round().max(1.0) as usize;
    let edge = |side: f64, number: usize| {
        if number == each_side {
            middle + side * (to - middle)
        } else {
            middle + side * number as f64 * ZONE_MM
        }
    };
    let before = (0..each_side).rev().map(|number| (edge(-1.0, number + 1), edge(-1.0, number)));
    before.chain((0..each_side).map(|number| (edge(1.0, number), edge(1.0, number + 1)))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 5457: zones of 50 mm, beginning at the middle; A3 has eight across and six down.
    #[test]
    fn zones_are_counted_from_the_middle() {
        let frame = Frame::new(SheetSize::A3, &TitleBlock::default(), &[]);
        assert_eq!(
            (frame.border.x, frame.border.y, frame.border.width, frame.border.height),
            (20.0, 10.0, 390.0, 277.0)
        );
        let across = zones(frame.border.x, frame.border.right());
        assert_eq!(across.len(), 8);
        assert_eq!(zones(frame.border.y, frame.border.bottom()).len(), 6);
        assert!(across[1..7].iter().all(|(from, to)| (to - from - 50.0).abs() < 1e-9));
        assert!(across.windows(2).all(|pair| pair[0].1 == pair[1].0));
    }

    /// ISO 7200: the title block is 180 mm wide, at the lower right of the frame.
    #[test]
    fn the_title_block_is_in_the_lower_right_corner() {
        for size in [SheetSize::A4, SheetSize::A4_UPRIGHT, SheetSize::A3] {
            let frame = Frame::new(size, &TitleBlock::default(), &[]);
            assert_eq!(frame.title.width, 180.0);
            assert!((frame.title.right() - frame.border.right()).abs() < 1e-9);
            assert!((frame.title.bottom() - frame.border.bottom()).abs() < 1e-9);
            assert!(frame.content.bottom() < frame.title.y && frame.border.contains(&frame.content));
        }
    }
}
