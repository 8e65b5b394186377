//! What no single change mends, in pairs of changes.
//!
//! Both are of those that are known for the finding; or, where none of these pairs does, the first mends the finding but brings another, and
//! the second is of those that are known for that one, on the site with the first made.

use crate::bench::{Bench, Most};
use crate::candidate::Candidate;
use crate::candidates;
use crate::outcome::key;
use latchline_finding::{Code, Edit, EditStep, Finding, Remedy};
use std::collections::BTreeSet;

/// Most candidates of a finding that are combined in pairs.
const MOST_IN_PAIRS: usize = 10;

/// Most candidates from which those are taken: of some findings there are very many.
const MOST_LOOKED_THROUGH: usize = 100;

/// Most changes of which is looked at what they bring.
const MOST_FIRST: usize = 3;

/// Most kinds of errors and warnings that a first change may bring for a second to mend: stations that are low on one run are one kind.
const MOST_KINDS_BROUGHT: usize = 2;

/// Most changes that are looked through for a second behind one.
const MOST_SECOND: usize = 24;

/// Most pairs that are looked at for so many candidates.
pub(crate) fn most_pairs(candidates: usize) -> usize {
    let single = candidates.min(MOST_IN_PAIRS);
    single * single.saturating_sub(1) / 2 + candidates.min(MOST_FIRST) * (1 + MOST_SECOND)
}

/// The cheapest pair of changes that mends a finding, other stations in dwellings last.
pub fn pair(bench: &Bench<'_>, finding: &Finding) -> Option<Remedy> {
    let single = spread(candidates::of(bench, finding).take(MOST_LOOKED_THROUGH).collect());
    let mut pairs = Vec::new();
    for (index, one) in single.iter().enumerate() {
        let others = single[index + 1..].iter().filter(|other| !is_the_same_thing(&one.edit, &other.edit));
        pairs.extend(others.map(|other| Candidate::both(one, other)));
    }
    cheapest(bench, finding, &pairs)
        .or_else(|| cheapest(bench, finding, &one_behind_the_other(bench, finding, &single)))
}

fn cheapest(bench: &Bench<'_>, finding: &Finding, pairs: &[Candidate]) -> Option<Remedy> {
    let kept = bench.cheapest_of_each_kind(pairs, finding, Most::kinds(1));
    kept.first().map(|mending| bench.remedy(&pairs[mending.index], mending, finding))
}

/// Each change that mends the finding but brings another, with those that are known for what it brings.
fn one_behind_the_other(bench: &Bench<'_>, finding: &Finding, single: &[Candidate]) -> Vec<Candidate> {
    let mut pairs = Vec::new();
    let may_do = single.iter().filter(|one| !bench.is_known_to_leave(&one.edit, &[finding])).take(MOST_FIRST);
    for first in may_do {
        let Some(after) = bench.with(&first.edit) else { continue };
        let is_new = |one: &&Finding| one.is_to_be_mended() && !bench.found().contains(&key(one));
        let brought: Vec<&Finding> = after.assessment.findings.iter().filter(is_new).collect();
        let is_left = after.assessment.findings.iter().any(|one| key(one) == key(finding));
        let kinds: BTreeSet<Code> = brought.iter().map(|one| one.code).collect();
        let Some(worst) = brought.first().filter(|_| !is_left && kinds.len() <= MOST_KINDS_BROUGHT) else {
            continue;
        };
        let after_it = after.bench(bench);
        let second: Vec<Candidate> = candidates::of(&after_it, worst).take(MOST_SECOND).collect();
        let mending = after_it.cheapest_of_each_kind(&second, worst, Most::kinds(1));
        pairs.extend(mending.iter().map(|mending| Candidate::both(first, &second[mending.index])));
    }
    pairs
}

/// Those that are combined: of each kind of change at each thing the first, then the second of each, and so on, since ten cables for one
/// run are no pair; changes of stations that were chosen for dwellings last.
fn spread(all: Vec<Candidate>) -> Vec<Candidate> {
    let mut ranked: Vec<(bool, usize, Candidate)> = Vec::new();
    for one in all {
        let alike = |other: &&(bool, usize, Candidate)| {
            other.2.kind == one.kind && things(&other.2.edit).eq(things(&one.edit))
        };
        let rank = ranked.iter().filter(alike).count();
        ranked.push((one.edit.changes_stations_of_dwellings(), rank, one));
    }
    ranked.sort_by_key(|(is_chosen, rank, _)| (*is_chosen, *rank));
    ranked.into_iter().take(MOST_IN_PAIRS).map(|(_, _, one)| one).collect()
}

/// What an edit touches: the table and the name in it, change by change.
fn things(edit: &Edit) -> impl Iterator<Item = &[EditStep]> {
    edit.changes.iter().map(|(path, _)| path.get(..2).unwrap_or(path))
}

/// Whether two changes set the same value, so that the second undoes the first.
fn is_the_same_thing(one: &Edit, other: &Edit) -> bool {
    one.changes.iter().any(|(path, _)| other.changes.iter().any(|(same, _)| path == same))
}
