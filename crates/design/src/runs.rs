//! Every run of the declared space: from which distributor, which items in which order, which cable.
//!
//! A run serves items that follow one another in the walking order, forwards or backwards, with one
//! cable throughout: the cheapest that bears it, or the cables in the walls where they lead the same way.
//! One further item on a run lengthens it and adds load, so a run that fails is the end of its kind.

use crate::electric::{Head, Link, Sweep};
use crate::instance::{Distributor, Instance, Owner};
use crate::money::{Micro, NONE};
use latchline_site::catalogue::Environment;
use rayon::prelude::*;
use std::collections::BTreeSet;

/// The order of the items of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Arrangement {
    /// As they are walked.
    Forward,
    /// The other way.
    Backward,
    /// Any other way, for a few items: the position in the walk of each.
    Other([u8; MOST_ARRANGED]),
}

/// Items of a run that are tried in every order.
pub const MOST_ARRANGED: usize = 4;
/// Items of a site up to which runs are tried in every order.
pub const SMALL_SITE: usize = 24;

impl Arrangement {
    /// Items in the order of the walk, put in the order of the run.
    pub fn apply(self, walked: &[usize]) -> Vec<usize> {
        match self {
            Arrangement::Forward => walked.to_vec(),
            Arrangement::Backward => walked.iter().rev().copied().collect(),
            Arrangement::Other(positions) => positions
                .iter()
                .take(walked.len())
                .filter_map(|position| walked.get(usize::from(*position)).copied())
                .collect(),
        }
    }
}

/// All arrangements of so many items, at most [`MOST_ARRANGED`].
fn arrangements(count: usize) -> Vec<Arrangement> {
    let mut found: Vec<Vec<u8>> = vec![Vec::new()];
    for _ in 0..count {
        let longer = |begun: &Vec<u8>| {
            let begun = begun.clone();
            (0..count as u8).filter(move |next| !begun.contains(next)).collect::<Vec<_>>()
        };
        found = found
            .iter()
            .flat_map(|begun| {
                longer(begun).into_iter().map(|next| {
                    let mut all = begun.clone();
                    all.push(next);
                    all
                })
            })
            .collect();
    }
    found
        .into_iter()
        .map(|positions| {
            let mut all = [0; MOST_ARRANGED];
            all.iter_mut().zip(&positions).for_each(|(to, from)| *to = *from);
            Arrangement::Other(all)
        })
        .collect()
}

/// How one run is made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunChoice {
    /// Cost of its cable.
    pub cost: Micro,
    /// Cable: index into the instance's wires. Not used where `in_walls`.
    pub wire: usize,
    /// How its items come, against the walking order.
    pub arrangement: Arrangement,
    /// Whether the cables in the walls are used.
    pub in_walls: bool,
}

/// One way to make one run, by which plans are told apart that must not have it again.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct RunKey {
    /// Place of its distributor.
    pub place: usize,
    /// Kind of its distributor.
    pub model: usize,
    /// Its items in their order.
    pub items: Vec<usize>,
    /// Its cable; `None`: the cables in the walls.
    pub wire: Option<usize>,
}

/// Runs from one kind of distributor at one place.
#[derive(Debug, Clone, Default)]
pub struct RunTable {
    /// By first item: the best run of 1, 2, ... items.
    pub from: Vec<Vec<RunChoice>>,
}

/// Sections of a run as lengths in tenths of a metre, one per station, with what they pass.
#[derive(Debug, Clone, PartialEq)]
pub struct Sections {
    /// Lengths.
    pub lengths_dm: Vec<u32>,
    /// The worst environment on the way.
    pub environment: Environment,
    /// Whether mains cables share some of it.
    pub beside_mains: bool,
}

/// The best head that any design can offer to a run of this distributor.
pub fn best_head(instance: &Instance<'_>, distributor: &Distributor, drop_v: f64) -> Head {
    match distributor.regenerated {
        Some(output) => Head {
            voltage_v: output.voltage_v,
            resistance_ohm: output.ohm + distributor.port_ohm,
            limit_a: distributor.limit_a,
        },
        None => {
            let most_v = |value: f64, next: f64| value.max(next);
            let voltage_v = instance.supplies.iter().map(|supply| supply.voltage_v).fold(0.0, most_v);
            let ohm = instance.supplies.iter().map(|supply| supply.ohm).fold(f64::INFINITY, f64::min);
            Head {
                voltage_v: voltage_v - drop_v,
                resistance_ohm: ohm + distributor.port_ohm,
                limit_a: distributor.limit_a,
            }
        }
    }
}

/// Sections of a run over items in the given order from a place; `None` where no way leads.
pub fn sections(instance: &Instance<'_>, place: usize, items: &[usize]) -> Option<Sections> {
    let mut lengths_dm = Vec::new();
    let mut environment = Environment::Indoors;
    let mut beside_mains = false;
    let mut at = place;
    let mut drop_before = 0;
    for &index in items {
        let item = &instance.items[index];
        let way = instance.way(at, item.place)?;
        environment = environment.max(way.environment).max(item.environment);
        beside_mains |= way.beside_mains;
        lengths_dm.push(instance.section_dm(way.length_mm, drop_before + item.drop_mm));
        lengths_dm.extend(std::iter::repeat_n(item.extension_dm, item.models.len() - 1));
        at = item.place;
        drop_before = item.drop_mm;
    }
    Some(Sections { lengths_dm, environment, beside_mains })
}

/// Whether the sections keep the limits of lengths and counts.
fn keeps_limits(instance: &Instance<'_>, items: &[usize], sections: &Sections) -> bool {
    let limits = &instance.limits;
    let total: u64 = sections.lengths_dm.iter().map(|length| u64::from(*length)).sum();
    let stations: usize = sections.lengths_dm.len();
    let dwellings =
        items.iter().filter(|item| matches!(instance.items[**item].owner, Owner::Dwelling(_))).count();
    let indoors = dwellings > 0;
    total <= limits.longest_dm.min(limits.total_dm)
        && dwellings <= limits.dwellings
        && (stations <= limits.stations || !indoors)
}

/// A run that can be made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Made {
    /// The first cable that bears it, or that may not run here but where a longer run may pass: no longer run bears an
    /// earlier one. The number of cables where only those in the walls do.
    pub first_wire: usize,
    /// The cheapest way that is not barred; `None` if every one is.
    pub choice: Option<RunChoice>,
}

/// The cheapest run over these items in this order; `None` if no cable bears it. `barred` is asked
/// for every cable (`None`: those in the walls).
pub fn cheapest(
    instance: &Instance<'_>,
    place: usize,
    head: &Head,
    items: &[usize],
    first_wire: usize,
    sweep: &mut Sweep,
    barred: &dyn Fn(Option<usize>) -> bool,
) -> Option<Made> {
    let sections = sections(instance, place, items)?;
    if !keeps_limits(instance, items, &sections) {
        return None;
    }
    let mut chain = Vec::with_capacity(sections.lengths_dm.len());
    for &index in items {
        let main = chain.len();
        for load in &instance.items[index].loads {
            chain.push(Link { ohm: 0.0, load, main });
        }
    }
    let calls = instance.calls_among(items);
    let all_call = instance.family.all_call.value && !instance.survey.desks.is_empty();
    if let Some(ohms) = ohms_in_walls(instance, place, items, sections.environment) {
        for (link, ohm) in chain.iter_mut().zip(ohms) {
            link.ohm = ohm;
        }
        if !barred(None) && sweep.bears(head, &chain, calls, all_call) {
            let choice = RunChoice { cost: 0, wire: 0, arrangement: Arrangement::Forward, in_walls: true };
            return Some(Made { first_wire, choice: Some(choice) });
        }
    }
    let total: Micro = sections.lengths_dm.iter().map(|length| Micro::from(*length)).sum();
    let mut first = None;
    for wire in first_wire..instance.wires.len() {
        if !instance.wires[wire].environments.contains(&sections.environment) {
            if instance.suits_elsewhere(wire, sections.environment) {
                first.get_or_insert(wire);
            }
            continue;
        }
        for (link, length) in chain.iter_mut().zip(&sections.lengths_dm) {
            link.ohm = instance.section_ohm(wire, *length);
        }
        if sweep.bears(head, &chain, calls, all_call) {
            let first_wire = *first.get_or_insert(wire);
            if barred(Some(wire)) {
                continue;
            }
            let cost = total * instance.wires[wire].per_dm;
            let choice = RunChoice { cost, wire, arrangement: Arrangement::Forward, in_walls: false };
            return Some(Made { first_wire, choice: Some(choice) });
        }
    }
    first.map(|first_wire| Made { first_wire, choice: None })
}

/// Resistances of the sections where cables in the walls lead all the way, of one kind.
fn ohms_in_walls(
    instance: &Instance<'_>,
    place: usize,
    items: &[usize],
    environment: Environment,
) -> Option<Vec<f64>> {
    if instance.in_walls.is_empty() {
        return None;
    }
    let mut before = instance.survey.places[place].name.value.clone();
    let mut cable: Option<&str> = None;
    let mut ohms = Vec::new();
    for &index in items {
        let item = &instance.items[index];
        // A further station in the dwelling needs new cable.
        if item.models.len() > 1 {
            return None;
        }
        let wall = instance.in_walls.get(&(before, item.name.clone()))?;
        if cable.is_some_and(|cable| cable != wall.cable) {
            return None;
        }
        if !instance.catalogue.cables[&wall.cable].environments.value.contains(&environment) {
            return None;
        }
        cable = Some(&wall.cable);
        ohms.push(wall.ohm);
        before = item.name.clone();
    }
    Some(ohms)
}

/// Runs that must not be made.
pub type Barred = BTreeSet<RunKey>;

/// Stands in a table where every way to make a run is barred.
const NO_RUN: RunChoice =
    RunChoice { cost: NONE, wire: 0, arrangement: Arrangement::Forward, in_walls: false };

/// Runs of one distributor at one place from one item on.
fn row(
    instance: &Instance<'_>,
    order: &[usize],
    (model, place): (usize, usize),
    head: &Head,
    first: usize,
    barred: &Barred,
) -> Vec<RunChoice> {
    let mut sweep = Sweep::default();
    let mut runs: Vec<RunChoice> = Vec::new();
    let (mut forward, mut backward) = (Some(0), Some(0));
    // Where cables are in the walls, a run that fails with new cable may do again with one more item.
    let in_walls = (!instance.in_walls.is_empty()).then_some(instance.wires.len());
    let mut items: Vec<usize> = Vec::new();
    let mut make = |items: &[usize], first_wire: usize| {
        let is_barred = |wire: Option<usize>| {
            !barred.is_empty() && barred.contains(&RunKey { place, model, items: items.to_vec(), wire })
        };
        cheapest(instance, place, head, items, first_wire, &mut sweep, &is_barred)
    };
    for (count, &item) in order[first..].iter().enumerate() {
        if count > 0 && (instance.items[item].solo || instance.items[items[0]].solo) {
            break;
        }
        items.push(item);
        let mut best: Option<RunChoice> = None;
        let mut better = |made: Option<Made>, arrangement: Arrangement| {
            if let Some(choice) = made.and_then(|made| made.choice)
                && best.is_none_or(|best| choice.cost < best.cost)
            {
                best = Some(RunChoice { arrangement, ..choice });
            }
        };
        let ahead = forward.and_then(|wire| make(&items, wire));
        forward = ahead.map(|made| made.first_wire).or(in_walls);
        better(ahead, Arrangement::Forward);
        let mut borne = ahead.is_some();
        if count > 0
            && let Some(wire) = backward
        {
            let reversed: Vec<usize> = items.iter().rev().copied().collect();
            let back = make(&reversed, wire);
            backward = back.map(|made| made.first_wire).or(in_walls);
            borne |= back.is_some();
            better(back, Arrangement::Backward);
        }
        if (2..=MOST_ARRANGED).contains(&items.len()) && order.len() <= SMALL_SITE {
            for arrangement in arrangements(items.len()) {
                let made = make(&arrangement.apply(&items), 0);
                borne |= made.is_some();
                better(made, arrangement);
            }
        }
        if !borne && (in_walls.is_none() || items.len() > instance.limits.dwellings) {
            break;
        }
        runs.push(best.unwrap_or(NO_RUN));
    }
    runs
}

/// A run starts at one of so many box places, the nearest to its first item in the walking order.
pub const NEAR_BOXES: usize = 8;

/// The box places that a run with this first item may start at.
fn near_boxes(instance: &Instance<'_>, item: usize) -> BTreeSet<usize> {
    let at = instance.items[item].place;
    let length_mm = |place: usize| instance.way(place, at).map_or(u64::MAX, |way| way.length_mm);
    let mut places = instance.box_places.clone();
    places.sort_by_key(|place| (length_mm(*place), *place));
    places.into_iter().take(NEAR_BOXES).collect()
}

/// Tables of every distributor at every place, in that order.
pub fn tables(instance: &Instance<'_>, order: &[usize], drop_v: f64, barred: &Barred) -> Vec<Vec<RunTable>> {
    let near: Vec<BTreeSet<usize>> = order.iter().map(|item| near_boxes(instance, *item)).collect();
    let of_model = |(model, distributor): (usize, &Distributor)| {
        let head = best_head(instance, distributor, drop_v);
        let at = |place: &usize| {
            let row = |first: usize| {
                let is_near = near[first].contains(place);
                if is_near { row(instance, order, (model, *place), &head, first, barred) } else { Vec::new() }
            };
            RunTable { from: (0..order.len()).map(row).collect() }
        };
        instance.box_places.par_iter().map(at).collect()
    };
    instance.distributors.iter().enumerate().map(of_model).collect()
}

/// The same tables without the barred runs: only their rows are made again.
pub fn without(
    instance: &Instance<'_>,
    order: &[usize],
    drop_v: f64,
    tables: &[Vec<RunTable>],
    barred: &Barred,
) -> Vec<Vec<RunTable>> {
    let mut changed = tables.to_vec();
    let mut rows = BTreeSet::new();
    for key in barred {
        let first = key.items.iter().filter_map(|item| order.iter().position(|other| other == item)).min();
        rows.extend(first.map(|first| (key.model, key.place, first)));
    }
    for (model, place, first) in rows {
        let head = best_head(instance, &instance.distributors[model], drop_v);
        let Some(at) = instance.box_places.iter().position(|other| *other == place) else { continue };
        changed[model][at].from[first] = row(instance, order, (model, place), &head, first, barred);
    }
    changed
}

/// Cost of the best run, [`NONE`] if there is none.
pub fn cost(runs: &[RunChoice], count: usize) -> Micro {
    runs.get(count - 1).map_or(NONE, |run| run.cost)
}
