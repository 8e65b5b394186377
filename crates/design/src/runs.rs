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

/// The cheapest run over these items in this order; `None` if no cable bears it.
pub fn cheapest(
    instance: &Instance<'_>,
    place: usize,
    head: &Head,
    items: &[usize],
    first_wire: usize,
    sweep: &mut Sweep,
) -> Option<RunChoice> {
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
    let all_call = instance.family.all_call.value && !instance.survey.desks.is_empty();
    if let Some(ohms) = ohms_in_walls(instance, place, items) {
        for (link, ohm) in chain.iter_mut().zip(ohms) {
            link.ohm = ohm;
        }
        if sweep.bears(head, &chain, instance.calls, all_call) {
            return Some(RunChoice { cost: 0, wire: 0, arrangement: Arrangement::Forward, in_walls: true });
        }
    }
    let total: Micro = sections.lengths_dm.iter().map(|length| Micro::from(*length)).sum();
    for wire in first_wire..instance.wires.len() {
        if !instance.wires[wire].environments.contains(&sections.environment) {
            continue;
        }
        for (link, length) in chain.iter_mut().zip(&sections.lengths_dm) {
            link.ohm = instance.section_ohm(wire, *length);
        }
        if sweep.bears(head, &chain, instance.calls, all_call) {
            let cost = total * instance.wires[wire].per_dm;
            return Some(RunChoice { cost, wire, arrangement: Arrangement::Forward, in_walls: false });
        }
    }
    None
}

/// Resistances of the sections where cables in the walls lead all the way, of one kind.
fn ohms_in_walls(instance: &Instance<'_>, place: usize, items: &[usize]) -> Option<Vec<f64>> {
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
        cable = Some(&wall.cable);
        ohms.push(wall.ohm);
        before = item.name.clone();
    }
    Some(ohms)
}

/// All runs of one distributor at one place over items in walking order.
pub fn table(
    instance: &Instance<'_>,
    order: &[usize],
    place: usize,
    distributor: &Distributor,
    drop_v: f64,
) -> RunTable {
    let head = best_head(instance, distributor, drop_v);
    let from = (0..order.len())
        .map(|first| {
            let mut sweep = Sweep::default();
            let mut runs: Vec<RunChoice> = Vec::new();
            let (mut forward, mut backward) = (Some(0), Some(0));
            let mut items: Vec<usize> = Vec::new();
            for (count, &item) in order[first..].iter().enumerate() {
                if count > 0 && (instance.items[item].solo || instance.items[items[0]].solo) {
                    break;
                }
                items.push(item);
                let ahead =
                    forward.and_then(|wire| cheapest(instance, place, &head, &items, wire, &mut sweep));
                forward = ahead.map(|run| run.wire);
                let mut back = None;
                if count > 0
                    && let Some(wire) = backward
                {
                    let reversed: Vec<usize> = items.iter().rev().copied().collect();
                    back = cheapest(instance, place, &head, &reversed, wire, &mut sweep)
                        .map(|run| RunChoice { arrangement: Arrangement::Backward, ..run });
                    backward = back.map(|run| run.wire);
                }
                let best = match (ahead, back) {
                    (Some(ahead), Some(back)) if back.cost < ahead.cost => Some(back),
                    (Some(ahead), _) => Some(ahead),
                    (None, back) => back,
                };
                let mut best = best;
                if (2..=MOST_ARRANGED).contains(&items.len()) && order.len() <= SMALL_SITE {
                    for arrangement in arrangements(items.len()) {
                        let arranged = arrangement.apply(&items);
                        let run = cheapest(instance, place, &head, &arranged, 0, &mut sweep);
                        if let Some(run) = run
                            && best.is_none_or(|best| run.cost < best.cost)
                        {
                            best = Some(RunChoice { arrangement, ..run });
                        }
                    }
                }
                let Some(best) = best else { break };
                runs.push(best);
            }
            runs
        })
        .collect();
    RunTable { from }
}

/// Tables of every distributor at every place, in that order.
pub fn tables(instance: &Instance<'_>, order: &[usize], drop_v: f64) -> Vec<Vec<RunTable>> {
    instance
        .distributors
        .iter()
        .map(|distributor| {
            instance
                .box_places
                .par_iter()
                .map(|place| table(instance, order, *place, distributor, drop_v))
                .collect()
        })
        .collect()
}

/// Cost of the best run, [`NONE`] if there is none.
pub fn cost(runs: &[RunChoice], count: usize) -> Micro {
    runs.get(count - 1).map_or(NONE, |run| run.cost)
}
