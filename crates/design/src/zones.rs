//! Zones: a supply with one or two trunks for neighbouring items; and the site, zone after zone.
//!
//! The first zone holds the head of the site and the links to the others, so it depends on how many there are. What
//! further zones cost does not: they are joined once, from the end of the walk, for every number of them.

use crate::hub::Hub;
use crate::money::{Amount, NONE};
use crate::parts::Isolator;
use crate::plan::{Plan, Planner, Trunk, TrunkStart};
use rayon::prelude::*;

/// Links up to so many share the first distributor with its runs; more have distributors of their own.
const SHARED_LINKS: usize = 3;
/// A further supply stands at one of so many places with mains, the nearest to its first item.
const NEAR_MAINS: usize = 2;

/// What an output of the first supply feeds.
#[derive(Debug, Clone, Copy)]
enum Feed {
    /// A trunk through distributors.
    Trunk,
    /// A run without any.
    Run,
    /// A distributor with trunks on its ports.
    Hub(usize),
}

/// The cheapest feed of 0, 1, 2, ... items from one on.
struct Feeds {
    cost: Vec<Amount>,
    by: Vec<Feed>,
}

/// A zone of a plan in the making.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Zone {
    pub(crate) cost: Amount,
    pub(crate) first: usize,
    /// Where its second trunk begins; its end if there is one trunk.
    pub(crate) middle: usize,
    pub(crate) end: usize,
    pub(crate) supply: usize,
    /// Place with mains: index into the instance's.
    pub(crate) mains: usize,
}

/// The cheapest further zones over every end of the walk.
pub(crate) struct Further {
    /// By first item: the best zone of 1, 2, ... items.
    single: Vec<Vec<Option<Zone>>>,
    /// By number of zones and first item: the cost of all from there to the end of the walk.
    cost: Vec<Vec<Amount>>,
    /// The first zone of those.
    choice: Vec<Vec<Option<Zone>>>,
}

impl Further {
    /// The zones alone; [`Further::extend_to`] joins them.
    pub(crate) fn new(planner: &Planner<'_, '_>) -> Further {
        let count = planner.order.len();
        let isolator = planner.instance.isolator.as_ref();
        let single = isolator.map_or(Vec::new(), |isolator| planner.further_zones(isolator));
        let mut none_left = vec![NONE; count + 1];
        none_left[count] = 0;
        Further { single, cost: vec![none_left], choice: vec![vec![None; count + 1]] }
    }

    /// Joins up to so many zones.
    pub(crate) fn extend_to(&mut self, zones: usize) {
        while self.cost.len() <= zones {
            let fewer = &self.cost[self.cost.len() - 1];
            let mut cost = vec![NONE; fewer.len()];
            let mut choice = vec![None; fewer.len()];
            for (first, zones) in self.single.iter().enumerate() {
                for zone in zones.iter().flatten() {
                    let total = zone.cost.saturating_add(fewer[zone.end]).min(NONE);
                    if total < cost[first] {
                        cost[first] = total;
                        choice[first] = Some(*zone);
                    }
                }
            }
            self.cost.push(cost);
            self.choice.push(choice);
        }
    }

    fn cost(&self, zones: usize, first: usize) -> Amount {
        self.cost[zones][first]
    }

    /// The zones of the cheapest way.
    fn chosen(&self, zones: usize, first: usize) -> Vec<Zone> {
        let mut first = first;
        let mut chosen = Vec::new();
        for left in (1..=zones).rev() {
            let Some(zone) = self.choice[left][first] else { break };
            chosen.push(zone);
            first = zone.end;
        }
        chosen
    }
}

impl Planner<'_, '_> {
    /// The best plan with exactly so many zones; `further` holds one less of them, if there is more than one.
    pub(crate) fn with_zones(&mut self, zones: usize, further: Option<&Further>) -> Option<Plan> {
        let count = self.order.len();
        let rest = |end: usize| match further {
            Some(further) => further.cost(zones - 1, end),
            None if end == count => 0,
            None => NONE,
        };
        let reach = self.reach[0];
        if (1..=reach).all(|end| rest(end) >= NONE) {
            return None;
        }
        self.set_links(zones - 1);
        let has_links = zones > 1;
        let hubs = if has_links { Vec::new() } else { self.hubs() };
        let before = self.before(has_links);
        let starts = 0..self.reach[0].max(1);
        let feeds: Vec<Feeds> =
            starts.into_par_iter().map(|first| self.feeds(first, has_links, &hubs)).collect();
        let trunks: Vec<Vec<Amount>> = feeds.iter().map(|feeds| feeds.cost.clone()).collect();
        let outputs = self.instance.supplies.iter().map(|supply| supply.outputs).max().unwrap_or(1);
        let head = (1..=reach)
            .filter(|end| rest(*end) < NONE)
            .filter_map(|end| self.zone(&trunks, 0, end, outputs, f64::INFINITY, true))
            .min_by_key(|zone| zone.cost + rest(zone.end))?;
        let cost = head.cost + before + rest(head.end);
        let made = |first: usize, end: usize| match feeds[first].by[end - first] {
            Feed::Trunk => self.trace_trunk(&self.head_trunk(first, has_links), first, end),
            Feed::Run => self.trace_output(first, end),
            Feed::Hub(hub) => self.trace_hub(&hubs[hub], first, end),
        };
        let mut list = vec![self.trace(&head, &made, true)];
        for zone in further.map_or(Vec::new(), |further| further.chosen(zones - 1, head.end)) {
            let made = |first: usize, end: usize| {
                let trunk = self.trunk(self.other_start(self.instance.mains[zone.mains]), first);
                self.trace_trunk(&trunk, first, end)
            };
            list.push(self.trace(&zone, &made, false));
        }
        Some(Plan { zones: list, heads: self.heads, cost, most_supplies: zones })
    }

    /// Gives the links to further zones ports: of the first distributor, or of distributors of their own.
    fn set_links(&mut self, links: usize) {
        let share = links <= SHARED_LINKS;
        self.heads = if share { None } else { self.head_boxes(links) };
        let shared = if share { links } else { 0 };
        if self.links != shared {
            self.links = shared;
            self.blocks[0] = self.blocks_from(0);
        }
    }

    /// Where the links start from, if there are any.
    fn head_at(&self) -> usize {
        self.nearest_box(self.root)
    }

    /// A trunk of the first zone.
    fn head_trunk(&self, first: usize, has_links: bool) -> Trunk {
        let begins = first == 0 && has_links;
        let place = if begins && self.heads.is_some() { self.head_at() } else { self.root };
        let first_at = (begins && self.links > 0).then(|| self.head_at());
        self.trunk(TrunkStart { place, first_at }, first)
    }

    /// Cost of what stands before the first zone's distributors.
    fn before(&self, has_links: bool) -> Amount {
        let heads = self.heads.filter(|_| has_links);
        heads.map_or(0, |(model, number)| {
            let at = self.head_at();
            let boxes = self.instance.distributors[model].cost * number as Amount;
            boxes + self.trunk_cost(self.root, at) + self.trunk_cost(at, at) * (number as Amount - 1)
        })
    }

    /// The cheapest of what an output of the first supply may feed, from an item on.
    fn feeds(&self, first: usize, has_links: bool, hubs: &[Hub]) -> Feeds {
        let cost = self.head_trunk(first, has_links).cost;
        let mut feeds = Feeds { by: vec![Feed::Trunk; cost.len()], cost };
        let mut better = |count: usize, cost: Amount, by: Feed| {
            if feeds.cost.get(count).is_some_and(|known| cost < *known) {
                feeds.cost[count] = cost;
                feeds.by[count] = by;
            }
        };
        // Links to other supplies need a distributor.
        if !(first == 0 && has_links) {
            for (at, run) in self.output_runs(first).iter().enumerate() {
                better(at + 1, run.cost, Feed::Run);
            }
        }
        for (number, hub) in hubs.iter().enumerate() {
            let come = self.trunk_cost(self.root, self.instance.box_places[hub.place]);
            for (count, (block, _)) in hub.blocks[first].iter().enumerate().skip(1) {
                better(count, come.saturating_add(*block).min(NONE), Feed::Hub(number));
            }
        }
        feeds
    }

    /// By first item: the best further zone of 1, 2, ... items. They begin after the first item, so links do not touch them.
    fn further_zones(&self, isolator: &Isolator) -> Vec<Vec<Option<Zone>>> {
        let count = self.order.len();
        let mains = &self.instance.mains;
        let trunks = |place: &usize| -> Vec<Vec<Amount>> {
            let start = self.other_start(*place);
            let of = |first: usize| {
                if self.is_near(*place, first) { self.trunk(start, first).cost } else { Vec::new() }
            };
            (0..count).into_par_iter().map(of).collect()
        };
        let trunks: Vec<Vec<Vec<Amount>>> = mains.iter().map(trunks).collect();
        let feeding: Vec<Amount> = mains.iter().map(|place| self.feeding(*place, isolator.cost)).collect();
        let best = |first: usize, end: usize| {
            (0..mains.len())
                .filter_map(|at| {
                    let zone = self.zone(&trunks[at], first, end, isolator.ports, isolator.limit_a, false)?;
                    Some(Zone { cost: zone.cost.saturating_add(feeding[at]).min(NONE), mains: at, ..zone })
                })
                .min_by_key(|zone| zone.cost)
        };
        let from = |first: usize| -> Vec<Option<Zone>> {
            if first == 0 {
                return Vec::new();
            }
            (first + 1..=self.reach[first]).map(|end| best(first, end)).collect()
        };
        (0..count).into_par_iter().map(from).collect()
    }

    /// The cheapest distributors that have so many ports together.
    fn head_boxes(&self, links: usize) -> Option<(usize, usize)> {
        (0..self.instance.distributors.len())
            .filter(|model| self.instance.distributors[*model].ports > 0)
            .map(|model| (model, links.div_ceil(self.instance.distributors[model].ports)))
            .min_by_key(|(model, number)| self.instance.distributors[*model].cost * *number as Amount)
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

    /// Feed, isolating box and link of a further zone.
    fn feeding(&self, mains: usize, isolator: Amount) -> Amount {
        let at = self.nearest_box(mains);
        let link = self.instance.way(self.head_at(), at).map_or(NONE, |way| {
            let length = Amount::from(self.instance.section_dm(way.length_mm, 0));
            let environment = way.environment;
            let wire = self.instance.wires.iter().find(|wire| wire.environments.contains(&environment));
            wire.map_or(NONE, |wire| wire.per_dm * length)
        });
        isolator.saturating_add(self.trunk_cost(mains, at)).saturating_add(link).min(NONE)
    }

    /// The cheapest supply with one or more trunks for an interval.
    fn zone(
        &self,
        trunks: &[Vec<Amount>],
        first: usize,
        end: usize,
        most_trunks: usize,
        limit_a: f64,
        is_hub: bool,
    ) -> Option<Zone> {
        let cost_of = |first: usize, end: usize| {
            trunks.get(first).and_then(|trunk| trunk.get(end - first)).copied().unwrap_or(NONE)
        };
        let whole = cost_of(first, end);
        // One trunk and two are priced with the supply that each needs.
        let priced = |cost: Amount, middle: usize| -> Option<Zone> {
            let outputs = if is_hub && middle < end { 2 } else { 1 };
            let supply = self.supply(first, end, outputs)?;
            let cost = cost + self.instance.supplies[supply].cost;
            Some(Zone { cost, first, middle, end, supply, mains: 0 })
        };
        let alone = (whole < NONE && self.trunk_allowed(first, end, limit_a)).then(|| priced(whole, end));
        let mut best: Option<(Amount, usize)> = None;
        if most_trunks > 1 {
            for middle in first + 1..end {
                let one = cost_of(first, middle);
                let two = cost_of(middle, end);
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
