//! The cables of the bus: from where to where, through which protectors, and what lands where.

use crate::colours::conductors;
use crate::door;
use crate::item::Item;
use crate::landing::{By, Landing, ScreenEnd, WiredCable, Wiring};
use crate::terminal::{Place, Pole, Terminal, TerminalSet, outputs};
use latchline_finding::{ElementId, Language};
use latchline_site::cables::CableOwner;
use latchline_site::catalogue::LoopThrough;
use latchline_site::model::{RunStart, RunStop, Site};
use latchline_site::protectors::{self, ProtectorAt};

/// Every cable of a site with its ends.
pub(crate) fn cables(site: &Site, language: Language) -> Vec<WiredCable> {
    let mut used_outputs = vec![0_u32; site.supplies.len()];
    let mut next_from: Option<Place> = None;
    let mut cables = Vec::new();
    for laid in site.cable_lengths() {
        let designation = cable_name(site, laid.owner, language);
        let (from, to) = match laid.owner {
            CableOwner::Section { run: index, section } => {
                let run = &site.runs[index];
                let from = match next_from.take() {
                    Some(from) if section > 0 => from,
                    _ => {
                        let start = run_start(site, run.from, &mut used_outputs);
                        let is_protected = protectors::ends(site, run).0;
                        if is_protected { line_side(ProtectorAt::StartOf(index)) } else { start }
                    }
                };
                let stop = run.sections[section].to;
                next_from = Some(match stop {
                    RunStop::Station(station) => onward(site, station),
                    _ => run_stop(stop),
                });
                let to = protector_behind(site, index, section).map_or_else(|| run_stop(stop), line_side);
                (from, to)
            }
            CableOwner::AtDoor(cable) => {
                let (_, from, to) = door::ends(site, cable);
                (from, to)
            }
        };
        cables.push(WiredCable { laid, designation, from, to });
    }
    cables
}

/// The designation of a cable: that of its run and section, or of what it leads to at a door.
pub fn cable_name(site: &Site, owner: CableOwner, language: Language) -> String {
    match owner {
        CableOwner::Section { run, section } => {
            section_name(&site.runs[run].id, section, site.runs[run].sections.len())
        }
        CableOwner::AtDoor(cable) => door::ends(site, cable).0.name(site, language),
    }
}

/// The terminals of the devices at both ends of each section of each run, whatever protector lies between: run by run in the
/// order of the site file.
pub fn device_terminals(site: &Site) -> Vec<Vec<(Place, Place)>> {
    let mut used_outputs = vec![0_u32; site.supplies.len()];
    let of_run = |run: &latchline_site::model::Run| {
        let mut from = run_start(site, run.from, &mut used_outputs);
        let mut sections = Vec::with_capacity(run.sections.len());
        for section in &run.sections {
            sections.push((from, run_stop(section.to)));
            from = match section.to {
                RunStop::Station(station) => onward(site, station),
                stop => run_stop(stop),
            };
        }
        sections
    };
    site.runs.iter().map(of_run).collect()
}

/// The terminals from which a chain goes on beyond a station: `out`, or the only pair it has.
fn onward(site: &Site, station: usize) -> Place {
    let model = site.station_model(&site.stations[station]);
    let set = if model.loop_through.value == LoopThrough::End { TerminalSet::In } else { TerminalSet::Out };
    (Item::Station(station), set)
}

/// The terminals at which a run starts.
fn run_start(site: &Site, start: RunStart, used_outputs: &mut [u32]) -> Place {
    match start {
        RunStart::Supply(supply) => {
            // All outputs are joined inside: one run on each, then a second on each. `supply-outputs-exceeded` says
            // where that is more than their terminals are stated to take.
            let number = used_outputs[supply] % outputs(site, supply) + 1;
            used_outputs[supply] += 1;
            (Item::Supply(supply), TerminalSet::Output(number))
        }
        RunStart::Port { box_index, port } => (Item::Box(box_index), TerminalSet::Port(port)),
        RunStart::Station(station) => onward(site, station),
    }
}

/// The terminals at which a section ends.
fn run_stop(stop: RunStop) -> Place {
    match stop {
        RunStop::Station(station) => (Item::Station(station), TerminalSet::In),
        RunStop::BoxInput(box_index) => (Item::Box(box_index), TerminalSet::Input),
        RunStop::BoxLink(box_index) => (Item::Box(box_index), TerminalSet::Link),
    }
}

/// The surge protector behind a section of a run: beside the door station to which it leads, or at the end of the run.
fn protector_behind(site: &Site, index: usize, section: usize) -> Option<ProtectorAt> {
    let run = &site.runs[index];
    let at_door = protectors::protected_entrance(site, run.sections[section].to).map(ProtectorAt::Entrance);
    let is_last = section + 1 == run.sections.len();
    at_door.or_else(|| (is_last && protectors::ends(site, run).1).then_some(ProtectorAt::EndOf(index)))
}

/// The terminals of a protector that face the line.
fn line_side(at: ProtectorAt) -> Place {
    (Item::Protector(at), TerminalSet::LineSide)
}

/// `W3` where a run has one section, else `W3/1`, `W3/2`, ...
pub fn section_name(run: &ElementId, section: usize, of: usize) -> String {
    if of == 1 { run.to_string() } else { format!("{run}/{}", section + 1) }
}

const POLES: [Pole; 2] = [Pole::Plus, Pole::Minus];

/// Lands the conductors of all runs, the wires of their protectors, and the screens.
pub(crate) fn land(site: &Site, wiring: &mut Wiring) {
    for index in 0..wiring.cables.len() {
        if matches!(wiring.cables[index].laid.owner, CableOwner::Section { .. }) {
            land_conductors(site, wiring, index);
        }
        if site.catalogue.cables[&wiring.cables[index].laid.cable].screened.value {
            land_screen(wiring, index);
        }
    }
    let mut used_outputs = vec![0_u32; site.supplies.len()];
    for (index, run) in site.runs.iter().enumerate() {
        let start = run_start(site, run.from, &mut used_outputs);
        if protectors::ends(site, run).0 {
            link(wiring, start, ProtectorAt::StartOf(index));
        }
        for (number, section) in run.sections.iter().enumerate() {
            if let Some(at) = protector_behind(site, index, number) {
                link(wiring, run_stop(section.to), at);
            }
        }
    }
}

fn land_conductors(site: &Site, wiring: &mut Wiring, index: usize) {
    let wired = &wiring.cables[index];
    let (from, to, pairs) = (wired.from, wired.to, wired.laid.pairs);
    let cable = &site.catalogue.cables[&wired.laid.cable];
    let in_cable = cable.pairs.value.max(1);
    for pair in 0..pairs {
        let piece = pair / in_cable + 1;
        for (pole, conductor) in POLES.into_iter().zip(conductors(cable, pair % in_cable + 1)) {
            let by = By::Conductor { cable: index, piece, conductor };
            wiring.join(Terminal::new(from, pole), by, Terminal::new(to, pole));
        }
    }
}

/// The short wires between a protector and what it protects.
fn link(wiring: &mut Wiring, place: Place, at: ProtectorAt) {
    for pole in POLES {
        let protected = Terminal { item: Item::Protector(at), set: TerminalSet::ProtectedSide, pole };
        wiring.join(Terminal::new(place, pole), By::Link, protected);
    }
}

/// The leads of batteries: plus over the fuse of each, minus straight to it.
pub(crate) fn land_batteries(site: &Site, wiring: &mut Wiring) {
    for (index, supply) in site.supplies.iter().enumerate() {
        if site.supply_model(supply).battery.is_none() {
            continue;
        }
        let at_supply = |pole| Terminal::new((Item::Supply(index), TerminalSet::Battery), pole);
        for number in 1..=supply.batteries.value {
            let item = Item::Battery { supply: index, number };
            let at_battery = |pole| Terminal::new((item, TerminalSet::Battery), pole);
            let fuse = |pole| Terminal::new((item, TerminalSet::Fuse), pole);
            wiring.join(at_supply(Pole::Plus), By::OwnLead, fuse(Pole::One));
            wiring.join(fuse(Pole::Two), By::OwnLead, at_battery(Pole::Plus));
            wiring.join(at_battery(Pole::Minus), By::OwnLead, at_supply(Pole::Minus));
        }
    }
}

/// Every terminal for earth has its conductor.
pub(crate) fn land_earths(wiring: &mut Wiring) {
    for (terminal, landings) in &mut wiring.terminals {
        if terminal.set == TerminalSet::Earth {
            landings.push(Landing { by: By::EarthConductor, other: None });
        }
    }
}

fn land_screen(wiring: &mut Wiring, index: usize) {
    let wired = &wiring.cables[index];
    let set = TerminalSet::Screen(index);
    let [from, to] = [wired.from.0, wired.to.0].map(|item| Terminal { item, set, pole: Pole::Whole });
    let pieces = wired.laid.side_by_side;
    // Where the chain comes in with a screen, the two are joined; the first section's start is earthed.
    let before = match wired.laid.owner {
        CableOwner::Section { section, .. } if section > 0 => {
            let set = TerminalSet::Screen(index - 1);
            Some(Terminal { item: from.item, set, pole: Pole::Whole })
                .filter(|before| wiring.screens.contains_key(before))
        }
        _ => None,
    };
    for piece in 1..=pieces {
        wiring.join(from, By::Screen { cable: index, piece }, to);
    }
    match before {
        Some(before) => {
            wiring.screens.insert(before, ScreenEnd::JoinedOn);
            wiring.join(before, By::Link, from);
            wiring.screens.insert(from, ScreenEnd::JoinedOn);
        }
        None => {
            wiring.screens.insert(from, ScreenEnd::Earthed);
            let earth = Landing { by: By::EarthConductor, other: None };
            wiring.terminals.entry(from).or_default().push(earth);
        }
    }
    wiring.screens.insert(to, ScreenEnd::Insulated);
}
