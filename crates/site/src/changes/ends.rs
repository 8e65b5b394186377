//! Ends of cables that are wired again.

use crate::model::{RunStart, Site};
use latchline_finding::ElementId;
use std::collections::{BTreeMap, BTreeSet};

/// A piece of cable: between two stops, whichever way round, or between a port or supply (`None`) and the first stop.
type Piece<'a> = (Option<&'a ElementId>, &'a ElementId);

/// The pieces of a site: how many of each, and where those begin that come from a port or supply.
fn pieces(site: &Site) -> BTreeMap<Piece<'_>, Vec<ElementId>> {
    let mut all: BTreeMap<Piece<'_>, Vec<ElementId>> = BTreeMap::new();
    for run in &site.runs {
        let mut from = match run.from {
            RunStart::Station(station) => Some(&site.stations[station].id),
            RunStart::Supply(_) | RunStart::Port { .. } => None,
        };
        for section in &run.sections {
            let to = site.stop_id(section.to);
            let piece = match from {
                Some(from) if to < from => (Some(to), from),
                from => (from, to),
            };
            all.entry(piece).or_default().push(site.start_id(run.from));
            from = Some(to);
        }
    }
    all
}

/// The pieces of a site with what they hang on.
#[derive(Debug)]
pub(super) struct Ends<'a> {
    pieces: BTreeMap<Piece<'a>, Vec<ElementId>>,
    /// Stations and boxes.
    stops: BTreeSet<&'a ElementId>,
}

impl<'a> Ends<'a> {
    pub(super) fn of(site: &'a Site) -> Self {
        let stations = site.stations.iter().map(|one| &one.id);
        let stops = stations.chain(site.boxes.iter().map(|one| &one.id)).collect();
        Ends { pieces: pieces(site), stops }
    }

    /// How many ends are taken off and connected elsewhere to come from this site to another, at what is there before and after: at each stop as
    /// many as pieces go or come, whichever is more, since one goes where the other was; at ports and supplies those that hang on another one.
    /// The ends of new cable at what is new are part of its pulling.
    pub(super) fn wired_again(&self, after: &Ends<'_>) -> usize {
        let (was, is) = (&self.pieces, &after.pieces);
        if was == is {
            return 0;
        }
        // By stop that stays: pieces that go and pieces that come.
        let mut at: BTreeMap<&ElementId, [usize; 2]> = self
            .stops
            .iter()
            .filter(|stop| after.stops.contains(**stop))
            .map(|stop| (*stop, [0; 2]))
            .collect();
        let mut count = |(from, to): Piece<'_>, which: usize, pieces: usize| {
            for end in from.into_iter().chain([to]) {
                if let Some(ends) = at.get_mut(end) {
                    ends[which] += pieces;
                }
            }
        };
        let mut moved = 0;
        for (piece, starts) in was {
            let now = is.get(piece).map_or(&[][..], Vec::as_slice);
            count(*piece, 0, starts.len().saturating_sub(now.len()));
            if piece.0.is_none() {
                let elsewhere = starts.iter().filter(|start| !now.contains(start)).count();
                moved += elsewhere.min(now.len());
            }
        }
        for (piece, starts) in is {
            count(*piece, 1, starts.len().saturating_sub(was.get(piece).map_or(0, Vec::len)));
        }
        moved + at.values().map(|[go, come]| go.max(come)).sum::<usize>()
    }
}
