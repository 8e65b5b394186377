//! The readings of a table, in the order of their places.

use crate::plant::Plant;
use crate::predict::node;
use crate::quantity::{Quantity, places, written};
use latchline_finding::StateKind;
use latchline_network::readings::ReadingPlace;
use latchline_site::model::RunStop;
use std::collections::BTreeSet;

/// How a reading is named in a table.
pub(super) fn name(plant: &Plant<'_>, quantity: &Quantity) -> String {
    match quantity {
        Quantity::Current { .. } => format!("current:{}", written(plant, quantity)),
        Quantity::Loop { .. } => format!("loop:{}", written(plant, quantity)),
        _ => written(plant, quantity),
    }
}

/// The readings of a table: every voltage and every current out of a source and into a run in standby by day; of every run its loop and its insulation.
///
/// Voltages stand first, of supplies and boxes, then of every run from its start to its end.
pub(super) fn quantities(plant: &Plant<'_>) -> Vec<Quantity> {
    let site = plant.site;
    let fed = |at: &ReadingPlace| node(plant, *at).is_some();
    let all: Vec<ReadingPlace> = places(site).into_iter().map(|(_, at)| at).filter(fed).collect();
    let is_station = |at: &ReadingPlace| matches!(at, ReadingPlace::Station(_));
    let is_metered = |at: &ReadingPlace| !matches!(at, ReadingPlace::Run(_) | ReadingPlace::BoxLink(_));
    let along = site.runs.iter().flat_map(|run| &run.sections).filter_map(|section| match section.to {
        RunStop::Station(station) => Some(ReadingPlace::Station(station)),
        RunStop::BoxInput(_) | RunStop::BoxLink(_) => None,
    });
    let first = all.iter().copied().filter(|at| is_metered(at) && !is_station(at));
    // Stations that no run leads to come last.
    let voltages = first.chain(along.filter(fed)).chain(all.iter().copied().filter(is_station));
    let state = || StateKind::StandbyDay.into();
    let mut known = BTreeSet::new();
    let mut list: Vec<Quantity> =
        voltages.filter(|at| known.insert(*at)).map(|at| Quantity::Voltage { at, state: state() }).collect();
    let has_current = |at: &&ReadingPlace| {
        matches!(at, ReadingPlace::Supply(_) | ReadingPlace::BoxOutput(_) | ReadingPlace::Run(_))
    };
    list.extend(all.iter().filter(has_current).map(|at| Quantity::Current { at: *at, state: state() }));
    let runs = || {
        all.iter().filter_map(|at| match at {
            ReadingPlace::Run(run) => Some(*run),
            _ => None,
        })
    };
    list.extend(runs().map(|run| Quantity::Loop { run }));
    list.extend(runs().map(|run| Quantity::Insulation { run }));
    list
}
