//! Something that hangs on a run.

use crate::electric::StationLoad;
use crate::locks::ItemLocks;
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
