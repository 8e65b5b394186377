//! Why stations that should have answered did not: what one cause on site explains, together.

use super::Reconciliation;
use crate::model::{RunStop, Site};
use crate::ways::Ways;
use std::collections::BTreeMap;

/// What most simply explains that stations did not answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum AbsenceCause {
    /// Nothing on this run nor beyond it answers: index into [`Site::runs`].
    WholeRun {
        /// The run.
        run: usize,
    },
    /// The stations of a run answer up to one, and none from the next on.
    RunFrom {
        /// The run.
        run: usize,
        /// The last station that answers.
        last: usize,
        /// The first that does not.
        first: usize,
    },
    /// One station, or some of a run, with others of the run that answer.
    Alone {
        /// The run that leads to it.
        run: Option<usize>,
        /// The station, of several the first on the run.
        station: usize,
    },
    /// It answers to another number: its switches are set wrong.
    SetWrong {
        /// The station.
        station: usize,
    },
}

/// Missing stations that one thing explains.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Absence {
    /// What explains them.
    pub cause: AbsenceCause,
    /// The stations in the order of their run, as indices into [`Site::stations`].
    pub stations: Vec<usize>,
}

/// Groups the missing stations by what explains them, those groups first that are largest.
pub fn absences(site: &Site, found: &Reconciliation) -> Vec<Absence> {
    let ways = Ways::new(site);
    // A station that most likely answers to a wrong number is there.
    let explanations = found
        .unexpected
        .iter()
        .flat_map(|one| &one.explanations)
        .chain(found.duplicated.iter().flat_map(|one| &one.explanations));
    let set_wrong: Vec<usize> = explanations.filter(|one| one.best).map(|one| one.station).collect();
    let dark = |station: usize| found.missing.contains(&station) && !set_wrong.contains(&station);
    let mut groups: BTreeMap<AbsenceCause, Vec<usize>> = BTreeMap::new();
    for station in &found.missing {
        let cause = if set_wrong.contains(station) {
            AbsenceCause::SetWrong { station: *station }
        } else {
            cause_of(site, &ways, *station, &dark)
        };
        groups.entry(cause).or_default().push(*station);
    }
    let mut absences: Vec<Absence> =
        groups.into_iter().map(|(cause, stations)| Absence { cause, stations }).collect();
    absences.sort_by_key(|one| (usize::MAX - one.stations.len(), one.cause));
    absences
}

fn cause_of(site: &Site, ways: &Ways<'_>, station: usize, dark: &dyn Fn(usize) -> bool) -> AbsenceCause {
    let Some(own) = ways.to(RunStop::Station(station)) else {
        return AbsenceCause::Alone { run: None, station };
    };
    let all_dark = |run: &usize| {
        let beyond = ways.stations_beyond(*run);
        // One station alone at its run's end may as well be its switches.
        beyond.len() > 1 && beyond.iter().all(|one| dark(*one))
    };
    if let Some(run) = ways.to_run(own).iter().copied().find(all_dark) {
        return AbsenceCause::WholeRun { run };
    }
    let stops: Vec<usize> = site.runs[own]
        .sections
        .iter()
        .filter_map(|section| match section.to {
            RunStop::Station(stop) => Some(stop),
            RunStop::BoxInput(_) | RunStop::BoxLink(_) => None,
        })
        .collect();
    let first = stops.iter().rposition(|stop| !dark(*stop)).map_or(0, |last| last + 1);
    let is_in_tail = stops[first..].contains(&station);
    match (first.checked_sub(1).map(|last| stops[last]), stops.get(first)) {
        (Some(last), Some(next)) if is_in_tail && stops.len() - first > 1 => {
            AbsenceCause::RunFrom { run: own, last, first: *next }
        }
        _ => {
            let before_tail = if is_in_tail { &[] } else { &stops[..first] };
            let first_dark = before_tail.iter().copied().find(|stop| dark(*stop));
            AbsenceCause::Alone { run: Some(own), station: first_dark.unwrap_or(station) }
        }
    }
}
