//! Other parts in place of withdrawn ones.

use super::installed::{Installed, InstalledBox, Run, Stop, price};
use super::ways::{Way, Ways, per_dm};
use crate::instance::Instance;
use crate::money::Amount;
use crate::obstacle::Obstacle;
use crate::parts::is_withdrawn;
use crate::toml_text::{array, joined, list, place_key, quoted};
use latchline_finding::Both;
use latchline_site::catalogue::StationKind;
use latchline_site::model::{Site, StationOwner};
use latchline_words::design::{LackingPart, StepWords};

/// Another part of the same kind in place of a withdrawn one, everywhere.
///
/// # Errors
/// [`Obstacle::NoPart`] if the family has none.
pub fn replacements(
    instance: &Instance<'_>,
    installed: &Installed,
    site: &Site,
    part: &str,
) -> Result<Ways, Obstacle> {
    let catalogue = instance.catalogue;
    let mut names: Vec<String> = Vec::new();
    if let Some(old) = catalogue.stations.get(part) {
        let same = catalogue.stations.values().filter(|model| {
            model.family.value == old.family.value
                && model.kind.value == old.kind.value
                && (old.kind.value == StationKind::Management || model.media.value == old.media.value)
                && model.loop_through.value == old.loop_through.value
        });
        names.extend(same.map(|model| model.head.name.clone()));
    } else if let Some(old) = catalogue.boxes.get(part) {
        let same = catalogue.boxes.values().filter(|model| {
            let is_isolating = |kind| kind == latchline_site::catalogue::BoxKind::Isolating;
            model.family.value == old.family.value
                && model.role.value == old.role.value
                && is_isolating(model.kind.value) == is_isolating(old.kind.value)
        });
        names.extend(same.map(|model| model.head.name.clone()));
    } else if let Some(old) = catalogue.supplies.get(part) {
        let same = catalogue.supplies.values().filter(|model| model.family.value == old.family.value);
        names.extend(same.map(|model| model.head.name.clone()));
    }
    names.retain(|name| name != part && !is_withdrawn(instance.survey, name) && price(instance, name) > 0);
    let ways: Ways = names.iter().map(|name| replacement(instance, installed, site, part, name)).collect();
    if ways.is_empty() {
        return Err(Obstacle::NoPart {
            family: instance.family.head.name.clone(),
            part: LackingPart::Replacement,
        });
    }
    Ok(ways)
}

fn replacement(
    instance: &Instance<'_>,
    installed: &Installed,
    site: &Site,
    part: &str,
    name: &str,
) -> (Installed, Way) {
    let mut way = Way::new(Both::same(""), 0);
    let mut count = 0;
    for item in site.boxes.iter().filter(|item| item.model.value == part) {
        way.set(&["distributors", item.id.as_str(), "model"], quoted(name));
        count += 1;
    }
    for supply in site.supplies.iter().filter(|supply| supply.model.value == part) {
        way.set(&["supplies", supply.id.as_str(), "model"], quoted(name));
        count += 1;
    }
    let stations = site.stations.iter().enumerate();
    for (index, station) in stations.filter(|(_, station)| station.model.value == part) {
        count += 1;
        // A model that several stations share is written once, at the head of the file.
        let shared =
            site.stations.iter().filter(|other| other.model.origin == station.model.origin).count() > 1;
        match station.owner {
            StationOwner::Dwelling { ordinal: 0, .. } if shared => {
                way.set(&["site", "indoor_station"], quoted(name));
            }
            StationOwner::Dwelling { dwelling, ordinal } => {
                let owner = &site.dwellings[dwelling];
                let id = owner.id.as_str();
                if ordinal == 0 {
                    way.set(&["dwellings", id, "station"], quoted(name));
                } else {
                    let models = owner.stations.iter().skip(1).map(|at| {
                        let model = &site.stations[*at].model.value;
                        if model == part { name.to_string() } else { model.clone() }
                    });
                    way.set(&["dwellings", id, "extensions"], array(&models.collect::<Vec<_>>()));
                }
            }
            StationOwner::Entrance(_) if shared => way.set(&["site", "door_station"], quoted(name)),
            StationOwner::Entrance(at) => {
                way.set(&["entrances", site.entrances[at].id.as_str(), "station"], quoted(name));
            }
            StationOwner::Management(at) => {
                way.set(&["management", site.management[at].id.as_str(), "model"], quoted(name));
            }
        }
        debug_assert!(index < site.stations.len());
    }
    way.parts.dedup();
    way.cost = price(instance, name) * count as Amount;
    way.words = StepWords::Withdrawn { part, model: name, count }.both();
    let mut installed = installed.clone();
    for at in 0..installed.boxes.len() {
        if installed.boxes[at].model == part {
            installed.boxes[at].model = name.to_string();
            surplus_ports(instance, &mut installed, at, &mut way);
        }
    }
    (installed, way)
}

/// Where a box now has fewer ports than are in use: a second one beside it, looped into the trunk behind it, takes the
/// runs of the ports that are gone.
fn surplus_ports(instance: &Instance<'_>, installed: &mut Installed, at: usize, way: &mut Way) {
    let Some(kind) = instance.distributors.iter().find(|kind| kind.name == installed.boxes[at].model) else {
        return;
    };
    let gone = |run: &Run| run.port.is_some_and(|(index, port)| index == at && port > kind.ports);
    let moving: Vec<usize> = (0..installed.runs.len()).filter(|run| gone(&installed.runs[*run])).collect();
    let trunk = installed.runs.iter().position(|run| run.stops.contains(&Stop::Box(at)));
    let (false, Some(trunk), Some(place)) = (moving.is_empty(), trunk, installed.boxes[at].place) else {
        return;
    };
    let name = installed.name(&format!("{}-", installed.boxes[at].name));
    let second = InstalledBox { name: name.clone(), model: kind.name.clone(), place: Some(place) };
    installed.boxes.push(second);
    let second = installed.boxes.len() - 1;
    let keys = [Some(format!("model = {}", quoted(&kind.name))), place_key(instance.survey, place)];
    way.set(&["distributors", &name], format!("{{ {} }}", joined(keys)));
    for (index, run) in moving.into_iter().enumerate() {
        let target = &mut installed.runs[run];
        target.port = Some((second, index + 1));
        target.from = format!("{name}.{}", index + 1);
        way.set(&["runs", &target.name, "from"], quoted(&target.from));
    }
    let length_dm = instance.section_dm(0, 0);
    let behind =
        installed.runs[trunk].stops.iter().position(|stop| *stop == Stop::Box(at)).map_or(0, |at| at + 1);
    installed.runs[trunk].stops.insert(behind, Stop::Box(second));
    installed.runs[trunk].lengths_m.insert(behind, f64::from(length_dm) / 10.0);
    let names = installed.runs[trunk].names(instance, installed);
    let target = &installed.runs[trunk];
    way.set(&["runs", &target.name, "to"], list(&names));
    way.lengths(&target.name, &target.lengths_m);
    way.cost += kind.cost + Amount::from(length_dm) * per_dm(instance, &target.cable).unwrap_or(0);
    let words =
        StepWords::BesideForPorts { done: &way.words, name: &name, beside: &installed.boxes[at].name };
    way.words = words.both();
}
