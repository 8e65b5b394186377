//! Every run of the declared space: from which distributor, which items in which order, which cable.
//!
//! A run serves items that follow one another in the walking order: as a chain, forwards or backwards, or with
//! branch boxes; with one cable throughout, the cheapest that bears it, or the cables in the walls where they lead the
//! same way. One further item on a chain lengthens it and adds load, so a chain that fails is the end of its kind.

use crate::arrangement::{Arrangement, MOST_ARRANGED, MOST_MOVED, SMALL_SITE, arrangements};
use crate::branches::{Branches, Branching, branchings};
use crate::electric::{Head, Sweep};
use crate::instance::Instance;
use crate::item::Owner;
use crate::laid::{Cheapest, Laid};
use crate::money::{Amount, NONE, rest};
use crate::parts::{Distributor, InWall};
use crate::sections::{chain_in_walls, length_of, sections};
use rayon::prelude::*;
use std::collections::BTreeSet;

/// What a run looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layout {
    /// New cable looped through its items.
    Chain(Arrangement),
    /// Cables in the walls that lead through its items.
    InWalls(Arrangement),
    /// Branch boxes: the [`Branching`] of its items from its place.
    Branched,
    /// Not a run but a trunk to further distributors, which stands on a port as a run does.
    Trunk,
}

/// How one run is made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunChoice {
    /// Cost of its cable and branch boxes.
    pub cost: Amount,
    /// New cable: index into the instance's wires. `None`: all of it is in the walls.
    pub wire: Option<usize>,
    /// How its items hang on it.
    pub layout: Layout,
}

/// One way to make one run, by which plans are told apart that must not have it again.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct RunKey {
    /// Place of its distributor.
    pub place: usize,
    /// Kind of its distributor; `None`: it hangs on an output of the supply.
    pub model: Option<usize>,
    /// Its items in their order.
    pub items: Vec<usize>,
    /// Its cable; `None`: the cables in the walls.
    pub wire: Option<usize>,
    /// Its branch boxes, if it has any.
    pub branching: Option<Branching>,
}

/// Runs from one kind of distributor at one place.
#[derive(Debug, Clone, Default)]
pub struct RunTable {
    /// By first item: the best run of 1, 2, ... items.
    pub from: Vec<Vec<RunChoice>>,
}

/// The best head that any design can offer to a run of this distributor.
pub fn best_head(instance: &Instance<'_>, distributor: &Distributor, drop_v: f64) -> Head {
    match distributor.regenerated {
        Some(output) => Head {
            voltage_v: output.voltage_v,
            resistance_ohm: output.ohm + distributor.port_ohm,
            limit_a: distributor.limit_a,
            margin_v: instance.limits.margin_v,
        },
        None => {
            let output = best_output(instance);
            Head {
                voltage_v: output.voltage_v - drop_v,
                resistance_ohm: output.resistance_ohm + distributor.port_ohm,
                limit_a: distributor.limit_a,
                margin_v: instance.limits.margin_v,
            }
        }
    }
}

/// The best head that any design can offer to a run on an output of a supply.
pub fn best_output(instance: &Instance<'_>) -> Head {
    let supplies = || instance.supplies.iter();
    Head {
        voltage_v: supplies().map(|supply| supply.voltage_v).fold(0.0, f64::max),
        resistance_ohm: supplies().map(|supply| supply.ohm).fold(f64::INFINITY, f64::min),
        limit_a: f64::INFINITY,
        margin_v: instance.limits.margin_v,
    }
}

/// The cheapest chain over these items in this order; `None` if no cable bears it. `barred` is asked
/// for every cable (`None`: those in the walls).
pub fn chain(
    instance: &Instance<'_>,
    place: usize,
    head: &Head,
    items: &[usize],
    first_wire: usize,
    sweep: &mut Sweep,
    barred: &dyn Fn(Option<usize>) -> bool,
) -> Option<Cheapest> {
    if items.len() > instance.limits.chain || !instance.may_chain(items) {
        return None;
    }
    let sections = sections(instance, place, items)?;
    let mut cheapest_of = |walls: Option<&[&InWall]>| {
        let laid = Laid::chain(instance, items, &sections, walls);
        let keeps = laid.keeps_limits(instance);
        if keeps { laid.cheapest(instance, head, first_wire, sweep, barred) } else { None }
    };
    let walls = chain_in_walls(instance, place, items, sections.environment);
    walls.and_then(|walls| cheapest_of(Some(&walls))).or_else(|| cheapest_of(None))
}

/// Runs that must not be made.
pub type Barred = BTreeSet<RunKey>;

/// Stands in a table where every way to make a run is barred.
const NO_RUN: RunChoice = RunChoice { cost: NONE, wire: None, layout: Layout::Chain(Arrangement::Forward) };

/// Where a row of runs starts.
struct Start<'s> {
    place: usize,
    /// Kind of the distributor; `None`: an output of a supply.
    model: Option<usize>,
    head: Head,
    barred: &'s Barred,
}

/// Runs of one distributor at one place from one item on. `branched`: those with branch boxes, by number of items.
fn row(
    instance: &Instance<'_>,
    order: &[usize],
    start: &Start<'_>,
    first: usize,
    branched: &[Option<Branching>],
) -> Vec<RunChoice> {
    let mut sweep = Sweep::default();
    let mut runs = chains(instance, order, start, first, &mut sweep);
    for (at, branching) in branched.iter().enumerate() {
        let Some(branching) = branching else { continue };
        let items = || branching.items().collect::<Vec<usize>>();
        let is_barred = |wire| {
            !instance.may_feed(start.place, &items(), wire, Some(branching))
                || start.is_barred(items, wire, || Some(branching.clone()))
        };
        let Some(laid) = Laid::branched(instance, start.place, branching) else { continue };
        if !laid.keeps_limits(instance) {
            continue;
        }
        let made = laid.cheapest(instance, &start.head, 0, &mut sweep, &is_barred);
        let Some(cable) = made.and_then(|made| made.choice) else { continue };
        while runs.len() <= at {
            runs.push(NO_RUN);
        }
        if cable.cost < runs[at].cost {
            runs[at] = RunChoice { cost: cable.cost, wire: cable.wire, layout: Layout::Branched };
        }
    }
    if instance.has_locks() {
        let on_box = start.model.is_some();
        for (at, run) in runs.iter_mut().enumerate() {
            if !instance.keeps_locks(on_box, start.place, &order[first..=first + at]) {
                *run = NO_RUN;
            }
        }
    }
    let mut dwellings = 0;
    for (run, item) in runs.iter_mut().zip(&order[first..]) {
        dwellings += usize::from(matches!(instance.items[*item].owner, Owner::Dwelling(_)));
        run.cost = (run.cost + rest(dwellings, order.len())).min(NONE);
    }
    runs
}

impl Start<'_> {
    fn is_barred(
        &self,
        items: impl Fn() -> Vec<usize>,
        wire: Option<usize>,
        branching: impl Fn() -> Option<Branching>,
    ) -> bool {
        let key =
            || RunKey { place: self.place, model: self.model, items: items(), wire, branching: branching() };
        !self.barred.is_empty() && self.barred.contains(&key())
    }
}

/// Stations of a chain whose door station or desk is tried at every position, at most.
const MOST_IN_CHAIN: usize = 32;

/// Takes a chain that is cheaper than the best so far.
fn better(best: &mut Option<RunChoice>, made: Option<Cheapest>, arrangement: Arrangement) {
    if let Some(cable) = made.and_then(|made| made.choice)
        && best.is_none_or(|best| cable.cost < best.cost)
    {
        let is_new = cable.wire.is_some();
        let layout = if is_new { Layout::Chain(arrangement) } else { Layout::InWalls(arrangement) };
        *best = Some(RunChoice { cost: cable.cost, wire: cable.wire, layout });
    }
}

/// What a chain of new cable costs at least; nothing where cables in the walls may serve. `None` where no way leads.
fn least_cost(instance: &Instance<'_>, place: usize, items: &[usize]) -> Option<Amount> {
    if !instance.in_walls.is_empty() {
        return Some(0);
    }
    let (length_dm, _) = length_of(instance, place, items)?;
    Some(length_dm * instance.wires.first()?.per_dm)
}

/// The chains among them.
fn chains(
    instance: &Instance<'_>,
    order: &[usize],
    start: &Start<'_>,
    first: usize,
    sweep: &mut Sweep,
) -> Vec<RunChoice> {
    let mut runs: Vec<RunChoice> = Vec::new();
    let (mut forward, mut backward) = (Some(0), Some(0));
    // Where cables are in the walls, a run that fails with new cable may do again with one more item.
    let in_walls = (!instance.in_walls.is_empty()).then_some(instance.wires.len());
    let mut items: Vec<usize> = Vec::new();
    let mut make = |items: &[usize], first_wire: usize| {
        let is_barred = |wire| {
            !instance.may_feed(start.place, items, wire, None)
                || start.is_barred(|| items.to_vec(), wire, || None)
        };
        chain(instance, start.place, &start.head, items, first_wire, sweep, &is_barred)
    };
    for (count, &item) in order[first..].iter().enumerate() {
        if count > 0 && (instance.items[item].solo || instance.items[items[0]].solo) {
            break;
        }
        items.push(item);
        if items.iter().filter(|item| instance.items[**item].ends).count() > 1 {
            break;
        }
        let mut best: Option<RunChoice> = None;
        let mut borne = false;
        if instance.may_chain(&items) {
            let ahead = forward.and_then(|wire| make(&items, wire));
            forward = ahead.map(|made| made.first_wire).or(in_walls);
            better(&mut best, ahead, Arrangement::Forward);
            borne = ahead.is_some();
        }
        let reversed: Vec<usize> = items.iter().rev().copied().collect();
        if count > 0
            && instance.may_chain(&reversed)
            && let Some(wire) = backward
        {
            let back = make(&reversed, wire);
            backward = back.map(|made| made.first_wire).or(in_walls);
            borne |= back.is_some();
            better(&mut best, back, Arrangement::Backward);
        }
        if (2..=MOST_ARRANGED).contains(&items.len()) && order.len() <= SMALL_SITE {
            for arrangement in arrangements(items.len()) {
                let made = make(&arrangement.apply(&items), 0);
                borne |= made.is_some();
                better(&mut best, made, arrangement);
            }
        }
        let is_dwelling = |item: &usize| matches!(instance.items[*item].owner, Owner::Dwelling(_));
        let mut callers = items.iter().enumerate().filter(|(_, item)| !is_dwelling(item));
        if let (Some((from, _)), None) = (callers.next(), callers.next())
            && order.len() <= MOST_MOVED
            && items.len() <= MOST_IN_CHAIN
        {
            for to in 0..items.len() {
                for backward in [false, true] {
                    let arrangement = Arrangement::Moved { from: from as u8, to: to as u8, backward };
                    let moved = arrangement.apply(&items);
                    let least = least_cost(instance, start.place, &moved);
                    if to == from
                        || !instance.may_chain(&moved)
                        || least.is_none_or(|least| best.is_some_and(|best| best.cost <= least))
                    {
                        continue;
                    }
                    let made = make(&moved, 0);
                    borne |= made.is_some();
                    better(&mut best, made, arrangement);
                }
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

/// Every run of the space over a walking order.
#[derive(Debug, Clone, Default)]
pub struct Tables {
    /// By distributor and box place.
    pub ports: Vec<Vec<RunTable>>,
    /// On an output of a supply, by place with mains.
    pub outputs: Vec<RunTable>,
}

/// Tables of every distributor at every place, and of the outputs of supplies.
pub fn tables(instance: &Instance<'_>, order: &[usize], drop_v: f64, barred: &Barred) -> Tables {
    let heads: Vec<Head> =
        instance.distributors.iter().map(|kind| best_head(instance, kind, drop_v)).collect();
    let branches: Vec<Option<Branches<'_, '_>>> =
        (0..order.len()).into_par_iter().map(|first| Branches::new(instance, order, first)).collect();
    let branched = |first: usize, place: usize| {
        branches[first].as_ref().map_or(Vec::new(), |branches| branches.from(place))
    };
    let at = |place: &usize| -> Vec<RunTable> {
        let mut tables: Vec<RunTable> = vec![RunTable { from: vec![Vec::new(); order.len()] }; heads.len()];
        for first in 0..order.len() {
            let is_near = instance.near_boxes(order[first]).iter().take(NEAR_BOXES).any(|near| near == place);
            if !is_near && !instance.is_locked_box(*place) {
                continue;
            }
            let branched = branched(first, *place);
            for (model, (table, head)) in tables.iter_mut().zip(&heads).enumerate() {
                if !instance.may_stand(model, *place) {
                    continue;
                }
                let start = Start { place: *place, model: Some(model), head: *head, barred };
                table.from[first] = row(instance, order, &start, first, &branched);
            }
        }
        tables
    };
    let by_place: Vec<Vec<RunTable>> = instance.box_places.par_iter().map(at).collect();
    let mut by_model: Vec<Vec<RunTable>> = vec![Vec::new(); heads.len()];
    for tables in by_place {
        by_model.iter_mut().zip(tables).for_each(|(list, table)| list.push(table));
    }
    let output = best_output(instance);
    let from_output = |place: &usize| -> RunTable {
        let start = Start { place: *place, model: None, head: output, barred };
        let row_of = |first: usize| row(instance, order, &start, first, &branched(first, *place));
        RunTable { from: (0..order.len()).map(row_of).collect() }
    };
    let few = hangs_on_outputs(instance);
    let outputs = if few { instance.mains.par_iter().map(from_output).collect() } else { Vec::new() };
    Tables { ports: by_model, outputs }
}

/// Items of a site up to which runs may hang on the outputs of the first supply without a distributor.
pub const MOST_ON_OUTPUTS: usize = 60;

/// Whether runs may hang on the supply's own outputs: on a small site, of which no spare ports are asked, since an output is no port.
pub fn hangs_on_outputs(instance: &Instance<'_>) -> bool {
    instance.items.len() <= MOST_ON_OUTPUTS && instance.limits.spare == 0
}

/// The same tables without the barred runs: only their rows are made again.
pub fn without(
    instance: &Instance<'_>,
    order: &[usize],
    drop_v: f64,
    tables: &Tables,
    barred: &Barred,
) -> Tables {
    let mut changed = tables.clone();
    let mut rows = BTreeSet::new();
    for key in barred {
        let first = key.items.iter().filter_map(|item| order.iter().position(|other| other == item)).min();
        rows.extend(first.map(|first| (key.model, key.place, first)));
    }
    for (model, place, first) in rows {
        let (head, places) = match model {
            Some(model) => (best_head(instance, &instance.distributors[model], drop_v), &instance.box_places),
            None => (best_output(instance), &instance.mains),
        };
        let Some(at) = places.iter().position(|other| *other == place) else { continue };
        let start = Start { place, model, head, barred };
        let branched = branchings(instance, order, place, first);
        let table = match model {
            Some(model) => &mut changed.ports[model][at],
            None => &mut changed.outputs[at],
        };
        table.from[first] = row(instance, order, &start, first, &branched);
    }
    changed
}

/// Cost of the best run, [`NONE`] if there is none.
pub fn cost(runs: &[RunChoice], count: usize) -> Amount {
    runs.get(count - 1).map_or(NONE, |run| run.cost)
}
