//! The cheapest plan over a walking order, by nested dynamic programming: runs make blocks (one
//! distributor each), blocks make trunks, trunks make zones (one supply each), zones make the site.
//!
//! Every level joins neighbouring intervals of the walking order, so the best of each level is found
//! by trying every split; costs are whole millionths, so no rounding comes in. The least cost over the
//! relaxed limits of [`Assumptions::relaxed`] is a lower bound for every design of the declared space: each
//! limit that it keeps is one that no passing design can break (see [`crate::electric`]).

use crate::electric::Draw;
use crate::instance::{Distributor, Instance, Owner};
use crate::loads::Loads;
use crate::money::{Micro, NONE};
use crate::runs::{Barred, RunChoice, RunTable, cost, tables};
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

struct Planner<'p, 'a> {
    instance: &'p Instance<'a>,
    order: &'p [usize],
    root: usize,
    assumptions: Assumptions,
    /// Further ports that the first zone needs for links.
    links: usize,
    /// Distributors for links alone: kind and number.
    heads: Option<(usize, usize)>,
    tables: &'p [Vec<RunTable>],
    /// By first item: one past the last that one supply can carry.
    reach: Vec<usize>,
    blocks: Vec<Vec<Block>>,
    /// What intervals ask of a supply.
    loads: Loads,
    /// By kind: what intervals ask of the output of a regenerating box.
    outputs: Vec<Option<Loads>>,
    /// Trunk from each box place to each.
    between: Vec<Vec<Micro>>,
    /// Costs of trunks of further zones: by place with mains, first item, number of items.
    others: Vec<Vec<Vec<Micro>>>,
}

/// The best distributors for items from one on, by place: cost and kind for 0, 1, 2, ... items.
type Block = Vec<(Micro, u8)>;

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

/// Currents that a supply is asked for: directly at its voltage, or through a regenerating box at its output's.
fn supply_loads(instance: &Instance<'_>, order: &[usize]) -> Loads {
    let supply_v = instance.supplies.iter().map(|supply| supply.voltage_v).fold(0.0, f64::max);
    let least_a = |draw: Draw, drop_v: f64| {
        let by_way_of = |kind: &Distributor| match kind.regenerated {
            Some(output) => {
                let factor = output.voltage_v / (supply_v * output.efficiency).max(1e-9);
                draw.at(output.voltage_v, drop_v) * factor
            }
            None => draw.at(supply_v, drop_v),
        };
        instance.distributors.iter().map(by_way_of).fold(f64::INFINITY, f64::min)
    };
    let most_a = instance.supplies.iter().map(|supply| supply.rated_a).fold(0.0, f64::max);
    Loads::new(instance, order, &least_a, most_a)
}

fn output_loads(instance: &Instance<'_>, order: &[usize], kind: &Distributor) -> Option<Loads> {
    let output = kind.regenerated?;
    let least_a = |draw: Draw, drop_v: f64| draw.at(output.voltage_v, drop_v);
    Some(Loads::new(instance, order, &least_a, output.power_w / output.voltage_v.max(1e-9)))
}

/// Where a trunk begins.
#[derive(Clone, Copy)]
struct TrunkStart {
    place: usize,
    /// The first distributor must stand here.
    first_at: Option<usize>,
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

    fn busiest_a(&self, first: usize, end: usize) -> f64 {
        self.loads.busiest_a(first, end)
    }

    fn share(&self, first: usize, end: usize) -> f64 {
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

    fn is_dwelling(&self, at: usize) -> bool {
        matches!(self.instance.items[self.order[at]].owner, Owner::Dwelling(_))
    }

    /// Ports that a distributor has for items `first..end`; the first of the site gives some to links.
    fn ports(&self, model: usize, first: usize, end: usize) -> usize {
        let serves = (first..end).any(|at| self.is_dwelling(at));
        let spare = if serves { self.instance.limits.spare } else { 0 };
        let links = if first == 0 { self.links } else { 0 };
        self.instance.distributors[model].ports.saturating_sub(spare + links)
    }

    /// Cost of the cheapest division of items from `first` on into at most `ports` runs, by end.
    fn divisions(&self, table: &RunTable, first: usize, ports: usize) -> Vec<Micro> {
        let most = self.reach[first] - first;
        let mut best = vec![NONE; most + 1];
        best[0] = 0;
        let mut last = best.clone();
        let mut reached = 0;
        for _ in 0..ports {
            let mut next = last.clone();
            let mut further = reached;
            for (from, &so_far) in last.iter().enumerate().take(reached + 1) {
                if so_far >= NONE {
                    continue;
                }
                for (count, run) in
                    table.from.get(first + from).map_or(&[][..], Vec::as_slice).iter().enumerate()
                {
                    let end = from + count + 1;
                    if end > most {
                        break;
                    }
                    next[end] = next[end].min(so_far + run.cost);
                    further = further.max(end);
                }
            }
            reached = further;
            last = next;
        }
        for (end, value) in last.iter().enumerate() {
            best[end] = best[end].min(*value);
        }
        best
    }

    fn block_allowed(&self, model: usize, first: usize, end: usize) -> bool {
        let kind = &self.instance.distributors[model];
        let (Some(output), Some(loads)) = (kind.regenerated, &self.outputs[model]) else { return true };
        loads.busiest_a(first, end) * output.voltage_v <= output.power_w * self.assumptions.fill
    }

    fn make_blocks(&mut self) {
        let places = self.instance.box_places.len();
        let planner = &*self;
        let make = |first: usize| -> Vec<Block> {
            (0..places)
                .map(|place| {
                    let most = planner.reach[first] - first;
                    let mut block: Block = vec![(NONE, 0); most + 1];
                    for (model, kind) in planner.instance.distributors.iter().enumerate() {
                        let table = &planner.tables[model][place];
                        if table.from[first].is_empty() {
                            continue;
                        }
                        // Spare ports hold only where a dwelling is served: two divisions where it differs.
                        let strict = planner.ports(model, first, first + most);
                        let loose = planner.ports(model, first, first);
                        let with = planner.divisions(table, first, strict);
                        let without =
                            if loose == strict { None } else { Some(planner.divisions(table, first, loose)) };
                        let mut serves = false;
                        for end in 1..=most {
                            serves |= planner.is_dwelling(first + end - 1);
                            let division = match (&without, serves) {
                                (Some(without), false) => without[end],
                                _ => with[end],
                            };
                            let total = division.saturating_add(kind.cost);
                            if total < block[end].0
                                && (kind.regenerated.is_none()
                                    || planner.block_allowed(model, first, first + end))
                            {
                                block[end] = (total, model as u8);
                            }
                        }
                    }
                    // Nothing beyond the last that can be served is worth keeping.
                    let used = block.iter().rposition(|(cost, _)| *cost < NONE).map_or(0, |end| end + 1);
                    block.truncate(used);
                    block
                })
                .collect()
        };
        // The links take ports of the first distributor only.
        if self.blocks.is_empty() {
            self.blocks = (0..self.order.len()).into_par_iter().map(make).collect();
        } else {
            self.blocks[0] = make(0);
        }
    }

    fn trunk_cost(&self, from: usize, to: usize) -> Micro {
        self.instance.way(from, to).map_or(NONE, |way| {
            let wire = self.instance.trunk_wire(self.assumptions.trunk_wire, way.environment);
            Micro::from(self.instance.section_dm(way.length_mm, 0)) * self.instance.wires[wire].per_dm
        })
    }

    /// The box place nearest to a place; ties go to the first.
    fn nearest_box(&self, place: usize) -> usize {
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

    /// Best trunks from `first` on: for every end the cost, and the steps that lead there.
    fn trunk(&self, start: TrunkStart, first: usize) -> Trunk {
        let places = &self.instance.box_places;
        let most = self.reach[first] - first;
        let mut trunk = Trunk {
            cost: vec![NONE; most + 1],
            last: vec![0; most + 1],
            steps: vec![
                vec![Step { cost: NONE, from: 0, before: usize::MAX, model: 0 }; places.len()];
                most + 1
            ],
        };
        // Cost of having come to each place with a given number of items behind.
        let between: Vec<Vec<Micro>> =
            places.iter().map(|a| places.iter().map(|b| self.trunk_cost(*a, *b)).collect()).collect();
        for done in 0..most {
            let open: Vec<usize> =
                (0..places.len()).filter(|at| self.blocks[first + done][*at].len() > 1).collect();
            let mut arrive: Vec<(Micro, usize)> = vec![(NONE, usize::MAX); places.len()];
            if done == 0 {
                for (at, place) in places.iter().enumerate() {
                    if start.first_at.is_none_or(|only| only == *place) {
                        arrive[at] = (self.trunk_cost(start.place, *place), usize::MAX);
                    }
                }
            } else {
                if trunk.cost[done] >= NONE {
                    continue;
                }
                for (before, step) in trunk.steps[done].iter().enumerate() {
                    if step.cost >= NONE {
                        continue;
                    }
                    for &at in &open {
                        let way = between[before][at];
                        let total = step.cost + way;
                        if total < arrive[at].0 {
                            arrive[at] = (total, before);
                        }
                    }
                }
            }
            for (at, &(come, before)) in arrive.iter().enumerate() {
                if come >= NONE || self.blocks[first + done][at].len() < 2 {
                    continue;
                }
                for (count, &(block, model)) in self.blocks[first + done][at].iter().enumerate().skip(1) {
                    let end = done + count;
                    if end > most {
                        break;
                    }
                    let total = come + block;
                    if block < NONE && total < trunk.steps[end][at].cost {
                        trunk.steps[end][at] = Step { cost: total, from: done, before, model };
                        if total < trunk.cost[end] {
                            trunk.cost[end] = total;
                            trunk.last[end] = at;
                        }
                    }
                }
            }
        }
        trunk
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

    fn trace(&self, zone: &Zone, made: &dyn Fn(usize) -> Trunk, end: usize, is_hub: bool) -> PlannedZone {
        let mut parts = vec![(zone.first, zone.middle)];
        if zone.middle < end {
            parts.push((zone.middle, end));
        }
        let trunks = parts
            .into_iter()
            .map(|(first, end)| PlannedTrunk {
                boxes: self.trace_trunk(&made(first), first, end),
                wire: self.assumptions.trunk_wire.unwrap_or(0),
            })
            .collect();
        let place = if is_hub { self.root } else { self.instance.mains[zone.mains] };
        PlannedZone { place, isolator_place: self.nearest_box(place), supply: zone.supply, trunks }
    }

    fn trace_trunk(&self, trunk: &Trunk, first: usize, end: usize) -> Vec<PlannedBox> {
        let mut boxes = Vec::new();
        let mut done = end - first;
        let mut at = trunk.last[done];
        while done > 0 {
            let step = trunk.steps[done][at];
            boxes.push(self.trace_block(at, usize::from(step.model), first + step.from, first + done));
            done = step.from;
            at = step.before;
            if at == usize::MAX {
                break;
            }
        }
        boxes.reverse();
        boxes
    }

    /// The division of a block into runs, found again.
    fn trace_block(&self, place: usize, model: usize, first: usize, end: usize) -> PlannedBox {
        let table = &self.tables[model][place];
        let ports = self.ports(model, first, end);
        let most = end - first;
        let mut best = vec![vec![(NONE, 0usize); most + 1]; ports + 1];
        for row in &mut best {
            row[0] = (0, 0);
        }
        for used in 1..=ports {
            for done in 1..=most {
                best[used][done] = best[used - 1][done];
                for count in 1..=done {
                    let before = best[used - 1][done - count].0;
                    let run = cost(&table.from[first + done - count], count);
                    if before < NONE && run < NONE && before + run < best[used][done].0 {
                        best[used][done] = (before + run, count);
                    }
                }
            }
        }
        let mut runs = Vec::new();
        let (mut used, mut done) = (ports, most);
        while done > 0 && used > 0 {
            if best[used][done] == best[used - 1][done] {
                used -= 1;
                continue;
            }
            let count = best[used][done].1;
            let start = first + done - count;
            let choice = table.from[start][count - 1];
            let items = choice.arrangement.apply(&self.order[start..start + count]);
            runs.push(PlannedRun { items, choice });
            done -= count;
            used -= 1;
        }
        runs.reverse();
        PlannedBox { place: self.instance.box_places[place], model, runs }
    }
}

/// A step of a trunk: a block that ends here at this place.
#[derive(Debug, Clone, Copy)]
struct Step {
    cost: Micro,
    from: usize,
    before: usize,
    model: u8,
}

struct Trunk {
    cost: Vec<Micro>,
    last: Vec<usize>,
    steps: Vec<Vec<Step>>,
}

/// Cost for so many items.
fn at(costs: &[Micro], count: usize) -> Micro {
    costs.get(count).copied().unwrap_or(NONE)
}

#[derive(Debug, Clone, Copy)]
struct Zone {
    cost: Micro,
    first: usize,
    middle: usize,
    supply: usize,
    mains: usize,
}
