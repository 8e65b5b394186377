//! The worst admissible set of calls for one target, by bound, prune and solve.
//!
//! The target is a functional of one stage: a voltage to be made low or a current to be made high.
//! Candidates are tried in the order of their additive bounds ([`crate::bound`]); a partial set is
//! abandoned when its own weights together with the largest weights that could still join it cannot beat the
//! worst value solved so far by more than [`SearchOptions::tolerance`]; what is left is solved.
//!
//! **What is claimed.** If [`Found::complete`] is true, no admissible set is worse than the reported
//! value by more than the tolerance (and the enclosure of the solver): every set not solved was
//! excluded by the bound, whose hypotheses and certificate stand in [`crate::bound`]. Where a stage has no
//! certified bound, nothing is excluded, every set is solved up to a stated number, and `complete` says
//! whether that sufficed.

use crate::bound::{Functional, StageBound};
use crate::evaluate::{SetOutcome, Solver};
use crate::layout::Layout;
use crate::phase::Phase;

/// How hard to search.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SearchOptions {
    /// Sets that cannot be worse by more than this (V or A) are not solved.
    pub tolerance: f64,
    /// Most sets solved for one target before the search gives up.
    pub most_sets: u64,
    /// The same where no certified bound helps.
    pub most_sets_without_bound: u64,
}

impl Default for SearchOptions {
    fn default() -> Self {
        // A tenth of what the last digit of a site voltmeter shows.
        SearchOptions { tolerance: 1e-3, most_sets: 20_000, most_sets_without_bound: 400 }
    }
}

/// The worst set found.
#[derive(Debug, Clone, PartialEq)]
pub struct Worst {
    /// Options that stand, as indices into the phase's, in ascending order.
    pub set: Vec<usize>,
    /// The functional's value there; `None` where there is no operating point.
    pub value: Option<f64>,
    /// How the set came out.
    pub outcome: SetOutcome,
}

/// What a search gave.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// The worst set; `None` if no set beats what was known already.
    pub worst: Option<Worst>,
    /// Whether the search was completed; see the module's claim.
    pub complete: bool,
}

/// A target: what to make as bad as possible, and which options must or must not take part.
pub struct Target<'a> {
    /// The stage.
    pub stage: usize,
    /// What to worsen.
    pub functional: Functional,
    /// Options of which exactly one stands; empty for none.
    pub one_of: &'a [usize],
    /// Options that may join besides.
    pub pool: &'a [usize],
}

/// Searches the worst set of a target. `must_beat`: badness that is already known from elsewhere for
/// the same purpose (minus the voltage, or the current), below which nothing is of interest.
pub fn worst_set(
    layout: &Layout,
    phase: &Phase,
    solver: &mut Solver<'_>,
    bound: Option<&StageBound>,
    target: &Target<'_>,
    options: &SearchOptions,
    must_beat: Option<f64>,
) -> Found {
    let sign = if matches!(target.functional, Functional::Voltage(_)) { -1.0 } else { 1.0 };
    let (mut base, weight) = match bound {
        Some(bound) => {
            let weights = bound.weights(layout, phase, target.stage, target.functional);
            (sign * weights.base, weights.weight)
        }
        None => (f64::INFINITY, vec![0.0; phase.options.len()]),
    };
    let certified = bound.is_some_and(|bound| bound.certified);
    let mut most_sets = options.most_sets;
    if !certified {
        // The weights still tell a good order, but exclude nothing.
        base = f64::INFINITY;
        most_sets = options.most_sets_without_bound;
    }
    let mut pool: Vec<usize> = target.pool.to_vec();
    let monotone = bound.is_some_and(|bound| bound.monotone);
    if bound.is_some() {
        pool.retain(|option| weight[*option] != 0.0);
        pool.sort_by(|a, b| weight[*b].total_cmp(&weight[*a]).then(a.cmp(b)));
    }
    let mut search = Search {
        phase,
        solver,
        target,
        tolerance: options.tolerance,
        most_sets,
        weight: &weight,
        pool: &pool,
        base,
        sign,
        monotone,
        best_badness: must_beat.unwrap_or(f64::NEG_INFINITY),
        best: None,
        solved: 0,
        complete: true,
    };
    if target.one_of.is_empty() {
        search.extend(&mut Vec::new(), 0, 0.0);
    } else {
        let mut first: Vec<usize> = target.one_of.to_vec();
        first.sort_by(|a, b| weight[*b].total_cmp(&weight[*a]).then(a.cmp(b)));
        for option in first {
            search.extend(&mut vec![option], 0, weight[option]);
        }
    }
    let Search { best, complete, .. } = search;
    let worst = best.map(|mut worst| {
        worst.set.sort_unstable();
        worst
    });
    Found { worst, complete }
}

struct Search<'a, 'b> {
    phase: &'a Phase,
    solver: &'a mut Solver<'b>,
    target: &'a Target<'a>,
    tolerance: f64,
    most_sets: u64,
    weight: &'a [f64],
    pool: &'a [usize],
    base: f64,
    sign: f64,
    monotone: bool,
    best_badness: f64,
    best: Option<Worst>,
    solved: u64,
    complete: bool,
}

impl Search<'_, '_> {
    /// Tries every extension of `set` by pool options from `position` on.
    fn extend(&mut self, set: &mut Vec<usize>, position: usize, sum: f64) {
        let free = self.phase.most_calls.saturating_sub(set.len());
        let mut extended = false;
        if free > 0 {
            for next in position..self.pool.len() {
                let option = self.pool[next];
                // Sorted by weight, so what this one and those after it could add only shrinks.
                if self.is_pruned(sum + self.best_ahead(set, next, free)) {
                    break;
                }
                let fits = set
                    .iter()
                    .all(|other| self.phase.options[*other].is_compatible(&self.phase.options[option]));
                if fits {
                    extended = true;
                    set.push(option);
                    self.extend(set, next + 1, sum + self.weight[option]);
                    set.pop();
                }
                if self.solved >= self.most_sets {
                    self.complete = false;
                    return;
                }
            }
        }
        // With monotone loads a set that can be extended is never worse than its extensions.
        if !extended || !self.monotone {
            if self.is_pruned(sum) {
                return;
            }
            self.solve(set);
        }
    }

    /// A bound on the sum of weights of `free` options from `next` on that could join the set: the
    /// smaller of the sums with callers all different and with called parties all different.
    fn best_ahead(&self, set: &[usize], next: usize, free: usize) -> f64 {
        self.best_apart(0, set, next, free).min(self.best_apart(1, set, next, free))
    }

    /// The largest sum of weights of `free` options from `next` on whose parties on one side (0: callers,
    /// 1: called) differ from each other and from those of the set.
    fn best_apart(&self, side: usize, set: &[usize], next: usize, free: usize) -> f64 {
        let options = &self.phase.options;
        // More calls at once than this are bounded without looking at parties; no bus permits them.
        let mut parties = [u32::MAX; 8];
        let mut count = 0;
        let mut sum = 0.0;
        for &option in &self.pool[next..] {
            if count == free || self.weight[option] <= 0.0 {
                break;
            }
            let party = options[option].parties[side];
            let is_taken = parties[..count.min(parties.len())].contains(&party)
                || set.iter().any(|other| options[*other].parties[side] == party);
            if is_taken {
                continue;
            }
            if let Some(free_place) = parties.get_mut(count) {
                *free_place = party;
            }
            count += 1;
            sum += self.weight[option];
        }
        sum
    }

    fn is_pruned(&self, sum: f64) -> bool {
        self.base + sum <= self.best_badness + self.tolerance
    }

    fn solve(&mut self, set: &[usize]) {
        self.solved += 1;
        let stage = self.target.stage;
        let outcome = self.solver.solve_set(stage, set);
        let value = (outcome == SetOutcome::Solved).then(|| match self.target.functional {
            Functional::Voltage(node) => self.solver.solution(stage).voltage_v[node],
            Functional::Current(node) => self.solver.segment_current_a(stage, node),
        });
        let badness = value.map_or(f64::INFINITY, |value| self.sign * value);
        if badness > self.best_badness {
            self.best_badness = badness;
            self.best = Some(Worst { set: set.to_vec(), value, outcome });
        }
    }
}
