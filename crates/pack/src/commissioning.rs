//! The commissioning sheets as steps: what the tables print, and what a phone asks for one by one.

pub use crate::step::{Expected, Sheet, Span, Stage, Step, Taken};

use crate::subject::Subject;
use crate::tables::{before_power_sheet, live_sheet};
use latchline_site::model::RunStart;
use latchline_wiring::Item;
use latchline_wiring::terminal::place_name;
use std::collections::BTreeMap;

/// Both sheets: before power, then with power.
pub fn sheets(subject: &Subject<'_>) -> [Sheet; 2] {
    [before_power_sheet(subject), live_sheet(subject)]
}

/// By what stands in the place of a step: the item at which one stands.
pub fn standing_places(subject: &Subject<'_>) -> BTreeMap<String, Item> {
    let site = subject.site;
    let mut places = BTreeMap::new();
    for cable in &subject.wiring.cables {
        places.insert(cable.designation.clone(), cable.from.0);
    }
    for terminal in subject.wiring.terminals.keys() {
        places.insert(place_name(site, (terminal.item, terminal.set)), terminal.item);
    }
    for run in &site.runs {
        let item = match run.from {
            RunStart::Supply(index) => Item::Supply(index),
            RunStart::Port { box_index, .. } => Item::Box(box_index),
            RunStart::Station(station) => Item::Station(station),
        };
        places.insert(run.id.to_string(), item);
    }
    for entrance in &site.entrances {
        places.insert(entrance.id.to_string(), Item::Station(entrance.station));
    }
    for item in subject.wiring.items().into_iter().chain(subject.order.iter().copied()) {
        places.insert(item.name(site), item);
    }
    places
}
