//! Distributors with trunks on their ports: cascades.

use crate::arrangement::Arrangement;
use crate::money::NONE;
use crate::plan::{Block, Planner, Trunk, TrunkStart};
use crate::runs::{Layout, RunChoice, RunTable};
use rayon::prelude::*;

/// Items of a bus up to which distributors may hang on another one's ports.
pub const MOST_CASCADED: usize = 120;
/// The distributor with trunks on its ports stands at one of so many box places, the nearest to the first supply.
pub const NEAR_HUBS: usize = 3;

/// A distributor whose ports take runs and trunks, at one place.
pub(crate) struct Hub {
    /// Index into the box places.
    pub(crate) place: usize,
    /// By kind: what a port may take, a run or a trunk.
    pub(crate) tables: Vec<RunTable>,
    /// By first item: the trunks on a port.
    pub(crate) trunks: Vec<Trunk>,
    /// By first item: the best kind for 0, 1, 2, ... items.
    pub(crate) blocks: Vec<Block>,
}

impl Planner<'_, '_> {
    /// Such distributors near the first supply.
    pub(crate) fn hubs(&self) -> Vec<Hub> {
        let places = &self.instance.box_places;
        if self.order.len() > MOST_CASCADED || self.instance.limits.cascade < 2 || places.len() < 2 {
            return Vec::new();
        }
        let length =
            |at: &usize| self.instance.way(self.root, places[*at]).map_or(u64::MAX, |way| way.length_mm);
        let mut near: Vec<usize> = (0..places.len()).collect();
        near.sort_by_key(|at| (length(at), *at));
        near.truncate(NEAR_HUBS);
        near.into_iter().map(|place| self.hub(place)).collect()
    }

    fn hub(&self, place: usize) -> Hub {
        let count = self.order.len();
        let start = TrunkStart { place: self.instance.box_places[place], first_at: None };
        let trunks: Vec<Trunk> = (0..count).into_par_iter().map(|first| self.trunk(start, first)).collect();
        let kinds = self.instance.distributors.iter().enumerate();
        let table = |(model, kind): (usize, &crate::parts::Distributor)| {
            let row = |first: usize| {
                let runs = &self.tables.ports[model][place].from[first];
                let trunk = &trunks[first].cost;
                let may_stand = self.instance.may_stand(model, self.instance.box_places[place]);
                let piece = |at: usize| {
                    let run = runs.get(at).copied().unwrap_or(NO_PIECE);
                    let cost = trunk.get(at + 1).copied().unwrap_or(NONE);
                    let within =
                        self.busiest_a(first, first + at + 1) <= kind.limit_a * self.assumptions.fill;
                    if cost < run.cost && within && may_stand {
                        RunChoice { cost, wire: None, layout: Layout::Trunk }
                    } else {
                        run
                    }
                };
                (0..self.reach[first] - first).map(piece).collect()
            };
            RunTable { from: (0..count).map(row).collect() }
        };
        let tables: Vec<RunTable> = kinds.map(table).collect();
        let blocks =
            (0..count).into_par_iter().map(|first| self.block_of(first, &|model| &tables[model])).collect();
        Hub { place, tables, trunks, blocks }
    }
}

/// Where neither a run nor a trunk can be.
const NO_PIECE: RunChoice = RunChoice { cost: NONE, wire: None, layout: Layout::Chain(Arrangement::Forward) };
