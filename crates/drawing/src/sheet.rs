//! Sheets, their frame and their title block.

use crate::font::{shortened, text_width_mm};
use crate::language::{Lettering, Phrase, Word};
use crate::palette::Ink;
use crate::scene::{Anchor, Area, Group, Layer, Scene, Stroke, Text};
use latchline_assess::Assessment;
use latchline_finding::{Language, Locale};
use latchline_site::model::Site;
use std::fmt;
use std::str::FromStr;

/// The size of a sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SheetSize {
    /// Width in millimetres.
    pub width_mm: f64,
    /// Height in millimetres.
    pub height_mm: f64,
}

impl SheetSize {
    /// A4 on its side (ISO 216).
    pub const A4: Self = Self { width_mm: 297.0, height_mm: 210.0 };
    /// A4 upright (ISO 216).
    pub const A4_UPRIGHT: Self = Self { width_mm: 210.0, height_mm: 297.0 };
    /// A3 on its side (ISO 216).
    pub const A3: Self = Self { width_mm: 420.0, height_mm: 297.0 };
    /// A3 upright (ISO 216).
    pub const A3_UPRIGHT: Self = Self { width_mm: 297.0, height_mm: 420.0 };
    /// A narrow sheet that fills the screen of a phone.
    pub const PHONE: Self = Self { width_mm: 120.0, height_mm: 240.0 };

    /// Least edge of a sheet that a drawing still fits on.
    pub const LEAST_MM: f64 = 90.0;
    /// Greatest edge of a sheet.
    pub const GREATEST_MM: f64 = 5000.0;
}

/// A sheet size that cannot be used.
#[derive(Debug, Clone, PartialEq)]
pub struct BadSheetSize(String);

impl fmt::Display for BadSheetSize {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "\"{}\" is no sheet size: a4, a4-upright, a3, a3-upright, phone, or WIDTHxHEIGHT with {} to {} mm each",
            self.0,
            SheetSize::LEAST_MM,
            SheetSize::GREATEST_MM
        )
    }
}

impl std::error::Error for BadSheetSize {}

impl FromStr for SheetSize {
    type Err = BadSheetSize;

    fn from_str(text: &str) -> Result<Self, BadSheetSize> {
        let named = match text.to_ascii_lowercase().as_str() {
            "a4" => Some(Self::A4),
            "a4-upright" => Some(Self::A4_UPRIGHT),
            "a3" => Some(Self::A3),
            "a3-upright" => Some(Self::A3_UPRIGHT),
            "phone" => Some(Self::PHONE),
            _ => None,
        };
        let custom = || {
            let (width, height) = text.split_once(['x', 'X'])?;
            let edge = |text: &str| {
                text.trim().parse::<f64>().ok().filter(|mm| (Self::LEAST_MM..=Self::GREATEST_MM).contains(mm))
            };
            Some(Self { width_mm: edge(width)?, height_mm: edge(height)? })
        };
        named.or_else(custom).ok_or_else(|| BadSheetSize(text.chars().take(40).collect()))
    }
}

/// What sheets of a site are drawn for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SheetOptions {
    /// The sheet; without one what suits the drawing.
    pub sheet: Option<SheetSize>,
    /// The revision in the title block.
    pub revision: Option<String>,
    /// The date in the title block.
    pub date: Option<String>,
    /// Language and units of the lettering.
    pub locale: Locale,
}

impl SheetOptions {
    pub(crate) fn lettering(&self) -> Lettering {
        Lettering(self.locale)
    }
}

/// What the title block says besides the number of the sheet.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TitleBlock {
    /// Title of the site.
    pub site: String,
    /// What the drawing shows.
    pub subject: String,
    /// What its figures are.
    pub note: String,
    /// The revision: a hash of the input, shortened.
    pub revision: Option<String>,
    /// The date, as it was passed in.
    pub date: Option<String>,
    /// Language of the block's own words.
    pub locale: Locale,
}

impl TitleBlock {
    /// That of a site's drawing.
    pub(crate) fn of_site(site: &Site, subject: &str, note: String, options: &SheetOptions) -> Self {
        TitleBlock {
            site: if site.title.is_empty() {
                String::from(options.lettering().word(Word::UntitledSite))
            } else {
                site.title.clone()
            },
            subject: subject.to_string(),
            note,
            revision: options.revision.clone(),
            date: options.date.clone(),
            locale: options.locale,
        }
    }

    pub(crate) fn lettering(&self) -> Lettering {
        Lettering(self.locale)
    }
}

/// The note of drawings that show what was judged.
pub(crate) fn verdict_note(assessment: &Assessment, lettering: Lettering) -> String {
    let verdict = lettering.word(crate::language::verdict_word(assessment.verdict));
    lettering.say(&Phrase::Verdict { verdict })
}

/// Draws a small picture at its left upper corner.
type DrawPicture = dyn Fn(&mut Group, (f64, f64));

/// An entry of a legend: a small picture with its meaning.
pub(crate) struct LegendEntry {
    /// Width of the picture; it is drawn in a box of this width and [`LEGEND_PICTURE_MM`] height.
    pub(crate) picture_width: f64,
    /// Draws it with this left upper corner.
    pub(crate) picture: Box<DrawPicture>,
    /// What it means.
    pub(crate) text: String,
}

/// Height of the picture of a legend entry.
pub(crate) const LEGEND_PICTURE_MM: f64 = 4.0;
const LEGEND_ROW_MM: f64 = 5.4;
const LEGEND_TEXT_MM: f64 = 2.5;
const TITLE_BLOCK_MM: f64 = 112.0;
const TITLE_BLOCK_HEIGHT_MM: f64 = 21.0;

/// Where things go on a sheet.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Frame {
    size: SheetSize,
    /// Free for the drawing.
    pub(crate) content: Area,
    legend: Area,
    title: Area,
}

impl Frame {
    /// The frame of a sheet whose legend takes these entries.
    pub(crate) fn new(size: SheetSize, entries: &[LegendEntry]) -> Self {
        let margin = if size.width_mm < 150.0 { 4.0 } else { 10.0 };
        let inner = Area::new(margin, margin, size.width_mm - 2.0 * margin, size.height_mm - 2.0 * margin);
        let beside = inner.width - TITLE_BLOCK_MM;
        let (legend_width, title_width, stacked) = if beside > 120.0 {
            (beside - 6.0, TITLE_BLOCK_MM, false)
        } else {
            (inner.width, inner.width, true)
        };
        let rows = flow(entries, legend_width).last().map_or(0, |(row, _)| row + 1);
        let legend_height = rows as f64 * LEGEND_ROW_MM + 1.0;
        let strip = if stacked {
            legend_height + 2.0 + TITLE_BLOCK_HEIGHT_MM
        } else {
            legend_height.max(TITLE_BLOCK_HEIGHT_MM)
        };
        let top = inner.bottom() - strip;
        Self {
            size,
            content: Area::new(inner.x, inner.y, inner.width, (inner.height - strip - 4.0).max(10.0)),
            legend: Area::new(inner.x, top, legend_width, legend_height),
            title: Area::new(
                inner.right() - title_width,
                inner.bottom() - TITLE_BLOCK_HEIGHT_MM,
                title_width,
                TITLE_BLOCK_HEIGHT_MM,
            ),
        }
    }

    /// Draws the legend and the title block.
    pub(crate) fn draw(
        &self,
        root: &mut Group,
        block: &TitleBlock,
        entries: &[LegendEntry],
        sheet: usize,
        of: usize,
    ) {
        let mut legend = Group::new("legend");
        for ((row, x), entry) in flow(entries, self.legend.width).into_iter().zip(entries) {
            let corner = (self.legend.x + x, self.legend.y + row as f64 * LEGEND_ROW_MM);
            (entry.picture)(&mut legend, corner);
            let at = (corner.0 + entry.picture_width + picture_gap(entry), corner.1 + 2.9);
            legend.text(Layer::Frame, Text::new(at, entry.text.clone(), LEGEND_TEXT_MM).ink(Ink::Quiet));
        }
        root.group(legend);
        root.group(self.title_block(block, sheet, of));
    }

    fn title_block(&self, block: &TitleBlock, sheet: usize, of: usize) -> Group {
        let mut group = Group::new("title-block");
        let area = self.title;
        let line = Stroke::solid(Ink::Outline, 0.25);
        group.rectangle(Layer::Frame, area, 0.0, Some(Stroke::solid(Ink::Outline, 0.5)), None);
        let mut put = |x: f64, y: f64, text: &str, size: f64, bold: bool, ink: Ink, room: f64| {
            let mut text =
                Text::new((area.x + x, area.y + y), shortened(text, size, bold, room), size).ink(ink);
            text.bold = bold;
            group.text(Layer::Frame, text);
        };
        let room = area.width - 4.0;
        put(2.0, 5.6, &block.site, 4.2, true, Ink::Text, room);
        put(2.0, 9.6, &block.subject, 3.0, false, Ink::Text, room);
        put(2.0, 13.2, &block.note, 2.4, false, Ink::Quiet, room);
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
            put(x, 19.3, label, 2.4, false, Ink::Quiet, third);
            let label_width = text_width_mm(label, 2.4, false) + 1.6;
            put(x + label_width, 19.3, value, 2.7, true, Ink::Text, third - label_width - 3.0);
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

/// Text that is made smaller, then shortened, until it fits.
pub(crate) fn fitted(at: (f64, f64), text: &str, size: f64, least: f64, bold: bool, room: f64) -> Text {
    let width = text_width_mm(text, size, bold);
    let size = if width > room { (size * room / width).max(least) } else { size };
    let mut fitted = Text::new(at, shortened(text, size, bold, room + 1e-9), size);
    fitted.bold = bold;
    fitted
}

/// A caption in the middle above or below something.
pub(crate) fn centred(at: (f64, f64), text: &str, size: f64, bold: bool, room: f64) -> Text {
    fitted(at, text, size, size * 0.8, bold, room).anchored(Anchor::Middle)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sheet_sizes_are_those_of_iso_216() {
        // ISO 216: A4 is 210 mm x 297 mm, A3 297 mm x 420 mm.
        let a4: SheetSize = "A4".parse().unwrap();
        assert_eq!((a4.width_mm, a4.height_mm), (297.0, 210.0));
        let a3: SheetSize = "a3-upright".parse().unwrap();
        assert_eq!((a3.width_mm, a3.height_mm), (297.0, 420.0));
        let custom: SheetSize = "120x300".parse().unwrap();
        assert_eq!((custom.width_mm, custom.height_mm), (120.0, 300.0));
    }

    #[test]
    fn unusable_sizes_are_refused() {
        for text in ["", "a9", "10x10", "1e9x100", "nanx100", "100x", "x"] {
            assert!(text.parse::<SheetSize>().is_err(), "{text}");
        }
    }
}
