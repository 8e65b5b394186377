//! What a change of a site takes: what is bought for it, and the work of it.
//!
//! Two plans can cost the same and still be a day's work apart. So the work is counted from what is done: what is taken out, what is put in,
//! which cable is pulled, which ends are wired again. What is bought is what the plan has more, but that nothing is given back for a cable
//! that is in the wall: one that was there before, or one that somebody has measured.

use super::at_doors;
use super::ends::Ends;
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
    /// What of it has a price.
    pub priced: Money,
    /// Whether anything is bought for it, be it for the price of what goes.
    pub buys: bool,
    /// Work in minutes, as far as the catalogue states any.
    pub minutes: f64,
}

impl Effort {
    /// What it takes to turn one version of a site, of this bill, into the other.
    pub fn of(before: &Site, bill: &Bill, after: &Site) -> Effort {
        EffortFrom::new(before, bill.clone()).to(after)
    }
}

/// One version of a site, with what is the same whatever it is turned into.
#[derive(Debug)]
pub struct EffortFrom<'a> {
    before: &'a Site,
    bill: Bill,
    runs: BTreeMap<&'a ElementId, &'a Run>,
    pieces: Pieces<'a>,
    ends: Ends<'a>,
    parts: BTreeMap<&'a ElementId, Vec<&'a PartHead>>,
    at_doors: BTreeMap<(ElementId, DoorCable), CableAtDoor>,
}

impl<'a> EffortFrom<'a> {
    /// A version with its bill.
    pub fn new(before: &'a Site, bill: Bill) -> Self {
        EffortFrom {
            before,
            bill,
            runs: by_name(before),
            pieces: Pieces::of(before),
            ends: Ends::of(before),
            parts: parts(before),
            at_doors: at_doors::cables_at_doors(before),
        }
    }

    /// What it takes to turn it into another.
    pub fn to(&self, after: &Site) -> Effort {
        let before = self.before;
        let minutes =
            |run: &Run| run_minutes(before, &self.pieces, self.runs.get(&run.id).copied(), after, run);
        let runs: f64 = after.runs.iter().map(minutes).sum();
        let ends = self.ends.wired_again(&Ends::of(after)) as f64 * END_MINUTES;
        let (material, priced, buys) = self.material(after);
        Effort {
            material,
            priced,
            buys,
            minutes: runs + ends + self.fittings(after) + self.cables_at_doors(after),
        }
    }

    /// What is bought, `None` where something of it has no price; what of it has one; and whether anything is.
    fn material(&self, after: &Site) -> (Option<Money>, Money, bool) {
        let before = self.before;
        let in_the_wall = || before.runs.iter().filter(|run| is_measured(run) && !run.existing.value);
        let left_in_the_wall = if in_the_wall().next().is_none() {
            Money::ZERO
        } else {
            let (new, is) = (by_name(after), Pieces::of(after));
            let left = in_the_wall().filter_map(|run| {
                let is_anew = new.get(&run.id).is_some_and(|now| is_pulled_anew(before, run, after, now));
                let left_m = if is_anew { length_m(run) } else { is.lacking_m(before, run) };
                let laid = f64::from(before.cables_side_by_side(run)) * left_m;
                Some(before.cable(run).head.price.as_ref()?.value.times(laid))
            });
            left.sum()
        };
        let bill = Bill::of(after);
        let priced = bill.material() - self.bill.material() + left_in_the_wall;
        let material = bill.material_beyond(&self.bill).map(|more| more + left_in_the_wall);
        (material, priced, bill.has_more_than(&self.bill))
    }
}

fn by_name(site: &Site) -> BTreeMap<&ElementId, &Run> {
    site.runs.iter().map(|run| (&run.id, run)).collect()
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

impl EffortFrom<'_> {
    /// Parts taken out and put in. What is there before and after is not touched.
    fn fittings(&self, after: &Site) -> f64 {
        let new = parts(after);
        let (mut out, mut into): (Vec<&PartHead>, Vec<&PartHead>) = (Vec::new(), Vec::new());
        for (at, was) in &self.parts {
            out.extend(not_among(was, new.get(at).map_or(&[], Vec::as_slice)));
        }
        for (at, is) in &new {
            into.extend(not_among(is, self.parts.get(at).map_or(&[], Vec::as_slice)));
        }
        let minutes = |parts: &[&PartHead]| -> f64 {
            parts.iter().filter_map(|part| Some(part.labour_minutes.as_ref()?.value)).sum()
        };
        TAKEN_OUT * minutes(&out) + minutes(&into)
    }

    /// Cables at doors that are pulled, and cores of those that are there connected beside.
    fn cables_at_doors(&self, after: &Site) -> f64 {
        let new = at_doors::cables_at_doors(after);
        let minutes = |(at, now): (&(ElementId, DoorCable), &CableAtDoor)| {
            let was = self.at_doors.get(at).filter(|was| was.is_of_use_for(now));
            let cables = now.cables_beyond(was, after);
            let labour = after.catalogue.cables.get(&now.cable)?.head.labour_minutes.as_ref();
            let pulled = now.length_m * f64::from(cables) * labour.map_or(0.0, |minutes| minutes.value);
            let cores = was.is_some_and(|was| was.pairs != now.pairs);
            Some(pulled + if cores { 2.0 * END_MINUTES } else { 0.0 })
        };
        new.iter().filter_map(minutes).sum()
    }
}

/// The parts of one list of which the other has none left, each of the other standing for one of the same name.
fn not_among<'p>(parts: &[&'p PartHead], others: &[&PartHead]) -> Vec<&'p PartHead> {
    let mut left: Vec<&str> = others.iter().map(|part| part.name.as_str()).collect();
    let mut rest = parts.to_vec();
    rest.retain(|part| match left.iter().position(|name| *name == part.name.as_str()) {
        Some(same) => {
            left.remove(same);
            false
        }
        None => true,
    });
    rest
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
