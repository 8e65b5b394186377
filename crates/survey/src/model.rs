//! A survey: what was found in the building and what is wanted, every value with its cell.

use crate::locked::Locked;
use crate::routes::RouteGraph;
use latchline_finding::{Money, Sourced};
use latchline_site::catalogue::{Cable, Environment, Media, OwnPrices, length_of_loop_m};
use latchline_site::model::USUAL_JOINT_OHM;

/// A whole survey.
#[derive(Debug, Clone, PartialEq)]
pub struct Survey {
    /// Settings of the sheet "Site".
    pub settings: Settings,
    /// Buildings in their order.
    pub buildings: Vec<Building>,
    /// Places in their order; routes join them.
    pub places: Vec<Place>,
    /// Ways between places.
    pub routes: RouteGraph,
    /// Cables already in the walls.
    pub existing: Vec<ExistingCable>,
    /// Dwellings in their order.
    pub dwellings: Vec<Dwelling>,
    /// Entrances in their order.
    pub entrances: Vec<Entrance>,
    /// Management stations in their order.
    pub desks: Vec<Desk>,
    /// Prices and labour that take the place of the catalogue's, by part name.
    pub prices: OwnPrices,
    /// What is decided already and must stay so.
    pub locked: Vec<Locked>,
}

/// How runs may serve dwellings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wiring {
    /// Cables loop through dwellings.
    Chains,
    /// Branch boxes along the corridors; no cable loops through a dwelling.
    Corridors,
    /// Every dwelling on a port of its own.
    Stars,
}

/// What holds for the whole survey.
#[derive(Debug, Clone, PartialEq)]
pub struct Settings {
    /// Title.
    pub title: String,
    /// Country as two letters.
    pub country: Option<String>,
    /// Family, if it is settled.
    pub family: Option<Sourced<String>>,
    /// Further catalogue files, relative to the survey.
    pub catalogues: Vec<Sourced<String>>,
    /// Speech only, or picture too.
    pub media: Media,
    /// Model of every dwelling's station that names no other.
    pub indoor_station: Option<Sourced<String>>,
    /// Model of every door station that names no other.
    pub door_station: Option<Sourced<String>>,
    /// Price of an hour of labour.
    pub labour_per_hour: Money,
    /// Extra length for bends and detours, as a fraction of the route.
    pub slack: f64,
    /// Extra length at each end of a section, in metres.
    pub termination_m: f64,
    /// Hottest conductor temperature in °C; assumed where the survey states none.
    pub hottest_c: Sourced<f64>,
    /// Coldest conductor temperature in °C; assumed where the survey states none.
    pub coldest_c: Sourced<f64>,
    /// Usual conductor temperature in °C; assumed where the survey states none.
    pub usual_c: Sourced<f64>,
    /// How far true lengths may differ, as a fraction; assumed where the survey does not say.
    pub length_tolerance: Sourced<f64>,
    /// How runs may serve dwellings.
    pub wiring: Sourced<Wiring>,
    /// Most dwellings that one broken joint may silence.
    pub largest_group: Option<Sourced<u32>>,
    /// Ports to keep free on every distributor that serves dwellings.
    pub spare_ports: Option<Sourced<u32>>,
    /// Stations that every run must still be able to take, by count.
    pub growth: u32,
    /// Hours that batteries must carry the site.
    pub standby_hours: Option<Sourced<f64>>,
    /// Margin in volts below which a station that passes is called thin.
    pub thin_margin_v: Option<f64>,
    /// Margin in volts that every station and box of a design keeps above its limit; `None`: only the limit itself.
    pub least_margin_v: Option<Sourced<f64>>,
    /// Whether a design with a warning does not count.
    pub no_warnings: Option<Sourced<bool>>,
    /// Whether all new cable of the bus is of one type.
    pub one_cable_type: Option<Sourced<bool>>,
    /// Whether boxes may hang at places inside dwellings; yes where nothing is stated.
    pub boxes_in_dwellings: Option<Sourced<bool>>,
    /// Loop resistance of the surge protector that is fitted to every run outdoors.
    pub surge_protection_ohm: Option<f64>,
    /// Cables that may be pulled; empty: all of the catalogue that have a price.
    pub cables: Vec<Sourced<String>>,
    /// Parts that are withdrawn: none is bought, and those installed are to be replaced.
    pub withdrawn: Vec<Sourced<String>>,
}

/// A building.
#[derive(Debug, Clone, PartialEq)]
pub struct Building {
    /// Its name.
    pub name: Sourced<String>,
    /// Title for documents.
    pub title: Option<String>,
    /// Floors from the lowest to the highest.
    pub floors: Vec<String>,
    /// Cores, if there is more than one.
    pub cores: Vec<String>,
    /// Floor to floor in metres.
    pub floor_height_m: Option<f64>,
}

/// A place on the routes: a cupboard, a landing, a door.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Its name.
    pub name: Sourced<String>,
    /// Building, as an index.
    pub building: Option<usize>,
    /// Core of the building.
    pub core: Option<String>,
    /// Floor of the building.
    pub floor: Option<String>,
    /// Whether a supply may stand here.
    pub mains: bool,
    /// Whether a distributor may hang here.
    pub boxes: bool,
    /// Whether it is outdoors.
    pub outdoors: bool,
    /// Whether it is inside a dwelling.
    pub in_dwelling: bool,
}

impl Survey {
    /// Whether a distributor or branch box may hang at a place: where the survey says so, but not inside a dwelling if its policy forbids it
    /// there.
    pub fn may_hang(&self, place: usize) -> bool {
        let place = &self.places[place];
        let within = self.settings.boxes_in_dwellings.as_ref().is_none_or(|may| may.value);
        place.boxes && (within || !place.in_dwelling)
    }
}

/// A cable that is already there, between two places or from a place to a dwelling or entrance.
#[derive(Debug, Clone, PartialEq)]
pub struct ExistingCable {
    /// One end.
    pub from: Sourced<String>,
    /// The other end.
    pub to: Sourced<String>,
    /// Cable in the catalogue that it is like.
    pub cable: Sourced<String>,
    /// Its length in metres, if stated; else it follows from the loop (see [`ExistingCable::length_m`]).
    pub stated_m: Option<f64>,
    /// Measured loop resistance in ohms; there where no length is stated.
    pub loop_ohm: Option<f64>,
    /// Measured capacitance in nanofarads.
    pub capacitance_nf: Option<f64>,
    /// Measured insulation in megohms.
    pub insulation_mohm: Option<f64>,
}

impl ExistingCable {
    /// Its length in metres: as stated, else that at which the cable has the measured loop at the usual temperature, the clips of the meter
    /// being taken as four terminals of [`USUAL_JOINT_OHM`]. `None` where the loop leaves nothing for the cable.
    pub fn length_m(&self, cable: &Cable, usual_c: f64) -> Option<f64> {
        self.stated_m.or_else(|| length_of_loop_m(cable, usual_c, self.loop_ohm?, 4.0 * USUAL_JOINT_OHM, 1))
    }
}

/// A dwelling.
#[derive(Debug, Clone, PartialEq)]
pub struct Dwelling {
    /// Its name.
    pub name: Sourced<String>,
    /// The place on the routes from which it is reached.
    pub place: usize,
    /// Cable from that place to its station, in metres.
    pub drop_m: f64,
    /// Model, if a certain one is wanted.
    pub station: Option<Sourced<String>>,
    /// Models of further stations ("" the same as the main one).
    pub extensions: Vec<String>,
    /// Cable from one station of the dwelling to the next, in metres.
    pub extension_m: f64,
    /// Name on the panel.
    pub label: Option<String>,
    /// Building under which it is numbered, as an index, where that is not the one that it stands in.
    pub numbered_in: Option<usize>,
}

/// An entrance.
#[derive(Debug, Clone, PartialEq)]
pub struct Entrance {
    /// Its name.
    pub name: Sourced<String>,
    /// The place on the routes from which it is reached.
    pub place: usize,
    /// Cable from there to its door station, in metres.
    pub drop_m: f64,
    /// Whether it is the main one of its part.
    pub main: bool,
    /// Whether the door station is outdoors.
    pub outdoors: bool,
    /// Whom it calls, in the words of site files; empty: everyone.
    pub calls: Vec<String>,
    /// Model, if a certain one is wanted.
    pub station: Option<Sourced<String>>,
    /// Speech only or picture, if not as everywhere.
    pub media: Option<Media>,
    /// Where its cable runs.
    pub environment: Environment,
    /// The lock.
    pub lock: Option<Lock>,
    /// Whether people escape through it.
    pub escape_route: Option<bool>,
    /// Who decided that.
    pub escape_decided_by: Option<String>,
    /// When, as 2026-03-02.
    pub escape_decided_on: Option<String>,
    /// Whether a fire interlock acts on it.
    pub fire_interlock: bool,
    /// Whether the heater is fitted.
    pub heater: bool,
    /// Height of the controls in metres.
    pub control_height_m: Option<f64>,
    /// Loop resistance of a surge protector in ohms.
    pub surge_protection_ohm: Option<f64>,
}

/// A lock as the survey gives it; the words are those of site files.
#[derive(Debug, Clone, PartialEq)]
pub struct Lock {
    /// Model in the catalogue.
    pub model: Sourced<String>,
    /// From where it is fed.
    pub feed: Option<String>,
    /// How the relay is wired.
    pub contact: Option<String>,
    /// Cable to it.
    pub cable: Option<Sourced<String>>,
    /// Length of that cable in metres.
    pub length_m: Option<f64>,
    /// Hold time in seconds.
    pub hold_s: Option<f64>,
    /// What kills the coil's spike.
    pub suppression: Option<String>,
    /// Whether an exit button is fitted.
    pub exit_button: bool,
    /// Whether the door opens from inside by hand.
    pub mechanical_escape: bool,
}

/// A management station.
#[derive(Debug, Clone, PartialEq)]
pub struct Desk {
    /// Its name.
    pub name: Sourced<String>,
    /// The place from which it is reached.
    pub place: usize,
    /// Cable from there, in metres.
    pub drop_m: f64,
    /// Whom it calls; empty: everyone.
    pub calls: Vec<String>,
    /// Model, if a certain one is wanted.
    pub station: Option<Sourced<String>>,
}
