//! A survey with one family, made ready: what is to be fed, from where, by what, at which cost.

use crate::item::{Item, Owner};
use crate::limits::Limits;
use crate::money::Amount;
use crate::obstacle::Obstacle;
use crate::parts::{
    BranchModel, Distributor, InWall, Isolator, Supply, Wire, branch_box, distributor, in_walls, isolator,
    supply, wires,
};
use crate::station_load::station;
use latchline_finding::Both;
use latchline_site::catalogue::{BoxKind, BoxRole, Catalogue, Environment, Family, StationKind};
use latchline_site::model::USUAL_JOINT_OHM;
use latchline_survey::Survey;
use latchline_survey::model::Place;
use latchline_survey::routes::Way;
use latchline_words::design::LackingPart;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Everything that a plan needs.
#[derive(Clone)]
pub struct Instance<'a> {
    /// The survey.
    pub survey: &'a Survey,
    /// The catalogue.
    pub catalogue: &'a Catalogue,
    /// The family.
    pub family: &'a Family,
    /// Items in the order of the survey: entrances, desks, dwellings.
    pub items: Vec<Item>,
    /// Cables, cheapest first, without those that a cheaper one is better than.
    pub wires: Vec<Wire>,
    /// Cables in the walls by the names of their ends, each from either.
    pub in_walls: Arc<BTreeMap<String, BTreeMap<String, InWall>>>,
    /// By place: whether a cable in the walls ends there.
    pub walls_end_at: Vec<bool>,
    /// Distributors by price.
    pub distributors: Vec<Distributor>,
    /// Branch boxes by price.
    pub branch_boxes: Vec<BranchModel>,
    /// The cheapest isolating box.
    pub isolator: Option<Isolator>,
    /// Supplies by price.
    pub supplies: Vec<Supply>,
    /// Places with boxes.
    pub box_places: Vec<usize>,
    /// By place: the box places, the nearest first.
    nearest_boxes: Vec<Vec<usize>>,
    /// Places with mains; of those, the ones that are decided for supplies, if any is.
    pub mains: Vec<usize>,
    /// Places that are decided for supplies.
    pub supply_places: Vec<usize>,
    /// Whether anything of items or distributors is decided.
    pub is_locked: bool,
    /// Places that are decided for distributors, with the model where that is decided, too.
    pub locked_boxes: BTreeMap<usize, Option<String>>,
    /// Shortest ways between all places, from each place.
    pub ways: Arc<Vec<Vec<Option<Way>>>>,
    /// Environments that ways and drops pass.
    pub environments: BTreeSet<Environment>,
    /// Cost of what every design has: stations, locks, lock cables.
    pub fixed: Amount,
    /// Model of every door station, desk and dwelling that names no other: for the head of the file.
    pub default_indoor: String,
    /// Calls at once.
    pub calls: usize,
    /// Door stations and desks, as items; of more than 128 the first ones (fewer callers make a lower bound lower).
    pub callers: Vec<usize>,
    /// Whether each caller has a dwelling to call.
    pub calls_anyone: Vec<bool>,
    /// Limits of one run.
    pub limits: Limits,
    /// What was settled of the survey, so that the family can number it.
    pub settled: Vec<Both>,
}

impl<'a> Instance<'a> {
    /// Makes a survey ready for one family.
    ///
    /// # Errors
    /// [`Obstacle`] that no design of this family can pass.
    pub fn new(survey: &'a Survey, catalogue: &'a Catalogue, family: &'a Family) -> Result<Self, Obstacle> {
        let name = family.head.name.as_str();
        let ours = |part: &str| part == name;
        let settings = &survey.settings;
        let default_indoor = station(
            survey,
            catalogue,
            name,
            StationKind::Indoor,
            settings.media,
            0,
            settings.indoor_station.as_ref().map(|model| model.value.as_str()),
        )?;
        let mut instance = Instance {
            survey,
            catalogue,
            family,
            items: Vec::new(),
            wires: wires(survey, catalogue, family),
            in_walls: Arc::new(in_walls(survey, catalogue)?),
            walls_end_at: Vec::new(),
            distributors: catalogue
                .boxes
                .values()
                .filter(|model| ours(&model.family.value) && model.role.value == BoxRole::Distributor)
                .filter(|model| model.kind.value != BoxKind::Isolating)
                .filter_map(|model| distributor(model, survey))
                .collect(),
            branch_boxes: catalogue
                .boxes
                .values()
                .filter(|model| ours(&model.family.value) && model.role.value == BoxRole::BranchBox)
                .filter(|model| model.kind.value == BoxKind::Transparent)
                .filter_map(|model| branch_box(model, survey))
                .collect(),
            isolator: catalogue
                .boxes
                .values()
                .filter(|model| ours(&model.family.value) && model.kind.value == BoxKind::Isolating)
                .filter_map(|model| isolator(model, survey))
                .min_by_key(|isolator| isolator.cost),
            supplies: catalogue
                .supplies
                .values()
                .filter(|model| ours(&model.family.value))
                .filter(|model| settings.standby_hours.is_none() || model.battery.is_some())
                .filter_map(|model| supply(model, survey))
                .collect(),
            box_places: (0..survey.places.len()).filter(|place| survey.may_hang(*place)).collect(),
            nearest_boxes: Vec::new(),
            mains: (0..survey.places.len()).filter(|place| survey.places[*place].mains).collect(),
            supply_places: Vec::new(),
            is_locked: false,
            locked_boxes: BTreeMap::new(),
            ways: Arc::new((0..survey.places.len()).map(|place| survey.routes.ways_from(place)).collect()),
            environments: BTreeSet::new(),
            fixed: 0,
            default_indoor: default_indoor.head.name.clone(),
            calls: family.simultaneous_calls.value.max(1) as usize,
            callers: Vec::new(),
            calls_anyone: Vec::new(),
            limits: Limits::of(survey, family),
            settled: Vec::new(),
        };
        instance.distributors.sort_by(|a, b| a.cost.cmp(&b.cost).then(a.name.cmp(&b.name)));
        instance.branch_boxes.sort_by(|a, b| a.cost.cmp(&b.cost).then(a.name.cmp(&b.name)));
        let ends_at = |place: &Place| instance.in_walls.contains_key(&place.name.value);
        instance.walls_end_at = survey.places.iter().map(ends_at).collect();
        instance.nearest_boxes = (0..survey.places.len()).map(|place| instance.boxes_near(place)).collect();
        instance.supplies.sort_by(|a, b| a.cost.cmp(&b.cost).then(a.name.cmp(&b.name)));
        if instance.distributors.is_empty() {
            return Err(Obstacle::NoPart { family: name.to_string(), part: LackingPart::Distributor });
        }
        if instance.supplies.is_empty() {
            let part = if settings.standby_hours.is_some() {
                LackingPart::SupplyWithBattery
            } else {
                LackingPart::Supply
            };
            return Err(Obstacle::NoPart { family: name.to_string(), part });
        }
        if instance.wires.is_empty() {
            return Err(Obstacle::NoPart { family: name.to_string(), part: LackingPart::Cable });
        }
        instance.items(name)?;
        instance.lock();
        instance.fixed = instance.items.iter().map(|item| item.own_cost).sum();
        instance.who_calls_whom();
        let ways = instance.ways.iter().flatten().flatten().map(|way| way.environment);
        instance.environments = ways.chain(instance.items.iter().map(|item| item.environment)).collect();
        Ok(instance)
    }

    /// The same for some of the items alone, as a bus of their own. Its boxes and supplies stand in the buildings of those items, where
    /// there are places for them.
    pub fn only(&self, items: &[usize]) -> Self {
        let mut own = self.clone();
        own.items = items.iter().map(|item| self.items[*item].clone()).collect();
        own.fixed = own.items.iter().map(|item| item.own_cost).sum();
        own.callers.clear();
        own.calls_anyone.clear();
        own.items.iter_mut().for_each(|item| item.called_by = 0);
        own.who_calls_whom();
        if items.len() == self.items.len() {
            return own;
        }
        let building = |place: &usize| self.survey.places[*place].building;
        let buildings: BTreeSet<Option<usize>> = own.items.iter().map(|item| building(&item.place)).collect();
        let decided: BTreeSet<usize> = own.items.iter().filter_map(|item| item.locks.at).collect();
        let within = |places: &Vec<usize>| -> Vec<usize> {
            let inside: Vec<usize> = places
                .iter()
                .copied()
                .filter(|place| buildings.contains(&building(place)) || decided.contains(place))
                .collect();
            if inside.is_empty() { places.clone() } else { inside }
        };
        own.box_places = within(&self.box_places);
        own.mains = within(&self.mains);
        let kept: BTreeSet<usize> = own.box_places.iter().copied().collect();
        own.nearest_boxes.iter_mut().for_each(|places| places.retain(|place| kept.contains(place)));
        own
    }

    /// Whether a cable may loop through these items in this order.
    pub fn may_chain(&self, items: &[usize]) -> bool {
        let before_last = &items[..items.len().saturating_sub(1)];
        before_last.iter().all(|item| !self.items[*item].ends)
            && (items.len() < 2 || items.iter().all(|item| !self.items[*item].solo))
    }

    /// Whether it has a desk.
    pub fn has_desk(&self) -> bool {
        self.items.iter().any(|item| matches!(item.owner, Owner::Desk(_)))
    }

    /// Length of a section along a way plus drops, with slack and terminations, in tenths of a metre.
    pub fn section_dm(&self, way_mm: u64, drops_mm: u64) -> u32 {
        let settings = &self.survey.settings;
        let route_m = (way_mm + drops_mm) as f64 / 1e3;
        let length_m = route_m * (1.0 + settings.slack) + 2.0 * settings.termination_m;
        ((length_m * 10.0 - 1e-6).ceil()).max(1.0) as u32
    }

    /// Adverse loop resistance of a section.
    pub fn section_ohm(&self, wire: usize, length_dm: u32) -> f64 {
        self.wires[wire].ohm_per_m * f64::from(length_dm) / 10.0 + 4.0 * USUAL_JOINT_OHM
    }

    /// Whether another place or way of the site could let this cable run that may not run here.
    pub fn suits_elsewhere(&self, wire: usize, environment: Environment) -> bool {
        let occurs = |further: &Environment| *further > environment && self.environments.contains(further);
        self.wires[wire].environments.iter().any(occurs)
    }

    /// The cable of a trunk where it may run (`None`: the cheapest there): itself, or the cheapest of at least its thickness, or the
    /// thickest that may run there.
    pub fn trunk_wire(&self, wire: Option<usize>, environment: Environment) -> usize {
        let fits = |at: &usize| {
            let wire = &self.wires[*at];
            wire.environments.contains(&environment) && !wire.only_where_locked
        };
        let Some(wire) = wire else { return (0..self.wires.len()).find(fits).unwrap_or(0) };
        if fits(&wire) {
            return wire;
        }
        let ohm = self.wires[wire].ohm_per_m;
        let mut suited = (0..self.wires.len()).filter(fits);
        let thickest =
            suited.clone().min_by(|a, b| self.wires[*a].ohm_per_m.total_cmp(&self.wires[*b].ohm_per_m));
        suited.find(|at| self.wires[*at].ohm_per_m <= ohm).or(thickest).unwrap_or(wire)
    }

    fn boxes_near(&self, place: usize) -> Vec<usize> {
        let length_mm = |other: &usize| self.way(*other, place).map_or(u64::MAX, |way| way.length_mm);
        let mut places = self.box_places.clone();
        places.sort_by_key(|other| (length_mm(other), *other));
        places
    }

    /// The box places, the nearest to an item first.
    pub fn near_boxes(&self, item: usize) -> &[usize] {
        &self.nearest_boxes[self.items[item].place]
    }

    /// The way between two places.
    pub fn way(&self, from: usize, to: usize) -> Option<Way> {
        self.ways[from][to]
    }
}
