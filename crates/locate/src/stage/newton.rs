//! The greatest solution of a tree of loads by Newton's method from above, without the enclosure that a verdict needs.
//!
//! From an upper bound of the solution, and with loads whose current is a convex function of the voltage, Newton's iterates fall to the greatest
//! solution, and every pivot on the way is positive (monotone Newton theorem: Ortega and Rheinboldt, Iterative Solution of Nonlinear Equations,
//! 13.3.4, number from memory). So a pivot that is not says that there is no solution, up to rounding: nothing here is certified.

use latchline_circuit::flow::Source;
use latchline_network::phase::StageLoads;

/// Steps before it is left to the solver that encloses.
const MOST_STEPS: usize = 40;
/// A step that changes no voltage by more volts ends it.
const SETTLED_V: f64 = 1e-8;

/// What came of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Found {
    /// The voltages are there.
    Solution,
    /// There is none, or the start was below it.
    Nothing,
    /// It did not end.
    Unclear,
}

/// Scratch of the two passes.
#[derive(Default)]
pub(super) struct Scratch {
    slope_s: Vec<f64>,
    current_a: Vec<f64>,
    inverse: Vec<f64>,
}

/// From `voltage_v`, which it overwrites.
pub(super) fn greatest(
    parent: &[u32],
    ohm: &[f64],
    source: &Source,
    loads: &StageLoads,
    voltage_v: &mut [f64],
    scratch: &mut Scratch,
) -> Found {
    let count = parent.len();
    scratch.inverse.resize(count, 0.0);
    for _ in 0..MOST_STEPS {
        scratch.slope_s.clear();
        scratch.slope_s.extend_from_slice(&loads.conductance_s);
        scratch.current_a.clear();
        scratch.current_a.extend_from_slice(&loads.current_a);
        let mut is_fine = true;
        for node in (0..count).rev() {
            let power_w = loads.power_w[node];
            if power_w > 0.0 {
                let behind_v = voltage_v[node] - loads.drop_v[node];
                is_fine &= behind_v > 0.0;
                let drawn_a = power_w / behind_v;
                scratch.slope_s[node] -= drawn_a / behind_v;
                scratch.current_a[node] += drawn_a + drawn_a / behind_v * voltage_v[node];
            }
            let above_ohm = if node == 0 { source.resistance_ohm } else { ohm[node] };
            let pivot = 1.0 + above_ohm * scratch.slope_s[node];
            is_fine &= pivot > 0.0;
            let inverse = 1.0 / pivot;
            scratch.inverse[node] = inverse;
            if node > 0 {
                let up = parent[node] as usize;
                scratch.slope_s[up] += scratch.slope_s[node] * inverse;
                scratch.current_a[up] += scratch.current_a[node] * inverse;
            }
        }
        if !is_fine {
            return Found::Nothing;
        }
        let mut change_v = 0.0_f64;
        for node in 0..count {
            let (above_v, above_ohm) = match node {
                0 => (source.voltage_v, source.resistance_ohm),
                _ => (voltage_v[parent[node] as usize], ohm[node]),
            };
            let new_v = (above_v - above_ohm * scratch.current_a[node]) * scratch.inverse[node];
            change_v = change_v.max((new_v - voltage_v[node]).abs());
            voltage_v[node] = new_v;
        }
        if !change_v.is_finite() {
            return Found::Unclear;
        }
        if change_v <= SETTLED_V {
            return Found::Solution;
        }
    }
    Found::Unclear
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One load of constant power behind one resistance: `v = (V + sqrt(V^2 - 4 R P)) / 2`, and none where that is not real.
    #[test]
    fn one_load_has_the_root_of_its_quadratic() {
        let source = Source { voltage_v: 48.0, resistance_ohm: 0.0 };
        let solved = |power_w: f64| {
            let loads = StageLoads {
                power_w: vec![0.0, power_w],
                current_a: vec![0.0; 2],
                conductance_s: vec![0.0; 2],
                drop_v: vec![0.0; 2],
            };
            let mut voltage_v = vec![48.0; 2];
            let found =
                greatest(&[0, 0], &[0.0, 20.0], &source, &loads, &mut voltage_v, &mut Scratch::default());
            (found, voltage_v[1])
        };
        let (found, voltage_v) = solved(10.0);
        assert_eq!(found, Found::Solution);
        assert!((voltage_v - 0.5 * (48.0 + (48.0_f64.powi(2) - 800.0).sqrt())).abs() < 1e-9, "{voltage_v}");
        // 28.8 W is the most that 20 ohm let through from 48 V.
        assert_eq!(solved(28.7).0, Found::Solution);
        assert_eq!(solved(28.9).0, Found::Nothing);
    }
}
