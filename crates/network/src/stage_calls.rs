//! The call options that matter to one stage.
//!
//! Most calls on a large site do not touch a given stage, and many differ only in parties that are
//! elsewhere: whoever calls a flat from another supply's tree, the flat rings all the same. What is left out here
//! cannot change what a set of calls does to the stage, or to those that draw from it:
//!
//! * options that touch none of them;
//! * of options with the same touches and the same party called, all but the first `2 k - 1`, `k` calls being possible at once;
//!   then of what is left the same with the same calling party.
//!
//! **Why nothing is lost.** In an admissible set replace an option that was left out by a kept one of its
//! group. The other calls of the set keep at most `2 (k - 1)` parties busy, and the kept options differ in the one party that
//! they do not share, so at least one of the `2 k - 1` is compatible with all of them; it touches the stage alike.

use crate::layout::Layout;
use crate::phase::Phase;
use std::collections::BTreeMap;

/// What a device's change of load at one node is in bits, so that equal changes are found equal.
type TouchBits = (usize, usize, [u64; 3]);

/// A reduced list of call options.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct StageCalls {
    /// Options, as indices into the phase's, in ascending order.
    pub options: Vec<usize>,
}

impl StageCalls {
    /// Every option of a phase.
    pub fn every(phase: &Phase) -> Self {
        StageCalls { options: (0..phase.options.len()).collect() }
    }

    /// The options that matter to a stage and to those that draw from it.
    pub fn of_stage(layout: &Layout, phase: &Phase, stage: usize) -> Self {
        StageCalls::among(layout, phase, stage, &options_by_stage(layout, phase))
    }

    /// The same, with the options that touch each stage.
    pub(crate) fn among(layout: &Layout, phase: &Phase, stage: usize, by_stage: &[Vec<usize>]) -> Self {
        let mut is_in = vec![false; layout.stages.len()];
        let mut touching: Vec<usize> = Vec::new();
        for index in layout.with_stages_below(stage) {
            is_in[index] = true;
            touching.extend(&by_stage[index]);
        }
        touching.sort_unstable();
        touching.dedup();
        let bits = |option: usize| -> Vec<TouchBits> {
            let touches = phase.touches[option].iter().filter(|touch| is_in[touch.at.stage]);
            let bits = touches.map(|touch| {
                let change = touch.change;
                let bits = [change.power_w, change.current_a, change.conductance_s].map(f64::to_bits);
                (touch.at.stage, touch.at.node, bits)
            });
            bits.collect()
        };
        // Options with the same touches have the same number.
        let mut numbers: BTreeMap<Vec<TouchBits>, u32> = BTreeMap::new();
        let touches: Vec<u32> = touching
            .iter()
            .map(|option| {
                let next = numbers.len() as u32;
                *numbers.entry(bits(*option)).or_insert(next)
            })
            .collect();
        let mut kept: Vec<usize> = (0..touching.len()).collect();
        let most = (2 * phase.most_calls).saturating_sub(1).max(1);
        for shared_side in [1, 0] {
            // What the kept ones of a group have on the other side, each once.
            let mut groups: BTreeMap<(u32, u32), Vec<u32>> = BTreeMap::new();
            kept.retain(|at| {
                let parties = phase.options[touching[*at]].parties;
                let others = groups.entry((touches[*at], parties[shared_side])).or_default();
                let other = parties[1 - shared_side];
                if others.len() >= most || others.contains(&other) {
                    return false;
                }
                others.push(other);
                true
            });
        }
        StageCalls { options: kept.into_iter().map(|at| touching[at]).collect() }
    }
}

/// The options that touch each stage, in ascending order.
pub(crate) fn options_by_stage(layout: &Layout, phase: &Phase) -> Vec<Vec<usize>> {
    let mut by_stage: Vec<Vec<usize>> = vec![Vec::new(); layout.stages.len()];
    for (option, touches) in phase.touches.iter().enumerate() {
        for touch in touches {
            let list = &mut by_stage[touch.at.stage];
            if list.last() != Some(&option) {
                list.push(option);
            }
        }
    }
    by_stage
}
