//! What wiring pictures are lettered with.

use crate::language::{Lettering, Phrase, Word};
use latchline_assess::door::alarm::AlarmSheet;
use latchline_assess::door::sheet::{DoorSheet, LockSheet};
use latchline_scene::font::undivided;
use latchline_site::catalogue::{LockKind, PowerLoss};
use latchline_site::model::{AlarmKind, LockFeed, LockRelay, RelayContact, Suppression};
use latchline_wiring::lock::{LockWiring, WiringElement};

/// Name of the picture of a lock.
pub(super) fn lock_name(door: &DoorSheet, lock: &LockSheet, lettering: Lettering) -> String {
    lettering.say(&Phrase::LockOfDoor { door: door.entrance.as_str(), number: lock.number })
}

/// The wiring as words, for those who cannot see the picture.
pub(super) fn chain(lock: &LockSheet, lettering: Lettering) -> String {
    let series = lock.wiring.series.iter();
    let names = series.map(|element| undivided(&element_name(*element, lock, lettering)));
    names.collect::<Vec<_>>().join(", ")
}

/// The line under the head of a lock's picture.
pub(super) fn principle(wiring: &LockWiring, power_loss: PowerLoss) -> Word {
    match (wiring.feed, power_loss) {
        (LockFeed::DryContact, _) => Word::DryContact,
        (_, PowerLoss::Opens) => Word::OpensWithoutPower,
        (_, PowerLoss::StaysShut) => Word::StaysShutWithoutPower,
    }
}

/// What stands in the box of the feed.
pub(super) fn feed(lock: &LockSheet, lettering: Lettering) -> Vec<String> {
    let (feed, number) = (lock.wiring.feed, lock.number);
    let words = |list: [Word; 2]| list.map(|word| lettering.word(word).to_string()).to_vec();
    match feed {
        LockFeed::Station => {
            vec![lettering.word(Word::DoorStation).to_string(), lettering.say(&Phrase::LockOutput { number })]
        }
        LockFeed::Bus => words([Word::BusAtThe, Word::AtDoorStation]),
        LockFeed::OwnSupply => words([Word::SupplyOf, Word::ItsOwn]),
        LockFeed::DryContact if lock.kind == LockKind::Lift => words([Word::InputOf, Word::OfTheLift]),
        LockFeed::DryContact => words([Word::InputOf, Word::OfTheDrive]),
    }
}

/// What stands under a part.
pub(super) fn element_name(element: WiringElement, lock: &LockSheet, lettering: Lettering) -> String {
    let (number, relay) = (lock.number, lock.wiring.relay);
    let word = match element {
        WiringElement::FeedOut | WiringElement::FeedReturn => Word::Feed,
        WiringElement::RelayNormallyOpen if relay == LockRelay::OnSecureSide => {
            return lettering.say(&Phrase::SecureRelayOpen {});
        }
        WiringElement::RelayNormallyClosed if relay == LockRelay::OnSecureSide => {
            return lettering.say(&Phrase::SecureRelayClosed {});
        }
        WiringElement::RelayNormallyOpen => return lettering.say(&Phrase::RelayOpen { number }),
        WiringElement::RelayNormallyClosed => return lettering.say(&Phrase::RelayClosed { number }),
        WiringElement::RelayBetween => Word::RelayBetween,
        WiringElement::ExitButtonNormallyOpen | WiringElement::ExitButtonNormallyClosed => Word::ExitButton,
        WiringElement::EmergencyRelease => Word::EmergencyRelease,
        WiringElement::FireInterlock => Word::FireContact,
        WiringElement::Lock => Word::Lock,
        WiringElement::DriveInput => Word::DriveInput,
    };
    lettering.word(word).to_string()
}

/// The quiet line below that.
pub(super) fn element_remark(element: WiringElement, lock: &LockSheet) -> Option<Word> {
    match (element, lock.wiring.coil_contact) {
        (WiringElement::ExitButtonNormallyOpen, _) => Some(Word::NormallyOpen),
        (WiringElement::ExitButtonNormallyClosed, _) => Some(Word::NormallyClosed),
        (WiringElement::EmergencyRelease | WiringElement::FireInterlock, _) => Some(Word::OpensToRelease),
        (WiringElement::RelayNormallyOpen | WiringElement::RelayNormallyClosed, _) => {
            (lock.wiring.relay == LockRelay::InStation).then_some(Word::InDoorStation)
        }
        (WiringElement::RelayBetween, Some(RelayContact::NormallyClosed)) => Some(Word::CoilOnWhileShut),
        (WiringElement::RelayBetween, _) => Some(Word::CoilOnToRelease),
        _ => None,
    }
}

/// What a relay in between must be made for: the feed at its coil, what kills the coil's voltage spike, and the current of its contact.
pub(super) fn relay_between(lock: &LockSheet, lettering: Lettering) -> Vec<String> {
    let coil = lock.circuit.as_ref().ok().map(|circuit| {
        let volts = lettering.trimmed(circuit.feed.voltage_v, 1);
        let kind = if circuit.feed.is_ac { "AC" } else { "DC" };
        lettering.say(&Phrase::CoilVoltage { volts: &volts, kind })
    });
    let contact = lock
        .relay_between_a
        .map(|amperes| lettering.say(&Phrase::ContactRating { amperes: &lettering.trimmed(amperes, 1) }));
    let is_dc = !lock.wiring.is_ac;
    let suppressor = is_dc.then(|| lettering.word(Word::ItsSuppressor).to_string());
    coil.into_iter().chain(suppressor).chain(contact).collect()
}

/// The mark at the far terminal of a contact of a relay, as it is printed there.
pub(super) fn relay_terminal(element: WiringElement) -> Option<&'static str> {
    match element {
        WiringElement::RelayNormallyOpen | WiringElement::RelayBetween => Some("NO"),
        WiringElement::RelayNormallyClosed => Some("NC"),
        _ => None,
    }
}

/// The lock itself.
pub(super) fn lock_kind(kind: LockKind) -> Word {
    match kind {
        LockKind::Strike => Word::Strike,
        LockKind::Magnet => Word::Magnet,
        LockKind::Motor => Word::MotorLock,
        LockKind::Gate => Word::Drive,
        LockKind::Lift => Word::Lift,
    }
}

/// What lies across the lock.
pub(super) fn suppressor(fitted: Suppression) -> Option<Word> {
    match fitted {
        Suppression::None => None,
        Suppression::Diode => Some(Word::Diode),
        Suppression::Clamp => Some(Word::Clamp),
        Suppression::Varistor => Some(Word::Varistor),
    }
}

/// What an alarm input reports.
pub(super) fn alarm(kind: AlarmKind) -> Word {
    match kind {
        AlarmKind::Tamper => Word::TamperContact,
        AlarmKind::Duress => Word::DuressButton,
        AlarmKind::Door => Word::DoorContact,
        AlarmKind::Fire => Word::FireContact,
    }
}

/// How its contact stands.
pub(super) fn at_rest(contact: RelayContact) -> Word {
    match contact {
        RelayContact::NormallyOpen => Word::OpenAtRest,
        RelayContact::NormallyClosed => Word::ClosedAtRest,
    }
}

/// An alarm input in words.
pub(super) fn input(input: &AlarmSheet, lettering: Lettering) -> String {
    let number = lettering.say(&Phrase::AlarmInput { number: input.number });
    let contact = lettering.word(at_rest(input.contact));
    let mut words = format!("{number}: {}, {contact}", lettering.word(alarm(input.kind)));
    if input.end_of_line_resistor {
        words.push_str(&format!(", {}", lettering.word(Word::ResistorAtContact)));
    }
    words
}
