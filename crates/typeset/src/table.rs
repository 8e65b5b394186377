//! A table over as many pages as it needs.
//!
//! Columns share the width of the page by what is in them; a page lies on its side where that saves pages. The
//! headings are repeated on each page, a heading over rows too, with the word "continued". Rows are never split
//! unless one is taller than a page, rows under one heading stay together where a page holds them, and the last page
//! is not left with a few rows where those before it can share.

mod breaks;
mod grid;

use crate::cell::{CELL_SIDE_MM, ShownCell};
use crate::columns;
use crate::flow::{
    BODY, BODY_BOLD, FILING_MM, Flow, MIDDLE_MM, Running, THICK_MM, THIN_MM, Way, page_size, text_width,
};
use crate::font::Fonts;
use crate::page::{Child, Element, Kind, Mark, Section};
use crate::text::{Style, wrapped};
use breaks::{LEAST_FILLED, LEAST_TOGETHER, Measured, breaks};
use grid::{CELL_ABOVE_MM, Grid, cell_marks};
use latchline_finding::Language;
use latchline_handover::locale::Locale;
use latchline_handover::{Cell, Paper, Row, Table};
use latchline_words::typeset::Sentence;

/// Least height of a row with room to write by hand (common practice, no source).
const WRITE_IN_ROW_MM: f64 = 7.0;
/// Edge of a box to tick.
const TICK_MM: f64 = 3.6;
/// Lightness of the head of a table, and of a heading over rows.
const HEAD_FILL: u8 = 222;
const GROUP_FILL: u8 = 240;

/// The part with this table, from its title on.
pub(crate) fn section<'f>(
    fonts: &'f Fonts,
    table: &Table,
    notes: &[&str],
    paper: Paper,
    running: Running,
    locale: &Locale,
) -> Section<'f> {
    let shown = Shown::new(fonts, table, locale);
    let way = shown.way(fonts, paper);
    let size = page_size(paper, way);
    let mut flow = Flow::new(fonts, size, running);
    flow.heading(&table.title, 1);
    for note in notes {
        flow.paragraph(note, BODY);
    }
    flow.y += 1.5;
    let widths = columns::widths(&shown.columns, flow.width());
    set(&mut flow, &shown, &widths, locale.language);
    flow.finish()
}

enum ShownRow {
    Heading(String),
    Cells(Vec<ShownCell>, Style),
}

/// The columns of a table that are printed, by index: what the headings over the rows say is not said in each row again.
fn printed_columns(table: &Table) -> Vec<usize> {
    (0..table.columns.len()).filter(|index| !table.columns[*index].is_said_above).collect()
}

/// Of each row, whether it is the same thing as the one before.
fn joins(table: &Table, rows: usize) -> Vec<bool> {
    let things: Vec<Option<&[Cell]>> = table
        .rows
        .iter()
        .map(|row| match row {
            Row::Cells(cells) => cells.get(..table.columns_of_one_thing).filter(|thing| !thing.is_empty()),
            Row::Heading(_) => None,
        })
        .collect();
    let is_same = |row: usize| {
        let thing = things.get(row).copied().flatten();
        row > 0 && thing.is_some() && thing == things[row - 1]
    };
    (0..rows).map(is_same).collect()
}

/// A table in words, with what its columns want.
struct Shown {
    /// Headings, and whether the column holds numbers, which stand at its right.
    headings: Vec<(String, bool)>,
    rows: Vec<ShownRow>,
    /// Of each row, whether no page parts it from the one before.
    joins: Vec<bool>,
    columns: Vec<columns::Want>,
    /// Whether no page parts what stands under one heading, where a page holds it.
    keeps_groups: bool,
}

impl Shown {
    fn new(fonts: &Fonts, table: &Table, locale: &Locale) -> Shown {
        let printed = printed_columns(table);
        let mut rows = Vec::with_capacity(table.rows.len() + 1);
        for row in &table.rows {
            rows.push(match row {
                Row::Heading(text) => ShownRow::Heading(text.clone()),
                Row::Cells(cells) => {
                    let shown = printed.iter().map(|index| {
                        let (cell, column) = (&cells[*index], &table.columns[*index]);
                        let text = || locale.cell_text(cell, Some(column));
                        match cell {
                            Cell::Tick | Cell::Passed => ShownCell::Tick,
                            Cell::WriteIn | Cell::Choice(_) => ShownCell::WriteIn,
                            Cell::Empty | Cell::Text(_) | Cell::Date(_) | Cell::Written { .. } => {
                                ShownCell::Words(text())
                            }
                            Cell::Count(_)
                            | Cell::Quantity { .. }
                            | Cell::Money(_)
                            | Cell::Product { .. } => ShownCell::Number(text()),
                        }
                    });
                    ShownRow::Cells(shown.collect(), BODY)
                }
            });
        }
        if table.has_sums() && !table.rows.is_empty() {
            rows.push(ShownRow::Cells(totals(table, &printed, locale), BODY_BOLD));
        }
        let cells = |index: usize| {
            rows.iter().filter_map(move |row| match row {
                ShownRow::Cells(cells, style) => Some((&cells[index], *style)),
                ShownRow::Heading(_) => None,
            })
        };
        let mut headings = Vec::new();
        let mut wants = Vec::new();
        for (index, column) in printed.iter().enumerate() {
            let heading = table.columns[*column].heading();
            // A dash that stands for a missing number is no word.
            let numbers = cells(index).filter(|(cell, _)| matches!(cell, ShownCell::Number(_))).count();
            let words = |cell: &ShownCell| matches!(cell, ShownCell::Words(text) if text.chars().count() > 1);
            let is_numeric = cells(index).filter(|(cell, _)| words(cell)).count() * 8 < numbers;
            wants.push(columns::Want::new(fonts, &heading, &mut cells(index)));
            headings.push((heading, is_numeric));
        }
        let keeps_groups = table.has_page_per_heading || table.columns_of_one_thing > 0;
        let joins = joins(table, rows.len());
        Shown { headings, rows, joins, columns: wants, keeps_groups }
    }

    /// Upright, unless the page on its side saves pages or long texts their many lines.
    fn way(&self, fonts: &Fonts, paper: Paper) -> Way {
        let room = |way| text_width(page_size(paper, way).0);
        let wanted: f64 = self.columns.iter().map(|want| want.full_mm).sum();
        let least: f64 = self.columns.iter().map(|want| want.least_mm).sum();
        if wanted <= room(Way::Portrait) {
            return Way::Portrait;
        }
        if least > room(Way::Portrait) {
            return Way::Landscape;
        }
        // A few hundred rows tell. Lines are counted as a reader meets them: a row of ten lines ten times.
        let step = self.rows.len().div_ceil(400).max(1);
        let tried = |way| {
            let widths = columns::widths(&self.columns, room(way));
            let (mut height, mut lines, mut squares) = (0.0, 0.0, 0.0);
            for row in self.rows.iter().step_by(step) {
                let row = RowBox::new(fonts, row, &widths);
                let most = row.lines.iter().map(Vec::len).max().unwrap_or(0) as f64;
                height += row.height;
                lines += most;
                squares += most * most;
            }
            (height / (page_size(paper, way).1 - 40.0), squares / f64::max(lines, 1.0))
        };
        let ((upright_pages, upright_lines), (flat_pages, flat_lines)) =
            (tried(Way::Portrait), tried(Way::Landscape));
        let is_cramped = upright_lines > 3.5 && flat_lines < 0.8 * upright_lines;
        if flat_pages < 0.92 * upright_pages || is_cramped { Way::Landscape } else { Way::Portrait }
    }
}

/// The row of sums, under the columns that are printed.
fn totals(table: &Table, printed: &[usize], locale: &Locale) -> Vec<ShownCell> {
    let total = |(index, column): (usize, &usize)| {
        if table.columns[*column].is_summed {
            let decimals = usize::from(table.sum_decimals(*column));
            return ShownCell::Number(locale.number(table.sum(*column), decimals));
        }
        let words = if index == 0 { locale.word(latchline_handover::language::Word::Total) } else { "" };
        ShownCell::Words(words.to_string())
    };
    printed.iter().enumerate().map(total).collect()
}

/// A row broken into lines.
struct RowBox<'r> {
    /// Whether no page parts it from the one before.
    joins: bool,
    height: f64,
    /// The lines of each cell; one cell over all columns for a heading.
    lines: Vec<Vec<String>>,
    row: &'r ShownRow,
}

impl<'r> RowBox<'r> {
    fn new(fonts: &Fonts, row: &'r ShownRow, widths: &[f64]) -> RowBox<'r> {
        let (lines, style): (Vec<Vec<String>>, Style) = match row {
            ShownRow::Heading(text) => {
                let room = widths.iter().sum::<f64>() - 2.0 * CELL_SIDE_MM;
                (vec![wrapped(fonts, text, BODY_BOLD, room)], BODY_BOLD)
            }
            ShownRow::Cells(cells, style) => {
                let lines = cells.iter().zip(widths).map(|(cell, width)| match cell {
                    ShownCell::Words(text) | ShownCell::Number(text) if !text.is_empty() => {
                        wrapped(fonts, text, *style, width - 2.0 * CELL_SIDE_MM)
                    }
                    _ => Vec::new(),
                });
                (lines.collect(), *style)
            }
        };
        let most = lines.iter().map(Vec::len).max().unwrap_or(0).max(1);
        let mut height = most as f64 * style.line_mm() + 2.0 * CELL_ABOVE_MM;
        if let ShownRow::Cells(cells, _) = row
            && cells.iter().any(|cell| matches!(cell, ShownCell::WriteIn | ShownCell::Tick))
        {
            height = height.max(WRITE_IN_ROW_MM);
        }
        RowBox { height, lines, row, joins: false }
    }

    /// The row in pieces no taller than a page.
    fn pieces(self, full_room: f64) -> Vec<RowBox<'r>> {
        if self.height <= full_room {
            return vec![self];
        }
        let most = ((full_room - 2.0 * CELL_ABOVE_MM) / BODY.line_mm()).floor().max(1.0) as usize;
        let longest = self.lines.iter().map(Vec::len).max().unwrap_or(0);
        let piece = |from: usize| {
            let cut = |lines: &Vec<String>| lines.iter().skip(from).take(most).cloned().collect();
            let lines: Vec<Vec<String>> = self.lines.iter().map(cut).collect();
            let tallest = lines.iter().map(Vec::len).max().unwrap_or(0).max(1);
            let height = tallest as f64 * BODY.line_mm() + 2.0 * CELL_ABOVE_MM;
            RowBox { height, lines, row: self.row, joins: self.joins && from == 0 }
        };
        (0..longest).step_by(most).map(piece).collect()
    }
}

/// Sets the rows.
fn set(flow: &mut Flow<'_>, shown: &Shown, widths: &[f64], language: Language) {
    let head = Head::new(flow.fonts, shown, widths);
    let mut grid = Grid { top: 0.0, lines: Vec::new(), fills: Vec::new(), marks: Vec::new() };
    let mut table = Element::new(Kind::Table);
    let mut body = Element::new(Kind::TableBody);
    let boxes = shown
        .rows
        .iter()
        .zip(&shown.joins)
        .map(|(row, joins)| RowBox { joins: *joins, ..RowBox::new(flow.fonts, row, widths) });
    let full_room = flow.full_room() - head.height;
    let boxes: Vec<RowBox<'_>> = boxes.flat_map(|row| row.pieces(full_room * 0.9)).collect();
    let is_heading = |index: usize| matches!(boxes[index].row, ShownRow::Heading(_));
    // The rows under the first heading stay together too.
    let first_group = (1..boxes.len()).find(|index| is_heading(*index)).unwrap_or(boxes.len());
    let height = |count: usize| boxes.iter().take(count).map(|row| row.height).sum::<f64>();
    let is_together = !boxes.is_empty() && is_heading(0) && height(first_group) <= full_room;
    // What stands above is not left alone on its page where that has room for much of the table.
    let is_together = is_together && flow.room() < LEAST_FILLED * flow.full_room();
    flow.need(head.height + height(if is_together { first_group } else { LEAST_TOGETHER + 1 }));
    table.push(head.set(flow, &mut grid, true));
    let again = |heading: &str| ShownRow::Heading(Sentence::Continued { what: heading }.say(language));
    let measured = |index: usize| Measured {
        height_mm: boxes[index].height,
        is_heading: is_heading(index),
        stands_whole: shown.keeps_groups && is_heading(index) && index > 0,
        joins: boxes[index].joins,
        again_mm: match boxes[index].row {
            ShownRow::Heading(text) => RowBox::new(flow.fonts, &again(text), widths).height,
            ShownRow::Cells(..) => 0.0,
        },
    };
    let measured: Vec<Measured> = (0..boxes.len()).map(measured).collect();
    let breaks = breaks(&measured, flow.room(), full_room);
    let mut group: Option<String> = None;
    for (index, row) in boxes.iter().enumerate() {
        if breaks.contains(&index) {
            grid.finish(flow, widths);
            flow.next_page();
            head.set(flow, &mut grid, false);
            if let (false, Some(heading)) = (is_heading(index), &group) {
                let again = again(heading);
                let again = RowBox::new(flow.fonts, &again, widths);
                set_row(flow, &again, (widths, &shown.headings), &mut grid, false);
            }
        }
        if let ShownRow::Heading(text) = row.row {
            group = Some(text.clone());
            flow.bookmark(text);
        }
        if let Some(element) = set_row(flow, row, (widths, &shown.headings), &mut grid, true) {
            body.push(element);
        }
    }
    grid.finish(flow, widths);
    table.push(body);
    flow.push(table);
}

/// The headings of the columns.
struct Head<'s> {
    shown: &'s Shown,
    widths: &'s [f64],
    lines: Vec<Vec<String>>,
    height: f64,
}

impl<'s> Head<'s> {
    fn new(fonts: &Fonts, shown: &'s Shown, widths: &'s [f64]) -> Head<'s> {
        let broken = shown.headings.iter().zip(widths);
        let broken =
            broken.map(|((text, _), width)| wrapped(fonts, text, BODY_BOLD, width - 2.0 * CELL_SIDE_MM));
        let lines: Vec<Vec<String>> = broken.collect();
        let most = lines.iter().map(Vec::len).max().unwrap_or(1);
        Head { shown, widths, height: most as f64 * BODY_BOLD.line_mm() + 2.0 * CELL_ABOVE_MM, lines }
    }

    /// Sets it; as content only the first time.
    fn set(&self, flow: &mut Flow<'_>, grid: &mut Grid, is_first: bool) -> Element {
        let mut row = Element::new(Kind::Row);
        grid.top = flow.y;
        let width: f64 = self.widths.iter().sum();
        let area = (FILING_MM, flow.y, width, self.height);
        flow.page().artifact(vec![Mark::Rectangle { area, fill: Some(HEAD_FILL), outline_mm: None }]);
        let mut x = FILING_MM;
        for ((lines, width), (_, to_right)) in self.lines.iter().zip(self.widths).zip(&self.shown.headings) {
            let marks = cell_marks(flow, lines, BODY_BOLD, (x, *width), *to_right);
            if is_first {
                let block = flow.page().content(marks);
                row.push(Element::of_block(Kind::ColumnHeader, flow.page_number(), block));
            } else {
                flow.page().artifact(marks);
            }
            x += width;
        }
        flow.y += self.height;
        grid.lines.push((flow.y, THICK_MM));
        let mut head = Element::new(Kind::TableHead);
        head.push(row);
        head
    }
}

/// Sets one row; gives its element if it is content.
fn set_row(
    flow: &mut Flow<'_>,
    row: &RowBox<'_>,
    (widths, headings): (&[f64], &[(String, bool)]),
    grid: &mut Grid,
    is_content: bool,
) -> Option<Element> {
    let mut element = Element::new(Kind::Row);
    let page = flow.page_number();
    match row.row {
        ShownRow::Heading(_) => {
            let width: f64 = widths.iter().sum();
            let area = (FILING_MM, flow.y, width, row.height);
            flow.page().artifact(vec![Mark::Rectangle { area, fill: Some(GROUP_FILL), outline_mm: None }]);
            let marks = cell_marks(flow, &row.lines[0], BODY_BOLD, (FILING_MM, width), false);
            grid.fills.push((flow.y, flow.y + row.height));
            if is_content {
                let block = flow.page().content(marks);
                element.push(Element::of_block(Kind::GroupHeader(widths.len() as u32), page, block));
            } else {
                flow.page().artifact(marks);
            }
        }
        ShownRow::Cells(cells, style) => {
            let mut x = FILING_MM;
            for (((cell, lines), width), (_, is_numeric)) in
                cells.iter().zip(&row.lines).zip(widths).zip(headings)
            {
                let mut made = Element::new(Kind::Cell);
                if *cell == ShownCell::Tick {
                    let area = (
                        x + (width - TICK_MM) / 2.0,
                        flow.y + (row.height - TICK_MM) / 2.0,
                        TICK_MM,
                        TICK_MM,
                    );
                    grid.marks.push(Mark::Rectangle { area, fill: None, outline_mm: Some(MIDDLE_MM) });
                }
                if !lines.is_empty() {
                    let to_right = *is_numeric && matches!(cell, ShownCell::Number(_));
                    let marks = cell_marks(flow, lines, *style, (x, *width), to_right);
                    let block = flow.page().content(marks);
                    made.children.push(Child::Block { page, block });
                }
                element.push(made);
                x += width;
            }
        }
    }
    flow.y += row.height;
    grid.lines.push((flow.y, THIN_MM));
    is_content.then_some(element)
}
