//! Runs with branch boxes: a riser looped through boxes, a chain from each of their ports.
//!
//! Of all ways to divide a run's items among boxes and chains, the one that asks for least boxes and cable (priced as the
//! cheapest cable) stands for all of them, found by dynamic programming; whether it bears its load is judged afterwards.

use crate::instance::Instance;
use crate::item::Owner;
use crate::money::{Amount, NONE};
use crate::parts::InWall;
use crate::sections::{Sections, chain_in_walls, in_walls, length_of};
use latchline_site::catalogue::Environment;

/// Items of a run with branch boxes at most.
pub const MOST_BRANCHED: usize = 16;
/// A branch box stands at one of so many box places, the nearest to its first item in the walking order.
pub const NEAR_BRANCH: usize = 2;

/// A branch box of a run.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct BranchBox {
    /// Place of the survey.
    pub place: usize,
    /// Kind: index into the instance's branch boxes.
    pub model: usize,
    /// Items of each port, in the order of the cable.
    pub chains: Vec<Vec<usize>>,
}

/// How a run with branch boxes is divided.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Branching {
    /// Its boxes, in the order in which the riser loops through them.
    pub boxes: Vec<BranchBox>,
}

impl Branching {
    /// Its items.
    pub fn items(&self) -> impl Iterator<Item = usize> {
        self.boxes.iter().flat_map(|branch| &branch.chains).flatten().copied()
    }

    /// Sections of the riser from a place, one to each box.
    pub fn riser(&self, instance: &Instance<'_>, place: usize) -> Option<Sections> {
        let mut riser =
            Sections { lengths_dm: Vec::new(), environment: Environment::Indoors, beside_mains: false };
        let mut at = place;
        for branch in &self.boxes {
            let way = instance.way(at, branch.place)?;
            riser.lengths_dm.push(instance.section_dm(way.length_mm, 0));
            riser.environment = riser.environment.max(way.environment);
            riser.beside_mains |= way.beside_mains;
            at = branch.place;
        }
        Some(riser)
    }

    /// The cables in the walls that lead all the way of the riser.
    pub fn riser_in_walls<'i>(
        &self,
        instance: &'i Instance<'_>,
        place: usize,
        environment: Environment,
    ) -> Option<Vec<&'i InWall>> {
        if instance.in_walls.is_empty() {
            return None;
        }
        let name = |place: usize| instance.survey.places[place].name.value.as_str();
        in_walls(instance, name(place), self.boxes.iter().map(|branch| name(branch.place)), environment)
    }
}

/// By number of items from `first` on: the run with branch boxes that costs least, from a place.
pub fn branchings(
    instance: &Instance<'_>,
    order: &[usize],
    place: usize,
    first: usize,
) -> Vec<Option<Branching>> {
    Branches::new(instance, order, first).map_or(Vec::new(), |branches| branches.from(place))
}

/// A division in the making: cost, and what stands before.
#[derive(Clone, Copy)]
struct Step {
    cost: Amount,
    from: usize,
    before: usize,
    model: usize,
}

/// Costs of boxes over the items from one on, wherever the run starts.
pub struct Branches<'b, 'a> {
    instance: &'b Instance<'a>,
    items: &'b [usize],
    /// Places that boxes may stand at.
    places: Vec<usize>,
    /// By place, first item and number of items less one: the cost of a chain from a port there.
    chains: Vec<Vec<Vec<Amount>>>,
    /// By place, first item and number of items: the cheapest box and its kind.
    blocks: Vec<Vec<Vec<(Amount, usize)>>>,
    per_dm: Amount,
}

impl<'b, 'a> Branches<'b, 'a> {
    /// Of the items of an order from one on; `None` where no branch box can serve.
    pub fn new(instance: &'b Instance<'a>, order: &'b [usize], first: usize) -> Option<Self> {
        let limits = &instance.limits;
        if instance.branch_boxes.is_empty() || !limits.branches {
            return None;
        }
        let mut dwellings = 0;
        let within = |item: &&usize| {
            dwellings += usize::from(matches!(instance.items[**item].owner, Owner::Dwelling(_)));
            dwellings <= limits.dwellings
        };
        let count = order[first..].iter().take(MOST_BRANCHED).take_while(within).count();
        let items = &order[first..first + count];
        // One alone gains nothing by a box.
        if count < 2 {
            return None;
        }
        let mut places: Vec<usize> = items
            .iter()
            .flat_map(|item| instance.near_boxes(*item).iter().take(NEAR_BRANCH).copied())
            .collect();
        places.sort_unstable();
        places.dedup();
        let per_dm = instance.wires.first()?.per_dm;
        let mut branches =
            Branches { instance, items, places, chains: Vec::new(), blocks: Vec::new(), per_dm };
        branches.chains = branches.places.iter().map(|place| branches.chains_at(*place)).collect();
        branches.blocks = (0..branches.places.len()).map(|at| branches.blocks_at(at)).collect();
        Some(branches)
    }

    /// The cheaper direction of a chain of neighbours, and its cost; `None` if it must not be.
    fn chain(&self, place: usize, first: usize, end: usize) -> Option<(Amount, Vec<usize>)> {
        let items = &self.items[first..end];
        if items.len() > self.instance.limits.chain {
            return None;
        }
        let cost = |items: &[usize]| {
            if !self.instance.may_chain(items) {
                return None;
            }
            let (length_dm, environment) = length_of(self.instance, place, items)?;
            let in_walls = chain_in_walls(self.instance, place, items, environment).is_some();
            Some(if in_walls { 0 } else { length_dm * self.per_dm })
        };
        let ahead = cost(items);
        let reversed: Vec<usize> = items.iter().rev().copied().collect();
        match (ahead, cost(&reversed)) {
            (Some(ahead), back) if back.is_none_or(|back| ahead <= back) => Some((ahead, items.to_vec())),
            (_, back) => Some((back?, reversed)),
        }
    }

    fn chains_at(&self, place: usize) -> Vec<Vec<Amount>> {
        let count = self.items.len();
        let cost = |first: usize, end: usize| self.chain(place, first, end).map_or(NONE, |(cost, _)| cost);
        (0..count).map(|first| (first + 1..=count).map(|end| cost(first, end)).collect()).collect()
    }

    fn blocks_at(&self, at: usize) -> Vec<Vec<(Amount, usize)>> {
        let count = self.items.len();
        let (place, chains) = (self.places[at], &self.chains[at]);
        (0..count)
            .map(|first| {
                let is_near = self.instance.near_boxes(self.items[first]).iter().take(NEAR_BRANCH);
                if !is_near.copied().any(|near| near == place) {
                    return Vec::new();
                }
                let divided: Vec<Vec<Amount>> = self
                    .instance
                    .branch_boxes
                    .iter()
                    .map(|model| {
                        divided(chains, first, count, model.ports).last().cloned().unwrap_or_default()
                    })
                    .collect();
                (0..=count - first)
                    .map(|taken| {
                        let cost = |model: usize| {
                            let cable = divided[model].get(taken).copied().unwrap_or(NONE);
                            (cable.saturating_add(self.instance.branch_boxes[model].cost), model)
                        };
                        (0..divided.len()).map(cost).min().unwrap_or((NONE, 0))
                    })
                    .collect()
            })
            .collect()
    }

    /// The chains of one box, found again.
    fn chains(&self, at: usize, model: usize, first: usize, end: usize) -> Vec<Vec<usize>> {
        let (place, chains) = (self.places[at], &self.chains[at]);
        let table = divided(chains, first, end, self.instance.branch_boxes[model].ports);
        let mut found = Vec::new();
        let (mut ports, mut done) = (table.len() - 1, end - first);
        while done > 0 && ports > 0 {
            if table[ports - 1][done] == table[ports][done] {
                ports -= 1;
                continue;
            }
            let fits = |from: &usize| {
                let before = table[ports - 1][*from];
                before < NONE
                    && before.saturating_add(chains[first + from][done - from - 1]) == table[ports][done]
            };
            let Some(from) = (0..done).find(fits) else { break };
            found.extend(self.chain(place, first + from, first + done).map(|(_, items)| items));
            (ports, done) = (ports - 1, from);
        }
        found.reverse();
        found
    }

    /// By number of items: the run with branch boxes that costs least, from a place.
    pub fn from(&self, place: usize) -> Vec<Option<Branching>> {
        let count = self.items.len();
        let unreached = Step { cost: NONE, from: 0, before: 0, model: 0 };
        let mut steps = vec![vec![unreached; self.places.len()]; count + 1];
        let way = |from: usize, to: usize| {
            let length = self.instance.way(from, to).map(|way| self.instance.section_dm(way.length_mm, 0));
            length.map_or(NONE, |length_dm| Amount::from(length_dm) * self.per_dm)
        };
        for done in 0..count {
            for (at, &here) in self.places.iter().enumerate() {
                if self.blocks[at][done].is_empty() {
                    continue;
                }
                let (come, before) = if done == 0 {
                    (way(place, here), 0)
                } else {
                    let by = |before: usize| {
                        let way = way(self.places[before], here);
                        (steps[done][before].cost.saturating_add(way), before)
                    };
                    (0..self.places.len()).map(by).min().unwrap_or((NONE, 0))
                };
                if come >= NONE {
                    continue;
                }
                for (taken, &(cost, model)) in self.blocks[at][done].iter().enumerate().skip(1) {
                    let total = come.saturating_add(cost);
                    if total < steps[done + taken][at].cost {
                        steps[done + taken][at] = Step { cost: total, from: done, before, model };
                    }
                }
            }
        }
        (1..=count).map(|end| self.trace(&steps, end)).collect()
    }

    fn trace(&self, steps: &[Vec<Step>], end: usize) -> Option<Branching> {
        let mut at = (0..self.places.len()).min_by_key(|at| (steps[end][*at].cost, *at))?;
        if steps[end][at].cost >= NONE {
            return None;
        }
        let mut boxes = Vec::new();
        let mut done = end;
        while done > 0 {
            let step = steps[done][at];
            let chains = self.chains(at, step.model, step.from, done);
            boxes.push(BranchBox { place: self.places[at], model: step.model, chains });
            (done, at) = (step.from, step.before);
        }
        boxes.reverse();
        Some(Branching { boxes })
    }
}

/// By ports and number of items from `first` on: the cost of the cheapest division into so many chains at most.
fn divided(chains: &[Vec<Amount>], first: usize, end: usize, ports: usize) -> Vec<Vec<Amount>> {
    let most = end - first;
    let mut table = vec![vec![NONE; most + 1]];
    table[0][0] = 0;
    for port in 0..ports.min(most) {
        let mut next = table[port].clone();
        for from in 0..most {
            if table[port][from] >= NONE {
                continue;
            }
            for to in from + 1..=most {
                let total = table[port][from].saturating_add(chains[first + from][to - from - 1]);
                next[to] = next[to].min(total);
            }
        }
        table.push(next);
    }
    table
}
