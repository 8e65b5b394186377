//! What reaches every station that can be called, in every band of the family.
//!
//! One sweep a caller and band serves all stations: the tree is ordered from the caller, solved with all other
//! stations bridging, and the listening station's own impedance takes the place of its bridging load by its
//! driving point ([`sweep_with_driving_points`](latchline_circuit::signal::sweep_with_driving_points)), which is exact for a linear network (Thevenin).
//!
//! **Lengths.** The worst of [`CableLengths`] is told, and which of them it is.
//!
//! **Frequencies.** Twelve in a decade, and evenly spaced at eight in each `1/(2T)` with `T` the delay of the longest
//! way from the caller to anything on the pair: no branch is longer, and an open one makes its notches at least `1/(2T)` apart. At most
//! 192 evenly spaced ones; [`BandSurvey::grid_complete`] is false where that cut them short. Between
//! neighbouring points **nothing is proved**. Dips that could decide (the deepest of each caller,
//! and all within 3 dB of the budget) are narrowed on the response itself to a ten-thousandth of the spacing;
//! [`BandSurvey::left_coarse`] counts those left at their grid value. What is lost at a share of a band is taken on the cubic through
//! the points, with points added between those near it until that moves the weakest stations of a caller and those near the budget by no
//! more than 0.02 dB; where it still does when no more are added, it is counted there too. Agreement is no bound.

mod call;
pub(crate) mod call_survey;
mod found;
mod grid;
mod share;

pub use found::{
    BandSurvey, FeedCorner, Notch, SignalResponse, SignalSurvey, StationRipple, StationSignal,
    WeakestOfCaller,
};

use self::call::{least_losses_db, narrows, survey_call};
use self::call_survey::CallSurvey;
use self::found::Call;
use super::key::ComponentKeys;
use super::{CableLengths, MissingKind, MissingValue, SignalNetwork};
use crate::effort::Effort;
use crate::layout::Layout;
use crate::memory::Memory;
use crate::wanted::GivenUp;
use latchline_circuit::signal::{Workspace, low_corner_hz};
use latchline_finding::ElementId;
use latchline_site::model::Site;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;
use std::sync::Arc;

/// Surveys every call in every band of the site's family.
pub fn survey(site: &Site, layout: &Layout) -> SignalSurvey {
    survey_with(site, layout, &Memory::default())
        .expect("work that is wanted whatever happens is not given up")
}

/// As [`survey`], with what is remembered of calls on networks that are the same.
///
/// # Errors
/// [`GivenUp`] if the memory's work is no longer wanted.
pub fn survey_with(site: &Site, layout: &Layout, memory: &Memory) -> Result<SignalSurvey, GivenUp> {
    survey_at(site, layout, &CableLengths::ALL, Effort::Whole, memory)
}

/// As [`survey_with`] at some of the lengths alone and with as much effort as is asked for: no station is beyond its budget that is not so in
/// the whole survey, and what was worked out here is found again.
///
/// # Errors
/// As [`survey_with`].
pub fn survey_at(
    site: &Site,
    layout: &Layout,
    lengths: &[CableLengths],
    effort: Effort,
    memory: &Memory,
) -> Result<SignalSurvey, GivenUp> {
    let bands = &site.family().signal_bands;
    if bands.is_empty() {
        return Ok(SignalSurvey::default());
    }
    let networks = SignalNetwork::of_lengths(site, layout, lengths);
    // They differ in lengths and resistances alone.
    let Some(network) = networks.first() else { return Ok(SignalSurvey::default()) };
    let calls = calls(site, network);
    let mut used: Vec<usize> = calls
        .iter()
        .filter_map(|call| network.station[call.caller])
        .map(|node| network.component[node])
        .collect();
    used.sort_unstable();
    used.dedup();
    let missing: Vec<MissingValue> =
        network.missing.iter().filter(|one| used.contains(&one.component)).cloned().collect();
    // Without a choke's value the rest of the network is still known, only lower frequencies are in doubt; without
    // anything else it is not.
    let unknown = |component: usize| missing.iter().any(|one| one.component == component);
    let judged: Vec<Job<'_>> = calls
        .iter()
        .filter(|call| network.station[call.caller].is_some_and(|node| !unknown(network.component[node])))
        .flat_map(|call| (0..bands.len()).map(move |band| (call, band)))
        .flat_map(|(call, band)| (0..lengths.len()).map(move |network| Job { call, band, network }))
        .collect();
    let keys: Vec<ComponentKeys> = networks.iter().map(ComponentKeys::new).collect();
    let found: Vec<Option<Arc<CallSurvey>>> = judged
        .par_iter()
        .map_init(Workspace::default, |workspace, job| {
            memory.check()?;
            let Job { call, band, network } = *job;
            let key = &keys[network];
            let network = &networks[network];
            let key = key.of_call(site, network, call.caller, &call.targets, &bands[band]);
            let work = || survey_call(site, network, call, &bands[band], effort, workspace);
            Ok(key.and_then(|key| memory.signal(key, effort, work)))
        })
        .collect::<Result<_, GivenUp>>()?;
    let judged: Vec<Judged<'_>> = judged
        .iter()
        .zip(&found)
        .filter_map(|(job, found)| {
            let Job { call, band, network } = *job;
            Some(Judged { call, band, lengths: lengths[network], found: found.as_deref()? })
        })
        .collect();
    let bands_found = (0..bands.len())
        .filter_map(|band| band_survey(band, judged.iter().filter(|call| call.band == band).collect()))
        .collect();
    let feeds = used.iter().filter_map(|component| feed_corner(site, network, &calls, *component)).collect();
    Ok(SignalSurvey { bands: bands_found, feeds, missing, has_bands: true })
}

/// Insertion losses in decibel in one band of the family from one caller at the stations that it can call, on a network at any of the
/// lengths, none of them beyond the budget that is not so in a survey of the whole: the loss at a station is the greatest from any of its
/// callers at any length, and between the frequencies that are looked at first there may be more. [`Effort::Hurried`] says how near they
/// are. `None` where the call cannot be judged.
pub fn losses_from_caller(
    site: &Site,
    network: &SignalNetwork,
    caller: usize,
    band: usize,
    memory: &Memory,
) -> Option<Vec<(usize, f64)>> {
    let component = network.component[network.station[caller]?];
    let calls = calls(site, network);
    let call = calls.iter().find(|call| call.caller == caller)?;
    if network.missing.iter().any(|one| one.component == component) {
        return None;
    }
    let band = site.family().signal_bands.get(band)?;
    if narrows(band) {
        let losses = least_losses_db(site, network, call, band)?;
        return Some(losses.into_iter().map(|(target, loss_db)| (call.targets[target], loss_db)).collect());
    }
    let key = ComponentKeys::new(network).of_call(site, network, caller, &call.targets, band)?;
    let work = || survey_call(site, network, call, band, Effort::Hurried, &mut Workspace::default());
    let found = memory.signal(key, Effort::Hurried, work)?;
    Some(found.rows.iter().map(|row| (call.targets[row.target], row.loss_db)).collect())
}

#[derive(Clone, Copy)]
struct Job<'a> {
    call: &'a Call,
    band: usize,
    /// Which of the networks.
    network: usize,
}

/// A call in a band with what was found of it.
struct Judged<'a> {
    call: &'a Call,
    band: usize,
    lengths: CableLengths,
    found: &'a CallSurvey,
}

impl Judged<'_> {
    /// The station of a row.
    fn station(&self, row: usize) -> usize {
        self.call.targets[self.found.rows[row].target]
    }

    fn ripple(&self, row: usize) -> StationRipple {
        let row = &self.found.rows[row];
        StationRipple {
            caller: self.call.caller,
            lengths: self.lengths,
            ripple_db: row.ripple_db,
            notch: row.notch,
        }
    }
}

fn calls(site: &Site, network: &SignalNetwork) -> Vec<Call> {
    let scopes = site
        .entrances
        .iter()
        .map(|one| (one.station, &one.calls))
        .chain(site.management.iter().map(|one| (one.station, &one.calls)));
    let mut list = Vec::new();
    for (caller, scope) in scopes {
        let Some(from) = network.station[caller] else { continue };
        let dwellings = scope.dwellings.iter().flat_map(|index| &site.dwellings[*index].stations);
        let desks = scope.management.iter().map(|index| &site.management[*index].station);
        let targets: Vec<usize> = dwellings
            .chain(desks)
            .copied()
            .filter(|target| {
                *target != caller
                    && network.station[*target]
                        .is_some_and(|node| network.component[node] == network.component[from])
            })
            .collect();
        if !targets.is_empty() {
            list.push(Call { caller, targets });
        }
    }
    list
}

/// The worst of every station over its callers and the lengths of cables.
fn band_survey(band: usize, calls: Vec<&Judged<'_>>) -> Option<BandSurvey> {
    let mut by_station: BTreeMap<usize, StationSignal> = BTreeMap::new();
    for call in &calls {
        for (index, row) in call.found.rows.iter().enumerate() {
            let station = call.station(index);
            match by_station.entry(station) {
                Entry::Vacant(place) => {
                    place.insert(StationSignal {
                        station,
                        caller: call.call.caller,
                        loss_db: row.loss_db,
                        at_hz: row.at_hz,
                        lengths: call.lengths,
                        ripple: call.ripple(index),
                    });
                }
                Entry::Occupied(mut known) => {
                    let known = known.get_mut();
                    if row.loss_db > known.loss_db {
                        (known.caller, known.loss_db, known.at_hz, known.lengths) =
                            (call.call.caller, row.loss_db, row.at_hz, call.lengths);
                    }
                    if row.ripple_db > known.ripple.ripple_db {
                        known.ripple = call.ripple(index);
                    }
                }
            }
        }
    }
    let stations: Vec<StationSignal> = by_station.into_values().collect();
    let worst = (0..stations.len())
        .max_by(|a, b| stations[*a].loss_db.total_cmp(&stations[*b].loss_db).then(b.cmp(a)))?;
    let loss_db = |call: &Judged<'_>| call.found.rows[call.found.weakest].loss_db;
    let weakest = calls.iter().max_by(|a, b| loss_db(a).total_cmp(&loss_db(b)))?.found;
    // A caller's lengths stand one behind the other.
    let callers = calls
        .chunk_by(|one, next| one.call.caller == next.call.caller)
        .filter_map(|of_caller| {
            let call = of_caller.iter().max_by(|a, b| loss_db(a).total_cmp(&loss_db(b)))?;
            Some(WeakestOfCaller {
                caller: call.call.caller,
                station: call.station(call.found.weakest),
                loss_db: loss_db(call),
                at_hz: call.found.rows[call.found.weakest].at_hz,
                lengths: call.lengths,
            })
        })
        .collect();
    let found = || calls.iter().map(|call| call.found);
    Some(BandSurvey {
        band,
        callers,
        worst,
        response: weakest.response.clone(),
        points: found().map(|call| call.points).max().unwrap_or(0),
        grid_complete: found().all(|call| call.grid_complete),
        left_coarse: found().map(|call| call.left_coarse).sum(),
        stations,
    })
}

/// The chokes of a network: their low corner with the smallest source and receiver in parallel.
fn feed_corner(site: &Site, network: &SignalNetwork, calls: &[Call], component: usize) -> Option<FeedCorner> {
    let is_unknown = |one: &MissingValue| one.component == component && one.kind == MissingKind::Choke;
    if network.missing.iter().any(is_unknown) {
        return None;
    }
    let lowest_hz =
        site.family().signal_bands.iter().map(|band| band.low.value.as_hertz()).fold(f64::INFINITY, f64::min);
    let feeds = || network.feeds.iter().filter(|feed| network.component[feed.node] == component);
    let impedance_ohm = |station: usize| {
        site.station_model(&site.stations[station]).signal_impedance.as_ref().map(|one| one.value.as_ohms())
    };
    // The highest resistance that drives the pair gives the highest corner.
    let of_call = |call: &Call| {
        let source_ohm = impedance_ohm(call.caller)?;
        let receivers = call.targets.iter().filter_map(|target| impedance_ohm(*target));
        let receiver_ohm = receivers.fold(0.0, f64::max);
        Some(source_ohm * receiver_ohm / (source_ohm + receiver_ohm))
    };
    let on_it =
        |call: &&Call| network.station[call.caller].is_some_and(|node| network.component[node] == component);
    let resistance_ohm = calls.iter().filter(on_it).filter_map(of_call).fold(0.0, f64::max);
    let mut names: Vec<ElementId> = feeds().map(|feed| feed.element.clone()).collect();
    names.dedup();
    let inductances_h: Vec<f64> = feeds().map(|feed| feed.inductance_h).collect();
    if inductances_h.is_empty() || resistance_ohm == 0.0 {
        return None;
    }
    // Refuses a choke of no inductance, which has no corner.
    let corner_hz = low_corner_hz(resistance_ohm, &inductances_h).ok();
    Some(FeedCorner { feeds: names, count: inductances_h.len(), corner_hz, lowest_hz })
}
