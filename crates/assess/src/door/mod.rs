//! The door: lock circuits, their wiring and times, and the sheet of every entrance.
//!
//! Rules and sheets ask the same functions, so that they cannot disagree:
//!
//! * [`circuit`]: the voltage at a lock, its currents, what it needs;
//! * [`times`]: release time, duty of the coil, delay by suppression;
//! * [`modules`], [`light`], [`alarm`]: modules in their chain, lights, and what is wired to alarm inputs;
//! * [`loads`]: what the door draws from its bus in standby, part by part;
//! * [`escape`], [`heights`]: published advice by country;
//! * [`own_supply`]: the supplies that a lock may have of its own;
//! * [`words`]: which word stands for each part;
//! * [`sheet`]: all of it for one entrance, as owned data.

pub mod alarm;
pub mod cable_loop;
mod caution;
pub mod circuit;
pub mod escape;
pub mod heights;
pub mod light;
pub mod loads;
mod lock_calculation;
pub mod modules;
pub mod own_supply;
pub mod sheet;
pub mod times;
pub mod words;

pub use caution::Caution;
pub use escape::is_judged_as_way_out;
pub use sheet::{DoorSheet, LockSheet, door_sheets};

use latchline_circuit::RangeError;
use latchline_finding::{DataGrade, Finding, Provenance, Sourced};
use latchline_site::catalogue::{Cable, Lock, StationModel};
use latchline_site::model::{Entrance, LockFeed, LockUse, Site};
use latchline_words::missing::Missing;

/// One lock of one entrance with what belongs to it.
#[derive(Clone, Copy)]
pub struct LockAt<'a> {
    /// The site.
    pub site: &'a Site,
    /// The entrance.
    pub entrance: &'a Entrance,
    /// Its door station's model.
    pub station: &'a StationModel,
    /// Which of the entrance's locks, from 1.
    pub number: usize,
    /// How it is fitted.
    pub used: &'a LockUse,
    /// Its model.
    pub lock: &'a Lock,
}

impl<'a> LockAt<'a> {
    /// The locks of one entrance in the order of the station's outputs.
    pub fn of_entrance(site: &'a Site, entrance: &'a Entrance) -> impl Iterator<Item = LockAt<'a>> {
        let station = site.station_model(&site.stations[entrance.station]);
        entrance.locks.iter().enumerate().map(move |(index, used)| LockAt {
            site,
            entrance,
            station,
            number: index + 1,
            used,
            lock: site.lock(used),
        })
    }

    /// Every lock of a site.
    pub fn all(site: &'a Site) -> impl Iterator<Item = LockAt<'a>> {
        site.entrances.iter().flat_map(move |entrance| LockAt::of_entrance(site, entrance))
    }

    /// Whether it has power of its own and takes a dry contact.
    pub fn takes_dry_contact(&self) -> bool {
        self.used.feed.value == LockFeed::DryContact
    }

    /// Whether it is a gate or barrier drive, or a lift.
    pub fn is_of_another_system(&self) -> bool {
        self.lock.kind.value.is_of_another_system()
    }

    /// Whether a mechanical means of escape is stated.
    pub fn has_mechanical_escape(&self) -> bool {
        self.used.mechanical_escape.as_ref().is_some_and(|stated| stated.value)
    }

    /// Whether an emergency release that cuts the lock's power is stated.
    pub fn has_emergency_release(&self) -> bool {
        self.used.emergency_release.as_ref().is_some_and(|stated| stated.value)
    }

    /// A finding about this lock: its entrance, its model and its number among the entrance's locks.
    pub fn describe(&self, finding: Finding) -> Finding {
        finding
            .about(self.entrance.id.clone())
            .with("lock", self.lock.head.name.as_str())
            .with("number", self.number)
            .with("locks", self.entrance.locks.len())
    }
}

/// A value with which a kernel could not calculate.
pub(crate) fn out_of_range(place: String, error: &RangeError) -> Missing {
    Missing::out_of_range(place, error.quantity, error.value, [error.least, error.most])
}

/// Collects the values of a judgement that are assumed, as "part key".
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Assumptions(Vec<String>);

impl Assumptions {
    /// Notes the value if it is assumed.
    pub fn note<T>(&mut self, part: &str, key: &str, value: &Sourced<T>) {
        if value.provenance == Provenance::Assumed {
            self.add(format!("{part} {key}"));
        }
    }

    /// Notes the values of a cable that its resistance rests on.
    pub fn note_cable(&mut self, cable: &Cable) {
        self.note(&cable.head.name, "gauge", &cable.gauge);
        self.note(&cable.head.name, "material", &cable.material);
        self.note(&cable.head.name, "resistance_tolerance", &cable.resistance_tolerance);
    }

    /// Notes an assumption.
    pub fn add(&mut self, entry: String) {
        if !self.0.contains(&entry) {
            self.0.push(entry);
        }
    }

    /// The list.
    pub fn list(&self) -> &[String] {
        &self.0
    }

    /// The grade of a judgement that rests on them.
    pub fn grade(&self) -> DataGrade {
        if self.0.is_empty() { DataGrade::Known } else { DataGrade::Assumed(self.0.clone()) }
    }
}
