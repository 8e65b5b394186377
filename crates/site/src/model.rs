//! The site: everything the user described, resolved and immutable, every value with its origin.
//!
//! Cross references are indices into the site's own lists; model and cable names are keys that
//! [`resolve`](crate::resolve) has found in the catalogue. A site is only built when every
//! reference could be resolved, so the accessors here do not fail.

mod conditions;
mod door;
mod elements;
mod file;
mod place;
mod run;

pub use conditions::{
    COLDEST_CONDUCTOR_C, Conditions, HOTTEST_CONDUCTOR_C, Policy, USUAL_CALL_S, USUAL_CONDUCTOR_C,
    USUAL_END_ALLOWANCE_M, USUAL_JOINT_OHM, USUAL_LABOUR_PER_HOUR, USUAL_LENGTH_TOLERANCE, USUAL_SLACK,
    USUAL_THIN_MARGIN_V,
};
pub use door::{
    AlarmInput, AlarmKind, Entrance, EntranceRole, LightFeed, LightUse, LitWhen, LockFeed, LockPart,
    LockRelay, LockUse, PartCable, RelayContact, Suppression, USUAL_JOINTS,
};
pub use elements::{Building, DistributionBox, Dwelling, Management, Supply};
pub(crate) use file::SiteHead;
pub use file::{AcceptanceEntry, RevisionEntry, SITE_FILE};
pub use place::{Place, Scope};
pub use run::{MeasuredRun, ProtectedEnds, Run, RunStart, RunStop, Section};

use crate::catalogue::{
    Accessory, BoxModel, Cable, Catalogue, Family, Light, Lock, StationModel, SupplyModel,
};
use latchline_finding::quantity::Voltage;
use latchline_finding::{Both, ElementId, Origin, Sourced};
use latchline_words::terms::Term;
use std::sync::Arc;

/// A whole site.
#[derive(Debug, Clone, PartialEq)]
pub struct Site {
    /// Its title.
    pub title: String,
    /// Default family, whose address scheme and limits hold.
    pub family: Sourced<String>,
    /// Country (ISO 3166-1 alpha-2), for advice on codes.
    pub country: Option<Sourced<String>>,
    /// The catalogue after merging, shared with other versions of the site.
    pub catalogue: Arc<Catalogue>,
    /// Temperatures and tolerances.
    pub conditions: Conditions,
    /// What the user wants beyond "it works".
    pub policy: Policy,
    /// Buildings in file order.
    pub buildings: Vec<Building>,
    /// Supplies in file order.
    pub supplies: Vec<Supply>,
    /// Distributors and branch boxes in file order.
    pub boxes: Vec<DistributionBox>,
    /// Entrances in file order.
    pub entrances: Vec<Entrance>,
    /// Dwellings in file order.
    pub dwellings: Vec<Dwelling>,
    /// Management stations in file order.
    pub management: Vec<Management>,
    /// Every station: of dwellings, entrances and management, in that order.
    pub stations: Vec<Station>,
    /// Runs in file order.
    pub runs: Vec<Run>,
    /// Findings that the user accepts.
    pub acceptances: Vec<AcceptanceEntry>,
    /// Revisions of the plan, the oldest first.
    pub revisions: Vec<RevisionEntry>,
}

/// To whom a station belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum StationOwner {
    /// A dwelling; `ordinal` 0 is its main station, 1 its first extension, ...
    Dwelling {
        /// Index into [`Site::dwellings`].
        dwelling: usize,
        /// 0 for the main station.
        ordinal: usize,
    },
    /// An entrance: index into [`Site::entrances`].
    Entrance(usize),
    /// A management station: index into [`Site::management`].
    Management(usize),
}

/// One station.
#[derive(Debug, Clone, PartialEq)]
pub struct Station {
    /// Its name: the owner's, extensions with `:2`, `:3`, ... appended.
    pub id: ElementId,
    /// Model in the catalogue.
    pub model: Sourced<String>,
    /// To whom it belongs.
    pub owner: StationOwner,
    /// Where it is defined.
    pub origin: Origin,
}

impl Site {
    /// The mark of the revision that holds: the last one stated.
    pub fn current_revision(&self) -> Option<&str> {
        self.revisions.last().map(|revision| revision.mark.value.trim())
    }

    /// The family whose scheme and limits hold.
    pub fn family(&self) -> &Family {
        &self.catalogue.families[&self.family.value]
    }

    /// Model of a supply.
    pub fn supply_model(&self, supply: &Supply) -> &SupplyModel {
        &self.catalogue.supplies[&supply.model.value]
    }

    /// What a supply is set to and what its model delivers, where it is set below that.
    pub fn set_below_delivered(&self, supply: &Supply) -> Option<(Voltage, Voltage)> {
        let delivered = self.supply_model(supply).voltage.value;
        let set = supply.set_voltage.as_ref()?.value;
        (set.as_volts() < delivered.as_volts()).then_some((set, delivered))
    }

    /// Runs that start at a supply, in their order.
    pub fn runs_from_supply(&self, supply: usize) -> impl Iterator<Item = &Run> {
        self.runs.iter().filter(move |run| run.from == RunStart::Supply(supply))
    }

    /// Model of a box.
    pub fn box_model(&self, distribution_box: &DistributionBox) -> &BoxModel {
        &self.catalogue.boxes[&distribution_box.model.value]
    }

    /// The ports of a box from which no run starts.
    pub fn free_ports(&self, box_index: usize) -> impl Iterator<Item = u32> + '_ {
        let ports = 1..=self.box_model(&self.boxes[box_index]).ports.value;
        ports.filter(move |port| {
            !self.runs.iter().any(|run| run.from == RunStart::Port { box_index, port: *port })
        })
    }

    /// Model of a station.
    pub fn station_model(&self, station: &Station) -> &StationModel {
        &self.catalogue.stations[&station.model.value]
    }

    /// Cable of a run.
    pub fn cable(&self, run: &Run) -> &Cable {
        &self.catalogue.cables[&run.cable.value]
    }

    /// A lock's model.
    pub fn lock(&self, lock: &LockUse) -> &Lock {
        &self.catalogue.locks[&lock.model.value]
    }

    /// An accessory's model.
    pub fn accessory(&self, name: &Sourced<String>) -> &Accessory {
        &self.catalogue.accessories[&name.value]
    }

    /// A light's model.
    pub fn light(&self, light: &LightUse) -> &Light {
        &self.catalogue.lights[&light.model.value]
    }

    /// Where a station is.
    pub fn station_place(&self, station: &Station) -> &Place {
        match station.owner {
            StationOwner::Dwelling { dwelling, .. } => &self.dwellings[dwelling].place,
            StationOwner::Entrance(entrance) => &self.entrances[entrance].place,
            StationOwner::Management(management) => &self.management[management].place,
        }
    }

    /// A place as site files write it: "A/North/1"; `None` for one in no building.
    pub fn place_key(&self, place: &Place) -> Option<String> {
        let building = self.buildings.get(place.building?)?;
        let mut key = building.id.to_string();
        if let Some(core) = place.core.and_then(|core| building.cores.get(core)) {
            key = format!("{key}/{}", core.value);
        }
        if let Some(floor) = place.floor.and_then(|floor| building.floors.get(floor)) {
            key = format!("{key}/{}", floor.value);
        }
        Some(key)
    }

    /// Name of what a section leads to.
    pub fn stop_id(&self, stop: RunStop) -> &ElementId {
        match stop {
            RunStop::Station(station) => &self.stations[station].id,
            RunStop::BoxInput(index) | RunStop::BoxLink(index) => &self.boxes[index].id,
        }
    }

    /// Name of where a run starts: a supply, a port such as `D1.3`, or a station.
    pub fn start_id(&self, start: RunStart) -> ElementId {
        match start {
            RunStart::Supply(supply) => self.supplies[supply].id.clone(),
            RunStart::Port { box_index, port } => {
                ElementId::from(format!("{}.{port}", self.boxes[box_index].id))
            }
            RunStart::Station(station) => self.stations[station].id.clone(),
        }
    }

    /// Where what a section leads to is.
    pub fn stop_place(&self, stop: RunStop) -> &Place {
        match stop {
            RunStop::Station(station) => self.station_place(&self.stations[station]),
            RunStop::BoxInput(index) | RunStop::BoxLink(index) => &self.boxes[index].place,
        }
    }

    /// Where a run starts.
    pub fn start_place(&self, start: RunStart) -> &Place {
        match start {
            RunStart::Supply(supply) => &self.supplies[supply].place,
            RunStart::Port { box_index, .. } => &self.boxes[box_index].place,
            RunStart::Station(station) => self.station_place(&self.stations[station]),
        }
    }

    /// A place in words: "A / North / 2", or that it is outdoors; nothing where nothing is stated.
    pub fn place_words(&self, place: &Place) -> Both {
        let Some(building) = place.building.map(|index| &self.buildings[index]) else {
            return if place.outdoors { Term::Outdoors.both() } else { Both::same("") };
        };
        let mut words = building.id.to_string();
        if let Some(core) = place.core {
            words = format!("{words} / {}", building.cores[core].value);
        }
        if let Some(floor) = place.floor {
            words = format!("{words} / {}", building.floors[floor].value);
        }
        Both::same(words)
    }
}
