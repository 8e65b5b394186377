//! Something that hangs on a run.

use crate::electric::StationLoad;
use crate::money::Amount;
use latchline_site::catalogue::Environment;

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

/// The cable that must feed an item.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum LockedCable {
    /// A cable of the catalogue, new or in the wall.
    Named(String),
    /// The cable in the walls that leads to it.
    InWalls,
}

/// What is decided of an item.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ItemLocks {
    /// The place at whose distributor its run starts.
    pub at: Option<usize>,
    /// Its cable.
    pub cable: Option<LockedCable>,
    /// The group with which it is on one run, and how many that is.
    pub together: Option<(usize, usize)>,
    /// Whether no cable loops through it.
    pub not_through: bool,
    /// Whether its station cannot be looped in any case.
    pub is_end: bool,
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
    /// Its stations by name, in the same order.
    pub stops: Vec<String>,
    /// Their loads.
    pub loads: Vec<StationLoad>,
    /// Whether it must be alone on its run.
    pub solo: bool,
    /// Whether its last station cannot be looped, so that a chain ends with it.
    pub ends: bool,
    /// Where its drop runs.
    pub environment: Environment,
    /// Cost of what every design has of it: stations, lock, lock cable.
    pub own_cost: Amount,
    /// What is decided of it.
    pub locks: ItemLocks,
    /// Who can call it: a bit for each of [`crate::instance::Instance::callers`].
    pub called_by: u128,
}
