//! What is fitted at a door, in words that several tables share.

use crate::language::{Sentence, Word};
use crate::locale::{Locale, Rounding};
use latchline_assess::door::circuit::LockCircuit;
use latchline_finding::Unit;
use latchline_site::model::{AlarmKind, LightFeed, LitWhen};

/// From where a light takes its power.
pub(super) fn light_feed_word(feed: LightFeed) -> Word {
    match feed {
        LightFeed::Station => Word::LightFromStation,
        LightFeed::Bus => Word::LightFromBus,
        LightFeed::OwnSupply => Word::LightFromOwnSupply,
    }
}

/// When a light is on.
pub(super) fn lit_word(lit: LitWhen) -> Word {
    match lit {
        LitWhen::Night => Word::LitAtNight,
        LitWhen::Always => Word::LitAlways,
        LitWhen::InUse => Word::LitInUse,
    }
}

/// What an alarm input reports.
pub(super) fn alarm_word(kind: AlarmKind) -> Word {
    match kind {
        AlarmKind::Tamper => Word::TamperAlarm,
        AlarmKind::Duress => Word::DuressAlarm,
        AlarmKind::Door => Word::DoorAlarm,
        AlarmKind::Fire => Word::FireAlarm,
    }
}

/// The current of a lock's circuit, as the calculation sheet reckons with it: what a contact in it must be made for.
pub(super) fn current_words(locale: &Locale, circuit: &LockCircuit) -> String {
    locale.cell_text(&locale.quantity(circuit.adverse_current_a, Unit::Ampere, Rounding::Up), None)
}

/// What that current is made of.
pub(super) fn current_remark(locale: &Locale, circuit: &LockCircuit) -> String {
    let rated = &locale.in_words(circuit.current_a, Unit::Ampere);
    locale.say(&match circuit.by_inrush {
        true => Sentence::CurrentByInrush { rated },
        false => Sentence::CurrentAtMost { rated },
    })
}
