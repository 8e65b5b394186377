//! What is installed, with its places in the survey.

use crate::instance::Instance;
use crate::money::Amount;
use crate::parts::cost_of;
use crate::sections::{Sections, sections};
use latchline_site::model::{Place, RunStart, RunStop, Site};
use std::collections::BTreeSet;

/// What a section leads to.
#[derive(Debug, Clone, PartialEq)]
pub enum Stop {
    /// The main station of an item of the instance.
    Item(usize),
    /// A further station of the item before, or something that the survey does not know: its name.
    Other(String),
    /// A box: index into [`Installed::boxes`].
    Box(usize),
}

/// A run as it is installed, or as a draft changes it.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Its name.
    pub name: String,
    /// From where it starts, as in the file.
    pub from: String,
    /// The box and port from which it starts.
    pub port: Option<(usize, usize)>,
    /// The place from which it starts, if the survey has it.
    pub place: Option<usize>,
    /// Its stops.
    pub stops: Vec<Stop>,
    /// Lengths of its sections in metres.
    pub lengths_m: Vec<f64>,
    /// Its cable.
    pub cable: String,
    /// Whether it was in the walls before.
    pub existing: bool,
}

/// A box.
#[derive(Debug, Clone, PartialEq)]
pub struct InstalledBox {
    /// Its name.
    pub name: String,
    /// Its model.
    pub model: String,
    /// Its place in the survey.
    pub place: Option<usize>,
}

/// A whole installation.
#[derive(Debug, Clone, PartialEq)]
pub struct Installed {
    /// Runs in file order.
    pub runs: Vec<Run>,
    /// Boxes in file order.
    pub boxes: Vec<InstalledBox>,
    /// Every name that is taken.
    pub names: BTreeSet<String>,
}

impl Installed {
    /// Of a site. Where several places of the survey have the words of a box's place, the one that fits the
    /// lengths of its runs best is taken.
    pub fn new(instance: &Instance<'_>, site: &Site) -> Self {
        let stop = |stop: RunStop| match stop {
            RunStop::Station(station) => {
                let name = site.stations[station].id.as_str();
                let item = instance.items.iter().position(|item| item.name == name);
                item.map_or_else(|| Stop::Other(name.to_string()), Stop::Item)
            }
            RunStop::BoxInput(at) => Stop::Box(at),
            RunStop::BoxLink(at) => Stop::Other(format!("{}.link", site.boxes[at].id)),
        };
        let mut runs: Vec<Run> = site
            .runs
            .iter()
            .map(|run| Run {
                name: run.id.as_str().to_string(),
                from: site.start_id(run.from).as_str().to_string(),
                port: match run.from {
                    RunStart::Port { box_index, port } => Some((box_index, port as usize)),
                    _ => None,
                },
                place: None,
                stops: run.sections.iter().map(|section| stop(section.to)).collect(),
                lengths_m: run.sections.iter().map(|section| section.length.value.as_metres()).collect(),
                cable: run.cable.value.clone(),
                existing: run.existing.value,
            })
            .collect();
        let boxes: Vec<InstalledBox> = site
            .boxes
            .iter()
            .enumerate()
            .map(|(index, item)| {
                let candidates = candidates(instance, site, &item.place, |place| place.boxes);
                let own = runs.iter().filter(|run| run.port.is_some_and(|(at, _)| at == index));
                let misfit =
                    |place: &usize| own.clone().map(|run| misfit_m(instance, run, *place)).sum::<f64>();
                let place = candidates.into_iter().min_by(|a, b| misfit(a).total_cmp(&misfit(b)));
                let (name, model) = (item.id.as_str().to_string(), item.model.value.clone());
                InstalledBox { name, model, place }
            })
            .collect();
        for (run, installed) in site.runs.iter().zip(&mut runs) {
            installed.place = match run.from {
                RunStart::Port { box_index, .. } => boxes[box_index].place,
                RunStart::Supply(supply) => {
                    let place = &site.supplies[supply].place;
                    let candidates = candidates(instance, site, place, |place| place.mains);
                    let first = match installed.stops.first() {
                        Some(Stop::Box(at)) => boxes[*at].place,
                        _ => None,
                    };
                    let stated_m = installed.lengths_m.first().copied().unwrap_or(0.0);
                    let misfit = |place: &usize| {
                        let way = first.and_then(|first| instance.way(*place, first));
                        way.map_or(f64::INFINITY, |way| {
                            (f64::from(instance.section_dm(way.length_mm, 0)) / 10.0 - stated_m).abs()
                        })
                    };
                    candidates.into_iter().min_by(|a, b| misfit(a).total_cmp(&misfit(b)))
                }
                RunStart::Station(_) => None,
            };
        }
        let names = (site.runs.iter().map(|run| &run.id))
            .chain(site.boxes.iter().map(|item| &item.id))
            .chain(site.supplies.iter().map(|supply| &supply.id))
            .chain(site.stations.iter().map(|station| &station.id))
            .map(|id| id.as_str().to_string())
            .collect();
        Installed { runs, boxes, names }
    }

    /// Ports of a box that no run uses.
    pub fn free_ports(&self, instance: &Instance<'_>, at: usize) -> Vec<usize> {
        let Some(model) = instance.catalogue.boxes.get(&self.boxes[at].model) else { return Vec::new() };
        let used = |port: &usize| self.runs.iter().any(|run| run.port == Some((at, *port)));
        (1..=model.ports.value as usize).filter(|port| !used(port)).collect()
    }

    /// A free name: the stem with the next number.
    pub fn name(&mut self, stem: &str) -> String {
        let mut number = 1;
        loop {
            let name = format!("{stem}{number}");
            if self.names.insert(name.clone()) {
                return name;
            }
            number += 1;
        }
    }
}

impl Run {
    /// Its items, if it leads to nothing else but their further stations.
    pub fn items(&self) -> Option<Vec<usize>> {
        let mut items = Vec::new();
        for stop in &self.stops {
            match stop {
                Stop::Item(item) => items.push(*item),
                Stop::Other(name) if name.contains(':') => {}
                Stop::Other(_) | Stop::Box(_) => return None,
            }
        }
        Some(items)
    }

    /// Its stops as names.
    pub fn names(&self, instance: &Instance<'_>, installed: &Installed) -> Vec<String> {
        let name = |stop: &Stop| match stop {
            Stop::Item(item) => instance.items[*item].name.clone(),
            Stop::Other(name) => name.clone(),
            Stop::Box(at) => installed.boxes[*at].name.clone(),
        };
        self.stops.iter().map(name).collect()
    }

    /// What the survey makes of its sections, if it knows all of them.
    pub fn surveyed(&self, instance: &Instance<'_>, installed: &Installed) -> Option<Sections> {
        let place = self.place?;
        if let Some(items) = self.items() {
            let sections = sections(instance, place, &items)?;
            return (sections.lengths_dm.len() == self.stops.len()).then_some(sections);
        }
        let mut whole = Sections {
            lengths_dm: Vec::new(),
            environment: latchline_site::catalogue::Environment::Indoors,
            beside_mains: false,
        };
        let mut at = place;
        for stop in &self.stops {
            let Stop::Box(index) = stop else { return None };
            let next = installed.boxes[*index].place?;
            let way = instance.way(at, next)?;
            whole.lengths_dm.push(instance.section_dm(way.length_mm, 0));
            whole.environment = whole.environment.max(way.environment);
            whole.beside_mains |= way.beside_mains;
            at = next;
        }
        Some(whole)
    }
}

/// Places of the survey with the words of a place of the site.
fn candidates(
    instance: &Instance<'_>,
    site: &Site,
    place: &Place,
    suits: impl Fn(&latchline_survey::model::Place) -> bool,
) -> Vec<usize> {
    let survey = instance.survey;
    let building = place.building.map(|at| &site.buildings[at]);
    let core = building.zip(place.core).map(|(building, core)| building.cores[core].value.as_str());
    let floor = building.zip(place.floor).map(|(building, floor)| building.floors[floor].value.as_str());
    let matches = |other: &latchline_survey::model::Place| {
        let own = other.building.map(|at| survey.buildings[at].name.value.as_str());
        suits(other)
            && own == building.map(|building| building.id.as_str())
            && other.core.as_deref() == core
            && other.floor.as_deref() == floor
    };
    (0..survey.places.len()).filter(|at| matches(&survey.places[*at])).collect()
}

/// By how much a run's first section differs if it starts here.
fn misfit_m(instance: &Instance<'_>, run: &Run, place: usize) -> f64 {
    let (Some(Stop::Item(item)), Some(stated_m)) = (run.stops.first(), run.lengths_m.first()) else {
        return 0.0;
    };
    let first = sections(instance, place, &[*item]);
    let surveyed_m = first.and_then(|sections| sections.lengths_dm.first().copied());
    surveyed_m.map_or(1e6, |surveyed| (f64::from(surveyed) / 10.0 - stated_m).abs())
}

/// Cost of a station's, box's or supply's model; nothing where it has no price.
pub fn price(instance: &Instance<'_>, model: &str) -> Amount {
    let catalogue = instance.catalogue;
    let head = (catalogue.stations.get(model).map(|part| &part.head))
        .or_else(|| catalogue.boxes.get(model).map(|part| &part.head))
        .or_else(|| catalogue.supplies.get(model).map(|part| &part.head));
    head.and_then(|head| cost_of(head, instance.survey)).unwrap_or(0)
}
