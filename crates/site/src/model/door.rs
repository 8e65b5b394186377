//! Entrances, and what is fitted at a door: locks, lights, and what is wired to its station's alarm inputs.

use super::place::{Place, Scope};
use crate::keys::bounds::*;
use crate::keys::{Bears, Gauge, Kind, choices, keys};
use crate::parse::AssumedKey;
use latchline_finding::quantity::{Current, Duration, Length, Ratio, Resistance, Voltage};
use latchline_finding::{ElementId, Origin, Sourced};

/// How long a lock is held where nothing is stated (common practice, no source).
const USUAL_HOLD_TIME_S: f64 = 5.0;

/// Joints per conductor of a cable at a door, where none are stated: one at each end.
pub const USUAL_JOINTS: u32 = 2;

/// Tolerance of a lock supply for which none is stated (assumed).
const USUAL_SUPPLY_TOLERANCE: f64 = 0.1;

choices! {
    /// Whether an entrance is the main one or a secondary one.
    pub enum EntranceRole {
        /// The main entrance.
        Main = "main",
        /// A numbered secondary entrance.
        Secondary = "secondary",
    }
}

keys! {
    /// A way in with its door station.
    pub struct Entrance = ENTRANCE Entrance;
    read(
        record, provenance, id: ElementId, origin: Origin, usual_role: EntranceRole, place: Place, station: usize,
        locks: Vec<LockUse>, accessories: Vec<Sourced<String>>, lights: Vec<LightUse>, alarm_inputs: Vec<AlarmInput>
    );

    /// The user's name; the door station's name too.
    field id: ElementId = id;
    /// Main or secondary entrance. Without it secondary, or main where it is the only entrance.
    role: Sourced<EntranceRole> = or(Kind::Words(EntranceRole::WORDS), usual_role);
    /// Number of the entrance in addresses; without it the next free one.
    number: Option<Sourced<u32>> = may(NUMBER);
    /// Where it is: "A/G", or "outdoors".
    place: Place = may(TEXT), by place;
    /// Whether the door station is outdoors or in the wet.
    key outdoors = may(BOOLEAN);
    /// Model of the door station, if not the default.
    key station = may(TEXT);
    /// Its station: index into [`Site::stations`](super::Site::stations).
    field station: usize = station;
    /// Whom it can call: "everyone", "management", a building, building/floor, building/core, a dwelling or a management
    /// station. Without it everyone.
    // Known when all names are.
    calls: Scope = may(NAMES), by Scope::default();
    /// The lock that it opens.
    key lock = may(Kind::Table(&LOCK_USE));
    /// The locks that it opens, if several.
    locks: Vec<LockUse> = list(Kind::List(&Kind::Table(&LOCK_USE))), by locks;
    /// Accessory modules in the order of their chain.
    accessories: Vec<Sourced<String>> = list(Kind::List(&Kind::Text)), by accessories;
    /// Lights at the door, beside those inside its station and modules.
    lights: Vec<LightUse> = list(Kind::List(&Kind::Table(&LIGHT_USE))), by lights;
    /// What is wired to the door station's alarm inputs, in their order.
    alarm_inputs: Vec<AlarmInput> = list(Kind::List(&Kind::Table(&ALARM_INPUT))), by alarm_inputs;
    /// Whether people escape through it, as the responsible person has decided; "not known" until then. Without it, and where it is not
    /// known, a door with a lock is not judged as a way out.
    escape_route: Option<Sourced<bool>> = may(BOOLEAN_OR_NOT_KNOWN);
    /// Who decided that, by role or name.
    escape_decided_by: Option<Sourced<String>> = may(TEXT);
    /// When that was decided.
    escape_decided_on: Option<String> = may(Kind::Date);
    /// Whether a fire interlock acts on it. Without it false.
    fire_interlock: Sourced<bool> = or(BOOLEAN, false);
    /// Who owns the fire alarm that acts on it, by role or firm.
    fire_alarm_owner: Option<Sourced<String>> = may(TEXT).bears(Bears::OnNothing);
    /// Terminals of the fire alarm from which the contact for it comes, as its owner states them.
    fire_alarm_terminals: Option<Sourced<String>> = may(TEXT).bears(Bears::OnNothing);
    /// Height of the door station's controls above the ground.
    control_height: Option<Sourced<Length>> = may(HEIGHT);
    /// Whether the door station's heater is fitted and on at night. Without it false.
    heater: Sourced<bool> = or(BOOLEAN, false);
    /// Loop resistance of the surge protector beside its station, if one is fitted.
    surge_protection: Option<Sourced<Resistance>> = may(RESISTANCE_OR_NONE);
    /// Copper conductor that earths it, as "6 mm²" or "10 AWG". Without it the sheets say 4 mm², and that it is assumed there.
    surge_earth: Option<Sourced<Gauge>> = may(Kind::Gauge).bears(Bears::OnNothing).goes_with("surge_protection");
    /// Where it is defined.
    field origin: Origin = origin;
}

impl Entrance {
    /// Whether it is stated that people escape through it.
    pub fn is_escape_route(&self) -> bool {
        self.escape_route.as_ref().is_some_and(|stated| stated.value)
    }

    /// Who decided whether it is one; an empty name is nobody's.
    pub fn decided_by(&self) -> Option<&str> {
        let by = self.escape_decided_by.as_ref().map(|stated| stated.value.trim());
        by.filter(|by| !by.is_empty())
    }

    /// Where it is stated whether people escape through it.
    pub fn escape_origin(&self) -> Origin {
        self.escape_route.as_ref().map(|stated| stated.origin.clone()).unwrap_or_default()
    }

    /// Whether the fire alarm acts on it: in the lock's own circuit, or through an input of its station.
    pub fn is_released_on_fire(&self) -> bool {
        self.fire_interlock.value || self.alarm_inputs.iter().any(|input| input.kind.value == AlarmKind::Fire)
    }
}

choices! {
    /// From where a lock takes its power.
    pub enum LockFeed {
        /// From the door station's lock output.
        Station = "station",
        /// From the bus, through a relay.
        Bus = "bus",
        /// From a supply of its own, through the station's relay.
        OwnSupply = "own-supply",
        /// It has power of its own and takes a dry contact.
        DryContact = "dry-contact",
    }
}

choices! {
    /// How the relay is wired.
    pub enum RelayContact {
        /// Common and normally open: power comes to release.
        NormallyOpen = "normally-open",
        /// Common and normally closed: power goes to release.
        NormallyClosed = "normally-closed",
    }
}

choices! {
    /// What kills the voltage spike of a coil.
    pub enum Suppression {
        /// Nothing.
        None = "none",
        /// A diode across the coil.
        Diode = "diode",
        /// A clamp (suppressor diode).
        Clamp = "clamp",
        /// A varistor.
        Varistor = "varistor",
    }
}

choices! {
    /// A part of a lock's circuit besides station and lock, with a cable of its own.
    pub enum LockPart {
        /// Exit button.
        ExitButton = "exit-button",
        /// Emergency release at the door.
        EmergencyRelease = "emergency-release",
        /// Contact of the fire alarm in the lock's circuit.
        FireContact = "fire-contact",
        /// Contact that reports whether the door is shut.
        DoorContact = "door-contact",
        /// Relay between door station and lock.
        Relay = "relay",
        /// The lock's own supply.
        Supply = "supply",
    }
}

keys! {
    /// The cable to a part of a lock's circuit.
    pub struct PartCable = PART_CABLE CableAtLock;
    try read(record, provenance, cable: Option<Sourced<String>>);

    /// What it leads to: from the door station, or from the relay on the secure side where one is fitted.
    to: Sourced<LockPart> = must(Kind::Words(LockPart::WORDS));
    /// Cable in the catalogue.
    cable: Sourced<String> = must(TEXT), by cable?;
    /// Length of that cable.
    length: Sourced<Length> = must(SECTION_LENGTH);
    /// Joints per conductor on the way. Without it 2.
    joints: Sourced<u32> = or(SITE_COUNT, USUAL_JOINTS);
}

keys! {
    /// A lock as it is fitted to an entrance.
    pub struct LockUse = LOCK_USE Lock;
    read(
        record, provenance, model: Sourced<String>, usual_feed: LockFeed, cable: Option<Sourced<String>>,
        cables: Vec<PartCable>, usual_contact: RelayContact
    );

    /// Lock in the catalogue.
    model: Sourced<String> = must(TEXT), by model;
    /// From where it takes its power. Without it "station"; "dry-contact" for a gate drive or a lift.
    feed: Sourced<LockFeed> = or(Kind::Words(LockFeed::WORDS), usual_feed);
    /// Voltage of its own supply.
    supply_voltage: Option<Sourced<Voltage>> = may(VOLTAGE);
    /// Tolerance of that voltage. Without it 10 %, assumed.
    supply_tolerance: Sourced<Ratio> = or_assumed(TOLERANCE, Ratio::from_fraction(USUAL_SUPPLY_TOLERANCE))
        .goes_with("supply_voltage");
    /// Whether that supply gives alternating current. Without it false.
    supply_ac: Sourced<bool> = or(BOOLEAN, false);
    /// Cable from relay or output to the lock.
    cable: Option<Sourced<String>> = may(TEXT), by cable;
    /// Length of that cable.
    length: Option<Sourced<Length>> = may(SECTION_LENGTH);
    /// Pairs of that cable in parallel. Without it 1.
    pairs: Sourced<u32> = or(Kind::Integer(1, 16), 1);
    /// Joints per conductor on the way. Without it 2.
    joints: Sourced<u32> = or(SITE_COUNT, USUAL_JOINTS);
    /// Cables to the other parts of its circuit: exit button, emergency release, fire contact, door contact, relay, its own supply.
    cables: Vec<PartCable> = list(Kind::List(&Kind::Table(&PART_CABLE))), by cables;
    /// How the relay is wired. Without it normally open, or normally closed for a lock that opens without power.
    contact: Sourced<RelayContact> = or(Kind::Words(RelayContact::WORDS), usual_contact);
    /// Contact rating of a relay of its own, put between the door station's relay and the lock.
    relay_between: Option<Sourced<Current>> = may(CURRENT);
    /// How long it is held released. Without it 5 s.
    hold_time: Sourced<Duration> = or(TIME, Duration::from_seconds(USUAL_HOLD_TIME_S));
    /// What kills the voltage spike of its coil.
    suppression: Option<Sourced<Suppression>> = may(Kind::Words(Suppression::WORDS));
    /// Whether the relay sits on the secure side of the door. Without `relay_between` it is then a device of its own beside the lock, with
    /// a cable from the door station (`to = "relay"`).
    relay_on_secure_side: Option<Sourced<bool>> = may(BOOLEAN);
    /// Whether an exit button is fitted. Without it false.
    exit_button: Sourced<bool> = or(BOOLEAN, false);
    /// Whether a handle or bar opens the door from inside without power.
    mechanical_escape: Option<Sourced<bool>> = may(BOOLEAN);
    /// Whether an emergency release at the door breaks the lock's own circuit by hand, with no electronics between.
    emergency_release: Option<Sourced<bool>> = may(BOOLEAN);
    /// Time from a push until the door opens, where a code allows delayed egress.
    delayed_egress: Option<Sourced<Duration>> = may(TIME);
    /// Whether a contact reports that the door is shut. Without it false.
    door_contact: Sourced<bool> = or(BOOLEAN, false);
    /// Voltage of the clamp, or of the varistor at 1 mA.
    suppression_voltage: Option<Sourced<Voltage>> = may(VOLTAGE);
    /// Of a gate drive or a lift: who owns it, by role or firm.
    owner: Option<Sourced<String>> = may(TEXT).bears(Bears::OnNothing);
    /// Of a gate drive or a lift: its terminals that take the door station's contact, as its owner states them.
    owner_terminals: Option<Sourced<String>> = may(TEXT).bears(Bears::OnNothing);
    /// Of a gate drive or a lift: the voltage that it puts on the door station's contact, as its owner states it.
    contact_voltage: Option<Sourced<Voltage>> = may(VOLTAGE).bears(Bears::OnNothing);
    /// Of a gate drive or a lift: the current that it puts through that contact.
    contact_current: Option<Sourced<Current>> = may(CURRENT);
    /// Keys whose values are assumed.
    field assumed: Vec<AssumedKey> = record.assumed_keys();
    /// Where it is defined.
    field origin: Origin = record.at(&record.span);
}

impl Entrance {
    /// Whether a part of a lock's circuit is fitted by the plan.
    pub fn has_part(&self, lock: &LockUse, part: LockPart) -> bool {
        match part {
            LockPart::ExitButton => lock.exit_button.value,
            LockPart::EmergencyRelease => lock.emergency_release.as_ref().is_some_and(|stated| stated.value),
            LockPart::FireContact => self.fire_interlock.value,
            LockPart::DoorContact => lock.door_contact.value,
            LockPart::Relay => lock.relay() != LockRelay::InStation,
            LockPart::Supply => lock.feed.value == LockFeed::OwnSupply,
        }
    }
}

impl LockPart {
    /// Every part.
    pub const ALL: [LockPart; 6] = [
        LockPart::ExitButton,
        LockPart::EmergencyRelease,
        LockPart::FireContact,
        LockPart::DoorContact,
        LockPart::Relay,
        LockPart::Supply,
    ];
}

/// Which relay's contact releases a lock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LockRelay {
    /// The door station's own.
    InStation,
    /// A relay in between, whose coil the contact of the door station's own switches.
    Between,
    /// A relay of the door station's family in a case of its own on the secure side of the door, told what to do over two
    /// conductors: the contact in the station, where it has one, stays free.
    OnSecureSide,
}

impl LockUse {
    /// Which relay's contact releases it, by the plan. A drive takes a contact at its own voltage and needs nothing in between.
    pub fn relay(&self) -> LockRelay {
        if self.relay_between.is_some() && self.feed.value != LockFeed::DryContact {
            return LockRelay::Between;
        }
        match &self.relay_on_secure_side {
            Some(stated) if stated.value => LockRelay::OnSecureSide,
            _ => LockRelay::InStation,
        }
    }

    /// The cable to a part of its circuit, where the plan states one.
    pub fn cable_to(&self, part: LockPart) -> Option<&PartCable> {
        self.cables.iter().find(|cable| cable.to.value == part)
    }

    /// Conductors that lead to a part: two. Where the power for the lock comes along, three to a relay in between, one pole of its coil
    /// being one of the feed's, and four to a relay on the secure side.
    pub fn conductors_to(&self, part: LockPart) -> u32 {
        let with_power = matches!(self.feed.value, LockFeed::Station | LockFeed::Bus);
        match self.relay() {
            LockRelay::Between if part == LockPart::Relay && with_power => 3,
            LockRelay::OnSecureSide if part == LockPart::Relay && with_power => 4,
            _ => 2,
        }
    }
}

choices! {
    /// From where a light takes its power.
    pub enum LightFeed {
        /// From the door station's light output.
        Station = "station",
        /// From the bus.
        Bus = "bus",
        /// From a supply of its own.
        OwnSupply = "own-supply",
    }
}

choices! {
    /// When a light is on.
    pub enum LitWhen {
        /// At night.
        Night = "night",
        /// By day and night.
        Always = "always",
        /// While its door station calls or talks.
        InUse = "in-use",
    }
}

keys! {
    /// A light at a door.
    pub struct LightUse = LIGHT_USE LightAtDoor;
    read(record, provenance, model: Sourced<String>, cable: Option<Sourced<String>>);

    /// Light in the catalogue.
    model: Sourced<String> = must(TEXT), by model;
    /// From where it takes its power. Without it "station": the door station's light output.
    feed: Sourced<LightFeed> = or(Kind::Words(LightFeed::WORDS), LightFeed::Station);
    /// When it is on: at night, by day too, or while the door station calls or talks. Without it "night".
    lit: Sourced<LitWhen> = or(Kind::Words(LitWhen::WORDS), LitWhen::Night);
    /// Cable from what feeds it.
    cable: Option<Sourced<String>> = may(TEXT), by cable;
    /// Length of that cable.
    length: Option<Sourced<Length>> = may(SECTION_LENGTH);
    /// Where it is defined.
    field origin: Origin = record.at(&record.span);
}

choices! {
    /// What an alarm input reports.
    pub enum AlarmKind {
        /// Somebody opens the housing.
        Tamper = "tamper",
        /// Somebody is forced to open: a hidden button that reports in silence.
        Duress = "duress",
        /// The door is open without a release, or stays open.
        Door = "door",
        /// The fire alarm asks the door station to release its locks.
        Fire = "fire",
    }
}

keys! {
    /// What is wired to an alarm input of a door station.
    pub struct AlarmInput = ALARM_INPUT AlarmInput;
    read(record, provenance, cable: Option<Sourced<String>>);

    /// Housing opened, silent call for help, door open without a release or too long, or fire alarm: the last releases the
    /// door's locks.
    kind: Sourced<AlarmKind> = must(Kind::Words(AlarmKind::WORDS)),
        by record.read("kind", provenance).unwrap_or(Sourced::assumed(AlarmKind::Tamper));
    /// How its contact stands while all is well. Without it "normally-closed".
    contact: Sourced<RelayContact> =
        or(Kind::Words(&["normally-closed", "normally-open"]), RelayContact::NormallyClosed);
    /// Whether a resistor at the contact lets the station tell a cut or shorted cable from the contact. Without it false.
    end_of_line_resistor: Sourced<bool> = or(BOOLEAN, false);
    /// Cable from the door station to the contact.
    cable: Option<Sourced<String>> = may(TEXT), by cable;
    /// Length of that cable.
    length: Option<Sourced<Length>> = may(SECTION_LENGTH);
    /// Joints per conductor on the way. Without it 2.
    joints: Sourced<u32> = or(SITE_COUNT, USUAL_JOINTS);
    /// Who is told: the words of "calls". Without it nobody.
    // Known when all names are.
    tells: Scope = may(NAMES), by Scope::default();
    /// Where it is defined.
    field origin: Origin = record.at(&record.span);
}
