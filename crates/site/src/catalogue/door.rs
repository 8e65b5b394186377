//! Locks, lights and door-side accessories.

use super::head::{PART_KEYS, PartHead};
use crate::keys::bounds::*;
use crate::keys::{Bears, Kind, LoadValue, choices, keys};
use latchline_finding::Sourced;
use latchline_finding::quantity::{Current, Duration, Inductance, Ratio, Voltage};

choices! {
    /// How a lock opens.
    pub enum LockKind {
        /// An electric strike.
        Strike = "strike",
        /// A holding magnet.
        Magnet = "magnet",
        /// A motor lock.
        Motor = "motor",
        /// A gate or barrier drive with a dry-contact input.
        Gate = "gate",
        /// A lift controller with a dry-contact input.
        Lift = "lift",
    }
}

impl LockKind {
    /// Whether it is a system of its own, with power of its own, which takes a contact: a gate drive or a lift.
    pub fn is_of_another_system(self) -> bool {
        matches!(self, LockKind::Gate | LockKind::Lift)
    }
}

choices! {
    /// What a lock does when its power goes.
    pub enum PowerLoss {
        /// It opens (fail-safe).
        Opens = "opens",
        /// It stays shut (fail-secure).
        StaysShut = "stays-shut",
    }
}

choices! {
    /// Kind of current.
    pub enum Feed {
        /// Direct current.
        Dc = "dc",
        /// Alternating current.
        Ac = "ac",
        /// Either.
        Either = "either",
    }
}

keys! {
    /// A lock.
    pub struct Lock = LOCK LockModel after PART_KEYS;
    try read(record, provenance, head: PartHead);

    /// Name, title, source, price.
    field head: PartHead = head;
    /// Strike, holding magnet, motor lock, or what has power of its own: gate drive or lift.
    kind: Sourced<LockKind> = must(Kind::Words(LockKind::WORDS));
    /// What it does when its power goes.
    power_loss: Sourced<PowerLoss> = must(Kind::Words(PowerLoss::WORDS));
    /// Kind of current. Without it dc.
    feed: Sourced<Feed> = or(Kind::Words(Feed::WORDS), Feed::Dc);
    /// Rated voltage; a gate drive or a lift with a dry contact has none.
    voltage: Option<Sourced<Voltage>> = may(VOLTAGE);
    /// How far the voltage may lie below rated. Without it 10 %, assumed.
    undervoltage_tolerance: Sourced<Ratio> = or_assumed(TOLERANCE, Ratio::from_fraction(0.1)).goes_with("voltage");
    /// How far the voltage may lie above rated. Without it 10 %, assumed.
    overvoltage_tolerance: Sourced<Ratio> = or_assumed(TOLERANCE, Ratio::from_fraction(0.1)).goes_with("voltage");
    /// Current at rated voltage.
    current: Option<Sourced<Current>> = may(CURRENT);
    /// Peak current when it starts.
    inrush_current: Option<Sourced<Current>> = may(CURRENT);
    /// Longest time it may stay energised; leave it out for continuous.
    duty_limit: Option<Sourced<Duration>> = may(TIME);
    /// Inductance of its coil, armature attracted.
    coil_inductance: Option<Sourced<Inductance>> = may(INDUCTANCE);
    /// Current at which its armature drops out.
    dropout_current: Option<Sourced<Current>> = may(CURRENT);
}

choices! {
    /// What an accessory is.
    pub enum AccessoryKind {
        /// A keypad module.
        Keypad = "keypad",
        /// A card or tag reader module.
        Reader = "reader",
        /// A module of call buttons.
        Buttons = "buttons",
        /// A module of names or a display.
        Names = "names",
    }
}

keys! {
    /// A module in the chain of a door station.
    pub struct Accessory = ACCESSORY Accessory after PART_KEYS;
    try read(record, provenance, head: PartHead);

    /// Name, title, source, price.
    field head: PartHead = head;
    /// Family that it belongs to.
    family: Sourced<String> = must(TEXT);
    /// Keypad, card reader, call buttons, or names.
    kind: Sourced<AccessoryKind> = must(Kind::Words(AccessoryKind::WORDS));
    /// Current that it draws from the door station.
    current: Sourced<Current> = must(CURRENT).bears(Bears::OnFlow);
    /// Current that its illumination adds at night.
    night_current: Option<Sourced<Current>> = may(CURRENT).bears(Bears::OnFlow);
    /// Dwellings that its buttons can call.
    buttons: Option<Sourced<u32>> = may(ONE_OR_MORE);
}

choices! {
    /// What a light shines on.
    pub enum LightKind {
        /// Call buttons.
        Buttons = "buttons",
        /// A name plate or house number.
        Names = "names",
        /// The porch: who stands there, and the lock.
        Porch = "porch",
    }
}

keys! {
    /// A light at a door, beside those that a station or module has inside.
    pub struct Light = LIGHT Light after PART_KEYS;
    try read(record, provenance, head: PartHead);

    /// Name, title, source, price.
    field head: PartHead = head;
    /// Light for call buttons, for names, or porch light.
    kind: Sourced<LightKind> = must(Kind::Words(LightKind::WORDS));
    /// Kind of current. Without it dc.
    feed: Sourced<Feed> = or(Kind::Words(Feed::WORDS), Feed::Dc);
    /// Rated voltage.
    voltage: Sourced<Voltage> = must(VOLTAGE).bears(Bears::OnFlow);
    /// How far the voltage may lie from rated, either way. Without it 10 %, assumed.
    voltage_tolerance: Sourced<Ratio> = or_assumed(TOLERANCE, Ratio::from_fraction(0.1));
    /// What it draws at rated voltage: power, current or resistance.
    load: Sourced<LoadValue> = must(Kind::Load).bears(Bears::OnFlow);
}

impl Light {
    /// Its current at rated voltage.
    pub fn rated_current(&self) -> Current {
        let volts = self.voltage.value.as_volts();
        match self.load.value {
            LoadValue::Current(current) => current,
            LoadValue::Power(power) => Current::from_amps(power.as_watts() / volts),
            LoadValue::Resistance(resistance) => Current::from_amps(volts / resistance.as_ohms()),
        }
    }
}
