//! Which cables lie outdoors, for everyone who judges or chooses one.

use crate::catalogue::{Cable, Environment};
use crate::model::{Entrance, Run, RunStart, RunStop, Section, Site};
use latchline_finding::Provenance;

/// Whether a cable is made for everywhere that a run lies: for its environment and, where that is not stated, for the open air if one of its
/// devices stands outdoors, and for the open air or the ground if it joins two buildings.
pub fn is_made_for_run(site: &Site, run: &Run, cable: &Cable) -> bool {
    let is_made_for = |environment| cable.environments.value.contains(&environment);
    is_made_for(run.environment.value)
        && (section_outdoors(site, run).is_none() || is_made_for(Environment::Outdoors))
        && (!joins_buildings(site, run)
            || is_made_for(Environment::Outdoors)
            || is_made_for(Environment::Buried))
}

/// Whether a run whose environment is not stated leads from one building to another: between two houses it lies in the open or in the ground
/// (common practice, no source).
pub fn joins_buildings(site: &Site, run: &Run) -> bool {
    section_between_buildings(site, run).is_some()
}

/// Of a run whose environment is not stated, the first section that leads into another building than the one that it comes from, and that
/// building.
pub fn section_between_buildings<'a>(site: &Site, run: &'a Run) -> Option<(&'a Section, usize)> {
    if is_stated(run) { None } else { section_into_another(site, run) }
}

/// Whether a run leads from one building to another, whatever is stated of its environment.
pub fn leaves_its_building(site: &Site, run: &Run) -> bool {
    section_into_another(site, run).is_some()
}

fn section_into_another<'a>(site: &Site, run: &'a Run) -> Option<(&'a Section, usize)> {
    let mut here = site.start_place(run.from).building;
    // Where nothing says in which building something stands, it is in that of what comes before it.
    run.sections.iter().find_map(|section| {
        let there = site.stop_place(section.to).building?;
        let is_other = here.is_some_and(|here| here != there);
        here = here.or(Some(there));
        is_other.then_some((section, there))
    })
}

/// Whether a cable is made for where what is fitted at a door lies: for the open air if the door is outdoors. How much of it is in the open is
/// not known.
pub fn is_made_for_door(entrance: &Entrance, cable: &Cable) -> bool {
    !entrance.place.outdoors || cable.environments.value.contains(&Environment::Outdoors)
}

/// Whether the environment of a run is stated, so that where its devices stand says nothing further.
pub fn is_stated(run: &Run) -> bool {
    run.environment.provenance != Provenance::Assumed
}

/// Of a run whose environment is not stated, the first section to a device that stands outdoors, and whether that is away from all
/// buildings; at the wall of one the cable comes from inside.
pub fn section_outdoors<'a>(site: &Site, run: &'a Run) -> Option<(&'a Section, bool)> {
    if is_stated(run) {
        return None;
    }
    let away = |section: &Section| away_from_buildings(site, section.to);
    let outdoors = run.sections.iter().find_map(|section| Some((section, away(section)?)));
    // From a station outdoors the first section begins there.
    outdoors.or_else(|| match run.from {
        RunStart::Station(station) => {
            Some((run.sections.first()?, away_from_buildings(site, RunStop::Station(station))?))
        }
        _ => None,
    })
}

/// For a stop that is outdoors: whether it stands away from all buildings.
fn away_from_buildings(site: &Site, stop: RunStop) -> Option<bool> {
    let place = match stop {
        RunStop::Station(station) => site.station_place(&site.stations[station]),
        RunStop::BoxInput(index) | RunStop::BoxLink(index) => &site.boxes[index].place,
    };
    place.outdoors.then_some(place.building.is_none())
}
