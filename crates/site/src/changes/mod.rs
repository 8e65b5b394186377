//! What is different between two versions of a site, as work on site.
//!
//! * [`Changes`]: what to buy, pull, move and set again;
//! * [`Effort`]: what a change takes, bought and by hand; [`EffortFrom`]: the same for many changes of one site;
//! * [`KEYS`]: every key of the site file, and what a difference in it is;
//! * [`dwellings_to_enter`]: where that cannot be done from the stairs.

mod at_doors;
mod effort;
mod ends;
mod keys;
mod same;
mod told;
mod values;
mod work;

pub use effort::{Effort, EffortFrom};
pub use keys::{Bearing, KEYS, bearing_of};
pub use told::{CableAtDoor, Changes, OtherCableAtDoor, OtherRun, QuantityChange, RunWork, Set, Swap};
pub use values::{KeyChange, KeyOwner, KeyValue};

use crate::addresses::{self, AddressPlan};
use crate::model::{Run, RunStart, Site, Station, StationOwner};
use latchline_finding::ElementId;
use same::SAME_M;
use std::collections::BTreeMap;

/// Dwellings, by name, that must be entered to turn one version of a site into the other: where a station comes, goes, becomes
/// another model or is set to another number, or where another cable comes to its terminals.
pub fn dwellings_to_enter(before: &Site, after: &Site) -> Vec<ElementId> {
    let anew = |run: &Run| {
        let old = before.runs.iter().find(|old| old.id == run.id);
        old.is_some_and(|old| effort::is_pulled_anew(before, old, after, run))
    };
    let (old, new) = (terminals(before, &|_| false), terminals(after, &anew));
    let mut enter: Vec<ElementId> = Vec::new();
    let all = after.dwellings.iter().chain(&before.dwellings).map(|dwelling| &dwelling.id);
    for id in all {
        if old.get(id) != new.get(id) && !enter.contains(id) {
            enter.push(id.clone());
        }
    }
    enter
}

/// What an installer finds at a station: its model, its number, and the cables at its terminals.
#[derive(Debug, PartialEq)]
struct AtStation<'a> {
    id: &'a ElementId,
    model: &'a str,
    numbers: Option<Vec<u32>>,
    cables: Vec<CableAt<'a>>,
}

/// A cable as it comes to a station. By what name the run goes is nothing that is found there.
#[derive(Debug, PartialEq)]
struct CableAt<'a> {
    cable: &'a str,
    pairs: u32,
    /// Whether it is pulled anew.
    is_new: bool,
    terminator: Option<bool>,
    before: Before<'a>,
    /// The stop behind.
    behind: Option<&'a ElementId>,
}

/// What lies before a stop.
#[derive(Debug)]
enum Before<'a> {
    /// Nothing: the run branches off here.
    Nothing,
    /// Another station.
    Station(&'a ElementId),
    /// The port or supply at which the run starts, and the length of the cable from there.
    Start(ElementId, f64),
}

impl PartialEq for Before<'_> {
    /// A cable that is hung on another port is the same cable at its other end: what is done is done at the box. It is another where it is
    /// longer or shorter as well.
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Before::Nothing, Before::Nothing) => true,
            (Before::Station(one), Before::Station(other)) => one == other,
            (Before::Start(one, length_m), Before::Start(other, other_m)) => {
                one == other || (length_m - other_m).abs() < SAME_M
            }
            _ => false,
        }
    }
}

/// What is at the stations of each dwelling.
fn terminals<'a>(site: &'a Site, anew: &dyn Fn(&Run) -> bool) -> BTreeMap<&'a ElementId, Vec<AtStation<'a>>> {
    let plan = addresses::assign(site);
    let mut cables: BTreeMap<&ElementId, Vec<CableAt<'_>>> = BTreeMap::new();
    for run in &site.runs {
        for (station, cable) in stops(site, run, anew(run)) {
            cables.entry(station).or_default().push(cable);
        }
    }
    let mut dwellings: BTreeMap<&ElementId, Vec<AtStation<'_>>> = BTreeMap::new();
    for (index, station) in site.stations.iter().enumerate() {
        if let Some(dwelling) = dwelling_of(site, station) {
            let one = at_station(station, index, &plan, cables.remove(&station.id).unwrap_or_default());
            dwellings.entry(dwelling).or_default().push(one);
        }
    }
    dwellings
}

fn dwelling_of<'a>(site: &'a Site, station: &Station) -> Option<&'a ElementId> {
    match station.owner {
        StationOwner::Dwelling { dwelling, .. } => Some(&site.dwellings[dwelling].id),
        StationOwner::Entrance(_) | StationOwner::Management(_) => None,
    }
}

fn at_station<'a>(
    station: &'a Station,
    index: usize,
    plan: &AddressPlan,
    cables: Vec<CableAt<'a>>,
) -> AtStation<'a> {
    let numbers = plan.numbers(index).map(<[u32]>::to_vec);
    AtStation { id: &station.id, model: &station.model.value, numbers, cables }
}

/// The stops of a run with the cable as it comes to each, and its start where that is a station.
fn stops<'a>(site: &'a Site, run: &'a Run, is_new: bool) -> Vec<(&'a ElementId, CableAt<'a>)> {
    let mut names: Vec<&ElementId> = run.sections.iter().map(|section| site.stop_id(section.to)).collect();
    // Where it branches off at a station it has terminals there too.
    if let RunStart::Station(station) = run.from {
        names.insert(0, &site.stations[station].id);
    }
    let first_m = run.sections.first().map_or(0.0, |section| section.length.value.as_metres());
    (0..names.len())
        .map(|at| {
            let before = match (at, run.from) {
                (0, RunStart::Station(_)) => Before::Nothing,
                (0, start) => Before::Start(site.start_id(start), first_m),
                _ => Before::Station(names[at - 1]),
            };
            let behind = names.get(at + 1).copied();
            let is_last = behind.is_none();
            let cable = CableAt {
                cable: &run.cable.value,
                pairs: run.pairs.value,
                is_new,
                terminator: run.terminator.as_ref().map(|stated| stated.value).filter(|_| is_last),
                before,
                behind,
            };
            (names[at], cable)
        })
        .collect()
}
