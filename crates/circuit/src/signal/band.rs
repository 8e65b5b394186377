//! Insertion loss, ripple and notches within a band.
//!
//! The insertion gain at a node is first taken on a grid, the grid is made finer where the voltage bends,
//! and every extreme that three neighbouring points bracket is narrowed on the response itself (not on an
//! interpolation) until its frequency is known to a part in 10^9.
//!
//! # What is and is not found
//!
//! Between two neighbouring points nothing is proved. The points are chosen so that on a tree of lines an
//! extreme cannot easily hide:
//!
//! - eight in each `1 / (2T)`, `T` the sum of the delays of all segments. For lossless lines with resistive
//!   loads numerator and denominator of every voltage ratio are sums of terms `cos(w t)` and `sin(w t)` with
//!   `|t| <= T`, whose zeros lie on average at least `1 / (2T)` apart;
//! - every multiple up to 64 of the quarter-wave frequency `1 / (4 t)` of every way `t` from a dead end to
//!   a junction on its way to the source;
//! - forty in a decade, for what chokes and capacitors do;
//! - where three neighbouring voltages, as complex numbers, are not close to one straight line, the
//!   intervals are halved, and so on: lumped elements and low losses crowd extremes together.
//!
//! Under the hypothesis that **no two extremes of one kind lie between four neighbouring points** all of
//! them are bracketed; where a bracket holds one extreme only, narrowing converges to it.
//! [`BandSurvey::grid_complete`] says whether the points asked for above were all taken; where it is false
//! a cap cut them short and more may be missed.

pub use super::grid::Band;
use super::grid::grid;
use super::response::{Source, Workspace};
use super::samples::{Target, insertion_gains_db, sample};
use super::tree::{SignalTree, TreeError};
use super::value::{ValueError, check_frequency_hz};

/// How thoroughly to look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BandOptions {
    /// A dip counts as a notch where it lies at least this much below the peaks on both sides, decibel.
    pub notch_depth_db: f64,
    /// Greatest number of evenly spaced points, of quarter-wave points, and of points added by halving.
    pub greatest_points: usize,
    /// Greatest number of dips, and of peaks, narrowed per node: the deepest and the highest first.
    pub greatest_refined: usize,
}

impl Default for BandOptions {
    fn default() -> Self {
        Self { notch_depth_db: 3.0, greatest_points: 20_000, greatest_refined: 16 }
    }
}

/// A gain at a frequency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extreme {
    /// Frequency in hertz.
    pub frequency_hz: f64,
    /// Insertion gain there in decibel; the insertion loss is its negative.
    pub insertion_gain_db: f64,
}

/// What a band looks like at one node.
#[derive(Clone, Debug, PartialEq)]
pub struct BandSurvey {
    /// The node.
    pub node: usize,
    /// Where least is lost.
    pub greatest: Extreme,
    /// Where most is lost: this one counts against a loss budget.
    pub least: Extreme,
    /// Dips that count as notches, by rising frequency.
    pub notches: Vec<Extreme>,
    /// Dips and peaks that were left at their grid value because there were more than
    /// [`BandOptions::greatest_refined`].
    pub left_unrefined: usize,
    /// Number of points before narrowing.
    pub grid_points: usize,
    /// Whether all points that the module speaks of were taken.
    pub grid_complete: bool,
}

impl BandSurvey {
    /// Greatest insertion loss in the band, decibel.
    pub fn insertion_loss_db(&self) -> f64 {
        -self.least.insertion_gain_db
    }

    /// Difference between the highest and the lowest gain, decibel.
    pub fn ripple_db(&self) -> f64 {
        self.greatest.insertion_gain_db - self.least.insertion_gain_db
    }
}

/// Surveys `band` at each of `targets`. The insertion gain of a node without a load is its voltage gain.
pub fn survey(
    tree: &SignalTree,
    source: Source,
    targets: &[usize],
    band: Band,
    options: BandOptions,
    workspace: &mut Workspace,
) -> Result<Vec<BandSurvey>, TreeError> {
    let at_source = |error: ValueError| TreeError::Value { node: source.node, error };
    for frequency_hz in [band.low_hz, band.high_hz] {
        check_frequency_hz(frequency_hz).map_err(at_source)?;
    }
    if band.high_hz <= band.low_hz {
        let limit = "above the band's lower end";
        return Err(at_source(ValueError { quantity: "high_hz", value: band.high_hz, limit }));
    }
    for &target in targets {
        tree.check_node(target)?;
    }
    let mut looked_at: Vec<Target> = targets.iter().map(|&node| Target { node, loads: Vec::new() }).collect();
    let mut rows_of_node = vec![Vec::new(); tree.node_count()];
    for (row, &node) in targets.iter().enumerate() {
        rows_of_node[node].push(row);
    }
    for (node, shunt) in tree.shunts() {
        for &row in &rows_of_node[*node] {
            looked_at[row].loads.push(*shunt);
        }
    }
    let grid = grid(tree, source, band, options.greatest_points)?;
    let allowed = grid.frequencies_hz.len() + options.greatest_points;
    let samples = sample(tree, source, &looked_at, grid.frequencies_hz, allowed, workspace)?;
    let mut surveys = Vec::with_capacity(targets.len());
    for (target, gains_db) in looked_at.iter().zip(&samples.insertion_gain_db) {
        let mut look =
            |frequencies_hz: &[f64]| insertion_gains_db(tree, source, target, frequencies_hz, workspace);
        surveys.push(survey_one(
            target.node,
            &samples.frequencies_hz,
            gains_db,
            grid.complete && samples.settled,
            options,
            &mut look,
        )?);
    }
    Ok(surveys)
}

fn survey_one(
    node: usize,
    frequencies_hz: &[f64],
    gains_db: &[f64],
    grid_complete: bool,
    options: BandOptions,
    look: &mut impl FnMut(&[f64]) -> Result<Vec<f64>, TreeError>,
) -> Result<BandSurvey, TreeError> {
    let mut dips = turning_points(gains_db, 1.0);
    let mut peaks = turning_points(gains_db, -1.0);
    dips.sort_by(|&a, &b| gains_db[a].total_cmp(&gains_db[b]));
    peaks.sort_by(|&a, &b| gains_db[b].total_cmp(&gains_db[a]));
    let left_unrefined = dips.len().saturating_sub(options.greatest_refined)
        + peaks.len().saturating_sub(options.greatest_refined);
    let at = |k: usize| Extreme { frequency_hz: frequencies_hz[k], insertion_gain_db: gains_db[k] };
    let mut greatest = at(0);
    let mut least = at(0);
    let mut take = |extreme: Extreme| {
        if extreme.insertion_gain_db > greatest.insertion_gain_db {
            greatest = extreme;
        }
        if extreme.insertion_gain_db < least.insertion_gain_db {
            least = extreme;
        }
    };
    (0..frequencies_hz.len()).for_each(|k| take(at(k)));
    for &k in peaks.iter().take(options.greatest_refined) {
        take(narrow([k - 1, k, k + 1].map(at), -1.0, look)?);
    }
    // A band may end just beyond an extreme that no grid point inside shows: look from each end inwards
    // where the end is lower or higher than its neighbour.
    let last = frequencies_hz.len() - 1;
    for [end, next] in [[0, 1], [last, last - 1]] {
        let sign = if gains_db[end] < gains_db[next] { 1.0 } else { -1.0 };
        let mut bracket = [end, end, next].map(at);
        bracket.sort_by(|a, b| a.frequency_hz.total_cmp(&b.frequency_hz));
        take(narrow(bracket, sign, look)?);
    }
    let mut notches = Vec::new();
    for (rank, &k) in dips.iter().enumerate() {
        let notch = depth_db(gains_db, k) >= options.notch_depth_db;
        let mut dip = at(k);
        if rank < options.greatest_refined {
            dip = narrow([k - 1, k, k + 1].map(at), 1.0, look)?;
            take(dip);
        }
        // Narrowing can only deepen a dip, so one that is shallow on the grid may still become a notch.
        let deepened_db = gains_db[k] - dip.insertion_gain_db;
        if notch || depth_db(gains_db, k) + deepened_db >= options.notch_depth_db {
            notches.push(dip);
        }
    }
    notches.sort_by(|a, b| a.frequency_hz.total_cmp(&b.frequency_hz));
    Ok(BandSurvey {
        node,
        greatest,
        least,
        notches,
        left_unrefined,
        grid_points: frequencies_hz.len(),
        grid_complete,
    })
}

/// Grid points lower (`sign` 1) or higher (`sign` -1) than their left neighbour and not above (below) the right.
fn turning_points(gains_db: &[f64], sign: f64) -> Vec<usize> {
    (1..gains_db.len().saturating_sub(1))
        .filter(|&k| {
            sign * gains_db[k] < sign * gains_db[k - 1] && sign * gains_db[k] <= sign * gains_db[k + 1]
        })
        .collect()
}

/// How far a dip lies below the lower of the peaks on its two sides: climb until the gain falls again.
fn depth_db(gains_db: &[f64], dip: usize) -> f64 {
    let mut left = dip;
    while left > 0 && gains_db[left - 1] >= gains_db[left] {
        left -= 1;
    }
    let mut right = dip;
    while right + 1 < gains_db.len() && gains_db[right + 1] >= gains_db[right] {
        right += 1;
    }
    gains_db[left].min(gains_db[right]) - gains_db[dip]
}

/// Narrows a bracket of three points around a dip (`sign` 1) or peak (`sign` -1): sixteen points inside at a
/// time, since a block of sixteen costs no more than one.
fn narrow(
    mut bracket: [Extreme; 3],
    sign: f64,
    look: &mut impl FnMut(&[f64]) -> Result<Vec<f64>, TreeError>,
) -> Result<Extreme, TreeError> {
    const INSIDE: usize = 16;
    const GREATEST_ROUNDS: usize = 24;
    for _ in 0..GREATEST_ROUNDS {
        let (low_hz, high_hz) = (bracket[0].frequency_hz, bracket[2].frequency_hz);
        if high_hz - low_hz <= 1e-9 * high_hz {
            break;
        }
        let inside: Vec<f64> =
            (1..=INSIDE).map(|i| low_hz + (high_hz - low_hz) * (i as f64 / (INSIDE + 1) as f64)).collect();
        let gains_db = look(&inside)?;
        let mut points: Vec<Extreme> = bracket.to_vec();
        points.extend(
            inside
                .iter()
                .zip(&gains_db)
                .map(|(&frequency_hz, &insertion_gain_db)| Extreme { frequency_hz, insertion_gain_db }),
        );
        points.sort_by(|a, b| a.frequency_hz.total_cmp(&b.frequency_hz));
        let best = (1..points.len() - 1)
            .min_by(|&a, &b| {
                (sign * points[a].insertion_gain_db).total_cmp(&(sign * points[b].insertion_gain_db))
            })
            .unwrap_or(1);
        bracket = [points[best - 1], points[best], points[best + 1]];
    }
    Ok(bracket[1])
}
