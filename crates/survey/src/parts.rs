//! Parts that a survey names and no catalogue has, each with its cell.

use crate::locked::Decision;
use crate::model::{ExistingCable, Survey};
use crate::problem::{Problem, ProblemKind};
use crate::sheets::{nearest, nearest_or_few};
use latchline_finding::Sourced;
use latchline_site::catalogue::{BoxRole, Catalogue, StationKind, StationModel, loop_ohm_per_km};
use latchline_words::reading::Thing;
use std::collections::BTreeMap;

/// Every family, station, lock and cable that the survey names and the catalogue does not have, stations of another kind than their place
/// needs, parts of another family than the survey's, withdrawn parts that there are not, and measured loops far from those of their cables. Families, stations and cables without
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
    let dwellings = (settings.indoor_station.iter())
        .chain(survey.dwellings.iter().filter_map(|dwelling| dwelling.station.as_ref()))
        .chain(&extensions);
    of_kind(&mut problems, catalogue, StationKind::Indoor, dwellings);
    let doors = (settings.door_station.iter())
        .chain(survey.entrances.iter().filter_map(|entrance| entrance.station.as_ref()));
    of_kind(&mut problems, catalogue, StationKind::Door, doors);
    of_kind(
        &mut problems,
        catalogue,
        StationKind::Management,
        survey.desks.iter().filter_map(|desk| desk.station.as_ref()),
    );
    let known = catalogue.part_names();
    for name in settings.withdrawn.iter().filter(|name| !known.contains(name.value.as_str())) {
        let nearest = nearest(&name.value, known.iter().copied());
        let kind = ProblemKind::WithdrawnUnknown { name: name.value.clone(), nearest };
        problems.push(Problem::new(name.origin.clone(), kind));
    }
    of_family(&mut problems, survey, catalogue, &extensions);
    problems.extend(survey.existing.iter().filter_map(|cable| loop_not_of_cable(cable, catalogue)));
    let boxes = survey.locked.iter().filter_map(|locked| match &locked.decision {
        Decision::Box { model, .. } => model.as_ref(),
        _ => None,
    });
    for name in boxes.clone() {
        if let Some(model) = catalogue.boxes.get(&name.value)
            && model.role.value != BoxRole::Distributor
        {
            let kind = ProblemKind::WrongKind {
                name: name.value.clone(),
                found: Thing::BranchBox,
                expected: Thing::Distributor,
            };
            problems.push(Problem::new(name.origin.clone(), kind));
        }
    }
    look_up(&mut problems, Thing::BoxModel, &catalogue.boxes, boxes);
    let locked_cables = survey.locked.iter().filter_map(|locked| match &locked.decision {
        Decision::Cable { cable, .. } => cable.as_ref(),
        _ => None,
    });
    let locks = || survey.entrances.iter().filter_map(|entrance| entrance.lock.as_ref());
    look_up(&mut problems, Thing::LockModel, &catalogue.locks, locks().map(|lock| &lock.model));
    let cables = settings
        .cables
        .iter()
        .chain(locked_cables)
        .chain(survey.existing.iter().map(|cable| &cable.cable))
        .chain(locks().filter_map(|lock| lock.cable.as_ref()));
    look_up(&mut problems, Thing::Cable, &catalogue.cables, cables);
    problems
}

/// Tells every station that is of another kind than its place needs.
fn of_kind<'s>(
    problems: &mut Vec<Problem>,
    catalogue: &Catalogue,
    wanted: StationKind,
    names: impl Iterator<Item = &'s Sourced<String>>,
) {
    let word = |kind: StationKind| match kind {
        StationKind::Indoor => Thing::IndoorStation,
        StationKind::Door => Thing::DoorStation,
        StationKind::Management => Thing::ManagementStation,
    };
    for name in names {
        let Some(model) = catalogue.stations.get(&name.value) else { continue };
        if model.kind.value != wanted {
            let kind = ProblemKind::WrongKind {
                name: name.value.clone(),
                found: word(model.kind.value),
                expected: word(wanted),
            };
            problems.push(Problem::new(name.origin.clone(), kind));
        }
    }
}

/// Tells every station and box that is of another family than the survey's; where that is not settled, than the first station's.
fn of_family(
    problems: &mut Vec<Problem>,
    survey: &Survey,
    catalogue: &Catalogue,
    extensions: &[Sourced<String>],
) {
    let settings = &survey.settings;
    let stations = (settings.indoor_station.iter())
        .chain(&settings.door_station)
        .chain(survey.dwellings.iter().filter_map(|dwelling| dwelling.station.as_ref()))
        .chain(extensions)
        .chain(survey.entrances.iter().filter_map(|entrance| entrance.station.as_ref()))
        .chain(survey.desks.iter().filter_map(|desk| desk.station.as_ref()));
    let stations: Vec<(&Sourced<String>, &StationModel)> =
        stations.filter_map(|name| Some((name, catalogue.stations.get(&name.value)?))).collect();
    let settled = settings.family.as_ref().map(|family| family.value.as_str());
    let of_first = stations.first().map(|(_, model)| model.family.value.as_str());
    let Some(expected) = settled.or(of_first) else { return };
    if !catalogue.families.contains_key(expected) {
        return;
    }
    let mut tell = |name: &Sourced<String>, family: &str, choices: Vec<String>| {
        let kind = ProblemKind::OtherFamily {
            name: name.value.clone(),
            family: family.to_string(),
            expected: expected.to_string(),
            choices,
        };
        problems.push(Problem::new(name.origin.clone(), kind));
    };
    for (name, model) in stations {
        if model.family.value != expected {
            let does_the_same = |other: &&StationModel| {
                other.family.value == expected
                    && other.kind.value == model.kind.value
                    && other.media.value == model.media.value
            };
            let choices = catalogue.stations.values().filter(does_the_same);
            tell(name, &model.family.value, choices.map(|other| other.head.name.clone()).collect());
        }
    }
    for locked in &survey.locked {
        let Decision::Box { model: Some(name), .. } = &locked.decision else { continue };
        let Some(model) = catalogue.boxes.get(&name.value) else { continue };
        if model.family.value != expected {
            let choices = catalogue
                .boxes
                .values()
                .filter(|other| other.family.value == expected && other.role.value == BoxRole::Distributor);
            tell(name, &model.family.value, choices.map(|other| other.head.name.clone()).collect());
        }
    }
}

/// Temperature of a cable in a wall, in °C.
const IN_THE_WALL_C: f64 = 20.0;
/// A loop is far from its cable's beyond this factor, and by more than so many ohms (common practice, no source).
const FAR_FACTOR: f64 = 2.0;
const FAR_OHM: f64 = 1.0;

/// A measured loop that is far from what the stated length of its cable has.
fn loop_not_of_cable(existing: &ExistingCable, catalogue: &Catalogue) -> Option<Problem> {
    let (length_m, loop_ohm) = (existing.stated_m?, existing.loop_ohm?);
    let cable = catalogue.cables.get(&existing.cable.value)?;
    let expected_ohm = loop_ohm_per_km(cable, IN_THE_WALL_C) * length_m / 1e3;
    let is_far = loop_ohm > FAR_FACTOR * expected_ohm || loop_ohm < expected_ohm / FAR_FACTOR;
    (is_far && (loop_ohm - expected_ohm).abs() > FAR_OHM).then(|| {
        let kind =
            ProblemKind::LoopNotOfCable { loop_ohm, cable: existing.cable.value.clone(), expected_ohm };
        Problem::new(existing.cable.origin.clone(), kind)
    })
}

fn look_up<'s, T>(
    problems: &mut Vec<Problem>,
    kind: Thing,
    known: &BTreeMap<String, T>,
    names: impl Iterator<Item = &'s Sourced<String>>,
) {
    for name in names.filter(|name| !known.contains_key(&name.value)) {
        let nearest = nearest_or_few(&name.value, known.keys().map(String::as_str));
        let kind = ProblemKind::UnknownName { kind, name: name.value.clone(), nearest };
        problems.push(Problem::new(name.origin.clone(), kind));
    }
}
