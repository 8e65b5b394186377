//! The response at some nodes on a grid that is made finer where the voltage bends.

use super::complex::Complex;
use super::elements::Shunt;
use super::response::{Source, Workspace, straight_gain_db, sweep};
use super::tree::{SignalTree, TreeError};

/// Greatest number of times an interval is halved.
const GREATEST_ROUNDS: u32 = 10;
/// A voltage bends where it is further than this part of its neighbours' mean magnitude from the straight
/// line between them. At eight points per resonance a plain delay stays below 0.08.
const BENT: f64 = 0.15;

/// One node at one frequency.
#[derive(Clone, Copy, Debug)]
struct Sample {
    insertion_gain_db: f64,
    /// To be multiplied by `exp(-attenuation)`.
    voltage: Complex,
    attenuation_np: f64,
}

/// A node that is looked at, with the loads it carries.
#[derive(Debug)]
pub(super) struct Target {
    pub node: usize,
    pub loads: Vec<Shunt>,
}

/// Insertion gains of some nodes over common, rising frequencies.
#[derive(Debug)]
pub(super) struct Samples {
    pub frequencies_hz: Vec<f64>,
    /// Target by target.
    pub insertion_gain_db: Vec<Vec<f64>>,
    /// Whether no interval was left that still bends.
    pub settled: bool,
}

fn look(
    tree: &SignalTree,
    source: Source,
    targets: &[Target],
    frequencies_hz: &[f64],
    workspace: &mut Workspace,
) -> Result<Vec<Vec<Sample>>, TreeError> {
    let mut rows = vec![Vec::with_capacity(frequencies_hz.len()); targets.len()];
    sweep(tree, source, frequencies_hz, workspace, |block| {
        for (row, target) in rows.iter_mut().zip(targets) {
            for i in 0..block.count {
                let (voltage, attenuation_np) = block.voltage(target.node, i);
                let straight_db =
                    straight_gain_db(&target.loads, source.impedance_ohm, frequencies_hz[block.first + i]);
                let insertion_gain_db = block.gain_db(target.node, i) - straight_db;
                row.push(Sample { insertion_gain_db, voltage, attenuation_np });
            }
        }
    })?;
    Ok(rows)
}

/// Insertion gains of one node at `frequencies_hz`.
pub(super) fn insertion_gains_db(
    tree: &SignalTree,
    source: Source,
    target: &Target,
    frequencies_hz: &[f64],
    workspace: &mut Workspace,
) -> Result<Vec<f64>, TreeError> {
    let rows = look(tree, source, std::slice::from_ref(target), frequencies_hz, workspace)?;
    Ok(rows.into_iter().flatten().map(|sample| sample.insertion_gain_db).collect())
}

/// Starts from `frequencies_hz` (rising) and halves the intervals beside every bend of any target's voltage.
pub(super) fn sample(
    tree: &SignalTree,
    source: Source,
    targets: &[Target],
    mut frequencies_hz: Vec<f64>,
    greatest_points: usize,
    workspace: &mut Workspace,
) -> Result<Samples, TreeError> {
    let mut rows = look(tree, source, targets, &frequencies_hz, workspace)?;
    let mut settled = false;
    for _ in 0..GREATEST_ROUNDS {
        let between = halves(&frequencies_hz, &rows);
        if between.is_empty() {
            settled = true;
            break;
        }
        if frequencies_hz.len() + between.len() > greatest_points {
            break;
        }
        let added_hz: Vec<f64> = between.iter().map(|&(_, frequency_hz)| frequency_hz).collect();
        let added = look(tree, source, targets, &added_hz, workspace)?;
        for (row, new) in rows.iter_mut().zip(added) {
            *row = merged(row, &between, &new);
        }
        frequencies_hz = merged(&frequencies_hz, &between, &added_hz);
    }
    let insertion_gain_db =
        rows.into_iter().map(|row| row.iter().map(|sample| sample.insertion_gain_db).collect()).collect();
    Ok(Samples { frequencies_hz, insertion_gain_db, settled })
}

/// Middles of the intervals to be halved, each with the number of the point before it.
fn halves(frequencies_hz: &[f64], rows: &[Vec<Sample>]) -> Vec<(usize, f64)> {
    let mut halve = vec![false; frequencies_hz.len().saturating_sub(1)];
    for row in rows {
        for (k, (three, at_hz)) in row.windows(3).zip(frequencies_hz.windows(3)).enumerate() {
            if bends(three, at_hz) {
                halve[k] = true;
                halve[k + 1] = true;
            }
        }
    }
    frequencies_hz
        .windows(2)
        .enumerate()
        .filter(|&(k, ends)| halve[k] && ends[1] - ends[0] > 1e-8 * ends[1])
        .map(|(k, ends)| (k, 0.5 * (ends[0] + ends[1])))
        .collect()
}

fn bends(three: &[Sample], at_hz: &[f64]) -> bool {
    let &[before, here, after] = three else { return false };
    let &[before_hz, here_hz, after_hz] = at_hz else { return false };
    // All three with the decay of the middle one.
    let first = before.voltage * libm::exp(here.attenuation_np - before.attenuation_np);
    let last = after.voltage * libm::exp(here.attenuation_np - after.attenuation_np);
    let part = (here_hz - before_hz) / (after_hz - before_hz);
    let straight = first * (1.0 - part) + last * part;
    (here.voltage - straight).norm() > BENT * 0.5 * (first.norm() + last.norm())
}

/// `old` with each of `new` put behind the old entry that `between` names.
fn merged<T: Copy>(old: &[T], between: &[(usize, f64)], new: &[T]) -> Vec<T> {
    let mut all = Vec::with_capacity(old.len() + new.len());
    let mut next = between.iter().zip(new).peekable();
    for (k, &value) in old.iter().enumerate() {
        all.push(value);
        while let Some((_, &added)) = next.next_if(|((behind, _), _)| *behind == k) {
            all.push(added);
        }
    }
    all
}
