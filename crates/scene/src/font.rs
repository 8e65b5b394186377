//! How wide a text is.
//!
//! Widths are those of the common sans family (see `font_widths.rs`); a character outside
//! the table counts as one em, which is at least its width in the scripts that a sans fallback
//! draws at full width. The SVG backend also pins every text to the width measured here, so a text
//! keeps its box even where another font has to stand in.

use crate::font_widths::{UNITS_PER_EM, WIDTHS};

/// Height of the box of a text above its baseline, in ems.
pub const ASCENT_EM: f64 = 1854.0 / UNITS_PER_EM;
/// Depth of the box of a text below its baseline, in ems.
pub const DESCENT_EM: f64 = 434.0 / UNITS_PER_EM;
/// Height of a capital letter, in ems.
pub const CAPITAL_EM: f64 = 1409.0 / UNITS_PER_EM;

/// The least font size on paper: capitals of 1.8 mm (ISO 3098-1, nominal size 1.8; from memory).
pub const LEAST_MM: f64 = 2.65;
/// The least font size of what is read on a ladder: capitals of 2.5 mm (ISO 3098-1, nominal size 2.5; from memory).
pub const LADDER_MM: f64 = 3.7;
/// From one baseline to the next, in sizes.
pub const LEADING: f64 = 1.17;

/// Width of a text in millimetres at a font size in millimetres.
pub fn text_width_mm(text: &str, size_mm: f64, bold: bool) -> f64 {
    text.chars().map(|character| advance_units(character, bold)).sum::<f64>() * size_mm / UNITS_PER_EM
}

fn advance_units(character: char, bold: bool) -> f64 {
    let code = u32::from(character);
    let row = WIDTHS.partition_point(|row| row.first <= code).checked_sub(1).map(|index| &WIDTHS[index]);
    row.and_then(|row| {
        let widths = if bold { row.bold } else { row.regular };
        widths.get((code - row.first) as usize)
    })
    .map_or(UNITS_PER_EM, |width| f64::from(*width))
}

/// The text, shortened with an ellipsis in its middle so that it is no wider than `room_mm`.
pub fn shortened(text: &str, size_mm: f64, bold: bool, room_mm: f64) -> String {
    if text_width_mm(text, size_mm, bold) <= room_mm {
        return text.to_string();
    }
    let characters: Vec<char> = text.chars().collect();
    for kept in (1..characters.len()).rev() {
        let front = kept.div_ceil(2);
        let back = characters.len() - (kept - front);
        let mut short: String = characters[..front].iter().collect();
        short.push('…');
        short.extend(&characters[back..]);
        if text_width_mm(&short, size_mm, bold) <= room_mm {
            return short;
        }
    }
    String::from("…")
}

/// Where a word may be divided (soft hyphen).
const DIVIDES: char = '\u{ad}';

/// A text that stands on one line: without the places where its words may be divided.
pub fn undivided(text: &str) -> String {
    text.replace(DIVIDES, "")
}

/// Lines no wider than the room, broken at spaces, in a word that is too wide where it says that it divides, and
/// anywhere within one only where it is wider than a line.
pub fn wrapped(text: &str, size_mm: f64, bold: bool, room_mm: f64) -> Vec<String> {
    let fits = |line: &str| text_width_mm(line, size_mm, bold) <= room_mm + 1e-6;
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let before = if line.is_empty() { String::new() } else { format!("{line} ") };
        let whole: String = word.chars().filter(|sign| *sign != DIVIDES).collect();
        let longer = format!("{before}{whole}");
        if fits(&longer) {
            line = longer;
            continue;
        }
        let mut rest = whole;
        if let Some((first, second)) = word.split_once(DIVIDES) {
            let divided = format!("{before}{first}-");
            if fits(&divided) {
                lines.push(divided);
                line.clear();
                rest = second.to_string();
            }
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        for sign in rest.chars() {
            if !line.is_empty() && !fits(&format!("{line}{sign}")) {
                // Designations have signs behind which a reader expects them to go on.
                let at = line.rfind(['/', ':', '-', '_']).map_or(line.len(), |at| at + 1);
                let second = line.split_off(at);
                lines.push(std::mem::replace(&mut line, second));
            }
            line.push(sign);
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn widths_are_those_of_the_metric_compatible_family() {
        // Helvetica's published AFM widths per 1000 em: space 278, A 667, m 833, zero 556; bold A 722.
        for (text, bold, per_mille) in [
            (" ", false, 278.0),
            ("A", false, 667.0),
            ("m", false, 833.0),
            ("0", false, 556.0),
            ("A", true, 722.0),
        ] {
            let width = text_width_mm(text, 1000.0, bold);
            assert!((width - per_mille).abs() < 0.6, "{text}: {width}");
        }
    }

    #[test]
    fn designations_go_on_behind_their_signs() {
        let lines = wrapped("gate/light1-supply:out1", 3.7, false, 26.0);
        assert_eq!(lines, ["gate/light1-", "supply:out1"]);
    }

    #[test]
    fn words_divide_where_they_say() {
        let word = "Schloss\u{ad}ausgang 1";
        assert_eq!(wrapped(word, 3.7, false, 40.0), ["Schlossausgang 1"]);
        assert_eq!(wrapped(word, 3.7, false, 20.0), ["Schloss-", "ausgang 1"]);
        assert_eq!(wrapped("am Schloss\u{ad}ausgang", 3.7, false, 24.0), ["am Schloss-", "ausgang"]);
    }

    #[test]
    fn unknown_characters_count_one_em() {
        assert_eq!(text_width_mm("門", 3.0, false), 3.0);
    }

    #[test]
    fn shortening_fits_and_keeps_both_ends() {
        let text = "Penthouse with roof terrace, east";
        let short = shortened(text, 3.0, true, 25.0);
        assert!(text_width_mm(&short, 3.0, true) <= 25.0);
        assert!(short.starts_with("Pent") && short.ends_with("ast"), "{short}");
        assert_eq!(shortened("A-1", 3.0, true, 25.0), "A-1");
        assert_eq!(shortened("wide", 3.0, true, 0.1), "…");
    }
}
