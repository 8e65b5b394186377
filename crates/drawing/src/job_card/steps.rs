//! What is read and done: rows with figures and a box to write in, and brief ones with a box to tick.

use super::data::{CardPower, CardStep};
use super::lines::{Piece, TEXT_MM, TICK_MM, letter, letter_lines, letter_to, line_mm, thin};
use crate::font::{text_width_mm, wrapped};
use crate::scene::{Area, Group, Layer};

/// Height of a row with a box to write in.
const ROW_MM: f64 = 6.6;
/// Room for the number of a step.
const NUMBER_MM: f64 = 10.0;
/// Room for each figure.
const FIGURE_MM: f64 = 20.5;
/// Box to write in.
const BOX_MM: f64 = 15.0;

/// Where the columns of rows with figures are.
#[derive(Clone, Copy)]
struct Columns {
    width_mm: f64,
}

impl Columns {
    /// Left edge of the box to tick.
    fn tick(self) -> f64 {
        self.width_mm - TICK_MM
    }

    /// Left edge of the box to write in.
    fn writing(self) -> f64 {
        self.tick() - 1.0 - BOX_MM
    }

    /// Right edge of a figure, from 0.
    fn figure(self, number: usize) -> f64 {
        self.writing() - 1.0 - FIGURE_MM * (2 - number) as f64
    }

    /// Room for what is read, left of the figures.
    fn label(self) -> f64 {
        (self.figure(0) - FIGURE_MM - NUMBER_MM).max(0.0)
    }
}

/// The steps of a block.
pub(super) fn steps(list: &[CardStep], heads: &[String; 4], power: [&str; 2], width_mm: f64) -> Vec<Piece> {
    let columns = Columns { width_mm };
    let mut pieces = Vec::new();
    for (of, words) in [(CardPower::Off, power[0]), (CardPower::On, power[1])] {
        let of_power: Vec<&CardStep> = list.iter().filter(|step| step.power == of).collect();
        if of_power.is_empty() {
            continue;
        }
        let has_figures = of_power.iter().any(|step| step.writes);
        pieces.push(head(words, heads, has_figures, columns));
        let mut rest = &of_power[..];
        while let Some(first) = rest.first() {
            let count = rest.iter().take_while(|step| step.is_brief).count();
            if count > 0 {
                pieces.extend(brief(&rest[..count], width_mm));
                rest = &rest[count..];
            } else {
                pieces.push(row(first, columns));
                rest = &rest[1..];
            }
        }
    }
    pieces
}

/// With or without power, and the heads of the columns.
fn head(words: &str, heads: &[String; 4], has_figures: bool, columns: Columns) -> Piece {
    let mut group = Group::new("steps-head");
    group.line(Layer::Frame, (0.0, 0.8), (columns.width_mm, 0.8), thin());
    letter(&mut group, (0.0, 1.2), words, TEXT_MM, true);
    let mut y = 1.2 + line_mm(TEXT_MM);
    if has_figures {
        for (number, head) in heads.iter().take(3).enumerate() {
            letter_to(&mut group, (columns.figure(number), y), head, TEXT_MM, false);
        }
        letter(&mut group, (columns.writing(), y), &heads[3], TEXT_MM, false);
        y += line_mm(TEXT_MM);
    }
    Piece { height_mm: y + 0.4, group }
}

fn tick(group: &mut Group, (x, y): (f64, f64)) {
    group.rectangle(Layer::Frame, Area::new(x, y, TICK_MM, TICK_MM), 0.0, Some(thin()), None);
}

/// Brief steps side by side: a box, number, words.
fn brief(list: &[&CardStep], width_mm: f64) -> Vec<Piece> {
    const BRIEF_ROW_MM: f64 = 5.2;
    let mut pieces: Vec<Piece> = Vec::new();
    let mut x = f64::INFINITY;
    for step in list {
        let words = format!("{} {}", step.number, step.what);
        let own = TICK_MM + 1.0 + text_width_mm(&words, TEXT_MM, false);
        if x + own > width_mm + 1e-6 {
            pieces.push(Piece { height_mm: BRIEF_ROW_MM, group: Group::new("steps") });
            x = 0.0;
        }
        let Some(piece) = pieces.last_mut() else { continue };
        tick(&mut piece.group, (x, 0.6));
        let lines = wrapped(&words, TEXT_MM, false, width_mm - x - TICK_MM - 1.0);
        let top = 0.6 + (TICK_MM - line_mm(TEXT_MM)) / 2.0;
        let height = letter_lines(&mut piece.group, (x + TICK_MM + 1.0, top), &lines, TEXT_MM, false);
        piece.height_mm = piece.height_mm.max(top + height + 0.4);
        x += own + 3.0;
    }
    pieces
}

/// A step in a row of its own.
fn row(step: &CardStep, columns: Columns) -> Piece {
    let mut group = Group::new("step");
    let has_figures = step.writes || step.values.iter().any(|value| !value.is_empty());
    let lines = wrapped(&step.what, TEXT_MM, false, columns.label());
    // What is long, or has a word that would be broken, stands above its figures, over the whole width.
    let breaks = |word: &str| text_width_mm(word, TEXT_MM, false) > columns.label();
    let is_short = lines.len() == 1 && step.writes && !step.what.split_whitespace().any(breaks);
    let (mut y, top) = (0.0, (ROW_MM - line_mm(TEXT_MM)) / 2.0);
    if is_short {
        let height = lines.len() as f64 * line_mm(TEXT_MM);
        let from = ((ROW_MM - height) / 2.0).max(0.0);
        letter(&mut group, (0.0, top), &step.number, TEXT_MM, true);
        letter_lines(&mut group, (NUMBER_MM, from), &lines, TEXT_MM, false);
    } else {
        let room =
            columns.width_mm - NUMBER_MM - if step.ticks && !has_figures { TICK_MM + 1.0 } else { 0.0 };
        let lines = wrapped(&step.what, TEXT_MM, false, room);
        letter(&mut group, (0.0, 0.8), &step.number, TEXT_MM, true);
        y = 0.8 + letter_lines(&mut group, (NUMBER_MM, 0.8), &lines, TEXT_MM, false);
    }
    if has_figures {
        let mut most = 1;
        for (number, value) in step.values.iter().enumerate() {
            let lines = wrapped(value, TEXT_MM, number == 0, FIGURE_MM - 1.0);
            most = most.max(lines.len());
            for (row, line) in lines.iter().enumerate() {
                let at = (columns.figure(number), y + top + row as f64 * line_mm(TEXT_MM));
                letter_to(&mut group, at, line, TEXT_MM, number == 0);
            }
        }
        if step.writes {
            let room = Area::new(columns.writing(), y + 0.4, BOX_MM, ROW_MM - 0.8);
            group.rectangle(Layer::Frame, room, 0.0, Some(thin()), None);
        }
        if step.ticks {
            tick(&mut group, (columns.tick(), y + (ROW_MM - TICK_MM) / 2.0));
        }
        y += ROW_MM + (most - 1) as f64 * line_mm(TEXT_MM);
    } else if step.ticks {
        tick(&mut group, (columns.tick(), 0.6));
        y = y.max(TICK_MM + 1.2);
    }
    Piece { height_mm: y + if has_figures { 0.0 } else { 0.6 }, group }
}

/// Lines to fill in, side by side.
pub(super) fn blanks(list: &[String], width_mm: f64) -> Option<Piece> {
    if list.is_empty() {
        return None;
    }
    let mut group = Group::new("blanks");
    let each = width_mm / list.len() as f64;
    for (number, words) in list.iter().enumerate() {
        let x = number as f64 * each;
        letter(&mut group, (x, 2.2), words, TEXT_MM, false);
        let from = x + text_width_mm(words, TEXT_MM, false) + 1.0;
        group.line(Layer::Frame, (from, 5.6), ((x + each - 2.0).max(from), 5.6), thin());
    }
    Some(Piece { height_mm: 6.6, group })
}
