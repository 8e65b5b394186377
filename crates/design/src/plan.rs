//! The cheapest plan over a walking order, by nested dynamic programming: runs make blocks (one
//! distributor each), blocks make trunks, trunks make zones (one supply each), zones make the site.
//!
//! Every level joins neighbouring intervals of the walking order, so the best of each level is found
//! by trying every split; costs are whole millionths, so no rounding comes in. The least cost over the
//! relaxed limits of `relaxed` is a lower bound for every design of the declared space: each
//! limit that it keeps is one that no passing design can break (see [`crate::electric`]).

use crate::instance::{Instance, Owner};
use crate::loads::{Loads, output_loads, supply_loads};
use crate::money::{Micro, NONE};
use crate::runs::{Barred, RunChoice, RunTable, tables};
use rayon::prelude::*;

/// What a plan assumes where the whole is not known yet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Assumptions {
    /// Voltage lost between the supply and the distributors.
    pub drop_v: f64,
    /// Share of the current limits that may be used up.
    pub fill: f64,
    /// Trunk cable, as an index into the cables that suit indoors; `None`: on every way the cheapest that may
    /// run there, for the bound.
    pub trunk_wire: Option<usize>,
    /// Supplies at most, if more than one beyond the fewest are to be tried.
    pub most_supplies: usize,
}

/// A run of a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedRun {
    /// Items in their order on the run; empty for a link to another zone.
    pub items: Vec<usize>,
    /// How it is made.
    pub choice: RunChoice,
}

/// A distributor of a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedBox {
    /// Place of the survey.
    pub place: usize,
    /// Kind: index into the instance's distributors.
    pub model: usize,
    /// Its runs, by port.
    pub runs: Vec<PlannedRun>,
}

/// A trunk of a plan: distributors that one cable is looped through.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedTrunk {
    /// Its distributors in order.
    pub boxes: Vec<PlannedBox>,
    /// Its cable.
    pub wire: usize,
}

/// A zone of a plan: a supply with all that it feeds.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedZone {
    /// Place of the supply.
    pub place: usize,
    /// Place of the isolating box, except in the first zone.
    pub isolator_place: usize,
    /// Kind of supply.
    pub supply: usize,
    /// Its trunks.
    pub trunks: Vec<PlannedTrunk>,
}

/// A whole plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// Its zones; the first one holds the head of the site.
    pub zones: Vec<PlannedZone>,
    /// Distributors for links alone, first on the first trunk: kind and number.
    pub heads: Option<(usize, usize)>,
    /// Its cost without what every design has.
    pub cost: Micro,
    /// Supplies at most among the plans that it is the cheapest of.
    pub most_supplies: usize,
}

pub(crate) struct Planner<'p, 'a> {
    pub(crate) instance: &'p Instance<'a>,
    pub(crate) order: &'p [usize],
    pub(crate) root: usize,
    pub(crate) assumptions: Assumptions,
    /// Further ports that the first zone needs for links.
    pub(crate) links: usize,
    /// Distributors for links alone: kind and number.
    pub(crate) heads: Option<(usize, usize)>,
    pub(crate) tables: &'p [Vec<RunTable>],
    /// By first item: one past the last that one supply can carry.
    pub(crate) reach: Vec<usize>,
    pub(crate) blocks: Vec<Vec<Block>>,
    /// What intervals ask of a supply.
    pub(crate) loads: Loads,
    /// By kind: what intervals ask of the output of a regenerating box.
    pub(crate) outputs: Vec<Option<Loads>>,
    /// Trunk from each box place to each.
    pub(crate) between: Vec<Vec<Micro>>,
    /// Costs of trunks of further zones: by place with mains, first item, number of items.
    pub(crate) others: Vec<Vec<Vec<Micro>>>,
}

/// The best distributors for items from one on, by place: cost and kind for 0, 1, 2, ... items.
pub(crate) type Block = Vec<(Micro, u8)>;

/// Links up to so many share the first distributor with its runs; more have distributors of their own.
pub const SHARED_LINKS: usize = 3;
/// A further supply stands at one of so many places with mains, the nearest to its first item.
pub const NEAR_MAINS: usize = 2;

/// Plans for one walking order.
pub fn plan(
    instance: &Instance<'_>,
    order: &[usize],
    root: usize,
    assumptions: Assumptions,
    run_tables: Option<&[Vec<RunTable>]>,
) -> Option<Plan> {
    let own;
    let tables = match run_tables {
        Some(tables) => tables,
        None => {
            own = tables_for(instance, order, assumptions.drop_v);
            &own
        }
    };
    let mut best: Option<Plan> = None;
    let most_zones =
        if instance.isolator.is_some() && instance.limits.cascade >= 3 { order.len() } else { 1 };
    let mut planner = Planner::new(instance, order, root, assumptions, tables);
    let least = planner.least_zones();
    let most_zones = most_zones.min((least + 1).max(assumptions.most_supplies));
    for zones in least..=most_zones {
        planner.links = if zones - 1 <= SHARED_LINKS { zones - 1 } else { 0 };
        planner.heads = if zones - 1 > SHARED_LINKS { planner.head_boxes(zones - 1) } else { None };
        planner.make_blocks();
        if zones > 1 && planner.others.is_empty() {
            planner.make_others();
        }
        let Some(plan) = planner.zones(zones).map(|plan| Plan { most_supplies: most_zones, ..plan }) else {
            continue;
        };
        if best.as_ref().is_none_or(|best| plan.cost < best.cost) {
            best = Some(plan);
        }
    }
    best
}

/// Run tables of a walking order.
pub fn tables_for(instance: &Instance<'_>, order: &[usize], drop_v: f64) -> Vec<Vec<RunTable>> {
    tables(instance, order, drop_v, &Barred::new())
}

/// Where a trunk begins.
#[derive(Clone, Copy)]
pub(crate) struct TrunkStart {
    pub(crate) place: usize,
    /// The first distributor must stand here.
    pub(crate) first_at: Option<usize>,
}

impl<'p, 'a> Planner<'p, 'a> {
    fn new(
        instance: &'p Instance<'a>,
        order: &'p [usize],
        root: usize,
        assumptions: Assumptions,
        tables: &'p [Vec<RunTable>],
    ) -> Self {
        let mut planner = Planner {
            instance,
            order,
            root,
            assumptions,
            links: 0,
            heads: None,
            tables,
            reach: Vec::new(),
            blocks: Vec::new(),
            loads: supply_loads(instance, order),
            outputs: instance.distributors.iter().map(|kind| output_loads(instance, order, kind)).collect(),
            between: Vec::new(),
            others: Vec::new(),
        };
        let places = &instance.box_places;
        planner.between =
            places.iter().map(|a| places.iter().map(|b| planner.trunk_cost(*a, *b)).collect()).collect();
        planner.reach = (0..order.len()).map(|first| planner.reach_from(first)).collect();
        planner
    }

    pub(crate) fn busiest_a(&self, first: usize, end: usize) -> f64 {
        self.loads.busiest_a(first, end)
    }

    pub(crate) fn share(&self, first: usize, end: usize) -> f64 {
        self.loads.share(first, end)
    }

    /// The cheapest supply that carries an interval.
    fn supply(&self, first: usize, end: usize, outputs: usize) -> Option<usize> {
        if self.share(first, end) > 1.0 + 1e-9 {
            return None;
        }
        let needed_a = self.busiest_a(first, end);
        self.instance.supplies.iter().position(|supply| {
            needed_a <= supply.rated_a * self.assumptions.fill && outputs <= supply.outputs
        })
    }

    fn reach_from(&self, first: usize) -> usize {
        let mut end = first;
        while end < self.order.len() && self.supply(first, end + 1, 1).is_some() {
            end += 1;
        }
        end
    }

    /// The fewest zones: each as long as one supply can carry, which is best since what a supply carries
    /// it carries less of, too.
    fn least_zones(&self) -> usize {
        let mut zones = 0;
        let mut at = 0;
        while at < self.order.len() {
            let end = self.reach[at];
            zones += 1;
            if end == at {
                break;
            }
            at = end;
        }
        zones.max(1)
    }

    pub(crate) fn is_dwelling(&self, at: usize) -> bool {
        matches!(self.instance.items[self.order[at]].owner, Owner::Dwelling(_))
    }

    pub(crate) fn trunk_cost(&self, from: usize, to: usize) -> Micro {
        self.instance.way(from, to).map_or(NONE, |way| {
            let wire = self.instance.trunk_wire(self.assumptions.trunk_wire, way.environment);
            Micro::from(self.instance.section_dm(way.length_mm, 0)) * self.instance.wires[wire].per_dm
        })
    }

    /// The box place nearest to a place; ties go to the first.
    pub(crate) fn nearest_box(&self, place: usize) -> usize {
        let length = |other: &usize| self.instance.way(place, *other).map_or(u64::MAX, |way| way.length_mm);
        self.instance.box_places.iter().copied().min_by_key(length).unwrap_or(place)
    }

    /// Trunks of further zones. They begin after the first item, so links do not touch them.
    fn make_others(&mut self) {
        let planner = &*self;
        let costs = |place: &usize| -> Vec<Vec<Micro>> {
            let start = planner.other_start(*place);
            (0..planner.order.len())
                .into_par_iter()
                .map(|first| {
                    if planner.is_near(*place, first) { planner.trunk(start, first).cost } else { Vec::new() }
                })
                .collect()
        };
        self.others = self.instance.mains.iter().map(costs).collect();
    }

    /// The cheapest distributors that have so many ports together.
    fn head_boxes(&self, links: usize) -> Option<(usize, usize)> {
        (0..self.instance.distributors.len())
            .filter(|model| self.instance.distributors[*model].ports > 0)
            .map(|model| (model, links.div_ceil(self.instance.distributors[model].ports)))
            .min_by_key(|(model, number)| self.instance.distributors[*model].cost * *number as Micro)
    }

    /// Whether a supply whose first item is this one may stand at a place with mains.
    fn is_near(&self, mains: usize, first: usize) -> bool {
        let at = self.instance.items[self.order[first]].place;
        let length = |place: usize| self.instance.way(place, at).map_or(u64::MAX, |way| way.length_mm);
        let nearer = |other: &&usize| (length(**other), **other) < (length(mains), mains);
        self.instance.mains.iter().filter(nearer).count() < NEAR_MAINS
    }

    fn other_start(&self, mains: usize) -> TrunkStart {
        TrunkStart { place: self.nearest_box(mains), first_at: None }
    }

    fn trunk_allowed(&self, first: usize, end: usize, limit_a: f64) -> bool {
        limit_a.is_infinite() || self.busiest_a(first, end) <= limit_a * self.assumptions.fill
    }

    /// Best plans with exactly so many zones.
    fn zones(&self, zones: usize) -> Option<Plan> {
        let count = self.order.len();
        let head_at = (zones > 1).then(|| self.nearest_box(self.root));
        let (start, before) = match (self.heads, head_at) {
            (Some((model, number)), Some(at)) => {
                let boxes = self.instance.distributors[model].cost * number as Micro;
                let ways = self.trunk_cost(self.root, at) + self.trunk_cost(at, at) * (number as Micro - 1);
                (at, boxes + ways)
            }
            _ => (self.root, 0),
        };
        let head = |first: usize| {
            let shares = first == 0 && self.links > 0;
            let first_at = if shares { head_at } else { None };
            let start = if first == 0 { start } else { self.root };
            self.trunk(TrunkStart { place: start, first_at }, first)
        };
        let first_reach = self.reach[0];
        let hub_costs: Vec<Vec<Micro>> =
            (0..first_reach.max(1)).into_par_iter().map(|first| head(first).cost).collect();
        let outputs = self.instance.supplies.iter().map(|supply| supply.outputs).max().unwrap_or(1);
        let mut best: Vec<Vec<Micro>> = vec![vec![NONE; count + 1]; zones + 1];
        let mut choice: Vec<Vec<Option<Zone>>> = vec![vec![None; count + 1]; zones + 1];
        for end in 1..=first_reach {
            if let Some(zone) = self.zone(&hub_costs, 0, end, outputs, f64::INFINITY, true) {
                best[1][end] = zone.cost + before;
                choice[1][end] = Some(zone);
            }
        }
        if let (true, Some(isolator)) = (zones > 1, &self.instance.isolator) {
            let mut table: Vec<Vec<Option<Zone>>> = vec![Vec::new(); count];
            let fill = |first: usize| -> Vec<Option<Zone>> {
                (first + 1..=self.reach[first])
                    .map(|end| {
                        let mut least: Option<Zone> = None;
                        for (at, place) in self.instance.mains.iter().enumerate() {
                            let extra = self.feeding(*place, isolator.cost, head_at.unwrap_or(self.root));
                            let zone = self.zone(
                                &self.others[at],
                                first,
                                end,
                                isolator.ports,
                                isolator.limit_a,
                                false,
                            );
                            let Some(zone) = zone else { continue };
                            let zone = Zone { cost: zone.cost + extra, mains: at, ..zone };
                            if least.as_ref().is_none_or(|least| zone.cost < least.cost) {
                                least = Some(zone);
                            }
                        }
                        least
                    })
                    .collect()
            };
            let filled: Vec<Vec<Option<Zone>>> = (0..count).into_par_iter().map(fill).collect();
            for (first, list) in filled.into_iter().enumerate() {
                table[first] = list;
            }
            for number in 2..=zones {
                for first in 1..count {
                    let so_far = best[number - 1][first];
                    if so_far >= NONE {
                        continue;
                    }
                    for (at, zone) in table[first].iter().enumerate() {
                        let Some(zone) = zone else { continue };
                        let end = first + at + 1;
                        let total = so_far + zone.cost;
                        if total < best[number][end] {
                            best[number][end] = total;
                            choice[number][end] = Some(*zone);
                        }
                    }
                }
            }
        }
        if best[zones][count] >= NONE {
            return None;
        }
        let mut plan =
            Plan { zones: Vec::new(), heads: self.heads, cost: best[zones][count], most_supplies: zones };
        let mut end = count;
        for number in (1..=zones).rev() {
            let zone = choice[number][end]?;
            let made = |first: usize| {
                if number == 1 {
                    head(first)
                } else {
                    self.trunk(self.other_start(self.instance.mains[zone.mains]), first)
                }
            };
            plan.zones.push(self.trace(&zone, &made, end, number == 1));
            end = zone.first;
        }
        plan.zones.reverse();
        Some(plan)
    }

    /// Feed, isolating box and link of a further zone.
    fn feeding(&self, mains: usize, isolator: Micro, head_at: usize) -> Micro {
        let at = self.nearest_box(mains);
        let link = self.instance.way(head_at, at).map_or(NONE, |way| {
            let length = Micro::from(self.instance.section_dm(way.length_mm, 0));
            let environment = way.environment;
            let wire = self.instance.wires.iter().find(|wire| wire.environments.contains(&environment));
            wire.map_or(NONE, |wire| wire.per_dm * length)
        });
        isolator.saturating_add(self.trunk_cost(mains, at)).saturating_add(link).min(NONE)
    }

    /// The cheapest supply with one or more trunks for an interval.
    fn zone(
        &self,
        trunks: &[Vec<Micro>],
        first: usize,
        end: usize,
        most_trunks: usize,
        limit_a: f64,
        is_hub: bool,
    ) -> Option<Zone> {
        let whole = trunks.get(first).map_or(NONE, |trunk| at(trunk, end - first));
        // One trunk and two are priced with the supply that each needs.
        let priced = |cost: Micro, middle: usize| -> Option<Zone> {
            let outputs = if is_hub && middle < end { 2 } else { 1 };
            let supply = self.supply(first, end, outputs)?;
            let cost = cost + self.instance.supplies[supply].cost;
            Some(Zone { cost, first, middle, supply, mains: 0 })
        };
        let alone = (whole < NONE && self.trunk_allowed(first, end, limit_a)).then(|| priced(whole, end));
        let mut best: Option<(Micro, usize)> = None;
        if most_trunks > 1 {
            for middle in first + 1..end {
                let one = trunks.get(first).map_or(NONE, |trunk| at(trunk, middle - first));
                let two = trunks.get(middle).map_or(NONE, |trunk| at(trunk, end - middle));
                if one >= NONE || two >= NONE {
                    continue;
                }
                let total = one + two;
                if best.is_none_or(|(least, _)| total < least)
                    && self.trunk_allowed(first, middle, limit_a)
                    && self.trunk_allowed(middle, end, limit_a)
                {
                    best = Some((total, middle));
                }
            }
        }
        let parted = best.and_then(|(cost, middle)| priced(cost, middle));
        alone.flatten().into_iter().chain(parted).min_by_key(|zone| zone.cost)
    }
}

/// A step of a trunk: a block that ends here at this place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Step {
    pub(crate) cost: Micro,
    pub(crate) from: usize,
    pub(crate) before: usize,
    pub(crate) model: u8,
}

pub(crate) struct Trunk {
    pub(crate) cost: Vec<Micro>,
    pub(crate) last: Vec<usize>,
    pub(crate) steps: Vec<Vec<Step>>,
}

/// Cost for so many items.
fn at(costs: &[Micro], count: usize) -> Micro {
    costs.get(count).copied().unwrap_or(NONE)
}

#[derive(Debug, Clone, Copy)]
pub(crate) struct Zone {
    pub(crate) cost: Micro,
    pub(crate) first: usize,
    pub(crate) middle: usize,
    pub(crate) supply: usize,
    pub(crate) mains: usize,
}
