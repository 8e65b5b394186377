//! Locks and door-side accessories.

use super::{LoadValue, PartHead};
use latchline_finding::Sourced;
use latchline_finding::quantity::{Current, Duration, Inductance, Ratio, Voltage};

/// How a lock opens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LockKind {
    /// An electric strike.
    Strike,
    /// A holding magnet.
    Magnet,
    /// A motor lock.
    Motor,
    /// A gate or barrier drive with a dry-contact input.
    Gate,
}

/// What a lock does when its power goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PowerLoss {
    /// It opens (fail-safe).
    Opens,
    /// It stays shut (fail-secure).
    StaysShut,
}

/// Kind of current.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Feed {
    /// Direct current.
    Dc,
    /// Alternating current.
    Ac,
    /// Either.
    Either,
}

/// A lock.
#[derive(Debug, Clone, PartialEq)]
pub struct Lock {
    /// Name, title, source, price.
    pub head: PartHead,
    /// How it opens.
    pub kind: Sourced<LockKind>,
    /// What it does without power.
    pub power_loss: Sourced<PowerLoss>,
    /// Kind of current.
    pub feed: Sourced<Feed>,
    /// Rated voltage (a gate drive with a dry contact has none).
    pub voltage: Option<Sourced<Voltage>>,
    /// How far the voltage may lie below rated.
    pub undervoltage_tolerance: Sourced<Ratio>,
    /// How far the voltage may lie above rated.
    pub overvoltage_tolerance: Sourced<Ratio>,
    /// Current at rated voltage.
    pub current: Option<Sourced<Current>>,
    /// Peak current when it starts.
    pub inrush_current: Option<Sourced<Current>>,
    /// Longest time it may stay energised; `None` for continuous.
    pub duty_limit: Option<Sourced<Duration>>,
    /// Inductance of its coil, armature attracted.
    pub coil_inductance: Option<Sourced<Inductance>>,
    /// Current at which its armature drops out.
    pub dropout_current: Option<Sourced<Current>>,
}

/// What an accessory is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum AccessoryKind {
    /// A keypad module.
    Keypad,
    /// A card or tag reader module.
    Reader,
    /// A module of call buttons.
    Buttons,
    /// A module of names or a display.
    Names,
}

/// A module in the chain of a door station.
#[derive(Debug, Clone, PartialEq)]
pub struct Accessory {
    /// Name, title, source, price.
    pub head: PartHead,
    /// The family it belongs to.
    pub family: Sourced<String>,
    /// What it is.
    pub kind: Sourced<AccessoryKind>,
    /// Current it draws from the door station.
    pub current: Sourced<Current>,
    /// Current its illumination adds at night.
    pub night_current: Option<Sourced<Current>>,
    /// Dwellings that its buttons can call.
    pub buttons: Option<Sourced<u32>>,
}

/// What a light shines on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LightKind {
    /// Call buttons.
    Buttons,
    /// A name plate or house number.
    Names,
    /// The porch: who stands there, and the lock.
    Porch,
}

/// A light at a door, beside those that a station or module has inside.
#[derive(Debug, Clone, PartialEq)]
pub struct Light {
    /// Name, title, source, price.
    pub head: PartHead,
    /// What it shines on.
    pub kind: Sourced<LightKind>,
    /// Kind of current.
    pub feed: Sourced<Feed>,
    /// Rated voltage.
    pub voltage: Sourced<Voltage>,
    /// How far the voltage may lie from that, either way.
    pub voltage_tolerance: Sourced<Ratio>,
    /// What it draws at rated voltage.
    pub load: Sourced<LoadValue>,
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
