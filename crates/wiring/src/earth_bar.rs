//! The bars for earths and screens: one at each place with a supply or a box where anything is earthed, and one at a door where it is
//! needed, with what lands on which of its terminals.
//!
//! At a door in a building a single earth goes to the main earthing terminal by a conductor of its own; several share a bar. A door outside every building
//! has no main earthing terminal to go to, so whatever is earthed there is earthed at a bar of that place.

use crate::item::{Item, StandsAt, item_place};
use crate::landing::{By, EarthBar, Wiring};
use crate::terminal::Terminal;
use latchline_site::model::{Place, RunStart, RunStop, Site, StationOwner};
use latchline_site::protectors::ProtectorAt;

/// Places are one where building, core and floor are.
type PlaceKey = (Option<usize>, Option<usize>, Option<usize>);

/// At a door in a building from so many earths on.
const LEAST_AT_A_DOOR: usize = 2;

fn key(place: &Place) -> PlaceKey {
    (place.building, place.core, place.floor)
}

/// Whether an item hangs with supplies and boxes: these, their batteries, and the protectors of runs that start or end at one of them.
pub fn is_of_a_cupboard(site: &Site, item: Item) -> bool {
    match item {
        Item::Supply(_) | Item::Battery { .. } | Item::Box(_) => true,
        Item::Protector(ProtectorAt::StartOf(run)) => !matches!(site.runs[run].from, RunStart::Station(_)),
        Item::Protector(ProtectorAt::EndOf(run)) => {
            let last = site.runs[run].sections.last().map(|section| section.to);
            matches!(last, Some(RunStop::BoxInput(_) | RunStop::BoxLink(_)))
        }
        _ => false,
    }
}

/// Whether an item hangs with the supplies and boxes of this place.
pub fn hangs_at(site: &Site, item: Item, place: &Place) -> bool {
    is_of_a_cupboard(site, item) && key(item_place(site, item)) == key(place)
}

/// The door at which an item is: its station, what is fitted there, and the protectors of runs that start or end at its station.
fn door_of(site: &Site, item: Item) -> Option<usize> {
    let of_station = |station: usize| match site.stations[station].owner {
        StationOwner::Entrance(entrance) => Some(entrance),
        _ => None,
    };
    match item.stands_at() {
        StandsAt::Entrance(entrance) => Some(entrance),
        StandsAt::Station(station) => of_station(station),
        StandsAt::StartOf(run) => match site.runs[run].from {
            RunStart::Station(station) => of_station(station),
            _ => None,
        },
        StandsAt::EndOf(run) => match site.runs[run].sections.last()?.to {
            RunStop::Station(station) => of_station(station),
            _ => None,
        },
        StandsAt::Supply(_) | StandsAt::Box(_) => None,
    }
}

/// Every bar on which something is earthed, in the order of the terminals.
pub(crate) fn bars(site: &Site, wiring: &Wiring) -> Vec<EarthBar> {
    let mut bars: Vec<EarthBar> = Vec::new();
    for (terminal, landings) in &wiring.terminals {
        if !landings.iter().any(|landing| landing.by == By::EarthConductor) {
            continue;
        }
        let door = match is_of_a_cupboard(site, terminal.item) {
            true => None,
            false => match door_of(site, terminal.item) {
                Some(door) => Some(door),
                None => continue,
            },
        };
        let place = item_place(site, terminal.item);
        let is_it = |bar: &&mut EarthBar| match door {
            None => bar.door.is_none() && key(&bar.place) == key(place),
            Some(_) => bar.door == door,
        };
        match bars.iter_mut().find(is_it) {
            Some(bar) => bar.earthed.push(*terminal),
            None => bars.push(EarthBar { place: place.clone(), door, earthed: vec![*terminal] }),
        }
    }
    bars.retain(|bar| bar.door.is_none() || bar.is_outside() || bar.earthed.len() >= LEAST_AT_A_DOOR);
    bars
}

impl EarthBar {
    /// Whether it is outside every building: no main earthing terminal is there.
    pub fn is_outside(&self) -> bool {
        self.place.building.is_none() && (self.door.is_some() || self.place.outdoors)
    }
}

impl Wiring {
    /// On which terminal of the bar of its place, from 1, a terminal is earthed; `None` where it is not, or there is no bar.
    pub fn bar_terminal(&self, terminal: Terminal) -> Option<usize> {
        let mut bars = self.earth_bars.iter();
        bars.find_map(|bar| bar.earthed.iter().position(|one| *one == terminal)).map(|index| index + 1)
    }

    /// The bar beside the supplies and boxes of a place.
    pub fn cupboard_bar(&self, place: &Place) -> Option<&EarthBar> {
        self.earth_bars.iter().find(|bar| bar.door.is_none() && key(&bar.place) == key(place))
    }

    /// The bar of a door: index into [`Site::entrances`].
    pub fn door_bar(&self, entrance: usize) -> Option<&EarthBar> {
        self.earth_bars.iter().find(|bar| bar.door == Some(entrance))
    }
}
