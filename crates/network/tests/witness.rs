//! One state looked at by itself, against the search of all of them on random sites: a source that was found without operating point has none
//! when the state is laid on alone, and no margin that any state gives is below the worst.

use crate::random_site::{draws, resolve};
use latchline_network::witness::{Witnessed, in_state};
use latchline_network::{BusState, Layout, SearchOptions, StateSpace, worst_states};
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_state_alone_gives_what_the_search_found_in_it(draw in draws()) {
        let site = resolve(&draw);
        let layout = Layout::new(&site);
        let space = StateSpace::new(&site, &layout);
        let options = SearchOptions::default();
        let found = worst_states(&site, &layout, &space, &options);
        for device in &found.devices {
            for margin in &device.margins {
                let state = BusState::of(&space.phases[margin.phase], &margin.set).named(&site);
                let alone = in_state(&site, &layout, device.at.stage, &state);
                let failing = margin.failing_stage.filter(|_| !margin.is_undecided);
                if let Some(stage) = failing {
                    let failing = in_state(&site, &layout, stage, &state);
                    prop_assert_eq!(failing, Some(Witnessed::NoOperatingPoint));
                    prop_assert!(!matches!(alone, Some(Witnessed::Solved(_))));
                }
                let Some(Witnessed::Solved(alone)) = alone else { continue };
                let own = alone.margins_v.iter().find(|(one, _)| *one == device.device);
                let own = own.map(|(_, margin_v)| *margin_v);
                // It may well be above: with the calls of this state alone, bounds that rest on all calls are less hard.
                let least_v = margin.margin_v();
                prop_assert!(own.is_some_and(|own_v| own_v >= least_v), "{own:?}, found {least_v}");
                let largest_a = found.source_current[device.at.stage].as_ref().and_then(|one| one.current_a);
                prop_assert!(largest_a.is_none_or(|most_a| alone.source_current_a <= most_a * (1.0 + 1e-9)));
                let largest_w = found.largest_power(device.at.stage, |_| true).and_then(|one| one.power_w);
                prop_assert!(largest_w.is_none_or(|most_w| alone.source_power_w <= most_w * (1.0 + 1e-9)));
                for (other, margin_v) in &alone.margins_v {
                    let worst = found.devices.iter().find(|one| one.device == *other);
                    let worst_v = worst.map(|one| one.worst().margin_v());
                    prop_assert!(worst_v.is_some_and(|worst_v| worst_v <= margin_v + options.tolerance));
                }
            }
        }
    }
}
