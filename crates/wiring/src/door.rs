//! The circuits at a door as joined terminals, and the cables that lead to their parts.
//!
//! A lock's circuit is a list of nodes: terminals that are one potential. Its parts stand in several spots: station and
//! lock, exit button, emergency release, fire contact, each with a cable from the circuit's *home*, which is the door
//! station, or the relay beside the lock where one is fitted: one in between, or one on the secure side. Each node that is present at a spot takes a conductor of
//! that cable. At home a conductor goes straight to the terminal where it alone meets it; else a connector joins them
//! (common practice, no source), so that no terminal takes two conductors.

use crate::item::Item;
use crate::lock::{LockWiring, WiringElement, lock_wiring};
use crate::terminal::{Place, Pole, Terminal, TerminalSet, lock_terminals};
use latchline_site::cables::DoorCable;
use latchline_site::model::{
    Entrance, LightFeed, LockFeed, LockPart, LockRelay, LockUse, RelayContact, Site, Suppression,
};
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
    let beside = Item::Part { entrance, lock, part: LockPart::Relay };
    let home = if entry.has_part(used, LockPart::Relay) { (beside, TerminalSet::Contact) } else { relay };
    let Some(part) = part else {
        let item = Item::Lock { entrance, lock };
        return (item, home, (item, lock_terminals(site, entry, used).0));
    };
    let item = Item::Part { entrance, lock, part };
    match part {
        LockPart::Relay if used.relay() == LockRelay::OnSecureSide => {
            let command = (station, TerminalSet::RelayCommand(lock as u32 + 1));
            (item, command, (item, TerminalSet::Command))
        }
        LockPart::Relay => (item, relay, (item, TerminalSet::Coil)),
        LockPart::Supply => (item, home, (item, TerminalSet::Output(1))),
        // What takes the contact is not in the plan: never the station, whose terminals it would short.
        LockPart::DoorContact => (item, (station, TerminalSet::Outside), (item, TerminalSet::Contact)),
        _ => (item, home, (item, TerminalSet::Contact)),
    }
}

/// The nodes of a lock's circuit, from one side of the feed to the other, then that of a relay's coil, or the two over which the relay on
/// the secure side is commanded.
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
    if circuit.wiring.relay == LockRelay::OnSecureSide {
        let station = Item::Station(circuit.entry.station);
        let poles = [Pole::One, Pole::Two];
        let from = circuit.two(station, TerminalSet::RelayCommand(lock as u32 + 1), poles);
        let to = circuit.two(circuit.part(LockPart::Relay), TerminalSet::Command, poles);
        nodes.extend(from.into_iter().zip(to).map(|(one, other)| vec![one, other]));
    }
    nodes
}

/// The terminal of a contact's far side.
fn far_pole(contact: RelayContact) -> Pole {
    match contact {
        RelayContact::NormallyOpen => Pole::NormallyOpen,
        RelayContact::NormallyClosed => Pole::NormallyClosed,
    }
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

    /// Both sides of a contact of the door station's own relay.
    fn station_relay(&self, contact: RelayContact) -> [Terminal; 2] {
        let set = TerminalSet::Relay(self.lock as u32 + 1);
        self.two(Item::Station(self.entry.station), set, [Pole::Common, far_pole(contact)])
    }

    /// The same of the relay that the station commands, wherever it is.
    fn commanded_relay(&self, contact: RelayContact) -> [Terminal; 2] {
        match self.wiring.relay {
            LockRelay::OnSecureSide => {
                let poles = [Pole::Common, far_pole(contact)];
                self.two(self.part(LockPart::Relay), TerminalSet::Contact, poles)
            }
            LockRelay::InStation | LockRelay::Between => self.station_relay(contact),
        }
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
            W::RelayNormallyOpen => self.commanded_relay(RelayContact::NormallyOpen),
            W::RelayNormallyClosed => self.commanded_relay(RelayContact::NormallyClosed),
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
pub(crate) enum Spot {
    Station,
    Lock,
    Part(LockPart),
}

impl Spot {
    pub(crate) fn of(item: Item) -> Spot {
        match item {
            Item::Lock { .. } | Item::Suppressor { .. } => Spot::Lock,
            Item::Part { part, .. } => Spot::Part(part),
            _ => Spot::Station,
        }
    }
}

/// Where the cables of a lock's circuit come together.
pub(crate) fn home(entry: &Entrance, used: &LockUse) -> Spot {
    if entry.has_part(used, LockPart::Relay) { Spot::Part(LockPart::Relay) } else { Spot::Station }
}

/// Whether a node needs a connector at home: several wires that no terminal there takes one by one.
pub(crate) fn needs_joint(node: &Node, home: Spot) -> bool {
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
