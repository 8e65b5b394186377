//! Runs that start somewhere else: at a free port further up, at another output of the supply, at a box beside; chains in several runs.

use super::places::{boxes_at, free_ports};
use super::run_text::{keep_head, new_run, write_lengths};
use crate::bench::Bench;
use crate::candidate::{Candidate, quoted};
use latchline_finding::Edit;
use latchline_site::model::{Place, Run, RunStart, RunStop, Site, StationOwner};
use latchline_site::ways::Ways;
use std::collections::BTreeSet;

/// Most runs of a finding that are moved, one at a time.
const MOST_MOVED: usize = 4;

/// A free place from which a run may start, as the user writes it.
pub(super) struct FreeStart {
    /// "D1.3", or the name of a supply.
    pub text: String,
    /// The kind of remedy that starts a run there.
    pub kind: &'static str,
}

/// Free places of the box or supply at which a run starts: ports without a run; of a supply as many as its outputs take beyond the runs
/// that are there.
pub(super) fn free_starts(site: &Site, start: RunStart) -> Vec<FreeStart> {
    match start {
        RunStart::Port { box_index, .. } => free_ports(site, box_index)
            .into_iter()
            .map(|text| FreeStart { text, kind: "another-port" })
            .collect(),
        RunStart::Supply(supply) => {
            let there = site.runs.iter().filter(|run| run.from == start).count();
            let most = site.supply_model(&site.supplies[supply]).most_runs().unwrap_or(0);
            let text = site.supplies[supply].id.to_string();
            let free = |_| FreeStart { text: text.clone(), kind: "another-output" };
            (there..most).map(free).collect()
        }
        RunStart::Station(_) => Vec::new(),
    }
}

/// A run taken back along its way to a free place further up: at each run of its way the first free one where that run starts. The cable
/// is as much longer as the way back.
fn further_up(bench: &Bench<'_>, ways: &Ways<'_>, run: usize) -> Vec<Candidate> {
    let site = bench.site;
    let (mut at, mut way_m) = (site.runs[run].from, 0.0);
    let mut list = Vec::new();
    for before in ways.to_run(run).iter().rev().skip(1) {
        let before = &site.runs[*before];
        let to_here = before.sections.iter().position(|section| Some(section.to) == at.reached_at());
        way_m += to_here.map_or(0.0, |last| before.section_lengths_m()[..=last].iter().sum());
        at = before.from;
        if let Some(free) = free_starts(site, at).first() {
            let id = site.runs[run].id.as_str();
            let mut lengths = site.runs[run].section_lengths_m();
            lengths[0] += way_m;
            let edit =
                Edit::set(&["runs", id, "from"], quoted(&free.text)).then(write_lengths(bench, id, &lengths));
            list.push(Candidate::new(free.kind, edit));
        }
    }
    list
}

/// Runs on the way to a device, each taken further up; the last of them first, since it needs least cable.
pub(super) fn way_of_device(bench: &Bench<'_>, device: &str) -> Vec<Candidate> {
    let site = bench.site;
    let stops = |run: &Run| run.sections.iter().any(|section| site.stop_id(section.to).as_str() == device);
    let Some(run) = site.runs.iter().position(stops) else { return Vec::new() };
    let ways = Ways::new(site);
    let way = ways.to_run(run).iter().rev().take(MOST_MOVED);
    way.flat_map(|run| further_up(bench, &ways, *run)).collect()
}

/// The runs of a port, or a run, and those that begin beyond, those with most beyond them first, each taken further up.
pub(super) fn runs_beyond(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let ways = Ways::new(site);
    let is_it = |run: &Run| run.id.as_str() == element || site.start_id(run.from).as_str() == element;
    let is_beyond = |run: usize| ways.to_run(run).iter().any(|run| is_it(&site.runs[*run]));
    let stops_beyond = |run: usize| -> usize {
        let on = |other: &usize| ways.to_run(*other).contains(&run);
        (0..site.runs.len()).filter(on).map(|other| site.runs[other].sections.len()).sum()
    };
    let mut beyond: Vec<(usize, usize)> =
        (0..site.runs.len()).filter(|run| is_beyond(*run)).map(|run| (stops_beyond(run), run)).collect();
    beyond.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(&b.1)));
    beyond.into_iter().take(MOST_MOVED).flat_map(|(_, run)| further_up(bench, &ways, run)).collect()
}

/// Runs that start at a supply or box, each to a free port of a box at the same place that is fed from elsewhere: the cable stays.
pub(super) fn to_a_box_beside(bench: &Bench<'_>, source: &str) -> Vec<Candidate> {
    let site = bench.site;
    let starts_there = |run: &&Run| match run.from {
        RunStart::Supply(supply) => site.supplies[supply].id.as_str() == source,
        RunStart::Port { box_index, .. } => site.boxes[box_index].id.as_str() == source,
        RunStart::Station(_) => false,
    };
    let place = |run: &Run| match run.from {
        RunStart::Supply(supply) => Some(&site.supplies[supply].place),
        RunStart::Port { box_index, .. } => Some(&site.boxes[box_index].place),
        RunStart::Station(_) => None,
    };
    // What feeds the box beside must stay where it is.
    let feeds = |run: &Run, box_index: usize| {
        run.sections.iter().any(|section| section.to == RunStop::BoxInput(box_index))
    };
    let mut list = Vec::new();
    for run in site.runs.iter().filter(starts_there) {
        let Some(place) = place(run) else { continue };
        let beside = boxes_at(site, place)
            .filter(|index| site.boxes[*index].id.as_str() != source && !feeds(run, *index));
        let ports = beside.filter_map(|index| free_ports(site, index).into_iter().next());
        list.extend(ports.map(|port| {
            let edit = Edit::set(&["runs", run.id.as_str(), "from"], quoted(&port));
            Candidate::new("another-port", edit)
        }));
        if list.len() >= MOST_MOVED {
            break;
        }
    }
    list
}

/// The run of a port exchanged with a run of another box at the same place: two ends that were taken for each other.
pub(super) fn exchanged(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let box_of = |run: &Run| match run.from {
        RunStart::Port { box_index, .. } => Some(box_index),
        RunStart::Supply(_) | RunStart::Station(_) => None,
    };
    let is_it = |run: &&Run| run.id.as_str() == element || site.start_id(run.from).as_str() == element;
    let Some(run) = site.runs.iter().find(is_it) else { return Vec::new() };
    let Some(own) = box_of(run) else { return Vec::new() };
    let is_beside = |other: &&Run| {
        box_of(other).is_some_and(|other| {
            other != own
                && site.boxes[other].place == site.boxes[own].place
                && site.boxes[own].place.building.is_some()
        })
    };
    let others = site.runs.iter().filter(is_beside).take(MOST_MOVED);
    others.map(|other| starts_exchanged(site, run, other)).collect()
}

/// Two runs, each where the other one starts.
fn starts_exchanged(site: &Site, one: &Run, other: &Run) -> Candidate {
    let from = |run: &Run, start: RunStart| {
        Edit::set(&["runs", run.id.as_str(), "from"], quoted(site.start_id(start).as_str()))
    };
    Candidate::new("ports-exchanged", from(one, other.from).then(from(other, one.from)))
}

/// A run to dwellings whom a door calls and that hang on another bus, exchanged with a run of its own bus whose dwellings it does not
/// call: two risers that were taken for each other.
pub(super) fn onto_the_bus_of_its_door(bench: &Bench<'_>, element: &str) -> Vec<Candidate> {
    let site = bench.site;
    let Some(door) = site.entrances.iter().find(|door| door.id.as_str() == element) else {
        return Vec::new();
    };
    let ways = Ways::new(site);
    let run_of = |station: usize| ways.to(RunStop::Station(station));
    let bus_of = |run: usize| ways.to_run(run).first().map(|first| site.runs[*first].from);
    let Some(own) = run_of(door.station).and_then(bus_of) else { return Vec::new() };
    let called: BTreeSet<usize> = (door.calls.dwellings.iter())
        .flat_map(|dwelling| &site.dwellings[*dwelling].stations)
        .filter_map(|station| run_of(*station))
        .collect();
    let elsewhere = called.iter().filter(|run| bus_of(**run) != Some(own));
    let leads_to_dwellings = |run: &Run| {
        let is_of_a_dwelling = |stop: RunStop| match stop {
            RunStop::Station(station) => {
                matches!(site.stations[station].owner, StationOwner::Dwelling { .. })
            }
            _ => false,
        };
        run.sections.iter().all(|section| is_of_a_dwelling(section.to))
    };
    let not_called: Vec<usize> = (0..site.runs.len())
        .filter(|run| {
            bus_of(*run) == Some(own) && !called.contains(run) && leads_to_dwellings(&site.runs[*run])
        })
        .collect();
    let pairs = elsewhere.flat_map(|run| not_called.iter().map(move |other| (*run, *other)));
    let exchanged = |(run, other): (usize, usize)| starts_exchanged(site, &site.runs[run], &site.runs[other]);
    pairs.take(MOST_MOVED).map(exchanged).collect()
}

/// A chain over several landings as a run for each of them, on free places where it starts.
pub(super) fn run_for_each_landing(bench: &Bench<'_>, run: usize) -> Option<Candidate> {
    let site = bench.site;
    let run = &site.runs[run];
    let landings = landings(site, run)?;
    let free = free_starts(site, run.from);
    if landings.len() < 2 || free.len() < landings.len() - 1 {
        return None;
    }
    let lengths = run.section_lengths_m();
    let mut taken: Vec<String> = site.runs.iter().map(|run| run.id.to_string()).collect();
    let mut edit = keep_head(bench, run, landings[1]);
    for (number, (begin, start)) in landings[1..].iter().zip(&free).enumerate() {
        let end = landings.get(number + 2).copied().unwrap_or(run.sections.len());
        let name = (2..).map(|number| format!("{}-{number}", run.id)).find(|name| !taken.contains(name))?;
        let first_m: f64 = lengths[..=*begin].iter().sum();
        edit = edit.then(Edit::set(&["runs", &name], new_run(bench, run, *begin..end, &start.text, first_m)));
        taken.push(name);
    }
    Some(Candidate::new("run-for-each-landing", edit))
}

/// Where each landing begins among the stops of a chain, the first one included; `None` where it leads to something without a floor.
fn landings(site: &Site, run: &Run) -> Option<Vec<usize>> {
    let mut begins = Vec::new();
    let mut last: Option<&Place> = None;
    for (index, section) in run.sections.iter().enumerate() {
        let RunStop::Station(station) = section.to else { return None };
        let place = site.station_place(&site.stations[station]);
        place.floor.and(place.building)?;
        if last.is_none_or(|last| {
            (last.building, last.core, last.floor) != (place.building, place.core, place.floor)
        }) {
            begins.push(index);
        }
        last = Some(place);
    }
    Some(begins)
}
