//! Verified enclosure of the greatest solution: two sweeps of nonnegative terms.

use super::{Loads, Source, Tree};

/// `gamma_N = N u/(1 - N u)`, the bound on the relative error of a term after `N` roundings (Higham,
/// Accuracy and Stability of Numerical Algorithms, section 3.1), times 1.01.
///
/// A computed value `c` of the true `t > 0` satisfies `t <= c/(1 - gamma) <= c (1 + 1.01 gamma)` and
/// `t >= c (1 - gamma)` as long as `gamma < 0.0099`; beyond that infinity is returned and nothing is shown.
pub(super) fn gamma(rounding_steps: f64) -> f64 {
    let nu = rounding_steps * (f64::EPSILON / 2.0);
    if nu < 0.009 { 1.01 * nu / (1.0 - nu) } else { f64::INFINITY }
}

/// The allowance for the loads at hand.
pub(super) fn allowance(tree: &Tree, loads: &Loads<'_>) -> f64 {
    gamma(tree.rounding_steps(!loads.conductance_s.is_empty()))
}

/// Power-only case, uniform half width: is the greatest solution within `voltage_v` -+ `half_width_v`?
///
/// Both sweeps run in one: lane 0 of `pair` belongs to the lower vector, lane 1 to the upper. `pair` must
/// be zero on entry and is left full.
pub(super) fn verify_power_only(
    tree: &Tree,
    source: &Source,
    power_w: &[f64],
    voltage_v: &[f64],
    half_width_v: f64,
    pair: &mut [[f64; 2]],
) -> bool {
    let nodes = tree.len();
    let parent = &tree.parents()[..nodes];
    let resistance = &tree.resistances_ohm()[..nodes];
    let power_w = &power_w[..nodes];
    let voltage = &voltage_v[..nodes];
    let pair = &mut pair[..nodes];
    let mut lowest = f64::INFINITY;
    for node in (1..nodes).rev() {
        let (low, high) = (voltage[node] - half_width_v, voltage[node] + half_width_v);
        lowest = if low < lowest { low } else { lowest };
        let current = [pair[node][0] + power_w[node] / low, pair[node][1] + power_w[node] / high];
        pair[node] = current;
        let up = &mut pair[parent[node] as usize];
        up[0] += current[0];
        up[1] += current[1];
    }
    let (low, high) = (voltage[0] - half_width_v, voltage[0] + half_width_v);
    lowest = lowest.min(low);
    let r = source.resistance_ohm;
    pair[0] = [r * (pair[0][0] + power_w[0] / low), r * (pair[0][1] + power_w[0] / high)];
    let allowed = gamma(tree.rounding_steps(false));
    let (up_factor, down_factor) = (1.0 + allowed, 1.0 - allowed);
    let v0 = source.voltage_v;
    let mut fine = lowest > 0.0;
    fine &= pair[0][0] * up_factor < v0 - low && pair[0][1] * down_factor >= v0 - high;
    for node in 1..nodes {
        let above = pair[parent[node] as usize];
        let drop = [above[0] + resistance[node] * pair[node][0], above[1] + resistance[node] * pair[node][1]];
        pair[node] = drop;
        fine &= drop[0] * up_factor < v0 - (voltage[node] - half_width_v);
        fine &= drop[1] * down_factor >= v0 - (voltage[node] + half_width_v);
    }
    fine
}

/// Scratch of [`drops`].
#[derive(Clone, Debug, Default)]
pub(super) struct SweepScratch {
    slope_s: Vec<f64>,
    current_a: Vec<f64>,
    drop_v: Vec<f64>,
}

impl SweepScratch {
    pub fn resize(&mut self, nodes: usize) {
        self.slope_s.resize(nodes, 0.0);
        self.current_a.resize(nodes, 0.0);
        self.drop_v.resize(nodes, 0.0);
    }
}

/// The drops `V0 - T(w)` with the loads times `load_factor`, left in `scratch.drop_v`; `false` when `w` is
/// outside the domain. Every operation is a sum, product or quotient of nonnegative numbers, except `w -
/// Vd` and the voltage above a conductance, each a difference of two given numbers rounded once.
fn drops(
    tree: &Tree,
    source: &Source,
    loads: &Loads<'_>,
    load_factor: f64,
    w: &[f64],
    scratch: &mut SweepScratch,
) -> bool {
    let nodes = tree.len();
    let parent = tree.parents();
    let resistance = tree.resistances_ohm();
    scratch.current_a.fill(0.0);
    let with_conductances = !loads.conductance_s.is_empty();
    if with_conductances {
        scratch.slope_s.fill(0.0);
    }
    let mut fine = true;
    for node in (0..nodes).rev() {
        let power = loads.power(node);
        fine &= w[node] > 0.0;
        let mut current = load_factor * loads.current(node);
        if power > 0.0 {
            let x = w[node] - loads.drop(node);
            fine &= x > 0.0;
            current += load_factor * power / x;
        }
        current += scratch.current_a[node];
        let r = if node == 0 { source.resistance_ohm } else { resistance[node] };
        if with_conductances {
            let slope = scratch.slope_s[node] + load_factor * loads.conductance(node);
            let pivot = 1.0 + r * slope;
            let (slope, current) = (slope / pivot, current / pivot);
            scratch.slope_s[node] = slope;
            scratch.current_a[node] = current;
            if node > 0 {
                let up = parent[node] as usize;
                scratch.slope_s[up] += slope;
                scratch.current_a[up] += current;
            }
        } else {
            scratch.current_a[node] = current;
            if node > 0 {
                scratch.current_a[parent[node] as usize] += current;
            }
        }
    }
    if !fine {
        return false;
    }
    for node in 0..nodes {
        let (above, r) = if node == 0 {
            (0.0, source.resistance_ohm)
        } else {
            (scratch.drop_v[parent[node] as usize], resistance[node])
        };
        let mut current = scratch.current_a[node];
        if with_conductances {
            // A drop computed a rounding too large must not turn the current round.
            current += scratch.slope_s[node] * (source.voltage_v - above).max(0.0);
        }
        scratch.drop_v[node] = above + r * current;
    }
    true
}

/// Whether `T(w) > w` in every component, allowing for rounding: then there is a solution, only one
/// above `w`, and it is the greatest of all.
pub(super) fn is_strictly_below_image(
    tree: &Tree,
    source: &Source,
    loads: &Loads<'_>,
    load_factor: f64,
    w: &[f64],
    scratch: &mut SweepScratch,
) -> bool {
    if !drops(tree, source, loads, load_factor, w, scratch) {
        return false;
    }
    let up_factor = 1.0 + allowance(tree, loads);
    scratch.drop_v.iter().zip(w).all(|(drop, w)| drop * up_factor < source.voltage_v - w)
}

/// Whether `T(u) <= u` in every component, allowing for rounding.
pub(super) fn is_above_image(
    tree: &Tree,
    source: &Source,
    loads: &Loads<'_>,
    load_factor: f64,
    u: &[f64],
    scratch: &mut SweepScratch,
) -> bool {
    if !drops(tree, source, loads, load_factor, u, scratch) {
        return false;
    }
    let down_factor = 1.0 - allowance(tree, loads);
    scratch.drop_v.iter().zip(u).all(|(drop, u)| drop * down_factor >= source.voltage_v - u)
}
