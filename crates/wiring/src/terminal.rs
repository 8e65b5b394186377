//! The terminals of an item: sets of them, and one of a set.

use crate::item::Item;
use latchline_finding::Language;
use latchline_site::model::{AlarmInput, AlarmKind, Entrance, LockFeed, LockPart, LockUse, Site};
use latchline_words::terminals::TerminalMark;

/// Terminals of an item that belong together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum TerminalSet {
    /// An output of a supply, from 1.
    Output(u32),
    /// The input of a box.
    Input,
    /// The signal link of an isolating box.
    Link,
    /// A port of a box, from 1.
    Port(u32),
    /// Where a chain comes in to a station.
    In,
    /// Where it goes on.
    Out,
    /// The side of a surge protector that faces the line.
    LineSide,
    /// The side that faces what it protects.
    ProtectedSide,
    /// An output for a lock of a door station, from 1.
    LockOutput(u32),
    /// The contact of a relay of a door station, from 1.
    Relay(u32),
    /// Over which a door station commands the relay of a lock on the secure side, from 1.
    RelayCommand(u32),
    /// A light output of a door station.
    LightOutput,
    /// Where the lead of the first module of a door station begins.
    Modules,
    /// An alarm input of a door station, from 1.
    AlarmInput(u32),
    /// Where the lead of a module comes from.
    ModuleIn,
    /// Where the lead of the next module begins.
    ModuleOut,
    /// Where a relay on the secure side takes its command.
    Command,
    /// The terminals of a coil.
    Coil,
    /// The input of a drive with power of its own.
    DriveInput,
    /// The terminals of a contact.
    Contact,
    /// The terminals of a light.
    Lamp,
    /// The leads of a part.
    Leads,
    /// The ways of a connector, all joined.
    Ways,
    /// The battery of a supply: its terminals at the supply, and those of each battery.
    Battery,
    /// The fuse in the lead of a battery.
    Fuse,
    /// The mains input of a supply.
    Mains,
    /// Protective or functional earth.
    Earth,
    /// An input of a device outside the plan.
    Outside,
    /// The screen of the cable with this index.
    Screen(usize),
}

impl TerminalSet {
    pub(crate) const FIRST: TerminalSet = TerminalSet::Output(0);

    /// As printed: `in`, `out`, `link`, the number of a port.
    pub fn mark(self, language: Language) -> String {
        let (word, number) = match self {
            TerminalSet::Port(number) => return number.to_string(),
            TerminalSet::Output(number) => (TerminalMark::Out, Some(number)),
            TerminalSet::LockOutput(number) => (TerminalMark::Lock, Some(number)),
            TerminalSet::Relay(number) => (TerminalMark::Relay, Some(number)),
            TerminalSet::RelayCommand(number) => (TerminalMark::Command, Some(number)),
            TerminalSet::AlarmInput(number) => (TerminalMark::Alarm, Some(number)),
            TerminalSet::Command => (TerminalMark::Command, None),
            TerminalSet::Input | TerminalSet::In | TerminalSet::ModuleIn => (TerminalMark::In, None),
            TerminalSet::Out | TerminalSet::ModuleOut => (TerminalMark::Out, None),
            TerminalSet::Link => (TerminalMark::Link, None),
            TerminalSet::LineSide => (TerminalMark::Line, None),
            TerminalSet::ProtectedSide => (TerminalMark::Protected, None),
            TerminalSet::LightOutput => (TerminalMark::Light, None),
            TerminalSet::Modules => (TerminalMark::Modules, None),
            TerminalSet::Coil => (TerminalMark::Coil, None),
            TerminalSet::DriveInput => (TerminalMark::DriveInput, None),
            TerminalSet::Contact => (TerminalMark::Contact, None),
            TerminalSet::Lamp => (TerminalMark::Lamp, None),
            TerminalSet::Leads => (TerminalMark::Leads, None),
            TerminalSet::Ways => (TerminalMark::Ways, None),
            TerminalSet::Battery => (TerminalMark::Battery, None),
            TerminalSet::Fuse => (TerminalMark::Fuse, None),
            TerminalSet::Mains => (TerminalMark::Mains, None),
            TerminalSet::Earth => (TerminalMark::Earth, None),
            TerminalSet::Outside => (TerminalMark::Outside, None),
            TerminalSet::Screen(_) => (TerminalMark::Screen, None),
        };
        let mark = word.say(language);
        number.map_or_else(|| mark.to_string(), |number| format!("{mark}{number}"))
    }
}

/// One terminal of a set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pole {
    /// All that the set has: a plug, a connector, an earth.
    Whole,
    /// Plus of direct current. Devices behind a bridge rectifier work either way round; keeping the poles apart all the
    /// same makes faults findable.
    Plus,
    /// Minus.
    Minus,
    /// The first of two without polarity.
    One,
    /// The second.
    Two,
    /// Common of a relay's contact.
    Common,
    /// Normally open.
    NormallyOpen,
    /// Normally closed.
    NormallyClosed,
    /// First end of a coil (mark of EN 50005, from memory).
    CoilOne,
    /// Second end of a coil.
    CoilTwo,
    /// Line conductor of the mains.
    Line,
    /// Neutral conductor.
    Neutral,
    /// Protective earth.
    ProtectiveEarth,
    /// First conductor of a bus between modules.
    BusOne,
    /// Second conductor of it.
    BusTwo,
}

impl Pole {
    pub(crate) const FIRST: Pole = Pole::Whole;

    /// As printed beside the set.
    pub fn mark(self) -> &'static str {
        match self {
            Pole::Whole => "",
            Pole::Plus => "+",
            Pole::Minus => "−",
            Pole::One => "1",
            Pole::Two => "2",
            Pole::Common => "C",
            Pole::NormallyOpen => "NO",
            Pole::NormallyClosed => "NC",
            Pole::CoilOne => "A1",
            Pole::CoilTwo => "A2",
            Pole::Line => "L",
            Pole::Neutral => "N",
            Pole::ProtectiveEarth => "PE",
            Pole::BusOne => "B1",
            Pole::BusTwo => "B2",
        }
    }

    /// The two poles of a circuit.
    pub(crate) fn pair(has_polarity: bool) -> [Pole; 2] {
        if has_polarity { [Pole::Plus, Pole::Minus] } else { [Pole::One, Pole::Two] }
    }
}

/// One terminal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Terminal {
    /// Whose.
    pub item: Item,
    /// Which terminals of it.
    pub set: TerminalSet,
    /// Which one of those.
    pub pole: Pole,
}

impl Terminal {
    /// A terminal.
    pub(crate) fn new((item, set): Place, pole: Pole) -> Terminal {
        Terminal { item, set, pole }
    }

    /// Its designation: item, colon, terminals, and the pole where there are several: `front-A:relay1 NC`. A connector has no
    /// more than its name.
    pub fn name(self, site: &Site, language: Language) -> String {
        if self.set == TerminalSet::Ways {
            return self.item.name(site, language);
        }
        let set = place_name(site, (self.item, self.set), language);
        if self.pole == Pole::Whole { set } else { format!("{set} {}", self.pole.mark()) }
    }
}

/// Designation of terminals that belong together: item, colon, terminals.
pub fn place_name(site: &Site, (item, set): Place, language: Language) -> String {
    if set == TerminalSet::Ways {
        return item.name(site, language);
    }
    format!("{}:{}", item.name(site, language), set.mark(language))
}

pub(crate) const DRY: [Pole; 2] = [Pole::One, Pole::Two];
/// Modules hang on one lead from the station and from each to the next: two conductors of their own bus and two of their power (common
/// practice, no source).
pub(crate) const MODULE: [Pole; 4] = [Pole::BusOne, Pole::BusTwo, Pole::Plus, Pole::Minus];

/// The terminals of a lock: its coil, or the input of a drive.
pub(crate) fn lock_terminals(site: &Site, entrance: &Entrance, used: &LockUse) -> (TerminalSet, [Pole; 2]) {
    if used.feed.value == LockFeed::DryContact {
        return (TerminalSet::DriveInput, DRY);
    }
    let is_ac = crate::lock::lock_wiring(site, entrance, used).is_ac;
    (TerminalSet::Coil, Pole::pair(!is_ac))
}

/// The alarm input of the station, from 1, to which the contact of a lock's door is wired: that of the first lock, where the plan
/// has an input for it. It is then one contact, told of once.
pub fn door_contact_input(entrance: &Entrance, lock: usize) -> Option<usize> {
    let has_contact = lock == 0 && entrance.locks.first().is_some_and(|used| used.door_contact.value);
    let is_door = |input: &AlarmInput| input.kind.value == AlarmKind::Door;
    entrance.alarm_inputs.iter().position(is_door).filter(|_| has_contact).map(|index| index + 1)
}

/// Whether a part is the contact at an alarm input.
pub(crate) fn is_alarm_contact(entrance: &Entrance, lock: usize, part: LockPart) -> bool {
    part == LockPart::DoorContact && door_contact_input(entrance, lock).is_some()
}

/// Outputs of a supply: at least 1.
pub(crate) fn outputs(site: &Site, supply: usize) -> u32 {
    let outputs = &site.supply_model(&site.supplies[supply]).outputs;
    outputs.as_ref().map_or(1, |outputs| outputs.value.clamp(1, 64))
}

/// Terminals that belong together, at their item.
pub type Place = (Item, TerminalSet);
