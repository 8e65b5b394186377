//! The terminals of each item.

use crate::item::Item;
use latchline_finding::Language;
use latchline_site::catalogue::{BoxKind, LoopThrough, StationKind};
use latchline_site::model::{
    AlarmInput, AlarmKind, Entrance, LightFeed, LockFeed, LockPart, LockUse, Site, StationOwner, Suppression,
};
use latchline_site::protectors::{self, ProtectorAt};
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
            TerminalSet::AlarmInput(number) => (TerminalMark::Alarm, Some(number)),
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

const CHANGEOVER: [Pole; 3] = [Pole::Common, Pole::NormallyOpen, Pole::NormallyClosed];
const BUS: [Pole; 2] = [Pole::Plus, Pole::Minus];
const DRY: [Pole; 2] = [Pole::One, Pole::Two];
/// Modules hang on one lead from the station and from each to the next: two conductors of their own bus and two of their power (common
/// practice, no source).
pub(crate) const MODULE: [Pole; 4] = [Pole::BusOne, Pole::BusTwo, Pole::Plus, Pole::Minus];
const MAINS: [Pole; 3] = [Pole::Line, Pole::Neutral, Pole::ProtectiveEarth];

/// Collects terminals.
#[derive(Default)]
struct Terminals(Vec<Terminal>);

impl Terminals {
    fn add(&mut self, item: Item, set: TerminalSet, poles: &[Pole]) {
        self.0.extend(poles.iter().map(|pole| Terminal { item, set, pole: *pole }));
    }
}

/// Every terminal of every item but connectors and screens, which are there where something lands on them.
pub(crate) fn all(site: &Site) -> Vec<Terminal> {
    let mut list = Terminals::default();
    for (index, supply) in site.supplies.iter().enumerate() {
        let (item, model) = (Item::Supply(index), site.supply_model(supply));
        for number in 1..=outputs(site, index) {
            list.add(item, TerminalSet::Output(number), &BUS);
        }
        if model.battery.is_some() {
            list.add(item, TerminalSet::Battery, &BUS);
            for number in 1..=supply.batteries.value {
                let battery = Item::Battery { supply: index, number };
                list.add(battery, TerminalSet::Battery, &BUS);
                list.add(battery, TerminalSet::Fuse, &DRY);
            }
        }
        list.add(item, TerminalSet::Mains, &MAINS);
    }
    for (index, distribution_box) in site.boxes.iter().enumerate() {
        let (item, model) = (Item::Box(index), site.box_model(distribution_box));
        list.add(item, TerminalSet::Input, &BUS);
        if model.kind.value == BoxKind::Isolating {
            list.add(item, TerminalSet::Link, &BUS);
        }
        for port in 1..=model.ports.value {
            list.add(item, TerminalSet::Port(port), &BUS);
        }
    }
    for index in 0..site.stations.len() {
        station(site, index, &mut list);
    }
    for at in protectors::all(site) {
        protector(at, &mut list);
    }
    for (index, entrance) in site.entrances.iter().enumerate() {
        fittings(site, index, entrance, &mut list);
    }
    list.0
}

fn protector(at: ProtectorAt, list: &mut Terminals) {
    let item = Item::Protector(at);
    list.add(item, TerminalSet::LineSide, &BUS);
    list.add(item, TerminalSet::ProtectedSide, &BUS);
    list.add(item, TerminalSet::Earth, &[Pole::Whole]);
}

fn station(site: &Site, index: usize, list: &mut Terminals) {
    let (item, station) = (Item::Station(index), &site.stations[index]);
    let model = site.station_model(station);
    list.add(item, TerminalSet::In, &BUS);
    if model.loop_through.value != LoopThrough::End {
        list.add(item, TerminalSet::Out, &BUS);
    }
    let StationOwner::Entrance(entrance) = station.owner else { return };
    if model.kind.value != StationKind::Door {
        return;
    }
    let entrance = &site.entrances[entrance];
    // What the plan fits beyond what the model has is an error, and is wired all the same.
    let locks = model.lock_outputs.value.max(entrance.locks.len() as u32);
    let takes_output = entrance.locks.iter().any(|used| used.feed.value == LockFeed::Station);
    for number in 1..=locks {
        if model.lock_output_voltage.is_some() || takes_output {
            let poles = Pole::pair(!model.lock_output_ac.value);
            list.add(item, TerminalSet::LockOutput(number), &poles);
        }
        list.add(item, TerminalSet::Relay(number), &CHANGEOVER);
    }
    for number in 1..=model.alarm_inputs.value.max(entrance.alarm_inputs.len() as u32) {
        list.add(item, TerminalSet::AlarmInput(number), &DRY);
    }
    let lights = entrance.lights.iter().any(|used| used.feed.value == LightFeed::Station);
    if model.light_output_voltage.is_some() || lights {
        list.add(item, TerminalSet::LightOutput, &BUS);
    }
    if model.accessory_current.is_some() || !entrance.accessories.is_empty() {
        list.add(item, TerminalSet::Modules, &MODULE);
    }
}

fn fittings(site: &Site, index: usize, entrance: &Entrance, list: &mut Terminals) {
    for (lock, used) in entrance.locks.iter().enumerate() {
        lock_fittings(site, [index, lock], entrance, used, list);
    }
    for (light, used) in entrance.lights.iter().enumerate() {
        list.add(Item::Light { entrance: index, light }, TerminalSet::Lamp, &BUS);
        if used.feed.value == LightFeed::OwnSupply {
            let supply = Item::LightSupply { entrance: index, light };
            list.add(supply, TerminalSet::Output(1), &BUS);
            list.add(supply, TerminalSet::Mains, &MAINS);
        }
    }
    for module in 0..entrance.accessories.len() {
        let item = Item::Module { entrance: index, module };
        list.add(item, TerminalSet::ModuleIn, &MODULE);
        list.add(item, TerminalSet::ModuleOut, &MODULE);
    }
    for (input, used) in entrance.alarm_inputs.iter().enumerate() {
        list.add(Item::AlarmContact { entrance: index, input }, TerminalSet::Contact, &DRY);
        if used.end_of_line_resistor.value {
            list.add(Item::EndOfLine { entrance: index, input }, TerminalSet::Leads, &DRY);
        }
    }
}

fn lock_fittings(
    site: &Site,
    [index, lock]: [usize; 2],
    entrance: &Entrance,
    used: &LockUse,
    list: &mut Terminals,
) {
    let (set, poles) = lock_terminals(site, entrance, used);
    list.add(Item::Lock { entrance: index, lock }, set, &poles);
    for part in LockPart::ALL {
        let item = Item::Part { entrance: index, lock, part };
        if !entrance.has_part(used, part) || is_alarm_contact(entrance, lock, part) {
            continue;
        }
        match part {
            LockPart::Relay => {
                list.add(item, TerminalSet::Coil, &[Pole::CoilOne, Pole::CoilTwo]);
                list.add(item, TerminalSet::Contact, &CHANGEOVER);
            }
            LockPart::Supply => {
                list.add(item, TerminalSet::Output(1), &Pole::pair(!used.supply_ac.value));
                list.add(item, TerminalSet::Mains, &MAINS);
            }
            _ => list.add(item, TerminalSet::Contact, &DRY),
        }
    }
    if let Some(fitted) = used.suppression.as_ref().map(|stated| stated.value) {
        let item = Item::Suppressor { entrance: index, lock };
        match fitted {
            Suppression::None => {}
            Suppression::Diode | Suppression::Clamp => list.add(item, TerminalSet::Leads, &BUS),
            Suppression::Varistor => list.add(item, TerminalSet::Leads, &DRY),
        }
    }
}

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
