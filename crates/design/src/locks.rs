//! Locked decisions as planning keeps them: each makes the space smaller, for the designs and for the bound alike.

use crate::branches::Branching;
use crate::instance::Instance;
use crate::item::{ItemLocks, LockedCable, Owner};
use crate::sections::{chain_in_walls, sections};
use latchline_survey::{Decision, Who};
use std::collections::BTreeMap;

impl Instance<'_> {
    /// Reads the survey's decisions onto items and places.
    pub(crate) fn lock(&mut self) {
        let survey = self.survey;
        let item_of = |who: Who| {
            let owner = match who {
                Who::Entrance(at) => Owner::Entrance(at),
                Who::Desk(at) => Owner::Desk(at),
                Who::Dwelling(at) => Owner::Dwelling(at),
            };
            self.items.iter().position(|item| item.owner == owner)
        };
        let mut locks: BTreeMap<usize, ItemLocks> = BTreeMap::new();
        for (number, locked) in survey.locked.iter().enumerate() {
            match &locked.decision {
                Decision::Supply { place } => self.supply_places.push(*place),
                Decision::Box { place, model } => {
                    self.locked_boxes.insert(*place, model.as_ref().map(|model| model.value.clone()));
                }
                Decision::Route { .. } => {}
                Decision::Cable { who, cable } => {
                    let cable = cable.as_ref().map(|cable| LockedCable::Named(cable.value.clone()));
                    for item in who.iter().filter_map(|who| item_of(*who)) {
                        locks.entry(item).or_default().cable =
                            Some(cable.clone().unwrap_or(LockedCable::InWalls));
                    }
                }
                Decision::Together { dwellings } => {
                    for item in dwellings.iter().filter_map(|at| item_of(Who::Dwelling(*at))) {
                        locks.entry(item).or_default().together = Some((number, dwellings.len()));
                    }
                }
                Decision::NotThrough { dwellings } => {
                    for item in dwellings.iter().filter_map(|at| item_of(Who::Dwelling(*at))) {
                        locks.entry(item).or_default().not_through = true;
                    }
                }
            }
        }
        for place in self.locked_boxes.keys() {
            let is_free = |item: &usize| {
                matches!(self.items[*item].owner, Owner::Dwelling(_))
                    && locks.get(item).is_none_or(|locks| locks.at.is_none())
            };
            let length = |item: &usize| {
                let way = self.way(*place, self.items[*item].place);
                way.map_or(u64::MAX, |way| way.length_mm + self.items[*item].drop_mm)
            };
            let nearest = (0..self.items.len()).filter(is_free).min_by_key(|item| (length(item), *item));
            if let Some(nearest) = nearest {
                locks.entry(nearest).or_default().at = Some(*place);
            }
        }
        self.is_locked = !locks.is_empty() || !self.locked_boxes.is_empty();
        for (item, own) in locks {
            // A chain ends with whom no cable loops through.
            let is_end = self.items[item].ends;
            self.items[item].ends |= own.not_through;
            self.items[item].locks = ItemLocks { is_end, ..own };
        }
        if !self.supply_places.is_empty() {
            self.mains.retain(|place| self.supply_places.contains(place));
        }
    }

    /// Whether anything of the items is decided.
    pub fn has_locks(&self) -> bool {
        self.is_locked
    }

    /// Forgets what is decided of items and boxes.
    pub(crate) fn unlock(&mut self) {
        self.locked_boxes.clear();
        self.is_locked = false;
        for item in &mut self.items {
            let own = std::mem::take(&mut item.locks);
            item.ends &= !own.not_through || own.is_end;
        }
    }

    /// Whether a distributor is decided to stand here.
    pub fn is_locked_box(&self, place: usize) -> bool {
        self.locked_boxes.contains_key(&place)
    }

    /// Whether this kind of distributor may stand here.
    pub fn may_stand(&self, model: usize, place: usize) -> bool {
        let decided = self.locked_boxes.get(&place).and_then(Option::as_ref);
        decided.is_none_or(|name| *name == self.distributors[model].name)
    }

    /// Whether a run from here may serve these items: whole groups of those that are together, and whoever is served from one place
    /// from there alone. `on_box`: it starts at a distributor.
    pub fn keeps_locks(&self, on_box: bool, place: usize, items: &[usize]) -> bool {
        items.iter().all(|item| {
            let locks = &self.items[*item].locks;
            let is_whole = locks.together.is_none_or(|(group, size)| {
                let is_of = |other: &&usize| {
                    self.items[**other].locks.together.is_some_and(|(theirs, _)| theirs == group)
                };
                items.iter().filter(is_of).count() == size
            });
            is_whole && locks.at.is_none_or(|at| on_box && at == place)
        })
    }

    /// Whether this cable (`None`: all of it is in the walls) may feed these items in this order.
    pub fn may_feed(
        &self,
        place: usize,
        items: &[usize],
        wire: Option<usize>,
        branching: Option<&Branching>,
    ) -> bool {
        if !self.is_locked {
            return true;
        }
        let is_named = |name: &str| match wire {
            Some(wire) => self.wires[wire].name == name,
            None => false,
        };
        let is_locked = |item: &usize| self.items[*item].locks.cable.is_some();
        if wire.is_some_and(|wire| self.wires[wire].only_where_locked) && !items.iter().any(is_locked) {
            return false;
        }
        items.iter().filter(|item| is_locked(item)).all(|item| {
            // The cable in the walls on its chain, if it leads all the way of that.
            let (start, chain) = match branching {
                None => (place, items),
                Some(branching) => {
                    let chains = branching.boxes.iter().flat_map(|branch| {
                        branch.chains.iter().map(|chain| (branch.place, chain.as_slice()))
                    });
                    match chains.into_iter().find(|(_, chain)| chain.contains(item)) {
                        Some(found) => found,
                        None => return false,
                    }
                }
            };
            let walls = sections(self, start, chain)
                .and_then(|sections| chain_in_walls(self, start, chain, sections.environment));
            let wall = walls.as_ref().and_then(|walls| walls.first()).map(|wall| wall.cable.as_str());
            // Where new cable is drawn to a chain that old cable leads to, the old one is not used.
            let is_used = wire.is_none() || branching.is_some();
            match &self.items[*item].locks.cable {
                None => true,
                Some(LockedCable::InWalls) => wall.is_some() && is_used,
                Some(LockedCable::Named(name)) => match wall.filter(|_| is_used) {
                    Some(wall) => wall == name,
                    None => is_named(name),
                },
            }
        })
    }

    /// An order with everybody beside those whom they are together with.
    pub(crate) fn kept_together(&self, order: Vec<usize>) -> Vec<usize> {
        let group = |item: usize| self.items[item].locks.together.map(|(group, _)| group);
        if order.iter().all(|item| group(*item).is_none()) {
            return order;
        }
        let mut kept: Vec<usize> = Vec::with_capacity(order.len());
        for &item in &order {
            if kept.contains(&item) {
                continue;
            }
            match group(item) {
                None => kept.push(item),
                Some(own) => kept.extend(order.iter().copied().filter(|other| group(*other) == Some(own))),
            }
        }
        kept
    }
}
