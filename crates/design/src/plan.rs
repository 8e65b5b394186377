//! The cheapest plan over a walking order, by nested dynamic programming: runs make blocks (one
//! distributor each), blocks make trunks, trunks make zones (one supply each), zones make the site.
//!
//! Every level joins neighbouring intervals of the walking order, so the best of each level is found
//! by trying every split; costs are whole millionths, so no rounding comes in. The least cost over the
//! relaxed limits of [`crate::planning::relaxed`] is a lower bound for every design of the declared space: each
//! limit that it keeps is one that no passing design can break (see [`crate::electric`]).

use crate::branches::Branching;
use crate::instance::Instance;
use crate::item::Owner;
use crate::loads::{Loads, output_loads, supply_loads};
use crate::money::{Amount, NONE};
use crate::runs::{RunChoice, Tables};
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
    /// Its branch boxes, if it has any.
    pub branching: Option<Branching>,
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
    /// Trunks to further distributors, on the ports after those of the runs.
    pub trunks: Vec<PlannedTrunk>,
}

/// A trunk of a plan: distributors that one cable is looped through, or a run without any.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedTrunk {
    /// Its distributors in order.
    pub boxes: Vec<PlannedBox>,
    /// Its cable.
    pub wire: usize,
    /// Pairs in parallel, where its cable has so many.
    pub pairs: u32,
    /// The run that hangs on the output itself; there are no distributors then.
    pub run: Option<PlannedRun>,
}

impl PlannedTrunk {
    /// Shows it and every trunk behind it.
    fn each<'t>(&'t self, see: &mut dyn FnMut(&'t PlannedTrunk)) {
        see(self);
        self.boxes.iter().flat_map(|planned| &planned.trunks).for_each(|trunk| trunk.each(see));
    }

    /// Shows it and every trunk behind it, to be changed.
    fn each_mut(&mut self, change: &mut dyn FnMut(&mut PlannedTrunk)) {
        change(self);
        self.boxes
            .iter_mut()
            .flat_map(|planned| &mut planned.trunks)
            .for_each(|trunk| trunk.each_mut(change));
    }
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
    /// Its batteries in parallel, where it has any.
    pub batteries: u32,
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
    pub cost: Amount,
    /// Supplies at most among the plans that it is the cheapest of.
    pub most_supplies: usize,
}

impl Plan {
    /// All its trunks, those on ports of distributors included.
    pub fn trunks(&self) -> Vec<&PlannedTrunk> {
        let mut trunks = Vec::new();
        self.zones
            .iter()
            .flat_map(|zone| &zone.trunks)
            .for_each(|trunk| trunk.each(&mut |one| trunks.push(one)));
        trunks
    }

    /// Changes all its trunks.
    pub fn change_trunks(&mut self, change: &mut dyn FnMut(&mut PlannedTrunk)) {
        self.zones.iter_mut().flat_map(|zone| &mut zone.trunks).for_each(|trunk| trunk.each_mut(change));
    }

    /// All its runs, each with its distributor; `None`: on an output of the supply.
    pub fn runs(&self) -> Vec<(Option<&PlannedBox>, &PlannedRun)> {
        let mut runs = Vec::new();
        for trunk in self.trunks() {
            runs.extend(trunk.run.iter().map(|run| (None, run)));
            for planned in &trunk.boxes {
                runs.extend(planned.runs.iter().map(|run| (Some(planned), run)));
            }
        }
        runs
    }

    /// The same plan for other places and items.
    pub fn mapped(&self, place: &dyn Fn(usize) -> usize, item: &dyn Fn(usize) -> usize) -> Plan {
        let mut plan = self.clone();
        for zone in &mut plan.zones {
            zone.place = place(zone.place);
            zone.isolator_place = place(zone.isolator_place);
        }
        plan.change_trunks(&mut |trunk| {
            trunk.boxes.iter_mut().for_each(|planned| planned.place = place(planned.place));
            let on_ports = trunk.boxes.iter_mut().flat_map(|planned| &mut planned.runs);
            for run in on_ports.chain(&mut trunk.run) {
                run.items.iter_mut().for_each(|one| *one = item(*one));
                for branch in run.branching.iter_mut().flat_map(|branching| &mut branching.boxes) {
                    branch.place = place(branch.place);
                    branch.chains.iter_mut().flatten().for_each(|one| *one = item(*one));
                }
            }
        });
        plan
    }
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
    pub(crate) tables: &'p Tables,
    /// By first item: one past the last that one supply can carry.
    pub(crate) reach: Vec<usize>,
    pub(crate) blocks: Vec<Vec<Block>>,
    /// What intervals ask of a supply.
    pub(crate) loads: Loads,
    /// By kind: what intervals ask of the output of a regenerating box.
    pub(crate) outputs: Vec<Option<Loads>>,
    /// Trunk from each box place to each.
    pub(crate) between: Vec<Vec<Amount>>,
}

/// The best distributors for items from one on, by place: cost and kind for 0, 1, 2, ... items.
pub(crate) type Block = Vec<(Amount, u8)>;

/// Where a trunk begins.
#[derive(Clone, Copy)]
pub(crate) struct TrunkStart {
    pub(crate) place: usize,
    /// The first distributor must stand here.
    pub(crate) first_at: Option<usize>,
}

impl<'p, 'a> Planner<'p, 'a> {
    pub(crate) fn new(
        instance: &'p Instance<'a>,
        order: &'p [usize],
        root: usize,
        assumptions: Assumptions,
        tables: &'p Tables,
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
        };
        let places = &instance.box_places;
        planner.between =
            places.iter().map(|a| places.iter().map(|b| planner.trunk_cost(*a, *b)).collect()).collect();
        planner.reach = (0..order.len()).map(|first| planner.reach_from(first)).collect();
        planner.blocks = (0..order.len()).into_par_iter().map(|first| planner.blocks_from(first)).collect();
        planner
    }

    pub(crate) fn busiest_a(&self, first: usize, end: usize) -> f64 {
        self.loads.busiest_a(first, end)
    }

    pub(crate) fn share(&self, first: usize, end: usize) -> f64 {
        self.loads.share(first, end)
    }

    /// The cheapest supply that carries an interval.
    pub(crate) fn supply(&self, first: usize, end: usize, outputs: usize) -> Option<usize> {
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

    pub(crate) fn is_dwelling(&self, at: usize) -> bool {
        matches!(self.instance.items[self.order[at]].owner, Owner::Dwelling(_))
    }

    pub(crate) fn trunk_cost(&self, from: usize, to: usize) -> Amount {
        self.instance.way(from, to).map_or(NONE, |way| {
            let wire = self.instance.trunk_wire(self.assumptions.trunk_wire, way.environment);
            Amount::from(self.instance.section_dm(way.length_mm, 0)) * self.instance.wires[wire].per_dm
        })
    }

    /// The box place nearest to a place; ties go to the first.
    pub(crate) fn nearest_box(&self, place: usize) -> usize {
        let length = |other: &usize| self.instance.way(place, *other).map_or(u64::MAX, |way| way.length_mm);
        self.instance.box_places.iter().copied().min_by_key(length).unwrap_or(place)
    }
}

/// A step of a trunk: a block that ends here at this place.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Step {
    pub(crate) cost: Amount,
    pub(crate) from: usize,
    pub(crate) before: usize,
    pub(crate) model: u8,
}

pub(crate) struct Trunk {
    pub(crate) cost: Vec<Amount>,
    pub(crate) last: Vec<usize>,
    pub(crate) steps: Vec<Vec<Step>>,
}
