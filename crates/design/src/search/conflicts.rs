//! Runs that are known not to go together.

use crate::plan::Plan;
use crate::runs::{Barred, RunKey};
use std::collections::{BTreeMap, BTreeSet};

/// Runs that do not go together, with the trunk cable.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Conflict {
    pub(super) trunk: (usize, u32),
    pub(super) runs: BTreeSet<RunKey>,
    /// Kinds of the supplies, where it is a whole plan that is known to fail; empty where any will.
    pub(super) supplies: Vec<usize>,
}

/// Conflicts that were learnt, found by one of their runs.
#[derive(Default)]
pub(super) struct Conflicts {
    pub(super) by_first: BTreeMap<RunKey, Vec<Conflict>>,
}

impl Conflicts {
    pub(super) fn insert(&mut self, conflict: Conflict) {
        let Some(first) = conflict.runs.first() else { return };
        let known = self.by_first.entry(first.clone()).or_default();
        if let Err(place) = known.binary_search(&conflict) {
            known.insert(place, conflict);
        }
    }

    /// The first that a plan with these runs, this trunk and these supplies has.
    pub(super) fn among(
        &self,
        trunk: (usize, u32),
        runs: &BTreeSet<RunKey>,
        supplies: &[usize],
    ) -> Option<&Conflict> {
        runs.iter().filter_map(|first| self.by_first.get(first)).flatten().find(|conflict| {
            conflict.trunk == trunk
                && (conflict.supplies.is_empty() || conflict.supplies == supplies)
                && conflict.runs.len() <= runs.len()
                && conflict.runs.iter().all(|run| runs.contains(run))
        })
    }
}

/// Sets of runs to bar in turn. One conflict: each of its runs. Several: the runs that only one of them has
/// together, then each that several have.
pub(super) fn sides(conflicts: &[Conflict]) -> Vec<Barred> {
    if let [one] = conflicts {
        return one.runs.iter().map(|key| Barred::from([key.clone()])).collect();
    }
    let all: Barred = conflicts.iter().flat_map(|conflict| conflict.runs.iter().cloned()).collect();
    let count = |key: &RunKey| conflicts.iter().filter(|conflict| conflict.runs.contains(key)).count();
    let (shared, own): (Vec<RunKey>, Vec<RunKey>) = all.into_iter().partition(|key| count(key) > 1);
    let mut sides: Vec<Barred> = shared.into_iter().map(|key| Barred::from([key])).collect();
    if !own.is_empty() {
        sides.push(own.into_iter().collect());
    }
    sides
}

/// The runs of a plan.
pub(super) fn keys(plan: &Plan) -> Vec<RunKey> {
    let root = plan.zones.first().map_or(0, |zone| zone.place);
    let runs = plan.runs().into_iter();
    let keys = runs.map(|(planned, run)| RunKey {
        place: planned.map_or(root, |planned| planned.place),
        model: planned.map(|planned| planned.model),
        items: run.items.clone(),
        wire: run.choice.wire,
        branching: run.branching.clone(),
    });
    keys.collect()
}

/// The kinds of a plan's supplies.
pub(super) fn supplies(plan: &Plan) -> Vec<usize> {
    plan.zones.iter().map(|zone| zone.supply).collect()
}

/// The cable of the trunks, with its pairs in parallel.
pub(super) fn trunk_cable(plan: &Plan) -> (usize, u32) {
    plan.zones.first().and_then(|zone| zone.trunks.first()).map_or((0, 1), |trunk| (trunk.wire, trunk.pairs))
}
