//! What a family's numbering asks of a survey, settled before it is designed, so that nobody has to correct the survey by hand.
//!
//! Of doors that would have the number of the main one, the door that calls the most is the main one. Dwellings for which a building has
//! no number left are numbered in a further building.

use crate::groups::call_groups;
use crate::instance::Instance;
use crate::item::Owner;
use latchline_finding::Both;
use latchline_site::catalogue::FieldKind;
use latchline_survey::Survey;
use latchline_survey::model::Building;
use latchline_words::design::RemarkWords;
use std::collections::BTreeMap;

/// The survey as the family can number it, and what is to be said of that; `None` where it can as it is.
pub(crate) fn settled(instance: &Instance<'_>) -> Option<(Survey, Vec<Both>)> {
    let mut survey = instance.survey.clone();
    let mut told = one_main_door(instance, &mut survey);
    told.extend(further_buildings(instance, &mut survey));
    (!told.is_empty()).then_some((survey, told))
}

/// Leaves one main door of those that would have one number.
fn one_main_door(instance: &Instance<'_>, survey: &mut Survey) -> Vec<Both> {
    let scheme = &instance.family.addresses.door;
    let has = |kind: FieldKind| scheme.iter().any(|field| field.kind == kind);
    let has_main = scheme.iter().any(|field| field.kind == FieldKind::Entrance && field.main.is_some());
    if !has_main {
        return Vec::new();
    }
    // What stands in no building is numbered with the first one.
    let numbered_in = |entrance: usize| {
        let building = survey.places[survey.entrances[entrance].place].building;
        if has(FieldKind::Building) { building.unwrap_or(0) } else { 0 }
    };
    let mut doors: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
    for (group, items) in call_groups(instance).iter().enumerate() {
        for item in items {
            if let Owner::Entrance(entrance) = instance.items[*item].owner
                && survey.entrances[entrance].main
            {
                doors.entry((group, numbered_in(entrance))).or_default().push(entrance);
            }
        }
    }
    let called = |entrance: usize| {
        let words = &survey.entrances[entrance].calls;
        let is_called = |at: &usize| words.iter().any(|word| survey.means_dwelling(word, *at));
        match words.is_empty() {
            true => survey.dwellings.len(),
            false => (0..survey.dwellings.len()).filter(is_called).count(),
        }
    };
    let name = |entrance: usize| survey.entrances[entrance].name.value.as_str();
    let mut told = Vec::new();
    let mut secondary = Vec::new();
    for doors in doors.values().filter(|doors| doors.len() > 1) {
        let Some(main) = doors.iter().copied().max_by_key(|door| (called(*door), usize::MAX - door)) else {
            continue;
        };
        let others: Vec<usize> = doors.iter().copied().filter(|door| *door != main).collect();
        let names: Vec<&str> = others.iter().map(|door| name(*door)).collect();
        let words = RemarkWords::OneMainDoor { main: name(main), others: &names.join(", ") };
        told.push(words.both());
        secondary.extend(others);
    }
    secondary.into_iter().for_each(|door| survey.entrances[door].main = false);
    told
}

/// Numbers dwellings in a further building where theirs has no number left.
fn further_buildings(instance: &Instance<'_>, survey: &mut Survey) -> Vec<Both> {
    let scheme = &instance.family.addresses.indoor;
    let field = |kind: FieldKind| scheme.iter().find(|field| field.kind == kind);
    let (Some(numbers), Some(_)) = (field(FieldKind::Dwelling), field(FieldKind::Building)) else {
        return Vec::new();
    };
    let range = numbers.first.value..=numbers.last.value;
    let room = range.filter(|number| !numbers.reserved.contains(number)).count().max(1);
    let mut told = Vec::new();
    for building in 0..survey.buildings.len() {
        let lives_here = |at: &usize| survey.places[survey.dwellings[*at].place].building == Some(building);
        let dwellings: Vec<usize> = (0..survey.dwellings.len()).filter(lives_here).collect();
        for (part, moved) in dwellings.chunks(room).enumerate().skip(1) {
            let old = survey.buildings[building].name.value.clone();
            let taken = |name: &str| survey.buildings.iter().any(|other| other.name.value == name);
            let mut new = format!("{old}-{}", part + 1);
            while taken(&new) {
                new.push('x');
            }
            let words = RemarkWords::FurtherBuilding {
                building: &old,
                dwellings: dwellings.len(),
                room,
                first: &survey.dwellings[moved[0]].name.value.clone(),
                last: &survey.dwellings[moved[moved.len() - 1]].name.value.clone(),
                new: &new,
            };
            told.push(words.both());
            let at = survey.buildings.len();
            let own = survey.buildings[building].clone();
            survey.buildings.push(Building { name: own.name.clone().map(|_| new.clone()), ..own });
            moved.iter().for_each(|dwelling| survey.dwellings[*dwelling].numbered_in = Some(at));
            // Whoever calls the building, or a part of it, calls its further one, too.
            let callers = (survey.entrances.iter_mut().map(|entrance| &mut entrance.calls))
                .chain(survey.desks.iter_mut().map(|desk| &mut desk.calls));
            for calls in callers {
                let further: Vec<String> = calls
                    .iter()
                    .filter_map(|word| match word.split_once('/') {
                        Some((first, rest)) => (first == old).then(|| format!("{new}/{rest}")),
                        None => (*word == old).then(|| new.clone()),
                    })
                    .collect();
                calls.extend(further);
            }
        }
    }
    told
}
