//! Which buildings hang together by wires: buildings on buses that no wire joins may have the same number.

use crate::model::{RunStart, RunStop, Site};
use std::collections::BTreeSet;

/// By building, the buses that its stations hang on, each known by its first part. What stands in no building belongs to the first one.
pub(super) fn buses_of_buildings(site: &Site) -> Vec<BTreeSet<usize>> {
    let (boxes, stations) = (site.supplies.len(), site.supplies.len() + site.boxes.len());
    let mut above: Vec<usize> = (0..stations + site.stations.len()).collect();
    let first = |above: &[usize], part: usize| {
        let mut at = part;
        while above[at] != at {
            at = above[at];
        }
        at
    };
    for run in &site.runs {
        let start = match run.from {
            RunStart::Supply(supply) => supply,
            RunStart::Port { box_index, .. } => boxes + box_index,
            RunStart::Station(station) => stations + station,
        };
        for section in &run.sections {
            let stop = match section.to {
                RunStop::Station(station) => stations + station,
                RunStop::BoxInput(index) | RunStop::BoxLink(index) => boxes + index,
            };
            let (a, b) = (first(&above, start), first(&above, stop));
            above[a.max(b)] = a.min(b);
        }
    }
    let mut buses = vec![BTreeSet::new(); site.buildings.len()];
    for (index, station) in site.stations.iter().enumerate() {
        let building = site.station_place(station).building.unwrap_or(0);
        if let Some(buses) = buses.get_mut(building) {
            buses.insert(first(&above, stations + index));
        }
    }
    buses
}
