//! The design of one bus: walking orders, the cheapest plan of each that passes, and the lower bound.

use crate::arrangement::SMALL_SITE;
use crate::effort::Effort;
use crate::instance::Instance;
use crate::item::Owner;
use crate::judge::Judged;
use crate::money::{Amount, from_money, money};
use crate::obstacle::Obstacle;
use crate::order::{small_orders, walking_order};
use crate::outcome::{Binding, Texts};
use crate::plan::Plan;
use crate::planning::{plan, relaxed, tables_for};
use crate::search::{GOOD_ENOUGH, Search};
use latchline_assess::Memory;
use latchline_words::design::CountedPart;
use std::collections::VecDeque;

/// After so many walking orders that were known already there are no further ones.
const MOST_KNOWN: usize = 60;
/// Items of a site up to which it is told what each limit costs.
const MOST_PRICED: usize = 120;

/// A walking order with the plan under ideal conditions, still to be followed up.
struct Prepared {
    root: usize,
    order: Vec<usize>,
    relaxed: Plan,
}

/// The design of one bus in the making.
pub struct Bus<'s, 'a> {
    instance: &'s Instance<'a>,
    search: Search<'s, 'a>,
    seed: u64,
    /// Number of the next walking order.
    next: usize,
    seen: Vec<(usize, Vec<usize>)>,
    prepared: VecDeque<Prepared>,
    /// The least of the bounds of all orders.
    bound: Amount,
    /// Supplies that the bound reckons with in every order.
    fewest: usize,
    best: Option<Judged>,
    rejected: Option<Obstacle>,
}

impl<'s, 'a> Bus<'s, 'a> {
    /// Nothing tried yet.
    pub fn new(instance: &'s Instance<'a>, texts: Texts<'s>, memory: &Memory, effort: Effort) -> Self {
        Bus {
            instance,
            search: Search::new(instance, texts, memory, effort),
            seed: effort.seed,
            next: 0,
            seen: Vec::new(),
            prepared: VecDeque::new(),
            bound: Amount::MAX,
            fewest: usize::MAX,
            best: None,
            rejected: None,
        }
    }

    /// What the family allows on one bus, whatever the plan.
    ///
    /// # Errors
    /// [`Obstacle::Count`].
    pub fn counted(&self) -> Result<(), Obstacle> {
        let is_door = |item: &&crate::item::Item| matches!(item.owner, Owner::Entrance(_));
        let count = self.instance.items.iter().filter(is_door).count();
        match &self.instance.family.door_stations {
            Some(limit) if count > limit.value as usize => {
                Err(Obstacle::Count { part: CountedPart::DoorStations, count, limit: limit.value as usize })
            }
            _ => Ok(()),
        }
    }

    /// Walking orders so far.
    pub fn orders(&self) -> usize {
        self.seen.len()
    }

    /// Plans that were assessed.
    pub fn assessed(&self) -> usize {
        self.search.assessed
    }

    /// The best so far.
    pub fn best(&self) -> Option<&Judged> {
        self.best.as_ref()
    }

    /// No design of the space costs less; [`Amount::MAX`] where no order has a plan.
    pub fn bound(&self) -> Amount {
        self.bound
    }

    /// Whether the best is so near to the bound that nothing further is tried without being asked for.
    pub fn is_near(&self) -> bool {
        let near = |best: &Judged| best.cost.as_units() <= money(self.bound).as_units() * (1.0 + GOOD_ENOUGH);
        self.instance.items.len() > SMALL_SITE && self.best.as_ref().is_some_and(near)
    }

    /// Plans so many walking orders under ideal conditions, as far as there are any.
    pub fn prepare(&mut self, orders: usize) {
        while self.seen.len() < orders && self.prepare_next() {}
    }

    fn prepare_next(&mut self) -> bool {
        for _ in 0..MOST_KNOWN {
            let small = small_orders(self.instance);
            if small > 1 && self.next >= small {
                return false;
            }
            let number = self.next;
            self.next += 1;
            let Some((root, order)) = walking_order(self.instance, number, self.seed) else { continue };
            if self.seen.iter().any(|(known, other)| *known == root && *other == order) {
                continue;
            }
            self.seen.push((root, order.clone()));
            let tables = tables_for(self.instance, &order, 0.0);
            if let Some(relaxed) = plan(self.instance, &order, root, relaxed(0), Some(&tables)) {
                self.bound = self.bound.min(relaxed.cost + self.instance.fixed);
                self.fewest = self.fewest.min(relaxed.most_supplies);
                self.prepared.push_back(Prepared { root, order, relaxed });
            }
            return true;
        }
        false
    }

    /// Follows up the next walking order; whether there was one.
    pub fn try_next(&mut self) -> bool {
        if self.prepared.is_empty() && !self.prepare_next() {
            return false;
        }
        // An order without any plan.
        let Some(Prepared { root, order, relaxed }) = self.prepared.pop_front() else { return true };
        let known = self.best.as_ref().map(|best| from_money(best.cost));
        if known.is_some_and(|known| relaxed.cost + self.instance.fixed >= known) {
            return true;
        }
        match self.search.pass(root, &order, relaxed, known) {
            Ok(Some(judged)) => {
                if self.best.as_ref().is_none_or(|best| judged.cost < best.cost) {
                    self.best = Some(judged);
                }
            }
            Ok(None) => {}
            Err(obstacle) => {
                self.rejected.get_or_insert(obstacle);
            }
        }
        true
    }

    /// Follows up so many walking orders, or all of a small site.
    pub fn try_orders(&mut self, orders: usize) {
        self.prepare(orders);
        let mut tried = 0;
        while tried < orders.max(small_orders(self.instance)) && self.try_next() {
            tried += 1;
            if self.is_near() || self.search.unmendable.is_some() {
                break;
            }
        }
    }

    /// Why nothing was found.
    pub fn obstacle(&self) -> Obstacle {
        if let Some(rejected) = &self.rejected {
            return rejected.clone();
        }
        match self.seen.first() {
            Some((root, order)) => crate::blame::blame(self.instance, *root, order),
            None => Obstacle::Together { relaxation: None },
        }
    }

    /// Supplies at most among what the bound holds for: as many as the best has, at least.
    pub fn most_supplies(&self) -> usize {
        let supplies = self.best.as_ref().map_or(0, |best| best.site.supplies.len());
        if self.fewest == usize::MAX { supplies } else { supplies.max(self.fewest) }
    }

    /// Lets the bound hold for as many supplies as the best has.
    pub fn widen(&mut self) {
        let supplies = self.best.as_ref().map_or(0, |best| best.site.supplies.len());
        if supplies <= self.fewest {
            return;
        }
        for (root, order) in &self.seen {
            if let Some(plan) = plan(self.instance, order, *root, relaxed(supplies), None) {
                self.bound = self.bound.min(plan.cost + self.instance.fixed);
            }
        }
        self.fewest = supplies;
    }

    /// What each limit of the policy costs.
    pub fn binding(&self) -> Vec<Binding> {
        match self.seen.first() {
            Some((root, order)) if self.instance.items.len() <= MOST_PRICED => {
                crate::blame::prices(self.instance, *root, order)
            }
            _ => Vec::new(),
        }
    }
}
