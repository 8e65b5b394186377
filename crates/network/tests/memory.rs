//! What is remembered of stages that are the same, against working it out anew: a series of random sites, each a small change of the one
//! before, with one memory for all. What is found must be the same to the last bit.

use crate::random_site::{Draw, draws, resolve};
use latchline_network::short_circuit::{short_circuits, short_circuits_with};
use latchline_network::signal_tree::{
    BandSurvey, CableLengths, SignalSurvey, StationSignal, survey, survey_at, survey_with,
};
use latchline_network::start_up::{Effort, start_up};
use latchline_network::{Layout, Memory, SearchOptions, StateSpace, worst_states, worst_states_with};
use latchline_site::model::Site;
use proptest::prelude::*;

/// One change of a draw.
#[derive(Debug, Clone)]
enum Change {
    /// A section of another length.
    Length(usize, f64),
    /// Another model.
    Model(usize),
    /// A dwelling on another run.
    Run(usize, usize),
    /// Stations that draw something else.
    Load,
    /// One call more or fewer at once.
    Calls,
    /// The second distributor regenerates or not.
    Regenerate,
    /// Doors on a bus of their own or not.
    Supply,
    /// Dwellings listed the other way round: what is the same hangs elsewhere.
    Order,
    /// None: the same site again.
    Again,
}

fn changes() -> impl Strategy<Value = Change> {
    prop_oneof![
        (0..10_usize, 2.0..25.0_f64).prop_map(|(index, length_m)| Change::Length(index, length_m)),
        (0..10_usize).prop_map(Change::Model),
        (0..10_usize, 0..4_usize).prop_map(|(index, run)| Change::Run(index, run)),
        Just(Change::Load),
        Just(Change::Calls),
        Just(Change::Regenerate),
        Just(Change::Supply),
        Just(Change::Order),
        Just(Change::Again),
    ]
}

fn changed(draw: &Draw, change: &Change) -> Draw {
    let mut draw = draw.clone();
    let count = draw.dwellings.len();
    match *change {
        Change::Length(index, length_m) => draw.dwellings[index % count].1 = length_m,
        Change::Model(index) => draw.dwellings[index % count].2 ^= true,
        Change::Run(index, run) => draw.dwellings[index % count].0 = run,
        Change::Load => draw.load_kind = (draw.load_kind + 2) % 3,
        Change::Calls => draw.calls = draw.calls % 3 + 1,
        Change::Regenerate => draw.regenerate ^= true,
        Change::Supply => draw.second_supply ^= true,
        Change::Order => draw.dwellings.reverse(),
        Change::Again => {}
    }
    draw
}

/// Stations beyond their budget or their ripple, by band.
fn beyond(site: &Site, found: &SignalSurvey) -> Vec<(usize, usize, bool, bool)> {
    let of_band = |survey: &BandSurvey| {
        let band = &site.family().signal_bands[survey.band];
        let most_ripple_db = band.ripple.as_ref().map_or(f64::INFINITY, |most| most.value.as_decibels());
        let of = |one: &StationSignal| {
            let is_weak = one.loss_db > band.budget.value.as_decibels();
            (survey.band, one.station, is_weak, one.ripple.ripple_db > most_ripple_db)
        };
        survey.stations.iter().map(of).collect::<Vec<_>>()
    };
    found.bands.iter().flat_map(of_band).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_remembered_is_what_would_be_worked_out(draw in draws(), series in prop::collection::vec(changes(), 3..8)) {
        let memory = Memory::default();
        let options = SearchOptions::default();
        let mut draw = draw;
        for change in std::iter::once(Change::Again).chain(series) {
            draw = changed(&draw, &change);
            let site = resolve(&draw);
            let layout = Layout::new(&site);
            let space = StateSpace::new(&site, &layout);
            let anew = worst_states(&site, &layout, &space, &options);
            let found = worst_states_with(&site, &layout, &space, &options, &memory);
            prop_assert_eq!(found.as_ref(), Ok(&anew), "{:?}", change);
            let anew = short_circuits(&site, &layout, &space);
            let found = short_circuits_with(&site, &layout, &space, &memory);
            prop_assert_eq!(found.as_ref(), Ok(&anew), "{:?}", change);
            prop_assert_eq!(&survey(&site, &layout).missing, &[]);
            // Hurried first, so that what it keeps is not taken for the whole.
            let all = &CableLengths::ALL;
            let hurried = survey_at(&site, &layout, all, Effort::Hurried, &memory).expect("it is wanted");
            prop_assert_eq!(survey_with(&site, &layout, &memory), Ok(survey(&site, &layout)), "{:?}", change);
            prop_assert_eq!(beyond(&site, &hurried), beyond(&site, &survey(&site, &layout)), "{:?}", change);
            let anew = start_up(&site, &layout, Effort::Whole, &Memory::default()).expect("it is wanted");
            prop_assert_eq!(&anew.missing, &[]);
            prop_assert_eq!(&start_up(&site, &layout, Effort::Whole, &memory).expect("it is wanted"), &anew, "{:?}", change);
        }
    }
}
