//! One caller's signal in one band at every station that it can call.

use super::super::SignalNetwork;
use super::call_survey::{CallSurvey, TargetRow};
use super::found::{Call, Notch, SignalResponse};
use super::grid::{grid, lowest, narrowed};
use super::share::{ShareLevel, Wanted, settled};
use crate::effort::Effort;
use latchline_circuit::signal::{Branch, LANES, Shunt, SignalTree, Workspace, sweep_with_driving_points};
use latchline_site::catalogue::{Media, SignalBand};
use latchline_site::model::Site;

/// Dips with at least the budget less this are narrowed.
pub(super) const NARROW_WITHIN_DB: f64 = 3.0;
/// Most dips narrowed for one caller and band.
const MOST_NARROWED: usize = 12;

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
    target: usize,
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
    let mut gains_db = [0.0; LANES];
    sweep_with_driving_points(tree, source_ohm, frequencies_hz, workspace, |block| {
        for (row, receiver) in rows.iter_mut().zip(receivers) {
            let change_s = |i: usize| {
                let frequency_hz = frequencies_hz[block.first + i];
                receiver.impedance.admittance_s(frequency_hz) - receiver.bridging.admittance_s(frequency_hz)
            };
            block.gains_exchanged_db(receiver.at, change_s, &mut gains_db);
            row.extend(gains_db[..block.count].iter().map(|gain_db| gain_db - receiver.straight_db));
        }
    })
    .ok()?;
    Some(rows)
}

/// A call on the evenly spaced frequencies, with those between that a share of the band needs.
struct OnGrid {
    ordered: CallTree,
    source_ohm: f64,
    receivers: Vec<Receiver>,
    frequencies_hz: Vec<f64>,
    grid_complete: bool,
    /// By receiver.
    gains: Vec<Vec<f64>>,
    /// By receiver.
    rows: Vec<TargetRow>,
    /// Rows whose loss at a share of the band still moved.
    unsettled: usize,
}

/// Where carriers may be left out, the bottom of a dip decides nothing.
pub(super) fn narrows(band: &SignalBand) -> bool {
    band.share.value.as_fraction() >= 1.0
}

/// What a call loses at least, by the position of the station among those that the caller can call: on the evenly spaced
/// frequencies, between which there may be more. `None` as [`survey_call`].
pub(super) fn least_losses_db(
    site: &Site,
    network: &SignalNetwork,
    call: &Call,
    band: &SignalBand,
) -> Option<Vec<(usize, f64)>> {
    let found = on_grid(site, network, call, band, Effort::Hurried, &mut Workspace::default())?;
    Some(found.rows.iter().map(|row| (row.target, row.loss_db)).collect())
}

fn on_grid(
    site: &Site,
    network: &SignalNetwork,
    call: &Call,
    band: &SignalBand,
    effort: Effort,
    workspace: &mut Workspace,
) -> Option<OnGrid> {
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
        .enumerate()
        .filter(|(_, station)| uses(*station))
        .filter_map(|(target, station)| {
            let receiver_ohm = impedance_ohm(station)?;
            Some(Receiver {
                target,
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
    let (frequencies_hz, gains, levels, unsettled) = if narrows(band) {
        (frequencies_hz, gains, vec![None; all.len()], 0)
    } else {
        let look = |hz: &[f64]| gains_db(&ordered.tree, source_ohm, &all, hz, workspace);
        let wanted = Wanted {
            share: band.share.value.as_fraction(),
            budget_db: band.budget.value.as_decibels(),
            // The ripple is taken between the points of a level.
            is_side_enough: effort == Effort::Hurried && band.ripple.is_none(),
        };
        let settled = settled(frequencies_hz, gains, wanted, look)?;
        let levels = settled.levels.into_iter().map(Some).collect();
        (settled.frequencies_hz, settled.gains, levels, settled.unsettled)
    };
    let rows = receivers
        .iter()
        .zip(&gains)
        .zip(levels)
        .map(|((receiver, gains), level)| target_row(receiver.target, &frequencies_hz, gains, level))
        .collect();
    Some(OnGrid { ordered, source_ohm, receivers, frequencies_hz, grid_complete, gains, rows, unsettled })
}

/// `None` where the band is not for this caller or none of its stations, or a value is missing.
pub(super) fn survey_call(
    site: &Site,
    network: &SignalNetwork,
    call: &Call,
    band: &SignalBand,
    effort: Effort,
    workspace: &mut Workspace,
) -> Option<CallSurvey> {
    let OnGrid { ordered, source_ohm, receivers, frequencies_hz, grid_complete, gains, mut rows, unsettled } =
        on_grid(site, network, call, band, effort, workspace)?;
    let budget_db = band.budget.value.as_decibels();
    let mut by_loss: Vec<usize> = (0..rows.len()).collect();
    by_loss.sort_by(|a, b| rows[*b].loss_db.total_cmp(&rows[*a].loss_db).then(a.cmp(b)));
    // Of the weakest the last figure is wanted, or whether its dip is within the ripple.
    let is_wanted = |row: &TargetRow| match (effort, &band.ripple) {
        (Effort::Whole, _) => true,
        (Effort::Hurried, None) => false,
        (Effort::Hurried, Some(most)) => row.ripple_db + NARROW_WITHIN_DB >= most.value.as_decibels(),
    };
    // What has failed on the grid fails.
    let is_near = |row: &TargetRow| row.loss_db + NARROW_WITHIN_DB >= budget_db && row.loss_db <= budget_db;
    let wanted: Vec<usize> = by_loss
        .iter()
        .copied()
        .enumerate()
        .filter(|_| narrows(band))
        .filter(|(rank, row)| is_near(&rows[*row]) || *rank == 0 && is_wanted(&rows[*row]))
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
            rows[row].ripple_db += deeper_db;
            if let Some(notch) = &mut rows[row].notch {
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
        weakest,
        response,
        points: frequencies_hz.len(),
        grid_complete,
        left_coarse: wanted.len().saturating_sub(MOST_NARROWED) + unsettled,
        rows,
    })
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

fn target_row(
    target: usize,
    frequencies_hz: &[f64],
    gains_db: &[f64],
    level: Option<ShareLevel>,
) -> TargetRow {
    let lowest = lowest(gains_db);
    let highest = gains_db.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let peak = |side: &[f64]| side.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let shoulder = peak(&gains_db[..=lowest]).min(peak(&gains_db[lowest..]));
    let is_inside = lowest > 0 && lowest + 1 < gains_db.len();
    let notch = is_inside
        .then_some(Notch { frequency_hz: frequencies_hz[lowest], depth_db: shoulder - gains_db[lowest] });
    let decisive = level.unwrap_or(ShareLevel { gain_db: gains_db[lowest], at_hz: frequencies_hz[lowest] });
    TargetRow {
        target,
        loss_db: -decisive.gain_db,
        at_hz: decisive.at_hz,
        ripple_db: highest - gains_db[lowest],
        notch,
    }
}
