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
mod options;
mod sets;
mod target;

pub use options::SearchOptions;
pub(crate) use sets::StageSearch;
pub(crate) use target::{Found, Target, Worst};

use crate::bound::Functional;
use crate::evaluate::SetOutcome;
use branches::Branches;
use sets::Record;
use std::collections::BTreeSet;
use target::badness;

/// Sets solved for one target on its own account where no certified bound helps.
pub const SETS_OF_A_TARGET: u64 = 8;

impl<'a, 'b> StageSearch<'a, 'b> {
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
}
