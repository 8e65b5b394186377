//! Terminals drawn, with what lands on each.

use super::data::{CardWire, StripSet, StripTerminal, WireColour};
use super::lines::{MARK_MM, Piece, TEXT_MM, letter, letter_lines, line_mm, middle, size_for, thin};
use super::notes::Notes;
use latchline_scene::font::{text_width_mm, wrapped};
use latchline_scene::palette::{Ink, Insulation};
use latchline_scene::{Area, Group, Layer};

/// Least height of a terminal.
const ROW_MM: f64 = 4.5;
/// Least and most room for the marks of sets.
const SET_MM: (f64, f64) = (7.0, 24.0);
/// Width of a terminal, its screw, and where its pole begins.
const TERMINAL_MM: f64 = 10.4;
const SCREW_MM: f64 = 1.2;
const POLE_MM: f64 = 3.9;
/// Least room for a remark beside terminals that stand side by side.
const LEAST_REMARK_MM: f64 = 20.0;
/// From a terminal to the swatch, and the size of the swatch.
const WIRE_MM: f64 = 1.8;
const SWATCH_MM: (f64, f64) = (4.6, 2.6);
/// Room for a code of colours.
const CODE_MM: f64 = 7.4;

/// What every terminal of a block is drawn with.
#[derive(Clone, Copy)]
struct Strip<'s> {
    /// Room for the marks of sets.
    set_mm: f64,
    width_mm: f64,
    /// What the block shows: a cable of the same name is not named again.
    element: &'s str,
    notes: &'s Notes,
}

/// The terminals of these sets, one piece each.
pub(super) fn strip(sets: &[StripSet], element: &str, width_mm: f64, notes: &Notes) -> Vec<Piece> {
    // A mark is not broken within its word.
    let marks = sets.iter().flat_map(|set| set.mark.split_whitespace());
    let widest = marks.map(|word| text_width_mm(word, TEXT_MM, true) + 1.2).fold(0.0, f64::max);
    let strip = Strip { set_mm: widest.clamp(SET_MM.0, SET_MM.1), width_mm, element, notes };
    sets.iter().map(|set| strip.set(set)).collect()
}

impl Strip<'_> {
    fn set(self, set: &StripSet) -> Piece {
        let mut of_set = match self.free_row(set).or_else(|| self.plugged_row(set)) {
            Some(piece) => vec![piece],
            None => set
                .terminals
                .iter()
                .enumerate()
                .map(|(number, terminal)| {
                    // What holds for several terminals is said once, at the last of them.
                    let next = set.terminals.get(number + 1);
                    let is_said_below = next.is_some_and(|next| next.remark == terminal.remark);
                    let remark = if is_said_below { "" } else { terminal.remark.as_str() };
                    self.terminal(terminal, remark)
                })
                .collect(),
        };
        if let Some(first) = of_set.first_mut() {
            let size = size_for(&set.mark, true, (TEXT_MM, MARK_MM), self.set_mm - 1.0);
            let top = (ROW_MM - line_mm(size)) / 2.0;
            let lines = wrapped(&set.mark, size, true, self.set_mm - 0.5);
            let mut head = Group::new("terminal-set");
            let height = letter_lines(&mut head, (0.0, top), &lines, size, true);
            first.group.group(head);
            first.height_mm = first.height_mm.max(top + height);
        }
        // A set is never torn: its mark stands at the first terminal only.
        let mut whole = Piece { height_mm: 0.0, group: Group::new("terminals") };
        for mut piece in of_set {
            piece.group.transform(1.0, (0.0, whole.height_mm));
            whole.group.group(piece.group);
            whole.height_mm += piece.height_mm;
        }
        whole
    }

    /// Terminals on which nothing lands and of which the same is said stand side by side, with one remark.
    fn free_row(self, set: &StripSet) -> Option<Piece> {
        let first = set.terminals.first()?;
        let is_alike =
            |terminal: &StripTerminal| terminal.wires.is_empty() && terminal.remark == first.remark;
        if !set.terminals.iter().all(is_alike) {
            return None;
        }
        self.side_by_side("free-terminals", set, |room| {
            wrapped(&self.notes.short(&first.remark), TEXT_MM, false, room)
        })
    }

    /// The terminals of a set side by side, with the lines that `words` makes in the room behind them; `None` for a single one, and where
    /// there is little room.
    fn side_by_side(
        self,
        kind: &'static str,
        set: &StripSet,
        words: impl Fn(f64) -> Vec<String>,
    ) -> Option<Piece> {
        let count = set.terminals.len();
        let x = self.set_mm + count as f64 * TERMINAL_MM + 2.0;
        let room = self.width_mm - x;
        if count < 2 || room < LEAST_REMARK_MM {
            return None;
        }
        let mut group = Group::new(kind);
        let inset = (ROW_MM - line_mm(TEXT_MM)) / 2.0;
        let height = letter_lines(&mut group, (x, inset), &words(room), TEXT_MM, false) + 2.0 * inset;
        let height_mm = height.max(ROW_MM);
        for (number, terminal) in set.terminals.iter().enumerate() {
            let mut body = Group::new("terminal");
            terminal_body(&mut body, self.set_mm + number as f64 * TERMINAL_MM, &terminal.pole, height_mm);
            group.group(body);
        }
        Some(Piece { height_mm, group })
    }

    /// Terminals that lead by one lead or plug to those of one other set, each to that of its own mark, stand side by side, with the marks
    /// behind where they lead.
    fn plugged_row(self, set: &StripSet) -> Option<Piece> {
        let first = set.terminals.first()?;
        let (to, cable) = (leads_to(first)?, first.wires.first()?.cable.as_str());
        let is_alike = |terminal: &StripTerminal| {
            leads_to(terminal) == Some(to)
                && terminal.wires[0].cable == cable
                && terminal.remark == first.remark
        };
        if !set.terminals.iter().all(is_alike) {
            return None;
        }
        let poles: Vec<&str> = set.terminals.iter().map(|terminal| terminal.pole.as_str()).collect();
        let led = format!("{cable} → {to} {}", poles.join(" "));
        self.side_by_side("plugged-terminals", set, |room| {
            let mut lines = wrapped(&led, TEXT_MM, false, room);
            lines.extend(wrapped(&self.notes.short(&first.remark), TEXT_MM, false, room));
            lines.retain(|line| !line.is_empty());
            lines
        })
    }

    fn terminal(self, terminal: &StripTerminal, remark: &str) -> Piece {
        let mut group = Group::new("terminal");
        let left = self.set_mm + TERMINAL_MM;
        let (mut y, mut end) = (0.0, (0.0, 0.0));
        for wire in &terminal.wires {
            let drawn = self.wire(&mut group, (left, y), wire);
            y += drawn.height_mm;
            end = drawn.end;
        }
        let remark = self.notes.short(remark);
        // The number of a note stands behind the words of the last wire.
        let mark_mm = text_width_mm(&remark, TEXT_MM, false);
        if remark.starts_with('[') && !terminal.wires.is_empty() && end.0 + 1.0 + mark_mm <= self.width_mm {
            letter(&mut group, (end.0 + 1.0, end.1), &remark, TEXT_MM, false);
        } else if !remark.is_empty() {
            let x = if terminal.wires.is_empty() { left + 2.0 } else { left + WIRE_MM + SWATCH_MM.0 + 1.0 };
            let lines = wrapped(&remark, TEXT_MM, false, self.width_mm - x);
            let inset = if terminal.wires.is_empty() { (ROW_MM - line_mm(TEXT_MM)) / 2.0 } else { 0.0 };
            y += inset + letter_lines(&mut group, (x, y + inset), &lines, TEXT_MM, false) + inset;
        }
        let height_mm = y.max(ROW_MM);
        terminal_body(&mut group, self.set_mm, &terminal.pole, height_mm);
        Piece { height_mm, group }
    }

    /// One conductor from its terminal to the right.
    fn wire(self, group: &mut Group, (left, y): (f64, f64), wire: &CardWire) -> DrawnWire {
        let middle_y = y + ROW_MM / 2.0;
        let swatch = Area::new(left + WIRE_MM, middle_y - SWATCH_MM.1 / 2.0, SWATCH_MM.0, SWATCH_MM.1);
        let text_x = match &wire.colour {
            WireColour::None => {
                group.line(Layer::Wiring, (left, middle_y), (left + WIRE_MM, middle_y), middle());
                left + WIRE_MM + 1.0
            }
            WireColour::Code(code) => {
                group.line(Layer::Wiring, (left, middle_y), (swatch.x, middle_y), middle());
                draw_swatch(group, swatch, code);
                let at = (swatch.right() + 0.8, middle_y - line_mm(TEXT_MM) / 2.0);
                letter(group, at, code, TEXT_MM, true);
                // A code of two colours is wider than the room for one.
                swatch.right() + (text_width_mm(code, TEXT_MM, true) + 1.6).max(CODE_MM)
            }
            WireColour::ToWrite(usual) => {
                group.line(Layer::Wiring, (left, middle_y), (swatch.x, middle_y), middle());
                // Room to write the code that was found.
                let room = Area::new(swatch.x, y + 0.3, SWATCH_MM.0 + CODE_MM - 0.5, ROW_MM - 0.6);
                group.rectangle(Layer::Device, room, 0.0, Some(thin()), None);
                let x = swatch.right() + CODE_MM + 0.5;
                letter(group, (x, middle_y - line_mm(TEXT_MM) / 2.0), usual, TEXT_MM, false);
                let usual_mm = text_width_mm(usual, TEXT_MM, false);
                if usual.is_empty() { x } else { x + usual_mm + 0.8 }
            }
        };
        let room = self.width_mm - text_x;
        let other = if wire.other.is_empty() { String::new() } else { format!("→ {}", wire.other) };
        // A cable that has the name of the part at one of its ends is named by it.
        let far = wire.other.split(':').next().unwrap_or_default();
        let cable = unless_named(&wire.cable, self.element);
        let cable = unless_named(cable, far);
        let whole = format!("{cable} {other}").trim().to_string();
        let top = (ROW_MM - line_mm(TEXT_MM)) / 2.0;
        let whole_mm = text_width_mm(&whole, TEXT_MM, false);
        if whole_mm <= room {
            let height = letter_lines(group, (text_x, y + top), &[whole], TEXT_MM, false);
            return DrawnWire {
                height_mm: (height + 2.0 * top).max(ROW_MM),
                end: (text_x + whole_mm, y + top + height - line_mm(TEXT_MM)),
            };
        }
        let cable = wrapped(cable, TEXT_MM, false, room);
        let first = letter_lines(group, (text_x, y + top), &cable, TEXT_MM, false);
        // Where a conductor leads stands below its swatch where that saves a line.
        let below_x = left + WIRE_MM;
        let (beside, below) =
            (wrapped(&other, TEXT_MM, false, room), wrapped(&other, TEXT_MM, false, self.width_mm - below_x));
        let is_below = first > 0.0 && below.len() < beside.len();
        let (x, lines) = if is_below { (below_x, below) } else { (text_x, beside) };
        let height = first + letter_lines(group, (x, y + top + first), &lines, TEXT_MM, false);
        let (x, last) = lines.last().map_or((text_x, cable.last()), |line| (x, Some(line)));
        let end_x = x + last.map_or(0.0, |line| text_width_mm(line, TEXT_MM, false));
        let end = (end_x, y + top + height - line_mm(TEXT_MM));
        DrawnWire { height_mm: (height + 2.0 * top).max(ROW_MM), end }
    }
}

/// Device and set to whose terminal of the same mark a terminal leads, by one conductor that has no colour of its own.
fn leads_to(terminal: &StripTerminal) -> Option<&str> {
    match &terminal.wires[..] {
        [CardWire { colour: WireColour::None, other, .. }] => {
            other.strip_suffix(terminal.pole.as_str())?.strip_suffix(' ')
        }
        _ => None,
    }
}

/// A conductor as it was drawn: the height that it takes, and where its last line of words ends, at its top.
struct DrawnWire {
    height_mm: f64,
    end: (f64, f64),
}

/// A cable with its pair, without its name where that is the name of a part.
fn unless_named<'c>(cable: &'c str, part: &str) -> &'c str {
    match cable.strip_prefix(part) {
        Some("") if !part.is_empty() => "",
        Some(rest) if !part.is_empty() && rest.starts_with(", ") => &rest[2..],
        _ => cable,
    }
}

/// A terminal with its screw and its pole.
fn terminal_body(group: &mut Group, left: f64, pole: &str, height_mm: f64) {
    let body = Area::new(left, 0.0, TERMINAL_MM, height_mm);
    group.rectangle(Layer::Device, body, 0.0, Some(middle()), Some(Ink::Inside));
    // The screw: a circle with a slot.
    let centre = (left + 2.1, ROW_MM / 2.0);
    group.circle(Layer::Device, centre, SCREW_MM, Some(thin()), None);
    group.line(Layer::Device, (centre.0 - 0.7, centre.1 + 0.7), (centre.0 + 0.7, centre.1 - 0.7), thin());
    let size = size_for(pole, true, (TEXT_MM, MARK_MM), TERMINAL_MM - POLE_MM - 0.4);
    letter(group, (left + POLE_MM, (ROW_MM - line_mm(size)) / 2.0), pole, size, true);
}

/// A swatch: of two colours, one above the other.
fn draw_swatch(group: &mut Group, area: Area, code: &str) {
    let colours: Vec<Insulation> = code
        .as_bytes()
        .chunks(2)
        .filter_map(|two| std::str::from_utf8(two).ok().and_then(Insulation::of_code))
        .collect();
    let each = area.height / colours.len().max(1) as f64;
    for (number, colour) in colours.into_iter().enumerate() {
        let part = Area::new(area.x, area.y + number as f64 * each, area.width, each);
        group.rectangle(Layer::Wiring, part, 0.0, None, Some(Ink::Conductor(colour)));
    }
    group.rectangle(Layer::Wiring, area, 0.0, Some(thin()), None);
}

#[cfg(test)]
mod tests {
    use super::unless_named;

    #[test]
    fn a_cable_is_named_by_its_part_once() {
        assert_eq!(unless_named("front/exit", "front/exit"), "");
        assert_eq!(unless_named("front/light1, pair 1", "front/light1"), "pair 1");
        assert_eq!(unless_named("front/light12, pair 1", "front/light1"), "front/light12, pair 1");
        assert_eq!(unless_named("A-R0/1, pair 1", ""), "A-R0/1, pair 1");
    }
}
