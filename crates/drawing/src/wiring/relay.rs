//! The circuit of a relay beside a lock: that of the coil of one in between, or the command of one on the secure side.

use super::picture::{LINE_MM, Words, thin, wire};
use super::rails::{ABOVE_WIRE_MM, FEED_MM, LEFT_MM, LockPicture, SLOT_MM, SLOT_WORDS_MM, is_closed_at_rest};
use super::symbols::{HALF_MM, contact, terminals};
use super::words;
use crate::language::{Lettering, Phrase, Word};
use latchline_assess::door::sheet::LockSheet;
use latchline_scene::font::{LADDER_MM, wrapped};
use latchline_scene::palette::Ink;
use latchline_scene::{Anchor, Area, Group, Layer};
use latchline_site::model::{LockRelay, RelayContact};
use latchline_wiring::lock::WiringElement;

/// Room for the words at a coil, and from its circuit to the first of them.
const COIL_WORDS_MM: f64 = 36.0;
const TO_WORDS_MM: f64 = 6.2;
/// Where the command of a relay on the secure side begins, and its box.
const COMMAND_FROM_MM: f64 = LEFT_MM + 4.0;
const COMMAND_BOX_MM: [f64; 2] = [COMMAND_FROM_MM + 16.0, COMMAND_FROM_MM + 24.0];
/// From one conductor of it to the other.
const APART_MM: f64 = 8.0;

/// Room that the circuit of the relay beside a lock takes, in millimetres; 0 of one in the station.
pub(super) fn relay_mm(lock: &LockSheet, width_mm: f64, lettering: Lettering) -> f64 {
    match lock.wiring.relay {
        LockRelay::InStation => 0.0,
        LockRelay::Between => 15.0 + back_mm(lock, lettering),
        LockRelay::OnSecureSide => {
            let room = width_mm - COMMAND_BOX_MM[1] - 5.0;
            let lines = wrapped(lettering.word(Word::CommandOfRelay), LADDER_MM, false, room).len();
            (12.0 + APART_MM).max(8.0 + lines as f64 * LINE_MM) + 4.0
        }
    }
}

/// What stands at the coil of a relay in between.
fn coil_words(lock: &LockSheet, lettering: Lettering) -> Vec<String> {
    let its = std::iter::once(lettering.word(Word::ItsCoil).to_string());
    its.chain(words::relay_between(lock, lettering)).collect()
}

/// From the way out of a coil's circuit to the way back, below the words at its parts.
fn back_mm(lock: &LockSheet, lettering: Lettering) -> f64 {
    let lines = |words: &str, room: f64| wrapped(words, LADDER_MM, false, room).len();
    let at_contact = lines(&words::element_name(coil_contact(lock), lock, lettering), SLOT_WORDS_MM)
        + lines(lettering.word(Word::InDoorStation), SLOT_WORDS_MM);
    let at_coil = coil_words(lock, lettering).iter().map(|words| lines(words, COIL_WORDS_MM)).sum::<usize>()
        + lines(lettering.word(Word::RelayBetween), COIL_WORDS_MM);
    TO_WORDS_MM + at_contact.max(at_coil) as f64 * LINE_MM + 1.0
}

/// The contact of the station that switches the coil.
fn coil_contact(lock: &LockSheet) -> WiringElement {
    match lock.wiring.coil_contact {
        Some(RelayContact::NormallyClosed) => WiringElement::RelayNormallyClosed,
        Some(RelayContact::NormallyOpen) | None => WiringElement::RelayNormallyOpen,
    }
}

/// The circuit of the coil of a relay in between, in a row of its own: from the feed through the station's relay and back.
pub(super) fn coil_circuit(group: &mut Group, lock: &LockSheet, plan: LockPicture) {
    let y = plan.lower() + 13.0;
    let back = y + back_mm(lock, plan.lettering);
    let half = HALF_MM;
    let centre = (LEFT_MM + 16.0, y);
    let element = coil_contact(lock);
    let signs = if lock.wiring.is_ac { ["~", "~"] } else { ["+", "–"] };
    // Both sides of the feed, at the connectors that they have above.
    let nodes = lock.wiring.series.len() - 1;
    for ((sign, at), node) in signs.into_iter().zip([y, back]).zip([0, nodes - 1]) {
        let words = format!("{} {sign}", plan.lettering.word(Word::Feed));
        Words::to((LEFT_MM - 2.0, at + 1.2), FEED_MM - 2.0).draw(group, &words);
        group.circle(Layer::Wiring, (LEFT_MM, at), 0.5, Some(thin()), Some(Ink::Paper));
        if let Some(number) = lock.joints.get(node).copied().flatten() {
            let place = (LEFT_MM + 0.8, at - ABOVE_WIRE_MM);
            Words::from(place, SLOT_MM).bold().draw(group, &number.to_string());
        }
    }
    let body = Area::new(centre.0 + 28.5, y - 2.2, 7.0, 4.4);
    group.line(Layer::Wiring, (LEFT_MM, y), (centre.0 - half, y), wire());
    contact(group, centre, is_closed_at_rest(element));
    terminals(group, centre, words::relay_terminal(element).unwrap_or_default());
    group.line(Layer::Wiring, (centre.0 + half, y), (body.x, y), wire());
    group.rectangle(Layer::Device, body, 0.0, Some(thin()), Some(Ink::Inside));
    group.line(Layer::Device, (body.x, body.bottom()), (body.x + 2.4, body.y), thin());
    let turn = body.x + body.width / 2.0 + COIL_WORDS_MM / 2.0 + 1.0;
    group.path(Layer::Wiring, vec![(body.right(), y), (turn, y), (turn, back), (LEFT_MM, back)], wire());
    for (mark, x, anchor) in [("A1", body.x - 0.8, Anchor::End), ("A2", body.right() + 0.8, Anchor::Start)] {
        Words { anchor, ..Words::from((x, y - ABOVE_WIRE_MM), SLOT_MM) }.bold().draw(group, mark);
    }
    let name = words::element_name(element, lock, plan.lettering);
    let below = Words::about((centre.0, y + TO_WORDS_MM), SLOT_WORDS_MM).draw(group, &name);
    below.quiet().draw(group, plan.lettering.word(Word::InDoorStation));
    let at = (body.x + body.width / 2.0, y + TO_WORDS_MM);
    let below = Words::about(at, COIL_WORDS_MM).draw(group, plan.lettering.word(Word::RelayBetween));
    let all = coil_words(lock, plan.lettering);
    all.iter().fold(below, |below, line| below.quiet().draw(group, line));
}

/// Over which the door station commands a relay on the secure side, in a row of its own.
pub(super) fn command_circuit(group: &mut Group, lock: &LockSheet, width_mm: f64, plan: LockPicture) {
    let y = plan.lower() + 12.0;
    let [left, right] = COMMAND_BOX_MM;
    let body = Area::new(left, y - 3.0, right - left, APART_MM + 6.0);
    for (pole, at) in ["1", "2"].into_iter().zip([y, y + APART_MM]) {
        let words = plan.lettering.say(&Phrase::CommandEnd { number: lock.number, pole });
        Words::to((COMMAND_FROM_MM - 2.0, at + 1.2), COMMAND_FROM_MM - 4.0).draw(group, &words);
        group.line(Layer::Wiring, (COMMAND_FROM_MM, at), (body.x, at), wire());
        group.circle(Layer::Wiring, (COMMAND_FROM_MM, at), 0.5, Some(thin()), Some(Ink::Paper));
        Words::to((body.x - 0.8, at - ABOVE_WIRE_MM), SLOT_MM).bold().draw(group, pole);
    }
    group.rectangle(Layer::Device, body, 0.0, Some(thin()), Some(Ink::Inside));
    let beside = (body.right() + 2.0, y - 0.6);
    let room = width_mm - beside.0 - 3.0;
    Words::from(beside, room).quiet().draw(group, plan.lettering.word(Word::CommandOfRelay));
}
