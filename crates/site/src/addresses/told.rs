//! What is told of numbers once all are handed out: who has another than the name says, and who shares one.

use super::plan::{ChosenNumber, StationAddress};
use super::pool::number_in_name;
use crate::codes;
use crate::model::{Site, StationOwner};
use latchline_finding::{ElementId, Finding, Severity};

/// Tells every station which others answer to its number: those of what was given the same number, where all their numbers
/// are the same.
pub(super) fn mark_doubles(
    site: &Site,
    claimed_twice: &[(ElementId, ElementId)],
    stations: &mut [StationAddress],
) {
    // Who had the number first stands for all who were given it.
    let first_of = |station: usize| {
        let owner = match site.stations[station].owner {
            StationOwner::Dwelling { dwelling, .. } => &site.dwellings[dwelling].id,
            StationOwner::Entrance(entrance) => &site.entrances[entrance].id,
            StationOwner::Management(management) => &site.management[management].id,
        };
        let pair = claimed_twice.iter().find(|(later, first)| later == owner || first == owner);
        pair.map(|(_, first)| (first, owner))
    };
    let claimed: Vec<_> = (0..stations.len()).filter_map(|at| Some((at, first_of(at)?))).collect();
    for (at, (first, owner)) in &claimed {
        let own = &stations[*at];
        let is_double = |(other, (its_first, its_owner)): &&(usize, (&ElementId, &ElementId))| {
            let other = &stations[*other];
            its_first == first
                && its_owner != owner
                && other.class == own.class
                && own.numbers.is_some()
                && other.numbers == own.numbers
        };
        let doubles = claimed.iter().filter(is_double).map(|(other, _)| *other).collect();
        stations[*at].doubles = doubles;
    }
}

/// One finding of all dwellings whose name has another number than they get.
pub(super) fn not_of_name(site: &Site, chosen: &[ChosenNumber]) -> Option<Finding> {
    let surprising: Vec<&ChosenNumber> = chosen.iter().filter(|one| one.in_name.is_some()).collect();
    let own = &site.dwellings[surprising.first()?.dwelling];
    let numbers: Vec<String> = surprising
        .iter()
        .map(|one| format!("{} ({})", site.dwellings[one.dwelling].id, one.number))
        .collect();
    let finding = Finding::new(codes::ADDRESS_NOT_OF_NAME, Severity::Advice, own.origin.clone());
    Some(finding.about(own.id.clone()).with("dwellings", surprising.len()).with("numbers", numbers))
}

/// Dwellings whose number is neither stated nor that of their name.
pub(super) fn chosen(site: &Site, numbers: &[Option<u32>]) -> Vec<ChosenNumber> {
    let one = |(dwelling, number): (usize, &Option<u32>)| {
        let (number, own) = ((*number)?, &site.dwellings[dwelling]);
        let in_name = number_in_name(own.id.as_str());
        if own.number.is_some() || in_name == Some(number) {
            return None;
        }
        let same_building = |other: &usize| site.dwellings[*other].place.building == own.place.building;
        let taken_by = (0..numbers.len())
            .filter(same_building)
            .find(|other| in_name.is_some() && numbers[*other] == in_name);
        Some(ChosenNumber { dwelling, number, in_name, taken_by })
    };
    numbers.iter().enumerate().filter_map(one).collect()
}
