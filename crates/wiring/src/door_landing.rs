//! What lands on the terminals at a door: the circuits of its locks, modules, lights and alarm inputs.

use crate::colours::{Conductor, conductors};
use crate::door::{Spot, ends, home, needs_joint, nodes};
use crate::item::Item;
use crate::landing::{By, Landing, UnstatedCable, WiredCable, Wiring};
use crate::terminal::{MODULE, Place, Pole, Terminal, TerminalSet, is_alarm_contact};
use latchline_site::cables::{CableOwner, DoorCable};
use latchline_site::model::{LockPart, RelayContact, Site};
use std::collections::BTreeMap;

/// Lands everything at a door.
pub(crate) fn land(site: &Site, entrance: usize, wiring: &mut Wiring) {
    let entry = &site.entrances[entrance];
    for lock in 0..entry.locks.len() {
        land_lock(site, entrance, lock, wiring);
        land_door_contact(site, entrance, lock, wiring);
    }
    let station = Item::Station(entry.station);
    let mut before = (station, TerminalSet::Modules);
    for module in 0..entry.accessories.len() {
        let item = Item::Module { entrance, module };
        for pole in MODULE {
            let into = Terminal::new((item, TerminalSet::ModuleIn), pole);
            wiring.join(Terminal::new(before, pole), By::OwnLead, into);
        }
        before = (item, TerminalSet::ModuleOut);
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
    stated: Option<(usize, Vec<(u32, Conductor)>)>,
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
        let designation = item.name(site, wiring.language);
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

/// The near end of each cable at a door is named after terminals on which its conductors land: those of a device before a connector.
/// Which they are is known only when the whole circuit is joined.
pub(crate) fn settle_ends(wiring: &mut Wiring) {
    let landed = |is_its: &dyn Fn(&By) -> bool, from: Place, to: Place| -> Option<Place> {
        let places = wiring
            .terminals
            .iter()
            .filter(|(_, landings)| landings.iter().any(|landing| is_its(&landing.by)))
            .map(|(terminal, _)| (terminal.item, terminal.set))
            .filter(|(item, _)| *item != to.0);
        let near: Vec<Place> = places.collect();
        let is_device = |place: &&Place| place.1 != TerminalSet::Ways;
        (!near.contains(&from)).then(|| near.iter().find(is_device).or(near.first()).copied()).flatten()
    };
    let of_cable = |(index, cable): (usize, &WiredCable)| {
        let is_its = |by: &By| matches!(by, By::Conductor { cable, .. } if *cable == index);
        matches!(cable.laid.owner, CableOwner::AtDoor(_)).then(|| landed(&is_its, cable.from, cable.to))?
    };
    let of_unstated = |(index, cable): (usize, &UnstatedCable)| {
        landed(&|by| matches!(by, By::Unstated { cable } if *cable == index), cable.from, cable.to)
    };
    let cables: Vec<Option<Place>> = wiring.cables.iter().enumerate().map(of_cable).collect();
    let unstated: Vec<Option<Place>> = wiring.unstated.iter().enumerate().map(of_unstated).collect();
    for (cable, place) in wiring.cables.iter_mut().zip(cables) {
        cable.from = place.unwrap_or(cable.from);
    }
    for (cable, place) in wiring.unstated.iter_mut().zip(unstated) {
        cable.from = place.unwrap_or(cable.from);
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
