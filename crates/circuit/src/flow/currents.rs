//! Currents and losses that belong to given voltages.

use super::{Loads, Source, Tree};

/// Currents of a solved tree.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Currents {
    /// Current through the segment above every node, away from the root, A; entry 0 is the current of
    /// the source.
    pub branch_a: Vec<f64>,
    /// Loss in the segment above every node, W; entry 0 is the loss in the source resistance.
    pub loss_w: Vec<f64>,
}

/// Sums the load currents at the voltages `voltage_v` (V) from the leaves to the root.
///
/// `voltage_v` must have one entry a node; missing ones are taken as the supply voltage.
#[must_use]
pub fn branch_currents(tree: &Tree, source: &Source, loads: &Loads<'_>, voltage_v: &[f64]) -> Currents {
    let nodes = tree.len();
    let parent = tree.parents();
    let mut branch_a: Vec<f64> = (0..nodes)
        .map(|node| {
            let v = voltage_v.get(node).copied().unwrap_or(source.voltage_v);
            loads.current_at(node, v, 1.0)
        })
        .collect();
    for node in (1..nodes).rev() {
        let current = branch_a[node];
        branch_a[parent[node] as usize] += current;
    }
    let loss_w = (0..nodes)
        .map(|node| {
            let r = if node == 0 { source.resistance_ohm } else { tree.resistances_ohm()[node] };
            r * branch_a[node] * branch_a[node]
        })
        .collect();
    Currents { branch_a, loss_w }
}
