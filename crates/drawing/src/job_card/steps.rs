//! What is read and done: rows with figures and a box to write in, and brief ones with a box to tick.

use super::data::{CardPower, CardStep};
use super::lines::{FOOT_MM, Piece, TEXT_MM, TICK_MM, letter, letter_lines, letter_to, line_mm, thin};
use super::notes::Notes;
use latchline_scene::font::{text_width_mm, wrapped};
use latchline_scene::{Area, Group, Layer};

/// Height of a row with a box to write in.
const ROW_MM: f64 = 5.4;
/// Height of a row of boxes to tick.
const BRIEF_ROW_MM: f64 = 4.8;
/// Least room for the number of a step.
const NUMBER_MM: f64 = 10.2;
/// Room for the lowest and the highest value.
const RANGE_MM: f64 = 24.0;
/// Between what is expected and the range.
const GAP_MM: f64 = 1.6;
/// Box to write in.
const BOX_MM: f64 = 13.5;
/// Most lines of what is read that stand beside the figures.
const MOST_BESIDE: usize = 2;

/// Where the columns of rows with figures are.
#[derive(Clone, Copy)]
struct Columns {
    width_mm: f64,
    /// Room for numbers.
    number_mm: f64,
}

impl Columns {
    /// Of a block with these steps.
    fn of(list: &[CardStep], width_mm: f64) -> Self {
        let numbers = list.iter().map(|step| text_width_mm(&step.number, TEXT_MM, false) + 0.9);
        Columns { width_mm, number_mm: numbers.fold(NUMBER_MM, f64::max) }
    }

    /// Left edge of the box to tick.
    fn tick(self) -> f64 {
        self.width_mm - TICK_MM
    }

    /// Left edge of the box to write in.
    fn writing(self) -> f64 {
        self.tick() - 1.0 - BOX_MM
    }

    /// Right edge of the range.
    fn range(self) -> f64 {
        self.writing() - 1.0
    }

    /// Right edge of what is expected beside this range, which stands as wide as all others or as it is.
    fn expected(self, range: &str, is_close: bool) -> f64 {
        let least_mm = if is_close { 0.0 } else { RANGE_MM };
        self.range() - text_width_mm(range, TEXT_MM, false).max(least_mm) - GAP_MM
    }
}

/// The heads over the figures of a column.
pub(super) fn heads(words: &[String; 4], width_mm: f64) -> Group {
    let columns = Columns::of(&[], width_mm);
    let mut group = Group::new("steps-head");
    let range = format!("{} – {}", words[1], words[2]);
    let range_mm = text_width_mm(&range, FOOT_MM, false).max(RANGE_MM);
    letter_to(&mut group, (columns.range() - range_mm - GAP_MM, 0.0), &words[0], FOOT_MM, true);
    letter_to(&mut group, (columns.range(), 0.0), &range, FOOT_MM, false);
    letter(&mut group, (columns.writing(), 0.0), &words[3], FOOT_MM, false);
    group
}

/// The steps of a block.
pub(super) fn steps(list: &[CardStep], power: [&str; 2], width_mm: f64, notes: &Notes) -> Vec<Piece> {
    let columns = Columns::of(list, width_mm);
    let mut pieces = Vec::new();
    for (of, words) in [(CardPower::Off, power[0]), (CardPower::On, power[1])] {
        let of_power: Vec<&CardStep> = list.iter().filter(|step| step.power == of).collect();
        if of_power.is_empty() {
            continue;
        }
        let mut rest = &of_power[..];
        let brief_count = |rest: &[&CardStep]| rest.iter().take_while(|step| step.is_brief).count();
        // Boxes to tick go on behind the word for the power, figures below it.
        let (mut head, x) = power_head(words, width_mm);
        let first = brief_count(rest);
        if first > 0 {
            pieces.extend(brief(&rest[..first], Some((head, x)), width_mm));
            rest = &rest[first..];
        } else if let Some(first) = rest.first() {
            // The word for the power is never left at the end of a column.
            let mut below = row(first, &notes.short_step(&first.what), columns);
            below.group.transform(1.0, (0.0, head.height_mm));
            head.height_mm += below.height_mm;
            head.group.group(below.group);
            pieces.push(head);
            rest = &rest[1..];
        }
        while let Some(first) = rest.first() {
            let count = brief_count(rest);
            if count > 0 {
                pieces.extend(brief(&rest[..count], None, width_mm));
                rest = &rest[count..];
            } else {
                pieces.push(row(first, &notes.short_step(&first.what), columns));
                rest = &rest[1..];
            }
        }
    }
    pieces
}

/// With or without power, below a line; and where it ends.
fn power_head(words: &str, width_mm: f64) -> (Piece, f64) {
    let mut group = Group::new("steps");
    group.line(Layer::Frame, (0.0, 0.5), (width_mm, 0.5), thin());
    letter(&mut group, (0.0, 0.7), words, TEXT_MM, true);
    (Piece { height_mm: 0.7 + line_mm(TEXT_MM), group }, text_width_mm(words, TEXT_MM, true) + 3.0)
}

fn tick(group: &mut Group, (x, y): (f64, f64)) {
    group.rectangle(Layer::Frame, Area::new(x, y, TICK_MM, TICK_MM), 0.0, Some(thin()), None);
}

/// Brief steps side by side, behind what stands on their first line: a box, number, words.
fn brief(list: &[&CardStep], before: Option<(Piece, f64)>, width_mm: f64) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::new();
    let mut x = f64::INFINITY;
    if let Some((mut piece, end)) = before {
        piece.height_mm = BRIEF_ROW_MM + 0.3;
        pieces.push(piece);
        x = end;
    }
    for step in list {
        let words = format!("{} {}", step.number, step.what);
        let own = TICK_MM + 1.0 + text_width_mm(&words, TEXT_MM, false);
        if x + own > width_mm + 1e-6 {
            pieces.push(Piece { height_mm: BRIEF_ROW_MM, group: Group::new("steps") });
            x = 0.0;
        }
        let Some(piece) = pieces.last_mut() else { continue };
        let box_y = if piece.height_mm > BRIEF_ROW_MM { 0.9 } else { 0.6 };
        tick(&mut piece.group, (x, box_y));
        let lines = wrapped(&words, TEXT_MM, false, width_mm - x - TICK_MM - 1.0);
        let top = box_y + (TICK_MM - line_mm(TEXT_MM)) / 2.0;
        let height = letter_lines(&mut piece.group, (x + TICK_MM + 1.0, top), &lines, TEXT_MM, false);
        piece.height_mm = piece.height_mm.max(top + height + 0.2);
        x += own + 2.4;
    }
    pieces
}

/// A value and its unit; without one where it has none.
fn unit_of(value: &str) -> (&str, &str) {
    value.rsplit_once([' ', '\u{a0}']).unwrap_or((value, ""))
}

/// Lowest and highest in few letters: a unit that all three have stands behind what is expected.
fn range(values: &[String; 3]) -> String {
    let [expected, lowest, highest] = values;
    let units = [expected, lowest, highest].map(|value| unit_of(value).1);
    let bare = |value: &str, other: &str| {
        let (number, unit) = unit_of(value);
        if !unit.is_empty() && unit == other { number.to_string() } else { value.to_string() }
    };
    match (lowest.is_empty(), highest.is_empty()) {
        (true, true) => String::new(),
        (false, true) => format!("≥ {}", bare(lowest, units[0])),
        (true, false) => format!("≤ {}", bare(highest, units[0])),
        (false, false) => format!("{} – {}", bare(lowest, units[2]), bare(highest, units[0])),
    }
}

/// A step in a row of its own.
fn row(step: &CardStep, what: &str, columns: Columns) -> Piece {
    let mut group = Group::new("step");
    let has_figures = step.writes || step.values.iter().any(|value| !value.is_empty());
    if !has_figures {
        return told(step, what, columns);
    }
    let range = range(&step.values);
    let expected = &step.values[0];
    let top = (ROW_MM - line_mm(TEXT_MM)) / 2.0;
    let room_beside = |is_close: bool| {
        let figures_end = match (expected.is_empty(), range.is_empty()) {
            (true, true) => columns.range(),
            (true, false) => columns.range() - text_width_mm(&range, TEXT_MM, false) - GAP_MM,
            (false, _) => {
                columns.expected(&range, is_close) - text_width_mm(expected, TEXT_MM, true) - GAP_MM
            }
        };
        figures_end - columns.number_mm
    };
    // Figures leave their column where what is read then stands beside them on one line.
    let is_one = |is_close: bool| text_width_mm(what, TEXT_MM, false) <= room_beside(is_close);
    let is_close = !is_one(false) && is_one(true);
    let room = room_beside(is_close);
    // What is long, or has a word that would be broken, stands above its figures, over the whole width.
    let breaks = |word: &str| text_width_mm(word, TEXT_MM, false) > room;
    let beside = wrapped(what, TEXT_MM, false, room.max(1.0));
    let is_beside = beside.len() <= MOST_BESIDE && !what.split_whitespace().any(breaks);
    let (lines, mut y) = match is_beside {
        true => (beside, 0.0),
        false => {
            let lines = wrapped(what, TEXT_MM, false, columns.width_mm - columns.number_mm);
            // Figures stand behind the last line where it leaves room.
            let last_mm = lines.last().map_or(0.0, |line| text_width_mm(line, TEXT_MM, false));
            let above = lines.len() - usize::from(lines.len() > 1 && last_mm <= room);
            (lines, 0.4 + above as f64 * line_mm(TEXT_MM))
        }
    };
    let from = if lines.len() == 1 && is_beside { top } else { 0.4 };
    letter(&mut group, (0.0, from), &step.number, TEXT_MM, false);
    let whole =
        lines.len() - usize::from(!is_beside && y < 0.4 + lines.len() as f64 * line_mm(TEXT_MM) - 1e-6);
    let lettered = letter_lines(&mut group, (columns.number_mm, from), &lines[..whole], TEXT_MM, false);
    if let Some(last) = lines.get(whole) {
        letter(&mut group, (columns.number_mm, y + top), last, TEXT_MM, false);
    }
    letter_to(&mut group, (columns.expected(&range, is_close), y + top), expected, TEXT_MM, true);
    letter_to(&mut group, (columns.range(), y + top), &range, TEXT_MM, false);
    if step.writes {
        let room = Area::new(columns.writing(), y + 0.3, BOX_MM, ROW_MM - 0.6);
        group.rectangle(Layer::Frame, room, 0.0, Some(thin()), None);
    }
    if step.ticks {
        tick(&mut group, (columns.tick(), y + (ROW_MM - TICK_MM) / 2.0));
    }
    y += ROW_MM;
    Piece { height_mm: y.max(from + lettered + 0.2), group }
}

/// A step without figures: over the whole width, with its box at the end where it is ticked.
fn told(step: &CardStep, what: &str, columns: Columns) -> Piece {
    let mut group = Group::new("step");
    let room = columns.width_mm - columns.number_mm - if step.ticks { TICK_MM + 1.0 } else { 0.0 };
    let lines = wrapped(what, TEXT_MM, false, room);
    letter(&mut group, (0.0, 0.4), &step.number, TEXT_MM, false);
    let mut y = 0.4 + letter_lines(&mut group, (columns.number_mm, 0.4), &lines, TEXT_MM, false);
    if step.ticks {
        tick(&mut group, (columns.tick(), 0.5));
        y = y.max(TICK_MM + 0.8);
    }
    Piece { height_mm: y + 0.3, group }
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
        letter(&mut group, (x, 1.2), words, TEXT_MM, false);
        let from = x + text_width_mm(words, TEXT_MM, false) + 1.0;
        group.line(Layer::Frame, (from, 5.0), ((x + each - 2.0).max(from), 5.0), thin());
    }
    Some(Piece { height_mm: 5.6, group })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_says_its_unit_once() {
        let values = |list: [&str; 3]| range(&list.map(str::to_string));
        assert_eq!(values(["47.66 V", "46.15 V", "49.16 V"]), "46.15 – 49.16");
        assert_eq!(values(["", "0.5 Mohm", ""]), "≥ 0.5 Mohm");
        assert_eq!(values(["below 0.10 ohm", "", "0.10 ohm"]), "≤ 0.10");
        assert_eq!(values(["0.11 ohm", "0.0570 ohm", "0.13 ohm"]), "0.0570 – 0.13");
        assert_eq!(values(["900 mA", "0.8 A", "1.1 A"]), "0.8 – 1.1 A");
        assert_eq!(values(["", "", ""]), "");
    }
}
