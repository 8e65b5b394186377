//! The picture of a door's alarm inputs: a loop from each to its contact.

use super::picture::{Picture, head, source_box, thin, wire};
use super::symbols::{HALF_MM, button, contact, driver, joint, resistor};
use super::words;
use crate::language::{Lettering, Phrase, Word};
use crate::palette::Ink;
use crate::scene::{Anchor, Area, Group, Layer};
use crate::sheet::fitted;
use latchline_assess::door::alarm::AlarmSheet;
use latchline_assess::door::sheet::DoorSheet;
use latchline_site::model::{AlarmKind, RelayContact};

/// Most inputs in one picture.
pub(super) const MOST_INPUTS: usize = 4;
const WIDTH_MM: f64 = 110.0;
const HEAD_MM: f64 = 17.0;
/// From the upper wire to the end of its row.
const BELOW_MM: f64 = 14.0;
const INPUT_MM: f64 = 22.0;
/// From the upper wire to a branch above it.
const BRANCH_MM: f64 = 7.0;

/// The picture of some alarm inputs of a door.
pub(crate) fn inputs_picture(door: &DoorSheet, inputs: &[AlarmSheet], lettering: Lettering) -> Picture {
    let name = lettering.say(&Phrase::AlarmInputsOfDoor { door: door.entrance.as_str() });
    let height_mm = HEAD_MM + inputs.iter().map(|input| above_mm(input) + BELOW_MM).sum::<f64>();
    let each: Vec<String> = inputs.iter().map(|input| words::input(input, lettering)).collect();
    let in_words = format!("{name}: {}", each.join("; "));
    // Further pictures of the same door are other elements.
    let numbers: Vec<String> = inputs.iter().map(|input| input.number.to_string()).collect();
    let element = format!("{name} {}", numbers.join(" "));
    let mut group = Group::of_element("alarm-wiring", element, in_words.clone());
    head(
        &mut group,
        Area::new(0.0, 0.0, WIDTH_MM, height_mm),
        &name,
        &door.station,
        lettering.word(Word::LoopsToContacts),
    );
    let mut top = HEAD_MM;
    for input in inputs {
        row(&mut group, door, input, top + above_mm(input), lettering);
        top += above_mm(input) + BELOW_MM;
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
        AlarmKind::Fire => 11.5,
        AlarmKind::Tamper | AlarmKind::Door => 0.0,
    };
    6.0_f64.max(4.0 + branch + mover) + 1.0
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
        let at = ((area.right() + turn) / 2.0, lower - 1.4);
        let text = fitted(at, &words, 2.2, 1.6, false, turn - area.right() - 4.0).ink(Ink::Quiet);
        group.text(Layer::Lettering, text.anchored(Anchor::Middle));
    }
    let x = turn + 4.0;
    let room = WIDTH_MM - 3.0 - x;
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
    let kind = lettering.word(words::alarm(input.kind));
    group.text(Layer::Lettering, fitted((x, upper - 4.0), kind, 2.6, 2.0, true, room));
    for (index, line) in lines.iter().enumerate() {
        let at = (x, upper - 0.6 + 3.2 * index as f64);
        group.text(Layer::Lettering, fitted(at, line, 2.2, 1.6, false, room).ink(Ink::Quiet));
    }
}
