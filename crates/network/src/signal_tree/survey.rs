//! What reaches every station that can be called, in every band of the family.
//!
//! One sweep a caller and band serves all stations: the tree is ordered from the caller, solved with all other
//! stations bridging, and the listening station's own impedance takes the place of its bridging load by its
//! driving point ([`sweep_with_driving_points`]), which is exact for a linear network (Thevenin).
//!
//! **Frequencies.** Twelve in a decade, and evenly spaced at eight in each `1/(2T)` with `T` the delay of the longest
//! way from the caller to anything on the pair: no branch is longer, and an open one makes its notches at least `1/(2T)` apart. At most
//! [`MOST_POINTS`]; [`BandSurvey::grid_complete`] is false where that cut them short. Between
//! neighbouring points **nothing is proved**. Dips that could decide (the deepest of each caller,
//! and all within [`NARROW_WITHIN_DB`] of the budget) are narrowed on the response itself to a ten-thousandth of the spacing;
//! [`BandSurvey::left_coarse`] counts those left at their grid value.

use super::{MissingKind, MissingValue, SignalNetwork};
use crate::memory::{Fingerprint, Memory};
use latchline_circuit::signal::{
    Branch, Shunt, SignalTree, Workspace, low_corner_hz, sweep_with_driving_points,
};
use latchline_finding::ElementId;
use latchline_site::catalogue::{Media, SignalBand};
use latchline_site::model::Site;
use rayon::prelude::*;
use std::fmt::Write as _;
use std::sync::Arc;

/// Most evenly spaced frequencies a band.
const MOST_POINTS: f64 = 192.0;
/// Dips with at least the budget less this are narrowed.
const NARROW_WITHIN_DB: f64 = 3.0;
/// Most dips narrowed for one caller and band.
const MOST_NARROWED: usize = 12;
/// Frequencies inside a bracket at a time, and how often: the bracket ends a ten-thousandth as wide.
const INSIDE: usize = 16;
const ROUNDS: usize = 4;

/// A dip between two peaks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Notch {
    /// Frequency in hertz.
    pub frequency_hz: f64,
    /// How far below the lower of the two peaks beside it, in decibel.
    pub depth_db: f64,
}

/// Difference of levels within a band.
#[derive(Debug, Clone, PartialEq)]
pub struct StationRipple {
    /// Who calls: index into [`Site::stations`].
    pub caller: usize,
    /// Highest level less lowest, in decibel.
    pub ripple_db: f64,
    /// The deepest dip between two peaks, if there is one.
    pub notch: Option<Notch>,
}

/// A station that can be called, with the caller from which it hears least.
#[derive(Debug, Clone, PartialEq)]
pub struct StationSignal {
    /// The station: index into [`Site::stations`].
    pub station: usize,
    /// The caller with the greatest loss: index into [`Site::stations`].
    pub caller: usize,
    /// Greatest insertion loss in the band, or within the share of it that counts, in decibel.
    pub loss_db: f64,
    /// Where in the band, in hertz.
    pub at_hz: f64,
    /// The greatest ripple, from whichever caller.
    pub ripple: StationRipple,
}

/// Insertion loss over frequency, for a chart.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SignalResponse {
    /// Frequencies in hertz, rising.
    pub frequency_hz: Vec<f64>,
    /// Insertion loss at each, in decibel.
    pub insertion_loss_db: Vec<f64>,
}

/// The station that hears least of one caller.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeakestOfCaller {
    /// Who calls: index into [`Site::stations`].
    pub caller: usize,
    /// Who hears least: index into [`Site::stations`].
    pub station: usize,
    /// Greatest insertion loss in the band, in decibel.
    pub loss_db: f64,
    /// Where in the band, in hertz.
    pub at_hz: f64,
}

/// One band at all stations.
#[derive(Debug, Clone, PartialEq)]
pub struct BandSurvey {
    /// Index into the family's bands.
    pub band: usize,
    /// Stations that can be called, in the order of the site.
    pub stations: Vec<StationSignal>,
    /// The weakest station of each caller, in the order of the site.
    pub callers: Vec<WeakestOfCaller>,
    /// The station with the greatest loss: index into `stations`.
    pub worst: usize,
    /// What it hears of its caller, over the band.
    pub response: SignalResponse,
    /// Most frequencies that were looked at for one caller.
    pub points: usize,
    /// Whether the evenly spaced ones were as close as the longest way asks for.
    pub grid_complete: bool,
    /// Dips that might decide and were left at their grid value.
    pub left_coarse: usize,
}

/// The chokes of one network against the lowest band.
#[derive(Debug, Clone, PartialEq)]
pub struct FeedCorner {
    /// Supplies and boxes that feed it, each once.
    pub feeds: Vec<ElementId>,
    /// Feeds in parallel.
    pub count: usize,
    /// Low corner in hertz, `R / (2 pi L)`; `None` where a feed has no choke at all.
    pub corner_hz: Option<f64>,
    /// Lower end of the lowest band in hertz.
    pub lowest_hz: f64,
}

/// Signals of a whole site.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SignalSurvey {
    /// Bands in which some call could be judged, in the family's order.
    pub bands: Vec<BandSurvey>,
    /// Networks that signals use and that supplies feed.
    pub feeds: Vec<FeedCorner>,
    /// Values that are missing, each network's own.
    pub missing: Vec<MissingValue>,
    /// Whether the family gives bands at all.
    pub has_bands: bool,
}

/// As [`survey`], unless the same network was surveyed before.
pub fn survey_with(site: &Site, network: &SignalNetwork, memory: &Memory) -> Arc<SignalSurvey> {
    let mut key = Fingerprint::new();
    let calls: Vec<(usize, Vec<usize>)> =
        calls(site, network).into_iter().map(|call| (call.caller, call.targets)).collect();
    let stations: Vec<_> = (0..site.stations.len())
        .map(|station| {
            let model = site.station_model(&site.stations[station]);
            (model.media.value, model.signal_impedance.as_ref().map(|one| one.value.as_ohms()))
        })
        .collect();
    // Everything that the survey looks at, as it prints itself.
    match write!(key, "{network:?} {calls:?} {:?} {:?}", site.family().signal_bands, stations) {
        Ok(()) => memory.signal(key.finish(), || survey(site, network)),
        Err(_) => Arc::new(survey(site, network)),
    }
}

/// Surveys every call in every band of the site's family.
pub fn survey(site: &Site, network: &SignalNetwork) -> SignalSurvey {
    let bands = &site.family().signal_bands;
    if bands.is_empty() {
        return SignalSurvey::default();
    }
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
        .flat_map(|call| (0..bands.len()).map(move |band| Job { call, band }))
        .collect();
    let found: Vec<Option<CallSurvey>> = judged
        .par_iter()
        .map_init(Workspace::default, |workspace, job| {
            survey_call(site, network, job.call, job.band, &bands[job.band], workspace)
        })
        .collect();
    let bands_found = (0..bands.len())
        .filter_map(|band| {
            band_survey(band, found.iter().flatten().filter(|call| call.band == band).collect())
        })
        .collect();
    let feeds = used.iter().filter_map(|component| feed_corner(site, network, &calls, *component)).collect();
    SignalSurvey { bands: bands_found, feeds, missing, has_bands: true }
}

/// A caller and the stations that it can call on its own network.
struct Call {
    caller: usize,
    targets: Vec<usize>,
}

struct Job<'a> {
    call: &'a Call,
    band: usize,
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

/// What one caller's signal is at one station.
struct TargetRow {
    station: usize,
    loss_db: f64,
    at_hz: f64,
    ripple: StationRipple,
}

struct CallSurvey {
    band: usize,
    rows: Vec<TargetRow>,
    /// The weakest of them, with its response.
    weakest: usize,
    response: SignalResponse,
    points: usize,
    grid_complete: bool,
    left_coarse: usize,
}

/// The tree from a caller, and where each node of the network is in it.
struct CallTree {
    tree: SignalTree,
    node: Vec<usize>,
    longest_way_s: f64,
}

impl CallTree {
    fn new(network: &SignalNetwork, call: &Call, high_hz: f64) -> Option<Self> {
        let root = network.station[call.caller]?;
        let nodes = network.component.len();
        let mut touching: Vec<Vec<usize>> = vec![Vec::new(); nodes];
        for (index, edge) in network.edges.iter().enumerate() {
            touching[edge.ends.0].push(index);
            touching[edge.ends.1].push(index);
        }
        let delays: Vec<f64> = network.lines.iter().map(|line| line.delay_s_per_m(high_hz)).collect();
        let mut node = vec![usize::MAX; nodes];
        let mut branches = Vec::new();
        let mut delay_s = vec![0.0];
        node[root] = 0;
        // Depth first, so that a chain lies together in memory.
        let mut pending: Vec<(usize, usize)> =
            touching[root].iter().rev().map(|edge| (root, *edge)).collect();
        while let Some((from, index)) = pending.pop() {
            let edge = &network.edges[index];
            let to = if edge.ends.0 == from { edge.ends.1 } else { edge.ends.0 };
            if node[to] != usize::MAX {
                continue;
            }
            node[to] = delay_s.len();
            let parent = node[from];
            delay_s.push(delay_s[parent] + delays[edge.line] * edge.length_m);
            branches.push(Branch {
                parent,
                line: edge.line,
                length_m: edge.length_m,
                entry: edge.entry.clone(),
            });
            pending.extend(touching[to].iter().rev().filter(|next| **next != index).map(|next| (to, *next)));
        }
        let mut tree = SignalTree::new(network.lines.clone(), branches).ok()?;
        let here = |shunt_node: usize| (node[shunt_node] != usize::MAX).then(|| node[shunt_node]);
        for (at, shunt) in &network.fixed {
            if let Some(at) = here(*at) {
                tree.add_shunt(at, *shunt).ok()?;
            }
        }
        for (station, shunt) in network.bridging.iter().enumerate() {
            if station == call.caller {
                continue;
            }
            if let (Some(at), Some(shunt)) = (network.station[station].and_then(here), shunt) {
                tree.add_shunt(at, *shunt).ok()?;
            }
        }
        let longest_way_s = delay_s.iter().copied().fold(0.0, f64::max);
        Some(CallTree { tree, node, longest_way_s })
    }
}

/// A receiver: where it is, its bridging load, and its own impedance.
struct Receiver {
    station: usize,
    at: usize,
    bridging: Shunt,
    impedance: Shunt,
    /// Level wired straight to the caller, in decibel.
    straight_db: f64,
}

fn plain_load(resistance_ohm: f64) -> Shunt {
    Shunt::Load { resistance_ohm, series_capacitance_f: None, parallel_capacitance_f: 0.0 }
}

/// Insertion gains in decibel of receivers at frequencies, receiver by receiver.
fn gains_db(
    tree: &SignalTree,
    source_ohm: f64,
    receivers: &[&Receiver],
    frequencies_hz: &[f64],
    workspace: &mut Workspace,
) -> Option<Vec<Vec<f64>>> {
    let mut rows = vec![Vec::with_capacity(frequencies_hz.len()); receivers.len()];
    sweep_with_driving_points(tree, source_ohm, frequencies_hz, workspace, |block| {
        for (row, receiver) in rows.iter_mut().zip(receivers) {
            for i in 0..block.count {
                let frequency_hz = frequencies_hz[block.first + i];
                let total = block.driving_point_s(receiver.at, i);
                let change = receiver.impedance.admittance_s(frequency_hz)
                    - receiver.bridging.admittance_s(frequency_hz);
                let exchanged = (total / (total + change)).norm();
                let gain_db = block.gain_db(receiver.at, i) + 20.0 * exchanged.log10();
                row.push(gain_db - receiver.straight_db);
            }
        }
    })
    .ok()?;
    Some(rows)
}

fn survey_call(
    site: &Site,
    network: &SignalNetwork,
    call: &Call,
    band_index: usize,
    band: &SignalBand,
    workspace: &mut Workspace,
) -> Option<CallSurvey> {
    let uses = |station: usize| {
        !band.video_only || site.station_model(&site.stations[station]).media.value == Media::Video
    };
    if !uses(call.caller) {
        return None;
    }
    let impedance_ohm = |station: usize| {
        site.station_model(&site.stations[station]).signal_impedance.as_ref().map(|one| one.value.as_ohms())
    };
    let source_ohm = impedance_ohm(call.caller)?;
    let (low_hz, high_hz) = (band.low.value.as_hertz(), band.high.value.as_hertz());
    let ordered = CallTree::new(network, call, high_hz)?;
    let receivers: Vec<Receiver> = call
        .targets
        .iter()
        .copied()
        .filter(|station| uses(*station))
        .filter_map(|station| {
            let receiver_ohm = impedance_ohm(station)?;
            Some(Receiver {
                station,
                at: ordered.node[network.station[station]?],
                bridging: network.bridging[station]?,
                impedance: plain_load(receiver_ohm),
                straight_db: 20.0 * (receiver_ohm / (source_ohm + receiver_ohm)).log10(),
            })
        })
        .collect();
    if receivers.is_empty() {
        return None;
    }
    let (frequencies_hz, grid_complete) = grid(low_hz, high_hz, ordered.longest_way_s);
    let all: Vec<&Receiver> = receivers.iter().collect();
    let gains = gains_db(&ordered.tree, source_ohm, &all, &frequencies_hz, workspace)?;
    let mut rows: Vec<TargetRow> = receivers
        .iter()
        .zip(&gains)
        .map(|(receiver, gains)| {
            target_row(receiver.station, call.caller, &frequencies_hz, gains, band.share.value.as_fraction())
        })
        .collect();
    let budget_db = band.budget.value.as_decibels();
    // Where carriers may be left out, the bottom of a dip decides nothing.
    let decides = band.share.value.as_fraction() >= 1.0;
    let mut by_loss: Vec<usize> = (0..rows.len()).collect();
    by_loss.sort_by(|a, b| rows[*b].loss_db.total_cmp(&rows[*a].loss_db).then(a.cmp(b)));
    let wanted: Vec<usize> = by_loss
        .iter()
        .copied()
        .enumerate()
        .filter(|_| decides)
        .filter(|(rank, row)| *rank == 0 || rows[*row].loss_db + NARROW_WITHIN_DB >= budget_db)
        // What has failed on the grid fails; only the worst of those is wanted to its last figure.
        .filter(|(rank, row)| *rank == 0 || rows[*row].loss_db <= budget_db)
        .map(|(_, row)| row)
        .collect();
    for &row in wanted.iter().take(MOST_NARROWED) {
        let look = |hz: &[f64]| {
            gains_db(&ordered.tree, source_ohm, &[&receivers[row]], hz, workspace)
                .and_then(|mut rows| rows.pop())
        };
        if let Some((at_hz, gain_db)) = narrowed(&frequencies_hz, &gains[row], look)
            && -gain_db > rows[row].loss_db
        {
            let deeper_db = -gain_db - rows[row].loss_db;
            rows[row].loss_db = -gain_db;
            rows[row].at_hz = at_hz;
            rows[row].ripple.ripple_db += deeper_db;
            if let Some(notch) = &mut rows[row].ripple.notch {
                notch.depth_db += deeper_db;
                notch.frequency_hz = at_hz;
            }
        }
    }
    let weakest = (0..rows.len())
        .max_by(|a, b| rows[*a].loss_db.total_cmp(&rows[*b].loss_db).then(b.cmp(a)))
        .unwrap_or(0);
    let response = response(&frequencies_hz, &gains[weakest], &rows[weakest]);
    Some(CallSurvey {
        band: band_index,
        weakest,
        response,
        points: frequencies_hz.len(),
        grid_complete,
        left_coarse: wanted.len().saturating_sub(MOST_NARROWED),
        rows,
    })
}

/// See the head of the module.
fn grid(low_hz: f64, high_hz: f64, longest_way_s: f64) -> (Vec<f64>, bool) {
    let mut frequencies_hz = vec![low_hz, high_hz];
    let decades = (high_hz / low_hz).log10();
    let count = (12.0 * decades).ceil().max(8.0);
    let mut k = 1.0;
    while k < count {
        frequencies_hz.push(low_hz * 10_f64.powf(decades * k / count));
        k += 1.0;
    }
    let wanted = (high_hz - low_hz) * 2.0 * longest_way_s * 8.0;
    let steps = wanted.min(MOST_POINTS).ceil();
    let mut k = 1.0;
    while k < steps {
        frequencies_hz.push(low_hz + (high_hz - low_hz) * (k / steps));
        k += 1.0;
    }
    frequencies_hz.sort_by(f64::total_cmp);
    frequencies_hz.dedup_by(|next, kept| *next - *kept < 1e-6 * *kept);
    (frequencies_hz, wanted <= MOST_POINTS)
}

fn target_row(
    station: usize,
    caller: usize,
    frequencies_hz: &[f64],
    gains_db: &[f64],
    share: f64,
) -> TargetRow {
    let lowest = lowest(gains_db);
    let highest = gains_db.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let peak = |side: &[f64]| side.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let shoulder = peak(&gains_db[..=lowest]).min(peak(&gains_db[lowest..]));
    let is_inside = lowest > 0 && lowest + 1 < gains_db.len();
    let notch = is_inside
        .then_some(Notch { frequency_hz: frequencies_hz[lowest], depth_db: shoulder - gains_db[lowest] });
    let decisive = if share < 1.0 { within_share(frequencies_hz, gains_db, share) } else { lowest };
    TargetRow {
        station,
        loss_db: -gains_db[decisive],
        at_hz: frequencies_hz[decisive],
        ripple: StationRipple { caller, ripple_db: highest - gains_db[lowest], notch },
    }
}

/// The point with the greatest loss within the best `share` of the band, each point standing for half of the way to its
/// neighbours.
fn within_share(frequencies_hz: &[f64], gains_db: &[f64], share: f64) -> usize {
    let last = frequencies_hz.len() - 1;
    let width_hz = |k: usize| 0.5 * (frequencies_hz[(k + 1).min(last)] - frequencies_hz[k.saturating_sub(1)]);
    let mut by_gain: Vec<usize> = (0..=last).collect();
    by_gain.sort_by(|a, b| gains_db[*b].total_cmp(&gains_db[*a]).then(a.cmp(b)));
    let wanted_hz = share * (frequencies_hz[last] - frequencies_hz[0]);
    let mut covered_hz = 0.0;
    for &k in &by_gain {
        covered_hz += width_hz(k);
        if covered_hz >= wanted_hz {
            return k;
        }
    }
    by_gain[last]
}

fn lowest(gains_db: &[f64]) -> usize {
    (0..gains_db.len()).min_by(|a, b| gains_db[*a].total_cmp(&gains_db[*b])).unwrap_or(0)
}

/// The bottom of the lowest dip, from the points beside it; `None` where it cannot be looked at.
fn narrowed(
    frequencies_hz: &[f64],
    gains_db: &[f64],
    mut look: impl FnMut(&[f64]) -> Option<Vec<f64>>,
) -> Option<(f64, f64)> {
    let lowest = lowest(gains_db);
    let (mut low_hz, mut high_hz) = (
        frequencies_hz[lowest.saturating_sub(1)],
        frequencies_hz[(lowest + 1).min(frequencies_hz.len() - 1)],
    );
    let mut best = (frequencies_hz[lowest], gains_db[lowest]);
    for _ in 0..ROUNDS {
        let step_hz = (high_hz - low_hz) / (INSIDE + 1) as f64;
        let inside: Vec<f64> = (1..=INSIDE).map(|i| low_hz + step_hz * i as f64).collect();
        let found = look(&inside)?;
        for (at_hz, gain_db) in inside.into_iter().zip(found) {
            if gain_db < best.1 {
                best = (at_hz, gain_db);
            }
        }
        low_hz = low_hz.max(best.0 - step_hz);
        high_hz = high_hz.min(best.0 + step_hz);
    }
    Some(best)
}

/// The grid's response with the narrowed dip put in.
fn response(frequencies_hz: &[f64], gains_db: &[f64], row: &TargetRow) -> SignalResponse {
    let mut points: Vec<(f64, f64)> =
        frequencies_hz.iter().zip(gains_db).map(|(hz, gain_db)| (*hz, -gain_db)).collect();
    if points.iter().all(|point| point.0 != row.at_hz) {
        points.push((row.at_hz, row.loss_db));
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
    }
    let (frequency_hz, insertion_loss_db) = points.into_iter().unzip();
    SignalResponse { frequency_hz, insertion_loss_db }
}

/// The worst of every station over its callers.
fn band_survey(band: usize, calls: Vec<&CallSurvey>) -> Option<BandSurvey> {
    let mut stations: Vec<StationSignal> = Vec::new();
    for call in &calls {
        for row in &call.rows {
            match stations.iter_mut().find(|known| known.station == row.station) {
                None => stations.push(StationSignal {
                    station: row.station,
                    caller: row.ripple.caller,
                    loss_db: row.loss_db,
                    at_hz: row.at_hz,
                    ripple: row.ripple.clone(),
                }),
                Some(known) => {
                    if row.loss_db > known.loss_db {
                        (known.caller, known.loss_db, known.at_hz) =
                            (row.ripple.caller, row.loss_db, row.at_hz);
                    }
                    if row.ripple.ripple_db > known.ripple.ripple_db {
                        known.ripple = row.ripple.clone();
                    }
                }
            }
        }
    }
    stations.sort_by_key(|station| station.station);
    let worst = (0..stations.len())
        .max_by(|a, b| stations[*a].loss_db.total_cmp(&stations[*b].loss_db).then(b.cmp(a)))?;
    let weakest =
        calls.iter().max_by(|a, b| a.rows[a.weakest].loss_db.total_cmp(&b.rows[b.weakest].loss_db))?;
    let callers = calls
        .iter()
        .map(|call| {
            let row = &call.rows[call.weakest];
            WeakestOfCaller {
                caller: row.ripple.caller,
                station: row.station,
                loss_db: row.loss_db,
                at_hz: row.at_hz,
            }
        })
        .collect();
    Some(BandSurvey {
        band,
        callers,
        worst,
        response: weakest.response.clone(),
        points: calls.iter().map(|call| call.points).max().unwrap_or(0),
        grid_complete: calls.iter().all(|call| call.grid_complete),
        left_coarse: calls.iter().map(|call| call.left_coarse).sum(),
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
