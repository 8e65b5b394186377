//! Breaking text into lines.

use crate::font::Fonts;

/// Size and weight of a text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Style {
    /// Font size in millimetres.
    pub(crate) size_mm: f64,
    /// Bold weight.
    pub(crate) bold: bool,
}

impl Style {
    /// From one baseline to the next, as a share of the size.
    const LEADING: f64 = 1.2;

    /// From one baseline to the next.
    pub(crate) fn line_mm(self) -> f64 {
        self.size_mm * Self::LEADING
    }

    /// From the top of a line to its baseline: the capitals stand in the middle of it.
    pub(crate) fn baseline_mm(self) -> f64 {
        (self.line_mm() + self.size_mm * latchline_scene::font::CAPITAL_EM) / 2.0
    }

    /// Width of a text.
    pub(crate) fn width_mm(self, fonts: &Fonts, text: &str) -> f64 {
        fonts.width_mm(text, self.size_mm, self.bold)
    }
}

/// Lines of a text no wider than `room_mm`, broken at spaces; a longer word is broken after a sign between its parts
/// if it can be, and anywhere else if it must be. Every line has at least one character.
pub(crate) fn wrapped(fonts: &Fonts, text: &str, style: Style, room_mm: f64) -> Vec<String> {
    // What is measured by adding up the same widths in another order may differ in its last digit.
    let room_mm = room_mm + 1e-6;
    let space = style.width_mm(fonts, " ");
    let mut lines = Vec::new();
    for paragraph in text.lines() {
        let mut line = String::new();
        let mut used = 0.0;
        for word in paragraph.split(char::is_whitespace).filter(|word| !word.is_empty()) {
            let own = style.width_mm(fonts, word);
            if !line.is_empty() && used + space + own <= room_mm {
                line.push(' ');
                line.push_str(word);
                used += space + own;
                continue;
            }
            if !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            let mut rest = word;
            while style.width_mm(fonts, rest) > room_mm {
                let end = break_of(fonts, rest, style, room_mm);
                if end == rest.len() {
                    break;
                }
                lines.push(rest[..end].to_string());
                rest = &rest[end..];
            }
            line.push_str(rest);
            used = style.width_mm(fonts, rest);
        }
        if !line.is_empty() || paragraph.trim().is_empty() {
            lines.push(line);
        }
    }
    if lines.is_empty() {
        lines.push(String::new());
    }
    lines
}

/// Where a word that is too long is broken: bytes that stay on the line.
fn break_of(fonts: &Fonts, word: &str, style: Style, room_mm: f64) -> usize {
    let mut used = 0.0;
    let (mut last, mut after_sign) = (0, 0);
    for (at, sign) in word.char_indices() {
        let end = at + sign.len_utf8();
        used += style.width_mm(fonts, &word[at..end]);
        if used > room_mm && at > 0 {
            break;
        }
        last = end;
        if matches!(sign, '-' | '/' | ':' | '.' | ',' | '_' | '(' | '–') {
            after_sign = end;
        }
    }
    if after_sign > 0 { after_sign } else { last.max(word.chars().next().map_or(0, char::len_utf8)) }
}

/// Width of the widest word.
pub(crate) fn widest_word_mm(fonts: &Fonts, text: &str, style: Style) -> f64 {
    text.split(char::is_whitespace).map(|word| style.width_mm(fonts, word)).fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    const STYLE: Style = Style { size_mm: 1.0, bold: false };

    #[test]
    fn lines_break_at_spaces_then_at_signs_then_anywhere() {
        let fonts = Fonts::new().unwrap();
        // A digit is 1139/2048 em wide, a space 569/2048, a hyphen 682/2048.
        let digits = |count: f64| count * 1139.0 / 2048.0;
        let lines = |text: &str, room: f64| wrapped(&fonts, text, STYLE, room);
        assert_eq!(lines("1234 1234", digits(9.0)), ["1234 1234"]);
        assert_eq!(lines("1234 1234", digits(8.0)), ["1234", "1234"]);
        assert_eq!(lines("12345678-1234", digits(10.0)), ["12345678-", "1234"]);
        assert_eq!(lines("12345678", digits(3.0)), ["123", "456", "78"]);
        assert_eq!(lines("1\n\n2", digits(3.0)), ["1", "", "2"]);
        assert_eq!(lines("", 1.0), [""]);
        assert_eq!(lines("12", 0.0), ["1", "2"], "never an empty line for ever");
    }
}
