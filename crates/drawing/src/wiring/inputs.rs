//! The picture of a door's alarm inputs: a loop from each to its contact.

use super::picture::{LINE_MM, Picture, Words, head, head_mm, source_box, thin, wire};
use super::symbols::{HALF_MM, button, contact, driver, joint, resistor};
use super::words;
use crate::language::{Lettering, Phrase, Word};
use latchline_assess::door::alarm::AlarmSheet;
use latchline_assess::door::sheet::DoorSheet;
use latchline_scene::font::{LADDER_MM, wrapped};
use latchline_scene::palette::Ink;
use latchline_scene::{Area, Group, Layer};
use latchline_site::model::{AlarmKind, RelayContact};

/// Most inputs in one picture.
pub(super) const MOST_INPUTS: usize = 4;
const WIDTH_MM: f64 = 172.0;
/// Least height below the upper wire.
const LEAST_BELOW_MM: f64 = 15.0;
/// Where words about an input begin.
const TEXT_MM: f64 = 66.0;
const INPUT_MM: f64 = 27.0;
/// From the upper wire to a branch above it.
const BRANCH_MM: f64 = 7.0;

/// The picture of some alarm inputs of a door.
pub(crate) fn inputs_picture(door: &DoorSheet, inputs: &[AlarmSheet], lettering: Lettering) -> Picture {
    let name = lettering.say(&Phrase::AlarmInputsOfDoor { door: door.entrance.as_str() });
    let line = lettering.word(Word::LoopsToContacts);
    let head_mm = head_mm(WIDTH_MM, &name, &door.station, line);
    let rows = inputs.iter().map(|input| above_mm(input) + below_mm(door, input, lettering));
    let height_mm = head_mm + rows.sum::<f64>();
    let each: Vec<String> = inputs.iter().map(|input| words::input(input, lettering)).collect();
    let in_words = format!("{name}: {}", each.join("; "));
    // Further pictures of the same door are other elements.
    let numbers: Vec<String> = inputs.iter().map(|input| input.number.to_string()).collect();
    let element = format!("{name} {}", numbers.join(" "));
    let mut group = Group::of_element("alarm-wiring", element, in_words.clone());
    head(&mut group, Area::new(0.0, 0.0, WIDTH_MM, height_mm), &name, &door.station, line);
    let mut top = head_mm;
    for input in inputs {
        row(&mut group, door, input, top + above_mm(input), lettering);
        top += above_mm(input) + below_mm(door, input, lettering);
    }
    Picture { group, width_mm: WIDTH_MM, height_mm, words: in_words }
}

/// Whether the contact closes on alarm and lies across its resistor; one that opens is in series with it.
fn shorts_resistor(input: &AlarmSheet) -> bool {
    input.end_of_line_resistor && input.contact == RelayContact::NormallyOpen
}

/// Room above the upper wire: for the box, a branch, and what moves the contact.
fn above_mm(input: &AlarmSheet) -> f64 {
    let branch = if shorts_resistor(input) { BRANCH_MM } else { 0.0 };
    let mover = match input.kind {
        AlarmKind::Duress => 6.0,
        AlarmKind::Fire => 12.5,
        AlarmKind::Tamper | AlarmKind::Door => 0.0,
    };
    6.0_f64.max(4.0 + branch + mover) + 1.0
}

/// From the upper wire to the end of its row.
fn below_mm(door: &DoorSheet, input: &AlarmSheet, lettering: Lettering) -> f64 {
    let room = WIDTH_MM - 3.0 - TEXT_MM;
    let lines = remarks(door, input, lettering);
    let count: usize = lines.iter().map(|line| wrapped(line, LADDER_MM, false, room).len()).sum();
    LEAST_BELOW_MM.max(count as f64 * LINE_MM + 2.5)
}

fn row(group: &mut Group, door: &DoorSheet, input: &AlarmSheet, upper: f64, lettering: Lettering) {
    let area = Area::new(3.0, upper - 6.0, INPUT_MM, 17.0);
    let number = lettering.say(&Phrase::AlarmInput { number: input.number });
    source_box(group, area, &[lettering.word(Word::DoorStation).to_string(), number]);
    let lower = upper + 8.0;
    let centre = (area.right() + 17.0, upper);
    let turn = centre.0 + 12.0;
    let is_closed = input.contact == RelayContact::NormallyClosed;
    let at = if shorts_resistor(input) { (centre.0, upper - BRANCH_MM) } else { centre };
    let blade = contact(group, at, is_closed);
    match input.kind {
        AlarmKind::Duress => button(group, blade),
        AlarmKind::Fire => driver(group, blade, lettering.word(Word::Fire)),
        AlarmKind::Tamper | AlarmKind::Door => {}
    }
    let [from, to] = [centre.0 - HALF_MM, centre.0 + HALF_MM];
    group.line(Layer::Wiring, (area.right(), upper), (from, upper), wire());
    group.line(Layer::Wiring, (to, upper), (turn, upper), wire());
    if shorts_resistor(input) {
        for (outer, inner) in [(from - 2.0, from), (to + 2.0, to)] {
            group.path(Layer::Wiring, vec![(outer, upper), (outer, at.1), (inner, at.1)], wire());
            joint(group, (outer, upper));
        }
        let body = Area::new(from, upper - 1.3, to - from, 2.6);
        group.rectangle(Layer::Device, body, 0.0, Some(thin()), Some(Ink::Inside));
    }
    let middle = (turn, (upper + lower) / 2.0);
    group.path(Layer::Wiring, vec![(turn, lower), (area.right(), lower)], wire());
    group.line(Layer::Wiring, (turn, upper), (turn, lower), wire());
    if input.end_of_line_resistor && !shorts_resistor(input) {
        resistor(group, middle);
    }
    if let Ok(cable) = &input.cable {
        let words = format!("{}, {}", cable.cable, lettering.length(cable.length_m));
        Words::from((area.right() + 2.0, lower + 4.2), TEXT_MM - area.right() - 3.0)
            .quiet()
            .draw(group, &words);
    }
    let kind = lettering.word(words::alarm(input.kind));
    let room = WIDTH_MM - 3.0 - TEXT_MM;
    let mut below = Words::from((TEXT_MM, upper - 4.0), room).bold().draw(group, kind);
    below.bold = false;
    for line in remarks(door, input, lettering) {
        below = below.quiet().draw(group, &line);
    }
}

/// What is said of an input below its kind.
fn remarks(door: &DoorSheet, input: &AlarmSheet, lettering: Lettering) -> Vec<String> {
    let mut lines = vec![lettering.word(words::at_rest(input.contact)).to_string()];
    if input.end_of_line_resistor {
        lines.push(lettering.word(Word::ResistorAtContact).to_string());
    }
    if input.releases_locks {
        lines.push(lettering.word(Word::ReleasesLocks).to_string());
        // Where the lock's own circuit has one too, it is not this one.
        if door.fire_interlock == Some(true) {
            lines.push(lettering.word(Word::SecondFireContact).to_string());
        }
    }
    if !input.tells.is_empty() {
        let names: Vec<&str> = input.tells.iter().map(|name| name.as_str()).collect();
        lines.push(lettering.say(&Phrase::Tells { names: &names.join(", ") }));
    }
    lines
}
