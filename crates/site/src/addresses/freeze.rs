//! Writing the numbers into the site file.

use super::AddressPlan;
use crate::model::Site;
use latchline_finding::{Edit, ElementId, Sourced};

/// The edit that states every number which so far follows from names and order, so that renaming
/// or moving things no longer changes it. Numbers that are stated already stay as they are.
pub fn freeze(site: &Site, plan: &AddressPlan) -> Edit {
    let mut edit = Edit::default();
    let mut state = |table: &str, id: &ElementId, stated: &Option<Sourced<u32>>, number: Option<u32>| {
        if let (None, Some(number)) = (stated, number) {
            let set = Edit::set(&[table, id.as_str(), "number"], number.to_string());
            edit.changes.extend(set.changes);
        }
    };
    for (building, number) in site.buildings.iter().zip(&plan.buildings) {
        state("buildings", &building.id, &building.number, *number);
    }
    for (entrance, number) in site.entrances.iter().zip(&plan.entrances) {
        state("entrances", &entrance.id, &entrance.number, *number);
    }
    for (management, number) in site.management.iter().zip(&plan.management) {
        state("management", &management.id, &management.number, *number);
    }
    for (dwelling, number) in site.dwellings.iter().zip(&plan.dwellings) {
        state("dwellings", &dwelling.id, &dwelling.number, *number);
    }
    edit
}
