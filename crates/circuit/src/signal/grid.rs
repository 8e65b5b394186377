//! Frequencies at which a band is first looked at.

use super::response::Source;
use super::tree::{SignalTree, TreeError};

/// Grid points between two neighbouring resonances of the tree, see [`super::band`].
const POINTS_PER_RESONANCE: f64 = 8.0;
/// Points per decade at least, for what varies with the logarithm of frequency: chokes, capacitors, RC lines.
const POINTS_PER_DECADE: f64 = 40.0;
/// Multiples of a stub's quarter-wave frequency that are taken up.
const MULTIPLES: u32 = 64;

/// A band of frequencies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Lower end in hertz.
    pub low_hz: f64,
    /// Upper end in hertz, above the lower.
    pub high_hz: f64,
}

/// A grid over a band.
#[derive(Debug)]
pub(super) struct Grid {
    /// Rising, the ends of the band included.
    pub frequencies_hz: Vec<f64>,
    /// Whether the spacing that the whole tree's delay asks for was kept; otherwise it would have taken more
    /// than the points allowed.
    pub complete: bool,
}

/// The grid for a source: even in the logarithm, even in frequency at the spacing of the whole tree's
/// resonances, and the quarter-wave frequencies (and their multiples) of every stub.
pub(super) fn grid(
    tree: &SignalTree,
    source: Source,
    band: Band,
    greatest_points: usize,
) -> Result<Grid, TreeError> {
    let (low_hz, high_hz) = (band.low_hz, band.high_hz);
    let delays_s: Vec<f64> = tree.lines().iter().map(|line| line.delay_s_per_m(high_hz)).collect();
    let delay_s = |node: usize| tree.branches()[node - 1].length_m * delays_s[tree.branches()[node - 1].line];
    let mut frequencies_hz = vec![low_hz, high_hz];

    let decades = libm::log10(high_hz / low_hz);
    let count = (decades * POINTS_PER_DECADE).ceil().max(1.0);
    let mut k = 1.0;
    while k < count {
        frequencies_hz.push(low_hz * libm::pow(10.0, decades * k / count));
        k += 1.0;
    }

    let total_s: f64 = (1..tree.node_count()).map(delay_s).sum();
    let wanted = (high_hz - low_hz) * total_s * 2.0 * POINTS_PER_RESONANCE;
    let allowed = greatest_points as f64;
    let steps = wanted.min(allowed).ceil();
    let mut k = 1.0;
    while k < steps {
        frequencies_hz.push(low_hz + (high_hz - low_hz) * (k / steps));
        k += 1.0;
    }
    let mut complete = wanted <= allowed;

    let mut seeds = 0;
    'stubs: for stub_s in stub_delays_s(tree, source, &delay_s, greatest_points)? {
        if stub_s <= 0.0 {
            continue;
        }
        for multiple in 1..=MULTIPLES {
            let frequency_hz = f64::from(multiple) / (4.0 * stub_s);
            if frequency_hz >= high_hz {
                break;
            }
            if frequency_hz > low_hz {
                seeds += 1;
                if seeds > greatest_points {
                    complete = false;
                    break 'stubs;
                }
                frequencies_hz.push(frequency_hz);
            }
        }
    }
    frequencies_hz.sort_by(f64::total_cmp);
    // Points closer than this tell nothing apart and would make brackets of no width.
    frequencies_hz.dedup_by(|next, kept| *next - *kept < 1e-9 * *kept);
    if let Some(last) = frequencies_hz.last_mut() {
        *last = high_hz;
    }
    Ok(Grid { frequencies_hz, complete })
}

/// Delays from every dead end to each junction on its way to the source, at most `greatest` of them.
fn stub_delays_s(
    tree: &SignalTree,
    source: Source,
    delay_s: &impl Fn(usize) -> f64,
    greatest: usize,
) -> Result<Vec<f64>, TreeError> {
    let nodes = tree.node_count();
    let path = tree.path_from_root(source.node)?;
    // The neighbour nearer the source, and the delay to it.
    let mut nearer: Vec<(usize, f64)> = vec![(source.node, 0.0); nodes];
    let mut neighbours = vec![0_usize; nodes];
    for (k, branch) in tree.branches().iter().enumerate() {
        let node = k + 1;
        nearer[node] = (branch.parent, delay_s(node));
        neighbours[node] += 1;
        neighbours[branch.parent] += 1;
    }
    for step in path.windows(2) {
        nearer[step[0]] = (step[1], delay_s(step[1]));
    }
    let mut stubs_s = Vec::new();
    for end in (0..nodes).filter(|&node| neighbours[node] == 1 && node != source.node) {
        let (mut node, mut stub_s) = (end, 0.0);
        while node != source.node {
            let (next, step_s) = nearer[node];
            stub_s += step_s;
            node = next;
            if neighbours[node] >= 3 || node == source.node {
                stubs_s.push(stub_s);
                if stubs_s.len() >= greatest {
                    return Ok(stubs_s);
                }
            }
        }
    }
    Ok(stubs_s)
}
