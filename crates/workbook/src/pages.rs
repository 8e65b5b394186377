//! How tall rows are and where pages of a printed sheet end.
//!
//! A spreadsheet sets neither by itself when a file comes from a program: heights are worked out here with the
//! widths of the common sans family, breaks so that no heading is left alone at the foot of a page and no
//! few rows on a page of their own.

use latchline_handover::options::Paper;
use latchline_scene::font::text_width_mm;

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

/// The least width in characters at which no word of a text is broken.
pub(super) fn least_characters(text: &str, bold: bool) -> u8 {
    let widest = text.split([' ', '\n']).map(|word| width_points(word, bold)).fold(0.0, f64::max);
    (1..MOST_WIDENED)
        .find(|characters| widest <= text_room(column_points(*characters)))
        .unwrap_or(MOST_WIDENED)
}

/// Width of a text in points.
fn width_points(text: &str, bold: bool) -> f64 {
    text_width_mm(text, BODY_POINTS * MM_PER_POINT, bold) / MM_PER_POINT
}

/// What a text may take of a column of this width.
fn text_room(width_points: f64) -> f64 {
    ((width_points - CELL_EDGES_POINTS) * SAFETY).max(BODY_POINTS)
}

/// Height of a row of so many lines.
pub(super) fn row_points(lines: usize) -> f64 {
    lines.clamp(1, MOST_LINES) as f64 * LINE_POINTS + PADDING_POINTS
}

/// Lines that a text takes when it is wrapped at its spaces in a cell of this width.
pub(super) fn wrapped_lines(text: &str, width: f64, bold: bool) -> usize {
    let room = text_room(width);
    let width = |text: &str| width_points(text, bold);
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
    /// In per cent: 100, so that the body is printed in its own size, for every table whose columns fit the page.
    pub(super) scale: u16,
    /// The rows, counted from the first below the headings, before which a page ends.
    pub(super) breaks: Vec<usize>,
}

/// Rows that a heading must have beside it, and that a last page must hold to be worth its paper.
const LEAST_TOGETHER: usize = 2;
const LEAST_ON_LAST: usize = 6;

/// Width and height of a page on its side, less its margins and what programs differ by, in points.
fn room_points(paper: Paper) -> (f64, f64) {
    let (width, height) = match paper {
        Paper::A4 => (841.9, 595.3),
        Paper::Letter => (792.0, 612.0),
    };
    let (side, top, bottom) = MARGINS_INCH;
    (SAFETY * (width - 2.0 * side * 72.0), SAFETY * (height - (top + bottom) * 72.0))
}

/// How many characters so many columns may have together to fit a page.
pub(super) fn characters_of_page(paper: Paper, columns: usize) -> u32 {
    // What a column is wider than its characters is paid before they are counted.
    let edges = widest_column_points(0) * columns as f64;
    let digit = widest_column_points(1) - widest_column_points(0);
    ((room_points(paper).0 - edges) / digit).max(0.0) as u32
}

/// Lays the rows out: `head` is what stands once above the headings, `headings` what is repeated on each page.
pub(super) fn lay_out(paper: Paper, width_points: f64, head: f64, headings: f64, rows: &[RowSize]) -> Pages {
    let (width, height) = room_points(paper);
    let scale = (width / width_points * 100.0).floor().clamp(10.0, 100.0) as u16;
    let room = height / f64::from(scale) * 100.0;
    let mut breaks = breaks(room, head, headings, rows);
    if let Some(last) = breaks.last_mut() {
        // A few rows on a page of their own: some more come over from the page before.
        let wanted = rows.len().saturating_sub(LEAST_ON_LAST);
        let is_thin = rows.len() - *last < LEAST_ON_LAST;
        let fits = rows.iter().skip(wanted).map(|row| row.points).sum::<f64>() + headings <= room;
        let start = wanted - usize::from(wanted > 0 && rows[wanted - 1].is_heading);
        if is_thin && fits && start > 0 {
            *last = (*last).min(start);
        }
    }
    breaks.dedup();
    Pages { scale, breaks }
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
            let width = column_points(least_characters(heading, true));
            assert!(heading.split(' ').all(|word| wrapped_lines(word, width, true) == 1), "{heading}");
        }
        assert!(least_characters("Trommellänge, m", true) > 10);
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
        // A4 on its side less the margins is 784.3 by 516.1 points, of which 98 % are used: 50 rows of 10 points on a
        // page, and 1000 points of width 768.6 / 1000.
        assert_eq!(lay_out(paper, 500.0, 0.0, 0.0, &rows(&[], 50)), Pages { scale: 100, breaks: vec![] });
        assert_eq!(lay_out(paper, 500.0, 0.0, 0.0, &rows(&[], 52)), Pages { scale: 100, breaks: vec![46] });
        assert_eq!(lay_out(paper, 500.0, 0.0, 0.0, &rows(&[45], 52)), Pages { scale: 100, breaks: vec![45] });
        assert_eq!(lay_out(paper, 500.0, 0.0, 0.0, &rows(&[], 60)), Pages { scale: 100, breaks: vec![50] });
        assert_eq!(lay_out(paper, 1000.0, 0.0, 0.0, &rows(&[], 20)).scale, 76);
    }
}
