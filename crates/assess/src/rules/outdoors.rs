//! Which runs go outdoors, for every rule that asks.

use latchline_finding::Provenance;
use latchline_site::model::{Run, RunStart, RunStop, Section, Site};

/// Whether the environment of a run is stated, so that where its devices stand says nothing further.
pub(super) fn is_stated(run: &Run) -> bool {
    run.environment.provenance != Provenance::Assumed
}

/// Of a run whose environment is not stated, the first section to a device that stands outdoors, and whether that is away from all
/// buildings; at the wall of one the cable comes from inside.
pub(super) fn section_outdoors<'a>(site: &Site, run: &'a Run) -> Option<(&'a Section, bool)> {
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
