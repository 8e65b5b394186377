//! A run laid out: its sections with what hangs on them, and the cheapest cable that bears it.

use crate::branches::Branching;
use crate::electric::{Head, Link, Sweep};
use crate::instance::Instance;
use crate::item::Owner;
use crate::money::Amount;
use crate::parts::InWall;
use crate::sections::{Sections, chain_in_walls, sections};
use latchline_site::catalogue::Environment;

/// A run with everything but its new cable.
pub struct Laid<'l> {
    links: Vec<Link<'l>>,
    /// New cable of each section in tenths of a metre, and what is in series with it; `None` where cable is in the walls.
    new: Vec<Option<(u32, f64)>>,
    /// The worst environment of the new sections.
    environment: Environment,
    /// Cost of branch boxes.
    boxes: Amount,
    /// All cable in tenths of a metre.
    total_dm: u64,
    /// To the farthest end.
    longest_dm: u64,
    dwellings: usize,
    calls: usize,
}

impl<'l> Laid<'l> {
    fn new(instance: &Instance<'_>, items: &[usize]) -> Self {
        let is_dwelling = |item: &&usize| matches!(instance.items[**item].owner, Owner::Dwelling(_));
        Laid {
            links: Vec::new(),
            new: Vec::new(),
            environment: Environment::Indoors,
            boxes: 0,
            total_dm: 0,
            longest_dm: 0,
            dwellings: items.iter().filter(is_dwelling).count(),
            calls: instance.calls_among(items),
        }
    }

    /// A chain of these sections, of new cable or, if it is there, of what is in the walls.
    pub fn chain(
        instance: &'l Instance<'_>,
        items: &[usize],
        sections: &Sections,
        walls: Option<&[&InWall]>,
    ) -> Self {
        let mut laid = Laid::new(instance, items);
        laid.longest_dm = laid.add_chain(instance, items, sections, walls, None, 0.0);
        laid
    }

    /// A run with branch boxes: the riser through them, and chains from each.
    pub fn branched(instance: &'l Instance<'_>, place: usize, branching: &Branching) -> Option<Self> {
        let items: Vec<usize> = branching.items().collect();
        let mut laid = Laid::new(instance, &items);
        let riser = branching.riser(instance, place)?;
        let walls = branching.riser_in_walls(instance, place, riser.environment);
        if walls.is_none() {
            laid.environment = laid.environment.max(riser.environment);
        }
        let mut behind = None;
        let mut so_far_dm = 0;
        for (at, branch) in branching.boxes.iter().enumerate() {
            let model = &instance.branch_boxes[branch.model];
            laid.boxes += model.cost;
            let here = laid.links.len();
            let length_dm = walls.as_ref().map_or(riser.lengths_dm[at], |walls| walls[at].length_dm);
            laid.links.push(Link {
                ohm: walls.as_ref().map_or(0.0, |walls| walls[at].ohm),
                load: &model.load,
                main: here,
                behind,
                is_box: true,
            });
            laid.new.push(walls.is_none().then_some((length_dm, 0.0)));
            so_far_dm += u64::from(length_dm);
            laid.total_dm += u64::from(length_dm);
            for chain in &branch.chains {
                let sections = sections(instance, branch.place, chain)?;
                let walls = chain_in_walls(instance, branch.place, chain, sections.environment);
                let walls = walls.as_deref();
                let own_dm = laid.add_chain(instance, chain, &sections, walls, Some(here), model.port_ohm);
                laid.longest_dm = laid.longest_dm.max(so_far_dm + own_dm);
            }
            behind = Some(here);
        }
        Some(laid)
    }

    /// Adds a chain behind a link, with `port_ohm` before its first section; gives its length.
    fn add_chain(
        &mut self,
        instance: &'l Instance<'_>,
        items: &[usize],
        sections: &Sections,
        walls: Option<&[&InWall]>,
        behind: Option<usize>,
        port_ohm: f64,
    ) -> u64 {
        if walls.is_none() {
            self.environment = self.environment.max(sections.environment);
        }
        let mut behind = behind;
        let mut in_series = port_ohm;
        let mut lengths = sections.lengths_dm.iter();
        let mut sum_dm = 0;
        let mut walls = walls.map(|walls| walls.iter());
        for &index in items {
            let main = self.links.len();
            for load in &instance.items[index].loads {
                let wall = walls.as_mut().and_then(Iterator::next);
                let length_dm = wall.map_or(lengths.next().copied().unwrap_or(0), |wall| wall.length_dm);
                let here = self.links.len();
                let ohm = wall.map_or(0.0, |wall| wall.ohm) + in_series;
                self.links.push(Link { ohm, load, main, behind, is_box: false });
                self.new.push(wall.is_none().then_some((length_dm, in_series)));
                in_series = 0.0;
                sum_dm += u64::from(length_dm);
                behind = Some(here);
            }
        }
        self.total_dm += sum_dm;
        sum_dm
    }

    /// Whether it keeps the limits of lengths and counts.
    pub fn keeps_limits(&self, instance: &Instance<'_>) -> bool {
        let limits = &instance.limits;
        let stations = self.links.iter().filter(|link| !link.is_box).count();
        self.longest_dm <= limits.longest_dm
            && self.total_dm <= limits.total_dm
            && self.dwellings <= limits.dwellings
            && (stations <= limits.stations || self.dwellings == 0)
    }

    fn new_dm(&self) -> Amount {
        self.new.iter().flatten().map(|(length_dm, _)| Amount::from(*length_dm)).sum()
    }

    /// The cheapest cable from `first_wire` on that bears it; `None` if none does. `barred` is asked for every
    /// cable (`None`: no new cable is needed).
    pub fn cheapest(
        mut self,
        instance: &Instance<'_>,
        head: &Head,
        first_wire: usize,
        sweep: &mut Sweep,
        barred: &dyn Fn(Option<usize>) -> bool,
    ) -> Option<Cheapest> {
        let all_call = instance.family.all_call.value && instance.has_desk();
        let new_dm = self.new_dm();
        if new_dm == 0 {
            let bears = !barred(None) && sweep.bears(head, &self.links, self.calls, all_call);
            return bears
                .then_some(Cheapest { first_wire, choice: Some(Cable { cost: self.boxes, wire: None }) });
        }
        let mut first = None;
        for wire in first_wire..instance.wires.len() {
            if instance.wires[wire].ohm_per_m > instance.limits.ohm_per_m {
                continue;
            }
            if !instance.wires[wire].environments.contains(&self.environment) {
                if instance.suits_elsewhere(wire, self.environment) {
                    first.get_or_insert(wire);
                }
                continue;
            }
            for (link, new) in self.links.iter_mut().zip(&self.new) {
                if let Some((length_dm, in_series)) = new {
                    link.ohm = instance.section_ohm(wire, *length_dm) + in_series;
                }
            }
            if sweep.bears(head, &self.links, self.calls, all_call) {
                let first_wire = *first.get_or_insert(wire);
                if barred(Some(wire)) {
                    continue;
                }
                let cost = self.boxes + new_dm * instance.wires[wire].per_dm;
                return Some(Cheapest { first_wire, choice: Some(Cable { cost, wire: Some(wire) }) });
            }
        }
        first.map(|first_wire| Cheapest { first_wire, choice: None })
    }
}

/// A cable for a run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cable {
    /// Cost of the cable and of branch boxes.
    pub cost: Amount,
    /// Index into the instance's wires; `None`: all of it is in the walls.
    pub wire: Option<usize>,
}

/// A run that can be made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cheapest {
    /// The first cable that bears it, or that may not run here but where a longer run may pass: no longer run of its kind
    /// bears an earlier one.
    pub first_wire: usize,
    /// The cheapest cable that is not barred; `None` if every one is.
    pub choice: Option<Cable>,
}
