//! The faults of a site as a table that is carried along: solved (`solved`), made (`table`), written and read back (`bytes`), ranked from (`rank`), printed
//! (`sheet`, `places`).

mod bytes;
mod columns;
mod pattern;
mod places;
mod quantities;
mod rank;
mod sheet;
mod solved;
mod table;

pub use bytes::Damaged;
pub use rank::{Read, Share, reads};
pub use sheet::{FaultSheet, SheetPlace, SheetReading, SheetRow, SheetValue, Shown};
pub use table::Dictionary;

use crate::plant::Plant;
use crate::rates::{Age, Rates};
use latchline_network::readings::Readings;
use latchline_site::model::Site;

/// The faults of a site in both forms, solved once.
#[derive(Debug, Clone, PartialEq)]
pub struct FaultTable {
    /// What readings are ranked from.
    pub dictionary: Dictionary,
    /// What people read.
    pub sheet: FaultSheet,
}

impl FaultTable {
    /// Of a site in service, with the built-in table of how often each cause is met.
    pub fn of_site(site: &Site, planned: &Readings) -> Self {
        Plant::of_site(site, |plant| FaultTable::new(plant, &Rates::built_in(), Age::InService, planned))
    }

    /// Of a site, with how often each cause is met; `planned` are the readings without a fault that other sheets show.
    pub fn new(plant: &Plant<'_>, rates: &Rates, age: Age, planned: &Readings) -> Self {
        let solved = solved::Solved::new(plant, rates, age);
        FaultTable {
            dictionary: Dictionary::of_solved(plant, rates, &solved),
            sheet: FaultSheet::of_solved(plant, rates, &solved, planned),
        }
    }
}
