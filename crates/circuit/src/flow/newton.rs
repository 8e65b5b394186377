//! Newton by elimination: one upward and one downward pass a step.
//!
//! Two kernels do the same step. [`step_power_only`] takes constant powers without rectifier drop and
//! keeps two numbers a node; [`factor`] with [`solve_tangent`] and [`solve_right_side`] take every
//! kind of load, a common factor on the loads, and further right-hand sides.

use super::{Loads, Source, Tree};

/// Scratch of the general kernel: pivots' inverses and aggregated slopes of the last [`factor`].
#[derive(Clone, Debug, Default)]
pub(super) struct Factor {
    /// `1/(1 + r S)`.
    pub inverse_pivot: Vec<f64>,
    /// `S`, slope of the current into the node and all that hangs on it, S.
    pub slope_s: Vec<f64>,
    /// Aggregated constant part, A; scratch of the right-hand sides.
    pub current_a: Vec<f64>,
}

impl Factor {
    pub fn resize(&mut self, nodes: usize) {
        self.inverse_pivot.resize(nodes, 0.0);
        self.slope_s.resize(nodes, 0.0);
        self.current_a.resize(nodes, 0.0);
    }
}

/// What a step ran into.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum StepResult {
    /// All pivots positive; the largest change of a voltage, V.
    Step(f64),
    /// A pivot was not positive (or not a number).
    NonpositivePivot,
}

/// First Newton step of the power-only case, from `V0` everywhere. `pair` must be zero on entry and
/// is zero again on return; `voltage_v` is written, whatever it held.
pub(super) fn first_step_power_only(
    tree: &Tree,
    source: &Source,
    power_w: &[f64],
    pair: &mut [[f64; 2]],
    voltage_v: &mut [f64],
) -> StepResult {
    let nodes = tree.len();
    let parent = &tree.parents()[..nodes];
    let resistance = &tree.resistances_ohm()[..nodes];
    let power_w = &power_w[..nodes];
    let pair = &mut pair[..nodes];
    let over_v = 1.0 / source.voltage_v;
    let (slope_of, current_of) = (over_v * over_v, 2.0 * over_v);
    let mut fine = true;
    for node in (1..nodes).rev() {
        let [slope_below, current_below] = pair[node];
        let slope = slope_below - power_w[node] * slope_of;
        let current = current_below + power_w[node] * current_of;
        let pivot = 1.0 + resistance[node] * slope;
        fine &= pivot > 0.0;
        let inverse = 1.0 / pivot;
        let passed = current * inverse;
        let up = &mut pair[parent[node] as usize];
        up[0] += slope * inverse;
        up[1] += passed;
        pair[node] = [inverse, resistance[node] * passed];
    }
    let slope = pair[0][0] - power_w[0] * slope_of;
    let current = pair[0][1] + power_w[0] * current_of;
    down_power_only::<true>(tree, source, slope, current, fine, pair, voltage_v)
}

/// One Newton step of the power-only case from `voltage_v`, which is overwritten. `pair` as in
/// [`first_step_power_only`].
///
/// One division a node: with `t = v^2 (1 + r S) - r P` (the pivot times `v^2`) both `1/v` and the
/// inverse pivot follow from `1/(v t)`.
pub(super) fn step_power_only(
    tree: &Tree,
    source: &Source,
    power_w: &[f64],
    pair: &mut [[f64; 2]],
    voltage_v: &mut [f64],
) -> StepResult {
    let nodes = tree.len();
    let parent = &tree.parents()[..nodes];
    let resistance = &tree.resistances_ohm()[..nodes];
    let power_w = &power_w[..nodes];
    let pair = &mut pair[..nodes];
    let voltage = &voltage_v[..nodes];
    let mut fine = true;
    for node in (1..nodes).rev() {
        let [slope_below, current_below] = pair[node];
        let (v, power, r) = (voltage[node], power_w[node], resistance[node]);
        let square = v * v;
        let scaled_pivot = square * (1.0 + r * slope_below) - r * power;
        fine &= scaled_pivot > 0.0;
        let shared = 1.0 / (v * scaled_pivot);
        let over_v = scaled_pivot * shared;
        let inverse = square * v * shared;
        let drawn = power * over_v;
        let slope = slope_below - drawn * over_v;
        let passed = (current_below + 2.0 * drawn) * inverse;
        let up = &mut pair[parent[node] as usize];
        up[0] += slope * inverse;
        up[1] += passed;
        pair[node] = [inverse, r * passed];
    }
    let drawn = power_w[0] / voltage[0];
    let slope = pair[0][0] - drawn / voltage[0];
    let current = pair[0][1] + 2.0 * drawn;
    down_power_only::<false>(tree, source, slope, current, fine, pair, voltage_v)
}

/// Downward pass; with `FIRST` the change is counted from `V0`.
fn down_power_only<const FIRST: bool>(
    tree: &Tree,
    source: &Source,
    slope: f64,
    current: f64,
    fine: bool,
    pair: &mut [[f64; 2]],
    voltage_v: &mut [f64],
) -> StepResult {
    let nodes = tree.len();
    let parent = &tree.parents()[..nodes];
    let pair = &mut pair[..nodes];
    let voltage = &mut voltage_v[..nodes];
    let pivot = 1.0 + source.resistance_ohm * slope;
    let root = (source.voltage_v - source.resistance_ohm * current) / pivot;
    let mut largest = (if FIRST { source.voltage_v } else { voltage[0] } - root).abs();
    voltage[0] = root;
    pair[0] = [0.0; 2];
    for node in 1..nodes {
        let [inverse, drop] = pair[node];
        pair[node] = [0.0; 2];
        let v = voltage[parent[node] as usize] * inverse - drop;
        let change = (if FIRST { source.voltage_v } else { voltage[node] } - v).abs();
        // Not f64::max, which would lose a NaN.
        if !(change <= largest) {
            largest = change;
        }
        voltage[node] = v;
    }
    if fine && pivot > 0.0 && largest.is_finite() {
        StepResult::Step(largest)
    } else {
        StepResult::NonpositivePivot
    }
}

/// Eliminates the Jacobian of all loads times `factor` at `voltage_v`; `false` when a pivot is not
/// positive. The tangents' constant parts are left, aggregated, in `into.current_a`.
pub(super) fn factor(
    tree: &Tree,
    source: &Source,
    loads: &Loads<'_>,
    load_factor: f64,
    voltage_v: &[f64],
    into: &mut Factor,
) -> bool {
    let nodes = tree.len();
    let parent = tree.parents();
    let resistance = tree.resistances_ohm();
    into.slope_s.fill(0.0);
    into.current_a.fill(0.0);
    let mut fine = true;
    for node in (0..nodes).rev() {
        let power = load_factor * loads.power(node);
        let v = voltage_v[node];
        let mut slope = into.slope_s[node] + load_factor * loads.conductance(node);
        let mut current = into.current_a[node] + load_factor * loads.current(node);
        if power > 0.0 {
            let x = v - loads.drop(node);
            fine &= x > 0.0;
            let drawn = power / x;
            slope -= drawn / x;
            current += drawn + drawn / x * v;
        }
        let r = if node == 0 { source.resistance_ohm } else { resistance[node] };
        let pivot = 1.0 + r * slope;
        fine &= pivot > 0.0;
        let inverse = 1.0 / pivot;
        into.slope_s[node] = slope;
        into.inverse_pivot[node] = inverse;
        into.current_a[node] = current;
        if node > 0 {
            let up = parent[node] as usize;
            into.slope_s[up] += slope * inverse;
            into.current_a[up] += current * inverse;
        }
    }
    fine
}

/// Solves the tangent network after [`factor`]; writes the voltages and returns the largest change.
pub(super) fn solve_tangent(tree: &Tree, source: &Source, with: &Factor, voltage_v: &mut [f64]) -> f64 {
    let parent = tree.parents();
    let resistance = tree.resistances_ohm();
    let mut largest = 0.0_f64;
    for node in 0..tree.len() {
        let (above, r) = if node == 0 {
            (source.voltage_v, source.resistance_ohm)
        } else {
            (voltage_v[parent[node] as usize], resistance[node])
        };
        let v = (above - r * with.current_a[node]) * with.inverse_pivot[node];
        let change = (voltage_v[node] - v).abs();
        if !(change <= largest) {
            largest = change;
        }
        voltage_v[node] = v;
    }
    largest
}

/// Solves `J z = e` with the pivots of the last [`factor`]; `e` (A) comes in `out` and `z` (V) leaves in it.
/// Overwrites `with.current_a` with the aggregated right-hand side.
pub(super) fn solve_right_side(tree: &Tree, source: &Source, with: &mut Factor, out: &mut [f64]) {
    let nodes = tree.len();
    let parent = tree.parents();
    let resistance = tree.resistances_ohm();
    with.current_a[..nodes].copy_from_slice(&out[..nodes]);
    for node in (1..nodes).rev() {
        let passed = with.current_a[node] * with.inverse_pivot[node];
        with.current_a[parent[node] as usize] += passed;
    }
    out[0] = source.resistance_ohm * with.current_a[0] * with.inverse_pivot[0];
    for node in 1..nodes {
        let above = out[parent[node] as usize];
        out[node] = (above + resistance[node] * with.current_a[node]) * with.inverse_pivot[node];
    }
}
