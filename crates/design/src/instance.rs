//! A survey with one family, made ready: what is to be fed, from where, by what, at which cost.

use crate::electric::{Draw, StationLoad};
use crate::money::Amount;
use crate::obstacle::Obstacle;
use crate::parts::{
    LockLoad, branch_box, cost_of, distributor, in_walls, isolator, load_of, lock_load, station, supply,
    wires,
};
use latchline_site::catalogue::{
    BoxKind, BoxRole, Catalogue, Environment, Family, LoopThrough, StationKind, StationModel,
};
use latchline_survey::Survey;
use latchline_survey::model::Wiring;
use latchline_survey::routes::Way;
use std::collections::{BTreeMap, BTreeSet};

/// Resistance of one terminal in one conductor, as site files have it by default.
pub const JOINT_OHM: f64 = 0.01;

/// Whose an item is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Owner {
    /// A dwelling of the survey.
    Dwelling(usize),
    /// An entrance.
    Entrance(usize),
    /// A desk.
    Desk(usize),
}

/// Something that hangs on a run: a dwelling with all its stations, a door station, a desk.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Whose it is.
    pub owner: Owner,
    /// Its name in the site file.
    pub name: String,
    /// Place of the survey.
    pub place: usize,
    /// Cable from there, in millimetres.
    pub drop_mm: u64,
    /// Length of the sections between its stations, in tenths of a metre.
    pub extension_dm: u32,
    /// Models of its stations, the main one first.
    pub models: Vec<String>,
    /// Their loads.
    pub loads: Vec<StationLoad>,
    /// Whether it must be alone on its run.
    pub solo: bool,
    /// Where its drop runs.
    pub environment: Environment,
    /// Who can call it: a bit for each of [`Instance::callers`].
    pub called_by: u128,
}

impl Item {
    /// Its stations by name, the main one first.
    pub fn stops(&self) -> Vec<String> {
        let further = (2..=self.models.len()).map(|ordinal| format!("{}:{ordinal}", self.name));
        std::iter::once(self.name.clone()).chain(further).collect()
    }
}

/// A cable that may be pulled.
#[derive(Debug, Clone, PartialEq)]
pub struct Wire {
    /// Name in the catalogue.
    pub name: String,
    /// Cost of a tenth of a metre.
    pub per_dm: Amount,
    /// Loop resistance per metre in the adverse corner.
    pub ohm_per_m: f64,
    /// Where it may run.
    pub environments: Vec<Environment>,
}

/// A cable in the walls.
#[derive(Debug, Clone, PartialEq)]
pub struct InWall {
    /// Index into the survey's list.
    pub index: usize,
    /// Name of the cable.
    pub cable: String,
    /// Length in tenths of a metre.
    pub length_dm: u32,
    /// Adverse loop resistance in ohms.
    pub ohm: f64,
}

/// A distributor that may be used.
#[derive(Debug, Clone, PartialEq)]
pub struct Distributor {
    /// Name in the catalogue.
    pub name: String,
    /// Ports.
    pub ports: usize,
    /// Cost with labour.
    pub cost: Amount,
    /// Series resistance to a port.
    pub port_ohm: f64,
    /// Current limit of a port.
    pub limit_a: f64,
    /// Regenerated: low end of its voltage, resistance behind it, output power, efficiency.
    pub regenerated: Option<Regenerated>,
    /// Own consumption.
    pub own: Draw,
}

/// What a regenerating distributor gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Regenerated {
    /// Low end of its output voltage.
    pub voltage_v: f64,
    /// Resistance behind it.
    pub ohm: f64,
    /// Output power.
    pub power_w: f64,
    /// Efficiency.
    pub efficiency: f64,
}

/// An isolating box: begins every bus beside the first.
#[derive(Debug, Clone, PartialEq)]
pub struct Isolator {
    /// Name in the catalogue.
    pub name: String,
    /// Ports.
    pub ports: usize,
    /// Cost with labour.
    pub cost: Amount,
    /// Current limit of a port.
    pub limit_a: f64,
}

/// A branch box that may be used: divides a run without regenerating it.
#[derive(Debug, Clone, PartialEq)]
pub struct BranchModel {
    /// Name in the catalogue.
    pub name: String,
    /// Ports.
    pub ports: usize,
    /// Cost with labour.
    pub cost: Amount,
    /// Series resistance to a port.
    pub port_ohm: f64,
    /// Its own consumption, with the least voltage that it needs.
    pub load: StationLoad,
}

/// A supply that may be used.
#[derive(Debug, Clone, PartialEq)]
pub struct Supply {
    /// Name in the catalogue.
    pub name: String,
    /// Cost with labour.
    pub cost: Amount,
    /// Low end of its voltage.
    pub voltage_v: f64,
    /// Resistance behind it.
    pub ohm: f64,
    /// Rated current, and rated power at the low end of the voltage as current: the smaller.
    pub rated_a: f64,
    /// Output terminals.
    pub outputs: usize,
}

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
    /// Cables in the walls by the names of their ends.
    pub in_walls: BTreeMap<(String, String), InWall>,
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
    /// Places with mains.
    pub mains: Vec<usize>,
    /// Shortest ways between all places, from each place.
    pub ways: Vec<Vec<Option<Way>>>,
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
}

/// Limits of one run and box.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Stations on a run.
    pub stations: usize,
    /// Dwellings on a run.
    pub dwellings: usize,
    /// Items that one cable may be looped through.
    pub chain: usize,
    /// Whether a run may have branch boxes.
    pub branches: bool,
    /// Longest run in tenths of a metre.
    pub longest_dm: u64,
    /// All cable of a run in tenths of a metre.
    pub total_dm: u64,
    /// Ports kept free on every distributor that serves dwellings.
    pub spare: usize,
    /// Most distributors one behind the other.
    pub cascade: usize,
}

impl Limits {
    fn of(survey: &Survey, family: &Family) -> Limits {
        let settings = &survey.settings;
        let count = |limit: u32| limit as usize;
        let metres = |metres: f64| (metres * 10.0 + 1e-6).floor() as u64;
        let stations = family.stations_per_port.as_ref().map_or(usize::MAX, |limit| count(limit.value));
        let chains = family.chains.value && settings.wiring.value == Wiring::Chains;
        let branches = family.branches.value && settings.wiring.value != Wiring::Stars;
        let group = settings.largest_group.as_ref().map_or(usize::MAX, |limit| count(limit.value));
        Limits {
            stations: stations.saturating_sub(count(settings.growth)),
            dwellings: if chains || branches { group } else { group.min(1) },
            chain: if chains { usize::MAX } else { 1 },
            branches,
            longest_dm: family.longest_run.as_ref().map_or(u64::MAX / 2, |run| metres(run.value.as_metres())),
            total_dm: family
                .total_length_per_port
                .as_ref()
                .map_or(u64::MAX / 2, |total| metres(total.value.as_metres())),
            spare: settings.spare_ports.as_ref().map_or(0, |spare| count(spare.value)),
            cascade: family.cascade_depth.as_ref().map_or(usize::MAX, |depth| count(depth.value)),
        }
    }
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
            in_walls: in_walls(survey, catalogue)?,
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
            box_places: (0..survey.places.len()).filter(|place| survey.places[*place].boxes).collect(),
            nearest_boxes: Vec::new(),
            mains: (0..survey.places.len()).filter(|place| survey.places[*place].mains).collect(),
            ways: (0..survey.places.len()).map(|place| survey.routes.ways_from(place)).collect(),
            environments: BTreeSet::new(),
            fixed: 0,
            default_indoor: default_indoor.head.name.clone(),
            calls: family.simultaneous_calls.value.max(1) as usize,
            callers: Vec::new(),
            calls_anyone: Vec::new(),
            limits: Limits::of(survey, family),
        };
        instance.distributors.sort_by(|a, b| a.cost.cmp(&b.cost).then(a.name.cmp(&b.name)));
        instance.branch_boxes.sort_by(|a, b| a.cost.cmp(&b.cost).then(a.name.cmp(&b.name)));
        instance.nearest_boxes = (0..survey.places.len()).map(|place| instance.boxes_near(place)).collect();
        instance.supplies.sort_by(|a, b| a.cost.cmp(&b.cost).then(a.name.cmp(&b.name)));
        if instance.distributors.is_empty() {
            return Err(Obstacle::NoPart { family: name.to_string(), kind: "distributor with a price" });
        }
        if instance.supplies.is_empty() {
            let kind = if settings.standby_hours.is_some() {
                "supply with a battery and a price"
            } else {
                "supply with a price"
            };
            return Err(Obstacle::NoPart { family: name.to_string(), kind });
        }
        if instance.wires.is_empty() {
            return Err(Obstacle::NoPart { family: name.to_string(), kind: "cable with a price" });
        }
        instance.items(name)?;
        instance.who_calls_whom();
        let ways = instance.ways.iter().flatten().flatten().map(|way| way.environment);
        instance.environments = ways.chain(instance.items.iter().map(|item| item.environment)).collect();
        Ok(instance)
    }

    fn items(&mut self, family: &str) -> Result<(), Obstacle> {
        let survey = self.survey;
        let settings = &survey.settings;
        let limit =
            |count: usize, limit: &Option<latchline_finding::Sourced<u32>>, what: &'static str| match limit {
                Some(limit) if count > limit.value as usize => {
                    Err(Obstacle::Count { what, count, limit: limit.value as usize })
                }
                _ => Ok(()),
            };
        limit(survey.entrances.len(), &self.family.door_stations, "door stations of one site")?;
        for (index, entrance) in survey.entrances.iter().enumerate() {
            let media = entrance.media.unwrap_or(settings.media);
            let called = called(survey, &entrance.calls);
            let wanted = entrance.station.as_ref().or(settings.door_station.as_ref());
            let wanted = wanted.map(|model| model.value.as_str());
            let model = station(survey, self.catalogue, family, StationKind::Door, media, called, wanted)?;
            let lock = lock_load(self.catalogue, entrance);
            let load = load_of(model, true, entrance.heater, lock);
            let place = entrance.place;
            self.add(Owner::Entrance(index), &entrance.name.value, place, entrance.drop_m, &[model], &[load]);
            if let Some(item) = self.items.last_mut() {
                item.environment = entrance.environment;
            }
            self.lock_cost(entrance);
        }
        for (index, desk) in survey.desks.iter().enumerate() {
            let wanted = desk.station.as_ref().map(|model| model.value.as_str());
            let media = settings.media;
            let model = station(survey, self.catalogue, family, StationKind::Management, media, 0, wanted)?;
            let load = load_of(model, true, false, LockLoad::None);
            self.add(Owner::Desk(index), &desk.name.value, desk.place, desk.drop_m, &[model], &[load]);
        }
        for (index, dwelling) in survey.dwellings.iter().enumerate() {
            let wanted = dwelling.station.as_ref().or(settings.indoor_station.as_ref());
            let wanted = wanted.map(|model| model.value.as_str());
            let media = settings.media;
            let main = station(survey, self.catalogue, family, StationKind::Indoor, media, 0, wanted)?;
            let mut models = vec![main];
            for extension in &dwelling.extensions {
                let wanted = if extension.is_empty() { main.head.name.as_str() } else { extension.as_str() };
                models.push(station(
                    survey,
                    self.catalogue,
                    family,
                    StationKind::Indoor,
                    media,
                    0,
                    Some(wanted),
                )?);
            }
            limit(models.len(), &self.family.stations_per_dwelling, "stations of one dwelling")?;
            let loads: Vec<StationLoad> =
                models.iter().map(|model| load_of(model, models.len() == 1, false, LockLoad::None)).collect();
            let place = dwelling.place;
            self.add(Owner::Dwelling(index), &dwelling.name.value, place, dwelling.drop_m, &models, &loads);
            if let Some(item) = self.items.last_mut() {
                let termination_m = 2.0 * settings.termination_m;
                let length_m = dwelling.extension_m * (1.0 + settings.slack) + termination_m;
                item.extension_dm = (length_m * 10.0 - 1e-6).ceil().max(1.0) as u32;
            }
        }
        Ok(())
    }

    /// Marks on every item who can call it. A scope that is not understood calls nobody here: fewer calls
    /// make a lower bound lower.
    fn who_calls_whom(&mut self) {
        let survey = self.survey;
        for item in 0..self.items.len() {
            let words = match self.items[item].owner {
                Owner::Entrance(index) => &survey.entrances[index].calls,
                Owner::Desk(index) => &survey.desks[index].calls,
                Owner::Dwelling(_) => continue,
            };
            let number = self.callers.len();
            if number == 128 {
                break;
            }
            self.callers.push(item);
            let mut anyone = false;
            for other in &mut self.items {
                let Owner::Dwelling(index) = other.owner else { continue };
                if words.is_empty() || words.iter().any(|word| reaches(survey, word, index)) {
                    other.called_by |= 1 << number;
                    anyone = true;
                }
            }
            self.calls_anyone.push(anyone);
            if anyone {
                self.items[item].called_by |= 1 << number;
            }
        }
    }

    /// How many of these items can be in a call at once, whichever they are: as many as callers reach all of
    /// them; else one, if somebody reaches the last.
    pub fn calls_among(&self, items: &[usize]) -> usize {
        let all = items.iter().fold(u128::MAX, |all, item| all & self.items[*item].called_by);
        let last = items.last().is_some_and(|item| self.items[*item].called_by != 0);
        (all.count_ones() as usize).max(usize::from(last)).min(self.calls)
    }

    fn add(
        &mut self,
        owner: Owner,
        name: &str,
        place: usize,
        drop_m: f64,
        models: &[&StationModel],
        loads: &[StationLoad],
    ) {
        let is_dwelling = matches!(owner, Owner::Dwelling(_));
        let ends = models.iter().any(|model| model.loop_through.value == LoopThrough::End);
        for model in models {
            self.fixed += cost_of(&model.head, self.survey).unwrap_or(0);
        }
        self.items.push(Item {
            owner,
            name: name.to_string(),
            place,
            drop_mm: (drop_m * 1e3).round() as u64,
            extension_dm: 0,
            models: models.iter().map(|model| model.head.name.clone()).collect(),
            loads: loads.to_vec(),
            solo: !is_dwelling || ends,
            environment: Environment::Indoors,
            called_by: 0,
        });
    }

    fn lock_cost(&mut self, entrance: &latchline_survey::model::Entrance) {
        let Some(lock) = &entrance.lock else { return };
        if let Some(model) = self.catalogue.locks.get(&lock.model.value) {
            self.fixed += cost_of(&model.head, self.survey).unwrap_or(0);
        }
        if let (Some(cable), Some(length_m)) = (&lock.cable, lock.length_m)
            && let Some(cable) = self.catalogue.cables.get(cable)
        {
            let per_m = cost_of(&cable.head, self.survey).unwrap_or(0);
            self.fixed += (per_m as f64 * length_m).floor() as Amount;
        }
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
        self.wires[wire].ohm_per_m * f64::from(length_dm) / 10.0 + 4.0 * JOINT_OHM
    }

    /// Whether another place or way of the site could let this cable run that may not run here.
    pub fn suits_elsewhere(&self, wire: usize, environment: Environment) -> bool {
        let occurs = |further: &Environment| *further > environment && self.environments.contains(further);
        self.wires[wire].environments.iter().any(occurs)
    }

    /// The cable of a trunk where it may run (`None`: the cheapest there): itself, or the cheapest of at least its thickness, or the
    /// thickest that may run there.
    pub fn trunk_wire(&self, wire: Option<usize>, environment: Environment) -> usize {
        let fits = |at: &usize| self.wires[*at].environments.contains(&environment);
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

/// Whether a word of a scope certainly names a dwelling.
fn reaches(survey: &Survey, word: &str, dwelling: usize) -> bool {
    let dwelling = &survey.dwellings[dwelling];
    if word == "everyone" || word == dwelling.name.value {
        return true;
    }
    let place = &survey.places[dwelling.place];
    let building = place.building.map(|at| survey.buildings[at].name.value.as_str());
    let mut parts = word.split('/');
    let is_here = |part: &str| Some(part) == place.core.as_deref() || Some(part) == place.floor.as_deref();
    parts.next() == building && building.is_some() && parts.all(is_here)
}

/// How many dwellings an entrance calls.
fn called(survey: &Survey, words: &[String]) -> usize {
    if words.is_empty() {
        return survey.dwellings.len();
    }
    let in_building = |word: &str| {
        let building = survey.buildings.iter().position(|building| building.name.value == word);
        let inside = |place: usize| building.is_some() && survey.places[place].building == building;
        survey.dwellings.iter().filter(|dwelling| inside(dwelling.place)).count()
    };
    let one = |word: &str| match word {
        "everyone" => survey.dwellings.len(),
        _ if survey.dwellings.iter().any(|dwelling| dwelling.name.value == word) => 1,
        _ => in_building(word.split('/').next().unwrap_or(word)),
    };
    words.iter().map(|word| one(word)).sum::<usize>().min(survey.dwellings.len())
}
