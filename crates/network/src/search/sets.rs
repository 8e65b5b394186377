//! The sets of calls of a stage that were solved, for all of its targets.

use super::options::SearchOptions;
use crate::bound::{Functional, StageBound};
use crate::evaluate::{SetOutcome, Solver};
use crate::layout::Layout;
use crate::phase::Phase;
use crate::relaxed_sum::RelaxedSum;
use crate::stage_calls::StageCalls;
use std::collections::{BTreeMap, BTreeSet, BinaryHeap};

/// Sets of calls kept for the targets that follow, where a bound helps.
const MOST_RECORDS: usize = 4096;

/// A set that was solved.
pub(super) struct Record {
    pub(super) set: Vec<usize>,
    pub(super) outcome: SetOutcome,
    pub(super) voltage_v: Vec<f64>,
    /// Current through the segment to each node.
    pub(super) current_a: Vec<f64>,
}

/// The searches of one stage in one state.
pub(crate) struct StageSearch<'a, 'b> {
    pub(super) layout: &'a Layout,
    pub(super) phase: &'a Phase,
    pub(super) stage: usize,
    pub(super) calls: &'a StageCalls,
    pub(super) solver: &'a mut Solver<'b>,
    pub(super) bound: Option<&'a StageBound>,
    pub(super) options: &'a SearchOptions,
    pub(super) records: Vec<Record>,
    pub(super) known: BTreeMap<Vec<usize>, usize>,
    /// A set that is proved to have no operating point.
    pub(super) collapsed: Option<usize>,
    /// Whether every admissible set is among the records.
    pub(super) has_every_set: bool,
    /// Bounds what the options can add up to.
    pub(super) relaxed: RelaxedSum,
    /// Sets solved here.
    pub solved: u64,
}

impl<'a, 'b> StageSearch<'a, 'b> {
    /// Prepares the searches; without a certified bound this solves the sets that all targets share.
    pub fn new(
        layout: &'a Layout,
        phase: &'a Phase,
        stage: usize,
        calls: &'a StageCalls,
        solver: &'a mut Solver<'b>,
        bound: Option<&'a StageBound>,
        options: &'a SearchOptions,
    ) -> Self {
        let mut search = StageSearch {
            layout,
            phase,
            stage,
            calls,
            solver,
            bound,
            options,
            records: Vec::new(),
            known: BTreeMap::new(),
            collapsed: None,
            has_every_set: false,
            relaxed: RelaxedSum::new(phase, calls),
            solved: 0,
        };
        if !search.is_certified() {
            search.share_sets();
        }
        search
    }

    pub(super) fn is_certified(&self) -> bool {
        self.bound.is_some_and(|bound| bound.certified)
    }

    pub(super) fn weights(&self, functional: Functional) -> (f64, Vec<f64>) {
        match self.bound {
            Some(bound) => {
                let weights = bound.weights(self.layout, self.phase, self.stage, functional, self.calls);
                (weights.base, weights.weight)
            }
            None => (f64::INFINITY, vec![0.0; self.calls.options.len()]),
        }
    }

    /// Whether an option may join a set: compatible with all that stand, and not one too many of its kind.
    pub(super) fn fits(&self, set: &[usize], option: usize) -> bool {
        let of = |position: usize| &self.phase.options[self.calls.options[position]];
        let is_release = of(option).is_release();
        let most = if is_release { self.phase.most_releases } else { self.phase.most_calls };
        let same = set.iter().filter(|other| of(**other).is_release() == is_release).count();
        same < most && set.iter().all(|other| of(*other).is_compatible(of(option)))
    }

    /// Without a certified bound: all sets if they are few, else those that draw most.
    pub(super) fn share_sets(&mut self) {
        let most = self.options.most_sets_without_bound;
        let mut sets = Vec::new();
        if self.every_set(most, &mut sets) {
            self.has_every_set = true;
            // Large sets first: if one has no operating point, the others need not be solved.
            for set in sets.iter().rev() {
                self.solve(set);
                if self.collapsed.is_some() {
                    return;
                }
            }
        } else {
            let (_, weight) = self.weights(Functional::Current(0));
            let pool = (0..weight.len()).collect();
            self.solve_heaviest(&weight, &[], pool, most);
        }
    }

    /// Lists every admissible set, by size; false if there are more than `most`.
    pub(super) fn every_set(&self, most: u64, into: &mut Vec<Vec<usize>>) -> bool {
        into.push(Vec::new());
        let mut from = 0;
        for _ in 0..self.phase.most_calls + self.phase.most_releases {
            let end = into.len();
            for index in from..end {
                let first = into[index].last().map_or(0, |last| last + 1);
                for option in first..self.calls.options.len() {
                    if self.fits(&into[index], option) {
                        let mut larger = into[index].clone();
                        larger.push(option);
                        into.push(larger);
                        if into.len() as u64 > most {
                            return false;
                        }
                    }
                }
            }
            from = end;
        }
        true
    }

    /// Solves the sets of as many options as may stand at once that weigh most, at most so many, until one is proved to have no
    /// operating point. One of `heads` is in each, if there are any; the others are from the pool.
    pub(super) fn solve_heaviest(
        &mut self,
        weight: &[f64],
        heads: &[usize],
        mut pool: Vec<usize>,
        most: u64,
    ) {
        pool.retain(|option| weight[*option] != 0.0);
        pool.sort_by(|a, b| weight[*b].total_cmp(&weight[*a]).then(a.cmp(b)));
        let mut heads = heads.to_vec();
        heads.sort_by(|a, b| weight[*b].total_cmp(&weight[*a]).then(a.cmp(b)));
        heads.truncate(4);
        let at_once = self.phase.most_calls + self.phase.most_releases;
        let free = at_once.saturating_sub(usize::from(!heads.is_empty())).min(pool.len());
        let starts: Vec<Vec<usize>> =
            if heads.is_empty() { vec![Vec::new()] } else { heads.iter().map(|head| vec![*head]).collect() };
        let share = most.div_ceil(starts.len() as u64);
        for start in starts {
            let mut solved = 0;
            // Best first: positions in the pool in ascending order, the heaviest sum on top.
            let mut queue = BinaryHeap::new();
            let mut seen = BTreeSet::new();
            let sum = |places: &[usize]| Sum(places.iter().map(|place| weight[pool[*place]]).sum());
            let first: Vec<usize> = (0..free).collect();
            queue.push((sum(&first), std::cmp::Reverse(first)));
            let mut looked_at = 0;
            while let Some((_, std::cmp::Reverse(places))) = queue.pop() {
                looked_at += 1;
                if looked_at > 16 * share {
                    break;
                }
                let mut set = start.clone();
                for place in &places {
                    if self.fits(&set, pool[*place]) {
                        set.push(pool[*place]);
                    }
                }
                // Where parties exclude each other the set is smaller, which is a set too.
                set.sort_unstable();
                if !self.known.contains_key(&set) {
                    solved += 1;
                    self.solve(&set);
                    if self.collapsed.is_some() {
                        return;
                    }
                }
                if solved >= share {
                    break;
                }
                for index in 0..places.len() {
                    let end = places.get(index + 1).copied().unwrap_or(pool.len());
                    if places[index] + 1 < end {
                        let mut next = places.clone();
                        next[index] += 1;
                        if seen.insert(next.clone()) {
                            queue.push((sum(&next), std::cmp::Reverse(next)));
                        }
                    }
                }
            }
        }
    }

    /// Solves a set and keeps the result, unless it is kept already; its number among the records.
    pub(super) fn solve(&mut self, set: &[usize]) -> usize {
        if let Some(index) = self.known.get(set) {
            return *index;
        }
        self.solved += 1;
        let options: Vec<usize> = set.iter().map(|position| self.calls.options[*position]).collect();
        let outcome = self.solver.solve_set(self.stage, &options);
        let mut record = Record { set: set.to_vec(), outcome, voltage_v: Vec::new(), current_a: Vec::new() };
        if outcome == SetOutcome::Solved {
            record.voltage_v.clone_from(&self.solver.solution(self.stage).voltage_v);
            record.current_a = self.solver.segment_currents_a(self.stage);
        }
        // The last place is written over when the records are full.
        let index = self.records.len();
        if self.is_certified() && index >= MOST_RECORDS {
            let last = index - 1;
            self.known.remove(&self.records[last].set);
            self.records[last] = record;
            self.known.insert(set.to_vec(), last);
            return last;
        }
        if matches!(outcome, SetOutcome::NoOperatingPoint { .. }) {
            self.collapsed = Some(index);
        }
        self.records.push(record);
        self.known.insert(set.to_vec(), index);
        index
    }

    /// A set that is proved to have no operating point, if one was met.
    pub fn collapsed(&self) -> Option<(&[usize], SetOutcome)> {
        let record = &self.records[self.collapsed?];
        Some((&record.set, record.outcome))
    }
}

/// A sum of weights, ordered.
#[derive(PartialEq)]
struct Sum(f64);

impl Eq for Sum {}

impl PartialOrd for Sum {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Sum {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}
