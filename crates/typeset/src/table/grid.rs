//! The rules and boxes of a table, and the marks of its cells.

use crate::cell::CELL_SIDE_MM;
use crate::flow::{FILING_MM, Flow, MIDDLE_MM, THIN_MM};
use crate::page::Mark;
use crate::text::Style;

/// Above and below the text of a cell.
pub(super) const CELL_ABOVE_MM: f64 = 0.75;

/// The marks of a cell's lines whose row begins at the flow's place.
pub(super) fn cell_marks(
    flow: &Flow<'_>,
    lines: &[String],
    style: Style,
    (x, width): (f64, f64),
    to_right: bool,
) -> Vec<Mark> {
    let mark = |(index, line): (usize, &String)| {
        let left = if to_right {
            x + width - CELL_SIDE_MM - style.width_mm(flow.fonts, line)
        } else {
            x + CELL_SIDE_MM
        };
        Mark::Text {
            at: (left, flow.y + CELL_ABOVE_MM + index as f64 * style.line_mm() + style.baseline_mm()),
            text: line.clone(),
            size_mm: style.size_mm,
            bold: style.bold,
            is_white: false,
        }
    };
    lines.iter().enumerate().map(mark).collect()
}

/// Rules and boxes of the rows on one page.
pub(super) struct Grid {
    pub(super) top: f64,
    /// Below each row: where and how thick.
    pub(super) lines: Vec<(f64, f64)>,
    /// Rows without rules between their columns.
    pub(super) fills: Vec<(f64, f64)>,
    pub(super) marks: Vec<Mark>,
}

impl Grid {
    /// Draws them: they are no content.
    pub(super) fn finish(&mut self, flow: &mut Flow<'_>, widths: &[f64]) {
        let right = FILING_MM + widths.iter().sum::<f64>();
        let line = |from, to, width_mm| Mark::Line { from, to, width_mm };
        let mut marks = std::mem::take(&mut self.marks);
        marks.push(line((FILING_MM, self.top), (right, self.top), MIDDLE_MM));
        for (y, width_mm) in self.lines.drain(..) {
            marks.push(line((FILING_MM, y), (right, y), width_mm));
        }
        let bottom = flow.y;
        let fills = std::mem::take(&mut self.fills);
        let mut x = FILING_MM;
        for index in 0..=widths.len() {
            let is_edge = index == 0 || index == widths.len();
            let mut from = self.top;
            for (top, end) in fills.iter().copied().filter(|_| !is_edge) {
                if top > from + 1e-9 {
                    marks.push(line((x, from), (x, top), THIN_MM));
                }
                from = end;
            }
            if bottom > from + 1e-9 {
                marks.push(line((x, from), (x, bottom), if is_edge { MIDDLE_MM } else { THIN_MM }));
            }
            x += widths.get(index).copied().unwrap_or(0.0);
        }
        flow.page().artifact(marks);
    }
}
