//! The numbers of all devices, and why each is what it is.

use crate::catalogue::{AddressField, FieldKind};
use crate::model::{Site, StationOwner};
use latchline_finding::Finding;
use latchline_words::terms::Term;

/// Class of a device on the bus.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DeviceClass {
    /// An indoor station.
    Indoor,
    /// A door station.
    Door,
    /// A management station.
    Management,
}

impl DeviceClass {
    /// The word used in files and output.
    pub fn word(self) -> &'static str {
        match self {
            DeviceClass::Indoor => "indoor",
            DeviceClass::Door => "door",
            DeviceClass::Management => "management",
        }
    }
}

/// The address of one station.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StationAddress {
    /// Index into [`Site::stations`].
    pub station: usize,
    /// Its class, which decides its fields.
    pub class: DeviceClass,
    /// One number per field of its class, in the order of the scheme; `None` if one of them could
    /// not be found (a finding says why).
    pub numbers: Option<Vec<u32>>,
    /// Stations of other dwellings or doors that answer to the same numbers: indices into [`Site::stations`].
    pub doubles: Vec<usize>,
}

/// Numbers of everything on site.
#[derive(Debug, Clone, PartialEq)]
pub struct AddressPlan {
    /// One per station, in the order of [`Site::stations`].
    pub stations: Vec<StationAddress>,
    /// Number of each building; `None` where the scheme has no building field.
    pub buildings: Vec<Option<u32>>,
    /// Number of each dwelling.
    pub dwellings: Vec<Option<u32>>,
    /// Number of each entrance.
    pub entrances: Vec<Option<u32>>,
    /// Number of each management station.
    pub management: Vec<Option<u32>>,
    /// Dwellings whose number is neither stated nor that of their name, in file order.
    pub chosen: Vec<ChosenNumber>,
    /// What is wrong.
    pub findings: Vec<Finding>,
}

/// A number that was chosen since the dwelling's name does not give it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ChosenNumber {
    /// Index into [`Site::dwellings`].
    pub dwelling: usize,
    /// The number that was chosen.
    pub number: u32,
    /// The number in the name, if it has one that is taken or no number of the scheme.
    pub in_name: Option<u32>,
    /// The dwelling that has the number in the name: index into [`Site::dwellings`].
    pub taken_by: Option<usize>,
}

impl AddressPlan {
    /// The address of a station, in full.
    pub fn numbers(&self, station: usize) -> Option<&[u32]> {
        self.stations.get(station)?.numbers.as_deref()
    }

    /// The designations of the stations that answer to the same numbers as this one, one after another; `None` where its
    /// numbers are its own.
    pub fn doubles(&self, site: &Site, station: usize) -> Option<String> {
        let doubles = &self.stations.get(station)?.doubles;
        let names: Vec<&str> = doubles.iter().map(|other| site.stations[*other].id.as_str()).collect();
        (!names.is_empty()).then(|| names.join(", "))
    }
}

/// The fields of a class in the scheme of the site's family.
pub fn fields_of(site: &Site, class: DeviceClass) -> &[AddressField] {
    let scheme = &site.family().addresses;
    match class {
        DeviceClass::Indoor => &scheme.indoor,
        DeviceClass::Door => &scheme.door,
        DeviceClass::Management => &scheme.management,
    }
}

/// The class of a station.
pub(super) fn class_of(owner: StationOwner) -> DeviceClass {
    match owner {
        StationOwner::Dwelling { .. } => DeviceClass::Indoor,
        StationOwner::Entrance(_) => DeviceClass::Door,
        StationOwner::Management(_) => DeviceClass::Management,
    }
}

/// What a field numbers, as an argument of a finding.
pub(super) fn field_word(kind: FieldKind) -> Term {
    match kind {
        FieldKind::Building => Term::Building,
        FieldKind::Dwelling => Term::Dwelling,
        FieldKind::Entrance => Term::Entrance,
        FieldKind::Extension => Term::Extension,
        FieldKind::Management => Term::Management,
    }
}
