//! What is fitted at a door: locks, lights, and what is wired to its station's alarm inputs.

use super::Scope;
use latchline_finding::quantity::{Current, Duration, Length, Ratio, Voltage};
use latchline_finding::{Origin, Sourced};

/// From where a lock takes its power.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LockFeed {
    /// From the door station's lock output.
    Station,
    /// From the bus, through a relay.
    Bus,
    /// From a supply of its own, through the station's relay.
    OwnSupply,
    /// It has power of its own and takes a dry contact.
    DryContact,
}

/// How the relay is wired.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RelayContact {
    /// Common and normally open: power comes to release.
    NormallyOpen,
    /// Common and normally closed: power goes to release.
    NormallyClosed,
}

/// What kills the voltage spike of a coil.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Suppression {
    /// Nothing.
    None,
    /// A diode across the coil.
    Diode,
    /// A clamp (suppressor diode).
    Clamp,
    /// A varistor.
    Varistor,
}

/// A lock as it is fitted to an entrance.
#[derive(Debug, Clone, PartialEq)]
pub struct LockUse {
    /// Lock in the catalogue.
    pub model: Sourced<String>,
    /// From where it takes its power.
    pub feed: Sourced<LockFeed>,
    /// Voltage of its own supply, where it has one.
    pub supply_voltage: Option<Sourced<Voltage>>,
    /// Tolerance of that voltage.
    pub supply_tolerance: Option<Sourced<Ratio>>,
    /// Whether that supply gives alternating current.
    pub supply_ac: Sourced<bool>,
    /// Cable from relay or output to lock.
    pub cable: Option<Sourced<String>>,
    /// Length of that cable.
    pub length: Option<Sourced<Length>>,
    /// Joints per conductor on the way.
    pub joints: Sourced<u32>,
    /// How the relay is wired.
    pub contact: Sourced<RelayContact>,
    /// Contact rating of a relay of its own, put between the station's relay and the lock.
    pub relay_between: Option<Sourced<Current>>,
    /// How long it is held released.
    pub hold_time: Sourced<Duration>,
    /// What kills the coil's voltage spike.
    pub suppression: Option<Sourced<Suppression>>,
    /// Whether the relay sits on the secure side of the door.
    pub relay_on_secure_side: Option<Sourced<bool>>,
    /// Whether an exit button is fitted.
    pub exit_button: Sourced<bool>,
    /// Whether a mechanical means of escape (handle, bar) works without power.
    pub mechanical_escape: Option<Sourced<bool>>,
    /// Whether an emergency release at the door breaks the lock's own circuit by hand.
    pub emergency_release: Option<Sourced<bool>>,
    /// Time from a push until the door opens, where a code allows delayed egress.
    pub delayed_egress: Option<Sourced<Duration>>,
    /// Whether a contact reports that the door is shut.
    pub door_contact: Sourced<bool>,
    /// Voltage of the clamp, or of the varistor at 1 mA.
    pub suppression_voltage: Option<Sourced<Voltage>>,
    /// Where it is defined.
    pub origin: Origin,
}

/// From where a light takes its power.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LightFeed {
    /// From the door station's light output.
    Station,
    /// From the bus.
    Bus,
    /// From a supply of its own.
    OwnSupply,
}

/// When a light is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LitWhen {
    /// At night.
    Night,
    /// By day and night.
    Always,
    /// While its door station calls or talks.
    InUse,
}

/// A light at the door.
#[derive(Debug, Clone, PartialEq)]
pub struct LightUse {
    /// Light in the catalogue.
    pub model: Sourced<String>,
    /// From where it takes its power.
    pub feed: Sourced<LightFeed>,
    /// When it is on.
    pub lit: Sourced<LitWhen>,
    /// Where it is defined.
    pub origin: Origin,
}

/// What an alarm input reports.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum AlarmKind {
    /// Somebody opens the housing.
    Tamper,
    /// Somebody is forced to open: a hidden button that reports in silence.
    Duress,
    /// The door is open without a release, or stays open.
    Door,
    /// The fire alarm asks the door station to release its locks.
    Fire,
}

/// What is wired to one alarm input of a door station.
#[derive(Debug, Clone, PartialEq)]
pub struct AlarmInput {
    /// What it reports.
    pub kind: Sourced<AlarmKind>,
    /// How its contact stands while all is well.
    pub contact: Sourced<RelayContact>,
    /// Whether a resistor at the contact lets the station tell a cut or shorted cable from a contact.
    pub end_of_line_resistor: Sourced<bool>,
    /// Cable from station to contact.
    pub cable: Option<Sourced<String>>,
    /// Length of that cable.
    pub length: Option<Sourced<Length>>,
    /// Joints per conductor on the way.
    pub joints: Sourced<u32>,
    /// Who is told.
    pub tells: Scope,
    /// Where it is defined.
    pub origin: Origin,
}
