//! The worst admissible set of calls for one target, by bound, prune and solve.
//!
//! The target is a functional of one stage: a voltage to be made low or a current to be made high.
//! Candidates are tried in the order of their additive bounds ([`crate::bound`]); a partial set is
//! abandoned when its own weights together with the largest weights that could still join it cannot beat the
//! worst value solved so far by more than [`SearchOptions::tolerance`]; what is left is solved. A set that was
//! solved for one target is known to all others of its stage.
//!
//! **What is claimed.** If `Found::complete` is true, no admissible set is worse than the reported
//! value by more than the tolerance (and the enclosure of the solver): every set not solved was
//! excluded by the bound, whose hypotheses and certificate stand in [`crate::bound`], or has the same effect as one that was
//! looked at ([`crate::stage_calls`]). Where a stage has no
//! certified bound, nothing is excluded. If some set is then proved to have no operating point, nothing is worse, for any
//! target. If there are at most [`SearchOptions::most_sets_without_bound`] sets, all are solved; else that many of those that draw most,
//! then for each target [`SETS_OF_A_TARGET`] that weigh most on it, and `complete` is false.

mod branches;

use self::branches::Branches;
use crate::bound::{Functional, RelaxedSum, StageBound};
use crate::evaluate::{SetOutcome, Solver};
use crate::layout::Layout;
use crate::phase::Phase;
use crate::stage_calls::StageCalls;
use std::collections::{BTreeMap, BTreeSet, BinaryHeap};

/// Sets solved for one target on its own account where no certified bound helps.
pub const SETS_OF_A_TARGET: u64 = 8;
/// Sets of calls kept for the targets that follow, where a bound helps.
const MOST_RECORDS: usize = 4096;

/// How hard to search.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SearchOptions {
    /// Sets that cannot be worse by more than this (V or A) are not solved.
    pub tolerance: f64,
    /// Most sets solved for one target before the search gives up.
    pub most_sets: u64,
    /// Most sets solved for all targets of one stage in one state.
    pub most_sets_of_stage: u64,
    /// Most sets solved for all targets of a stage together where no certified bound helps.
    pub most_sets_without_bound: u64,
}

impl Default for SearchOptions {
    fn default() -> Self {
        SearchOptions {
            // A tenth of what the last digit of a site voltmeter shows.
            tolerance: 1e-3,
            most_sets: 20_000,
            most_sets_of_stage: 40_000,
            most_sets_without_bound: 400,
        }
    }
}

/// The worst set found.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Worst {
    /// Options that stand, as positions in the stage's list, in ascending order.
    pub set: Vec<usize>,
    /// The functional's value there; `None` where there is no operating point.
    pub value: Option<f64>,
    /// How the set came out.
    pub outcome: SetOutcome,
}

/// What a search gave.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Found {
    /// The worst set; `None` if no set beats what was known already.
    pub worst: Option<Worst>,
    /// Whether the search was completed; see the module's claim.
    pub complete: bool,
}

/// A target: what to make as bad as possible, and which options must or must not take part.
pub(crate) struct Target<'a> {
    /// What to worsen.
    pub functional: Functional,
    /// Options of its own, as positions in ascending order.
    pub own: &'a [usize],
    /// Whether exactly one of its own options stands, or none.
    pub in_use: bool,
}

/// A set that was solved.
struct Record {
    set: Vec<usize>,
    outcome: SetOutcome,
    voltage_v: Vec<f64>,
    /// Current through the segment to each node.
    current_a: Vec<f64>,
}

/// The searches of one stage in one state.
pub(crate) struct StageSearch<'a, 'b> {
    layout: &'a Layout,
    phase: &'a Phase,
    stage: usize,
    calls: &'a StageCalls,
    solver: &'a mut Solver<'b>,
    bound: Option<&'a StageBound>,
    options: &'a SearchOptions,
    records: Vec<Record>,
    known: BTreeMap<Vec<usize>, usize>,
    /// A set that is proved to have no operating point.
    collapsed: Option<usize>,
    /// Whether every admissible set is among the records.
    has_every_set: bool,
    /// Bounds what the options can add up to.
    relaxed: RelaxedSum,
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

    fn is_certified(&self) -> bool {
        self.bound.is_some_and(|bound| bound.certified)
    }

    fn weights(&self, functional: Functional) -> (f64, Vec<f64>) {
        match self.bound {
            Some(bound) => {
                let weights = bound.weights(self.layout, self.phase, self.stage, functional, self.calls);
                (weights.base, weights.weight)
            }
            None => (f64::INFINITY, vec![0.0; self.calls.options.len()]),
        }
    }

    /// Whether an option may join a set: compatible with all that stand, and not one too many of its kind.
    fn fits(&self, set: &[usize], option: usize) -> bool {
        let of = |position: usize| &self.phase.options[self.calls.options[position]];
        let is_release = of(option).is_release();
        let most = if is_release { self.phase.most_releases } else { self.phase.most_calls };
        let same = set.iter().filter(|other| of(**other).is_release() == is_release).count();
        same < most && set.iter().all(|other| of(*other).is_compatible(of(option)))
    }

    /// Searches the worst set of a target. `must_beat`: badness that is already known from elsewhere for
    /// the same purpose (minus the voltage, or the current), below which nothing is of interest.
    pub fn worst(&mut self, target: &Target<'_>, must_beat: Option<f64>) -> Found {
        let sign = if matches!(target.functional, Functional::Voltage(_)) { -1.0 } else { 1.0 };
        let must_beat = must_beat.unwrap_or(f64::NEG_INFINITY);
        if self.collapsed.is_some() || self.has_every_set {
            return Found { worst: self.worst_record(target, sign, must_beat), complete: true };
        }
        let (base, weight) = self.weights(target.functional);
        if !self.is_certified() {
            let own: BTreeSet<usize> = target.own.iter().copied().collect();
            let heads: &[usize] = if target.in_use { target.own } else { &[] };
            let pool = (0..weight.len()).filter(|option| !own.contains(option)).collect();
            self.solve_heaviest(&weight, heads, pool, SETS_OF_A_TARGET);
            let complete = self.collapsed.is_some();
            return Found { worst: self.worst_record(target, sign, must_beat), complete };
        }
        let best = self.worst_record(target, sign, must_beat);
        let best_badness = best.as_ref().map_or(must_beat, |best| badness(best.value, sign));
        // Most targets end here: the sets that were solved for others cannot be beaten.
        if sign * base + self.most_weight(target, &weight) <= best_badness + self.options.tolerance {
            return Found { worst: best, complete: true };
        }
        let mut pool: Vec<usize> = Vec::with_capacity(weight.len());
        let mut own = target.own.iter().peekable();
        for (option, weight) in weight.iter().enumerate() {
            if own.peek() == Some(&&option) {
                own.next();
            } else if *weight != 0.0 {
                pool.push(option);
            }
        }
        pool.sort_unstable_by(|a, b| weight[*b].total_cmp(&weight[*a]).then(a.cmp(b)));
        let monotone = self.bound.is_some_and(|bound| bound.monotone);
        let left = self.options.most_sets_of_stage.saturating_sub(self.solved);
        let most_sets = self.solved + self.options.most_sets.min(left);
        let mut branches = Branches {
            functional: target.functional,
            weight: &weight,
            pool: &pool,
            base: sign * base,
            sign,
            monotone,
            best_badness,
            best,
            most_sets,
            complete: true,
            search: self,
        };
        if target.in_use {
            let mut first: Vec<usize> = target.own.to_vec();
            first.sort_by(|a, b| weight[*b].total_cmp(&weight[*a]).then(a.cmp(b)));
            for option in first {
                branches.extend(&mut vec![option], 0, weight[option]);
            }
        } else {
            branches.extend(&mut Vec::new(), 0, 0.0);
        }
        let Branches { best, complete, .. } = branches;
        Found { worst: best, complete }
    }

    /// A bound on the sum of weights of any set that the target admits.
    fn most_weight(&mut self, target: &Target<'_>, weight: &[f64]) -> f64 {
        let mut others = weight.to_vec();
        for option in target.own {
            others[*option] = 0.0;
        }
        let free = self.phase.most_calls.saturating_sub(usize::from(target.in_use));
        let own = target.own.iter().filter(|_| target.in_use).map(|option| weight[*option]);
        own.reduce(f64::max).unwrap_or(0.0) + self.relaxed.of(free, &others)
    }

    /// The worst of the sets that were solved, among those that the target admits.
    fn worst_record(&self, target: &Target<'_>, sign: f64, must_beat: f64) -> Option<Worst> {
        let has_own = |record: &Record| record.set.iter().any(|option| target.own.contains(option));
        let value_of = |record: &Record| match (record.outcome, target.functional) {
            (SetOutcome::Solved, Functional::Voltage(node)) => Some(record.voltage_v[node]),
            (SetOutcome::Solved, Functional::Current(node)) => Some(record.current_a[node]),
            _ => None,
        };
        let mut worst: Option<&Record> = None;
        let mut most = must_beat;
        for record in self.records.iter().filter(|record| has_own(record) == target.in_use) {
            let badness = badness(value_of(record), sign);
            if badness > most {
                most = badness;
                worst = Some(record);
            }
        }
        worst.map(|record| Worst {
            set: record.set.clone(),
            value: value_of(record),
            outcome: record.outcome,
        })
    }

    /// Without a certified bound: all sets if they are few, else those that draw most.
    fn share_sets(&mut self) {
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
    fn every_set(&self, most: u64, into: &mut Vec<Vec<usize>>) -> bool {
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
    fn solve_heaviest(&mut self, weight: &[f64], heads: &[usize], mut pool: Vec<usize>, most: u64) {
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
    fn solve(&mut self, set: &[usize]) -> usize {
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

fn badness(value: Option<f64>, sign: f64) -> f64 {
    value.map_or(f64::INFINITY, |value| sign * value)
}
