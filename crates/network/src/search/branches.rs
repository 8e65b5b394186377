//! Branch and bound over sets of calls.

use super::sets::StageSearch;
use super::target::{Worst, badness};
use crate::bound::Functional;
use crate::evaluate::SetOutcome;

/// Branch and bound for one target under a certified bound.
pub(super) struct Branches<'s, 'a, 'b> {
    pub search: &'s mut StageSearch<'a, 'b>,
    pub functional: Functional,
    pub weight: &'s [f64],
    pub pool: &'s [usize],
    pub base: f64,
    pub sign: f64,
    pub monotone: bool,
    pub best_badness: f64,
    pub best: Option<Worst>,
    pub most_sets: u64,
    pub complete: bool,
}

impl Branches<'_, '_, '_> {
    /// Tries every extension of `set` by pool options from `position` on.
    pub fn extend(&mut self, set: &mut Vec<usize>, position: usize, sum: f64) {
        let free = self.free(set);
        let mut extended = false;
        if free != [0, 0] {
            for next in position..self.pool.len() {
                let option = self.pool[next];
                // Sorted by weight, so what this one and those after it could add only shrinks.
                if self.is_pruned(sum + self.best_ahead(set, next, free)) {
                    break;
                }
                if self.search.fits(set, option) {
                    extended = true;
                    set.push(option);
                    self.extend(set, next + 1, sum + self.weight[option]);
                    set.pop();
                }
                if self.search.solved >= self.most_sets {
                    self.complete = false;
                    return;
                }
            }
        }
        // With monotone loads a set that can be extended is never worse than its extensions.
        if (!extended || !self.monotone) && !self.is_pruned(sum) {
            self.solve(set);
        }
    }

    /// How many more calls and releases may join a set.
    fn free(&self, set: &[usize]) -> [usize; 2] {
        let phase = self.search.phase;
        let is_release = |option: &&usize| self.is_release(**option);
        let releases = set.iter().filter(is_release).count();
        let calls = set.len() - releases;
        [phase.most_calls.saturating_sub(calls), phase.most_releases.saturating_sub(releases)]
    }

    fn is_release(&self, position: usize) -> bool {
        self.search.phase.options[self.search.calls.options[position]].is_release()
    }

    /// A bound on the sum of weights of `free` calls and releases from `next` on that could join the set: the
    /// smaller of the sums with callers all different and with called parties all different.
    fn best_ahead(&self, set: &[usize], next: usize, free: [usize; 2]) -> f64 {
        self.best_apart(0, set, next, free).min(self.best_apart(1, set, next, free))
    }

    /// The largest sum of weights of `free` calls and releases from `next` on, the calls' parties on one side (0: callers,
    /// 1: called) differing from each other and from those of the set.
    fn best_apart(&self, side: usize, set: &[usize], next: usize, free: [usize; 2]) -> f64 {
        let of =
            |position: usize| self.search.phase.options[self.search.calls.options[position]].parties[side];
        // More calls at once than this are bounded without looking at parties; no bus permits them.
        let mut parties = [u32::MAX; 8];
        let [calls, mut releases] = free;
        let mut count = 0;
        let mut sum = 0.0;
        for &option in &self.pool[next..] {
            if (count == calls && releases == 0) || self.weight[option] <= 0.0 {
                break;
            }
            if self.is_release(option) {
                sum += if releases > 0 { self.weight[option] } else { 0.0 };
                releases = releases.saturating_sub(1);
                continue;
            }
            if count == calls {
                continue;
            }
            let party = of(option);
            let is_taken = parties[..count.min(parties.len())].contains(&party)
                || set.iter().any(|other| of(*other) == party);
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
        self.base + sum <= self.best_badness + self.search.options.tolerance
    }

    fn solve(&mut self, set: &[usize]) {
        let mut sorted = set.to_vec();
        sorted.sort_unstable();
        let index = self.search.solve(&sorted);
        let record = &self.search.records[index];
        let value = (record.outcome == SetOutcome::Solved).then(|| match self.functional {
            Functional::Voltage(node) => record.voltage_v[node],
            Functional::Current(node) => record.current_a[node],
        });
        let badness = badness(value, self.sign);
        if badness > self.best_badness {
            self.best_badness = badness;
            self.best = Some(Worst { set: sorted, value, outcome: record.outcome });
        }
    }
}
