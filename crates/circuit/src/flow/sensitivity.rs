//! How one node's voltage answers to everything, in one adjoint sweep; and shared path resistances.
//!
//! `J` is symmetric, so one solution of `J z = e_target` gives every derivative at once:
//!
//! ```text
//! dv/dI_k = -z_k        dv/dP_k = -z_k/(v_k - Vd_k)       dv/dg_k = -z_k v_k
//! dv/dr_k = -f_k y_k    dv/dV0  =  y_0
//! ```
//!
//! where `f_k` is the current through segment `k` and `y_k` the current that the adjoint network
//! carries in it: a change of `r_k` acts like a voltage `-f_k dr_k` in series with the segment.
//! With the aggregated slope `S` and injection `E`, `y = (E - S z_parent)/(1 + r S)`.

use super::newton::{Factor, factor, solve_right_side};
use super::{Loads, Source, Tree, branch_currents};

/// Derivatives of the voltage of one node at a solution.
#[derive(Clone, Debug, PartialEq)]
pub struct Sensitivities {
    /// With respect to the power of every node, V/W (0 where there is no power to begin with and the
    /// voltage is below the drop).
    pub per_power_v_per_w: Vec<f64>,
    /// With respect to the current of every node, V/A.
    pub per_current_v_per_a: Vec<f64>,
    /// With respect to the conductance of every node, V/S.
    pub per_conductance_v_per_s: Vec<f64>,
    /// With respect to the resistance above every node, V/ohm; entry 0 is the source resistance.
    pub per_resistance_v_per_ohm: Vec<f64>,
    /// With respect to the supply voltage, V/V.
    pub per_supply_voltage: f64,
}

/// Derivatives of `voltage_v[target]` at the solution `voltage_v`; `None` if `target` or the length does
/// not fit or a pivot is not positive there (not a greatest solution, or the nose itself).
#[must_use]
pub fn sensitivities(
    tree: &Tree,
    source: &Source,
    loads: &Loads<'_>,
    voltage_v: &[f64],
    target: usize,
) -> Option<Sensitivities> {
    if target >= tree.len() {
        return None;
    }
    let mut weights = vec![0.0; tree.len()];
    weights[target] = 1.0;
    weighted_sensitivities(tree, source, loads, voltage_v, weights)
}

/// Derivatives of `sum of weights[k] voltage_v[k]` at the solution `voltage_v`, each per unit of the weights; `None`
/// as for [`sensitivities`].
#[must_use]
pub fn weighted_sensitivities(
    tree: &Tree,
    source: &Source,
    loads: &Loads<'_>,
    voltage_v: &[f64],
    weights: Vec<f64>,
) -> Option<Sensitivities> {
    let nodes = tree.len();
    if weights.len() != nodes || voltage_v.len() != nodes {
        return None;
    }
    let mut with = Factor::default();
    with.resize(nodes);
    if !factor(tree, source, loads, 1.0, voltage_v, &mut with) {
        return None;
    }
    let mut z = weights;
    solve_right_side(tree, source, &mut with, &mut z);
    let currents = branch_currents(tree, source, loads, voltage_v).branch_a;
    let adjoint_current = |node: usize| {
        let above = if node == 0 { 0.0 } else { z[tree.parents()[node] as usize] };
        (with.current_a[node] - with.slope_s[node] * above) * with.inverse_pivot[node]
    };
    let per_power = |node: usize| {
        let x = voltage_v[node] - loads.drop(node);
        if x > 0.0 { -z[node] / x } else { 0.0 }
    };
    Some(Sensitivities {
        per_power_v_per_w: (0..nodes).map(per_power).collect(),
        per_current_v_per_a: z.iter().map(|z| -z).collect(),
        per_conductance_v_per_s: z.iter().zip(voltage_v).map(|(z, v)| -z * v).collect(),
        per_resistance_v_per_ohm: (0..nodes).map(|node| -currents[node] * adjoint_current(node)).collect(),
        per_supply_voltage: adjoint_current(0),
    })
}

/// `R(target, k)` for every node `k`: the resistance, ohm, that the ways from the ideal voltage to
/// `target` and to `k` share, the source resistance included. In linear time, into `out`.
///
/// A current drawn at `k` lowers the voltage of `target` by `R(target, k)` times it (constant currents
/// only). `out` is left empty if there is no such node.
pub fn transfer_resistances(tree: &Tree, source: &Source, target: usize, out: &mut Vec<f64>) {
    out.clear();
    let nodes = tree.len();
    if target >= nodes {
        return;
    }
    let parent = tree.parents();
    // Not on the way: NaN until its value is known.
    out.resize(nodes, f64::NAN);
    let mut node = target;
    while node != 0 {
        out[node] = tree.resistances_ohm()[node];
        node = parent[node] as usize;
    }
    out[0] = source.resistance_ohm;
    for node in 1..nodes {
        let shared_above = out[parent[node] as usize];
        out[node] = if out[node].is_nan() { shared_above } else { shared_above + out[node] };
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shared_resistance_of_a_small_tree() {
        // 0 - 1 (1 ohm), 1 - 2 (2), 1 - 3 (4), 0 - 4 (8); source 0.5.
        let tree = Tree::new(vec![0, 0, 1, 1, 0], vec![0.0, 1.0, 2.0, 4.0, 8.0]).unwrap();
        let source = Source { voltage_v: 48.0, resistance_ohm: 0.5 };
        let mut shared = Vec::new();
        transfer_resistances(&tree, &source, 2, &mut shared);
        assert_eq!(shared, [0.5, 1.5, 3.5, 1.5, 0.5]);
        transfer_resistances(&tree, &source, 0, &mut shared);
        assert_eq!(shared, [0.5; 5]);
        transfer_resistances(&tree, &source, 9, &mut shared);
        assert!(shared.is_empty());
    }

    #[test]
    fn derivatives_agree_with_the_closed_form_of_one_load() {
        // v = (V0 + sqrt(V0^2 - 4 R P))/2 (the worked form of IEEE 802.3 powered devices).
        let tree = Tree::new(vec![0, 0], vec![0.0, 8.0]).unwrap();
        let source = Source { voltage_v: 48.0, resistance_ohm: 2.0 };
        let power = [0.0, 20.0];
        let root = (48.0_f64 * 48.0 - 4.0 * 10.0 * 20.0).sqrt();
        let v = 0.5 * (48.0 + root);
        let voltages = [48.0 - 2.0 * 20.0 / v, v];
        let found = sensitivities(&tree, &source, &Loads::of_power(&power), &voltages, 1).unwrap();
        let close = |a: f64, b: f64| assert!((a - b).abs() < 1e-12 * b.abs(), "{a} {b}");
        close(found.per_power_v_per_w[1], -10.0 / root);
        close(found.per_resistance_v_per_ohm[1], -20.0 / root);
        close(found.per_resistance_v_per_ohm[0], -20.0 / root);
        close(found.per_supply_voltage, 0.5 * (1.0 + 48.0 / root));
        close(found.per_current_v_per_a[1], -10.0 / (root / v));
        assert!(sensitivities(&tree, &source, &Loads::of_power(&power), &voltages, 2).is_none());
        // The drop over the segment: v_0 - v_1 = 8 P/v.
        let drop =
            weighted_sensitivities(&tree, &source, &Loads::of_power(&power), &voltages, vec![1.0, -1.0]);
        close(drop.unwrap().per_supply_voltage, -0.5 * (1.0 + 48.0 / root) * 8.0 * 20.0 / (v * v));
    }
}
