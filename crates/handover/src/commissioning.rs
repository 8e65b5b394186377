//! The commissioning sheets as steps: what the tables print, and what a phone asks for one by one.

pub use crate::step::{Expected, Sheet, Span, Stage, Step, Taken};

use crate::subject::Subject;
use crate::tables::{before_power_sheet, live_sheet};
use latchline_finding::Language;
use latchline_site::model::RunStart;
use latchline_wiring::Item;
use latchline_wiring::terminal::place_name;
use std::collections::BTreeMap;

/// Both sheets: before power, then with power.
pub fn sheets(subject: &Subject<'_>) -> [Sheet; 2] {
    [before_power_sheet(subject), live_sheet(subject)]
}

/// Where one stands at a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Standing {
    /// The item at which one stands.
    pub item: Item,
    /// The place in words that are the same in every language: what was noted under it is found again from a pack in another.
    pub key: String,
}

/// By what stands in the place of a step: where one stands.
pub fn standing_places(subject: &Subject<'_>) -> BTreeMap<String, Standing> {
    let site = subject.site;
    let mut places = BTreeMap::new();
    let mut add = |key: String, item: Item| places.insert(key.clone(), Standing { item, key });
    for cable in &subject.wiring.cables {
        add(cable.designation.clone(), cable.from.0);
    }
    let mut terminals = BTreeMap::new();
    for terminal in subject.wiring.terminals.keys() {
        let place = (terminal.item, terminal.set);
        let key = place_name(site, place, Language::English);
        terminals.insert(subject.place_name(place), Standing { item: terminal.item, key });
    }
    for run in &site.runs {
        let item = match run.from {
            RunStart::Supply(index) => Item::Supply(index),
            RunStart::Port { box_index, .. } => Item::Box(box_index),
            RunStart::Station(station) => Item::Station(station),
        };
        add(run.id.to_string(), item);
    }
    for entrance in &site.entrances {
        add(entrance.id.to_string(), Item::Station(entrance.station));
    }
    for item in subject.wiring.items().into_iter().chain(subject.order.iter().copied()) {
        add(item.name(site), item);
    }
    // A designation of the site file goes before the name of terminals.
    terminals.append(&mut places);
    terminals
}
