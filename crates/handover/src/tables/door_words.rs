//! What is fitted at a door, in words that several tables share.

use crate::language::Word;
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
