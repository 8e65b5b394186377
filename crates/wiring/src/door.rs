//! The circuits at a door as joined terminals, and the cables that lead to their parts.
//!
//! A lock's circuit is a list of nodes: terminals that are one potential. Its parts stand in several spots: station and
//! lock, exit button, emergency release, fire contact, each with a cable from the circuit's *home*, which is the door
//! station, or the relay on the secure side where one is fitted. Each node that is present at a spot takes a conductor of
//! that cable. At home a conductor goes straight to the terminal where it alone meets it; else a connector joins them
//! (common practice, no source), so that no terminal takes two conductors.

use crate::colours::conductors;
use crate::item::Item;
use crate::lock::{LockWiring, WiringElement, lock_wiring};
use crate::terminal::{Pole, Terminal, TerminalSet, is_alarm_contact, lock_terminals};
use crate::{By, Landing, Place, UnstatedCable, Wiring};
use latchline_site::cables::{CableOwner, DoorCable};
use latchline_site::model::{
    Entrance, LightFeed, LockFeed, LockPart, LockUse, RelayContact, Site, Suppression,
};
use std::collections::BTreeMap;

/// Terminals that are joined to one potential.
pub type Node = Vec<Terminal>;

/// The item at the far end of a cable at a door, and both its ends.
pub(crate) fn ends(site: &Site, owner: DoorCable) -> (Item, Place, Place) {
    match owner {
        DoorCable::Lock { entrance, lock } => lock_ends(site, entrance, lock, None),
        DoorCable::LockPart { entrance, lock, part } => lock_ends(site, entrance, lock, Some(part)),
        DoorCable::Light { entrance, light } => {
            let item = Item::Light { entrance, light };
            let station = Item::Station(site.entrances[entrance].station);
            let from = match site.entrances[entrance].lights[light].feed.value {
                LightFeed::Station => (station, TerminalSet::LightOutput),
                LightFeed::Bus => (station, TerminalSet::In),
                LightFeed::OwnSupply => (Item::LightSupply { entrance, light }, TerminalSet::Output(1)),
            };
            (item, from, (item, TerminalSet::Lamp))
        }
        DoorCable::AlarmContact { entrance, input } => {
            let item = Item::AlarmContact { entrance, input };
            let station = Item::Station(site.entrances[entrance].station);
            (item, (station, TerminalSet::AlarmInput(input as u32 + 1)), (item, TerminalSet::Contact))
        }
    }
}

/// Ends of the cable to the lock, or to a part.
fn lock_ends(site: &Site, entrance: usize, lock: usize, part: Option<LockPart>) -> (Item, Place, Place) {
    let entry = &site.entrances[entrance];
    let used = &entry.locks[lock];
    let station = Item::Station(entry.station);
    let relay = (station, TerminalSet::Relay(lock as u32 + 1));
    let between = Item::Part { entrance, lock, part: LockPart::Relay };
    let home = if entry.has_part(used, LockPart::Relay) { (between, TerminalSet::Contact) } else { relay };
    let Some(part) = part else {
        let item = Item::Lock { entrance, lock };
        return (item, home, (item, lock_terminals(site, entry, used).0));
    };
    let item = Item::Part { entrance, lock, part };
    match part {
        LockPart::Relay => (item, relay, (item, TerminalSet::Coil)),
        LockPart::Supply => (item, home, (item, TerminalSet::Output(1))),
        LockPart::DoorContact => (item, (station, TerminalSet::In), (item, TerminalSet::Contact)),
        _ => (item, home, (item, TerminalSet::Contact)),
    }
}

/// The nodes of a lock's circuit, from one side of the feed to the other, then that of a relay's coil.
pub fn nodes(site: &Site, entrance: usize, lock: usize) -> Vec<Node> {
    let circuit = Circuit::new(site, entrance, lock);
    let series = &circuit.wiring.series;
    let mut nodes: Vec<Node> = Vec::new();
    for (index, ends) in series.windows(2).enumerate() {
        let mut node = vec![circuit.ends(ends[0], index)[1], circuit.ends(ends[1], index + 1)[0]];
        node.dedup();
        nodes.push(node);
    }
    for (index, element) in series.iter().enumerate() {
        if is_relay(*element) && index > 0 {
            for across in &circuit.wiring.across_contact {
                let [one, two] = circuit.ends(*across, 0);
                nodes[index - 1].push(one);
                nodes[index].push(two);
            }
        }
        if *element == WiringElement::Lock
            && let Some(fitted) = circuit.wiring.across_lock
        {
            let poles = Pole::pair(fitted != Suppression::Varistor);
            let [bar, other] = circuit.two(Item::Suppressor { entrance, lock }, TerminalSet::Leads, poles);
            nodes[index - 1].push(bar);
            nodes[index].push(other);
        }
    }
    if let Some(contact) = circuit.wiring.coil_contact {
        let coil = Item::Part { entrance, lock, part: LockPart::Relay };
        let [one, two] = circuit.two(coil, TerminalSet::Coil, [Pole::CoilOne, Pole::CoilTwo]);
        let [common, far] = circuit.station_relay(contact);
        let last = nodes.len() - 1;
        nodes[0].push(common);
        nodes[last].push(two);
        nodes.push(vec![far, one]);
    }
    nodes
}

fn is_relay(element: WiringElement) -> bool {
    use WiringElement as W;
    matches!(element, W::RelayNormallyOpen | W::RelayNormallyClosed | W::RelayBetween)
}

/// A lock's circuit with its place in the site.
struct Circuit<'a> {
    site: &'a Site,
    entrance: usize,
    lock: usize,
    entry: &'a Entrance,
    used: &'a LockUse,
    wiring: LockWiring,
}

impl<'a> Circuit<'a> {
    fn new(site: &'a Site, entrance: usize, lock: usize) -> Self {
        let entry = &site.entrances[entrance];
        let used = &entry.locks[lock];
        Circuit { site, entrance, lock, entry, used, wiring: lock_wiring(site, entry, used) }
    }

    fn two(&self, item: Item, set: TerminalSet, poles: [Pole; 2]) -> [Terminal; 2] {
        poles.map(|pole| Terminal { item, set, pole })
    }

    fn station_relay(&self, contact: RelayContact) -> [Terminal; 2] {
        let far = match contact {
            RelayContact::NormallyOpen => Pole::NormallyOpen,
            RelayContact::NormallyClosed => Pole::NormallyClosed,
        };
        let set = TerminalSet::Relay(self.lock as u32 + 1);
        self.two(Item::Station(self.entry.station), set, [Pole::Common, far])
    }

    fn part(&self, part: LockPart) -> Item {
        Item::Part { entrance: self.entrance, lock: self.lock, part }
    }

    /// Both terminals of the feed.
    fn feed(&self) -> [Terminal; 2] {
        let poles = Pole::pair(!self.wiring.is_ac);
        let station = Item::Station(self.entry.station);
        match self.used.feed.value {
            LockFeed::Station => self.two(station, TerminalSet::LockOutput(self.lock as u32 + 1), poles),
            LockFeed::Bus => self.two(station, TerminalSet::In, poles),
            LockFeed::OwnSupply | LockFeed::DryContact => {
                self.two(self.part(LockPart::Supply), TerminalSet::Output(1), poles)
            }
        }
    }

    /// Where the circuit enters an element and where it leaves it; `index` is its place in the series.
    fn ends(&self, element: WiringElement, index: usize) -> [Terminal; 2] {
        use WiringElement as W;
        let dry = |part| self.two(self.part(part), TerminalSet::Contact, [Pole::One, Pole::Two]);
        let (set, poles) = lock_terminals(self.site, self.entry, self.used);
        let lock = self.two(Item::Lock { entrance: self.entrance, lock: self.lock }, set, poles);
        match element {
            W::FeedOut => [self.feed()[0]; 2],
            W::FeedReturn => [self.feed()[1]; 2],
            W::RelayNormallyOpen => self.station_relay(RelayContact::NormallyOpen),
            W::RelayNormallyClosed => self.station_relay(RelayContact::NormallyClosed),
            W::RelayBetween => {
                self.two(self.part(LockPart::Relay), TerminalSet::Contact, [Pole::Common, Pole::NormallyOpen])
            }
            W::ExitButtonNormallyOpen | W::ExitButtonNormallyClosed => dry(LockPart::ExitButton),
            W::EmergencyRelease => dry(LockPart::EmergencyRelease),
            W::FireInterlock => dry(LockPart::FireContact),
            W::Lock => lock,
            // The drive's input stands at both ends of the series.
            W::DriveInput => [lock[usize::from(index > 0)]; 2],
        }
    }
}

/// Where parts of a lock's circuit stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Spot {
    Station,
    Lock,
    Part(LockPart),
}

impl Spot {
    fn of(item: Item) -> Spot {
        match item {
            Item::Lock { .. } | Item::Suppressor { .. } => Spot::Lock,
            Item::Part { part, .. } => Spot::Part(part),
            _ => Spot::Station,
        }
    }
}

/// Where the cables of a lock's circuit come together.
fn home(entry: &Entrance, used: &LockUse) -> Spot {
    if entry.has_part(used, LockPart::Relay) { Spot::Part(LockPart::Relay) } else { Spot::Station }
}

/// Whether a node needs a connector at home: several wires that no terminal there takes one by one.
fn needs_joint(node: &Node, home: Spot) -> bool {
    let at_home = node.iter().filter(|terminal| Spot::of(terminal.item) == home).count();
    let mut others: Vec<Spot> = node.iter().map(|terminal| Spot::of(terminal.item)).collect();
    others.retain(|spot| *spot != home);
    others.sort_unstable();
    others.dedup();
    at_home + others.len() > 2 || (at_home == 0 && others.len() == 2)
}

/// The number of the connector of each node of a lock's circuit, in the order of [`nodes`], where it has one.
pub fn joints(site: &Site, entrance: usize, lock: usize) -> Vec<Option<usize>> {
    let entry = &site.entrances[entrance];
    let home = home(entry, &entry.locks[lock]);
    let mut number = 0;
    let one = |node: &Node| {
        needs_joint(node, home).then(|| {
            number += 1;
            number
        })
    };
    nodes(site, entrance, lock).iter().map(one).collect()
}

/// Lands everything at a door.
pub(crate) fn land(site: &Site, entrance: usize, wiring: &mut Wiring) {
    let entry = &site.entrances[entrance];
    for lock in 0..entry.locks.len() {
        land_lock(site, entrance, lock, wiring);
        land_door_contact(site, entrance, lock, wiring);
    }
    let station = Item::Station(entry.station);
    let mut before = Terminal { item: station, set: TerminalSet::Modules, pole: Pole::Whole };
    for module in 0..entry.accessories.len() {
        let at = |set| Terminal { item: Item::Module { entrance, module }, set, pole: Pole::Whole };
        wiring.join(before, By::OwnLead, at(TerminalSet::ModuleIn));
        before = at(TerminalSet::ModuleOut);
    }
    for light in 0..entry.lights.len() {
        land_pair(site, DoorCable::Light { entrance, light }, [Pole::Plus, Pole::Minus], wiring);
    }
    for input in 0..entry.alarm_inputs.len() {
        land_alarm(site, entrance, input, wiring);
    }
}

/// The conductors of a cable at a door, one after another: of the cable that the plan states, or of one that it does not.
struct Conductors {
    stated: Option<(usize, Vec<(u32, crate::colours::Conductor)>)>,
    unstated: usize,
}

impl Conductors {
    fn of(site: &Site, owner: DoorCable, count: u32, wiring: &mut Wiring) -> Self {
        if let Some(index) = wiring.cable_of(CableOwner::AtDoor(owner)) {
            let laid = &wiring.cables[index].laid;
            let cable = &site.catalogue.cables[&laid.cable];
            let in_cable = cable.pairs.value.max(1);
            let list = (0..laid.pairs).flat_map(|pair| {
                let piece = pair / in_cable + 1;
                conductors(cable, pair % in_cable + 1).map(|conductor| (piece, conductor))
            });
            return Conductors { stated: Some((index, list.collect())), unstated: 0 };
        }
        let (item, from, to) = ends(site, owner);
        let designation = item.name(site);
        wiring.unstated.push(UnstatedCable { designation, conductors: count, from, to });
        Conductors { stated: None, unstated: wiring.unstated.len() - 1 }
    }

    fn nth(&self, number: usize) -> By {
        match &self.stated {
            Some((cable, list)) => match list.get(number) {
                Some((piece, conductor)) => {
                    By::Conductor { cable: *cable, piece: *piece, conductor: conductor.clone() }
                }
                None => By::Link,
            },
            None => By::Unstated { cable: self.unstated },
        }
    }
}

/// A pair from terminal to terminal.
fn land_pair(site: &Site, owner: DoorCable, poles: [Pole; 2], wiring: &mut Wiring) {
    let (_, from, to) = ends(site, owner);
    let conductors = Conductors::of(site, owner, 2, wiring);
    for (number, pole) in poles.into_iter().enumerate() {
        wiring.join(Terminal::new(from, pole), conductors.nth(number), Terminal::new(to, pole));
    }
}

fn land_lock(site: &Site, entrance: usize, lock: usize, wiring: &mut Wiring) {
    let entry = &site.entrances[entrance];
    let used = &entry.locks[lock];
    let nodes = nodes(site, entrance, lock);
    let home = home(entry, used);
    let mut cables: BTreeMap<Spot, (Conductors, usize)> = BTreeMap::new();
    let mut joints = 0;
    for node in &nodes {
        let mut spots: Vec<Spot> = node.iter().map(|terminal| Spot::of(terminal.item)).collect();
        spots.sort_unstable();
        spots.dedup();
        // What arrives at home: its own terminals, and a conductor from each other spot.
        let mut arriving: Vec<(By, Terminal)> = Vec::new();
        for spot in spots {
            let mut at_spot = node.iter().copied().filter(|terminal| Spot::of(terminal.item) == spot);
            if spot == home {
                arriving.extend(at_spot.map(|terminal| (By::Link, terminal)));
                continue;
            }
            let Some(first) = at_spot.next() else { continue };
            // Leads of what lies across the lock land on the lock's own terminals.
            for further in at_spot {
                let is_lead = further.set == TerminalSet::Leads;
                wiring.join(first, if is_lead { By::OwnLead } else { By::Link }, further);
            }
            let (conductors, used_so_far) = cables.entry(spot).or_insert_with(|| {
                let owner = match spot {
                    Spot::Lock => DoorCable::Lock { entrance, lock },
                    Spot::Station => DoorCable::LockPart { entrance, lock, part: LockPart::Relay },
                    Spot::Part(part) => DoorCable::LockPart { entrance, lock, part },
                };
                let count = match owner {
                    DoorCable::LockPart { part, .. } => used.conductors_to(part),
                    _ => 2 * used.pairs.value.max(1),
                };
                (Conductors::of(site, owner, count, wiring), 0)
            });
            arriving.push((conductors.nth(*used_so_far), first));
            // Pairs in parallel have the same two terminals each.
            if spot == Spot::Lock {
                let further = (1..used.pairs.value as usize).map(|pair| *used_so_far + 2 * pair);
                arriving.extend(further.map(|number| (conductors.nth(number), first)));
            }
            *used_so_far += 1;
        }
        match &arriving[..] {
            several if needs_joint(node, home) => {
                joints += 1;
                let item = Item::Joint { entrance, lock, number: joints };
                let joint = Terminal { item, set: TerminalSet::Ways, pole: Pole::Whole };
                for (by, terminal) in several {
                    wiring.join(joint, by.clone(), *terminal);
                }
            }
            [(By::Link, one), (by, other)] | [(by, other), (By::Link, one)] => {
                wiring.join(*one, by.clone(), *other);
            }
            several => {
                let at_home: Vec<&Terminal> =
                    several.iter().filter(|(by, _)| *by == By::Link).map(|(_, terminal)| terminal).collect();
                if let [one] = at_home[..] {
                    for (by, other) in several.iter().filter(|(by, _)| *by != By::Link) {
                        wiring.join(*one, by.clone(), *other);
                    }
                }
            }
        }
    }
}

/// A door contact that is not the one at an alarm input leads to a device outside the plan.
fn land_door_contact(site: &Site, entrance: usize, lock: usize, wiring: &mut Wiring) {
    let entry = &site.entrances[entrance];
    let part = LockPart::DoorContact;
    if !entry.has_part(&entry.locks[lock], part) || is_alarm_contact(entry, lock, part) {
        return;
    }
    let conductors = Conductors::of(site, DoorCable::LockPart { entrance, lock, part }, 2, wiring);
    let item = Item::Part { entrance, lock, part };
    for (number, pole) in [Pole::One, Pole::Two].into_iter().enumerate() {
        let terminal = Terminal { item, set: TerminalSet::Contact, pole };
        let landing = Landing { by: conductors.nth(number), other: None };
        wiring.terminals.entry(terminal).or_default().push(landing);
    }
}

/// The loop of an alarm input. A resistor at the contact lies in series with one that opens on alarm, and across one that
/// closes.
fn land_alarm(site: &Site, entrance: usize, input: usize, wiring: &mut Wiring) {
    let used = &site.entrances[entrance].alarm_inputs[input];
    let owner = DoorCable::AlarmContact { entrance, input };
    let (_, from, to) = ends(site, owner);
    let poles = [Pole::One, Pole::Two];
    if !used.end_of_line_resistor.value {
        land_pair(site, owner, poles, wiring);
        return;
    }
    let conductors = Conductors::of(site, owner, 2, wiring);
    let [from_one, from_two] = poles.map(|pole| Terminal::new(from, pole));
    let [one, two] = poles.map(|pole| Terminal::new(to, pole));
    let resistor = Item::EndOfLine { entrance, input };
    let [first, second] = poles.map(|pole| Terminal { item: resistor, set: TerminalSet::Leads, pole });
    wiring.join(from_one, conductors.nth(0), one);
    match used.contact.value {
        RelayContact::NormallyOpen => {
            wiring.join(from_two, conductors.nth(1), two);
            wiring.join(one, By::OwnLead, first);
            wiring.join(two, By::OwnLead, second);
        }
        RelayContact::NormallyClosed => {
            wiring.join(two, By::OwnLead, first);
            wiring.join(from_two, conductors.nth(1), second);
        }
    }
}
