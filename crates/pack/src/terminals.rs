//! What is wired to what: every terminal of every device and every conductor that lands on it.
//!
//! Each pair of terminals has a leg `+` and a leg `-`. Devices behind a bridge rectifier work either
//! way round; keeping the legs apart all the same makes faults findable.

use crate::colours::{Conductor, conductors};
use latchline_finding::ElementId;
use latchline_site::cables::{CableLength, CableOwner};
use latchline_site::catalogue::{BoxKind, LoopThrough};
use latchline_site::model::{RunStart, RunStop, Site, StationOwner};
use std::collections::BTreeMap;

/// A device with terminals.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Device {
    /// Index into [`Site::supplies`].
    Supply(usize),
    /// Index into [`Site::boxes`].
    Box(usize),
    /// Index into [`Site::stations`].
    Station(usize),
    /// A lock of an entrance.
    Lock {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its locks.
        lock: usize,
    },
    /// The contact at an alarm input of an entrance's door station.
    AlarmContact {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its alarm inputs.
        input: usize,
    },
}

impl Device {
    /// Its designation; a lock is named after its entrance.
    pub fn name(self, site: &Site) -> String {
        match self {
            Device::Supply(index) => site.supplies[index].id.to_string(),
            Device::Box(index) => site.boxes[index].id.to_string(),
            Device::Station(index) => site.stations[index].id.to_string(),
            Device::Lock { entrance, lock } => {
                format!("{}/{}", site.entrances[entrance].id, lock_word(lock))
            }
            Device::AlarmContact { entrance, input } => {
                format!("{}/alarm{}", site.entrances[entrance].id, input + 1)
            }
        }
    }
}

/// "lock", "lock2", ...
fn lock_word(lock: usize) -> String {
    if lock == 0 { String::from("lock") } else { format!("lock{}", lock + 1) }
}

/// A pair of terminals of a device.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Terminal {
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
    /// A lock output or relay of a door station, from 1.
    LockOutput(u32),
    /// The terminals of a lock.
    Coil,
    /// An alarm input of a door station, from 1.
    AlarmInput(u32),
    /// The terminals of a contact.
    Contact,
}

impl Terminal {
    /// As printed: `in`, `out`, `link`, the number of a port.
    pub fn mark(self) -> String {
        match self {
            Terminal::Output(number) => format!("out{number}"),
            Terminal::Input | Terminal::In => String::from("in"),
            Terminal::Link => String::from("link"),
            Terminal::Port(number) => number.to_string(),
            Terminal::Out => String::from("out"),
            Terminal::LockOutput(number) => format!("lock{number}"),
            Terminal::Coil => String::from("coil"),
            Terminal::AlarmInput(number) => format!("alarm{number}"),
            Terminal::Contact => String::from("contact"),
        }
    }
}

/// A pair of terminals at its device.
pub type Place = (Device, Terminal);

/// Designation of a pair of terminals: device, colon, terminal.
pub fn place_name(site: &Site, (device, terminal): Place) -> String {
    format!("{}:{}", device.name(site), terminal.mark())
}

/// A length of cable with both its ends.
#[derive(Debug, Clone, PartialEq)]
pub struct WiredCable {
    /// What is laid.
    pub laid: CableLength,
    /// Its designation, the same at both ends: `W3/2` is the second section of run W3.
    pub designation: String,
    /// Where it comes from.
    pub from: Place,
    /// Where it goes.
    pub to: Place,
}

/// One conductor on one terminal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Landing {
    /// Index into [`Wiring::cables`].
    pub cable: usize,
    /// Which of the cables side by side, from 1.
    pub piece: u32,
    /// The conductor.
    pub conductor: Conductor,
    /// Where its other end lands.
    pub other: Place,
}

/// A leg of a pair of terminals.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Leg {
    /// `+`
    Plus,
    /// `-`
    Minus,
}

impl Leg {
    /// Its sign.
    pub fn sign(self) -> &'static str {
        match self {
            Leg::Plus => "+",
            Leg::Minus => "−",
        }
    }
}

/// All cables and what lands where.
#[derive(Debug, Clone, PartialEq)]
pub struct Wiring {
    /// In the order of [`Site::cable_lengths`].
    pub cables: Vec<WiredCable>,
    /// Every leg of every terminal of every supply, box and station, free ones with an empty list.
    pub terminals: BTreeMap<(Device, Terminal, Leg), Vec<Landing>>,
}

impl Wiring {
    /// Of a site.
    pub fn new(site: &Site) -> Wiring {
        let cables = cables(site);
        let mut terminals = BTreeMap::new();
        for (device, terminal) in all_terminals(site) {
            for leg in [Leg::Plus, Leg::Minus] {
                terminals.insert((device, terminal, leg), Vec::new());
            }
        }
        for (index, wired) in cables.iter().enumerate() {
            let cable = &site.catalogue.cables[&wired.laid.cable];
            let in_cable = cable.pairs.value.max(1);
            for pair in 0..wired.laid.pairs {
                let piece = pair / in_cable + 1;
                let [plus, minus] = conductors(cable, pair % in_cable + 1);
                for (leg, conductor) in [(Leg::Plus, plus), (Leg::Minus, minus)] {
                    for (own, other) in [(wired.from, wired.to), (wired.to, wired.from)] {
                        let landing = Landing { cable: index, piece, conductor: conductor.clone(), other };
                        terminals.entry((own.0, own.1, leg)).or_insert_with(Vec::new).push(landing);
                    }
                }
            }
        }
        Wiring { cables, terminals }
    }

    /// The terminals of one device in order, leg by leg.
    pub fn of_device(&self, device: Device) -> impl Iterator<Item = (Terminal, Leg, &[Landing])> {
        let first = (device, Terminal::Output(0), Leg::Plus);
        let last = (device, Terminal::Coil, Leg::Minus);
        self.terminals
            .range(first..=last)
            .map(|((_, terminal, leg), landings)| (*terminal, *leg, &landings[..]))
    }
}

/// Every pair of terminals of every supply, box, station and lock.
fn all_terminals(site: &Site) -> Vec<Place> {
    let mut places = Vec::new();
    for index in 0..site.supplies.len() {
        places.extend(
            (1..=outputs(site, index)).map(|number| (Device::Supply(index), Terminal::Output(number))),
        );
    }
    for (index, distribution_box) in site.boxes.iter().enumerate() {
        let model = site.box_model(distribution_box);
        places.push((Device::Box(index), Terminal::Input));
        if model.kind.value == BoxKind::Isolating {
            places.push((Device::Box(index), Terminal::Link));
        }
        places.extend((1..=model.ports.value).map(|port| (Device::Box(index), Terminal::Port(port))));
    }
    for (index, station) in site.stations.iter().enumerate() {
        places.push((Device::Station(index), Terminal::In));
        if site.station_model(station).loop_through.value != LoopThrough::End {
            places.push((Device::Station(index), Terminal::Out));
        }
    }
    for (index, entrance) in site.entrances.iter().enumerate() {
        for lock in 0..entrance.locks.len() {
            places.push((Device::Station(entrance.station), Terminal::LockOutput(lock as u32 + 1)));
            places.push((Device::Lock { entrance: index, lock }, Terminal::Coil));
        }
        for input in 0..entrance.alarm_inputs.len() {
            places.push((Device::Station(entrance.station), Terminal::AlarmInput(input as u32 + 1)));
            places.push((Device::AlarmContact { entrance: index, input }, Terminal::Contact));
        }
    }
    places
}

/// The terminals from which a chain goes on beyond a station: `out`, or the only pair it has.
fn onward(site: &Site, station: usize) -> Place {
    let model = site.station_model(&site.stations[station]);
    let terminal = if model.loop_through.value == LoopThrough::End { Terminal::In } else { Terminal::Out };
    (Device::Station(station), terminal)
}

fn cables(site: &Site) -> Vec<WiredCable> {
    let mut used_outputs = vec![0_u32; site.supplies.len()];
    let mut next_from: Option<Place> = None;
    let mut cables = Vec::new();
    for laid in site.cable_lengths() {
        let (designation, from, to) = match laid.owner {
            CableOwner::Section { run, section } => {
                let run = &site.runs[run];
                let from = match next_from.take() {
                    Some(from) if section > 0 => from,
                    _ => run_start(site, run.from, &mut used_outputs),
                };
                let to = match run.sections[section].to {
                    RunStop::Station(station) => (Device::Station(station), Terminal::In),
                    RunStop::BoxInput(box_index) => (Device::Box(box_index), Terminal::Input),
                    RunStop::BoxLink(box_index) => (Device::Box(box_index), Terminal::Link),
                };
                next_from = Some(match to.0 {
                    Device::Station(station) => onward(site, station),
                    _ => to,
                });
                (section_name(&run.id, section, run.sections.len()), from, to)
            }
            CableOwner::Lock { entrance, lock } => {
                let station = Device::Station(site.entrances[entrance].station);
                let at = Device::Lock { entrance, lock };
                (at.name(site), (station, Terminal::LockOutput(lock as u32 + 1)), (at, Terminal::Coil))
            }
            CableOwner::AlarmContact { entrance, input } => {
                let station = Device::Station(site.entrances[entrance].station);
                let at = Device::AlarmContact { entrance, input };
                (at.name(site), (station, Terminal::AlarmInput(input as u32 + 1)), (at, Terminal::Contact))
            }
        };
        cables.push(WiredCable { laid, designation, from, to });
    }
    cables
}

/// Outputs of a supply: at least 1.
fn outputs(site: &Site, supply: usize) -> u32 {
    let outputs = &site.supply_model(&site.supplies[supply]).outputs;
    outputs.as_ref().map_or(1, |outputs| outputs.value.clamp(1, 64))
}

/// The terminals at which a run starts.
fn run_start(site: &Site, start: RunStart, used_outputs: &mut [u32]) -> Place {
    match start {
        RunStart::Supply(supply) => {
            // All outputs are joined inside: one run on each, then a second on each. `supply-outputs-exceeded` says
            // where that is more than their terminals are stated to take.
            let number = used_outputs[supply] % outputs(site, supply) + 1;
            used_outputs[supply] += 1;
            (Device::Supply(supply), Terminal::Output(number))
        }
        RunStart::Port { box_index, port } => (Device::Box(box_index), Terminal::Port(port)),
        RunStart::Station(station) => onward(site, station),
    }
}

/// `W3` where a run has one section, else `W3/1`, `W3/2`, ...
pub fn section_name(run: &ElementId, section: usize, of: usize) -> String {
    if of == 1 { run.to_string() } else { format!("{run}/{}", section + 1) }
}

/// Devices in walking order: what stands in no building first, then building by building, core by
/// core, floor by floor from the lowest; on a floor supplies, boxes, doors, management stations and
/// dwellings in the order of the site file.
pub fn walking_order(site: &Site) -> Vec<Device> {
    let mut order: Vec<_> = Vec::new();
    let key = |place: &latchline_site::model::Place, class: usize, index: usize, part: usize| {
        ((place.building, place.core, place.floor), class, index, part)
    };
    for (index, supply) in site.supplies.iter().enumerate() {
        order.push((key(&supply.place, 0, index, 0), Device::Supply(index)));
    }
    for (index, distribution_box) in site.boxes.iter().enumerate() {
        order.push((key(&distribution_box.place, 1, index, 0), Device::Box(index)));
    }
    for (index, station) in site.stations.iter().enumerate() {
        let (class, of, part) = match station.owner {
            StationOwner::Entrance(entrance) => (2, entrance, 0),
            StationOwner::Management(management) => (3, management, 0),
            StationOwner::Dwelling { dwelling, ordinal } => (4, dwelling, ordinal),
        };
        order.push((key(site.station_place(station), class, of, part), Device::Station(index)));
    }
    order.sort_by_key(|entry| entry.0);
    order.into_iter().map(|(_, device)| device).collect()
}

/// Where a device is.
pub fn device_place(site: &Site, device: Device) -> &latchline_site::model::Place {
    match device {
        Device::Supply(index) => &site.supplies[index].place,
        Device::Box(index) => &site.boxes[index].place,
        Device::Station(index) => site.station_place(&site.stations[index]),
        Device::Lock { entrance, .. } | Device::AlarmContact { entrance, .. } => {
            &site.entrances[entrance].place
        }
    }
}

/// Location and product in the manner of IEC 81346-1: `+A+2 -A-12`, from the user's own names.
pub fn reference_designation(site: &Site, device: Device) -> String {
    let place = device_place(site, device);
    let mut text = String::new();
    if let Some(building) = place.building.map(|index| &site.buildings[index]) {
        text.push_str(&format!("+{}", building.id));
        if let Some(core) = place.core {
            text.push_str(&format!("+{}", building.cores[core].value));
        }
        if let Some(floor) = place.floor {
            text.push_str(&format!("+{}", building.floors[floor].value));
        }
        text.push(' ');
    }
    text.push_str(&format!("-{}", device.name(site)));
    text
}
