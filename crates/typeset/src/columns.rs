//! How wide the columns of a table are.

use crate::cell::{CELL_SIDE_MM, ShownCell};
use crate::flow::BODY_BOLD;
use crate::font::Fonts;
use crate::text::{Style, widest_word_mm};

/// No word asks for more than this.
const MOST_WORD_MM: f64 = 42.0;
/// No column asks for more than this.
const MOST_FULL_MM: f64 = 150.0;
/// A text this short is kept in one line.
const SHORT_MM: f64 = 20.0;
/// Room to write a reading.
const WRITE_IN_MM: f64 = 18.0;
/// A column with boxes to tick.
const TICK_COLUMN_MM: f64 = 8.0;

/// What a column wants.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Want {
    /// Width at which no ordinary word is broken.
    pub(crate) least_mm: f64,
    /// Width at which no text is broken.
    pub(crate) full_mm: f64,
    /// Width of all its texts in one line: how much it gains from more width.
    text_mm: f64,
}

impl Want {
    /// Of a column with this heading and these cells.
    pub(crate) fn new(
        fonts: &Fonts,
        heading: &str,
        cells: &mut dyn Iterator<Item = (&ShownCell, Style)>,
    ) -> Want {
        let sides = 2.0 * CELL_SIDE_MM;
        let mut want = Want {
            least_mm: widest_word_mm(fonts, heading, BODY_BOLD).min(MOST_WORD_MM),
            full_mm: BODY_BOLD.width_mm(fonts, heading).min(2.0 * WRITE_IN_MM),
            text_mm: 0.0,
        };
        let mut widest: f64 = 0.0;
        for (cell, style) in cells {
            let (least, full) = match cell {
                ShownCell::Words(text) => {
                    let lines = text.lines().map(|line| style.width_mm(fonts, line));
                    let full = lines.fold(0.0, f64::max);
                    let least = if full > SHORT_MM.max(want.least_mm) {
                        widest_word_mm(fonts, text, style)
                    } else {
                        full
                    };
                    (least, full)
                }
                // A number is never broken.
                ShownCell::Number(text) => {
                    let full = style.width_mm(fonts, text);
                    (full, full)
                }
                ShownCell::Tick => (TICK_COLUMN_MM - sides, TICK_COLUMN_MM - sides),
                ShownCell::WriteIn => (WRITE_IN_MM - sides, WRITE_IN_MM * 1.2 - sides),
            };
            want.least_mm = want.least_mm.max(least.min(MOST_WORD_MM));
            widest = widest.max(full);
            want.text_mm += full;
        }
        want.full_mm = want.full_mm.max(widest.min(MOST_FULL_MM)).max(want.least_mm) + sides;
        want.least_mm += sides;
        want
    }
}

/// The widths of all columns, together exactly `room_mm` wide.
pub(crate) fn widths(wants: &[Want], room_mm: f64) -> Vec<f64> {
    let least: f64 = wants.iter().map(|want| want.least_mm).sum();
    if least >= room_mm {
        return shared(wants, room_mm);
    }
    let mut widths: Vec<f64> = wants.iter().map(|want| want.least_mm).collect();
    let mut rest = room_mm - least;
    // What is left goes to columns by how much text they hold, none beyond what it wants.
    loop {
        let open: Vec<usize> =
            (0..wants.len()).filter(|at| wants[*at].full_mm > widths[*at] + 1e-9).collect();
        let weight: f64 = open.iter().map(|at| wants[*at].text_mm.max(1.0)).sum();
        if open.is_empty() || rest < 1e-9 {
            break;
        }
        let given = rest;
        for at in open {
            let wanted = wants[at].full_mm - widths[at];
            let share = (given * wants[at].text_mm.max(1.0) / weight).min(wanted);
            widths[at] += share;
            rest -= share;
        }
    }
    // Room that nobody needs is shared in proportion, so that the table is as wide as the text.
    let all: f64 = widths.iter().sum();
    widths.iter().map(|width| width * room_mm / all).collect()
}

/// Too little room for every word: the widest columns give way first.
fn shared(wants: &[Want], room_mm: f64) -> Vec<f64> {
    let mut sorted: Vec<f64> = wants.iter().map(|want| want.least_mm).collect();
    sorted.sort_by(f64::total_cmp);
    let mut left = room_mm;
    let mut most = room_mm;
    for (index, width) in sorted.iter().enumerate() {
        most = left / (sorted.len() - index) as f64;
        if *width >= most {
            break;
        }
        left -= width;
    }
    wants.iter().map(|want| want.least_mm.min(most)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn want(least_mm: f64, full_mm: f64, text_mm: f64) -> Want {
        Want { least_mm, full_mm, text_mm }
    }

    #[test]
    fn columns_fill_the_page_and_hold_their_words() {
        let cases = [
            vec![want(10.0, 20.0, 5.0), want(10.0, 200.0, 500.0)],
            vec![want(10.0, 12.0, 5.0); 4],
            vec![want(30.0, 60.0, 100.0), want(80.0, 300.0, 900.0), want(20.0, 20.0, 10.0)],
        ];
        for wants in cases {
            let widths = widths(&wants, 180.0);
            assert!((widths.iter().sum::<f64>() - 180.0).abs() < 1e-6, "{widths:?}");
            assert!(
                widths.iter().zip(&wants).all(|(width, want)| *width >= want.least_mm - 1e-9),
                "{widths:?}"
            );
        }
    }

    #[test]
    fn where_there_is_too_little_room_the_widest_give_way() {
        let wants = [want(20.0, 20.0, 1.0), want(150.0, 150.0, 1.0), want(130.0, 130.0, 1.0)];
        assert_eq!(widths(&wants, 180.0), [20.0, 80.0, 80.0]);
    }
}
