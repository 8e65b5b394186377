//! The two passes over the tree at the frequencies of one block.
//!
//! The same code is compiled three times, for the base instruction set, for AVX2 and for AVX-512. Nothing
//! fuses multiplication and addition (the compiler does not unless told to), so all give the same bits.
#![allow(unsafe_code)]
#![expect(clippy::needless_range_loop, reason = "loops over lanes index several arrays alike")]

use super::branch::{LineBlock, add, multiply, through_line, through_tee};
use super::driving::driving_points;
use super::elements::Shunt;
use super::lanes::{LANES, Phasors, gain_db};
use super::passes::{InstructionSet, Passes, tees};
use super::tree::SignalTree;

/// Solves for the source at the last node of `path` (which begins at the root).
pub(super) fn solve(
    tree: &SignalTree,
    path: &[usize],
    source_impedance_ohm: f64,
    frequencies_hz: &[f64; LANES],
    passes: &mut Passes,
) {
    #[cfg(target_arch = "x86_64")]
    if passes.widest >= InstructionSet::Avx512
        && std::arch::is_x86_feature_detected!("avx512f")
        && std::arch::is_x86_feature_detected!("avx512dq")
    {
        // SAFETY: the processor has just been found to have both extensions, all that the function needs
        // beyond safe Rust.
        unsafe { solve_with_avx512(tree, path, source_impedance_ohm, frequencies_hz, passes) };
        return;
    }
    #[cfg(target_arch = "x86_64")]
    if passes.widest >= InstructionSet::Avx2 && std::arch::is_x86_feature_detected!("avx2") {
        // SAFETY: the processor has just been found to have AVX2, all that the function needs beyond
        // safe Rust.
        unsafe { solve_with_avx2(tree, path, source_impedance_ohm, frequencies_hz, passes) };
        return;
    }
    solve_anywhere(tree, path, source_impedance_ohm, frequencies_hz, passes);
}

#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx2")]
fn solve_with_avx2(
    tree: &SignalTree,
    path: &[usize],
    source_impedance_ohm: f64,
    frequencies_hz: &[f64; LANES],
    passes: &mut Passes,
) {
    solve_anywhere(tree, path, source_impedance_ohm, frequencies_hz, passes);
}

#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx512f,avx512dq")]
fn solve_with_avx512(
    tree: &SignalTree,
    path: &[usize],
    source_impedance_ohm: f64,
    frequencies_hz: &[f64; LANES],
    passes: &mut Passes,
) {
    solve_anywhere(tree, path, source_impedance_ohm, frequencies_hz, passes);
}

/// Gains in decibel at one node.
pub(super) fn gains_db(
    widest: InstructionSet,
    voltage: &Phasors,
    attenuation_np: &[f64; LANES],
) -> [f64; LANES] {
    #[cfg(target_arch = "x86_64")]
    if widest >= InstructionSet::Avx512
        && std::arch::is_x86_feature_detected!("avx512f")
        && std::arch::is_x86_feature_detected!("avx512dq")
    {
        // SAFETY: the processor has just been found to have both extensions, all that the function needs
        // beyond safe Rust.
        return unsafe { gains_db_with_avx512(voltage, attenuation_np) };
    }
    #[cfg(target_arch = "x86_64")]
    if widest >= InstructionSet::Avx2 && std::arch::is_x86_feature_detected!("avx2") {
        // SAFETY: the processor has just been found to have AVX2, all that the function needs beyond
        // safe Rust.
        return unsafe { gains_db_with_avx2(voltage, attenuation_np) };
    }
    gains_db_anywhere(voltage, attenuation_np)
}

#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx2")]
fn gains_db_with_avx2(voltage: &Phasors, attenuation_np: &[f64; LANES]) -> [f64; LANES] {
    gains_db_anywhere(voltage, attenuation_np)
}

#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx512f,avx512dq")]
fn gains_db_with_avx512(voltage: &Phasors, attenuation_np: &[f64; LANES]) -> [f64; LANES] {
    gains_db_anywhere(voltage, attenuation_np)
}

#[inline(always)]
fn gains_db_anywhere(voltage: &Phasors, attenuation_np: &[f64; LANES]) -> [f64; LANES] {
    let mut gains_db = [0.0; LANES];
    for i in 0..LANES {
        gains_db[i] = gain_db(voltage.re[i], voltage.im[i], attenuation_np[i]);
    }
    gains_db
}

#[inline(always)]
fn solve_anywhere(
    tree: &SignalTree,
    path: &[usize],
    source_impedance_ohm: f64,
    frequencies_hz: &[f64; LANES],
    passes: &mut Passes,
) {
    let nodes = tree.node_count();
    passes.admittance_s.clear();
    passes.admittance_s.resize(nodes, Phasors::ZERO);
    passes.voltage.resize(nodes, Phasors::ZERO);
    passes.attenuation_np.resize(nodes, [0.0; LANES]);
    passes.added_s.resize(nodes, Phasors::ZERO);
    passes.on_path.clear();
    passes.on_path.resize(nodes, false);
    for &node in path {
        passes.on_path[node] = true;
    }
    passes.lines.resize(tree.lines().len(), LineBlock::ZERO);
    for (line, block) in tree.lines().iter().zip(&mut passes.lines) {
        block.fill(line, frequencies_hz);
    }
    for (node, shunt) in tree.shunts() {
        add_shunt(shunt, frequencies_hz, &mut passes.admittance_s[*node]);
    }
    up(tree, frequencies_hz, passes);
    turn_round(tree, path, frequencies_hz, passes);
    down(tree, path, source_impedance_ohm, passes);
    if passes.wants_driving {
        driving_points(tree, source_impedance_ohm, frequencies_hz, passes);
    }
}

#[inline(always)]
fn add_shunt(shunt: &Shunt, frequencies_hz: &[f64; LANES], sum: &mut Phasors) {
    if let Shunt::Load { resistance_ohm, series_capacitance_f: None, parallel_capacitance_f } = *shunt {
        // The usual bridging load, apart because this loop becomes vector code.
        for i in 0..LANES {
            sum.re[i] += 1.0 / resistance_ohm;
            sum.im[i] += std::f64::consts::TAU * frequencies_hz[i] * parallel_capacitance_f;
        }
        return;
    }
    for (i, &frequency_hz) in frequencies_hz.iter().enumerate() {
        let admittance = shunt.admittance_s(frequency_hz);
        sum.re[i] += admittance.re;
        sum.im[i] += admittance.im;
    }
}

/// From the leaves to the root, leaving out the branches on the way to the source.
#[inline(always)]
fn up(tree: &SignalTree, frequencies_hz: &[f64; LANES], passes: &mut Passes) {
    for (k, branch) in tree.branches().iter().enumerate().rev() {
        let node = k + 1;
        if passes.on_path[node] {
            continue;
        }
        let (nearer, farther) = passes.admittance_s.split_at_mut(node);
        let (near, far) = (&mut nearer[branch.parent], &farther[0]);
        let line = &passes.lines[branch.line];
        let ratio = &mut passes.voltage[node];
        let added = &mut passes.added_s[node];
        *added = Phasors::ZERO;
        match tees(tree, node, frequencies_hz) {
            None => through_line(line, branch.length_m, far, added, ratio),
            Some(tees) => {
                let (mut end, mut through) = (Phasors::ZERO, Phasors::ZERO);
                through_tee(&tees, false, far, &mut end, &mut through);
                through_line(line, branch.length_m, &end, added, ratio);
                multiply(ratio, &through);
            }
        }
        add(near, added);
    }
}

/// Along the way from the root to the source's node: each branch is seen from its far end. The ratio goes
/// to the node nearer the root, which is the farther one from the source.
#[inline(always)]
fn turn_round(tree: &SignalTree, path: &[usize], frequencies_hz: &[f64; LANES], passes: &mut Passes) {
    for step in path.windows(2) {
        let (parent, node) = (step[0], step[1]);
        let branch = &tree.branches()[node - 1];
        let (lower, upper) = passes.admittance_s.split_at_mut(node);
        let (far, near) = (&lower[parent], &mut upper[0]);
        let line = &passes.lines[branch.line];
        let ratio = &mut passes.voltage[parent];
        match tees(tree, node, frequencies_hz) {
            None => through_line(line, branch.length_m, far, near, ratio),
            Some(tees) => {
                let mut end = Phasors::ZERO;
                through_line(line, branch.length_m, far, &mut end, ratio);
                let (mut input, mut through) = (Phasors::ZERO, Phasors::ZERO);
                through_tee(&tees, true, &end, &mut input, &mut through);
                multiply(ratio, &through);
                add(near, &input);
            }
        }
    }
}

/// From the source's node to all others.
#[inline(always)]
fn down(tree: &SignalTree, path: &[usize], source_impedance_ohm: f64, passes: &mut Passes) {
    let Passes { admittance_s, voltage, attenuation_np, lines, on_path, .. } = passes;
    let Some(&source) = path.last() else { return };
    for i in 0..LANES {
        let re = 1.0 + source_impedance_ohm * admittance_s[source].re[i];
        let im = source_impedance_ohm * admittance_s[source].im[i];
        let square = re * re + im * im;
        voltage[source].re[i] = re / square;
        voltage[source].im[i] = -im / square;
    }
    attenuation_np[source] = [0.0; LANES];
    for step in path.windows(2).rev() {
        let (parent, node) = (step[0], step[1]);
        let branch = &tree.branches()[node - 1];
        let (lower, upper) = voltage.split_at_mut(node);
        let (lower_np, upper_np) = attenuation_np.split_at_mut(node);
        carry(
            &upper[0],
            &upper_np[0],
            &lines[branch.line],
            branch.length_m,
            &mut lower[parent],
            &mut lower_np[parent],
        );
    }
    for (k, branch) in tree.branches().iter().enumerate() {
        let node = k + 1;
        if on_path[node] {
            continue;
        }
        let (lower, upper) = voltage.split_at_mut(node);
        let (lower_np, upper_np) = attenuation_np.split_at_mut(node);
        carry(
            &lower[branch.parent],
            &lower_np[branch.parent],
            &lines[branch.line],
            branch.length_m,
            &mut upper[0],
            &mut upper_np[0],
        );
    }
}

/// Beyond these magnitudes a voltage is rescaled.
const SMALL: f64 = f64::from_bits((1023 - 300) << 52);
const LARGE: f64 = f64::from_bits((1023 + 300) << 52);
/// `ln(2^300)`.
const LN_SCALE: f64 = 207.944_154_167_983_6;

/// Turns the ratio in `there` into the voltage there.
#[inline(always)]
fn carry(
    here: &Phasors,
    here_np: &[f64; LANES],
    line: &LineBlock,
    length_m: f64,
    there: &mut Phasors,
    there_np: &mut [f64; LANES],
) {
    multiply(there, here);
    for i in 0..LANES {
        let size = there.re[i].abs().max(there.im[i].abs());
        let (scale, shift_np) = if size < SMALL {
            (LARGE, LN_SCALE)
        } else if size > LARGE {
            (SMALL, -LN_SCALE)
        } else {
            (1.0, 0.0)
        };
        there.re[i] *= scale;
        there.im[i] *= scale;
        there_np[i] = here_np[i] + line.attenuation_np_per_m[i] * length_m + shift_np;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::signal::{Branch, Line, LineLaw, PlainLine};

    #[test]
    fn the_scale_is_a_power_of_two() {
        assert_eq!(LARGE, 2.0_f64.powi(300));
        assert_eq!(SMALL, 2.0_f64.powi(-300));
        assert!((LN_SCALE - 300.0 * std::f64::consts::LN_2).abs() < 1e-12);
    }

    /// The vector code and the plain code are the same arithmetic.
    #[test]
    fn all_instruction_sets_give_the_same_bits() {
        let line = Line::new(LineLaw::Plain(PlainLine {
            r_ohm_per_m: 0.176,
            l_h_per_m: 6e-7,
            c_f_per_m: 5e-11,
            g_s_per_m: 1e-9,
            skin_corner_hz: Some(6e4),
            loss_tangent: 0.01,
        }))
        .unwrap();
        let branches = (1..200_usize)
            .map(|k| Branch { parent: (k * 7919) % k, line: 0, length_m: 0.3 * (k % 37) as f64, entry: None })
            .collect();
        let mut tree = SignalTree::new(vec![line], branches).unwrap();
        for node in 1..200 {
            let load = Shunt::Load {
                resistance_ohm: 100.0 * node as f64,
                series_capacitance_f: None,
                parallel_capacitance_f: 1e-10,
            };
            tree.add_shunt(node, load).unwrap();
        }
        let frequencies_hz = std::array::from_fn(|i| 300.0 * 2.5_f64.powi(i as i32));
        let path = tree.path_from_root(150).unwrap();
        let mut plain = Passes { widest: InstructionSet::Base, ..Passes::default() };
        solve_anywhere(&tree, &path, 100.0, &frequencies_hz, &mut plain);
        let same = |other: &Passes| {
            for node in 0..200 {
                assert_eq!(plain.voltage[node].re, other.voltage[node].re);
                assert_eq!(plain.voltage[node].im, other.voltage[node].im);
                assert_eq!(plain.attenuation_np[node], other.attenuation_np[node]);
                let of = |passes: &Passes| {
                    gains_db(passes.widest, &passes.voltage[node], &passes.attenuation_np[node])
                };
                assert_eq!(of(&plain), of(other));
            }
        };
        for widest in [InstructionSet::Base, InstructionSet::Avx2, InstructionSet::Avx512] {
            let mut passes = Passes { widest, ..Passes::default() };
            solve(&tree, &path, 100.0, &frequencies_hz, &mut passes);
            same(&passes);
        }
    }
}
