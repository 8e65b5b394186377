//! One state looked at by itself, against the search of all of them on random sites: a source that was found without operating point has none
//! when the state is laid on alone, and no margin that any state gives is below the worst.

use crate::random_site::{draws, resolve};
use latchline_network::witness::{has_no_operating_point, margins_in_state};
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
                let alone = margins_in_state(&site, &layout, device.device, &state);
                let failing = margin.failing_stage.filter(|_| !margin.is_undecided);
                if let Some(stage) = failing {
                    prop_assert!(has_no_operating_point(&site, &layout, &layout.stages[stage].id, &state));
                    prop_assert!(alone.is_none());
                }
                let Some(alone) = alone else { continue };
                prop_assert!(!has_no_operating_point(&site, &layout, &layout.stages[device.at.stage].id, &state));
                let own = alone.iter().find(|(one, _)| *one == device.device).map(|(_, margin_v)| *margin_v);
                // It may well be above: with the calls of this state alone, bounds that rest on all calls are less hard.
                let least_v = margin.margin_v();
                prop_assert!(own.is_some_and(|own_v| own_v >= least_v), "{own:?}, found {least_v}");
                for (other, margin_v) in &alone {
                    let worst = found.devices.iter().find(|one| one.device == *other);
                    let worst_v = worst.map(|one| one.worst().margin_v());
                    prop_assert!(worst_v.is_some_and(|worst_v| worst_v <= margin_v + options.tolerance));
                }
            }
        }
    }
}
