//! Every terminal of every item of a site.

use crate::item::Item;
use crate::terminal::{DRY, MODULE, Pole, Terminal, TerminalSet, is_alarm_contact, lock_terminals, outputs};
use latchline_site::catalogue::{BoxKind, LoopThrough, StationKind};
use latchline_site::model::{
    Entrance, LightFeed, LockFeed, LockPart, LockRelay, LockUse, Site, StationOwner, Suppression,
};
use latchline_site::protectors::{self, ProtectorAt};

const CHANGEOVER: [Pole; 3] = [Pole::Common, Pole::NormallyOpen, Pole::NormallyClosed];
const BUS: [Pole; 2] = [Pole::Plus, Pole::Minus];
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
        let used = entrance.locks.get(number as usize - 1);
        if used.is_some_and(|used| used.relay() == LockRelay::OnSecureSide) {
            list.add(item, TerminalSet::RelayCommand(number), &DRY);
        }
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
                match used.relay() {
                    LockRelay::OnSecureSide => list.add(item, TerminalSet::Command, &DRY),
                    _ => list.add(item, TerminalSet::Coil, &[Pole::CoilOne, Pole::CoilTwo]),
                }
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
