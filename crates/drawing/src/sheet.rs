//! Sizes of sheets, what they are drawn for, and what their title block says.

use crate::language::{Lettering, Phrase, Word};
use latchline_assess::Assessment;
use latchline_finding::{Both, Locale};
use latchline_scene::font::{CAPITAL_EM, LEAST_MM, shortened, text_width_mm};
use latchline_scene::palette::Ink;
use latchline_scene::{Anchor, Area, Group, Layer, Text};
use latchline_site::model::Site;
use latchline_words::refusals::ArgumentRefusal;
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
    /// ANSI letter on its side (8.5 in x 11 in).
    pub const LETTER: Self = Self { width_mm: 279.4, height_mm: 215.9 };
    /// ANSI letter upright.
    pub const LETTER_UPRIGHT: Self = Self { width_mm: 215.9, height_mm: 279.4 };
    /// ANSI tabloid on its side (11 in x 17 in).
    pub const TABLOID: Self = Self { width_mm: 431.8, height_mm: 279.4 };
    /// A narrow sheet that fills the screen of a phone.
    pub const PHONE: Self = Self { width_mm: 120.0, height_mm: 240.0 };

    /// Least edge of a sheet that a drawing still fits on.
    pub const LEAST_MM: f64 = 90.0;
    /// Greatest edge of a sheet.
    pub const GREATEST_MM: f64 = 5000.0;
}

/// A sheet size that cannot be used, as it was written.
#[derive(Debug, Clone, PartialEq)]
pub struct BadSheetSize(String);

impl BadSheetSize {
    /// What is wrong with it, in both languages.
    pub fn both(&self) -> Both {
        let (least, most) = (&SheetSize::LEAST_MM.to_string(), &SheetSize::GREATEST_MM.to_string());
        ArgumentRefusal::SheetSize { text: &self.0, least, most }.both()
    }
}

impl FromStr for SheetSize {
    type Err = BadSheetSize;

    fn from_str(text: &str) -> Result<Self, BadSheetSize> {
        let named = match text.to_ascii_lowercase().as_str() {
            "a4" => Some(Self::A4),
            "a4-upright" => Some(Self::A4_UPRIGHT),
            "a3" => Some(Self::A3),
            "a3-upright" => Some(Self::A3_UPRIGHT),
            "letter" => Some(Self::LETTER),
            "letter-upright" => Some(Self::LETTER_UPRIGHT),
            "tabloid" => Some(Self::TABLOID),
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
    /// The hash of the input, shortened, in the title block.
    pub input: Option<String>,
    /// The number of the drawing in the title block; the number of the sheet is put behind it.
    pub number: Option<String>,
    /// What is said large across each sheet: that the site fails.
    pub warning: Option<String>,
    /// Whether the cards of dwellings name who lives there.
    pub with_names: bool,
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
    /// Which kind of document it is.
    pub kind: Option<Word>,
    /// The revision: a hash of the input, shortened.
    pub revision: Option<String>,
    /// The date, as it was passed in.
    pub date: Option<String>,
    /// The hash of the input, as it was passed in.
    pub input: Option<String>,
    /// The number of the drawing, without that of the sheet.
    pub number: Option<String>,
    /// What is said large across the sheet.
    pub warning: Option<String>,
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
            kind: None,
            revision: options.revision.clone(),
            date: options.date.clone(),
            input: options.input.clone(),
            number: options.number.clone(),
            warning: options.warning.clone(),
            locale: options.locale,
        }
    }

    /// The same of a kind of document.
    pub(crate) fn of_kind(self, kind: Word) -> Self {
        TitleBlock { kind: Some(kind), ..self }
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
pub(crate) type DrawPicture = dyn Fn(&mut Group, (f64, f64));

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

/// Text that is made smaller, down to the least size on paper, then shortened, until it fits.
pub(crate) fn fitted(at: (f64, f64), text: &str, size: f64, bold: bool, room: f64) -> Text {
    let width = text_width_mm(text, size, bold);
    let size = if width > room { (size * room / width).max(LEAST_MM) } else { size };
    let mut fitted = Text::new(at, shortened(text, size, bold, room + 1e-9), size);
    fitted.bold = bold;
    fitted
}

/// A filled strip that says that a number is double.
pub(crate) fn double_strip(group: &mut Group, strip: Area, words: &str, size: f64) {
    group.rectangle(Layer::Trouble, strip, 0.0, None, Some(Ink::Trouble));
    let baseline = strip.y + (strip.height + size * CAPITAL_EM) / 2.0;
    let words = fitted((strip.x + 1.0, baseline), words, size, true, strip.width - 2.0);
    group.text(Layer::Trouble, words.ink(Ink::Paper));
}

/// A caption in the middle above or below something.
pub(crate) fn centred(at: (f64, f64), text: &str, size: f64, bold: bool, room: f64) -> Text {
    fitted(at, text, size, bold, room).anchored(Anchor::Middle)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sheet_sizes_are_those_of_iso_216() {
        // ISO 216: A4 is 210 mm x 297 mm, A3 297 mm x 420 mm.
        // ANSI/ASME Y14.1: letter (A) is 8.5 in x 11 in, tabloid (B) 11 in x 17 in; an inch is 25.4 mm.
        let inches = |sheet: SheetSize| (sheet.width_mm / 25.4, sheet.height_mm / 25.4);
        for (name, (width, height)) in
            [("letter", (11.0, 8.5)), ("letter-upright", (8.5, 11.0)), ("tabloid", (17.0, 11.0))]
        {
            let found = inches(name.parse().unwrap());
            assert!((found.0 - width).abs() < 1e-9 && (found.1 - height).abs() < 1e-9, "{name}");
        }
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
