//! Putting an enclosure around the voltages in the workspace.

use super::super::enclosure::{is_above_image, is_strictly_below_image};
use super::super::newton::{factor, solve_right_side};
use super::super::precise::PreciseSweep;
use super::super::{Loads, Source, Tree};
use super::workspace::{Enclosure, Workspace};

/// Moves the voltages onto the solution to the last place: `T(v) - v` in double-double arithmetic is `(I -
/// K) e` for the error `e`, with `K = (G + g)^-1 P/x^2`; so `e = rho + h` with `J h = P/x^2 rho`.
pub(super) fn polish(
    tree: &Tree,
    source: &Source,
    loads: &Loads<'_>,
    workspace: &mut Workspace,
    sweep: &mut PreciseSweep,
) {
    for _ in 0..3 {
        let fine = factor(tree, source, loads, 1.0, &workspace.voltage_v, &mut workspace.factor)
            && sweep.residual(tree, source, loads, &workspace.voltage_v, &mut workspace.trial);
        if !fine {
            return;
        }
        for (node, e) in workspace.tangent.iter_mut().enumerate() {
            let x = workspace.voltage_v[node] - loads.drop(node);
            let power = loads.power(node);
            *e = if power > 0.0 { power / x / x * workspace.trial[node] } else { 0.0 };
        }
        solve_right_side(tree, source, &mut workspace.factor, &mut workspace.tangent);
        // Far from the solution the correction would mean nothing.
        let correction = |node: usize| workspace.trial[node] + workspace.tangent[node];
        let largest = (0..tree.len()).fold(0.0_f64, |most, node| most.max(correction(node).abs()));
        if !(largest < 1e-6 * source.voltage_v) {
            return;
        }
        for node in 0..tree.len() {
            workspace.voltage_v[node] += workspace.trial[node] + workspace.tangent[node];
        }
    }
}

/// Tries the uniform half width, then the one shaped like the response to growing loads; with a
/// `precise` sweep, in double-double arithmetic and ever wider.
pub(super) fn enclose(
    tree: &Tree,
    source: &Source,
    loads: &Loads<'_>,
    workspace: &mut Workspace,
    tolerance_v: f64,
    mut precise: Option<&mut PreciseSweep>,
) -> Option<Enclosure> {
    let nodes = tree.len();
    let mut half = 0.45 * tolerance_v;
    let attempts = if precise.is_some() { 40 } else { 1 };
    workspace.half_width_v.fill(half);
    if is_enclosed(tree, source, loads, workspace, precise.as_deref_mut()) {
        return Some(Enclosure { width_v: 2.0 * half, uniform: false });
    }
    if !factor(tree, source, loads, 1.0, &workspace.voltage_v, &mut workspace.factor) {
        return None;
    }
    for node in 0..nodes {
        workspace.tangent[node] = loads.current_at(node, workspace.voltage_v[node], 1.0);
    }
    solve_right_side(tree, source, &mut workspace.factor, &mut workspace.tangent);
    let largest = workspace.tangent.iter().fold(0.0_f64, |most, t| most.max(*t));
    if !(largest.is_finite() && largest > 0.0) {
        return None;
    }
    // Near the source the drops, and with them the room for rounding, are small: a few units in the last
    // place more.
    let floor = (16.0 * source.voltage_v * f64::EPSILON).min(0.05 * half);
    for _ in 0..attempts {
        for node in 0..nodes {
            workspace.half_width_v[node] = (half / largest) * workspace.tangent[node].max(0.0) + floor;
        }
        if is_enclosed(tree, source, loads, workspace, precise.as_deref_mut()) {
            return Some(Enclosure { width_v: 2.0 * (half + floor), uniform: false });
        }
        half *= 1.5;
    }
    None
}

/// Whether the greatest solution is within `voltage_v -+ half_width_v`.
fn is_enclosed(
    tree: &Tree,
    source: &Source,
    loads: &Loads<'_>,
    workspace: &mut Workspace,
    precise: Option<&mut PreciseSweep>,
) -> bool {
    let nodes = tree.len();
    for node in 0..nodes {
        workspace.trial[node] = workspace.voltage_v[node] - workspace.half_width_v[node];
    }
    match precise {
        None => {
            if !is_strictly_below_image(tree, source, loads, 1.0, &workspace.trial, &mut workspace.sweep) {
                return false;
            }
            for node in 0..nodes {
                workspace.trial[node] = workspace.voltage_v[node] + workspace.half_width_v[node];
            }
            is_above_image(tree, source, loads, 1.0, &workspace.trial, &mut workspace.sweep)
        }
        Some(sweep) => {
            if !sweep.is_strictly_below_image(tree, source, loads, &workspace.trial) {
                return false;
            }
            for node in 0..nodes {
                workspace.trial[node] = workspace.voltage_v[node] + workspace.half_width_v[node];
            }
            sweep.is_above_image(tree, source, loads, &workspace.trial)
        }
    }
}
