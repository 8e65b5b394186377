//! Parts that a survey names and no catalogue has, each with its cell.

use crate::model::Survey;
use crate::problem::{Problem, ProblemKind};
use crate::sheets::nearest;
use latchline_finding::Sourced;
use latchline_site::catalogue::Catalogue;
use latchline_words::reading::Thing;
use std::collections::BTreeMap;

/// Every family, station, lock and cable that the survey names and the catalogue does not have. Families, stations and cables without
/// which nothing can be designed are told here too, so that all mistakes of a survey stand in one list.
pub fn unknown_parts(survey: &Survey, catalogue: &Catalogue) -> Vec<Problem> {
    let mut problems = Vec::new();
    let settings = &survey.settings;
    look_up(&mut problems, Thing::Family, &catalogue.families, settings.family.iter());
    let stations = (settings.indoor_station.iter().chain(&settings.door_station))
        .chain(survey.dwellings.iter().filter_map(|dwelling| dwelling.station.as_ref()))
        .chain(survey.entrances.iter().filter_map(|entrance| entrance.station.as_ref()))
        .chain(survey.desks.iter().filter_map(|desk| desk.station.as_ref()));
    look_up(&mut problems, Thing::StationModel, &catalogue.stations, stations);
    // An empty name is the model of the main station.
    let extensions: Vec<Sourced<String>> = survey
        .dwellings
        .iter()
        .flat_map(|dwelling| {
            dwelling.extensions.iter().map(|model| dwelling.name.clone().map(|_| model.clone()))
        })
        .filter(|model| !model.value.is_empty())
        .collect();
    look_up(&mut problems, Thing::StationModel, &catalogue.stations, extensions.iter());
    let locks = || survey.entrances.iter().filter_map(|entrance| entrance.lock.as_ref());
    look_up(&mut problems, Thing::LockModel, &catalogue.locks, locks().map(|lock| &lock.model));
    let cables = settings
        .cables
        .iter()
        .chain(survey.existing.iter().map(|cable| &cable.cable))
        .chain(locks().filter_map(|lock| lock.cable.as_ref()));
    look_up(&mut problems, Thing::Cable, &catalogue.cables, cables);
    problems
}

/// Names that are told where none is near.
const MOST_NAMED: usize = 6;

fn look_up<'s, T>(
    problems: &mut Vec<Problem>,
    kind: Thing,
    known: &BTreeMap<String, T>,
    names: impl Iterator<Item = &'s Sourced<String>>,
) {
    for name in names.filter(|name| !known.contains_key(&name.value)) {
        let mut nearest = nearest(&name.value, known.keys().map(String::as_str));
        // Where nothing is near and there are few, all are named.
        if nearest.is_empty() && known.len() <= MOST_NAMED {
            nearest = known.keys().cloned().collect();
        }
        let kind = ProblemKind::UnknownName { kind, name: name.value.clone(), nearest };
        problems.push(Problem::new(name.origin.clone(), kind));
    }
}
