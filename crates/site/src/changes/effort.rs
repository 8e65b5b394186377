//! What a change of a site takes: what is bought for it, and the work of it.
//!
//! Two plans can cost the same and still be a day's work apart. So the work is counted from what is done: what is taken out, what is put in,
//! which cable is pulled, which ends are wired again. What is bought is what the plan has more, but that nothing is given back for a cable
//! that is in the wall: one that was there before, or one that somebody has measured.

use crate::bill::Bill;
use crate::catalogue::PartHead;
use crate::model::{Entrance, Run, RunStart, Site};
use latchline_finding::{ElementId, Money};
use std::collections::BTreeMap;

/// To take a part out takes so much of the time to fit it (common practice, no source).
const TAKEN_OUT: f64 = 0.5;
/// To take one end of a cable off and connect it elsewhere, or with other cores, in minutes (common practice, no source).
const END_MINUTES: f64 = 5.0;
/// Less than this of a metre is no difference.
const SAME_M: f64 = 0.005;

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
        let left_in_the_wall = before.runs.iter().filter(|run| is_measured(run) && !run.existing.value);
        let left_in_the_wall: Money = left_in_the_wall
            .filter_map(|run| {
                let kept_m = new.get(&run.id).map_or(0.0, |now| kept_m(before, run, after, now));
                let laid = f64::from(before.cables_side_by_side(run)) * (length_m(run) - kept_m).max(0.0);
                Some(before.cable(run).head.price.as_ref()?.value.times(laid))
            })
            .sum();
        let material = Bill::of(after).material_beyond(bill).map(|more| more + left_in_the_wall);
        let runs: f64 =
            after.runs.iter().map(|run| run_minutes(before, old.get(&run.id).copied(), after, run)).sum();
        Effort { material, minutes: runs + fittings(before, after) + cables_at_doors(before, after) }
    }
}

fn is_measured(run: &Run) -> bool {
    let measured = &run.measured;
    measured.loop_resistance.is_some() || measured.capacitance.is_some() || measured.insulation.is_some()
}

fn length_m(run: &Run) -> f64 {
    run.length().as_metres()
}

/// Whether the cable of a run is another one than before, piece for piece.
fn is_pulled_anew(old: &Run, new: &Run) -> bool {
    let no_longer_there = old.existing.value && !new.existing.value || is_measured(old) && !is_measured(new);
    old.cable.value != new.cable.value || no_longer_there
}

/// Metres of the first sections that are the same in both.
fn same_head_m(before: &Site, old: &Run, after: &Site, new: &Run) -> f64 {
    let sections = old.sections.iter().zip(&new.sections);
    let metres = |section: &crate::model::Section| section.length.value.as_metres();
    sections
        .take_while(|(was, is)| {
            before.stop_id(was.to) == after.stop_id(is.to) && (metres(was) - metres(is)).abs() < SAME_M
        })
        .map(|(was, _)| metres(was))
        .sum()
}

/// Metres of a cable that stay where they are.
fn kept_m(before: &Site, old: &Run, after: &Site, new: &Run) -> f64 {
    if old.cable.value != new.cable.value {
        return 0.0;
    }
    let head_m = same_head_m(before, old, after, new);
    // Cut short it stays, whatever was measured of the whole.
    let is_cut_short = head_m > 0.0 && (length_m(new) - head_m).abs() < SAME_M;
    match is_cut_short || !is_pulled_anew(old, new) {
        true => head_m.max(if is_pulled_anew(old, new) { 0.0 } else { length_m(old).min(length_m(new)) }),
        false => 0.0,
    }
}

/// Work on a run: cable pulled, ends wired again.
fn run_minutes(before: &Site, old: Option<&Run>, after: &Site, new: &Run) -> f64 {
    let per_metre = after.cable(new).head.labour_minutes.as_ref().map_or(0.0, |minutes| minutes.value);
    let side_by_side = f64::from(after.cables_side_by_side(new));
    let all = length_m(new) * per_metre * side_by_side;
    let Some(old) = old else { return if new.existing.value { 0.0 } else { all } };
    let kept_m = kept_m(before, old, after, new);
    // A cable that is too short anywhere is pulled anew.
    let more_m = (length_m(new) - kept_m).max(0.0);
    let is_longer = more_m > SAME_M && same_head_m(before, old, after, new) + SAME_M < length_m(old);
    let pulled = match (is_longer, more_m > SAME_M) {
        (true, _) => all,
        (false, true) => more_m * per_metre * side_by_side,
        (false, false) => 0.0,
    };
    if is_longer || pulled >= all {
        return pulled;
    }
    let more_cables = side_by_side - f64::from(before.cables_side_by_side(old));
    let beside = more_cables.max(0.0) * length_m(new) * per_metre;
    let start = |site: &Site, start: RunStart| site.start_id(start);
    let moved = usize::from(start(before, old.from) != start(after, new.from));
    let stops = |site: &Site, run: &Run| -> Vec<ElementId> {
        run.sections.iter().map(|section| site.stop_id(section.to).clone()).collect()
    };
    let (was, is) = (stops(before, old), stops(after, new));
    let same = was.iter().zip(&is).take_while(|(was, is)| was == is).count();
    // Where it goes another way, each stop that it comes to or leaves has a cable on or off.
    let otherwise = was.len().max(is.len()) - same;
    let cores = if old.pairs.value == new.pairs.value { 0 } else { 2 * is.len() };
    let terminated = |run: &Run| run.terminator.as_ref().is_some_and(|stated| stated.value);
    let terminator = usize::from(terminated(old) != terminated(new));
    pulled + beside + (moved + otherwise + cores + terminator) as f64 * END_MINUTES
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

/// Cables at doors that are pulled.
fn cables_at_doors(before: &Site, after: &Site) -> f64 {
    let (mut old, new) = (super::work::cables_at_doors(before), super::work::cables_at_doors(after));
    let pulled = new.iter().filter(|(at, now)| {
        let was = old.remove(*at);
        !was.is_some_and(|was| was.cable == now.cable && was.length_m + SAME_M > now.length_m)
    });
    pulled
        .filter_map(|(_, now)| {
            let cable = after.catalogue.cables.get(&now.cable)?;
            let side_by_side = f64::from(now.pairs.div_ceil(cable.pairs.value.max(1)));
            Some(now.length_m * side_by_side * cable.head.labour_minutes.as_ref()?.value)
        })
        .sum()
}
