//! Words for the parts of a sheet.

use latchline_assess::LoadPart;
use latchline_assess::door::sheet::Caution;
use latchline_assess::door::wiring::WiringElement;
use latchline_site::catalogue::{AccessoryKind, Feed, LightKind, LockKind, PowerLoss};
use latchline_site::model::{AlarmKind, LightFeed, LitWhen, LockFeed, RelayContact, Suppression};

pub(crate) fn kind(kind: LockKind) -> &'static str {
    match kind {
        LockKind::Strike => "strike",
        LockKind::Magnet => "magnet",
        LockKind::Motor => "motor lock",
        LockKind::Gate => "gate drive",
    }
}

pub(crate) fn power_loss(power_loss: PowerLoss) -> &'static str {
    match power_loss {
        PowerLoss::Opens => "opens without power (fail-safe)",
        PowerLoss::StaysShut => "stays shut without power (fail-secure)",
    }
}

pub(crate) fn current_kind(kind: Feed) -> &'static str {
    match kind {
        Feed::Dc => "direct current",
        Feed::Ac => "alternating current",
        Feed::Either => "direct or alternating current",
    }
}

pub(crate) fn feed(feed: LockFeed) -> &'static str {
    match feed {
        LockFeed::Station => "from the door station's lock output",
        LockFeed::Bus => "from the bus through the relay",
        LockFeed::OwnSupply => "from a supply of its own through the relay",
        LockFeed::DryContact => "has power of its own, takes a dry contact",
    }
}

pub(crate) fn contact(contact: RelayContact) -> &'static str {
    match contact {
        RelayContact::NormallyOpen => "common and normally open",
        RelayContact::NormallyClosed => "common and normally closed",
    }
}

pub(crate) fn suppression(suppression: Suppression) -> &'static str {
    match suppression {
        Suppression::None => "nothing",
        Suppression::Diode => "diode, cathode to plus",
        Suppression::Clamp => "clamp",
        Suppression::Varistor => "varistor",
    }
}

pub(crate) fn accessory(kind: AccessoryKind) -> &'static str {
    match kind {
        AccessoryKind::Keypad => "keypad",
        AccessoryKind::Reader => "reader",
        AccessoryKind::Buttons => "buttons",
        AccessoryKind::Names => "names",
    }
}

pub(crate) fn light(kind: LightKind) -> &'static str {
    match kind {
        LightKind::Buttons => "button light",
        LightKind::Names => "name light",
        LightKind::Porch => "porch light",
    }
}

pub(crate) fn light_feed(feed: LightFeed) -> &'static str {
    match feed {
        LightFeed::Station => "door station",
        LightFeed::Bus => "bus",
        LightFeed::OwnSupply => "supply of its own",
    }
}

pub(crate) fn lit(lit: LitWhen) -> &'static str {
    match lit {
        LitWhen::Night => "at night",
        LitWhen::Always => "always",
        LitWhen::InUse => "in use",
    }
}

pub(crate) fn alarm(kind: AlarmKind) -> &'static str {
    match kind {
        AlarmKind::Tamper => "tamper",
        AlarmKind::Duress => "duress, silent",
        AlarmKind::Door => "door open",
        AlarmKind::Fire => "fire alarm",
    }
}

pub(crate) fn at_rest(contact: RelayContact) -> &'static str {
    match contact {
        RelayContact::NormallyOpen => "normally open",
        RelayContact::NormallyClosed => "normally closed",
    }
}

pub(crate) fn load_part(part: LoadPart) -> &'static str {
    match part {
        LoadPart::Station => "door station",
        LoadPart::Illumination => "its illumination",
        LoadPart::Heater => "its heater",
        LoadPart::HeldLocks => "locks held shut",
        LoadPart::ReleasedLocks => "locks released",
        LoadPart::Module(_) => "module",
        LoadPart::Light(_) => "light",
        LoadPart::AlarmLoops => "alarm loops",
    }
}

pub(crate) fn element(element: WiringElement, is_ac: bool) -> &'static str {
    match element {
        WiringElement::FeedOut | WiringElement::FeedReturn if is_ac => "feed ~",
        WiringElement::FeedOut => "feed +",
        WiringElement::FeedReturn => "feed -",
        WiringElement::RelayNormallyOpen => "relay common, normally open",
        WiringElement::RelayNormallyClosed => "relay common, normally closed",
        WiringElement::RelayBetween => "relay in between, common, normally open",
        WiringElement::ExitButtonNormallyOpen => "exit button (normally open)",
        WiringElement::ExitButtonNormallyClosed => "exit button (normally closed)",
        WiringElement::EmergencyRelease => "emergency release (normally closed)",
        WiringElement::FireInterlock => "fire alarm contact (normally closed)",
        WiringElement::Lock => "lock",
        WiringElement::DriveInput => "drive's input",
    }
}

pub(crate) fn caution(caution: Caution) -> &'static str {
    match caution {
        Caution::IsolateAndProveDead => {
            "Isolate and prove dead before wiring; mains work by licensed people."
        }
        Caution::KeepApartFromMains => "Keep extra-low voltage apart from mains.",
        Caution::ResponsiblePersonDecides => {
            "Release on an escape route and the fire interlock are decided by the responsible person; local codes prevail."
        }
        Caution::WayOutWithoutBus => "The way out must work without the bus and without the door station.",
        Caution::RelayOnSecureSide => "Mount the relay on the secure side of the door.",
        Caution::DiodePolarity => "Mind the diode's polarity; never on alternating current.",
        Caution::OpensOnPowerFailure => {
            "The coil is energised while the door is shut: it is warm, and the door opens when power fails unless a battery feeds it."
        }
        Caution::DriveSafety => {
            "The drive's own safety devices are another trade's work; a contact must not bypass them."
        }
        Caution::RestsOnAssumedValues => "Some figures rest on assumed values.",
    }
}
