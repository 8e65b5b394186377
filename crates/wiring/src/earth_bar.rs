//! The bar for earths and screens at each place with a supply or a box, and what lands on which of its terminals.
//!
//! A door has no bar: a protector there is earthed by a conductor of its own.

use crate::item::{Item, item_place};
use crate::landing::{By, EarthBar, Wiring};
use crate::terminal::Terminal;
use latchline_site::model::{Place, RunStart, RunStop, Site};
use latchline_site::protectors::ProtectorAt;

/// Places are one where building, core and floor are.
type PlaceKey = (Option<usize>, Option<usize>, Option<usize>);

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

/// Every bar on which something is earthed, in the order of the terminals.
pub(crate) fn bars(site: &Site, wiring: &Wiring) -> Vec<EarthBar> {
    let mut bars: Vec<EarthBar> = Vec::new();
    for (terminal, landings) in &wiring.terminals {
        let is_earthed = landings.iter().any(|landing| landing.by == By::EarthConductor);
        if !is_earthed || !is_of_a_cupboard(site, terminal.item) {
            continue;
        }
        let place = item_place(site, terminal.item);
        match bars.iter_mut().find(|bar| key(&bar.place) == key(place)) {
            Some(bar) => bar.earthed.push(*terminal),
            None => bars.push(EarthBar { place: place.clone(), earthed: vec![*terminal] }),
        }
    }
    bars
}

impl Wiring {
    /// On which terminal of the bar of its place, from 1, a terminal is earthed; `None` where it is not, or there is no bar.
    pub fn bar_terminal(&self, terminal: Terminal) -> Option<usize> {
        let mut bars = self.earth_bars.iter();
        bars.find_map(|bar| bar.earthed.iter().position(|one| *one == terminal)).map(|index| index + 1)
    }

    /// What is earthed on the bar of a place, by terminal.
    pub fn earthed_at(&self, place: &Place) -> &[Terminal] {
        let bar = self.earth_bars.iter().find(|bar| key(&bar.place) == key(place));
        bar.map_or(&[], |bar| &bar.earthed)
    }
}
