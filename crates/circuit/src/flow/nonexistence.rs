//! The certificate that there is no solution.

use super::enclosure::gamma;
use super::{Loads, Source, Tree};

/// Weights that show that the loads times `load_factor`, or any larger factor, have no solution.
///
/// `injected_a` is `c` of the module's mathematics: any nonnegative vector. Everything else follows from
/// it, so that it can be checked again elsewhere, in any precision: inject `c` into the dead network
/// (source short-circuited, resistive loads times `load_factor` kept), read the voltages `w` and the current
/// `y_0` through the source; there is no solution if
/// `sum [2 sqrt(load_factor c w P) + c Vd (where P > 0) + load_factor w I] > y_0 V0`.
#[derive(Clone, Debug, PartialEq)]
pub struct NonexistenceCertificate {
    /// The factor on all loads for which (and above which) there is no solution.
    pub load_factor: f64,
    /// `c`, A (its scale is arbitrary), in the order of the nodes.
    pub injected_a: Vec<f64>,
    /// `w`, V (same scale), in the order of the nodes, as computed here.
    pub weight_v: Vec<f64>,
    /// Left side over right side of the inequality; above 1.
    pub ratio: f64,
}

impl NonexistenceCertificate {
    /// Computes `w` for `injected_a` and returns the certificate if the inequality holds with the
    /// allowance for rounding, `None` if it does not.
    #[must_use]
    pub fn new(
        tree: &Tree,
        source: &Source,
        loads: &Loads<'_>,
        load_factor: f64,
        injected_a: Vec<f64>,
    ) -> Option<Self> {
        let (weight_v, left, right) = sides(tree, source, loads, load_factor, &injected_a)?;
        // Both sides are sums over the nodes on top of the two sweeps.
        let nodes = tree.len() as f64;
        let steps = tree.rounding_steps(!loads.conductance_s.is_empty()) + 4.0 * nodes + 32.0;
        let allowed = gamma(steps);
        // Zero against zero, infinite or undefined sides show nothing.
        let shown = left.is_finite() && right > 0.0 && left * (1.0 - allowed) > right * (1.0 + allowed);
        shown.then(|| Self { load_factor, injected_a, weight_v, ratio: left / right })
    }
}

/// `w` and the two sides of the inequality; `None` if the arrays do not fit or `c` is not a usable vector.
fn sides(
    tree: &Tree,
    source: &Source,
    loads: &Loads<'_>,
    load_factor: f64,
    injected_a: &[f64],
) -> Option<(Vec<f64>, f64, f64)> {
    let nodes = tree.len();
    if injected_a.len() != nodes || !injected_a.iter().all(|c| c.is_finite() && *c >= 0.0) {
        return None;
    }
    let parent = tree.parents();
    let resistance = tree.resistances_ohm();
    let mut slope_s = vec![0.0; nodes];
    let mut current_a = injected_a.to_vec();
    let mut weight_v = vec![0.0; nodes];
    for node in (0..nodes).rev() {
        let slope = slope_s[node] + load_factor * loads.conductance(node);
        let r = if node == 0 { source.resistance_ohm } else { resistance[node] };
        let pivot = 1.0 + r * slope;
        // Kept for the way down: w = (w_parent + r c)/pivot.
        weight_v[node] = pivot;
        slope_s[node] = r * current_a[node];
        if node > 0 {
            let up = parent[node] as usize;
            slope_s[up] += slope / pivot;
            current_a[up] += current_a[node] / pivot;
        }
    }
    let through_source = current_a[0] / weight_v[0];
    let mut left = 0.0;
    for node in 0..nodes {
        let above = if node == 0 { 0.0 } else { weight_v[parent[node] as usize] };
        let w = (above + slope_s[node]) / weight_v[node];
        weight_v[node] = w;
        let power = loads.power(node);
        let c = injected_a[node];
        if power > 0.0 {
            left += 2.0 * (load_factor * power * w * c).sqrt() + c * loads.drop(node);
        }
        left += load_factor * w * loads.current(node);
    }
    Some((weight_v, left, through_source * source.voltage_v))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One power load behind one resistance: c = 1 gives w = R, 2 sqrt(R P) > V0, that is P > V0^2/(4 R).
    #[test]
    fn one_load_gives_the_textbook_limit() {
        let tree = Tree::new(vec![0], vec![0.0]).unwrap();
        let source = Source { voltage_v: 44.0, resistance_ohm: 20.0 };
        // IEEE 802.3 type 1: 44 V, 20 ohm: limit 44^2/80 = 24.2 W.
        let at = |power: f64| {
            NonexistenceCertificate::new(&tree, &source, &Loads::of_power(&[power]), 1.0, vec![1.0])
        };
        assert!(at(24.3).is_some());
        assert!(at(24.200_000_001).is_some());
        assert!(at(24.2).is_none());
        assert!(at(24.1).is_none());
    }

    #[test]
    fn a_zero_ohm_segment_needs_no_division() {
        let tree = Tree::new(vec![0, 0, 1], vec![0.0, 0.0, 0.0]).unwrap();
        let source = Source { voltage_v: 44.0, resistance_ohm: 20.0 };
        let power = [0.0, 12.0, 12.3];
        let c = vec![0.0, 12.0, 12.3];
        let found = NonexistenceCertificate::new(&tree, &source, &Loads::of_power(&power), 1.0, c).unwrap();
        assert_eq!(found.weight_v, vec![20.0 * 24.3; 3]);
        assert!((found.ratio - (24.3_f64 / 24.2).sqrt()).abs() < 1e-12, "{}", found.ratio);
    }

    #[test]
    fn shows_nothing_with_unusable_weights() {
        let tree = Tree::new(vec![0], vec![0.0]).unwrap();
        let source = Source { voltage_v: 44.0, resistance_ohm: 20.0 };
        for c in [vec![], vec![0.0], vec![-1.0], vec![f64::NAN], vec![f64::INFINITY]] {
            let loads = Loads::of_power(&[1e3]);
            assert!(NonexistenceCertificate::new(&tree, &source, &loads, 1.0, c).is_none());
        }
    }
}
