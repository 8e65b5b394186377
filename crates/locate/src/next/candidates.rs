//! Which readings could be taken, and what each costs.

use crate::evidence::Evidence;
use crate::hypothesis::Hypothesis;
use crate::plant::Plant;
use crate::posterior::Ranking;
use crate::predict::place_of;
use crate::quantity::{Legs, Quantity};
use latchline_finding::{CallMoment, StateKind};
use latchline_network::readings::{ReadingPlace, capacitance_f_per_m};
use latchline_network::{BusState, StageNode};
use latchline_site::model::{RunStop, Site, StationOwner};
use std::collections::BTreeSet;

/// Runs whose readings alone are looked at, and stations that are called for it.
const MOST_RUNS: usize = 10;
const MOST_CALLS: usize = 6;

/// Readings that could be taken next.
pub(super) fn candidates(
    plant: &Plant<'_>,
    evidence: &Evidence,
    hypotheses: &[Hypothesis],
    ranking: &Ranking,
    left: &[usize],
) -> Vec<Quantity> {
    let site = plant.site;
    let mut list = Vec::new();
    let standby = || BusState::from(StateKind::StandbyDay);
    let mut states: Vec<BusState> = vec![standby()];
    for one in &evidence.measured {
        if let Some(state) = one.quantity.state()
            && !states.contains(state)
        {
            states.push(state.clone());
        }
    }
    // What somebody tells of a station shows, if by any voltage, while that station is called.
    for symptom in &evidence.symptoms {
        if let Some(state) = plant.call(symptom.station, CallMoment::Ringing, None)
            && !states.contains(&state)
            && states.len() < MOST_CALLS
        {
            states.push(state);
        }
    }
    let mut runs: Vec<usize> = Vec::new();
    let mut called: BTreeSet<usize> = BTreeSet::new();
    for place in left {
        let cause = hypotheses[ranking.causes[*place].hypothesis].cause;
        let run = match cause.element {
            crate::Element::Station(index) => site
                .runs
                .iter()
                .position(|run| run.sections.iter().any(|section| section.to == RunStop::Station(index))),
            element => element.run(),
        };
        let Some(run) = run else { continue };
        if !runs.contains(&run) && runs.len() < MOST_RUNS {
            runs.push(run);
            let last = site.runs[run].sections.iter().rev().find_map(|section| match section.to {
                RunStop::Station(station) => Some(station),
                _ => None,
            });
            if let Some(last) = last
                && called.len() < MOST_CALLS
                && called.insert(last)
                && let Some(state) = plant.call(last, CallMoment::Ringing, None)
                && !states.contains(&state)
            {
                states.push(state);
            }
        }
    }
    let near: BTreeSet<usize> = runs
        .iter()
        .flat_map(|run| &site.runs[*run].sections)
        .filter_map(|section| match section.to {
            RunStop::Station(station) => Some(station),
            _ => None,
        })
        .chain(evidence.symptoms.iter().map(|symptom| symptom.station))
        .collect();
    for state in &states {
        for stage in &plant.layout.stages {
            let source = place_of(stage.source, StageNode::Source);
            list.push(Quantity::Current { at: source, state: state.clone() });
            for terminal in &stage.terminal {
                let at = place_of(stage.source, *terminal);
                let is_read = match at {
                    ReadingPlace::BoxLink(_) => false,
                    // While somebody calls, only stations in runs that are suspected.
                    ReadingPlace::Station(index) => state.calls.is_empty() || near.contains(&index),
                    _ => true,
                };
                if is_read {
                    list.push(Quantity::Voltage { at, state: state.clone() });
                }
            }
        }
        for (rank, &run) in runs.iter().enumerate() {
            list.push(Quantity::Current { at: ReadingPlace::Run(run), state: state.clone() });
            let ends = drops(site, run, rank == 0);
            list.extend(ends.into_iter().map(|(from, to)| Quantity::Drop {
                from,
                to,
                legs: Legs::Both,
                state: state.clone(),
            }));
        }
    }
    for &run in &runs {
        list.extend([Quantity::Loop { run }, Quantity::Insulation { run }, Quantity::Earth { run }]);
        if capacitance_f_per_m(&site.runs[run], site.cable(&site.runs[run])).is_some() {
            list.push(Quantity::Capacitance { run });
        }
    }
    list
}

/// Pairs of ends of a run between which a drop can be read: two voltages one right after the other, so that what the supply does drops out of their
/// difference. Neighbours, the run as a whole, and from its start and to its last place any other where it is the `likeliest` run.
fn drops(site: &Site, run: usize, likeliest: bool) -> Vec<(ReadingPlace, ReadingPlace)> {
    let stops = site.runs[run].sections.iter().map(|section| ReadingPlace::from(section.to));
    let mut places: Vec<ReadingPlace> = std::iter::once(site.runs[run].from.into()).chain(stops).collect();
    places.retain(|place| !matches!(place, ReadingPlace::BoxLink(_)));
    let last = places.len() - 1;
    let mut ends = Vec::new();
    for to in 1..=last {
        for from in 0..to {
            let is_whole = from == 0 && to == last;
            if from + 1 == to || is_whole || (likeliest && (from == 0 || to == last)) {
                ends.push((places[from], places[to]));
            }
        }
    }
    ends
}

/// Minutes that a reading takes a person who stands where the last one was taken (common practice, no source): two for the
/// meter; half for every floor and three for another building; two for a cover; eight for a dwelling that has to be entered; six to
/// switch off, take a run off at both ends, and put it back; one for somebody who calls. A drop is read at both its ends.
pub(crate) fn effort_minutes(plant: &Plant<'_>, quantity: &Quantity, last: Option<ReadingPlace>) -> f64 {
    let site = plant.site;
    let place_of = |at: ReadingPlace| match at {
        ReadingPlace::Supply(index) => Some(&site.supplies[index].place),
        ReadingPlace::BoxOutput(index)
        | ReadingPlace::BoxInput(index)
        | ReadingPlace::BoxLink(index)
        | ReadingPlace::Port { box_index: index, .. } => Some(&site.boxes[index].place),
        ReadingPlace::Station(index) => Some(site.station_place(&site.stations[index])),
        ReadingPlace::Run(_) => None,
    };
    let on_foot = |from: Option<ReadingPlace>, to: ReadingPlace| {
        let (Some(here), Some(there)) = (from.and_then(place_of), place_of(to)) else { return 0.0 };
        if here.building != there.building {
            return 3.0;
        }
        match (here.floor, there.floor) {
            (Some(a), Some(b)) => 0.5 * a.abs_diff(b) as f64,
            _ => 0.0,
        }
    };
    let open = |at: ReadingPlace| match at {
        ReadingPlace::Station(index) => match site.stations[index].owner {
            StationOwner::Dwelling { .. } => 8.0,
            _ => 3.0,
        },
        _ => 2.0,
    };
    let standing = |at: ReadingPlace| match at {
        ReadingPlace::Run(run) => site.runs[run].from.into(),
        other => other,
    };
    let (last, at) = (last.map(standing), standing(quantity.place()));
    let mut minutes = 2.0
        + match quantity {
            Quantity::Drop { from, .. } => {
                2.0 + on_foot(last, *from) + open(*from) + on_foot(Some(*from), at) + open(at)
            }
            _ => on_foot(last, at) + open(at),
        };
    minutes += match quantity {
        Quantity::Loop { .. }
        | Quantity::Insulation { .. }
        | Quantity::Earth { .. }
        | Quantity::Capacitance { .. } => 6.0,
        _ => 0.0,
    };
    if quantity.state().is_some_and(|state| !state.calls.is_empty()) {
        minutes += 1.0;
    }
    minutes
}
