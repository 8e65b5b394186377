//! How tall rows are and where pages of a printed sheet end.
//!
//! A spreadsheet sets neither by itself when a file comes from a program: heights are worked out here with the
//! widths of the common sans family, breaks so that no heading is left alone at the foot of a page and no
//! few rows on a page of their own.

use crate::options::Paper;
use latchline_drawing::font::text_width_mm;

/// Size of body text in points.
pub(super) const BODY_POINTS: f64 = 9.0;
const LINE_POINTS: f64 = 11.4;
/// What a row is taller than its lines.
const PADDING_POINTS: f64 = 2.1;
/// Most lines that a row is made tall for.
const MOST_LINES: usize = 30;
/// A column is not widened beyond so many characters for its heading.
const MOST_WIDENED: u8 = 24;
const MM_PER_POINT: f64 = 25.4 / 72.0;
/// Between text and both edges of its cell.
const CELL_EDGES_POINTS: f64 = 5.0;
/// Programs differ in how wide they make a column or a text.
const SAFETY: f64 = 0.98;
/// Left and right, top, and bottom margins in inches.
pub(super) const MARGINS_INCH: (f64, f64, f64) = (0.4, 0.5, 0.6);

/// Width of a column of so many characters where programs make it narrowest, for texts to be wrapped in: digits of
/// the standard font, Arial of 10 points, are rounded to seven pixels of 3/4 point, and five pixels are added.
pub(super) fn column_points(characters: u8) -> f64 {
    f64::from(u16::from(characters) * 7 + 5) * 0.75
}

/// Width of a column where programs make it widest, for pages to hold: digits are 10 points times 1139/2048.
pub(super) fn widest_column_points(characters: u8) -> f64 {
    (f64::from(characters) + 5.0 / 7.0) * 10.0 * 1139.0 / 2048.0
}

/// The least width in characters at which no word of a heading is broken.
pub(super) fn least_characters(heading: &str) -> u8 {
    let words: Vec<&str> = heading.split(' ').collect();
    let fits =
        |characters: &u8| words.iter().all(|word| wrapped_lines(word, column_points(*characters), true) == 1);
    (1..MOST_WIDENED).find(fits).unwrap_or(MOST_WIDENED)
}

/// Height of a row of so many lines.
pub(super) fn row_points(lines: usize) -> f64 {
    lines.clamp(1, MOST_LINES) as f64 * LINE_POINTS + PADDING_POINTS
}

/// Lines that a text takes when it is wrapped at its spaces in a cell of this width.
pub(super) fn wrapped_lines(text: &str, width_points: f64, bold: bool) -> usize {
    let room = ((width_points - CELL_EDGES_POINTS) * SAFETY).max(BODY_POINTS);
    let width = |text: &str| text_width_mm(text, BODY_POINTS * MM_PER_POINT, bold) / MM_PER_POINT;
    let space = width(" ");
    let mut lines = 0;
    for paragraph in text.lines() {
        lines += 1;
        let mut used = 0.0;
        for word in paragraph.split(' ') {
            let own = width(word);
            let wanted = if used > 0.0 { used + space + own } else { own };
            if wanted <= room {
                used = wanted;
                continue;
            }
            if used > 0.0 {
                lines += 1;
            }
            // A word that is longer than the line is broken wherever the line ends.
            let full = (own / room).ceil().max(1.0) - 1.0;
            lines += full as usize;
            used = own - full * room;
        }
    }
    lines.max(1)
}

/// A row below the headings of a sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct RowSize {
    pub(super) points: f64,
    /// Whether it heads the rows that follow.
    pub(super) is_heading: bool,
}

/// How a sheet is printed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Pages {
    /// In per cent.
    pub(super) scale: u16,
    /// The rows, counted from the first below the headings, before which a page ends.
    pub(super) breaks: Vec<usize>,
}

/// Rows that a heading must have beside it, and that a last page must hold to be worth its paper.
const LEAST_TOGETHER: usize = 2;
const LEAST_ON_LAST: usize = 6;

/// Lays the rows out: `head` is what stands once above the headings, `headings` what is repeated on each page.
pub(super) fn lay_out(paper: Paper, width_points: f64, head: f64, headings: f64, rows: &[RowSize]) -> Pages {
    let (paper_width, paper_height) = match paper {
        Paper::A4 => (841.9, 595.3),
        Paper::Letter => (792.0, 612.0),
    };
    let (side, top, bottom) = MARGINS_INCH;
    let fitting = SAFETY * (paper_width - 2.0 * side * 72.0) / width_points * 100.0;
    let widest = fitting.floor().clamp(10.0, 100.0) as u16;
    let height = SAFETY * (paper_height - (top + bottom) * 72.0);
    let at = |scale: u16| {
        let room = height / f64::from(scale) * 100.0;
        Pages { scale, breaks: breaks(room, head, headings, rows) }
    };
    // A sheet a little smaller that saves a page, or a page with a few rows, is the better one.
    let is_thin = |pages: &Pages| {
        pages.breaks.last().is_some_and(|last| rows.len() - last < LEAST_ON_LAST && pages.breaks.len() < 12)
    };
    let smallest = (f64::from(widest) * 0.88) as u16;
    let tried = (smallest..=widest).rev().map(at);
    let mut best = at(widest);
    for pages in tried {
        if (is_thin(&pages), pages.breaks.len()) < (is_thin(&best), best.breaks.len()) && is_thin(&best) {
            best = pages;
        }
    }
    best
}

/// Where pages of this height end.
fn breaks(room: f64, head: f64, headings: f64, rows: &[RowSize]) -> Vec<usize> {
    let mut breaks = Vec::new();
    let (mut start, mut used) = (0, head + headings);
    let mut row = 0;
    while row < rows.len() {
        if used + rows[row].points <= room || row == start {
            used += rows[row].points;
            row += 1;
            continue;
        }
        // Back to before a heading that would be left with too few of its rows.
        let from = row.saturating_sub(LEAST_TOGETHER).max(start + 1);
        let end = (from..row).find(|index| rows[*index].is_heading).unwrap_or(row);
        breaks.push(end);
        (start, used, row) = (end, headings, end);
    }
    breaks
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_are_wrapped_at_spaces_and_long_words_broken() {
        // A digit of Arial is 5/9 em wide: at 9 points 5.0 points, a space 2.5 points.
        let width = |digits: f64| digits * 5.005 / SAFETY + CELL_EDGES_POINTS;
        assert_eq!(wrapped_lines("1234 1234", width(9.0), false), 1);
        assert_eq!(wrapped_lines("1234 1234", width(8.0), false), 2);
        assert_eq!(wrapped_lines("12345678901234567890", width(8.0), false), 3);
        assert_eq!(wrapped_lines("1\n2", width(8.0), false), 2);
        assert_eq!(wrapped_lines("", width(8.0), false), 1);
    }

    #[test]
    fn a_column_is_as_wide_as_the_words_of_its_heading() {
        for heading in ["Trommellänge, m", "Loop resistance, ohm", ""] {
            let width = column_points(least_characters(heading));
            assert!(heading.split(' ').all(|word| wrapped_lines(word, width, true) == 1), "{heading}");
        }
        assert!(least_characters("Trommellänge, m") > 10);
    }

    fn rows(headings: &[usize], count: usize) -> Vec<RowSize> {
        (0..count).map(|row| RowSize { points: 10.0, is_heading: headings.contains(&row) }).collect()
    }

    #[test]
    fn a_heading_stays_with_its_rows() {
        assert_eq!(breaks(100.0, 0.0, 0.0, &rows(&[], 25)), [10, 20]);
        assert_eq!(breaks(100.0, 0.0, 0.0, &rows(&[9], 25)), [9, 19]);
        assert_eq!(breaks(100.0, 0.0, 0.0, &rows(&[8], 25)), [8, 18]);
        assert_eq!(breaks(100.0, 30.0, 10.0, &rows(&[], 25)), [6, 15, 24]);
    }

    #[test]
    fn every_row_is_on_one_page_however_tall() {
        let tall = vec![RowSize { points: 500.0, is_heading: false }; 3];
        assert_eq!(breaks(100.0, 20.0, 10.0, &tall), [1, 2]);
        let headings = rows(&(0..30).collect::<Vec<_>>(), 30);
        assert_eq!(breaks(100.0, 0.0, 0.0, &headings).len(), 3);
    }

    #[test]
    fn a_few_rows_do_not_get_a_page_of_their_own() {
        let paper = Paper::A4;
        // A4 on its side less the margins is 784.3 by 516.1 points, of which 98 % are used: 52 rows of 10 points
        // need 505.8 / 520, and 1000 points of width 768.6 / 1000.
        let loose = lay_out(paper, 500.0, 0.0, 0.0, &rows(&[], 52));
        assert_eq!((loose.scale, loose.breaks.len()), (97, 0), "{loose:?}");
        assert_eq!(lay_out(paper, 1000.0, 0.0, 0.0, &rows(&[], 20)).scale, 76);
    }
}
