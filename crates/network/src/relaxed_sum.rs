//! What the weights of a set of calls can add up to.

use crate::phase::Phase;
use crate::stage_calls::StageCalls;

/// An upper bound on the sum of weights of an admissible set: the smaller of two relaxations. One
/// takes the best option of each caller, the other the best option for each party that is called; of either as
/// many as may stand at once. To both come the heaviest releases outside of calls, as many as may be.
pub(crate) struct RelaxedSum {
    /// Positions of the options that are releases, and how many may stand at once.
    releases: Vec<usize>,
    most_releases: usize,
    /// The number of each option's caller, and of the party that it calls.
    group: [Vec<usize>; 2],
    best: [Vec<f64>; 2],
}

impl RelaxedSum {
    pub(crate) fn new(phase: &Phase, calls: &StageCalls) -> Self {
        let numbered = |side: usize| {
            let party_of = |option: &usize| phase.options[*option].parties[side];
            let mut parties: Vec<u32> = calls.options.iter().map(party_of).collect();
            parties.sort_unstable();
            parties.dedup();
            let number = |party: u32| parties.binary_search(&party).unwrap_or(0);
            let group: Vec<usize> = calls.options.iter().map(|option| number(party_of(option))).collect();
            (group, vec![0.0; parties.len()])
        };
        let ((callers, of_callers), (called, of_called)) = (numbered(0), numbered(1));
        let is_release = |option: usize| phase.options[calls.options[option]].is_release();
        let releases = (0..calls.options.len()).filter(|option| is_release(*option)).collect();
        let most_releases = phase.most_releases;
        RelaxedSum { releases, most_releases, group: [callers, called], best: [of_callers, of_called] }
    }

    /// The bound for these weights.
    pub(crate) fn of(&mut self, most_calls: usize, weight: &[f64]) -> f64 {
        let mut bound = f64::INFINITY;
        for (group, best) in self.group.iter().zip(&mut self.best) {
            best.fill(0.0);
            for (number, weight) in group.iter().zip(weight) {
                best[*number] = best[*number].max(*weight);
            }
            for release in &self.releases {
                best[group[*release]] = 0.0;
            }
            let mut sum = 0.0;
            for _ in 0..most_calls.min(best.len()) {
                // Few calls stand at once: picking the largest again and again beats sorting.
                let Some(largest) = (0..best.len()).max_by(|a, b| best[*a].total_cmp(&best[*b])) else {
                    break;
                };
                sum += best[largest];
                best[largest] = 0.0;
            }
            bound = bound.min(sum);
        }
        let mut by_hand: Vec<f64> = self.releases.iter().map(|release| weight[*release].max(0.0)).collect();
        by_hand.sort_by(|a, b| b.total_cmp(a));
        bound + by_hand.iter().take(self.most_releases).sum::<f64>()
    }
}
