//! Which word stands for a part of a door, for every sheet alike.

use super::caution::Caution;
use latchline_network::demand::LoadPart;
use latchline_site::catalogue::{AccessoryKind, Feed, LightKind, LockKind, PowerLoss};
use latchline_site::model::{
    AlarmKind, LightFeed, LitWhen, LockFeed, LockPart, LockRelay, RelayContact, Suppression,
};
use latchline_wiring::lock::WiringElement;
pub use latchline_words::door::DoorWord;

/// How a lock opens.
pub fn kind(kind: LockKind) -> DoorWord {
    match kind {
        LockKind::Strike => DoorWord::Strike,
        LockKind::Magnet => DoorWord::Magnet,
        LockKind::Motor => DoorWord::MotorLock,
        LockKind::Gate => DoorWord::GateDrive,
        LockKind::Lift => DoorWord::LiftController,
    }
}

/// What a lock does without power.
pub fn power_loss(power_loss: PowerLoss) -> DoorWord {
    match power_loss {
        PowerLoss::Opens => DoorWord::FailSafe,
        PowerLoss::StaysShut => DoorWord::FailSecure,
    }
}

/// The current that a part is made for.
pub fn current_kind(kind: Feed) -> DoorWord {
    match kind {
        Feed::Dc => DoorWord::DirectCurrent,
        Feed::Ac => DoorWord::AlternatingCurrent,
        Feed::Either => DoorWord::EitherCurrent,
    }
}

/// From where a lock takes its power.
pub fn feed(feed: LockFeed) -> DoorWord {
    match feed {
        LockFeed::Station => DoorWord::FeedStation,
        LockFeed::Bus => DoorWord::FeedBus,
        LockFeed::OwnSupply => DoorWord::FeedOwnSupply,
        LockFeed::DryContact => DoorWord::FeedDryContact,
    }
}

/// Between which terminals of a relay something is wired.
pub fn contact(contact: RelayContact) -> DoorWord {
    match contact {
        RelayContact::NormallyOpen => DoorWord::CommonAndOpen,
        RelayContact::NormallyClosed => DoorWord::CommonAndClosed,
    }
}

/// How a contact stands while all is well.
pub fn at_rest(contact: RelayContact) -> DoorWord {
    match contact {
        RelayContact::NormallyOpen => DoorWord::NormallyOpen,
        RelayContact::NormallyClosed => DoorWord::NormallyClosed,
    }
}

/// What lies across a coil.
pub fn suppression(suppression: Suppression) -> DoorWord {
    match suppression {
        Suppression::None => DoorWord::Nothing,
        Suppression::Diode => DoorWord::Diode,
        Suppression::Clamp => DoorWord::Clamp,
        Suppression::Varistor => DoorWord::Varistor,
    }
}

/// What a module is.
pub fn accessory(kind: AccessoryKind) -> DoorWord {
    match kind {
        AccessoryKind::Keypad => DoorWord::Keypad,
        AccessoryKind::Reader => DoorWord::Reader,
        AccessoryKind::Buttons => DoorWord::Buttons,
        AccessoryKind::Names => DoorWord::Names,
    }
}

/// What a light shines on.
pub fn light(kind: LightKind) -> DoorWord {
    match kind {
        LightKind::Buttons => DoorWord::ButtonLight,
        LightKind::Names => DoorWord::NameLight,
        LightKind::Porch => DoorWord::PorchLight,
    }
}

/// What feeds a light.
pub fn light_feed(feed: LightFeed) -> DoorWord {
    match feed {
        LightFeed::Station => DoorWord::FromStation,
        LightFeed::Bus => DoorWord::FromBus,
        LightFeed::OwnSupply => DoorWord::FromOwnSupply,
    }
}

/// When a light is on.
pub fn lit(lit: LitWhen) -> DoorWord {
    match lit {
        LitWhen::Night => DoorWord::AtNight,
        LitWhen::Always => DoorWord::Always,
        LitWhen::InUse => DoorWord::InUse,
    }
}

/// What an alarm input reports.
pub fn alarm(kind: AlarmKind) -> DoorWord {
    match kind {
        AlarmKind::Tamper => DoorWord::Tamper,
        AlarmKind::Duress => DoorWord::Duress,
        AlarmKind::Door => DoorWord::DoorOpen,
        AlarmKind::Fire => DoorWord::FireAlarm,
    }
}

/// A part of the standby load of a door.
pub fn load_part(part: LoadPart) -> DoorWord {
    match part {
        LoadPart::Station => DoorWord::Station,
        LoadPart::Illumination => DoorWord::Illumination,
        LoadPart::Heater => DoorWord::Heater,
        LoadPart::HeldLocks => DoorWord::HeldLocks,
        LoadPart::ReleasedLocks => DoorWord::ReleasedLocks,
        LoadPart::Module(_) => DoorWord::Module,
        LoadPart::Light(_) => DoorWord::Light,
        LoadPart::AlarmLoops => DoorWord::AlarmLoops,
    }
}

/// An element of a lock's circuit.
pub fn element(element: WiringElement, is_ac: bool) -> DoorWord {
    match element {
        WiringElement::FeedOut | WiringElement::FeedReturn if is_ac => DoorWord::FeedAlternating,
        WiringElement::FeedOut => DoorWord::FeedPlus,
        WiringElement::FeedReturn => DoorWord::FeedMinus,
        WiringElement::RelayNormallyOpen => DoorWord::RelayOpen,
        WiringElement::RelayNormallyClosed => DoorWord::RelayClosed,
        WiringElement::RelayBetween => DoorWord::RelayBetween,
        WiringElement::ExitButtonNormallyOpen => DoorWord::ExitButtonOpen,
        WiringElement::ExitButtonNormallyClosed => DoorWord::ExitButtonClosed,
        WiringElement::EmergencyRelease => DoorWord::EmergencyRelease,
        WiringElement::FireInterlock => DoorWord::FireInterlock,
        WiringElement::Lock => DoorWord::Lock,
        WiringElement::DriveInput => DoorWord::DriveInput,
    }
}

/// The same, with which relay it is.
pub fn part_of(part: LockPart, relay: LockRelay) -> DoorWord {
    match (part, relay) {
        (LockPart::Relay, LockRelay::Between) => DoorWord::PartRelayBetween,
        (LockPart::Relay, LockRelay::OnSecureSide) => DoorWord::PartRelaySecure,
        _ => self::part(part),
    }
}

/// A part of a lock's circuit with a cable of its own.
pub fn part(part: LockPart) -> DoorWord {
    match part {
        LockPart::ExitButton => DoorWord::PartExitButton,
        LockPart::EmergencyRelease => DoorWord::PartEmergencyRelease,
        LockPart::FireContact => DoorWord::PartFireContact,
        LockPart::DoorContact => DoorWord::PartDoorContact,
        LockPart::Relay => DoorWord::PartRelay,
        LockPart::Supply => DoorWord::PartSupply,
    }
}

/// What must be said beside the figures.
pub fn caution(caution: Caution) -> DoorWord {
    match caution {
        Caution::IsolateAndProveDead => DoorWord::IsolateAndProveDead,
        Caution::KeepApartFromMains => DoorWord::KeepApartFromMains,
        Caution::ResponsiblePersonDecides => DoorWord::ResponsiblePersonDecides,
        Caution::WayOutWithoutBus => DoorWord::WayOutWithoutBus,
        Caution::RelayOnSecureSide => DoorWord::RelayOnSecureSide,
        Caution::RelayInStationOutdoors => DoorWord::RelayInStationOutdoors,
        Caution::DiodePolarity => DoorWord::DiodePolarity,
        Caution::OpensOnPowerFailure => DoorWord::OpensOnPowerFailure,
        Caution::DriveSafety => DoorWord::DriveSafety,
        Caution::RestsOnAssumedValues => DoorWord::RestsOnAssumedValues,
    }
}
