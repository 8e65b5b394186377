//! The embedded font: which glyph stands for which character, and how wide it is.
//!
//! Liberation Sans 2.1.5 (SIL Open Font License 1.1, `fonts/LICENSE`), regular and bold, has the widths that the
//! drawings are measured with. Of each only the glyphs that occur go into a file. A character without a glyph, and
//! one whose script wants shaping or reads from right to left, is shown as [`REPLACEMENT`]; its text stays in the
//! file, and the pack says which characters these are.

use crate::error::TypesetError;
use crate::pdf::font::TrueType;
use std::collections::BTreeMap;

static REGULAR: &[u8] = include_bytes!("../fonts/LiberationSans-Regular.ttf");
static BOLD: &[u8] = include_bytes!("../fonts/LiberationSans-Bold.ttf");
/// Names of the two in a file.
pub(crate) const NAMES: [&str; 2] = ["LiberationSans", "LiberationSans-Bold"];

/// What is shown in place of a character without a glyph.
pub(crate) const REPLACEMENT: char = '□';
/// Characters from here on have no glyph in the font but for ligatures and marks that no text here uses.
const END_OF_TABLE: usize = 0x2700;
/// The page is set in millimetres, the font in points.
pub(crate) const MM_PER_POINT: f64 = 25.4 / 72.0;

#[derive(Debug, Clone, Copy)]
struct Glyph {
    /// 0: none.
    id: u16,
    /// In ems.
    advance: f64,
}

/// One weight.
struct Face {
    font: TrueType,
    /// By character.
    glyphs: Vec<Glyph>,
    replacement: Glyph,
}

impl Face {
    fn new(data: &'static [u8]) -> Option<Face> {
        let font = TrueType::new(data)?;
        let mut glyphs = vec![Glyph { id: 0, advance: 1.0 }; END_OF_TABLE];
        for (code, id) in font.characters()? {
            let sign = char::from_u32(u32::from(code));
            if let Some(place) = glyphs.get_mut(usize::from(code))
                && sign.is_some_and(is_plain)
            {
                *place = Glyph { id, advance: f64::from(font.advance(id)?) / f64::from(font.units_per_em) };
            }
        }
        let replacement = *glyphs.get(REPLACEMENT as usize).filter(|glyph| glyph.id > 0)?;
        Some(Face { font, glyphs, replacement })
    }

    fn glyph(&self, sign: char) -> Option<Glyph> {
        self.glyphs.get(sign as usize).copied().filter(|glyph| glyph.id > 0)
    }
}

/// Whether a character may be set by itself, from left to right: no control, no mark that steers or joins others,
/// none of the scripts that read from right to left.
fn is_plain(sign: char) -> bool {
    let steers = matches!(
        sign,
        '\u{ad}' | '\u{300}'..='\u{36f}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}'
    );
    !sign.is_control() && !steers && !matches!(sign, '\u{590}'..='\u{8ff}')
}

/// A text as glyphs.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Set<'t> {
    /// In bold.
    pub(crate) bold: bool,
    /// Its pieces.
    pub(crate) runs: Vec<Run<'t>>,
}

/// Glyphs that stand for themselves, or one that stands for a character without.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Run<'t> {
    /// Their numbers.
    pub(crate) glyphs: Vec<u16>,
    /// The character without a glyph.
    pub(crate) missing: Option<&'t str>,
    /// Room before and after, in ems.
    pub(crate) before: f64,
    /// See `before`.
    pub(crate) after: f64,
}

/// Both weights.
pub(crate) struct Fonts {
    faces: [Face; 2],
}

/// The glyphs that a file uses, by weight, with the character that each stands for.
pub(crate) type Used = [BTreeMap<u16, char>; 2];

impl Fonts {
    /// Reads the embedded files.
    pub(crate) fn new() -> Result<Fonts, TypesetError> {
        let face = |data| Face::new(data).ok_or(TypesetError::Font);
        Ok(Fonts { faces: [face(REGULAR)?, face(BOLD)?] })
    }

    fn face(&self, bold: bool) -> &Face {
        &self.faces[usize::from(bold)]
    }

    /// The font file of a weight.
    pub(crate) fn font(&self, bold: bool) -> &TrueType {
        &self.face(bold).font
    }

    /// Whether a character is shown as itself.
    pub(crate) fn has(&self, sign: char) -> bool {
        sign.is_whitespace() || self.face(false).glyph(sign).is_some()
    }

    /// Width of a text in millimetres.
    pub(crate) fn width_mm(&self, text: &str, size_mm: f64, bold: bool) -> f64 {
        let face = self.face(bold);
        let ems: f64 =
            text.chars().map(|sign| face.glyph(spaced(sign)).map_or(1.0, |glyph| glyph.advance)).sum();
        ems * size_mm
    }

    /// The glyphs of a text, noted in `used`.
    pub(crate) fn set<'t>(&self, text: &'t str, bold: bool, used: &mut Used) -> Set<'t> {
        let face = self.face(bold);
        let used = &mut used[usize::from(bold)];
        let mut runs: Vec<Run<'t>> = Vec::new();
        for (at, sign) in text.char_indices() {
            if let Some(glyph) = face.glyph(spaced(sign)) {
                // Several characters may share a glyph; the text keeps the first.
                used.entry(glyph.id).or_insert_with(|| spaced(sign));
                match runs.last_mut().filter(|run| run.missing.is_none()) {
                    Some(run) => run.glyphs.push(glyph.id),
                    None => runs.push(Run { glyphs: vec![glyph.id], missing: None, before: 0.0, after: 0.0 }),
                }
            } else {
                let glyph = face.replacement;
                used.entry(glyph.id).or_insert(REPLACEMENT);
                // In the middle of one em, the width that such a character is measured with everywhere.
                let aside = (1.0 - glyph.advance) / 2.0;
                let missing = Some(&text[at..at + sign.len_utf8()]);
                runs.push(Run { glyphs: vec![glyph.id], missing, before: aside, after: aside });
            }
        }
        Set { bold, runs }
    }
}

/// Spaces of every kind, tabs and ends of lines are set as a space.
fn spaced(sign: char) -> char {
    if sign.is_whitespace() { ' ' } else { sign }
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_scene::font::text_width_mm;

    #[test]
    fn widths_are_those_that_drawings_are_measured_with() {
        let fonts = Fonts::new().unwrap();
        let mut differing = Vec::new();
        for bold in [false, true] {
            for sign in (0x20..0x2700).filter_map(char::from_u32).filter(|sign| !sign.is_whitespace()) {
                let text = sign.to_string();
                let (here, there) = (fonts.width_mm(&text, 1.0, bold), text_width_mm(&text, 1.0, bold));
                // A character that the drawings have no width for counts one em there.
                if (here - there).abs() >= 1e-6 && there != 1.0 && fonts.has(sign) {
                    differing.push((sign, bold, here, there));
                }
            }
        }
        assert!(differing.is_empty(), "{differing:?}");
    }

    #[test]
    fn characters_without_a_glyph_are_known() {
        let fonts = Fonts::new().unwrap();
        assert!("Änderung Ω ≥ ² → Ж ή □".chars().all(|sign| fonts.has(sign)));
        for sign in ['門', 'ש', 'ش', '\u{1f511}', '\u{202e}', '\u{200b}', '\u{7}', '\u{301}'] {
            assert!(!fonts.has(sign), "{sign:?}");
        }
        let mut used = Used::default();
        let set = fonts.set("a門b", true, &mut used);
        assert_eq!(set.runs.iter().map(|run| run.missing).collect::<Vec<_>>(), [None, Some("門"), None]);
        assert_eq!(used[1].values().collect::<String>().len(), "ab□".len());
    }
}
