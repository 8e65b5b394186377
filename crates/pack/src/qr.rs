//! QR codes (ISO/IEC 18004) as dark areas.

use latchline_scene::Area;
use qrcodegen::{DataTooLong, QrCode, QrCodeEcc, QrSegment, Version};

/// Light modules around a code that the standard asks for.
pub const QUIET_ZONE: usize = 4;
/// Bytes of a code of the largest version at level M in byte mode (ISO/IEC 18004, table 7), less what tells
/// their character set.
pub const MOST_BYTES: usize = 2329;
/// UTF-8 in the register of extended channel interpretations (AIM ITS/04-023; from memory). Without it a reader takes
/// bytes for ISO/IEC 8859-1, or guesses.
const ECI_UTF_8: u32 = 26;

/// The dark modules of a code.
pub struct Code {
    /// Modules along one edge, without quiet zone.
    pub size: usize,
    code: QrCode,
}

impl Code {
    /// The code of a text, with error correction of level M.
    ///
    /// # Errors
    /// If the text does not fit into the largest code.
    pub fn new(text: &str) -> Result<Code, DataTooLong> {
        let segments = if text.is_ascii() {
            QrSegment::make_segments(text)
        } else {
            vec![QrSegment::make_eci(ECI_UTF_8), QrSegment::make_bytes(text.as_bytes())]
        };
        let (least, most) = (Version::MIN, Version::MAX);
        let code = QrCode::encode_segments_advanced(&segments, QrCodeEcc::Medium, least, most, None, false)?;
        Ok(Code { size: code.size().unsigned_abs() as usize, code })
    }

    /// The dark modules as areas of unit height, those side by side joined; the corner of the quiet zone is (0, 0).
    pub fn areas(&self) -> Vec<Area> {
        let is_dark = |column: usize, row: usize| self.code.get_module(column as i32, row as i32);
        let mut areas = Vec::new();
        for row in 0..self.size {
            let mut column = 0;
            while column < self.size {
                let run = (column..self.size).take_while(|at| is_dark(*at, row)).count();
                if run > 0 {
                    let (x, y) = (column + QUIET_ZONE, row + QUIET_ZONE);
                    areas.push(Area::new(x as f64, y as f64, run as f64, 1.0));
                }
                column += run.max(1);
            }
        }
        areas
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longest_text_fits_in_any_characters() {
        for sign in ["a", "\u{1}", "é"] {
            let text = sign.repeat(MOST_BYTES / sign.len());
            assert!(Code::new(&text).is_ok(), "{sign:?}");
        }
        assert!(Code::new(&"é".repeat(MOST_BYTES / 2 + 2)).is_err());
    }
}
