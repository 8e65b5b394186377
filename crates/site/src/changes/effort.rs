//! What a change of a site takes: what is bought for it, and the work of it.
//!
//! Two plans can cost the same and still be a day's work apart. So the work is counted from what is done: what is taken out, what is put in,
//! which cable is pulled, which ends are wired again. What is bought is what the plan has more, but that nothing is given back for a cable
//! that is in the wall: one that was there before, or one that somebody has measured.

use super::at_doors;
use super::ends::ends_wired_again;
use super::same::SAME_M;
use super::told::CableAtDoor;
use crate::bill::Bill;
use crate::cables::DoorCable;
use crate::catalogue::PartHead;
use crate::model::{Entrance, Run, RunStart, Site};
use latchline_finding::{ElementId, Money};
use std::collections::BTreeMap;

/// To take a part out takes so much of the time to fit it (common practice, no source).
const TAKEN_OUT: f64 = 0.5;
/// To take one end of a cable off and connect it elsewhere, or with other cores, in minutes (common practice, no source).
const END_MINUTES: f64 = 5.0;

/// What a change takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effort {
    /// What is bought for it; `None` where something of it has no price.
    pub material: Option<Money>,
    /// Work in minutes, as far as the catalogue states any.
    pub minutes: f64,
}

impl Effort {
    /// What it takes to turn one version of a site, of this bill, into the other.
    pub fn of(before: &Site, bill: &Bill, after: &Site) -> Effort {
        let old: BTreeMap<&ElementId, &Run> = before.runs.iter().map(|run| (&run.id, run)).collect();
        let new: BTreeMap<&ElementId, &Run> = after.runs.iter().map(|run| (&run.id, run)).collect();
        let (was, is) = (Pieces::of(before), Pieces::of(after));
        let left_in_the_wall = before.runs.iter().filter(|run| is_measured(run) && !run.existing.value);
        let left_in_the_wall: Money = left_in_the_wall
            .filter_map(|run| {
                let is_anew = new.get(&run.id).is_some_and(|now| is_pulled_anew(before, run, after, now));
                let left_m = if is_anew { length_m(run) } else { is.lacking_m(before, run) };
                let laid = f64::from(before.cables_side_by_side(run)) * left_m;
                Some(before.cable(run).head.price.as_ref()?.value.times(laid))
            })
            .sum();
        let material = Bill::of(after).material_beyond(bill).map(|more| more + left_in_the_wall);
        let minutes = |run: &Run| run_minutes(before, &was, old.get(&run.id).copied(), after, run);
        let runs: f64 = after.runs.iter().map(minutes).sum();
        let ends = ends_wired_again(before, after) as f64 * END_MINUTES;
        Effort { material, minutes: runs + ends + fittings(before, after) + cables_at_doors(before, after) }
    }
}

fn is_measured(run: &Run) -> bool {
    let measured = &run.measured;
    measured.loop_resistance.is_some() || measured.capacitance.is_some() || measured.insulation.is_some()
}

fn length_m(run: &Run) -> f64 {
    run.length().as_metres()
}

/// Whether the cable of a run is pulled anew from end to end, though it leads where it led: another cable, or the same with nothing left of
/// what was known of the old one.
pub(super) fn is_pulled_anew(before: &Site, old: &Run, after: &Site, new: &Run) -> bool {
    let is_forgotten = old.existing.value && !new.existing.value || is_measured(old) && !is_measured(new);
    // What is there already is not pulled, whatever the plan said.
    !new.existing.value
        && (old.cable.value != new.cable.value
            || is_forgotten && Pieces::of_run(before, old) == Pieces::of_run(after, new))
}

/// Lengths of cable between two stops, in metres, by where they begin and end and what they are; the longest where there are several. From
/// which port or supply one comes does not matter: it can be hung elsewhere.
#[derive(Debug, PartialEq, Default)]
pub(super) struct Pieces<'a>(BTreeMap<(Option<&'a ElementId>, &'a ElementId, &'a str), f64>);

impl<'a> Pieces<'a> {
    pub(super) fn of(site: &'a Site) -> Self {
        let mut pieces = Pieces::default();
        site.runs.iter().for_each(|run| pieces.add(site, run));
        pieces
    }

    fn of_run(site: &'a Site, run: &'a Run) -> Self {
        let mut pieces = Pieces::default();
        pieces.add(site, run);
        pieces
    }

    fn add(&mut self, site: &'a Site, run: &'a Run) {
        for (key, piece_m) in pieces(site, run) {
            let longest_m = self.0.entry(key).or_insert(piece_m);
            *longest_m = longest_m.max(piece_m);
        }
    }

    /// Metres of a run of which there is no piece here that is as long.
    pub(super) fn lacking_m(&self, site: &Site, run: &Run) -> f64 {
        let lacks = |((begin, end, cable), piece_m): &((Option<&ElementId>, &ElementId, &str), f64)| {
            self.0.get(&(*begin, *end, *cable)).is_none_or(|there_m| there_m + SAME_M < *piece_m)
        };
        pieces(site, run).filter(lacks).map(|(_, piece_m)| piece_m).sum()
    }
}

/// The pieces of a run: where each begins, unless that is a port or supply, where it ends, its cable, and its length in metres.
fn pieces<'a>(
    site: &'a Site,
    run: &'a Run,
) -> impl Iterator<Item = ((Option<&'a ElementId>, &'a ElementId, &'a str), f64)> {
    let first = match run.from {
        RunStart::Station(station) => Some(&site.stations[station].id),
        RunStart::Supply(_) | RunStart::Port { .. } => None,
    };
    let begins =
        std::iter::once(first).chain(run.sections.iter().map(|section| Some(site.stop_id(section.to))));
    begins.zip(&run.sections).map(|(begin, section)| {
        ((begin, site.stop_id(section.to), run.cable.value.as_str()), section.length.value.as_metres())
    })
}

/// Work on a run: cable pulled, its cores and its terminator. Ends that are wired again are counted for the whole site.
fn run_minutes(before: &Site, was: &Pieces<'_>, old: Option<&Run>, after: &Site, new: &Run) -> f64 {
    let per_metre = after.cable(new).head.labour_minutes.as_ref().map_or(0.0, |minutes| minutes.value);
    let side_by_side = f64::from(after.cables_side_by_side(new));
    let lacking_m = if new.existing.value { 0.0 } else { was.lacking_m(after, new) };
    let Some(old) = old else { return lacking_m * per_metre * side_by_side };
    if is_pulled_anew(before, old, after, new) {
        return length_m(new) * per_metre * side_by_side;
    }
    let more_cables = side_by_side - f64::from(before.cables_side_by_side(old));
    let beside = if new.existing.value { 0.0 } else { more_cables.max(0.0) * length_m(new) * per_metre };
    let cores = if old.pairs.value == new.pairs.value { 0 } else { 2 * new.sections.len() };
    let terminated = |run: &Run| run.terminator.as_ref().is_some_and(|stated| stated.value);
    let terminator = usize::from(terminated(old) != terminated(new));
    lacking_m * per_metre * side_by_side + beside + (cores + terminator) as f64 * END_MINUTES
}

/// Parts taken out and put in.
fn fittings(before: &Site, after: &Site) -> f64 {
    let (mut old, mut new) = (parts(before), parts(after));
    old.retain(|at, parts| {
        let Some(now) = new.get_mut(at) else { return true };
        // What is there before and after is not touched.
        parts.retain(|part| match now.iter().position(|other| other.name == part.name) {
            Some(same) => {
                now.remove(same);
                false
            }
            None => true,
        });
        true
    });
    let minutes = |parts: &BTreeMap<&ElementId, Vec<&PartHead>>| -> f64 {
        parts.values().flatten().filter_map(|part| Some(part.labour_minutes.as_ref()?.value)).sum()
    };
    TAKEN_OUT * minutes(&old) + minutes(&new)
}

/// The parts of a site by what they belong to.
fn parts(site: &Site) -> BTreeMap<&ElementId, Vec<&PartHead>> {
    let mut parts: BTreeMap<&ElementId, Vec<&PartHead>> = BTreeMap::new();
    let mut add = |at, head| parts.entry(at).or_default().push(head);
    for supply in &site.supplies {
        add(&supply.id, &site.supply_model(supply).head);
    }
    for item in &site.boxes {
        add(&item.id, &site.box_model(item).head);
    }
    for station in &site.stations {
        add(&station.id, &site.station_model(station).head);
    }
    for entrance in &site.entrances {
        let Entrance { id, accessories, locks, lights, .. } = entrance;
        accessories.iter().for_each(|name| add(id, &site.accessory(name).head));
        locks.iter().for_each(|lock| add(id, &site.lock(lock).head));
        lights.iter().for_each(|light| add(id, &site.light(light).head));
    }
    parts
}

/// Cables at doors that are pulled, and cores of those that are there connected beside.
fn cables_at_doors(before: &Site, after: &Site) -> f64 {
    let (mut old, new) = (at_doors::cables_at_doors(before), at_doors::cables_at_doors(after));
    let minutes = |(at, now): (&(ElementId, DoorCable), &CableAtDoor)| {
        let was = old.remove(at).filter(|was| was.is_of_use_for(now));
        let cables = now.cables_beyond(was.as_ref(), after);
        let labour = after.catalogue.cables.get(&now.cable)?.head.labour_minutes.as_ref();
        let pulled = now.length_m * f64::from(cables) * labour.map_or(0.0, |minutes| minutes.value);
        let cores = was.is_some_and(|was| was.pairs != now.pairs);
        Some(pulled + if cores { 2.0 * END_MINUTES } else { 0.0 })
    };
    new.iter().filter_map(minutes).sum()
}
