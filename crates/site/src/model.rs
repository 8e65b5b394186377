//! The site: everything the user described, resolved and immutable, every value with its origin.
//!
//! Cross references are indices into the site's own lists; model and cable names are keys that
//! [`resolve`](crate::resolve) has found in the catalogue. A site is only built when every
//! reference could be resolved, so the accessors here do not fail.

mod door;

pub use door::{
    AlarmInput, AlarmKind, LightFeed, LightUse, LitWhen, LockFeed, LockUse, RelayContact, Suppression,
};

use crate::catalogue::{
    Accessory, BoxModel, Cable, Catalogue, Family, Light, Lock, StationModel, SupplyModel,
};
use latchline_finding::quantity::{Capacitance, Length, Ratio, Resistance, Temperature, Voltage};
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
}

/// Temperatures and tolerances under which the site is judged.
#[derive(Debug, Clone, PartialEq)]
pub struct Conditions {
    /// Usual conductor temperature, for nominal values.
    pub usual_temperature: Sourced<Temperature>,
    /// Hottest conductor temperature, for the adverse corner.
    pub hottest_temperature: Sourced<Temperature>,
    /// Coldest conductor temperature, for the corner of least resistance.
    pub coldest_temperature: Sourced<Temperature>,
    /// How far true lengths may lie above or below the stated ones.
    pub length_tolerance: Sourced<Ratio>,
    /// Resistance of one joint or terminal in one conductor.
    pub joint_resistance: Sourced<Resistance>,
}

/// What the user wants beyond "it works".
#[derive(Debug, Clone, PartialEq)]
pub struct Policy {
    /// Margin in volts below which a station that passes is called thin.
    pub thin_margin: Sourced<Voltage>,
    /// Most dwellings that one broken joint or removed station may silence.
    pub largest_silenced_group: Option<Sourced<u32>>,
    /// Whether a chain may loop in and out of one dwelling to reach another.
    pub chains_through_dwellings: Sourced<bool>,
    /// Ports to keep free.
    pub spare_ports: Option<Sourced<u32>>,
    /// Hours that a battery must carry the site in standby.
    pub standby_hours: Option<Sourced<f64>>,
}

/// A building.
#[derive(Debug, Clone, PartialEq)]
pub struct Building {
    /// The user's name, first part of places.
    pub id: ElementId,
    /// Title for documents.
    pub title: String,
    /// Number in addresses, if stated.
    pub number: Option<Sourced<u32>>,
    /// Floors from the lowest to the highest.
    pub floors: Vec<Sourced<String>>,
    /// Stairs or risers; one unnamed core if none is stated.
    pub cores: Vec<Sourced<String>>,
    /// Height from floor to floor.
    pub floor_height: Sourced<Length>,
    /// Where it is defined.
    pub origin: Origin,
}

/// Where something is: indices into the site's buildings, their floors and cores.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Place {
    /// Building.
    pub building: Option<usize>,
    /// Core of that building.
    pub core: Option<usize>,
    /// Floor of that building.
    pub floor: Option<usize>,
    /// Whether the user says it is outdoors or in the wet.
    pub outdoors: bool,
}

/// A DC supply on site.
#[derive(Debug, Clone, PartialEq)]
pub struct Supply {
    /// The user's name.
    pub id: ElementId,
    /// Model in the catalogue.
    pub model: Sourced<String>,
    /// Where it is.
    pub place: Place,
    /// Output voltage as set on site, if stated.
    pub set_voltage: Option<Sourced<Voltage>>,
    /// Ambient temperature of its cupboard.
    pub ambient: Option<Sourced<Temperature>>,
    /// Batteries in parallel, where its model has one.
    pub batteries: Sourced<u32>,
    /// Where it is defined.
    pub origin: Origin,
}

/// A distributor or branch box on site.
#[derive(Debug, Clone, PartialEq)]
pub struct DistributionBox {
    /// The user's name.
    pub id: ElementId,
    /// Model in the catalogue.
    pub model: Sourced<String>,
    /// Where it is.
    pub place: Place,
    /// Where it is defined.
    pub origin: Origin,
}

/// Whether an entrance is the main one or a secondary one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum EntranceRole {
    /// The main entrance.
    Main,
    /// A numbered secondary entrance.
    Secondary,
}

/// A way in, with its door station.
#[derive(Debug, Clone, PartialEq)]
pub struct Entrance {
    /// The user's name; the door station's name too.
    pub id: ElementId,
    /// Main or secondary.
    pub role: Sourced<EntranceRole>,
    /// Number in addresses, if stated.
    pub number: Option<Sourced<u32>>,
    /// Where it is.
    pub place: Place,
    /// Its station: index into [`Site::stations`].
    pub station: usize,
    /// Whom it can call.
    pub calls: Scope,
    /// Locks that it opens, in the order of the station's lock outputs.
    pub locks: Vec<LockUse>,
    /// Accessory modules in the order of their chain.
    pub accessories: Vec<Sourced<String>>,
    /// Lights at the door, beside those inside its station.
    pub lights: Vec<LightUse>,
    /// What is wired to the station's alarm inputs, in their order.
    pub alarm_inputs: Vec<AlarmInput>,
    /// Whether people escape through it.
    pub escape_route: Sourced<bool>,
    /// Whether a fire interlock acts on it.
    pub fire_interlock: Sourced<bool>,
    /// Height of the door station's controls above the ground.
    pub control_height: Option<Sourced<Length>>,
    /// Whether the station's heater is fitted and on at night.
    pub heater: Sourced<bool>,
    /// Surge protector in its line: series resistance of the loop, if one is fitted.
    pub surge_protection: Option<Sourced<Resistance>>,
    /// Where it is defined.
    pub origin: Origin,
}

impl Entrance {
    /// Whether the fire alarm acts on it: in the lock's own circuit, or through an input of its station.
    pub fn is_released_on_fire(&self) -> bool {
        self.fire_interlock.value || self.alarm_inputs.iter().any(|input| input.kind.value == AlarmKind::Fire)
    }
}

/// Whom an entrance or management station can call.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Scope {
    /// Dwellings it can call, as indices in ascending order.
    pub dwellings: Vec<usize>,
    /// Management stations it can call, as indices in ascending order.
    pub management: Vec<usize>,
    /// Where the scope is written.
    pub origin: Origin,
}

/// A dwelling.
#[derive(Debug, Clone, PartialEq)]
pub struct Dwelling {
    /// The user's name; its main station's name too.
    pub id: ElementId,
    /// Name on the button panel, if another.
    pub label: Option<String>,
    /// Where it is.
    pub place: Place,
    /// Number in addresses, if stated.
    pub number: Option<Sourced<u32>>,
    /// Its stations, the main one first: indices into [`Site::stations`].
    pub stations: Vec<usize>,
    /// Where it is defined.
    pub origin: Origin,
}

/// A management station.
#[derive(Debug, Clone, PartialEq)]
pub struct Management {
    /// The user's name; its station's name too.
    pub id: ElementId,
    /// Number in addresses, if stated.
    pub number: Option<Sourced<u32>>,
    /// Where it is.
    pub place: Place,
    /// Its station: index into [`Site::stations`].
    pub station: usize,
    /// Whom it can call.
    pub calls: Scope,
    /// Where it is defined.
    pub origin: Origin,
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

/// From where a run starts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RunStart {
    /// A supply's output (all outputs of a supply are joined inside).
    Supply(usize),
    /// A port of a box; ports count from 1.
    Port {
        /// Index into [`Site::boxes`].
        box_index: usize,
        /// Port number from 1.
        port: u32,
    },
    /// The terminals of a station, from which the run branches off or goes on.
    Station(usize),
}

/// What a section of a run leads to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RunStop {
    /// A station: index into [`Site::stations`].
    Station(usize),
    /// The input of a box: index into [`Site::boxes`].
    BoxInput(usize),
    /// The signal link of an isolating box: index into [`Site::boxes`].
    BoxLink(usize),
}

/// One length of cable between two terminals.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// What it leads to; it comes from the stop before, or from the start of the run.
    pub to: RunStop,
    /// Where that stop is named.
    pub to_origin: Origin,
    /// Its length along the route.
    pub length: Sourced<Length>,
}

/// What was measured on an existing run with the electronics disconnected.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MeasuredRun {
    /// Loop resistance with the far end short-circuited.
    pub loop_resistance: Option<Sourced<Resistance>>,
    /// Capacitance with the far end open.
    pub capacitance: Option<Sourced<Capacitance>>,
    /// Insulation resistance between the conductors, or to earth: the lower.
    pub insulation: Option<Sourced<Resistance>>,
}

/// A cable path as the installer thinks of it: from here, to these in this order.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// The user's name.
    pub id: ElementId,
    /// Where it starts.
    pub from: RunStart,
    /// Where the start is named.
    pub from_origin: Origin,
    /// Its sections in order; at least one.
    pub sections: Vec<Section>,
    /// Cable in the catalogue.
    pub cable: Sourced<String>,
    /// Pairs in parallel.
    pub pairs: Sourced<u32>,
    /// Extra joints per conductor, beyond the terminals at each stop.
    pub joints: Sourced<u32>,
    /// Whether a terminator is set on its last station.
    pub terminator: Option<Sourced<bool>>,
    /// Whether that terminator has its series capacitor.
    pub terminator_capacitor: Sourced<bool>,
    /// Where it runs.
    pub environment: Sourced<crate::catalogue::Environment>,
    /// Whether it shares a route with mains cables without separation.
    pub beside_mains: Sourced<bool>,
    /// Whether the cable is already in the walls.
    pub existing: Sourced<bool>,
    /// Surge protector in it: series resistance of the loop.
    pub surge_protection: Option<Sourced<Resistance>>,
    /// What was measured of it.
    pub measured: MeasuredRun,
    /// Where it is defined.
    pub origin: Origin,
}

impl Run {
    /// The stated length of all its sections.
    pub fn length(&self) -> Length {
        self.sections.iter().map(|section| section.length.value).sum()
    }
}

/// A finding that the user accepts.
#[derive(Debug, Clone, PartialEq)]
pub struct AcceptanceEntry {
    /// Code of the finding.
    pub code: Sourced<String>,
    /// Its element; `None` accepts the code everywhere.
    pub element: Option<Sourced<String>>,
    /// Why.
    pub reason: String,
    /// When (YYYY-MM-DD).
    pub date: String,
    /// Where it is written.
    pub origin: Origin,
}

impl Site {
    /// The family whose scheme and limits hold.
    pub fn family(&self) -> &Family {
        &self.catalogue.families[&self.family.value]
    }

    /// Model of a supply.
    pub fn supply_model(&self, supply: &Supply) -> &SupplyModel {
        &self.catalogue.supplies[&supply.model.value]
    }

    /// Model of a box.
    pub fn box_model(&self, distribution_box: &DistributionBox) -> &BoxModel {
        &self.catalogue.boxes[&distribution_box.model.value]
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
