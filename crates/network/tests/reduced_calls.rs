//! The calls that are left for one stage against all that the state has, on random systems with up to three calls at once and doors on
//! a bus of their own: whatever any admissible set of calls does to the stage and those below, an admissible set of the calls that
//! are left does too, to the last bit. Nothing is solved here.

use crate::random_site::{Draw, draws, every_set, resolve};
use latchline_finding::StateKind;
use latchline_network::stage_calls::StageCalls;
use latchline_network::{Layout, Phase, StateSpace};
use proptest::prelude::*;
use std::collections::BTreeSet;

/// What a set of calls changes on some stages: node by node, loads in bits.
type Effect = Vec<(usize, usize, [u64; 3])>;

fn effect(phase: &Phase, set: &[usize], stages: &[usize]) -> Effect {
    let mut effect: Effect = set
        .iter()
        .flat_map(|option| &phase.touches[*option])
        .filter(|touch| stages.contains(&touch.at.stage))
        .map(|touch| {
            let change = touch.change;
            let bits = [change.power_w, change.current_a, change.conductance_s].map(f64::to_bits);
            (touch.at.stage, touch.at.node, bits)
        })
        .collect();
    effect.sort_unstable();
    effect
}

/// Which stations of the stages are busy, and with what: their limits hang on it.
fn busy(phase: &Phase, layout: &Layout, set: &[usize], stages: &[usize]) -> BTreeSet<(usize, bool)> {
    set.iter()
        .flat_map(|option| &phase.options[*option].busy)
        .filter(|(station, _)| layout.station[*station].is_some_and(|at| stages.contains(&at.stage)))
        .map(|(station, activity)| (*station, activity.is_in_use()))
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_left_does_whatever_all_could_do(draw in draws()) {
        let site = resolve(&draw);
        let layout = Layout::new(&site);
        let space = StateSpace::new(&site, &layout);
        for phase in &space.phases {
            let sets = every_set(phase);
            for stage in 0..layout.stages.len() {
                let stages = layout.with_stages_below(stage);
                let kept = StageCalls::of_stage(&layout, phase, stage).options;
                prop_assert!(kept.windows(2).all(|pair| pair[0] < pair[1]));
                let told = |set: &[usize]| (effect(phase, set, &stages), busy(phase, &layout, set, &stages));
                let of_kept: BTreeSet<_> = sets
                    .iter()
                    .filter(|set| set.iter().all(|option| kept.contains(option)))
                    .map(|set| told(set))
                    .collect();
                for set in &sets {
                    prop_assert!(of_kept.contains(&told(set)), "{:?}, {}: {set:?} of {kept:?}", phase.kind, layout.stages[stage].id);
                }
            }
        }
    }
}

/// Three doors that ring and talk to two flats are twelve calls, one at a time. On the bus of the flats and the first door the other two doors are one
/// and the same: 4 calls of the first, 4 of either other. On the bus of those two the flats are: ringing and talking of
/// each door.
#[test]
fn calls_that_are_alike_to_a_stage_are_left_out() {
    let draw = Draw {
        calls: 1,
        load_kind: 0,
        source_ohm: 0.1,
        gauge: 0.8,
        regenerate: false,
        entrances: 3,
        desk: false,
        dwellings: vec![(0, 5.0, false, false), (1, 5.0, false, false)],
        feeder_m: 5.0,
        partial_scope: false,
        second_supply: true,
    };
    let site = resolve(&draw);
    let layout = Layout::new(&site);
    let space = StateSpace::new(&site, &layout);
    let phase = space.phases.iter().find(|phase| phase.kind == StateKind::Call).expect("there are calls");
    assert_eq!(phase.options.len(), 12);
    let kept: Vec<usize> =
        (0..2).map(|stage| StageCalls::of_stage(&layout, phase, stage).options.len()).collect();
    assert_eq!((layout.stages[0].id.as_str(), kept), ("PS", vec![8, 4]));
}
