//! Driving-point admittances: what a source put at any node would find, in one more pass from the root.
//!
//! With the source at the root, the admittance at a node is that of its subtree, known from the pass up, and
//! that of the rest of the network through the branch from its parent:
//!
//! ```text
//! total(root) = up(root) + 1/Zs
//! total(k)    = up(k) + through branch k, backwards (total(parent) - what branch k adds to it)
//! ```
//!
//! With it a load `Y` at a node can be exchanged for `Y'` without solving again (Thevenin):
//! `V' = V total / (total + Y' - Y)`.

use super::branch::{add, through_line, through_tee};
use super::lanes::{LANES, Phasors};
use super::passes::{Passes, tees};
use super::tree::SignalTree;

/// Fills [`Passes::driving_s`] after the passes up and down with the source at the root.
#[inline(always)]
pub(super) fn driving_points(
    tree: &SignalTree,
    source_impedance_ohm: f64,
    frequencies_hz: &[f64; LANES],
    passes: &mut Passes,
) {
    let Passes { admittance_s, added_s, driving_s, lines, .. } = passes;
    driving_s.clear();
    driving_s.resize(tree.node_count(), Phasors::ZERO);
    for i in 0..LANES {
        driving_s[0].re[i] = admittance_s[0].re[i] + 1.0 / source_impedance_ohm;
        driving_s[0].im[i] = admittance_s[0].im[i];
    }
    for (k, branch) in tree.branches().iter().enumerate() {
        let node = k + 1;
        let line = &lines[branch.line];
        let mut ratio = Phasors::ZERO;
        let mut rest = driving_s[branch.parent];
        for i in 0..LANES {
            rest.re[i] -= added_s[node].re[i];
            rest.im[i] -= added_s[node].im[i];
        }
        let mut total = admittance_s[node];
        match tees(tree, node, frequencies_hz) {
            None => through_line(line, branch.length_m, &rest, &mut total, &mut ratio),
            Some(tees) => {
                let (mut end, mut input) = (Phasors::ZERO, Phasors::ZERO);
                through_line(line, branch.length_m, &rest, &mut end, &mut ratio);
                through_tee(&tees, true, &end, &mut input, &mut ratio);
                add(&mut total, &input);
            }
        }
        driving_s[node] = total;
    }
}

#[cfg(test)]
mod tests {
    use super::super::{
        Branch, Entry, Line, LineLaw, LossPoint, PlainLine, Shunt, SignalTree, Source, Workspace, respond,
        sweep_with_driving_points,
    };

    fn load(resistance_ohm: f64, parallel_capacitance_f: f64) -> Shunt {
        Shunt::Load { resistance_ohm, series_capacitance_f: None, parallel_capacitance_f }
    }

    /// Exchanging the load of a node by its driving point is the same as solving with the other load.
    #[test]
    fn a_load_exchanged_is_a_load_solved() {
        let line = Line::new(LineLaw::Plain(PlainLine {
            r_ohm_per_m: 0.176,
            l_h_per_m: 6e-7,
            c_f_per_m: 5e-11,
            g_s_per_m: 0.0,
            skin_corner_hz: Some(1e5),
            loss_tangent: 0.02,
        }))
        .unwrap();
        let loss =
            Entry::Loss { reference_ohm: 100.0, table: vec![LossPoint { frequency_hz: 1e3, loss_db: 3.0 }] };
        let branch = |parent, length_m, entry| Branch { parent, line: 0, length_m, entry };
        let branches = vec![
            branch(0, 30.0, None),
            branch(1, 0.0, Some(loss)),
            branch(2, 22.0, None),
            branch(2, 41.0, None),
            branch(3, 9.0, None),
        ];
        let build = |at_four: Shunt| {
            let mut tree = SignalTree::new(vec![line], branches.clone()).unwrap();
            for (node, shunt) in [(3, load(15e3, 8e-11)), (4, at_four), (5, load(2e3, 1e-10))] {
                tree.add_shunt(node, shunt).unwrap();
            }
            tree
        };
        let (idle, busy) = (load(15e3, 8e-11), load(100.0, 0.0));
        let frequencies_hz: Vec<f64> = (0..40).map(|k| 1e3 * 1.28_f64.powi(k)).collect();
        let source = Source { node: 0, impedance_ohm: 100.0 };
        let mut workspace = Workspace::default();
        let solved = respond(&build(busy), source, &frequencies_hz, &mut workspace).unwrap();
        sweep_with_driving_points(&build(idle), 100.0, &frequencies_hz, &mut workspace, |block| {
            for i in 0..block.count {
                let frequency_hz = frequencies_hz[block.first + i];
                let total = block.driving_point_s(4, i);
                let change = busy.admittance_s(frequency_hz) - idle.admittance_s(frequency_hz);
                let exchanged = total / (total + change);
                let gain_db = block.gain_db(4, i) + 20.0 * exchanged.norm().log10();
                assert!((gain_db - solved.gain_db(4, block.first + i)).abs() < 1e-9);
            }
        })
        .unwrap();
    }
}
